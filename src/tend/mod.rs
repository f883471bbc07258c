//! Presses again at every save, and shows it in a browser on this machine.
//!
//! [`Session`] decides whether anything is to be done: it keeps every answer that the last press had from the folder, and
//! presses only where one of them would be another now. It runs the same pipeline as `press` does, so what it presses is
//! what `press` would press. [`Shown`] is what the preview shows of it: the last good state of pages that a save broke, and
//! a line that says so. [`Preview`] answers a browser out of memory. [`run()`] goes round until it is stopped.

mod answers;
mod drawn;
mod preview;
mod ready;
mod run;
mod session;
mod shown;
mod stripe;

pub use preview::Preview;
pub use run::{Options, Signal, Teller, run};
pub use session::{First, Named, Round, Session, Worked};
pub use shown::{Page, Shown};

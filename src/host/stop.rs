//! The machine's polite word that it is time to go: Ctrl-C, a closed terminal, a shutdown.

use std::io;

use super::HostError;

/// Calls `stop` when the machine asks this program to end. Asked a second time, the program ends at once: what is being
/// written is put right by the next run. May be called once.
pub fn on_stop(stop: impl Fn() + Send + 'static) -> Result<(), HostError> {
    let mut asked = false;
    let set = ctrlc::set_handler(move || {
        if std::mem::replace(&mut asked, true) {
            end_at_once();
        }
        stop();
    });
    set.map_err(|error| HostError {
        doing: "listen for",
        path: "Ctrl-C".to_owned(),
        cause: io::Error::other(error),
    })
}

#[expect(
    clippy::exit,
    reason = "whoever asks twice does not want to wait for what is at work"
)]
fn end_at_once() {
    // 128 and the number of the interrupt signal, as POSIX shells report it.
    std::process::exit(130);
}

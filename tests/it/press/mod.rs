//! Cards as they come off the press, read back from the PDF by other programs' eyes: lopdf always, poppler where it is
//! installed.

mod cards;
mod faults;
mod labels;
mod languages;
mod only;
mod pages;
mod papers;
pub(crate) mod read;
mod readers;
mod rebuilt;
mod red;
mod sizes;
mod stays;
mod templates;

use std::sync::LazyLock;

use trayside::press::Press;

/// One press for all tests: it is made to be shared.
static PRESS: LazyLock<Press> = LazyLock::new(Press::new);

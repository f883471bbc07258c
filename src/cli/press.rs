//! `trayside press`: check, then press cards and site.
use super::arguments::Press;
use super::{Outcome, Stop};
pub(crate) fn run(_: &Press) -> Result<Outcome, Stop> {
    Err(Stop("x".into()))
}

//! `trayside mix`: the weighing-out sheet of a recipe.
use super::arguments::Mix;
use super::{Outcome, Stop};
pub(crate) fn run(_: &Mix) -> Result<Outcome, Stop> {
    Err(Stop("x".into()))
}

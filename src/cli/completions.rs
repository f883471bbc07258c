//! `trayside completions`: what a shell needs to complete commands and their options.

use clap::CommandFactory;

use super::arguments::{Arguments, Completions};
use super::{Outcome, terminal};

pub(crate) fn run(arguments: &Completions) -> Outcome {
    let mut script = Vec::new();
    let mut command = Arguments::command();
    clap_complete::generate(arguments.shell, &mut command, "trayside", &mut script);
    terminal::show(&String::from_utf8_lossy(&script));
    Outcome::Clean
}

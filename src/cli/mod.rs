//! The command line: arguments, one file per command, and what a person is shown.

mod arguments;
mod begin;
mod completions;
mod expose;
mod facts;
mod kept;
mod mix;
mod press;
mod progress;
mod proof;
pub mod reference;
mod schema;
mod tend;
mod terminal;
mod why;
mod wrap;

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use clap::Parser;

use crate::host::{Disk, HostError};

use arguments::{Arguments, Command};

/// How a command ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// Nothing refused.
    Clean,
    /// The notebook has faults, or hazards that nobody acknowledged.
    Refused,
}

/// Why a command could not run.
#[derive(Debug)]
pub(crate) struct Stop(pub(crate) String);

impl From<HostError> for Stop {
    fn from(error: HostError) -> Self {
        Self(error.to_string())
    }
}

/// Runs the command that the arguments name: 0 clean, 1 the notebook has faults, 2 could not run.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let parsed = match Arguments::try_parse_from(arguments) {
        Ok(parsed) => parsed,
        Err(error) => {
            let shown = error.print();
            return if error.use_stderr() || shown.is_err() {
                ExitCode::from(2)
            } else {
                ExitCode::SUCCESS
            };
        }
    };
    let outcome = match parsed.command {
        Command::Begin(arguments) => begin::run(&arguments),
        Command::Proof(arguments) => proof::run(&arguments),
        Command::Press(arguments) => press::run(&arguments),
        Command::Tend(arguments) => tend::run(&arguments),
        Command::Mix(arguments) => mix::run(&arguments),
        Command::Expose(arguments) => expose::run(&arguments),
        Command::Facts(arguments) => facts::run(&arguments),
        Command::Why(arguments) => why::run(&arguments),
        Command::Schema(arguments) => schema::run(&arguments),
        Command::Completions(arguments) => Ok(completions::run(&arguments)),
    };
    match outcome {
        Ok(Outcome::Clean) => ExitCode::SUCCESS,
        Ok(Outcome::Refused) => ExitCode::from(1),
        Err(Stop(why)) => {
            terminal::complain(&why);
            ExitCode::from(2)
        }
    }
}

/// The folder of a command that takes one, else the current one; it need not hold settings.
pub(crate) fn open_notebook(named: Option<&PathBuf>) -> Result<Disk, Stop> {
    let folder = named.cloned().unwrap_or_else(Disk::current);
    Ok(Disk::open(&folder)?)
}

/// The notebook of a command that works on one block: as named, else the nearest parent with `trayside.yaml`.
pub(crate) fn nearest_notebook(named: Option<&PathBuf>) -> Result<Disk, Stop> {
    if named.is_some() {
        return open_notebook(named);
    }
    let here: &Path = &Disk::current();
    let found = Disk::nearest_notebook(here).ok_or_else(|| {
        Stop("no trayside.yaml in this folder or above it; name the notebook with --notebook".to_owned())
    })?;
    Ok(Disk::open(&found)?)
}

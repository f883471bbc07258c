//! Arguments in, exit code out: 0 clean, 1 the notebook has faults, 2 could not run.

use std::process::ExitCode;

fn main() -> ExitCode {
    trayside::cli::run(std::env::args_os())
}

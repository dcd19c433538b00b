//! The program; all it does is in [`chasewright::cli`].

use std::process::ExitCode;

use chasewright::cli;

fn main() -> ExitCode {
    cli::main(&cli::WORK).into()
}

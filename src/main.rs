//! The program; all it does is in [`chasewright::cli`].

use std::process::ExitCode;

use chasewright::cli;
use mimalloc::MiMalloc;

#[global_allocator]
static HEAP: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    cli::main(&cli::WORK).into()
}

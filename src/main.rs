//! The program; all it does is in [`chasewright::cli`].

use std::process::ExitCode;

use chasewright::cli::{self, Work};

fn main() -> ExitCode {
    let work = Work {
        check: |_, _| Err("this build has no checks".to_owned()),
        build: |_| Err("this build has no exporters".to_owned()),
    };
    cli::main(&work).into()
}

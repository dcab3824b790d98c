//! The `tamis` program.

use std::process::ExitCode;

fn main() -> ExitCode {
    tamis::cli::run(std::env::args_os())
}

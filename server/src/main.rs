//! The `tamis` program.

use std::process::ExitCode;

use mimalloc::MiMalloc;

/// A recipe is read into many small pieces, which this allocator hands out about twice as fast as the system's.
#[global_allocator]
static ALLOCATOR: MiMalloc = MiMalloc;

fn main() -> ExitCode {
    tamis::cli::run(std::env::args_os())
}

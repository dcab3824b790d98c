//! `tamis completions`: what a shell needs to complete the commands.

use std::io;

use clap::CommandFactory;
use clap_complete::{Shell, generate};

use super::Outcome;
use super::arguments::Arguments;
use super::console::Console;

/// Prints the script for a shell.
pub fn completions(shell: Shell, console: &mut Console) -> io::Result<Outcome> {
    let mut script = Vec::new();
    generate(shell, &mut Arguments::command(), "tamis", &mut script);
    console.print(&String::from_utf8_lossy(&script))?;
    Ok(Outcome::Clean)
}

//! The command line: arguments in, answers for a terminal or another program out. Knows nothing of the kitchen.

mod arguments;
mod check;
mod console;
mod difference;
mod explain;
mod facts;
mod format;
mod report;
mod schema;
mod stream;
mod uses;
mod wrap;

use std::ffi::OsString;
use std::io;
use std::ops::ControlFlow;
use std::process::ExitCode;

use clap::Parser;

use crate::lsp;
use crate::workspace::read::read;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::Source;
use arguments::{Arguments, Command, Output};
use console::{Console, complain};

/// How a command ended, from best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Outcome {
    /// All was done, and nothing is wrong.
    Clean = 0,
    /// All was done, and something is wrong.
    Found = 1,
    /// Something could not be done.
    Failed = 2,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        ExitCode::from(outcome as u8)
    }
}

/// Does what the arguments ask, the first of which is the program's own name.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> ExitCode {
    let arguments = match Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(message) => {
            // A closed output is no reason to fail a second time.
            let _ = message.print();
            return if message.use_stderr() { Outcome::Failed } else { Outcome::Clean }.into();
        }
    };
    obey(&arguments.command).unwrap_or_else(|error| match error.kind() {
        // The reader has seen enough, as `head` has.
        io::ErrorKind::BrokenPipe => Outcome::Clean.into(),
        _ => {
            complain(&format_args!("the answer could not be written: {error}"));
            Outcome::Failed.into()
        }
    })
}

fn obey(command: &Command) -> io::Result<ExitCode> {
    match command {
        Command::Check { what, strict, fix: false, .. } => {
            print(what.output, |console| check::check(what, *strict, console))
        }
        Command::Check { what, diff: true, .. } => print(Output::Text, |console| check::preview(what, console)),
        Command::Check { what, strict, .. } => {
            print(what.output, |console| check::mend_and_check(what, *strict, console))
        }
        Command::Format { paths, check, diff } => {
            print(Output::Text, |console| format::format(paths, *check, *diff, console))
        }
        Command::Uses { what } => print(what.output, |console| uses::uses(what, console)),
        Command::Facts { food, amount, output } => {
            let question = [std::slice::from_ref(food), amount].concat().join(" ");
            print(*output, |console| facts::facts(&question, *output, console))
        }
        Command::Explain { code } => print(Output::Text, |console| explain::explain(code.as_deref(), console)),
        Command::Schema => print(Output::Json, schema::schema),
        Command::Lsp { .. } => Ok(lsp::run()),
    }
}

fn print(output: Output, show: impl FnOnce(&mut Console) -> io::Result<Outcome>) -> io::Result<ExitCode> {
    let mut console = Console::of_process(output);
    let outcome = show(&mut console)?;
    console.finish()?;
    Ok(outcome.into())
}

/// Reads every file that was found, several at a time, and prints in their order what `show` makes of it and its text: as it is, or as elements of one JSON array. Beside the print, `show` gives a note, which `keep` gets. A text is
/// dropped as soon as it has been shown, so memory does not grow with their number.
fn each_file<N: Send>(
    sources: &[Source],
    troubles: &[Trouble],
    output: Output,
    console: &mut Console,
    show: impl Fn(&Source, &str) -> (String, N) + Sync,
    mut keep: impl FnMut(N),
) -> io::Result<Outcome> {
    for trouble in troubles {
        console.complain(trouble)?;
    }
    let mut outcome = if troubles.is_empty() { Outcome::Clean } else { Outcome::Failed };
    let mut array = JsonArray::default();
    let mut written = Ok(());
    let work = |source: &Source| read(source).map(|text| show(source, &text));
    stream::in_order(sources, work, |source, answer| {
        written = match answer.unwrap_or_else(|_| Err(Trouble::of(source, Fault::Ours))) {
            Err(trouble) => {
                outcome = Outcome::Failed;
                console.complain(&trouble)
            }
            Ok((shown, note)) => {
                keep(note);
                match output {
                    Output::Text => console.print(&shown),
                    Output::Json => array.add(&shown, console),
                }
            }
        };
        if written.is_ok() { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    written?;
    if output == Output::Json {
        array.close(console)?;
    }
    Ok(outcome)
}

/// An array that is written while its elements are still being found.
#[derive(Default)]
struct JsonArray {
    has_elements: bool,
}

impl JsonArray {
    /// Adds elements that are already joined by commas; none is fine.
    fn add(&mut self, elements: &str, console: &mut Console) -> io::Result<()> {
        if elements.is_empty() {
            return Ok(());
        }
        console.print(if self.has_elements { ",\n" } else { "[\n" })?;
        self.has_elements = true;
        console.print(elements)
    }

    fn close(self, console: &mut Console) -> io::Result<()> {
        console.print(if self.has_elements { "\n]\n" } else { "[]\n" })
    }
}

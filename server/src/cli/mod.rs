//! The command line: arguments in, answers for a terminal or another program out. Knows nothing of the kitchen.

mod arguments;
mod check;
mod completions;
mod console;
mod difference;
mod explain;
mod facts;
mod format;
mod frame;
mod report;
mod scale;
mod schema;
mod stream;
mod uses;
mod watch;
mod wrap;

use std::ffi::OsString;
use std::io;
use std::ops::ControlFlow;
use std::process::ExitCode;

use clap::Parser;

use crate::assist::Wanted;
use crate::lsp;
use crate::workspace::read::read;
use crate::workspace::trouble::{Fault, Trouble};
use crate::workspace::walk::Source;
use arguments::{Arguments, Command, Form, Output};
use console::{Console, complain};
use frame::Frame;

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
    let text = Output::Text;
    match command {
        Command::Check { what, fix: true, diff: true, .. } => print(true, |console| check::preview(what, console)),
        Command::Check { what, fix: true, .. } => {
            print(what.output == Form::Text, |console| check::mend_and_check(what, console))
        }
        Command::Check { what, write_baseline: Some(file), .. } => {
            print(true, |console| check::write_baseline(what, file.as_deref(), console))
        }
        Command::Check { what, watch: true, .. } => watch::watch(what),
        Command::Check { what, .. } => print(what.output == Form::Text, |console| check::check(what, console)),
        Command::Format { paths, check, diff } => print(true, |console| format::format(paths, *check, *diff, console)),
        Command::Scale { paths, serves, by, diff, write } => {
            let wanted = by.map(Wanted::Times).or(serves.map(Wanted::For)).unwrap_or(Wanted::Times(1.0));
            let answer = scale::Answer::of(*diff, *write);
            print(true, |console| scale::scale(paths, wanted, answer, console))
        }
        Command::Uses { what } => print(what.output == text, |console| uses::uses(what, console)),
        Command::Facts { food, amount, output } => {
            let question = [std::slice::from_ref(food), amount].concat().join(" ");
            print(*output == text, |console| facts::facts(&question, *output, console))
        }
        Command::Explain { code } => print(true, |console| explain::explain(code.as_deref(), console)),
        Command::Schema => print(false, schema::schema),
        Command::Completions { shell } => print(false, |console| completions::completions(*shell, console)),
        Command::Lsp { .. } => Ok(lsp::run()),
    }
}

fn print(colours: bool, show: impl FnOnce(&mut Console) -> io::Result<Outcome>) -> io::Result<ExitCode> {
    let mut console = Console::of_process(colours);
    let outcome = show(&mut console)?;
    console.finish()?;
    Ok(outcome.into())
}

/// Reads every file that was found, several at a time, and prints in their order, within `frame`, what `show` makes of it and its
/// text. Beside the print, `show` gives a note, which `keep` gets. A text is dropped as soon as it has been shown, so memory does not
/// grow with their number.
fn each_file<N: Send>(
    sources: &[Source],
    troubles: &[Trouble],
    frame: Frame,
    console: &mut Console,
    show: impl Fn(&Source, &str) -> (String, N) + Sync,
    mut keep: impl FnMut(N),
) -> io::Result<Outcome> {
    for trouble in troubles {
        console.complain(trouble)?;
    }
    let mut outcome = if troubles.is_empty() { Outcome::Clean } else { Outcome::Failed };
    let mut framed = frame.begun(console)?;
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
                framed.add(&shown, console)
            }
        };
        if written.is_ok() { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
    });
    written?;
    framed.close(console)?;
    Ok(outcome)
}

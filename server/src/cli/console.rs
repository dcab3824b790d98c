//! The terminal: one writer for answers, one way to complain.

use std::fmt::Display;
use std::io::{self, BufWriter, Write};

use anstream::adapter::strip_str;
use anstream::{AutoStream, ColorChoice};
use terminal_size::{Width, terminal_size_of};

/// The width of an answer that goes to a file or another program, and the widest that a table or a page is set on a
/// terminal, in columns.
const PAGE_WIDTH: usize = 100;

/// Where answers and complaints go.
pub struct Console {
    out: Box<dyn Write>,
    dress: Dress,
    width: usize,
}

/// What an answer is set on.
#[derive(Debug, Clone, Copy)]
pub struct Paper {
    /// How many columns a line may take.
    pub width: usize,
    /// Whether colours are shown. Whoever sets much may as well leave them out where they are not.
    pub colours: bool,
}

/// What becomes of colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Dress {
    /// They are shown.
    Coloured,
    /// They are taken out.
    Plain,
    /// There are none, and every byte is meant.
    Exact,
}

impl Console {
    /// The process's own output. What is written in colour keeps it only on a terminal that shows it; an answer for
    /// another program goes out byte by byte.
    pub fn of_process(colours: bool) -> Self {
        let stdout = io::stdout();
        let width = terminal_size_of(&stdout).map_or(PAGE_WIDTH, |(Width(columns), _)| usize::from(columns));
        let dress = match colours {
            true if AutoStream::choice(&stdout) == ColorChoice::Never => Dress::Plain,
            true => Dress::Coloured,
            false => Dress::Exact,
        };
        let out: Box<dyn Write> = match dress {
            Dress::Coloured => Box::new(BufWriter::new(AutoStream::auto(stdout.lock()))),
            Dress::Plain | Dress::Exact => Box::new(BufWriter::new(stdout.lock())),
        };
        Console { out, dress, width }
    }

    /// What a line of the manuscript is set on.
    pub fn paper(&self) -> Paper {
        Paper { width: self.width, colours: self.dress == Dress::Coloured }
    }

    /// How many columns a page or a table may take: the eye does not follow a longer line.
    pub fn page_width(&self) -> usize {
        self.width.min(PAGE_WIDTH)
    }

    /// Writes a part of the answer.
    pub fn print(&mut self, text: &str) -> io::Result<()> {
        let is_control = |byte: u8| byte.is_ascii_control() && !byte.is_ascii_whitespace();
        match self.dress {
            Dress::Plain if text.bytes().any(is_control) => write!(self.out, "{}", strip_str(text)),
            _ => self.out.write_all(text.as_bytes()),
        }
    }

    /// Sends the answer on its way; until then an error of writing may still be to come.
    pub fn finish(&mut self) -> io::Result<()> {
        self.out.flush()
    }

    /// Says on standard error what could not be done, behind what has been answered so far.
    pub fn complain(&mut self, trouble: &impl Display) -> io::Result<()> {
        self.out.flush()?;
        complain(trouble);
        Ok(())
    }
}

/// One line on standard error. A terminal shows a manuscript's control characters as pictures and does not obey them.
pub fn complain(trouble: &impl Display) {
    let line = annotate_snippets::normalize_untrusted_str(&trouble.to_string());
    // Where nobody listens any more, nothing is left to be done.
    let _ = writeln!(io::stderr().lock(), "tamis: {line}");
}

//! What stands around and between the answers about several files, which are written while further ones are still being found.

use std::io;

use super::console::Console;

/// What is written around and between answers; nothing, unless said otherwise.
#[derive(Debug, Default)]
pub struct Frame {
    /// Before all.
    pub head: String,
    /// Before the first answer.
    pub first: &'static str,
    /// Between two.
    pub between: &'static str,
    /// Behind the last, if there was any.
    pub last: &'static str,
    /// Behind all.
    pub tail: &'static str,
}

impl Frame {
    /// An array in JSON.
    pub fn array() -> Frame {
        Frame { head: "[".to_owned(), first: "\n", between: ",\n", last: "\n", tail: "]\n" }
    }

    /// Begins it.
    pub fn begun(self, console: &mut Console) -> io::Result<Framed> {
        console.print(&self.head)?;
        Ok(Framed { frame: self, has_answers: false })
    }
}

/// A frame that is being filled.
pub struct Framed {
    frame: Frame,
    has_answers: bool,
}

impl Framed {
    /// Adds the answer about one file; an empty one is none.
    pub fn add(&mut self, answer: &str, console: &mut Console) -> io::Result<()> {
        if answer.is_empty() {
            return Ok(());
        }
        console.print(if self.has_answers { self.frame.between } else { self.frame.first })?;
        self.has_answers = true;
        console.print(answer)
    }

    /// Ends it.
    pub fn close(self, console: &mut Console) -> io::Result<()> {
        console.print(if self.has_answers { self.frame.last } else { "" })?;
        console.print(self.frame.tail)
    }
}

use std::borrow::Cow;

/// What ends the lines of a text. Nothing else does: a vertical tab, U+0085 and U+2028 are characters like others, because
/// editors that speak the Language Server Protocol count only these three.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum LineEnding {
    /// `\n`
    #[default]
    Lf,
    /// `\r\n`
    CrLf,
    /// `\r` alone
    Cr,
}

impl LineEnding {
    /// What ends the first line of `text`; nothing where it has a single line.
    pub fn of(text: &str) -> Option<Self> {
        let at = text.find(['\n', '\r'])?;
        let rest = text.get(at..)?;
        Some(match rest {
            _ if rest.starts_with("\r\n") => LineEnding::CrLf,
            _ if rest.starts_with('\r') => LineEnding::Cr,
            _ => LineEnding::Lf,
        })
    }

    /// The characters themselves.
    pub fn as_str(self) -> &'static str {
        match self {
            LineEnding::Lf => "\n",
            LineEnding::CrLf => "\r\n",
            LineEnding::Cr => "\r",
        }
    }

    /// `text` with `\n` at the end of every line, whatever ended it.
    pub fn taken_out_of(text: &str) -> String {
        text.replace("\r\n", "\n").replace('\r', "\n")
    }

    /// `text`, whose lines end in `\n`, with this ending instead.
    pub fn put_into(self, text: &str) -> Cow<'_, str> {
        match self {
            LineEnding::Lf => Cow::Borrowed(text),
            _ if !text.contains('\n') => Cow::Borrowed(text),
            _ => Cow::Owned(text.replace('\n', self.as_str())),
        }
    }
}

/// The lines of a text, each with what ends it.
pub fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        if rest.is_empty() {
            return None;
        }
        let bytes = rest.as_bytes();
        let end = memchr::memchr2(b'\n', b'\r', bytes).map_or(rest.len(), |at| {
            if bytes.get(at) == Some(&b'\r') && bytes.get(at + 1) == Some(&b'\n') { at + 2 } else { at + 1 }
        });
        let (line, after) = rest.split_at_checked(end)?;
        rest = after;
        Some(line)
    })
}

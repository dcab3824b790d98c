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

    /// `text`, whose lines end in `\n`, with this ending instead.
    pub fn put_into(self, text: &str) -> Cow<'_, str> {
        match self {
            LineEnding::Lf => Cow::Borrowed(text),
            _ if !text.contains('\n') => Cow::Borrowed(text),
            _ => Cow::Owned(text.replace('\n', self.as_str())),
        }
    }
}

//! Lines of a recipe's text, whatever ends them.

use crate::text::Span;

/// Where the line that holds `offset` starts. A line break belongs to the line that it ends.
pub fn start(text: &str, offset: usize) -> usize {
    let offset = before_break(text, offset);
    text.get(..offset).and_then(|above| above.rfind(['\n', '\r'])).map_or(0, |at| at + 1)
}

/// Where the line that holds `offset` ends, before its line break.
pub fn end(text: &str, offset: usize) -> usize {
    let offset = before_break(text, offset);
    text.get(offset..).and_then(|rest| rest.find(['\n', '\r'])).map_or(text.len(), |at| offset + at)
}

/// `offset`, or where the CRLF starts that it stands in the middle of.
fn before_break(text: &str, offset: usize) -> usize {
    let inside = text.get(..offset).is_some_and(|above| above.ends_with('\r'))
        && text.get(offset..).is_some_and(|below| below.starts_with('\n'));
    offset - usize::from(inside)
}

/// Where the line behind the one that holds `offset` starts.
pub fn next(text: &str, offset: usize) -> usize {
    let end = end(text, offset);
    let rest = text.get(end..).unwrap_or_default();
    end + if rest.starts_with("\r\n") { 2 } else { usize::from(!rest.is_empty()) }
}

/// The whole lines that `span` touches, with the line break at their end.
pub fn whole(text: &str, span: Span) -> Span {
    Span::new(start(text, span.start), next(text, span.end))
}

/// Whether the line that holds `offset` is empty or blank.
pub fn is_blank(text: &str, offset: usize) -> bool {
    Span::new(start(text, offset), end(text, offset)).of(text).trim().is_empty()
}

/// Whether a blank line lies between two offsets that stand in text.
pub fn blank_between(text: &str, from: usize, to: usize) -> bool {
    let mut at = next(text, from);
    while at < to {
        if is_blank(text, at) {
            return true;
        }
        let after = next(text, at);
        if after == at {
            return false;
        }
        at = after;
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_are_found_whatever_ends_them() {
        for text in ["a\nbc\n\nd", "a\rbc\r\rd", "a\r\nbc\r\n\r\nd"] {
            let at = text.find('c').unwrap();
            assert_eq!(Span::new(start(text, at), end(text, at)).of(text), "bc", "{text:?}");
            assert!(whole(text, Span::at(at)).of(text).trim_end() == "bc");
            assert!(blank_between(text, at, text.len() - 1), "{text:?}");
            assert!(!blank_between(text, 0, at), "{text:?}");
            assert_eq!(next(text, text.len()), text.len());
            let second = start(text, at);
            assert!(!is_blank(text, second - 1), "{text:?}: the break belongs to the line above");
        }
    }
}

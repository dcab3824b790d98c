//! The parts of a number: figures, fraction marks, dashes and words.

use std::borrow::Cow;

use super::words::{fraction_glyph, plain_digit};

/// One part of a number.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Token<'t> {
    /// Figures with their decimals. `whole` is the figures alone where they have no mark among them, so that they may be a
    /// part of a fraction.
    Figures { value: f64, whole: Option<Cow<'t, str>> },
    /// A fraction in one character.
    Fraction(f64),
    /// `⅟`, "one over".
    OneOver,
    /// The slash of a fraction.
    Slash,
    /// A hyphen, a dash or a minus, and whether it touches what stands before and behind it.
    Dash { before: bool, behind: bool },
    /// `+`
    Plus,
    /// A word in lower case.
    Word(Cow<'t, str>),
}

/// Cuts a number into its parts; nothing where a character belongs in no number.
pub(super) fn tokens(text: &str) -> Option<Vec<Token<'_>>> {
    let mut tokens = Vec::new();
    let mut before = ' ';
    let mut rest = text.trim();
    while let Some(first) = rest.chars().next() {
        let behind = rest.chars().nth(1).unwrap_or(' ');
        let mut length = first.len_utf8();
        let token = match first {
            // Characters without width, from pasted text, part nothing and belong to nothing.
            '\u{200b}' | '\u{feff}' => None,
            _ if first.is_whitespace() => None,
            '/' | '\u{2044}' | '\u{2215}' => Some(Token::Slash),
            '⅟' => Some(Token::OneOver),
            '+' => Some(Token::Plus),
            '&' => Some(Token::Word(Cow::Borrowed("and"))),
            // The hyphen of 'three-quarters' and 'half-a-dozen' is a space.
            _ if is_dash(first) && before.is_alphabetic() && behind.is_alphabetic() => None,
            _ if is_dash(first) => {
                Some(Token::Dash { before: !before.is_whitespace(), behind: !behind.is_whitespace() })
            }
            _ if plain_digit(first).is_some() || (first == '.' && behind.is_ascii_digit()) => {
                length = figures_length(rest);
                Some(figures(rest.get(..length)?)?)
            }
            _ if first.is_alphabetic() => {
                length = rest.find(|c: char| !c.is_alphabetic() && !is_apostrophe(c)).unwrap_or(rest.len());
                Some(Token::Word(in_lower_case(rest.get(..length)?)))
            }
            _ => Some(Token::Fraction(fraction_glyph(first)?)),
        };
        tokens.extend(token);
        before = rest.get(..length)?.chars().next_back()?;
        rest = rest.get(length..)?;
    }
    Some(tokens)
}

fn in_lower_case(word: &str) -> Cow<'_, str> {
    match word.bytes().all(|byte| byte.is_ascii_lowercase()) {
        true => Cow::Borrowed(word),
        false => Cow::Owned(word.to_lowercase().replace('’', "'")),
    }
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '’')
}

fn is_dash(c: char) -> bool {
    matches!(c, '-' | '\u{2010}'..='\u{2015}' | '\u{2212}')
}

/// The narrow and the fixed spaces that part thousands in print.
fn is_thousands_space(c: char) -> bool {
    matches!(c, '\u{2009}' | '\u{202f}' | '\u{a0}')
}

fn is_mark(c: char) -> bool {
    matches!(c, '.' | ',') || is_thousands_space(c)
}

/// How far the figures at the start of `text` go. They end where raised figures follow plain ones (`1¹⁄₂`), and at a space
/// that does not part three figures from the rest.
fn figures_length(text: &str) -> usize {
    let raised = text.chars().next().is_some_and(|first| !first.is_ascii());
    for (at, c) in text.char_indices() {
        let goes_on = match plain_digit(c) {
            Some(_) => c.is_ascii() != raised,
            None if is_thousands_space(c) => {
                let behind = text.get(at + c.len_utf8()..).unwrap_or_default();
                behind.chars().take_while(char::is_ascii_digit).count() == 3 && !behind.contains('/')
            }
            None => is_mark(c),
        };
        if !goes_on {
            return at;
        }
    }
    text.len()
}

/// Reads figures with their marks: `1.5`, `1,5`, `1,000`, `1.250,5`, `.5`.
fn figures(written: &str) -> Option<Token<'_>> {
    if written.bytes().all(|byte| byte.is_ascii_digit()) {
        return Some(Token::Figures { value: written.parse().ok()?, whole: Some(Cow::Borrowed(written)) });
    }
    let text: String = written.chars().map(|c| plain_digit(c).unwrap_or(c)).collect();
    let marks: Vec<char> = text.chars().filter(|c| is_mark(*c)).collect();
    let groups: Vec<&str> = text.split(is_mark).collect();
    let (whole, decimals) = match (marks.as_slice(), groups.as_slice()) {
        ([], [whole]) => (whole.to_string(), ""),
        (['.'], [whole, decimals]) => (whole.to_string(), *decimals),
        ([_], groups) if are_thousands(groups) => (groups.concat(), ""),
        ([','], [whole, decimals]) if !whole.is_empty() => (whole.to_string(), *decimals),
        ([first, .., last], groups) if first == last && are_thousands(groups) => (groups.concat(), ""),
        ([between @ .., '.' | ','], [thousands @ .., decimals])
            if marks.last() != between.first() && are_thousands(thousands) =>
        {
            (thousands.concat(), *decimals)
        }
        _ => return None,
    };
    if !marks.is_empty() && groups.last().is_some_and(|last| last.is_empty()) {
        return None;
    }
    let value = format!("0{whole}.{decimals}0").parse().ok()?;
    Some(Token::Figures { value, whole: marks.is_empty().then_some(Cow::Owned(whole)) })
}

/// Whether these are the thousands of one number: one to three figures, then threes.
fn are_thousands(groups: &[&str]) -> bool {
    let Some((head, threes)) = groups.split_first() else { return false };
    (1..=3).contains(&head.len())
        && !head.starts_with('0')
        && !threes.is_empty()
        && threes.iter().all(|group| group.len() == 3)
}

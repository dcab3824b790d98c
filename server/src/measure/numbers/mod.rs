//! Numbers as cooks write them.

mod tokens;
mod words;

#[cfg(test)]
mod tests;

pub(super) use self::words::GLYPHS;
use self::{
    tokens::{Token, tokens},
    words::{count_of_several, count_word, fraction_word},
};
use super::Interval;

/// Why a number can't be read as it stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum NumberFault {
    /// Not a number that a cook could follow: `1/2/3`, `1.2.3`.
    Malformed,
    /// A fraction over zero: `3/0`.
    ZeroDenominator,
    /// A range whose first end is the larger: `6-4`.
    Reversed {
        /// The smaller end.
        low: f64,
        /// The larger end.
        high: f64,
    },
    /// Nothing at all: `0`. (Right for a temperature, an error for an amount.)
    Zero,
    /// A mixed number that has lost its space: `11/2` where `1 1/2` is likely meant.
    RunTogether {
        /// As it stands: 5.5.
        written: f64,
        /// As it is likely meant: 1.5.
        meant: f64,
    },
}

impl NumberFault {
    /// The best guess at what was meant, for those who have to go on all the same.
    pub fn meant(&self) -> Option<Interval> {
        match *self {
            NumberFault::Malformed | NumberFault::ZeroDenominator => None,
            NumberFault::Reversed { low, high } => Some(Interval::between(low, high)),
            NumberFault::Zero => Some(Interval::exactly(0.0)),
            NumberFault::RunTogether { meant, .. } => Some(Interval::exactly(meant)),
        }
    }
}

/// Reads a number or a range: `1 1/2`, `1½`, `1-1/2`, `1.5`, `1,5`, `1,000`, `2-3`, `2 to 3`, `a dozen`, `half a`,
/// `three quarters`, `up to 3`, `at least 2`.
///
/// A comma before three digits parts the thousands, unless a zero stands before it; before one or two digits it is the
/// decimal comma. `N-a/b` with a < b is a mixed number, `N-N` a range.
pub fn read_number(text: &str) -> Result<Interval, NumberFault> {
    if let Some(number) = plain(text) {
        return Ok(Interval::exactly(number));
    }
    let tokens = tokens(text).ok_or(NumberFault::Malformed)?;
    let mut reader = Reader { tokens: &tokens };
    let number = reader.range()?;
    if !reader.tokens.is_empty() {
        return Err(NumberFault::Malformed);
    }
    if number.most == Some(0.0) && number.least == 0.0 { Err(NumberFault::Zero) } else { Ok(number) }
}

/// A number of a few figures and nothing else, or a fraction of two figures, alone or behind one, which most are; none for zero.
fn plain(text: &str) -> Option<f64> {
    let figure = |figure: u8| f64::from(figure - b'0');
    match *text.as_bytes() {
        [over @ b'1'..=b'9', b'/', under @ b'1'..=b'9'] => return Some(figure(over) / figure(under)),
        [whole @ b'1'..=b'9', b' ', over @ b'1'..=b'9', b'/', under] if over < under && under <= b'9' => {
            return Some(figure(whole) + figure(over) / figure(under));
        }
        _ => {}
    }
    let figures = (1..=6).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse::<u32>().ok().filter(|number| figures && *number > 0).map(f64::from)
}

/// Reads tokens from the front.
struct Reader<'t> {
    tokens: &'t [Token<'t>],
}

impl Reader<'_> {
    /// Steps over the next token if it is one of these words.
    fn word(&mut self, wanted: &[&str]) -> bool {
        match self.tokens.split_first() {
            Some((Token::Word(word), rest)) if wanted.contains(&&**word) => {
                self.tokens = rest;
                true
            }
            _ => false,
        }
    }

    /// Steps over the next tokens if they are these words.
    fn phrase(&mut self, words: &[&str]) -> bool {
        let before = self.tokens;
        let met = words.iter().all(|word| self.word(&[word]));
        if !met {
            self.tokens = before;
        }
        met
    }

    /// Steps over a dash.
    fn dash(&mut self) -> bool {
        let [Token::Dash { .. }, rest @ ..] = self.tokens else { return false };
        self.tokens = rest;
        true
    }

    /// Steps over the word that comes next if `look` finds it a meaning.
    fn meaning(&mut self, look: fn(&str) -> Option<f64>) -> Option<f64> {
        let Some((Token::Word(word), rest)) = self.tokens.split_first() else { return None };
        let value = look(word)?;
        self.tokens = rest;
        Some(value)
    }

    /// A value, a range of two, or one whose other end is open or nothing.
    fn range(&mut self) -> Result<Interval, NumberFault> {
        if self.phrase(&["at", "least"])
            || self.phrase(&["no", "less", "than"])
            || self.phrase(&["not", "less", "than"])
        {
            return Ok(Interval::at_least(self.value()?));
        }
        if self.phrase(&["up", "to"]) || self.phrase(&["at", "most"]) || self.phrase(&["no", "more", "than"]) {
            return Ok(Interval::between(0.0, self.value()?));
        }
        if self.word(&["between"]) {
            let low = self.value()?;
            return if self.word(&["and"]) { ends(low, self.value()?) } else { Err(NumberFault::Malformed) };
        }
        let low = self.value()?;
        match self.tokens {
            [] => return Ok(Interval::exactly(low)),
            [Token::Plus] => {
                self.tokens = &[];
                return Ok(Interval::at_least(low));
            }
            _ => {}
        }
        // A dash, a word, or both: '2-3', '2 to 3', '2- to 3', '2-to-3'.
        let dash = self.dash();
        let word = self.word(&["to", "or", "through"]);
        if !dash && !word {
            return Err(NumberFault::Malformed);
        }
        if word && matches!(self.tokens, [Token::Dash { before: true, .. }, ..]) {
            self.dash();
        }
        ends(low, self.value()?)
    }

    /// One number, with the dozen that may follow it.
    fn value(&mut self) -> Result<f64, NumberFault> {
        let value = self.single()?;
        match self.meaning(count_of_several) {
            Some(several) => {
                self.word(&["of"]);
                Ok(value * several)
            }
            None => Ok(value),
        }
    }

    fn single(&mut self) -> Result<f64, NumberFault> {
        match self.tokens {
            [Token::Dash { before: false, behind: true }, Token::Figures { value, .. }, rest @ ..] => {
                self.tokens = rest;
                Ok(-value)
            }
            [Token::Figures { value, whole }, rest @ ..] => {
                self.tokens = rest;
                match whole {
                    Some(figures) => self.behind_whole(*value, figures),
                    None => Ok(*value),
                }
            }
            [Token::OneOver, Token::Figures { value, whole: Some(_) }, rest @ ..] => {
                self.tokens = rest;
                quotient(1.0, *value)
            }
            [Token::Fraction(value), rest @ ..] => {
                self.tokens = rest;
                self.word(&["a", "an"]);
                Ok(*value)
            }
            [Token::Word(_), ..] => self.spelt(),
            _ => Err(NumberFault::Malformed),
        }
    }

    /// What may follow a whole number in figures: the rest of a fraction or of a mixed number.
    fn behind_whole(&mut self, whole: f64, figures: &str) -> Result<f64, NumberFault> {
        if let [Token::Slash, Token::Figures { value: under, whole: Some(under_figures) }, rest @ ..] = self.tokens {
            self.tokens = rest;
            if matches!(rest, [Token::Slash, ..]) {
                return Err(NumberFault::Malformed);
            }
            let written = quotient(whole, *under)?;
            return match run_together(figures, under_figures) {
                Some(meant) => Err(NumberFault::RunTogether { written, meant }),
                None => Ok(written),
            };
        }
        let part = match self.tokens {
            [Token::Dash { before: true, behind: true }, part @ ..] => part,
            part => part,
        };
        match part {
            [Token::Fraction(part), rest @ ..] if whole >= 1.0 => {
                self.tokens = rest;
                Ok(whole + part)
            }
            [
                Token::Figures { value: over, whole: Some(_) },
                Token::Slash,
                Token::Figures { value: under, whole: Some(_) },
                rest @ ..,
            ] if whole >= 1.0 && (over < under || *under == 0.0) => {
                self.tokens = rest;
                Ok(whole + quotient(*over, *under)?)
            }
            _ => Ok(self.behind_count(whole)),
        }
    }

    /// What may follow a count, in figures or spelt: `and a half`, `quarters`, the `five` of `twenty-five`.
    fn behind_count(&mut self, count: f64) -> f64 {
        let before = self.tokens;
        if self.word(&["and"]) {
            if let Ok(part) = self.single()
                && part < 1.0
            {
                return count + part;
            }
            self.tokens = before;
            return count;
        }
        if let Some(part) = self.meaning(fraction_word) {
            self.article();
            return count * part;
        }
        if count >= 20.0 && count % 10.0 == 0.0 {
            match self.meaning(count_word) {
                Some(ones) if ones < 10.0 => return count + ones,
                _ => self.tokens = before,
            }
        }
        count
    }

    /// A number in words.
    fn spelt(&mut self) -> Result<f64, NumberFault> {
        if self.phrase(&["baker's", "dozen"]) || self.phrase(&["a", "baker's", "dozen"]) {
            return Ok(13.0);
        }
        let article = self.word(&["a", "an"]);
        if let Some(part) = self.meaning(fraction_word) {
            self.article();
            return Ok(part);
        }
        if article {
            return Ok(1.0);
        }
        if let Some(count) = self.meaning(count_word) {
            return Ok(self.behind_count(count));
        }
        // 'dozen' and 'couple' alone; `value` multiplies by them.
        match self.tokens {
            [Token::Word(word), ..] if count_of_several(word).is_some() => Ok(1.0),
            _ => Err(NumberFault::Malformed),
        }
    }

    /// Steps over the `a` of `half a`, the `of an` of `a quarter of an`.
    fn article(&mut self) {
        let _ = self.phrase(&["of", "a"]) || self.phrase(&["of", "an"]) || self.word(&["a", "an"]);
    }
}

/// The range of two ends, the first of them the smaller.
fn ends(low: f64, high: f64) -> Result<Interval, NumberFault> {
    if high < low { Err(NumberFault::Reversed { low: high, high: low }) } else { Ok(Interval::between(low, high)) }
}

fn quotient(over: f64, under: f64) -> Result<f64, NumberFault> {
    if under == 0.0 { Err(NumberFault::ZeroDenominator) } else { Ok(over / under) }
}

/// `11/2` is likely `1 1/2`: a proper fraction of a measuring set with a whole number run into it.
fn run_together(over: &str, under: &str) -> Option<f64> {
    let under: f64 = under.parse().ok().filter(|under| [2.0, 3.0, 4.0, 8.0].contains(under))?;
    let last = over.len().checked_sub(1).filter(|last| (1..=2).contains(last))?;
    let whole: f64 = over.get(..last)?.parse().ok()?;
    let part: f64 = over.get(last..)?.parse().ok()?;
    (part > 0.0 && part < under).then(|| whole + part / under)
}

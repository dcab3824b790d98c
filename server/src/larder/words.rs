//! The one place where the words of names and of prose are made comparable.
//!
//! *Tomatoes*, *TOMATO* and *tomato* fold to the same word, *purée* and *puree*, *yoghurt* and *yogurt*, *leaves* and *leaf* too.

use std::borrow::Cow;

use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use crate::text::Span;

/// A word of a text, folded, and where it stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word<'t> {
    /// The word as [`fold`] leaves it.
    pub folded: Cow<'t, str>,
    /// Where the word stands in the text, in bytes.
    pub span: Span,
    /// What stood between the word before and this one, when it was more than space: the first such character.
    /// A hyphen counts as space (`all-purpose`), and so does the apostrophe of `confectioners' sugar`.
    pub before: Option<char>,
}

/// The words of `text`, in order. A word is a run of letters and digits, with the apostrophes inside it; `1.5%` is one word, and `&` is "and".
pub fn split(text: &str) -> Vec<Word<'_>> {
    // About as many as an English text of this length has.
    let mut words = Vec::with_capacity(text.len() / 5 + 1);
    words.extend(iter(text));
    words
}

/// The words of `text` one by one, as [`split`] gives them.
pub fn iter(text: &str) -> impl Iterator<Item = Word<'_>> {
    let mut at = 0;
    let mut before = None;
    std::iter::from_fn(move || {
        loop {
            if text.as_bytes().get(at) == Some(&b' ') {
                at += 1;
                continue;
            }
            let first = text.get(at..)?.chars().next()?;
            let start = at;
            at += first.len_utf8();
            if first == '&' {
                return Some(Word { folded: Cow::Borrowed("and"), span: Span::new(start, at), before: before.take() });
            } else if is_letter(first) {
                at = end_of_word(text, start);
                let span = Span::new(start, at);
                return Some(Word { folded: fold(span.of(text)), span, before: before.take() });
            } else if before.is_none() && !joins_words(first) {
                before = Some(first);
            }
        }
    })
}

/// Where the word that starts at `start` ends.
fn end_of_word(text: &str, start: usize) -> usize {
    let rest = text.get(start..).unwrap_or_default();
    let plain = rest.bytes().take_while(u8::is_ascii_alphanumeric).count();
    let mut end = start + plain;
    let figure = plain.checked_sub(1).and_then(|last| rest.as_bytes().get(last)).is_some_and(u8::is_ascii_digit);
    let goes_on = |next: &u8| !next.is_ascii() || *next == b'\'' || figure && matches!(next, b'%' | b'.' | b',');
    if !rest.as_bytes().get(plain).is_some_and(goes_on) {
        return end;
    }
    while let Some(next) = text.get(end..).and_then(|rest| rest.chars().next()) {
        let behind = end + next.len_utf8();
        let digit_before = text.get(start..end).is_some_and(|word| word.ends_with(|c: char| c.is_ascii_digit()));
        let rest = text.get(behind..).unwrap_or_default();
        let belongs = is_letter(next)
            || is_combining_mark(next)
            || (is_apostrophe(next) && rest.starts_with(char::is_alphabetic))
            || (next == '%' && digit_before)
            || (matches!(next, '.' | ',') && digit_before && rest.starts_with(|c: char| c.is_ascii_digit()));
        if !belongs {
            break;
        }
        end = behind;
    }
    end
}

fn is_letter(c: char) -> bool {
    if c.is_ascii() { c.is_ascii_alphanumeric() } else { c.is_alphanumeric() }
}

fn joins_words(c: char) -> bool {
    c.is_whitespace() || is_hyphen(c) || is_apostrophe(c) || is_combining_mark(c)
}

fn is_hyphen(c: char) -> bool {
    matches!(c, '-' | '\u{2010}' | '\u{2011}' | '\u{ad}')
}

fn is_apostrophe(c: char) -> bool {
    matches!(c, '\'' | '\u{2019}' | '\u{2bc}')
}

/// A word in lower case, without accents, in the singular, without the possessive, in American spelling.
///
/// Folding a folded word leaves it as it is. Words that only look like plurals (*molasses*, *couscous*, *asparagus*, *cress*) stay.
pub fn fold(word: &str) -> Cow<'_, str> {
    if word.bytes().all(|byte| byte.is_ascii_lowercase()) {
        return american(singular(word));
    }
    if word.bytes().all(|byte| byte.is_ascii_digit()) {
        return Cow::Borrowed(word);
    }
    let plain = if word.bytes().all(|byte| byte.is_ascii_alphanumeric()) {
        word.to_ascii_lowercase()
    } else {
        plain_letters(word)
    };
    let bare = plain.trim_end_matches('\'');
    let bare = bare.strip_suffix("'s").unwrap_or(bare);
    match american(singular(bare)) {
        Cow::Borrowed(same) if same.len() == plain.len() && same == plain => Cow::Owned(plain),
        other => Cow::Owned(other.into_owned()),
    }
}

/// Lower case, with accents and typographic letters resolved: `Crème` is `creme`, `ﬁg` is `fig`, `’` is `'`.
fn plain_letters(word: &str) -> String {
    let mut plain = String::with_capacity(word.len());
    for c in word.nfkd().filter(|c| !is_combining_mark(*c)).flat_map(char::to_lowercase) {
        match c {
            'ß' => plain.push_str("ss"),
            'æ' => plain.push_str("ae"),
            'œ' => plain.push_str("oe"),
            'ø' => plain.push('o'),
            'đ' | 'ð' => plain.push('d'),
            'ł' => plain.push('l'),
            'ı' => plain.push('i'),
            c if is_apostrophe(c) => plain.push('\''),
            c if is_combining_mark(c) => {}
            c => plain.push(c),
        }
    }
    plain
}

/// Words in -s that are no plurals, or whose plural is another thing (*greens* are leaves, *bitters* a seasoning, *sprinkles* a decoration).
const NO_PLURALS: &[&str] = &[
    "bitters",
    "cassis",
    "gras",
    "greens",
    "his",
    "molasses",
    "orris",
    "pastis",
    "plus",
    "series",
    "species",
    "sprinkles",
    "this",
    "whites",
];

/// Plurals in -s that no rule makes.
const IRREGULAR: &[(&str, &str)] = &[
    ("brioches", "brioche"),
    ("calves", "calf"),
    ("halves", "half"),
    ("hooves", "hoof"),
    ("knives", "knife"),
    ("loaves", "loaf"),
    ("quiches", "quiche"),
    ("roes", "roe"),
    ("scarves", "scarf"),
    ("shelves", "shelf"),
    ("sloes", "sloe"),
    ("thieves", "thief"),
];

/// Nouns in -ie, whose plural looks like that of a noun in -y.
const IN_IE: &[&str] = &[
    "birdies",
    "brownies",
    "budgies",
    "calories",
    "collies",
    "cookies",
    "foodies",
    "freebies",
    "genies",
    "hankies",
    "hoagies",
    "movies",
    "pinkies",
    "pixies",
    "sorties",
    "smoothies",
    "sweeties",
    "toasties",
    "veggies",
];

fn singular(word: &str) -> Cow<'_, str> {
    match word {
        "feet" => return Cow::Borrowed("foot"),
        "geese" => return Cow::Borrowed("goose"),
        "teeth" => return Cow::Borrowed("tooth"),
        _ if word.len() < 4 || !word.ends_with('s') => return Cow::Borrowed(word),
        _ => {}
    }
    let without = |count: usize| word.get(..word.len() - count).unwrap_or(word);
    if let Some((_, one)) = IRREGULAR.iter().find(|(many, _)| *many == word) {
        Cow::Borrowed(one)
    } else if word.ends_with("ss") || word.ends_with("us") || NO_PLURALS.contains(&word) {
        Cow::Borrowed(word)
    } else if word.ends_with("leaves") {
        Cow::Owned(format!("{}leaf", without(6)))
    } else if word.ends_with("ies") && word.len() > 4 {
        if IN_IE.contains(&word) { Cow::Borrowed(without(1)) } else { Cow::Owned(format!("{}y", without(3))) }
    } else if ["ches", "shes", "sses", "xes", "oes"].iter().any(|end| word.ends_with(end)) && word.len() > 4 {
        Cow::Borrowed(without(2))
    } else {
        Cow::Borrowed(without(1))
    }
}

/// Spellings of one word on two sides of an ocean. Words that differ (aubergine, eggplant) are synonyms of a food instead.
fn american(word: Cow<'_, str>) -> Cow<'_, str> {
    if !matches!(word.as_bytes(), [b'c' | b'f' | b'g' | b'w' | b'y', ..]) {
        return word;
    }
    let american = match word.as_ref() {
        // The last two are what is left of "chilies" and "chillies".
        "chilli" | "chily" | "chilly" => "chili",
        "colour" => "color",
        "colouring" => "coloring",
        "fibre" => "fiber",
        "flavour" => "flavor",
        "flavoured" => "flavored",
        "flavouring" => "flavoring",
        "grey" => "gray",
        "whisky" => "whiskey",
        "yoghurt" | "yogourt" | "yoghourt" => "yogurt",
        _ => return word,
    };
    Cow::Borrowed(american)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn plurals_case_accents_and_possessives_fold_away() {
        let table = [
            ("tomatoes", "tomato"),
            ("Tomato", "tomato"),
            ("berries", "berry"),
            ("cheeses", "cheese"),
            ("knives", "knife"),
            ("peaches", "peach"),
            ("radishes", "radish"),
            ("boxes", "box"),
            ("olives", "olive"),
            ("chives", "chive"),
            ("endives", "endive"),
            ("cloves", "clove"),
            ("halves", "half"),
            ("loaves", "loaf"),
            ("slices", "slice"),
            ("oranges", "orange"),
            ("cookies", "cookie"),
            ("pies", "pie"),
            ("cherries", "cherry"),
            ("eggs", "egg"),
            ("oats", "oat"),
            ("turkeys", "turkey"),
            ("kiwis", "kiwi"),
            ("glasses", "glass"),
            ("avocados", "avocado"),
            ("avocadoes", "avocado"),
            ("quiches", "quiche"),
            ("anchovies", "anchovy"),
            ("chillies", "chili"),
            ("chilies", "chili"),
            ("chilli", "chili"),
            ("chiles", "chile"),
            ("yoghurt", "yogurt"),
            ("Yoghurts", "yogurt"),
            ("crème", "creme"),
            ("cre\u{300}me", "creme"),
            ("FRAÎCHE", "fraiche"),
            ("jalapeños", "jalapeno"),
            ("purée", "puree"),
            ("confectioners'", "confectioner"),
            ("baker's", "baker"),
            ("cook’s", "cook"),
            ("ﬁgs", "fig"),
            ("Smørbrød", "smorbrod"),
            ("2%", "2%"),
            ("00", "00"),
            ("", ""),
        ];
        for (word, folded) in table {
            assert_eq!(fold(word), folded, "{word}");
        }
    }

    #[test]
    fn words_that_only_look_like_plurals_stay() {
        for word in [
            "molasses",
            "hummus",
            "couscous",
            "asparagus",
            "watercress",
            "swiss",
            "citrus",
            "octopus",
            "cassis",
            "gas",
            "bass",
            "greens",
            "bitters",
            "whites",
            "this",
        ] {
            assert_eq!(fold(word), word);
        }
    }

    #[test]
    fn folding_twice_changes_nothing() {
        for word in [
            "tomatoes",
            "Gruyères",
            "chillies",
            "confectioners’",
            "baker's",
            "cookies",
            "glasses",
            "Weißbier",
            "CASSIS",
        ] {
            let once = fold(word).into_owned();
            assert_eq!(fold(&once), once, "{word}");
        }
    }

    #[test]
    fn a_text_splits_at_space_hyphens_and_punctuation() {
        let words = split("All-purpose flour, 2% milk; confectioners’ sugar (½ c)");
        let folded: Vec<_> = words.iter().map(|word| word.folded.as_ref()).collect();
        assert_eq!(folded, ["all", "purpose", "flour", "2%", "milk", "confectioner", "sugar", "1⁄2", "c"]);
        let before: Vec<_> = words.iter().map(|word| word.before).collect();
        assert_eq!(before, [None, None, None, Some(','), None, Some(';'), None, Some('('), None]);
        assert_eq!(words[2].span.of("All-purpose flour"), "flour");
    }
}

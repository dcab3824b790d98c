//! The words and single characters that stand for numbers.

/// How many a word for several stands for, which a number may multiply: `two dozen`, `half a dozen`.
pub(super) fn count_of_several(word: &str) -> Option<f64> {
    match word {
        "dozen" => Some(12.0),
        "couple" | "pair" => Some(2.0),
        "hundred" => Some(100.0),
        "thousand" => Some(1000.0),
        _ => None,
    }
}

/// The count that a word stands for, up to `twenty` and by tens up to `ninety`.
pub(super) fn count_word(word: &str) -> Option<f64> {
    const ONES: [&str; 20] = [
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "thirteen",
        "fourteen",
        "fifteen",
        "sixteen",
        "seventeen",
        "eighteen",
        "nineteen",
        "twenty",
    ];
    const TENS: [&str; 7] = ["thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"];
    let position = |list: &[&str]| list.iter().position(|name| *name == word);
    position(&ONES).map(|at| at as f64 + 1.0).or_else(|| position(&TENS).map(|at| at as f64 * 10.0 + 30.0))
}

/// The part that a word stands for: `half`, `third`, `quarters`.
pub(super) fn fraction_word(word: &str) -> Option<f64> {
    let under = match word {
        "half" | "halves" => 2.0,
        "third" | "thirds" => 3.0,
        "quarter" | "quarters" | "fourth" | "fourths" => 4.0,
        "fifth" | "fifths" => 5.0,
        "sixth" | "sixths" => 6.0,
        "eighth" | "eighths" => 8.0,
        "tenth" | "tenths" => 10.0,
        "sixteenth" | "sixteenths" => 16.0,
        _ => return None,
    };
    Some(1.0 / under)
}

/// Fractions in one character, with their parts. Unicode, block Number Forms and Latin-1.
pub(in crate::measure) const GLYPHS: [(char, f64, f64); 18] = [
    ('½', 1.0, 2.0),
    ('⅓', 1.0, 3.0),
    ('⅔', 2.0, 3.0),
    ('¼', 1.0, 4.0),
    ('¾', 3.0, 4.0),
    ('⅕', 1.0, 5.0),
    ('⅖', 2.0, 5.0),
    ('⅗', 3.0, 5.0),
    ('⅘', 4.0, 5.0),
    ('⅙', 1.0, 6.0),
    ('⅚', 5.0, 6.0),
    ('⅐', 1.0, 7.0),
    ('⅛', 1.0, 8.0),
    ('⅜', 3.0, 8.0),
    ('⅝', 5.0, 8.0),
    ('⅞', 7.0, 8.0),
    ('⅑', 1.0, 9.0),
    ('⅒', 1.0, 10.0),
];

/// The value of a fraction in one character.
pub(super) fn fraction_glyph(c: char) -> Option<f64> {
    GLYPHS.iter().find(|(glyph, ..)| *glyph == c).map(|(_, over, under)| over / under)
}

/// The digit that a character stands for, raised and lowered ones included, as they are set in fractions: `¹⁄₂`.
pub(super) fn plain_digit(c: char) -> Option<char> {
    const RAISED: [char; 10] = ['⁰', '¹', '²', '³', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹'];
    const LOWERED: [char; 10] = ['₀', '₁', '₂', '₃', '₄', '₅', '₆', '₇', '₈', '₉'];
    if c.is_ascii_digit() {
        return Some(c);
    }
    let at = RAISED.iter().position(|raised| *raised == c).or_else(|| LOWERED.iter().position(|low| *low == c))?;
    char::from_digit(at as u32, 10)
}

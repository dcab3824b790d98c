//! What a mistyped unit was meant to be.

use std::sync::LazyLock;

use tree_sitter_tamis::UNITS;

use super::Unit;

/// From this length on the name of a measure may be two slips away from what was typed: `tablspon`.
const LONG: usize = 8;

/// The spelling of a unit that `text` is a slip of the fingers away from: `cusp` gives `cups`, `tablspoon` gives `tablespoon`.
///
/// A slip is two letters changed round, one left out, one doubled, or one that lies beside the right one on the keyboard; never
/// in the first letter, hardly in the last. Other near words are words of their own: `pots` is not `pts`, `pinto` not `pint`.
/// A few real words remain (`bath`, `lite`), so ask the larder first. Nothing for a unit that is spelt right.
pub fn nearest_unit(text: &str) -> Option<&'static str> {
    let typed = text.trim().trim_end_matches('.').to_lowercase();
    if Unit::find(&typed).is_some() {
        return None;
    }
    let letters: Vec<char> = typed.chars().collect();
    let slip = SPELT.iter().find(|spelling| is_slip(&letters, &spelling.letters));
    slip.map(|spelling| spelling.word).or_else(|| {
        let long = |spelling: &&Spelling| {
            spelling.of_measure && spelling.letters.len() >= LONG && spelling.letters.first() == letters.first()
        };
        let far = SPELT.iter().filter(|_| letters.len() >= LONG).filter(long);
        let far = far.map(|spelling| (strsim::osa_distance(&typed, spelling.word), spelling.word));
        far.filter(|(slips, _)| *slips <= 2).min().map(|(_, word)| word)
    })
}

/// One spelling of a unit.
struct Spelling {
    word: &'static str,
    letters: Vec<char>,
    /// Whether it is a unit of measure, and not a thing that is counted or a pinch.
    of_measure: bool,
}

/// Every spelling of letters only, long enough to be mistyped, in the order of the table: the usual units come first.
static SPELT: LazyLock<Vec<Spelling>> = LazyLock::new(|| {
    let words = UNITS.iter().flat_map(|row| row.words.iter().map(|word| (*word, row.kind)));
    let spelt = words.filter(|(word, _)| word.len() >= 3 && word.chars().all(char::is_alphabetic));
    let spelling = |(word, kind): (&'static str, &str)| Spelling {
        word,
        letters: word.chars().collect(),
        of_measure: !matches!(kind, "count" | "loose"),
    };
    spelt.map(spelling).collect()
});

/// Whether `typed` is `word` after one slip of the fingers.
fn is_slip(typed: &[char], word: &[char]) -> bool {
    let same = typed.iter().zip(word).take_while(|(one, other)| one == other).count();
    if same == 0 {
        return false;
    }
    let (typed_rest, word_rest) = (typed.get(same..).unwrap_or_default(), word.get(same..).unwrap_or_default());
    match (typed_rest, word_rest) {
        ([a, b, typed_end @ ..], [c, d, word_end @ ..]) if a == d && b == c => typed_end == word_end,
        // A letter left out, but not the last: 'leave', 'gratin'. Of four letters, three are mostly another word: 'pin'.
        ([_, ..], [_, word_end @ ..]) if typed_rest == word_end => word.len() >= 5,
        // A letter doubled.
        ([a, typed_end @ ..], _) if typed_end == word_rest => typed.get(same - 1) == Some(a),
        // A letter beside the right one, but not the last: 'sliced'.
        ([a, typed_end @ ..], [b, word_end @ ..]) => {
            typed_end == word_end && !word_end.is_empty() && word.len() >= 4 && are_neighbours(*a, *b)
        }
        _ => false,
    }
}

/// Whether two letters lie side by side in a row of the keyboard. Two vowels do not count: `stock` is no slip for `stick`.
fn are_neighbours(one: char, other: char) -> bool {
    if [one, other].iter().all(|letter| "aeiou".contains(*letter)) {
        return false;
    }
    ["qwertyuiop", "asdfghjkl", "zxcvbnm"].iter().any(|row| {
        let place = |letter| row.chars().position(|key| key == letter);
        place(one).zip(place(other)).is_some_and(|(one, other)| one.abs_diff(other) == 1)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_fingers_is_put_right() {
        let table = [
            ("cusp", "cups"),
            ("cpus", "cups"),
            ("cuos", "cups"),
            ("Cupps", "cups"),
            ("tablspoon", "tablespoon"),
            ("tablespon", "tablespoon"),
            ("tabelspoons", "tablespoons"),
            ("tablspons", "tablespoons"),
            ("teapsoon", "teaspoon"),
            ("teaspon", "teaspoon"),
            ("tbps", "tbsp"),
            ("tsbp", "tbsp"),
            ("onces", "ounces"),
            ("ouncse", "ounces"),
            ("poudns", "pounds"),
            ("grasm", "grams"),
            ("minuets", "minutes"),
            ("mintues", "minutes"),
            ("cloevs", "cloves"),
            ("slcies", "slices"),
            ("pinhc", "pinch"),
        ];
        for (typed, meant) in table {
            assert_eq!(nearest_unit(typed), Some(meant), "{typed}");
        }
    }

    #[test]
    fn words_of_their_own_are_left_alone() {
        let words = [
            "cups", "tbsp", "eggs", "pots", "pinto", "pears", "pine", "leeks", "mints", "mint", "limes", "livers",
            "stock", "stack", "quail", "carrots", "onions", "beans", "steaks", "hams", "figs", "cod", "corn", "dates",
            "peas", "spice", "gloves", "bells", "chops", "thighs", "breasts", "potatoes", "tomatoes", "large",
            "medium", "small", "medlars", "cakes", "sliced", "cubed", "pin", "pit", "tap", "gratin", "leave",
            "filberts", "quarters", "cherries", "lemons", "olives", "oz", "a", "",
        ];
        for word in words {
            assert_eq!(nearest_unit(word), None, "{word}");
        }
    }
}

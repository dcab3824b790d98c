//! What stands in a vessel, or comes out of a batch, in the words of a message.

use uom::si::f64::{Mass, Volume};

use super::words;
use crate::{
    measure::{Interval, Measures, Quantity, Style, System, Unit, kitchen_amounts, print, print_amounts},
    recipe::{Recipe, Step, language::token::Token, vessels::Vessel},
};

/// A volume as both kinds of kitchen measure it: `6 1/4 cups (1.5 l)`, `4 1/2 quarts (4.3 l)`.
pub fn volume(volume: Volume, measures: &Measures) -> String {
    let quantity = Quantity::Volume(Interval::exactly(volume));
    let cups = quantity.number_of(Unit::Cup, measures).map_or(0.0, |cups| cups.least);
    let unit = match cups {
        CUPS_OF_A_POT.. => Unit::Quart,
        1.0.. => Unit::Cup,
        _ => return both(&quantity, measures),
    };
    let litres = print_amounts(&kitchen_amounts(&quantity, System::Metric, measures), &Style::default());
    let round = print(&quantity, unit, measures, &Style::default());
    round.map_or(litres.clone(), |round| format!("{round} ({litres})"))
}

/// From so many cups on a volume is told in quarts: nobody measures a pot by the cup.
const CUPS_OF_A_POT: f64 = 12.0;

/// A weight as both kinds of kitchen weigh it: `2 lb (900 g)`.
pub fn weight(weight: Mass, measures: &Measures) -> String {
    both(&Quantity::Weight(Interval::exactly(weight)), measures)
}

/// A quantity in both systems.
pub fn both(quantity: &Quantity, measures: &Measures) -> String {
    let print = |system| print_amounts(&kitchen_amounts(quantity, system, measures), &Style::default());
    let (customary, metric) = (print(System::Customary), print(System::Metric));
    if customary == metric { customary } else { format!("{customary} ({metric})") }
}

/// A vessel as the manuscript names it, without brackets: `an 8 x 4-inch loaf pan`.
pub fn name(recipe: &Recipe, vessel: &Vessel) -> String {
    words::plain(&recipe.at(vessel.span).replace(['[', ']'], ""))
}

/// A number written as another one is: in words where that is, up to twelve.
pub fn number_like(written: &str, number: f64) -> String {
    const WORDS: &[&str] =
        &["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    let in_words = written.starts_with(char::is_alphabetic);
    let word = WORDS.iter().zip(1u8..).find(|(_, value)| f64::from(*value) == number);
    word.filter(|_| in_words).map_or_else(|| format!("{number}"), |(word, _)| (*word).to_owned())
}

/// Whether any step says one of these words, which are folded.
pub fn method_says(recipe: &Recipe, words: &[&str]) -> bool {
    any_token(recipe, |token| token.one_of(words))
}

fn any_token(recipe: &Recipe, wanted: impl Fn(&Token) -> bool) -> bool {
    let own = |step: &'_ Step| -> bool { step.all_tokens().any(&wanted) };
    recipe.steps.iter().any(own)
}

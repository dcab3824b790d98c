//! How much a step takes of an ingredient, in a cook's words.

use crate::{
    measure::{FractionStyle, print_number},
    recipe::{
        Recipe,
        flow::{Taken, Use},
    },
};

/// Shares closer than this are the same share: 0.33 is a third.
const NEARLY: f64 = 0.01;

/// `all`, `half`, `1/3`, `2 tbsp`, `the rest`, `some`; nothing where the step only handles what has been taken before.
pub fn share(recipe: &Recipe, found: &Use) -> Option<String> {
    match found.taken {
        Taken::Nothing => None,
        Taken::Whole => Some("all".to_owned()),
        Taken::Rest => Some("the rest".to_owned()),
        Taken::Some => Some("some".to_owned()),
        Taken::Fraction(least, most) => Some(fraction(least, most)),
        Taken::Amount(measure, _) => {
            let written = recipe.measures.get(measure).map(|measure| recipe.at(measure.span))?;
            Some(written.split_whitespace().collect::<Vec<_>>().join(" "))
        }
    }
}

/// A fraction of the whole, or a range of them.
fn fraction(least: f64, most: f64) -> String {
    let one = |share: f64| {
        let share = [1.0 / 3.0, 2.0 / 3.0].into_iter().find(|third| (third - share).abs() < NEARLY).unwrap_or(share);
        match print_number(share, FractionStyle::Slash) {
            half if half == "1/2" => "half".to_owned(),
            spoken if spoken.contains('/') => spoken,
            _ if (share - 1.0).abs() < NEARLY => "all".to_owned(),
            _ => format!("{:.0} %", share * 100.0),
        }
    };
    match (one(least), one(most)) {
        (least, most) if least == most => least,
        // "Most of it": more than half, and not quite all.
        (least, _) if least == "half" => "most".to_owned(),
        (least, most) => format!("{least} to {most}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_are_said_as_a_cook_says_them() {
        let table = [
            (0.5, 0.5, "half"),
            (0.33, 0.33, "1/3"),
            (2.0 / 3.0, 2.0 / 3.0, "2/3"),
            (0.125, 0.125, "1/8"),
            (0.3, 0.3, "30 %"),
            (1.0, 1.0, "all"),
            (0.5, 0.95, "most"),
            (0.25, 1.0 / 3.0, "1/4 to 1/3"),
        ];
        for (least, most, said) in table {
            assert_eq!(fraction(least, most), said);
        }
    }
}

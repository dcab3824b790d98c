//! What things are called in a message.

use super::setting;
use crate::{
    checks::View,
    larder::words::fold,
    measure::{Amount, FractionStyle, Measures, Quantity, Unit, print_amount, print_number},
    recipe::{Ingredient, Recipe, Step, flow::Taken, mentions::Target},
    text::Span,
};

/// Text from the manuscript on one line, as a sentence can hold it.
pub fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// An ingredient as its line names it, without the brackets of a reference: `sugar`. Capitals that only stand there because the
/// line starts go: `Chili Powder` is chili powder.
pub fn ingredient(recipe: &Recipe, ingredient: &Ingredient) -> String {
    let name = plain(recipe.at(ingredient.mark).trim_matches(['[', ']']));
    let food = ingredient.names.first().and_then(|name| name.food).map(|food| food.name);
    match food.filter(|food| food.starts_with(char::is_lowercase)) {
        _ if ingredient.mark.start > ingredient.span.start => name,
        Some(food) if food.eq_ignore_ascii_case(&name) => food.to_owned(),
        Some(_) => small_first(&name),
        None => name,
    }
}

/// Without the capital that only stands there because a line or a sentence starts.
pub fn small_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_lowercase().chain(chars).collect()).unwrap_or_default()
}

/// An ingredient with its amount, as the line gives both: `sugar (1/3 cup)`.
pub fn with_amount(recipe: &Recipe, line: &Ingredient) -> String {
    let name = ingredient(recipe, line);
    match line.amount.and_then(|index| recipe.measures.get(index)) {
        Some(measure) => format!("{name} ({})", plain(recipe.at(measure.stated.span))),
        None => name,
    }
}

/// What a mention means, named as the manuscript names it: an ingredient, a part of one, a result or a group.
pub fn target(recipe: &Recipe, target: Target) -> String {
    match target {
        Target::Ingredient(index, part) => {
            let name = recipe.ingredient(index).map(|line| ingredient(recipe, line)).unwrap_or_default();
            match part {
                Some(part) if !name.contains(part) => format!("{part} of the {name}"),
                _ => name,
            }
        }
        Target::Result(index) => {
            let known = recipe.flow.results.get(index);
            let written = known.and_then(|known| {
                recipe.steps.get(known.step)?.results.iter().find(|result| result.words == known.words)
            });
            written.map(|result| plain(recipe.at(result.span))).unwrap_or_default()
        }
        Target::Group(index) => recipe.groups.get(index).map(|group| plain(recipe.at(group.name))).unwrap_or_default(),
    }
}

/// A step as its number calls it, or by its place where it has none: `step 3`.
pub fn step(recipe: &Recipe, index: usize) -> String {
    format!("step {}", number_of(recipe, index))
}

/// Several steps: `step 3`, `steps 2 and 4`. Each is named once.
pub fn steps(recipe: &Recipe, indices: impl IntoIterator<Item = usize>) -> String {
    let mut numbers: Vec<String> = indices.into_iter().map(|index| number_of(recipe, index)).collect();
    numbers.dedup();
    match numbers.as_slice() {
        [one] => format!("step {one}"),
        _ => format!("steps {}", and(&numbers)),
    }
}

fn number_of(recipe: &Recipe, index: usize) -> String {
    let number = recipe.steps.get(index).and_then(|step| written_number(recipe, step));
    number.unwrap_or(index as u64 + 1).to_string()
}

/// The number that a step is given in the manuscript.
pub fn written_number(recipe: &Recipe, step: &Step) -> Option<u64> {
    digits(recipe, step)?.of(&recipe.text).parse().ok()
}

/// The digits of a step's number, without what stands around them.
pub fn digits(recipe: &Recipe, step: &Step) -> Option<Span> {
    let number = step.number?;
    let text = recipe.at(number);
    let start = text.find(|c: char| c.is_ascii_digit())?;
    let length = text.get(start..)?.find(|c: char| !c.is_ascii_digit()).unwrap_or(text.len() - start);
    Some(Span::new(number.start + start, number.start + start + length))
}

/// `a`, `a and b`, `a, b and c`.
pub fn and(words: &[String]) -> String {
    join(words, "and")
}

/// `a`, `a or b`, `a, b or c`.
pub fn or(words: &[String]) -> String {
    join(words, "or")
}

fn join(words: &[String], conjunction: &str) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} {conjunction} {last}", first.join(", ")),
    }
}

/// A share of something: `half`, `1/3`, `3/4 cup`; nothing where it takes no share that can be named.
pub fn share(recipe: &Recipe, taken: Taken) -> Option<String> {
    match taken {
        Taken::Fraction(least, most) if least == most => Some(fraction(least)),
        Taken::Fraction(..) => Some("most".to_owned()),
        Taken::Amount(measure, _) => Some(plain(recipe.at(recipe.measures.get(measure)?.stated.span))),
        _ => None,
    }
}

/// A fraction of a whole: `half`, `1/3`, `5/6`; in hundredths where no small number divides it.
pub fn fraction(of_whole: f64) -> String {
    if (of_whole - 0.5).abs() < 1e-3 {
        return "half".to_owned();
    }
    let under = (3..=12u8).map(f64::from).find(|under| ((of_whole * under).round() / under - of_whole).abs() < 1e-3);
    match under {
        Some(under) => format!("{}/{under}", (of_whole * under).round()),
        None => print_number((of_whole * 100.0).round() / 100.0, FractionStyle::Slash),
    }
}

/// An amount as the house writes it, or as the recipe does: `1 1/4 cups`.
pub fn amount(view: &View<'_>, amount: &Amount) -> String {
    print_amount(amount, &setting::style(view))
}

/// A quantity in a unit, or as a bare number where it counts the food itself; nothing where it has no such unit.
pub fn quantity(view: &View<'_>, quantity: &Quantity, unit: Option<Unit>) -> Option<String> {
    amount_in(quantity, unit, &view.house.measures).map(|found| amount(view, &found))
}

/// The same as an amount.
pub fn amount_in(quantity: &Quantity, unit: Option<Unit>, house: &Measures) -> Option<Amount> {
    let number = match (quantity, unit) {
        (Quantity::Count { count, unit: None }, None) => *count,
        (_, unit) => quantity.number_of(unit?, house)?,
    };
    Some(Amount::new(number, unit))
}

/// The pronoun for something that is used: `it`, or `them` for a plural.
pub fn it(name: &str) -> &'static str {
    if is_plural(name) { "them" } else { "it" }
}

/// Whether a name ends in a plural: `toasts`, and not `cress`.
pub fn is_plural(name: &str) -> bool {
    let last = name.rsplit(' ').next().unwrap_or_default().to_lowercase();
    last.ends_with('s') && fold(&last) != last
}

/// `a blender`, `an oven`.
pub fn with_article(name: &str) -> String {
    let article = if name.starts_with(['a', 'e', 'i', 'o']) { "an" } else { "a" };
    format!("{article} {name}")
}

/// With a capital at its start.
pub fn sentence(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|first| first.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fractions_read_as_a_cook_says_them() {
        let table = [
            (0.5, "half"),
            (1.0 / 3.0, "1/3"),
            (0.75, "3/4"),
            (1.0 / 6.0, "1/6"),
            (5.0 / 12.0, "5/12"),
            (7.0 / 6.0, "7/6"),
            (0.37, "0.37"),
        ];
        for (value, text) in table {
            assert_eq!(fraction(value), text);
        }
    }

    #[test]
    fn names_are_joined_as_in_a_sentence() {
        let words = |text: &str| text.split(' ').map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(and(&words("salt")), "salt");
        assert_eq!(and(&words("salt oil")), "salt and oil");
        assert_eq!(or(&words("salt oil thyme")), "salt, oil or thyme");
        assert_eq!(sentence("the été"), "The été");
        assert_eq!(with_article("ice cream maker"), "an ice cream maker");
        assert_eq!(with_article("sieve"), "a sieve");
    }
}

//! Numbers that cannot be read as a cook would.

use crate::{
    measure::NumberFault,
    recipe::{
        Recipe,
        measures::{Place, Term},
    },
};

/// Every faulty number of an amount, with its fault: in ingredient lines, and with a unit in steps, equipment and results. Dates of
/// tests and bare numbers in prose are none.
pub fn faulty(recipe: &Recipe) -> impl Iterator<Item = (&Term, &NumberFault)> {
    let measures = recipe.measures.iter();
    measures
        .flat_map(move |measure| {
            let place = measure.place;
            let terms = measure.statements().chain(&measure.each).flat_map(|stated| &stated.terms);
            terms.filter(move |term| match place {
                Place::Ingredient(index) => term.unit.is_some() || amount_of(recipe, index, term),
                Place::Step(_) | Place::Equipment(_) | Place::Result(_) | Place::Header(_) => term.unit.is_some(),
                Place::Test(_) | Place::Prose => false,
            })
        })
        .filter_map(|term| term.amount.as_ref().err().map(|fault| (term, fault)))
}

/// Whether a term is the amount of its line, and not a number inside a name (flour of type 00).
fn amount_of(recipe: &Recipe, ingredient: usize, term: &Term) -> bool {
    let amount = recipe.ingredients.get(ingredient).and_then(|ingredient| ingredient.amount);
    amount
        .and_then(|index| recipe.measures.get(index))
        .is_some_and(|measure| measure.span.contains(term.span) && measure.span.start == start(recipe, ingredient))
}

fn start(recipe: &Recipe, ingredient: usize) -> usize {
    recipe.ingredients.get(ingredient).map_or(0, |ingredient| ingredient.span.start)
}

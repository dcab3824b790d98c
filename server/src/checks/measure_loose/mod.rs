//! `measure-loose`: an amount that every reader takes for another.

use uom::si::volume::milliliter;

use super::{Check, Finding, Fix, Severity, View, support::setting};
use crate::{
    measure::{Interval, Quantity, System, Unit, UnitKind, kitchen_amounts, print_amounts, taken_as},
    recipe::measures::Place,
    text::Edit,
};

/// The check.
pub const CHECK: Check =
    Check { code: "measure-loose", severity: Severity::Info, on: true, docs: include_str!("docs.md"), find };

/// Loose measures that every kitchen has and nobody weighs: they stand for "a very little" (common practice, no source).
const SMALL: &[Unit] = &[Unit::Pinch, Unit::Dash, Unit::Drop, Unit::Smidgen, Unit::Grating, Unit::Sprinkle];

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let recipe = view.recipe;
    for measure in recipe.measures.iter().filter(|measure| matches!(measure.place, Place::Ingredient(_))) {
        let Some(amount) = measure.amount().filter(|amount| amount.kind() == UnitKind::Loose) else { continue };
        let Some(unit) = amount.unit.filter(|unit| !SMALL.contains(unit) && measure.restated.is_empty()) else {
            continue;
        };
        let written = recipe.at(measure.span);
        let said = taken_as(unit).map(|taken| {
            let millilitres = taken.volume.map(|volume| volume.get::<milliliter>());
            print(view, &millilitres.scaled(&amount.number))
        });
        let readers = said.as_ref().map(|said| format!(" Readers take it for {said}.")).unwrap_or_default();
        let message =
            format!("Nobody can measure {written}.{readers} Where it matters, give a range that can be measured.");
        let found = Finding::new(CHECK.code, CHECK.severity, measure.span, message);
        out.push(match said {
            Some(said) => found.fix(Fix::new(format!("Write {said}"), vec![Edit::replace(measure.span, said)])),
            None => found,
        });
    }
}

/// A range of volumes in spoons, as a cook writes it: `1 to 2 tbsp`.
fn print(view: &View<'_>, millilitres: &Interval) -> String {
    let amounts = kitchen_amounts(&Quantity::millilitres(*millilitres), System::Customary, &view.house.measures);
    print_amounts(&amounts, &setting::style(view))
}

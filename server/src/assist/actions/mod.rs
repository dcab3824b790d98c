//! What can be done with a line or with a recipe that is not wrong: measures added, converted and spelt out, mentions marked.
//! None of it changes what a cook does.

mod mark;
mod restate;
mod spell;
mod weigh;

use crate::{
    book::House,
    recipe::Recipe,
    text::{Edit, Span},
};

/// Something that can be done.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Action {
    /// What it does.
    pub change: Change,
    /// Whether it does so in the whole recipe, and not only where the cursor is.
    pub throughout: bool,
    /// As a menu shows it: an order.
    pub title: String,
    /// Its edits, in bytes of the recipe's text; they do not overlap.
    pub edits: Vec<Edit>,
}

/// What an action changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Change {
    /// Adds the metric measure beside a customary one.
    AddMetric,
    /// Adds the customary measure beside a metric one.
    AddCustomary,
    /// Puts a weight in the place of a volume.
    Weigh,
    /// Adds the weight of what is counted.
    WeighCounted,
    /// Writes a unit in full.
    SpellOut,
    /// Puts a mention in brackets.
    Mark,
}

/// Everything that can be done where `asked` lies, which is a cursor or a selection of the recipe's text: in its lines and
/// steps first, then throughout the recipe.
pub fn actions(recipe: &Recipe, house: &House, asked: Span) -> Vec<Action> {
    let all = changes(recipe, house);
    let meets = |span: Span| span.start <= asked.end && asked.start <= span.end;
    let here: Vec<Span> = lines(recipe).filter(|span| meets(*span)).collect();
    let mut out = Vec::new();
    for change in Change::ALL {
        let own = all.iter().filter(|one| one.change == change);
        let (inside, outside): (Vec<&One>, Vec<&One>) =
            own.partition(|one| here.iter().any(|line| line.contains(one.place)));
        // A mention, a unit: the one that is pointed at, where one is.
        let pointed: Vec<&One> = inside.iter().copied().filter(|one| one.place.touches(asked.start)).collect();
        let near = if pointed.is_empty() || !asked.is_empty() { &inside } else { &pointed };
        out.extend(one_action(recipe, change, near, false));
        let whole: Vec<&One> = all.iter().filter(|one| one.change == change && !one.only_here).collect();
        let more = outside.iter().any(|one| !one.only_here) || near.len() < inside.len();
        out.extend(Some(whole).filter(|_| more).and_then(|whole| one_action(recipe, change, &whole, true)));
    }
    out.sort_by_key(|action| action.throughout);
    out
}

/// The edits that make a change throughout a recipe.
pub fn throughout(recipe: &Recipe, house: &House, change: Change) -> Vec<Edit> {
    let all = changes(recipe, house).into_iter().filter(|one| one.change == change && !one.only_here);
    all.flat_map(|one| one.edits).collect()
}

impl Change {
    /// All of them, in the order in which they are offered.
    pub const ALL: [Change; 6] =
        [Change::AddMetric, Change::AddCustomary, Change::Weigh, Change::WeighCounted, Change::SpellOut, Change::Mark];

    fn title(self, recipe: &Recipe, ones: &[&One], throughout: bool) -> String {
        let in_step = ones.iter().all(|one| recipe.steps.iter().any(|step| step.span.contains(one.place)));
        let place = if in_step { "in this step" } else { "on this line" };
        match (self, ones, throughout) {
            (Change::AddMetric, [one], false) => format!("Add the metric measure: {}", one.text),
            (Change::AddMetric, _, false) => format!("Add the metric measures {place}"),
            (Change::AddMetric, _, true) => "Add metric measures throughout the recipe".to_owned(),
            (Change::AddCustomary, [one], false) => format!("Add the US measure: {}", one.text),
            (Change::AddCustomary, _, false) => format!("Add the US measures {place}"),
            (Change::AddCustomary, _, true) => "Add US measures throughout the recipe".to_owned(),
            (Change::Weigh, [one], false) => format!("Give it by weight: {}", one.text),
            (Change::Weigh, _, false) => "Give these lines by weight".to_owned(),
            (Change::Weigh, _, true) => "Give the recipe by weight".to_owned(),
            (Change::WeighCounted, [one], false) => format!("Add the weight: {}", one.text),
            (Change::WeighCounted, _, false) => "Add the weights on these lines".to_owned(),
            (Change::WeighCounted, _, true) => "Add the weight of everything that is counted".to_owned(),
            (Change::SpellOut, [one], false) => format!("Write {} in full", one.text),
            (Change::SpellOut, _, false) => format!("Write the units {place} in full"),
            (Change::SpellOut, _, true) => "Write every cup, spoon and ounce in full".to_owned(),
            (Change::Mark, [one], false) => format!("Put {} in brackets", one.text),
            (Change::Mark, _, false) => "Put the mentions in this step in brackets".to_owned(),
            (Change::Mark, _, true) => "Put every mention in brackets".to_owned(),
        }
    }
}

/// One change at one place.
#[derive(Debug, Clone)]
struct One {
    change: Change,
    /// Where it belongs: what the cursor must touch.
    place: Span,
    /// What the title says of it.
    text: String,
    edits: Vec<Edit>,
    /// Whether it is made only where it is asked for, and not throughout a recipe.
    only_here: bool,
}

/// Each change at each place that the recipe allows.
fn changes(recipe: &Recipe, house: &House) -> Vec<One> {
    let mut all = restate::all(recipe, house);
    all.extend(weigh::volumes(recipe, house));
    all.extend(weigh::counted(recipe, house));
    all.extend(spell::all(recipe));
    all.extend(mark::all(recipe));
    all
}

fn one_action(recipe: &Recipe, change: Change, ones: &[&One], throughout: bool) -> Option<Action> {
    let edits: Vec<Edit> = ones.iter().flat_map(|one| one.edits.iter().cloned()).collect();
    (!edits.is_empty()).then(|| Action { change, throughout, title: change.title(recipe, ones, throughout), edits })
}

/// The lines and steps of a recipe.
fn lines(recipe: &Recipe) -> impl Iterator<Item = Span> {
    let headers = recipe.headers.iter().map(|header| header.label.joined(header.value));
    let tools = recipe.equipment.iter().map(|line| line.span);
    let listed = recipe.ingredients.iter().map(|line| line.span);
    let steps = recipe.steps.iter().map(|step| step.span);
    headers.chain(tools).chain(listed).chain(steps)
}

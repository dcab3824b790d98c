//! What laying a manuscript out promises.

use std::sync::Arc;

use tamis::{
    book::House,
    text::{Edit, Span},
    workspace::Manuscript,
};

/// A manuscript of its own, in the usual style.
pub fn manuscript(text: &str) -> Manuscript {
    Manuscript::new(text, Arc::new(House::default()))
}

/// The text laid out.
pub fn formatted(text: &str) -> String {
    Edit::put_into(text, &manuscript(text).formatted())
}

/// What a recipe says, told in the words of this test and not of the formatter: who uses how much of what in which step, what
/// each line and step says. How wide a gap is, and the number of a step, say nothing.
fn meaning(text: &str) -> Vec<String> {
    let bare = |text: &str| text.split_whitespace().collect::<String>();
    let mut facts = Vec::new();
    let held = manuscript(text);
    for (_, recipe) in held.recipes() {
        facts.push(bare(recipe.name()));
        facts.extend(recipe.headers.iter().map(|header| bare(recipe.at(header.value))));
        for (index, line) in recipe.ingredients.iter().enumerate() {
            facts.push(format!("{} {:?}", bare(recipe.at(line.span)), line.group));
            let uses = recipe.flow.uses(index);
            facts.extend(uses.iter().map(|found| format!("{} {:?} {:?}", found.step, found.part, found.taken)));
        }
        facts.extend(recipe.equipment.iter().map(|line| bare(recipe.at(line.span))));
        facts.extend(recipe.steps.iter().map(|step| bare(recipe.at(Span::new(step.body.start, step.span.end)))));
        let numbers = recipe.measures.iter().flat_map(|measure| measure.statements());
        facts.extend(numbers.map(|stated| format!("{:?}", stated.amounts())));
        for spans in [&recipe.tests, &recipe.queries, &recipe.headnotes] {
            facts.extend(spans.iter().map(|span| bare(recipe.at(*span))));
        }
        facts.extend(recipe.stets.iter().map(|stet| bare(recipe.at(stet.span))));
    }
    facts
}

/// Comments as they are written, and everything else that is written for no reader.
fn kept(text: &str) -> Vec<String> {
    let begins = |line: &str, at: &usize| *at == 0 || line[..*at].ends_with([' ', '\t']);
    let comment = |line: &str| line.match_indices("//").map(|(at, _)| at).find(|at| begins(line, at));
    let lines = text.split(['\n', '\r']);
    lines.filter_map(|line| comment(line).map(|at| line[at..].trim_end().to_owned())).collect()
}

/// Laying a text out a second time changes nothing; it means and keeps what it did, and its lines end as they ended.
#[track_caller]
pub fn holds(text: &str) {
    let once = formatted(text);
    assert_eq!(formatted(&once), once, "laid out twice:\n{text}");
    assert_eq!(meaning(&once), meaning(text), "{text}\nbecame\n{once}");
    assert_eq!(kept(&once), kept(text), "{text}");
    let foreign = |text: &str| (text.matches("\r\n").count(), text.matches('\r').count(), text.matches('\n').count());
    let (pairs, returns, feeds) = foreign(&once);
    let (had_pairs, had_returns, had_feeds) = foreign(text);
    assert!(had_returns > 0 || returns == 0);
    // A single line gets an end, and has shown none.
    assert!(had_feeds == 0 || had_pairs < had_feeds || pairs == feeds);
    assert!(had_pairs < had_returns || pairs == returns);
}

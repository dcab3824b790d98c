//! What a recipe says, without how it is laid out: what has to be the same before and after.

use crate::{recipe::Recipe, text::Span};

/// What a recipe says, a fact a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Meaning(Vec<String>);

impl Meaning {
    /// What `recipe` says.
    pub fn of(recipe: &Recipe) -> Meaning {
        let mut facts = Vec::new();
        front(recipe, &mut facts);
        list(recipe, &mut facts);
        method(recipe, &mut facts);
        measures(recipe, &mut facts);
        desk(recipe, &mut facts);
        Meaning(facts)
    }
}

/// Text without white space: how wide a gap is says nothing.
fn bare(recipe: &Recipe, span: Span) -> String {
    recipe.at(span).split_whitespace().collect()
}

fn front(recipe: &Recipe, facts: &mut Vec<String>) {
    facts.push(format!("title {:?} {}", recipe.title.map(|title| bare(recipe, title)), recipe.labelled));
    for header in &recipe.headers {
        facts.push(format!("{}: {}", bare(recipe, header.label).to_lowercase(), bare(recipe, header.value)));
    }
    facts.extend(recipe.headnotes.iter().map(|span| bare(recipe, *span)));
    for section in &recipe.sections {
        facts.push(format!("{:?} {}", section.kind, bare(recipe, section.heading).to_lowercase()));
    }
    for group in &recipe.groups {
        facts.push(format!("{:?} {} {}", group.section, bare(recipe, group.name), group.at_table));
    }
}

fn list(recipe: &Recipe, facts: &mut Vec<String>) {
    for (index, line) in recipe.ingredients.iter().enumerate() {
        let names: Vec<_> = line
            .names
            .iter()
            .map(|name| (&name.all_words, name.food.map(|food| food.name), name.part, name.aside))
            .collect();
        let parts: Vec<_> = line.parts.iter().map(|part| part.name).collect();
        let uses: Vec<_> = recipe.flow.uses(index);
        let uses: Vec<_> = uses.iter().map(|found| (found.step, found.part, found.taken, found.link)).collect();
        facts.push(format!(
            "{} {:?} {:?} {:?} {:?} {} {parts:?} {:?} {:?} {names:?} {uses:?}",
            bare(recipe, line.span),
            line.group,
            line.measures,
            line.amount,
            line.tags,
            line.alternatives,
            line.pieces,
            line.reference
        ));
    }
    facts.extend(recipe.equipment.iter().map(|line| format!("{} {:?}", bare(recipe, line.span), line.words)));
    facts.push(format!("{:?}", recipe.flow.equipment));
}

fn method(recipe: &Recipe, facts: &mut Vec<String>) {
    for step in &recipe.steps {
        let words: Vec<_> = step.tokens.iter().map(|token| &token.fold).collect();
        let marks: Vec<_> = step.marks.iter().map(|mark| bare(recipe, mark.span)).collect();
        let results: Vec<_> = step.results.iter().map(|result| (&result.words, result.amount)).collect();
        let numbered = step.number.is_some();
        facts.push(format!("{numbered} {:?} {} {words:?} {marks:?} {results:?}", step.group, bare(recipe, step.body)));
    }
    let unlisted = recipe.flow.unlisted.iter().map(|missing| (missing.step, bare(recipe, missing.span)));
    facts.push(format!("{:?} {}", unlisted.collect::<Vec<_>>(), recipe.flow.mentions.len()));
}

fn measures(recipe: &Recipe, facts: &mut Vec<String>) {
    for measure in &recipe.measures {
        let statements = measure.statements().chain(&measure.each);
        let stated: Vec<_> = statements
            .map(|stated| {
                let terms: Vec<_> = stated.terms.iter().map(|term| &term.amount).collect();
                (terms, stated.sides, stated.each)
            })
            .collect();
        facts.push(format!("{stated:?} {} {} {:?}", measure.each.len(), measure.open, measure.place));
    }
}

/// What an author and an editor wrote for themselves.
fn desk(recipe: &Recipe, facts: &mut Vec<String>) {
    facts.extend(recipe.tests.iter().map(|span| bare(recipe, *span)));
    facts.extend(recipe.references.iter().map(|reference| bare(recipe, reference.title)));
    facts.extend(recipe.queries.iter().map(|span| bare(recipe, *span)));
    for stet in &recipe.stets {
        // A step keeps its stet whatever its number; the recipe's own speaks for all of it.
        let scope = recipe.steps.iter().position(|step| step.span == stet.scope);
        let whole = stet.scope.start == 0 && stet.scope.end == recipe.text.len();
        let speaks_for = if whole || scope.is_some() { String::new() } else { bare(recipe, stet.scope).to_lowercase() };
        let reason = stet.reason.map(|reason| bare(recipe, reason));
        facts.push(format!("{} {reason:?} {scope:?} {whole} {speaks_for}", bare(recipe, stet.check)));
    }
    facts.extend(recipe.damage.iter().map(|span| bare(recipe, *span)));
}

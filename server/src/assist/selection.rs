//! What a growing selection takes in, one after the other: the word, the measure or mention it stands in, the sentence, the step
//! or line, the group, the section, the recipe.

use super::{
    outline::{Entry, outline},
    wording::trimmed,
};
use crate::{
    larder::words,
    recipe::{
        Recipe,
        language::{
            clause::sentences,
            token::{Token, tokens},
        },
        measures::Measure,
    },
    text::{LineIndex, Span},
};

/// The stretches around `offset`, from the shortest to the longest, each within the next. Empty where nothing is.
pub fn selection(recipe: &Recipe, offset: usize) -> Vec<Span> {
    let mut around = Vec::new();
    let paragraph = paragraph(&recipe.text, offset);
    around.extend(words::iter(paragraph.of(&recipe.text)).map(|word| word.span.shifted(paragraph.start)));
    for measure in recipe.measures.iter().filter(|measure| measure.span.touches(offset)) {
        parts(measure, &mut around);
    }
    for mention in recipe.flow.mentions.iter().filter(|mention| mention.span.touches(offset)) {
        around.extend([mention.span, recipe.with_share(mention)]);
        around.extend(recipe.mark_name(mention.step, mention.span));
    }
    around.extend(recipe.references.iter().flat_map(|reference| [reference.title, reference.span]));
    let here = recipe.steps.iter().filter(|step| step.span.touches(offset));
    for step in here {
        around.extend(step.marks.iter().flat_map(|mark| [mark.inner, mark.span]));
        around.extend([step.body, step.span]);
        around.extend(by_sentence(&step.tokens));
    }
    around.extend(recipe.ingredients.iter().flat_map(|line| line.names.iter().map(|name| name.span)));
    around.extend(recipe.headers.iter().flat_map(|header| [header.value, header.label.joined(header.value)]));
    around.extend(by_sentence(&tokens(&recipe.text, paragraph, &[])));
    around.push(paragraph);
    entries(&outline(recipe), &mut around);
    nested(around, offset)
}

/// Those of `around` that hold `offset`, each within the next.
fn nested(mut around: Vec<Span>, offset: usize) -> Vec<Span> {
    around.retain(|span| span.touches(offset) && !span.is_empty());
    // Between two words the one that begins there is meant.
    around.sort_by_key(|span| (span.len(), span.start != offset));
    let mut out: Vec<Span> = Vec::new();
    for span in around {
        if out.last().is_none_or(|inner| span.contains(*inner) && span != *inner) {
            out.push(span);
        }
    }
    out
}

fn parts(measure: &Measure, out: &mut Vec<Span>) {
    for stated in measure.statements().chain(&measure.each) {
        out.extend(stated.terms.iter().flat_map(|term| [term.number, term.span]));
        out.push(stated.span);
    }
    out.push(measure.span);
}

fn by_sentence(tokens: &[Token]) -> impl Iterator<Item = Span> {
    sentences(tokens).filter_map(|sentence| {
        let own = tokens.get(sentence.start..sentence.end)?;
        Some(own.first()?.span.joined(own.last()?.span))
    })
}

fn entries(entry: &Entry, out: &mut Vec<Span>) {
    out.extend([entry.selection, entry.span]);
    entry.children.iter().for_each(|child| entries(child, out));
}

/// The lines around `offset` up to the next blank ones.
fn paragraph(text: &str, offset: usize) -> Span {
    let lines = LineIndex::new(text);
    let own = lines.line_of(offset);
    let blank = |line: &usize| lines.line(*line).of(text).trim().is_empty();
    let first = (0..=own).rev().take_while(|line| !blank(line)).last().unwrap_or(own);
    let last = (own..lines.line_count()).take_while(|line| !blank(line)).last().unwrap_or(own);
    trimmed(text, lines.line(first).joined(lines.line(last)))
}

//! Names of what a step can use, in brackets and without: what nothing has used yet first, with what is left of each.

use super::{Asked, Proposal, ProposalKind, Topic, begun, here::Here};
use crate::{
    assist::{
        left::{Left, left, share_of},
        things::{bare_name, results_named},
        tools,
        wording::{lower_first, one_line},
    },
    recipe::{Ingredient, Name, Recipe, SectionKind, mentions::Target, mentions::name_begins},
    text::Span,
};

/// How much the recipe still needs something to be used, the most needed first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Need {
    /// It has been made and not been used.
    Made,
    /// It is listed and nothing has used it.
    Unused,
    /// Some of it is left.
    Left,
    /// A piece of equipment that nothing has used.
    Idle,
    /// It has been used, and can be spoken of again.
    Used,
}

struct Candidate {
    kind: ProposalKind,
    name: String,
    detail: String,
    need: Need,
    /// Whether a step has taken some of the whole of it, so that there is a rest.
    begun: bool,
    target: Option<Target>,
    topic: Option<Topic>,
}

/// Names between brackets: with what closes them, in words that mean just this.
pub fn marked(asked: &Asked<'_>, here: &Here<'_>, start: usize) -> Vec<Proposal> {
    if here.section != Some(SectionKind::Method) {
        return Vec::new();
    }
    let inside = Span::new(start, here.offset).of(&asked.recipe.text);
    let begins = name_begins(inside);
    let span = Span::new(start + begins, here.offset);
    let typed = span.of(&asked.recipe.text);
    let shared = begins > 0;
    let step = step_at(asked.recipe, here.offset);
    let mut out = Vec::new();
    for candidate in candidates(asked, Span::new(start.saturating_sub(1), here.offset), true) {
        let name = exact(asked.recipe, step, &candidate);
        let rest = format!("the rest of the {name}");
        if !shared && candidate.begun && typed.is_empty() {
            out.push(proposal(&candidate, span, &rest, &rest, here.closing("]")));
        }
        if let Some(filter) = begun(&name, typed) {
            out.push(proposal(&candidate, span, &name, filter, here.closing("]")));
        }
    }
    out
}

/// Names in plain prose. Behind a blank only what is still needed is offered without being asked for.
pub fn plain(asked: &Asked<'_>, here: &Here<'_>) -> Vec<Proposal> {
    let in_step = here.before.split_whitespace().next().is_some_and(|first| first != "stet");
    if !in_step || here.before.contains("=>") || here.word().is_empty() && !here.before.ends_with(' ') {
        return Vec::new();
    }
    let mut out = Vec::new();
    for candidate in candidates(asked, here.typed(here.word()), false) {
        let silent = here.word().is_empty() && !asked.wanted && candidate.need > Need::Left;
        if let Some((typed, filter)) = typed(here, &candidate.name).filter(|_| !silent) {
            out.push(proposal(&candidate, here.typed(typed), &candidate.name, filter, ""));
        }
    }
    out
}

fn proposal(candidate: &Candidate, span: Span, name: &str, filter: &str, closing: &str) -> Proposal {
    Proposal {
        label: name.to_owned(),
        detail: candidate.detail.clone(),
        filter: filter.to_owned(),
        topic: candidate.topic.clone(),
        ..Proposal::new(candidate.kind, span, format!("{name}{closing}"))
    }
}

/// How much of a name has been typed, where one of its words has been begun, and the rest of the name from there: `brown su` of
/// *light brown sugar*.
fn typed<'h, 'n>(here: &Here<'h>, name: &'n str) -> Option<(&'h str, &'n str)> {
    let word = here.word();
    let starts = std::iter::once(0).chain(name.match_indices(' ').map(|(at, _)| at + 1));
    let found = starts.filter_map(|at| {
        let from = name.get(at..)?;
        let words = std::iter::once(0).chain(from.match_indices(' ').map(|(at, _)| at + 1));
        // The longest beginning of the name that stands before the cursor.
        let mut longest = words.filter_map(|end| {
            let (before, last) = from.split_at_checked(end)?;
            let length = before.len() + word.len();
            let written = here.before.get(here.before.len().checked_sub(length)?..)?;
            let same = written.get(..before.len())?.eq_ignore_ascii_case(before) && begun(last, word) == Some(last);
            let apart = here.before.strip_suffix(written)?.chars().last().is_none_or(|c| !c.is_alphanumeric());
            (same && apart).then_some(written)
        });
        longest.next_back().map(|written| (written, from))
    });
    found.max_by_key(|(written, _)| written.len())
}

/// The step at a place, as an index; of a step that is still to be written, how many there are before it.
fn step_at(recipe: &Recipe, offset: usize) -> usize {
    let own = recipe.steps.iter().position(|step| step.span.touches(offset));
    own.unwrap_or_else(|| recipe.steps.iter().filter(|step| step.span.end <= offset).count())
}

/// The name in the words that mean it in brackets and nothing else: alone, in full, or with its heading.
fn exact(recipe: &Recipe, step: usize, candidate: &Candidate) -> String {
    let Some(target @ Target::Ingredient(index, _)) = candidate.target else { return candidate.name.clone() };
    let line = recipe.ingredients.get(index);
    let group = line.and_then(|line| recipe.groups.get(line.group?)).map(|group| group.words.join(" "));
    let full = line.and_then(|line| line.names.first()).map(|name| one_line(recipe.at(name.span)));
    let headed = group.map(|group| format!("{group} {}", candidate.name));
    let wordings = [Some(candidate.name.clone()), full, headed];
    let means = |words: &String| recipe.marked_meaning(step, words).as_slice() == [target];
    wordings.into_iter().flatten().find(means).unwrap_or_else(|| candidate.name.clone())
}

/// Everything that could be named at a place.
fn candidates(asked: &Asked<'_>, here: Span, brackets: bool) -> Vec<Candidate> {
    let recipe = asked.recipe;
    let mut out = made(recipe, here);
    for (index, line) in recipe.ingredients.iter().enumerate().filter(|(_, line)| !line.tags.remark) {
        for name in line.names.iter().filter(|name| !name.aside) {
            out.push(listed(asked, here, index, line, name));
        }
        out.extend(parts(recipe, here, index, line));
    }
    out.extend(equipment(recipe, here));
    if brackets {
        out.extend(groups(recipe, here));
    }
    out.sort_by_key(|candidate| candidate.need);
    out
}

/// What earlier steps have made, the latest first, each name once.
fn made(recipe: &Recipe, here: Span) -> Vec<Candidate> {
    let step = step_at(recipe, here.end);
    let mut out: Vec<Candidate> = Vec::new();
    for (index, result) in recipe.flow.results.iter().enumerate().rev().filter(|(_, result)| result.step < step) {
        let written = results_named(recipe, &result.words).find(|(own, _)| *own == result.step);
        let name = written.map_or_else(|| result.words.join(" "), |(_, span)| one_line(recipe.at(span)));
        if name.is_empty() || out.iter().any(|other| other.name == name) {
            continue;
        }
        let target = Target::Result(index);
        let (need, rest) = match left(recipe, target, here) {
            Left::All => (Need::Made, ""),
            Left::Nothing => (Need::Used, ", used"),
            Left::Share(_) | Left::Some => (Need::Left, ", some left"),
        };
        let detail = format!("made in step {}{rest}", result.step + 1);
        out.push(Candidate {
            kind: ProposalKind::Result,
            name,
            detail,
            need,
            begun: need == Need::Left,
            target: Some(target),
            topic: None,
        });
    }
    out
}

fn listed(asked: &Asked<'_>, here: Span, index: usize, line: &Ingredient, name: &Name) -> Candidate {
    let recipe = asked.recipe;
    let target = Target::Ingredient(index, None);
    let amount = line.amount.and_then(|index| recipe.measures.get(index)).map(|own| one_line(recipe.at(own.span)));
    let (need, detail) = match left(recipe, target, here) {
        // Used by a word for many, or for its kind.
        Left::All if used_before(recipe, target, here) => (Need::Used, "used".to_owned()),
        Left::All => (Need::Unused, amount.unwrap_or_default()),
        Left::Nothing => (Need::Used, "all used".to_owned()),
        Left::Some => (Need::Left, "some left".to_owned()),
        Left::Share(share) => {
            let left = line.amount.and_then(|index| share_of(recipe, asked.house, index, &share));
            (Need::Left, left.map_or_else(|| "some left".to_owned(), |left| format!("{left} left")))
        }
    };
    let written = one_line(recipe.at(bare_name(recipe, name)));
    let known = name.food.is_some_and(|food| food.name.starts_with(char::is_lowercase));
    let name_as_read = if known { lower_first(&written) } else { written };
    let topic = name.food.map(|food| Topic::Food(food.name.to_owned()));
    let begun = need == Need::Left && used_before(recipe, target, here);
    Candidate { kind: ProposalKind::Ingredient, name: name_as_read, detail, need, begun, target: Some(target), topic }
}

/// Whether something before a place handles it.
fn used_before(recipe: &Recipe, target: Target, here: Span) -> bool {
    let mut mentions = recipe.flow.mentions.iter().filter(|mention| mention.span.end <= here.start);
    mentions.any(|mention| {
        mention.sense == crate::recipe::language::clause::Sense::Use && mention.targets.contains(&target)
    })
}

/// The parts that a line takes its food apart into.
fn parts(recipe: &Recipe, here: Span, index: usize, line: &Ingredient) -> Vec<Candidate> {
    let whole = line.names.first().map(|name| one_line(recipe.at(bare_name(recipe, name)))).unwrap_or_default();
    let of_part = |part: &crate::recipe::Part| {
        let target = Target::Ingredient(index, Some(part.name));
        let used = left(recipe, target, here) == Left::Nothing;
        let counted = matches!(part.name, "yolk" | "white");
        Candidate {
            kind: ProposalKind::Ingredient,
            name: format!("{}{}", part.name, if counted { "s" } else { "" }),
            detail: format!("of the {}{}", lower_first(&whole), if used { ", used" } else { "" }),
            need: if used { Need::Used } else { Need::Unused },
            begun: false,
            target: Some(target),
            topic: None,
        }
    };
    line.parts.iter().map(of_part).collect()
}

fn equipment(recipe: &Recipe, here: Span) -> Vec<Candidate> {
    let used: Vec<(Span, usize)> = tools::mentions(recipe);
    let piece = |index: usize| {
        let name = one_line(recipe.at(tools::name(recipe, index)?));
        let used = used.iter().any(|(span, own)| *own == index && (span.end <= here.start || span.start > here.end));
        let need = if used { Need::Used } else { Need::Idle };
        let kind = ProposalKind::Equipment;
        let (name, detail) = (lower_first(&name), "equipment".to_owned());
        Some(Candidate { kind, name, detail, need, begun: false, target: None, topic: None })
    };
    (0..recipe.equipment.len()).filter_map(piece).collect()
}

/// Groups of several lines that nothing has used: `[crumble ingredients]`.
fn groups(recipe: &Recipe, here: Span) -> Vec<Candidate> {
    let whole = |(index, group): (usize, &crate::recipe::Group)| {
        let lines = recipe.ingredients.iter().enumerate().filter(|(_, line)| line.group == Some(index));
        let lines: Vec<usize> = lines.filter(|(_, line)| !line.tags.remark).map(|(line, _)| line).collect();
        let unused = |line: &usize| !used_before(recipe, Target::Ingredient(*line, None), here);
        let wanted = lines.len() > 1 && lines.iter().all(unused) && !group.words.is_empty() && !group.at_table;
        wanted.then(|| Candidate {
            kind: ProposalKind::Group,
            name: format!("{} ingredients", group.words.join(" ")),
            detail: format!("all {} of them", lines.len()),
            need: Need::Idle,
            begun: false,
            target: None,
            topic: None,
        })
    };
    recipe.groups.iter().enumerate().filter_map(whole).collect()
}

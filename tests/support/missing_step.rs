//! Takes single uses out of sound recipes, and looks where `ingredient-unused` would put them back.
//!
//! An ingredient counts that one mention alone uses, by its own name. With it goes what a careless cut would take: the sentence,
//! where it uses nothing else; else the name with its amount and article and with the comma, the *and* or the preposition that
//! joins it to its neighbours. A step that has no other sentence goes out whole, and its number with it; the others keep theirs.
//!
//! A place is right when the ingredient is named in the step that it was taken from, or in a new step right before or right
//! behind that one. Where the step went out whole, only a new step in the gap is right.

use std::sync::Arc;

use tamis::{
    book::House,
    checks::Finding,
    recipe::{
        Recipe, Step,
        flow::Use,
        language::{
            clause::{self, Sense},
            lexicon::Roles,
            token::{Token, TokenKind},
        },
        mentions::{Link, Mention},
    },
    text::{Edit, Span},
    workspace::Manuscript,
};

/// A recipe that lacks one use.
#[derive(Debug, Clone)]
pub struct Case {
    /// The line of the list, as written.
    pub line: String,
    /// The number of the step that it was taken from, counted from 1.
    pub step: usize,
    /// Whether the step went out whole.
    pub whole: bool,
    /// The places that are offered, in order.
    pub offered: Vec<Offered>,
}

/// A place that is offered.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Offered {
    /// As the author reads it.
    pub title: String,
    /// Whether it is a step of its own.
    pub new: bool,
    /// Whether it is the place that the ingredient was taken from.
    pub right: bool,
}

impl Case {
    /// Whether the first place that is offered is right.
    pub fn first(&self) -> bool {
        self.offered.first().is_some_and(|offered| offered.right)
    }

    /// Whether the likeliest of the steps that are there is the one that it was taken from.
    pub fn first_step(&self) -> bool {
        self.offered.iter().find(|offered| !offered.new).is_some_and(|offered| offered.right)
    }

    /// Whether any place that is offered is right.
    pub fn any(&self) -> bool {
        self.offered.iter().any(|offered| offered.right)
    }
}

/// Every case that the recipes of a manuscript give.
pub fn cases(text: &str) -> Vec<Case> {
    let house = Arc::new(House::default());
    let recipes = Manuscript::new(text, Arc::clone(&house));
    recipes
        .recipes()
        .flat_map(|(_, recipe)| {
            let every = 0..recipe.ingredients.len();
            every.filter_map(|index| case(recipe, index, &house)).collect::<Vec<_>>()
        })
        .collect()
}

fn case(recipe: &Recipe, index: usize, house: &Arc<House>) -> Option<Case> {
    let used = only_use(recipe, index)?;
    let step = &recipe.steps[used.step];
    let mention = &recipe.flow.mentions[used.mention];
    let (cut, whole) = cut(recipe, step, mention)?;
    let text = Edit::apply_all(&recipe.text, &[Edit::replace(cut, String::new())]);
    let manuscript = Manuscript::new(&text, Arc::clone(house));
    let (_, left) = manuscript.recipes().next()?;
    let line = left.ingredient(index)?.span;
    let findings = manuscript.findings();
    let finding = findings.iter().find(|finding| finding.code == "ingredient-unused" && line.contains(finding.span))?;
    let offered = offered(&text, finding, index, left.steps.len(), used.step, whole);
    let line = recipe.at(recipe.ingredients[index].span).to_owned();
    Some(Case { line, step: used.step + 1, whole, offered })
}

/// The use of an ingredient that one mention alone uses, by its name, and nothing else with it.
fn only_use(recipe: &Recipe, index: usize) -> Option<Use> {
    let uses = recipe.flow.uses(index);
    let [used] = uses.as_slice() else { return None };
    let uses_it = |mention: &&Mention| {
        mention.sense == Sense::Use && mention.targets.iter().any(|target| target.ingredient() == Some(index))
    };
    let mentions: Vec<&Mention> = recipe.flow.mentions.iter().filter(uses_it).collect();
    let [mention] = mentions.as_slice() else { return None };
    (used.link <= Link::Part && mention.targets.len() == 1).then_some(*used)
}

/// What goes out with a mention, and whether that is the whole step.
fn cut(recipe: &Recipe, step: &Step, mention: &Mention) -> Option<(Span, bool)> {
    let tokens = step.tokens.as_slice();
    let first = tokens.iter().position(|token| token.span.start >= mention.span.start)?;
    let last = tokens.iter().rposition(|token| token.span.end <= mention.span.end)?;
    let sentences: Vec<_> = clause::sentences(tokens).collect();
    let sentence = sentences.iter().find(|sentence| (sentence.start..sentence.end).contains(&first))?;
    let span = Span::new(tokens[sentence.start].span.start, tokens[sentence.end - 1].span.end);
    let others = recipe
        .flow
        .mentions
        .iter()
        .filter(|other| other.sense == Sense::Use && span.contains(other.span) && other.targets != mention.targets);
    if others.count() > 0 {
        return Some((phrase(tokens, first, last), false));
    }
    if sentences.len() > 1 {
        let next = sentences.iter().find(|next| next.start == sentence.end);
        let end = next.map_or(span.end, |next| tokens[next.start].span.start);
        return Some((Span::new(span.start, end), false));
    }
    if !step.results.is_empty() || recipe.steps.len() < 2 {
        return None;
    }
    let end = recipe.text[step.span.end..].find(|c: char| !c.is_whitespace()).map(|at| step.span.end + at);
    Some((Span::new(step.span.start, end.unwrap_or(recipe.text.len())), true))
}

/// A name with what belongs to it, and with what joins it to its neighbours.
fn phrase(tokens: &[Token], first: usize, last: usize) -> Span {
    const JOINS: &[&str] = &["with", "in", "into", "over", "to", "onto", "on", "from", "by", "through", "of"];
    let belongs = |token: &Token| match token.kind {
        TokenKind::Word => {
            token.one_of(&["the", "a", "an", "of", "all", "your"])
                || token.is(Roles::STATE.and(Roles::SIZE)) && !token.is(Roles::VERB)
        }
        TokenKind::Measure(_) | TokenKind::Number => true,
        _ => false,
    };
    let is_and = |token: &Token| token.word("and") || token.kind == TokenKind::And;
    let joins = |token: &Token| is_and(token) || token.kind == TokenKind::Comma;
    let mut start = first - tokens[..first].iter().rev().take_while(|token| belongs(token)).count();
    let opens = tokens.get(last + 1).is_some_and(|token| token.kind == TokenKind::Open);
    let close = tokens[last..].iter().position(|token| token.kind == TokenKind::Close).filter(|_| opens);
    let end = close.map_or(last, |close| last + close);
    let before = start.checked_sub(1).map(|at| &tokens[at]);
    if before.is_some_and(|token| joins(token) || token.one_of(JOINS)) {
        start -= 1;
        start -= usize::from(is_and(&tokens[start]) && start > 0 && tokens[start - 1].kind == TokenKind::Comma);
    } else if let Some(behind) = tokens.get(end + 1).filter(|token| joins(token)) {
        let next = tokens.get(end + 2).map_or(behind.span.end, |next| next.span.start);
        return Span::new(tokens[start].span.start, next);
    }
    let from = start.checked_sub(1).map_or(tokens[start].span.start, |at| tokens[at].span.end);
    Span::new(from, tokens[end].span.end)
}

/// The places that a finding offers, each found by doing it and looking where the ingredient is used then.
fn offered(text: &str, finding: &Finding, index: usize, steps: usize, step: usize, whole: bool) -> Vec<Offered> {
    let put_back = |text: String| {
        let manuscript = Manuscript::new(&text, Arc::default());
        let (_, recipe) = manuscript.recipes().next()?;
        Some((recipe.flow.uses(index).first()?.step, recipe.steps.len() > steps))
    };
    let uses = finding.fixes.iter().filter(|fix| !fix.title.starts_with("Take "));
    let placed = uses.filter_map(|fix| Some((fix, put_back(Edit::apply_all(text, &fix.edits))?)));
    placed
        .map(|(fix, (at, new))| {
            let right = match (new, whole) {
                (true, true) => at == step,
                (true, false) => at == step || at == step + 1,
                (false, whole) => at == step && !whole,
            };
            Offered { title: fix.title.clone(), new, right }
        })
        .collect()
}

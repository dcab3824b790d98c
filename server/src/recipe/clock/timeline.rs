//! The time that runs while a recipe is cooked: what waits for what, and what goes on meanwhile.
//!
//! One cook, two hands. What cooks or waits by itself goes on while a step that says so ("meanwhile"), or that starts something
//! new, is worked on. Where it is not certain that two things have to wait for each other they are taken to overlap, so that the
//! least time is never more than a quick cook needs.

use uom::si::{
    f64::Time,
    time::{day, minute},
};

use super::{Act, ActKind};
use crate::{
    measure::Interval,
    recipe::{
        Recipe,
        language::{clause::Sense, lexicon::Roles, token::Token},
        mentions::{Mention, Target},
    },
    text::{Span, Words},
};

/// Which ends of the times are taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The least of each.
    Least,
    /// The most of each; the least where that is open.
    Most,
}

/// A recipe as it is cooked once.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// From the first act to the last.
    pub total: Time,
    /// The times that were counted, each with its place and its step.
    pub counted: Vec<(usize, Span, Time)>,
}

/// The clock while the method is read.
#[derive(Debug, Clone, Copy, Default)]
struct Hands {
    /// When the cook can begin the next act.
    free: Time,
    /// When what is worked on is done.
    ready: Time,
    /// When everything else that has been begun is done.
    others: Time,
    /// When the last step began that has been read.
    began: Time,
}

impl Hands {
    fn all_done(&self) -> Time {
        later(later(self.free, self.ready), self.others)
    }

    /// Turns to another thing from `time` on.
    fn turn(&mut self, time: Time) {
        self.others = self.all_done();
        (self.free, self.ready) = (time, time);
    }
}

/// How a sentence starts.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Start {
    /// It goes on with what there is.
    After,
    /// While what was told before is going on.
    Beside,
    /// Something new, while what was left to itself goes on.
    Anew,
}

impl Run {
    /// Cooks the recipe once. Only the acts that `counts` holds for take time.
    pub fn of(recipe: &Recipe, end: End, counts: &dyn Fn(&Act) -> bool) -> Run {
        let mut run = Run { total: Time::default(), counted: Vec::new() };
        let mut hands = Hands::default();
        let mut acts = recipe.clock.acts.iter().peekable();
        let mut step = usize::MAX;
        for (of, span) in &recipe.clock.sentences {
            let new_step = *of != step;
            step = *of;
            begin(recipe, step, *span, new_step, &mut hands);
            while let Some(act) = acts.next_if(|act| span.contains(act.span)) {
                let timed = !act.perhaps && act.kind != ActKind::Keep && !is_apart(recipe, step) && counts(act);
                if let Some(time) = act.time().filter(|time| timed && !is_kept(act, time)) {
                    run.act(act, time, end, &mut hands);
                }
            }
        }
        run.total = hands.all_done();
        run
    }

    fn act(&mut self, act: &Act, time: Interval<Time>, end: End, hands: &mut Hands) {
        let time = match end {
            End::Least => time.least,
            End::Most => time.most.unwrap_or(time.least),
        };
        let done = later(hands.free, hands.ready) + time;
        hands.ready = done;
        // Work of that length with no better verb ("cover, 20 minutes") is mostly a pot that goes on alone.
        if !act.kind.goes_on_alone() && (act.kind != ActKind::Work || time <= Time::new::<minute>(5.0)) {
            hands.free = done;
        }
        let at = act.times.first().map_or(act.span, |first| first.span);
        self.counted.push((act.step, act.span.joined(at), time));
    }
}

/// What is frozen for days is kept, and not made.
fn is_kept(act: &Act, time: &Interval<Time>) -> bool {
    act.kind == ActKind::Freeze && time.least > Time::new::<day>(1.0)
}

/// Sets the hands to where a sentence begins.
fn begin(recipe: &Recipe, step: usize, sentence: Span, new_step: bool, hands: &mut Hands) {
    match start(recipe, step, sentence, new_step) {
        Start::After if new_step => hands.turn(hands.all_done()),
        Start::After => {}
        // Of a new step, the step before is what goes on meanwhile; within one, the step itself.
        Start::Beside => hands.turn(hands.began),
        Start::Anew => hands.turn(hands.free),
    }
    if new_step {
        hands.began = hands.free;
    }
}

fn later(one: Time, other: Time) -> Time {
    if one < other { other } else { one }
}

/// Whether a step takes no time of its own: a second way to do the same ("By mixer: …" behind "By hand: …", "Or …"), or work of
/// the day before.
fn is_apart(recipe: &Recipe, step: usize) -> bool {
    let tokens = |step: usize| recipe.steps.get(step).map_or(&[][..], |step| &step.tokens);
    let opens = |step: usize, word: &str| tokens(step).first().is_some_and(|first| first.word(word));
    let another_way =
        opens(step, "or") || opens(step, "by") && step.checked_sub(1).is_some_and(|before| opens(before, "by"));
    let opening = tokens(step).iter().take(5);
    let day_before = opening.clone().any(|word| word.one_of(&["day", "night", "evening"]))
        && opening.clone().any(|word| word.one_of(&["before", "ahead"]))
        || opening.clone().any(|word| word.one_of(&["advance", "beforehand"]));
    another_way || day_before
}

fn start(recipe: &Recipe, step: usize, sentence: Span, new_step: bool) -> Start {
    let tokens = super::tokens_between(recipe, step, sentence.start, sentence.end);
    let opening = tokens.get(..tokens.len().min(8)).unwrap_or_default();
    if is_beside(opening) {
        return Start::Beside;
    }
    let group = |step: usize| recipe.steps.get(step).and_then(|step| step.group);
    let new_group = new_step && step > 0 && group(step) != group(step - 1);
    let other = new_group || names_a_part(opening) || !adds(opening);
    if other && is_new(recipe, step, sentence, tokens) { Start::Anew } else { Start::After }
}

/// "Meanwhile", "in the meantime", "while the beets roast", "at the same time".
fn is_beside(opening: &[Token]) -> bool {
    let first = opening.get(..opening.len().min(4)).unwrap_or_default();
    let same_time = first.iter().any(|word| word.word("same")) && opening.iter().any(|word| word.word("time"));
    let as_it = matches!(first, [one, two, ..] if one.word("as") && two.one_of(&["the", "it", "they", "this"]));
    same_time || as_it || first.iter().any(|word| word.one_of(&["meanwhile", "meantime", "while", "whilst", "during"]))
}

/// "In another bowl", "for the sauce", "make the filling".
fn names_a_part(opening: &[Token]) -> bool {
    opening.iter().any(|word| word.one_of(&["another", "separate", "clean"]))
        || opening.first().is_some_and(|first| first.one_of(&["for", "make", "prepare", "to"]))
}

/// Words of a sentence that puts something to what there is.
static ADDS: Words = Words::new(
    "add stir pour fold return top sprinkle spread brush scatter cover spoon drizzle serve put season tip mix toss",
);

fn adds(opening: &[Token]) -> bool {
    opening.iter().take(3).any(|word| word.one_among(&ADDS))
}

/// Whether a sentence names foods, and none that was named before, nor anything that was made.
fn is_new(recipe: &Recipe, step: usize, sentence: Span, tokens: &[Token]) -> bool {
    let used = |mention: &&Mention| mention.sense == Sense::Use;
    let mentions = || recipe.flow.mentions.iter().filter(used);
    let mut own = mentions().filter(|mention| mention.step == step && sentence.contains(mention.span)).peekable();
    let earlier = |target: &Target| {
        mentions()
            .take_while(|mention| mention.span.start < sentence.start)
            .any(|mention| mention.targets.contains(target))
    };
    let first_used = |target: &Target| matches!(target, Target::Ingredient(..)) && !earlier(target);
    let made = |word: &Token| word.is(Roles::PRONOUN) || word.is(Roles::PRODUCT) && !word.word("water");
    own.peek().is_some()
        && own.all(|mention| mention.targets.iter().all(first_used))
        && !tokens.iter().take(10).any(made)
}

//! What tells a cook that something is done: a time, a cue to the eye, the ear or the thermometer, or directions elsewhere.

use super::durations;
use crate::{
    measure::UnitKind,
    recipe::{
        Recipe,
        language::{
            lexicon::Roles,
            token::{Token, TokenKind},
        },
    },
    text::Words,
};

/// Words that say until when, until what, or where that is said (common practice, no source).
static ENDS: Words = Words::new(
    "before while whilst after overnight briefly quickly moment minute hour night longer enough through \
     browned crispy softened translucent transparent thickened melted bubbly bubbling dente wilted reduced opaque charred \
     blistered fragrant caramelized caramelised popped puffed risen syrupy glazed doubled texture perfection evaporated \
     absorbed crackling rag pulp mush taste tasted liking preference prefer according direction instruction package packet \
     packaging label usual usually directed described instructed desired wish thermometer way manner program cycle",
);

/// The same in any sentence: what follows an act may say when it is done.
static ANYWHERE: Words = Words::new(
    "until till til when once whenever soon done doneness ready tender golden consistency should check test watch careful carefully \
     burn overcook",
);

/// Words that say it where no name follows them: fry the slices brown; but not brown sugar.
static STATES: Words = Words::new(
    "gold brown hard crisp crunchy soft cooked thick set dry hot firm dark rare pink clear white black yellow smooth stiff color \
     toasted dissolved above below down",
);

/// What it is to become: cook to a syrup, reduce to a glaze.
static BECOMES: Words =
    Words::new("syrup glaze jelly paste pulp mush sauce cream half third quarter boil simmer consistency puree");

/// Verbs behind "to" that say what is to come of it: fry to soften, reduce to thicken.
static OUTCOMES: Words = Words::new(
    "soften brown melt thicken combine reduce dissolve wilt set evaporate concentrate blend color crisp warm heat release \
     infuse cook dry toast caramelize blister char seal sear finish absorb mingle meld develop coat make form render \
     remove get",
);

/// Whether the sentence of an act says, in these of its words, when the act is done.
pub fn says_when(recipe: &Recipe, tokens: &[Token]) -> bool {
    let next_is = |at: usize, list: &Words| tokens.get(at + 1).is_some_and(|next| next.one_among(list));
    // "Cook down", "fry off", "brown lightly".
    let first = tokens.first().is_some_and(|first| first.one_of(&["down", "off", "out", "lightly", "well"]));
    first
        || says_when_besides(recipe, tokens)
        || tokens.iter().enumerate().any(|(at, token)| match token.kind {
            TokenKind::Measure(index) => recipe.measures.get(index).is_some_and(|measure| {
                measure.fraction().is_some()
                    || is_probe(tokens, at, measure.stated.kind())
                    || measure.count().is_some() && is_for(tokens, at)
            }),
            TokenKind::Reference(_) => true,
            // "Turn and bake the other side": as long as the first.
            TokenKind::Word if token.word("other") => tokens.get(at + 1).is_some_and(|next| next.word("side")),
            TokenKind::Word if token.one_of(&["to", "by", "into"]) => {
                next_is(at, &OUTCOMES) || (0..3).any(|by| next_is(at + by, &BECOMES))
            }
            TokenKind::Word => token.one_among(&ENDS) || token.one_among(&STATES) && ends_a_phrase(tokens.get(at + 1)),
            _ => false,
        })
}

/// Whether another sentence says in these words when the act before it is done: "It should be golden", "After 10 minutes …".
pub fn says_when_besides(recipe: &Recipe, tokens: &[Token]) -> bool {
    tokens.iter().any(|token| match token.kind {
        TokenKind::Measure(index) => {
            recipe.measures.get(index).is_some_and(|measure| durations::time_of(measure).is_some())
        }
        _ => token.one_among(&ANYWHERE),
    })
}

/// Whether no name can begin with this token.
fn ends_a_phrase(next: Option<&Token>) -> bool {
    next.is_none_or(|next| match next.kind {
        TokenKind::Word => next.is(Roles::SMALL) && !next.one_of(&["as", "of"]) || next.is(Roles::CUE),
        TokenKind::Mention(_) | TokenKind::Reference(_) => false,
        _ => true,
    })
}

/// `fry for 4`: the minutes are left out.
fn is_for(tokens: &[Token], at: usize) -> bool {
    at.checked_sub(1).and_then(|before| tokens.get(before)).is_some_and(|before| before.word("for"))
}

/// `to 165°F`, where the food gets that hot; an oven that is set to it says nothing of when.
fn is_probe(tokens: &[Token], at: usize, kind: Option<UnitKind>) -> bool {
    let before = tokens.get(at.saturating_sub(4)..at).unwrap_or_default();
    kind == Some(UnitKind::Temperature)
        && before.iter().any(|token| token.one_of(&["internal", "reach", "read", "register", "inside", "center", "to"]))
        && !before.iter().any(|token| token.one_of(&["oven", "preheat", "heat"]))
}

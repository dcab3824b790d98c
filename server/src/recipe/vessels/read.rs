//! Reads the vessels out of a stretch of text: `two 8-inch round tins`, `a 12-cup fluted tube pan`, `6 ramekins, 6 fl oz each`.

use std::borrow::Cow;

use smol_str::SmolStr;

use super::{
    Kind, Vessel,
    nouns::{belongs, is_noun, kind_of, named, names_one},
    sizes::{is_portion, muffin, sized},
};
use crate::{
    measure::{Measures, UnitKind, read_number},
    recipe::{
        Recipe, Step,
        language::{
            clause::sentences,
            token::{Atom, Token, TokenKind, tokens},
        },
        measures::{Measure, Place, Stated},
    },
    text::Span,
};

/// The vessels that a stretch of text names.
pub fn vessels(recipe: &Recipe, measures: &Measures, span: Span, place: Place) -> Vec<Vessel> {
    let mut out: Vec<Vessel> = Vec::new();
    for tokens in words(recipe, span, place) {
        for at in 0..tokens.len() {
            let Some(vessel) = vessel(recipe, measures, &tokens, at, place) else { continue };
            // "casserole dish": one thing, whichever of its words is the noun.
            match out.last_mut().filter(|last| last.span.end >= vessel.span.start) {
                Some(last) => {
                    let nouns = std::mem::take(&mut last.nouns);
                    *last = vessel;
                    last.nouns.extend(nouns);
                }
                None => out.push(vessel),
            }
        }
    }
    out
}

/// The words and measures of a stretch; of a step, of each sentence that may name a vessel. A unit that counts is a word here: of `6 jars`,
/// `1 loaf pan` and `12 cup muffin tin`.
fn words(recipe: &Recipe, span: Span, place: Place) -> Vec<Cow<'_, [Token]>> {
    let own = || recipe.measures.iter().enumerate().filter(|(_, measure)| measure.place == place);
    let atoms = || {
        let atom = |(index, measure): (usize, &Measure)| {
            let number = measure.stated.terms.first().map(|term| term.number).filter(|_| counts(measure));
            Atom { span: number.unwrap_or(measure.span), kind: Some(TokenKind::Measure(index)) }
        };
        let mut atoms: Vec<Atom> = own().map(atom).collect();
        atoms.sort_by_key(|atom| atom.span);
        atoms
    };
    let Place::Step(step) = place else { return vec![Cow::Owned(tokens(&recipe.text, span, &atoms()))] };
    let Some(step) = recipe.steps.get(step) else { return Vec::new() };
    if step.marks.is_empty() && !own().any(|(_, measure)| counts(measure)) {
        return vec![Cow::Borrowed(&step.tokens)];
    }
    let sentences = sentences(&step.tokens).filter_map(|sentence| step.tokens.get(sentence.start..sentence.end));
    let mut naming = sentences.filter(|sentence| may_name_one(recipe, step, sentence)).peekable();
    let atoms = if naming.peek().is_some() { atoms() } else { Vec::new() };
    let again = |sentence: &[Token]| {
        let all = sentence.first()?.span.joined(sentence.last()?.span);
        Some(Cow::Owned(tokens(&recipe.text, all, &atoms)))
    };
    naming.filter_map(again).collect()
}

/// Whether a measure counts things, none of which has a size.
fn counts(measure: &Measure) -> bool {
    measure.stated.kind() == Some(UnitKind::Count) && measure.each.is_empty()
}

/// Whether a sentence of a step may name a vessel, be it in a mark, in a reference or as the unit of a measure: most that count something
/// do not.
fn may_name_one(recipe: &Recipe, step: &Step, sentence: &[Token]) -> bool {
    let counted = |index: usize| {
        let measure = recipe.measures.get(index).filter(|measure| counts(measure));
        let words = measure.map(|measure| tokens(&recipe.text, measure.span, &[])).unwrap_or_default();
        words.iter().any(names_one)
    };
    let names = |token: &Token| match token.kind {
        TokenKind::Measure(index) => counted(index),
        TokenKind::Reference(_) => true,
        _ => names_one(token),
    };
    sentence.iter().any(|token| match token.kind {
        TokenKind::Mention(mark) => step.marks.get(mark).is_some_and(|mark| mark.tokens.iter().any(names)),
        _ => names(token),
    })
}

/// What has been read of a vessel before it is clear what it is.
#[derive(Default)]
pub(super) struct Parts<'r> {
    start: usize,
    /// Lengths, volumes and weights that are stated, in order.
    pub sizes: Vec<&'r Stated>,
    /// Bare figures, in order, with their places: how many, or the sides of `9x13`.
    pub figures: Vec<(f64, Span)>,
    /// Numbers in words, and those before a size: how many, and where that stands.
    pub counts: Vec<(f64, Option<Span>)>,
    /// Its other words, folded.
    pub words: Vec<&'r str>,
    definite: bool,
}

fn vessel(recipe: &Recipe, measures: &Measures, tokens: &[Token], at: usize, place: Place) -> Option<Vessel> {
    let noun = tokens.get(at)?;
    let kind = named(noun)?;
    let mut parts = before(recipe, tokens, at);
    behind(recipe, tokens, at, &mut parts);
    let kind = kind_of(noun, kind, &parts.words)?;
    // "sheet of parchment", "cup of milk", "a pot of coffee": no vessel that anything is put into.
    let of = tokens.get(at + 1).is_some_and(|next| next.word("of")) && parts.sizes.is_empty();
    let (one, count) = if kind == Kind::Muffin { muffin(&parts) } else { sized(&mut parts, measures, noun, kind) };
    let kind = if is_portion(kind, one) { Kind::Ramekin } else { kind };
    if of && one.is_none() {
        return None;
    }
    let nouns = [&*noun.fold].into_iter().chain(parts.words.iter().copied().filter(|word| is_noun(word)));
    let start = tokens.get(parts.start).map_or(noun.span.start, |token| token.span.start);
    let plural = noun.inflected || noun.fold.ends_with('s') || kind == Kind::Muffin && count.is_none();
    Some(Vessel {
        span: Span::new(start, noun.span.end),
        place,
        kind,
        nouns: nouns.map(SmolStr::new).collect(),
        count: count.map(|(count, _)| count),
        number: count.and_then(|(_, place)| place),
        plural,
        one,
        again: parts.definite && one.is_none(),
    })
}

/// What stands before the noun and belongs to it.
fn before<'r>(recipe: &'r Recipe, tokens: &'r [Token], noun: usize) -> Parts<'r> {
    let mut parts = Parts { start: noun, ..Parts::default() };
    let mut at = noun;
    while let Some(token) = at.checked_sub(1).and_then(|before| tokens.get(before)) {
        match token.kind {
            TokenKind::Measure(index) => {
                let Some(measure) = recipe.measures.get(index) else { break };
                if !take(&mut parts, measure) {
                    break;
                }
            }
            TokenKind::Number => {
                let number = read_number(recipe.at(token.span)).ok().map(|number| (number.least, token.span));
                parts.figures.splice(0..0, number);
            }
            TokenKind::Word => match side_of(&token.fold) {
                Some(side) => parts.figures.insert(0, (side, token.span)),
                None if token.one_of(&["the", "each", "both", "that", "those", "these", "this", "same"]) => {
                    parts.definite = true;
                    parts.start = at - 1;
                    break;
                }
                None if token.one_of(&["a", "an", "another", "one"]) => {
                    parts.counts.push((1.0, None));
                    parts.start = at - 1;
                    break;
                }
                None => match read_number(&token.fold) {
                    Ok(number) if number.is_exact() => {
                        parts.counts.push((number.least, Some(token.span)));
                        parts.start = at - 1;
                        break;
                    }
                    _ if belongs(token) => parts.words.push(&token.fold),
                    _ => break,
                },
            },
            TokenKind::Comma => {
                // "A deep, round tin", and not "the loaf pan, round tins".
                let list = at.checked_sub(2).and_then(|before| tokens.get(before)).is_some_and(|before| {
                    matches!(before.kind, TokenKind::Measure(_)) || belongs(before) && !names_one(before)
                });
                if !list {
                    break;
                }
            }
            TokenKind::Open | TokenKind::Close => {}
            _ => break,
        }
        at -= 1;
        parts.start = at;
    }
    parts
}

/// Takes a measure for a size or a number of vessels; the answer is whether it is one.
fn take<'r>(parts: &mut Parts<'r>, measure: &'r Measure) -> bool {
    if let Some(count) = measure.count().or_else(|| measure.count_of_packs()) {
        parts.sizes.extend(&measure.each);
        let number = measure.stated.terms.first().map_or(measure.span, |term| term.number);
        if measure.each.is_empty() && count.is_exact() {
            parts.figures.insert(0, (count.least, number));
        } else {
            parts.counts.push((count.least, Some(number)));
        }
        return true;
    }
    let counted = measure.stated.terms.first().and_then(|term| Some((term.amount()?, term.number)));
    let counted = counted.filter(|(amount, _)| amount.kind() == UnitKind::Count);
    match (counted, measure.stated.kind()) {
        (Some((amount, number)), _) => parts.counts.push((amount.number.least, Some(number))),
        (None, Some(UnitKind::Length | UnitKind::Volume | UnitKind::Weight)) => parts.sizes.insert(0, &measure.stated),
        _ => return false,
    }
    true
}

/// A size right behind the noun: `6 ramekins, 6 fl oz (180 ml) each`, `a loaf pan (9 x 5 in)`, `ramekins of 150 ml`.
fn behind<'r>(recipe: &'r Recipe, tokens: &'r [Token], noun: usize, parts: &mut Parts<'r>) {
    let mut at = noun + 1;
    while tokens.get(at).is_some_and(|token| {
        matches!(token.kind, TokenKind::Comma | TokenKind::Open)
            || token.one_of(&["of", "about", "measuring", "holding", "with", "capacity"])
    }) {
        at += 1;
    }
    let Some(TokenKind::Measure(index)) = tokens.get(at).map(|token| token.kind) else { return };
    let Some(measure) = recipe.measures.get(index).filter(|_| at > noun + 1 && parts.sizes.is_empty()) else { return };
    if matches!(measure.stated.kind(), Some(UnitKind::Length | UnitKind::Volume)) || measure.stated.sides {
        parts.sizes.push(&measure.stated);
    }
}

/// `x13`, of `9x13` without blanks.
fn side_of(word: &str) -> Option<f64> {
    let side = word.strip_prefix('x')?;
    side.parse().ok().filter(|side: &f64| *side > 0.0)
}

#[cfg(test)]
mod tests {
    use uom::si::{f64::Volume, volume::milliliter};

    use super::*;
    use crate::{larder::larder, recipe, syntax::Tree};

    /// Least and most.
    type Millilitres = (f64, f64);

    /// What the words of a step name: kind, how many, and what one holds to the brim in millilitres, rounded to tens.
    fn read(words: &str) -> Vec<(Kind, Option<f64>, Option<Millilitres>)> {
        let text = format!("Recipe: A\n\nIngredients:\n- 1 egg\n\nMethod:\n\n1. Grease {words} well.\n");
        let tree = Tree::parse(&text).unwrap();
        let recipe = recipe::read(&text, &tree, larder());
        let tens = |volume: Volume| (volume.get::<milliliter>() / 10.0).round() * 10.0;
        let found = super::super::vessels(&recipe, &Measures::default()).into_iter();
        found
            .map(|vessel| {
                (vessel.kind, vessel.count, vessel.one.map(|one| (tens(one.least), one.most.map_or(0.0, tens))))
            })
            .collect()
    }

    #[test]
    fn vessels_are_read_as_a_cook_writes_them() {
        let table: &[(&str, Kind, Option<f64>, Option<Millilitres>)] = &[
            ("six 5-oz pots", Kind::Ramekin, Some(6.0), Some((130.0, 170.0))),
            ("6 ramekins, 6 fl oz (180 ml) each", Kind::Ramekin, Some(6.0), Some((150.0, 200.0))),
            ("4 ramekins (150 ml)", Kind::Ramekin, Some(4.0), Some((130.0, 170.0))),
            ("six 1/2-cup ramekins", Kind::Ramekin, Some(6.0), Some((100.0, 140.0))),
            ("a 9 x 5 x 3-inch loaf pan", Kind::Loaf, Some(1.0), Some((1550.0, 2320.0))),
            ("an 8½ x 4½-inch loaf pan", Kind::Loaf, Some(1.0), None),
            ("a 2 lb loaf tin", Kind::Loaf, Some(1.0), Some((800.0, 1800.0))),
            ("a 12-cup fluted tube pan", Kind::Tube, Some(1.0), Some((2410.0, 3260.0))),
            ("a 10-inch tube pan", Kind::Tube, Some(1.0), None),
            ("a 2-quart casserole", Kind::Dish, Some(1.0), Some((1610.0, 2180.0))),
            ("a 1.5 quart baking dish", Kind::Dish, Some(1.0), Some((1210.0, 1630.0))),
            ("two 8-inch round cake tins", Kind::Cake, Some(2.0), None),
            ("2 8 x 2-inch round cake pans", Kind::Cake, Some(2.0), None),
            ("a 24-cup mini muffin tin", Kind::Muffin, Some(24.0), Some((20.0, 50.0))),
            ("a 12-hole muffin tin", Kind::Muffin, Some(12.0), Some((80.0, 140.0))),
            ("two 12-cup muffin tins", Kind::Muffin, Some(24.0), Some((80.0, 140.0))),
            ("a 9x13 pan", Kind::Cake, Some(1.0), None),
            ("a 9x5 inch loaf pan", Kind::Loaf, Some(1.0), None),
            ("a 9-by-13-inch baking dish", Kind::Dish, Some(1.0), None),
            ("a 30 x 20 cm tin", Kind::Cake, Some(1.0), None),
            ("a deep 23 cm springform tin", Kind::Springform, Some(1.0), None),
            ("a 12-inch skillet", Kind::Skillet, Some(1.0), None),
            ("a 4-quart saucepan", Kind::Pot, Some(1.0), Some((3220.0, 4350.0))),
            ("a 5-quart Dutch oven", Kind::Pot, Some(1.0), Some((4020.0, 5440.0))),
            ("a 9-inch pie plate", Kind::Pie, Some(1.0), None),
            ("a rimmed baking sheet", Kind::Sheet, Some(1.0), None),
        ];
        for (words, kind, count, one) in table {
            let found = read(words);
            let [(of, many, holds)] = found.as_slice() else { panic!("{words}: {found:?}") };
            assert_eq!((*of, *many), (*kind, *count), "{words}");
            if one.is_some() {
                assert_eq!(holds, one, "{words}");
            }
            assert_eq!(holds.is_some(), *kind != Kind::Sheet, "{words}");
        }
    }

    #[test]
    fn a_cup_a_pot_of_tea_and_a_sheet_of_paper_hold_nothing() {
        for words in ["a cup of milk", "a sheet of parchment", "the oven", "a plate"] {
            assert!(read(words).iter().all(|(.., one)| one.is_none()), "{words}");
        }
    }
}

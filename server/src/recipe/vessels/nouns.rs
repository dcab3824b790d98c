//! The words for vessels, and what kind each names.

use super::Kind;
use crate::{
    recipe::language::token::{Token, TokenKind},
    text::Words,
};

/// The nouns that name a vessel, folded, and what kind they name by themselves.
const NOUNS: &[(&str, Kind)] = &[
    ("pan", Kind::Cake),
    ("tin", Kind::Cake),
    ("springform", Kind::Springform),
    ("bundt", Kind::Tube),
    ("ramekin", Kind::Ramekin),
    ("cocotte", Kind::Ramekin),
    ("dariole", Kind::Ramekin),
    ("cup", Kind::Ramekin),
    ("pot", Kind::Pot),
    ("mold", Kind::Dish),
    ("mould", Kind::Dish),
    ("dish", Kind::Dish),
    ("casserole", Kind::Dish),
    ("terrine", Kind::Dish),
    ("basin", Kind::Dish),
    ("plate", Kind::Pie),
    ("skillet", Kind::Skillet),
    ("saucepan", Kind::Pot),
    ("stockpot", Kind::Pot),
    ("kettle", Kind::Pot),
    ("oven", Kind::Pot),
    ("cooker", Kind::Pot),
    ("bowl", Kind::Bowl),
    ("sheet", Kind::Sheet),
    ("tray", Kind::Sheet),
    ("jar", Kind::Jar),
    ("slot", Kind::Muffin),
];

/// The same nouns, to tell at a look that a word is none of them.
const VESSELS: Words = Words::new(
    "pan tin springform bundt ramekin cocotte dariole cup pot mold mould dish casserole terrine basin plate skillet saucepan \
     stockpot kettle oven cooker bowl sheet tray jar slot",
);

/// Words before the noun that say what kind it is, folded. The first that stands there decides.
const KINDS: &[(&str, Kind)] = &[
    ("muffin", Kind::Muffin),
    ("cupcake", Kind::Muffin),
    ("popover", Kind::Muffin),
    ("bun", Kind::Muffin),
    ("springform", Kind::Springform),
    ("loaf", Kind::Loaf),
    ("tube", Kind::Tube),
    ("bundt", Kind::Tube),
    ("fluted", Kind::Tube),
    ("angel", Kind::Tube),
    ("tart", Kind::Tart),
    ("quiche", Kind::Tart),
    ("flan", Kind::Tart),
    ("pie", Kind::Pie),
    ("frying", Kind::Skillet),
    ("fry", Kind::Skillet),
    ("saute", Kind::Skillet),
    ("grill", Kind::Skillet),
    ("sauce", Kind::Pot),
    ("stock", Kind::Pot),
    ("soup", Kind::Pot),
    ("roasting", Kind::Sheet),
    ("roast", Kind::Sheet),
    ("sheet", Kind::Sheet),
    ("jelly", Kind::Sheet),
    ("rimmed", Kind::Sheet),
    ("pizza", Kind::Sheet),
    ("broiler", Kind::Sheet),
    ("custard", Kind::Ramekin),
    ("pudding", Kind::Dish),
    ("souffle", Kind::Dish),
    ("gratin", Kind::Dish),
    ("casserole", Kind::Dish),
    ("terrine", Kind::Dish),
    ("baking", Kind::Cake),
    ("cake", Kind::Cake),
    ("sandwich", Kind::Cake),
    ("brownie", Kind::Cake),
];

/// Words that may stand between the size of a vessel and its noun, and say no kind.
const PASSED: Words = Words::new(
    "round square oblong rectangular oval deep shallow large small medium heavy nonstick non stick metal glass \
     ceramic copper iron cast aluminum aluminium enameled ovenproof oven proof heatproof heat safe bottom \
     bottomed base based loose removable lidded covered prepared greased buttered oiled floured lined ungreased \
     clean individual standard mini jumbo mixing serving big tall straight sided other same two hole cavity well \
     sized layer silicone disposable foil dish dutch slow pressure warm hot cold baked empty unbaked waiting \
     ready by of size lightly well your inch cm centimeter centimetre",
);

/// Whether a folded word names a vessel.
pub(super) fn is_noun(word: &str) -> bool {
    VESSELS.contains(word)
}

/// Whether this is a word that names a vessel.
pub(super) fn names_one(token: &Token) -> bool {
    token.one_among(&VESSELS)
}

/// What kind of vessel a word names by itself.
pub(super) fn named(token: &Token) -> Option<Kind> {
    if !names_one(token) {
        return None;
    }
    NOUNS.iter().find(|(noun, _)| *noun == &*token.fold).map(|(_, kind)| *kind)
}

/// Whether a word before a noun belongs to the vessel.
pub(super) fn belongs(token: &Token) -> bool {
    let word = &*token.fold;
    if token.kind != TokenKind::Word {
        return false;
    }
    names_one(token) || token.one_among(&PASSED) || KINDS.iter().any(|(kind, _)| *kind == word)
}

/// What kind the noun and the words before it name.
pub(super) fn kind_of(noun: &Token, own: Kind, words: &[&str]) -> Option<Kind> {
    let said = || KINDS.iter().find(|(word, _)| words.contains(word)).map(|(_, kind)| *kind);
    let says = |word: &str| words.contains(&word);
    match &*noun.fold {
        // A cup is a measure, and an oven heats, unless something says that it is a vessel.
        "cup" if !says("custard") && !says("muffin") && !says("baking") && !says("pudding") && !says("cupcake") => None,
        "cup" => said().map(|kind| if kind == Kind::Muffin { kind } else { Kind::Ramekin }),
        "oven" => says("dutch").then_some(Kind::Pot),
        "cooker" => (says("slow") || says("pressure")).then_some(Kind::Pot),
        "plate" => says("pie").then_some(Kind::Pie),
        "slot" => said().filter(|kind| *kind == Kind::Muffin),
        "pan" | "tin" | "mold" | "mould" | "dish" | "tray" => Some(match said() {
            Some(Kind::Cake) if matches!(own, Kind::Dish | Kind::Sheet) => own,
            Some(Kind::Sheet) if own == Kind::Dish => own,
            Some(kind) => kind,
            None if own == Kind::Dish && noun.inflected && noun.fold.starts_with("mo") => Kind::Ramekin,
            None => own,
        }),
        "pot" if says("custard") || says("souffle") => Some(Kind::Ramekin),
        _ => Some(own),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nouns_are_those_that_are_told_at_a_look() {
        let nouns: Vec<&str> = NOUNS.iter().map(|(noun, _)| *noun).collect();
        assert_eq!(VESSELS.iter().collect::<Vec<_>>(), nouns);
    }
}

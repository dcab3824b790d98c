//! Words that a cook uses for a food that the larder knows by another name, close enough where the list has nothing closer.

use std::borrow::Cow;

use super::{fit::same_words, resolve::Query};
use crate::{larder::Food, recipe::model::Name};

/// Folded words, and the foods or the kinds that they may stand for (common practice, no source).
const LOOSE: &[(&str, &[&str])] = &[
    ("bacon", &["lardon", "pancetta", "speck", "guanciale", "smoked bacon"]),
    ("ham", &["prosciutto", "gammon"]),
    ("butter", &["ghee", "clarified butter", "margarine"]),
    ("cep", &["dried porcini mushroom", "porcini mushroom"]),
    ("coriander", &["cilantro"]),
    ("corn", &["frozen corn", "canned corn", "corn"]),
    ("cornmeal", &["polenta"]),
    ("cream", &["coconut cream"]),
    ("cress", &["watercress"]),
    ("dumpling", &["gnocchi"]),
    ("fat", &["fat"]),
    ("flower", &["elderflower"]),
    ("jelly", &["flavored gelatin"]),
    ("liqueur", &["orange liqueur", "liqueur"]),
    ("mince", &["ground beef", "ground lamb", "ground pork", "ground turkey", "ground chicken", "ground veal"]),
    ("pepper", &["chile"]),
    ("polenta", &["cornmeal"]),
    ("preserve", &["jam"]),
    ("tomato puree", &["tomato paste"]),
    ("vanilla", &["vanilla bean", "vanilla extract", "vanilla paste"]),
    ("vinegar", &["vinegar"]),
    ("wrap", &["tortilla"]),
];

/// Whether a folded word stands in the table though no larder knows it as a food: it needs an article to be a name.
pub fn is_loose(word: &str) -> bool {
    LOOSE.iter().any(|(loose, _)| *loose == word)
}

/// Whether the query may loosely mean the food of a name.
pub fn means(query: &Query<'_>, name: &Name) -> bool {
    if query.words == ["mince"] && is_minced(name) || is_paste_of(query, name) {
        return true;
    }
    let Some(food) = name.food else { return false };
    let loosely = query.loosely.iter().any(|kind| food.name == *kind || food.is(kind));
    loosely && (query.words != ["pepper"] || is_chile(query, food))
}

/// What these folded words may loosely stand for.
pub fn stands_for(words: &[&str]) -> &'static [&'static str] {
    let said = match words {
        [word] => Cow::Borrowed(*word),
        _ => Cow::Owned(words.join(" ")),
    };
    LOOSE.iter().find(|(loose, _)| *loose == said).map(|(_, kinds)| *kinds).unwrap_or_default()
}

/// "The mince", for lean minced shin; not for minced garlic.
fn is_minced(name: &Name) -> bool {
    let minced = name.all_words.iter().any(|word| matches!(&**word, "minced" | "ground"));
    minced && name.food.is_none_or(|food| food.is("meat") || food.is("poultry"))
}

/// "The tamarind", for tamarind paste. In the plural it is the whole thing that is meant: the almonds.
fn is_paste_of(query: &Query<'_>, name: &Name) -> bool {
    let paste = |head: &str| matches!(head, "paste" | "puree" | "concentrate");
    let of = name.words.split_last().filter(|(head, of)| !of.is_empty() && paste(head));
    !query.plural && of.is_some_and(|(_, of)| same_words(&query.words, of))
}

/// Chiles are called peppers, and one pepper may be any of them; the pepper of "salt and pepper" is not.
fn is_chile(query: &Query<'_>, food: &Food) -> bool {
    query.plural && food.is("vegetable")
}

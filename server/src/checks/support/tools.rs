//! Tools and vessels: what an equipment list holds, what stands for what, and which acts need which (common practice, no source).

use crate::{
    larder::words::fold,
    recipe::{Equipment, Recipe, Step},
    text::Words,
};

/// Tools and vessels by the noun that names them, folded. A row: the nouns that may stand for each other, then the words of a step
/// that need such a thing without naming it.
const TOOLS: &[(&[&str], &[&str])] = &[
    (&["pan", "tin", "skillet", "saucepan", "pot", "casserole", "oven", "wok", "griddle", "stockpot"], &[]),
    (&["dish", "tin", "pan", "ramekin", "mold", "plate", "casserole"], &[]),
    (&["bowl", "jug", "basin"], &["bowl", "toss", "mix", "whisk", "beat", "combine", "marinate", "stir"]),
    (&["sheet", "tray", "pan"], &[]),
    (&["parchment", "paper", "foil", "wrap", "film", "towel", "cloth"], &["line", "lined", "cover", "wrap"]),
    (&["rack"], &["cool"]),
    (
        &["knife", "board"],
        &["chop", "cut", "slice", "halve", "quarter", "dice", "mince", "trim", "peel", "score", "carve"],
    ),
    (&["grater", "zester", "microplane"], &["grate", "grated", "zest", "zested", "shred", "shredded"]),
    (&["peeler"], &["peel", "peeled"]),
    (&["whisk"], &["whisk", "whip", "beat"]),
    (
        &["spoon", "spatula", "scraper"],
        &["stir", "fold", "scrape", "spread", "mix", "spoon", "drop", "skim", "turn", "flip"],
    ),
    (&["ladle"], &["ladle", "skim"]),
    (&["tong", "fork"], &["turn", "flip", "toss", "prick"]),
    (&["brush"], &["brush", "brushed"]),
    (&["pin"], &["roll", "rolled"]),
    (&["cutter", "scoop"], &["cut", "stamp", "scoop"]),
    (&["sieve", "strainer", "colander"], &["sift", "sieve", "strain", "drain", "sifted", "drained", "rinse"]),
    (&["masher", "ricer", "mill"], &["mash", "mashed", "rice"]),
    (
        &["blender", "processor", "liquidizer", "liquidiser"],
        &["blend", "puree", "process", "pulse", "blitz", "liquidize", "liquidise"],
    ),
    (&["spiralizer", "spiraliser", "peeler"], &["spiralize", "spiralise"]),
    (&["mixer"], &["beat", "whip", "cream", "whisk", "knead", "mix"]),
    (&["mortar", "pestle", "grinder"], &["pound", "grind", "crush"]),
    (&["thermometer", "probe"], &["read", "register", "reach", "temperature"]),
    (&["skewer", "toothpick", "pick", "tester"], &["thread", "skewer"]),
    (&["jar", "bottle"], &["bottle"]),
    (&["scale", "cup", "spoon", "timer"], &["weigh", "measure"]),
    (&["steamer", "basket"], &["steam"]),
    (&["mandoline"], &["slice", "shave"]),
    (&["torch"], &["torch"]),
    (&["bag", "nozzle", "tip"], &["pipe"]),
    (&["twine", "string"], &["tie", "truss", "tied"]),
    (&["press"], &["press"]),
    (&["fryer", "cooker", "grill", "barbecue"], &["grill"]),
    (&["oven"], &["bake", "roast"]),
];

/// Things that an equipment list names for those who look for them, and that a step can use without a word: scales and spoons,
/// knives and boards, what every kitchen has at hand.
const AT_HAND: &[&str] = &["scale", "cup", "knife", "board", "timer", "towel", "bowl", "oven", "stove"];

/// What a list with an Equipment section ought to name when a step does: things that a reader may have to borrow.
const WORTH_LISTING: &[&str] = &[
    "baking dish",
    "loaf pan",
    "loaf tin",
    "cake pan",
    "cake tin",
    "tart pan",
    "tart tin",
    "pie dish",
    "pie plate",
    "muffin tin",
    "muffin pan",
    "springform pan",
    "roasting pan",
    "baking sheet",
    "bundt pan",
    "casserole dish",
    "dutch oven",
    "slow cooker",
    "pressure cooker",
    "rice cooker",
    "food processor",
    "blender",
    "stand mixer",
    "hand mixer",
    "thermometer",
    "rolling pin",
    "piping bag",
    "pastry bag",
    "skillet",
    "wok",
    "griddle",
    "steamer",
    "saucepan",
    "stockpot",
    "mandoline",
    "ramekin",
    "pastry brush",
    "wire rack",
    "mortar",
    "waffle iron",
    "ice cream maker",
    "torch",
    "blowtorch",
    "cutter",
    "potato ricer",
    "meat grinder",
    "sieve",
];

/// The words that these begin with, and the acts that ask for a tool.
const TELLING: Words = Words::new(
    "baking loaf cake tart pie muffin springform roasting bundt casserole dutch slow pressure rice food blender stand hand \
    thermometer rolling piping pastry skillet wok griddle steamer saucepan stockpot mandoline ramekin wire mortar waffle ice \
    torch blowtorch cutter potato meat sieve spiralize spiralise blitz liquidize liquidise",
);

/// Acts that nobody does without a tool of its own, and what an equipment list calls that.
static ACTS: [(Words, &str); 2] = [
    (Words::new("spiralize spiralise"), "spiralizer"),
    (Words::new("blitz liquidize liquidise"), "blender or food processor"),
];

/// Whether a folded word names a tool or a vessel.
pub fn is_tool(word: &str) -> bool {
    TOOLS.iter().any(|(nouns, _)| nouns.contains(&word))
}

/// The noun that names a piece of equipment: the last word of its line that is a tool, else the last.
pub fn noun(equipment: &Equipment) -> Option<&str> {
    let tool = equipment.words.iter().rev().find(|word| is_tool(word));
    tool.or(equipment.words.last()).map(|word| &**word)
}

/// Whether a step names the piece, or something that stands for it, or does what needs it.
pub fn is_used(recipe: &Recipe, index: usize) -> bool {
    let Some(piece) = recipe.equipment.get(index) else { return true };
    let Some(noun) = noun(piece).filter(|noun| !AT_HAND.contains(noun)) else { return true };
    if recipe.flow.equipment.iter().any(|(used, _)| *used == index) {
        return true;
    }
    let rows = TOOLS.iter().filter(|(nouns, _)| nouns.contains(&noun));
    let (alike, acts): (Vec<&[&str]>, Vec<&[&str]>) = rows.copied().unzip();
    let stands = |word: &str| word == noun || alike.iter().chain(&acts).any(|words| words.contains(&word));
    let mut words = recipe.steps.iter().flat_map(Step::all_tokens);
    words.any(|token| stands(&token.fold)) || prepared(recipe, &acts.concat())
}

/// "1 cup grated Parmesan" needs the grater as well.
fn prepared(recipe: &Recipe, acts: &[&str]) -> bool {
    let mut lines = recipe.ingredients.iter().map(|line| recipe.at(line.span)).filter(|_| !acts.is_empty());
    lines.any(|line| line.split(|c: char| !c.is_alphabetic()).any(|word| acts.contains(&&*fold(word))))
}

/// Whether something worth listing may begin with a folded word, or an act asks for a tool by it. Most do not.
pub fn may_need(word: &str) -> bool {
    TELLING.contains(word)
}

/// The things worth listing that folded words name, each from the place of its first word to the one behind its last.
pub fn worth_listing<W: AsRef<str>>(words: &[W]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    let mut at = 0;
    while let Some(first) = words.get(at) {
        let here = words.get(at..).unwrap_or_default();
        let names = may_need(first.as_ref()).then_some(WORTH_LISTING).into_iter().flatten();
        match names.filter_map(|name| begins_with(here, name)).max() {
            Some(length) => {
                out.push((at, at + length));
                at += length;
            }
            None => at += 1,
        }
    }
    out
}

/// The tool that a folded word asks for without naming it: a spiralizer, by *spiralize*.
pub fn asked_for(word: &str) -> Option<&'static str> {
    ACTS.iter().find(|(acts, _)| acts.contains(word)).map(|(_, tool)| *tool)
}

/// How many words a name has, where these words begin with it.
fn begins_with<W: AsRef<str>>(words: &[W], name: &str) -> Option<usize> {
    let mut own = words.iter().map(AsRef::as_ref);
    name.split(' ').all(|word| own.next() == Some(word)).then_some(words.len() - own.len())
}

/// Whether one noun may stand for the other: a pan for a skillet.
pub fn same(one: &str, other: &str) -> bool {
    one == other || TOOLS.iter().any(|(nouns, _)| nouns.contains(&one) && nouns.contains(&other))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn whatever_is_worth_listing_is_told_at_a_look() {
        for name in WORTH_LISTING {
            let words: Vec<&str> = ["the"].into_iter().chain(name.split(' ')).chain(["is"]).collect();
            assert!(worth_listing(&words).iter().any(|(from, _)| *from == 1), "{name}");
        }
        let acts = || ACTS.iter().flat_map(|(acts, _)| acts.iter());
        assert!(acts().all(may_need));
        for word in TELLING.iter() {
            let begins = WORTH_LISTING.iter().any(|name| name.split(' ').next() == Some(word));
            assert!(begins || acts().any(|act| act == word), "{word}");
        }
    }
}

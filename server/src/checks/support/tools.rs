//! Tools and vessels: what an equipment list holds, what stands for what, and which acts need which (common practice, no source).

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use crate::{
    larder::words::fold,
    recipe::{Equipment, Recipe, Step},
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

/// Acts that nobody does without a tool of its own, and what an equipment list calls that.
const ACTS: &[(&[&str], &str)] =
    &[(&["spiralize", "spiralise"], "spiralizer"), (&["blitz", "liquidize", "liquidise"], "blender or food processor")];

/// The same by their first words.
static BY_FIRST: LazyLock<FxHashMap<&str, Vec<&str>>> = LazyLock::new(|| {
    let mut names: FxHashMap<&str, Vec<&str>> = FxHashMap::default();
    for name in WORTH_LISTING {
        names.entry(name.split(' ').next().unwrap_or(name)).or_default().push(name);
    }
    names
});

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
    let rows = || TOOLS.iter().filter(|(nouns, _)| nouns.contains(&noun));
    let stands = |word: &str| word == noun || rows().any(|(nouns, acts)| nouns.contains(&word) || acts.contains(&word));
    let marked = recipe.flow.equipment.iter().any(|(used, _)| *used == index);
    let mut words = recipe.steps.iter().flat_map(Step::all_tokens);
    marked || words.any(|token| stands(&token.fold)) || prepared(recipe, noun)
}

/// "1 cup grated Parmesan" needs the grater as well.
fn prepared(recipe: &Recipe, noun: &str) -> bool {
    let acts = || TOOLS.iter().filter(|(nouns, _)| nouns.contains(&noun)).flat_map(|(_, acts)| *acts);
    let mut names = recipe.ingredients.iter().map(|line| recipe.at(line.span));
    names.any(|line| line.split(|c: char| !c.is_alphabetic()).any(|word| acts().any(|act| *act == fold(word))))
}

/// The things worth listing that words name, folded and joined by spaces, each with the place of its first word.
pub fn worth_listing(words: &[&str]) -> Vec<(usize, usize)> {
    let mut out = Vec::new();
    let mut at = 0;
    while at < words.len() {
        let here = words.get(at..).unwrap_or_default();
        let names = here.first().and_then(|first| BY_FIRST.get(first)).into_iter().flatten();
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
    ACTS.iter().find(|(acts, _)| acts.contains(&word)).map(|(_, tool)| *tool)
}

/// How many words a name has, where these words begin with it.
fn begins_with(words: &[&str], name: &str) -> Option<usize> {
    let mut own = words.iter();
    name.split(' ').all(|word| own.next() == Some(&word)).then_some(words.len() - own.len())
}

/// Whether one noun may stand for the other: a pan for a skillet.
pub fn same(one: &str, other: &str) -> bool {
    one == other || TOOLS.iter().any(|(nouns, _)| nouns.contains(&one) && nouns.contains(&other))
}

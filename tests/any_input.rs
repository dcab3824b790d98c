//! Laws that hold of any input: tried on what fuzzers have found (`tests/fuzz/seeds/`), and on edits as they come from a desk where somebody
//! types, pastes, cuts and takes back.

use std::{fs, path::Path};

use proptest::{prelude::*, sample::select, test_runner::RngSeed};
use tamis::text::{Edit, Span};
use tamis_tests::{
    folder,
    laws::{self, LAWS},
};

#[test]
fn what_was_once_found_holds() {
    let seeds = Path::new(env!("CARGO_MANIFEST_DIR")).join("fuzz/seeds");
    for (name, law) in LAWS {
        let mut tried = 0;
        for entry in fs::read_dir(seeds.join(name)).expect("seeds of every law") {
            let path = entry.expect("an entry").path();
            println!("{}", path.display());
            law(&fs::read(&path).expect("a seed can be read"));
            tried += 1;
        }
        assert!(tried > 0, "{name}");
    }
}

/// A line of a list gets longer, another amount, another food; a line comes in. The method below moves, and uses what it used or does not.
#[test]
fn after_edits_of_a_list_all_is_as_when_opened_afresh() {
    let mut tried = 0;
    for (_, mut text) in folder::samples("") {
        let mut typed = laws::opened(&text);
        let ends = text.match_indices('\n').map(|(at, _)| at).filter(|at| {
            let line = text.get(..*at).and_then(|above| above.lines().next_back());
            line.is_some_and(|line| line.starts_with("- "))
        });
        let ends: Vec<usize> = ends.step_by(4).collect();
        for end in ends.into_iter().rev() {
            for (back, new) in [(0, ","), (0, " about 30 g"), (1, "x"), (0, "\n- 2 quinces"), (12, "\n- 1 cup")] {
                let end = laws::boundary(&text, end + back);
                laws::edit(&mut typed, &mut text, &Edit::replace(Span::at(end), new));
                laws::same_as_fresh(&typed, &text);
                tried += 1;
            }
        }
    }
    assert!(tried > 100, "{tried} edits prove little");
}

/// Recipes that ask for each other, two of them under one title, and one for a recipe that nobody has.
const ASKING: &str = "Recipe: Pie\nYield: 1 pie\n\nIngredients:\n\n- 1 [[Crust]]\n- 2 cups [[Filling]]\n\nMethod:\n\n1. Fill the crust with the filling.\n\nRecipe: Crust\nYield: 1 crust\n\nIngredients:\n\n- 1 cup (120 g) flour\n\nMethod:\n\n1. Knead the flour.\n\nRecipe: Filling\nYield: 1 cup\n\nIngredients:\n\n- 1 cup [[Jam]]\n\nMethod:\n\n1. Warm the jam.\n\nRecipe: Crust\n\nIngredients:\n\n- [[Pie]]\n\nMethod:\n\n1. Eat the pie.\n";

/// A title is changed, two recipes become one, one becomes two; then another; and both are taken back, the last first or the first first.
#[test]
fn after_titles_have_changed_and_changed_back_all_is_as_when_opened_afresh() {
    let at = |line: &str, behind: usize| ASKING.find(line).expect("a line of the text") + behind;
    let edits = [
        Edit::insert(at("Recipe: Filling", 3), "x"),
        Edit::insert(at("Recipe: Crust", 13), "s and Jam"),
        Edit::delete(Span::new(at("Recipe: Pie", 8), at("Recipe: Pie", 11))),
        Edit::insert(at("1. Knead", 0), "Recipe: Jam\n\n"),
        Edit::delete(Span::new(at("\n\nRecipe: Crust", 1), at("Recipe: Filling", 0))),
    ];
    let taken_back = |edit: &Edit, text: &str| {
        Edit::replace(Span::new(edit.span.start, edit.span.start + edit.text.len()), edit.span.of(text))
    };
    let moved = |edit: &Edit, by: &Edit| {
        let grown = by.text.len().cast_signed() - by.span.len().cast_signed();
        let behind = if by.span.start <= edit.span.start { grown } else { 0 };
        let moved = |offset: usize| offset.saturating_add_signed(behind);
        Edit::replace(Span::new(moved(edit.span.start), moved(edit.span.end)), edit.text.clone())
    };
    for one in &edits {
        for other in &edits {
            let apart = one.span.end < other.span.start || other.span.end < one.span.start;
            let second = if apart { moved(other, one) } else { Edit::insert(0, "// Ed.\n") };
            for first_first in [false, true] {
                let mut text = ASKING.to_owned();
                let mut typed = laws::opened(&text);
                let mut done = |edit: &Edit| {
                    let back = taken_back(edit, &text);
                    laws::edit(&mut typed, &mut text, edit);
                    laws::same_as_fresh(&typed, &text);
                    back
                };
                let (back_one, back_other) = (done(one), done(&second));
                if first_first && apart {
                    let back_one = moved(&back_one, &second);
                    done(&back_one);
                    done(&moved(&back_other, &back_one));
                } else {
                    done(&back_other);
                    done(&back_one);
                }
                assert_eq!(text, ASKING);
            }
        }
    }
}

/// What gets typed and pasted, chosen for what breaks naive reading.
const PIECES: &[&str] = &[
    "a",
    " ",
    "\n",
    "\n\n",
    "\r\n",
    "\r",
    "\t",
    "\0",
    "\u{2028}",
    "\u{feff}",
    "🥚",
    "👩🏽\u{200d}🍳",
    "é",
    "e\u{301}",
    "卵を割る",
    "½",
    "1/",
    "°F",
    "(",
    ")",
    "[",
    "]",
    "[[",
    "]]",
    "=>",
    ":",
    "- ",
    "2. ",
    "// ",
    "?? ",
    "stet ",
    "stet amount-zero: so be it\n",
    "2 eggs",
    "half the flour",
    "the rest of the milk",
    "Recipe: Rusks\n",
    "\nIngredients:\n",
    "\nMethod:\n\n",
    "- 1 cup (120 g) flour\n",
    "1. Beat. => batter\n",
    "```tamis\n",
];

/// Where bursts begin: a few lines of everything.
const BEGUN: &str = "Recipe: Griddle Cakes 🥞\r\nServes: 4\r\n\r\nIngredients:\r\n\r\n- 1 cup (120 g) flour\r\n- 3/4 cup (180 ml) milk, divided\r\n- 1 egg\r\n\r\nMethod:\r\n\r\n1. Beat the egg with half the milk. => egg milk\r\n2. Stir the flour into the egg milk, then the rest of the milk.\r\n\r\nRecipe: Topping\r\n\r\n- 2 tbsp honey\r\n";

/// One thing that somebody does: where (as a share of the text), how much goes, and what comes instead; or the last of it is taken back.
#[derive(Debug, Clone)]
enum Done {
    Typed(f64, usize, String),
    TakenBack,
}

fn done() -> impl Strategy<Value = Done> {
    let gone = prop_oneof![6 => Just(0usize), 3 => 1..8usize, 1 => 1..400usize];
    let new = prop::collection::vec(select(PIECES), 0..3).prop_map(|pieces| pieces.concat());
    prop_oneof![
        5 => (0.0..=1.0f64, gone, new).prop_map(|(place, gone, new)| Done::Typed(place, gone, new)),
        1 => Just(Done::TakenBack),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 10_000, rng_seed: RngSeed::Fixed(0x7a315), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn after_a_burst_of_edits_all_is_as_when_opened_afresh(burst in prop::collection::vec(done(), 1..6)) {
        let mut text = BEGUN.to_owned();
        let mut typed = laws::opened(&text);
        let mut undone: Vec<Edit> = Vec::new();
        for done in burst {
            let edit = match done {
                Done::Typed(place, gone, new) => {
                    let start = laws::boundary(&text, (place * text.len() as f64) as usize);
                    Edit::replace(Span::new(start, laws::boundary(&text, start + gone)), new)
                }
                Done::TakenBack => match undone.pop() {
                    Some(edit) => edit,
                    None => continue,
                },
            };
            let back = Edit::replace(Span::new(edit.span.start, edit.span.start + edit.text.len()), edit.span.of(&text));
            undone.push(back);
            laws::edit(&mut typed, &mut text, &edit);
        }
        laws::same_as_fresh(&typed, &text);
    }
}

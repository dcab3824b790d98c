//! Fixes keep their word on recipes that nobody wrote: lists and methods put together at random, with slips of every kind.

use proptest::{prelude::*, sample::subsequence, test_runner::RngSeed};
use tamis::{book::Book, workspace::Manuscript};
use tamis_tests::fixes::{broken_promise, found};

/// Lines of a list, and how a step may speak of each.
const PANTRY: &[(&str, &str)] = &[
    ("2 cups (250 g) all-purpose flour", "flour"),
    ("1/2 cup (100 g) granulated sugar, divided", "granulated sugar"),
    ("1/2 cup (113 g) cold butter, cubed", "butter"),
    ("3 large eggs, separated", "yolks"),
    ("1 lemon, zest and juice", "zest"),
    ("1 tsp vanilla extract", "vanilla"),
    ("1 1/2 cups (355 ml) heavy cream", "heavy cream"),
    ("salt and pepper", "salt"),
    ("2 tbsp olive oil, plus more for the pan", "olive oil"),
    ("1 lb (450 g) rhubarb, cut up", "rhubarb"),
    ("4 scallions, sliced", "green onions"),
    ("Parmesan, 50 g", "Parmesan"),
    ("1 cup (240 ml) vegetable or chicken stock", "stock"),
    ("2 cloves garlic, minced", "garlic"),
    ("1/4 cup chopped parsley (optional)", "parsley"),
    ("cream cheese, to serve", "cream cheese"),
    ("1/2 cup (120 ml) [[Green Herb Oil]]", "herb oil"),
    ("1 (14-oz / 400 g) can chopped tomatoes", "tomatoes"),
    ("1/2 cup (100 g) granulated sugar", "granulated sugar"),
    ("1/4 cup (55 g) brown sugar", "brown sugar"),
];

/// Things that a step may name and no list has.
const ELSEWHERE: &[&str] = &[
    "2 tbsp honey",
    "[caraway seeds]",
    "raisins",
    "[the rest of the dough]",
    "[dough]",
    "water",
    "nuts",
    "spices",
    "remaining ingredients",
    "everything but the garlic",
];

/// What a step does with what it names.
const ORDERS: &[(&str, &str)] = &[
    ("Stir together the ", " in a bowl."),
    ("Add the ", " and cook until soft, 5 minutes."),
    ("Whisk the ", ", then let it stand."),
    ("Toss with the ", "."),
    ("Fold in the ", " and bake until brown, 30 minutes."),
];

/// How a step takes of a thing.
const SHARES: &[&str] =
    &["", "", "", "half the ", "1/3 of the ", "the rest of the ", "1/4 cup of the ", "2 cups of the ", "some of the "];

#[derive(Debug, Clone)]
struct Use {
    thing: usize,
    share: usize,
    marked: bool,
}

#[derive(Debug, Clone)]
struct Dish {
    lines: Vec<usize>,
    headings: bool,
    steps: Vec<(usize, Vec<Use>, bool)>,
    numbering: usize,
    blank: bool,
    marker: usize,
}

fn dish() -> impl Strategy<Value = Dish> {
    let everything: Vec<usize> = (0..PANTRY.len()).collect();
    let uses = (0..PANTRY.len() + ELSEWHERE.len(), 0..SHARES.len(), any::<bool>());
    let uses = uses.prop_map(|(thing, share, marked)| Use { thing, share, marked });
    let step = (0..ORDERS.len(), prop::collection::vec(uses, 0..4), prop::bool::weighted(0.2));
    let steps = prop::collection::vec(step, 1..6);
    let looks = (prop::bool::weighted(0.3), 0usize..5, any::<bool>(), 0usize..3);
    (subsequence(everything, 1..9), steps, looks).prop_map(|(lines, steps, (headings, numbering, blank, marker))| {
        Dish { lines, headings, steps, numbering, blank, marker }
    })
}

impl Dish {
    fn text(&self) -> String {
        let mut out = String::from("Recipe: Whatever There Is\n\nIngredients:\n");
        for (at, line) in self.lines.iter().enumerate() {
            if self.headings && at % 3 == 0 {
                out.push_str(["\nFor the base:\n", "\nFor the top:\n", "\nTo serve:\n"][at / 3 % 3]);
            }
            out.push_str(["- ", "• ", ""][self.marker]);
            out.push_str(PANTRY[*line].0);
            out.push('\n');
        }
        out.push_str("\nMethod:\n\n");
        let unnumbered = self.numbering == 3;
        for (at, (order, uses, result)) in self.steps.iter().enumerate() {
            let number = if self.numbering == 4 { at * 2 + 1 } else { at + 1 };
            out.push_str(&match self.numbering {
                0 | 4 => format!("{number}. "),
                1 => format!("{number}) "),
                2 => format!("Step {number}: "),
                _ => String::new(),
            });
            let named: Vec<String> = uses.iter().map(Use::text).collect();
            let named = if named.is_empty() { "pan".to_owned() } else { named.join(" and the ") };
            let (before, behind) = ORDERS[*order];
            out.push_str(&format!("{before}{named}{behind}"));
            out.push_str(if *result { " => dough" } else { "" });
            out.push_str(if self.blank || unnumbered { "\n\n" } else { "\n" });
        }
        out
    }
}

impl Use {
    fn text(&self) -> String {
        let Some((_, name)) = PANTRY.get(self.thing) else { return ELSEWHERE[self.thing - PANTRY.len()].to_owned() };
        let share = SHARES[self.share];
        if self.marked { format!("[{share}{name}]") } else { format!("{share}{name}") }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 100, rng_seed: RngSeed::Fixed(0x7a315), failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn fixes_that_are_offered_keep_their_word_on_any_recipe(dish in dish()) {
        let (text, book) = (dish.text(), Book::default());
        for finding in found(&text, &book) {
            for fix in &finding.fixes {
                // A check sees no more than its own; what it did not see is tried before the fix is offered.
                if let Some(broken) = broken_promise(&text, &finding, fix, &book) {
                    let offered = Manuscript::in_book(&text, book.clone()).tried(&finding);
                    prop_assert!(!offered.contains(fix), "{broken}\nin\n{text}");
                }
            }
        }
    }
}

/// Sugar stands in two lines, and the steps take more of it than there is: as one line the list would be told out of order, and the
/// share that was a guess too large.
#[test]
fn a_fix_that_breaks_its_word_is_not_offered() {
    let text = "Recipe: Currant Jelly\n\nIngredients:\n2 cups (250 g) all-purpose flour\n1/2 cup (100 g) granulated sugar, divided\n\
                1 1/2 cups (355 ml) heavy cream\n2 cloves garlic, minced\n1/2 cup (100 g) granulated sugar\n\nMethod:\n\n\
                1. Toss with the 2 cups of the garlic.\n3. Stir together the [2 cups of the granulated sugar] in a bowl.\n\
                5. Toss with the everything but the garlic and the [caraway seeds] and the [1/3 of the granulated sugar].\n\
                7. Add the pan and cook until soft, 5 minutes.\n9. Toss with the pan.\n";
    let manuscript = Manuscript::in_book(text, Book::default());
    let twice = manuscript.findings().into_iter().find(|finding| finding.code == "listed-twice").unwrap();
    assert_eq!((twice.fixes.len(), manuscript.tried(&twice)), (1, vec![]));
}

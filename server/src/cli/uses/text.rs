//! Who uses what, as two tables: by the lines of the list, and by the steps.

use annotate_snippets::normalize_untrusted_str as harmless;
use anstyle::{AnsiColor, Style};

use crate::assist::NOTHING;
use crate::cli::report::{Ingredient, Other, RecipeUses, Takes, Use};
use crate::cli::wrap::{columns, row};

const HEADING: Style = Style::new().bold();
const ASIDE: Style = Style::new().dimmed();
const WRONG: Style = AnsiColor::Yellow.on_default();

/// The share that goes without saying.
const ALL: &str = "all";

const INDENT: usize = 4;
/// How much further a further food of a line stands, in columns.
const SET_IN: usize = 2;
/// A longer name or amount goes on in the next line of its cell.
const WIDEST_NAME: usize = 32;
const WIDEST_AMOUNT: usize = 24;

/// The tables of one recipe on a page of `width` columns, followed by an empty line.
pub fn show(recipe: &RecipeUses, path: &str, width: usize) -> String {
    let table = Table::of(recipe, width);
    let mut out = format!("{HEADING}{}{HEADING:#}  {ASIDE}{}{ASIDE:#}\n", harmless(&recipe.title), harmless(path));
    out.push_str(&table.ingredients(recipe));
    out.push_str(&steps(recipe, width));
    let unlisted = recipe.unlisted.iter().map(|food| {
        let place = format!("step {} (line {})", food.step, food.line);
        table.row(&food.food, food.amount.as_deref(), &place)
    });
    out.push_str(&section("Used, but not in the list", unlisted.collect()));
    let unused = recipe.ingredients.iter().filter(|line| line.uses.is_empty() && line.excuse.is_none());
    let unused = unused.map(|ingredient| {
        table.row(&ingredient.name, ingredient.amount.as_deref(), &format!("line {}", ingredient.line))
    });
    out.push_str(&section("In the list, but never used", unused.collect()));
    out.push('\n');
    out
}

/// A list under its heading, or nothing where the list is empty.
fn section(heading: &str, rows: String) -> String {
    if rows.is_empty() { String::new() } else { format!("\n  {WRONG}{heading}{WRONG:#}\n{rows}") }
}

/// The widths of the columns: name, amount, and where it goes.
struct Table {
    name: usize,
    amount: usize,
    place: usize,
}

impl Table {
    fn of(recipe: &RecipeUses, width: usize) -> Self {
        let listed = recipe.ingredients.iter().map(|line| (line.name.clone(), line.amount.as_deref()));
        let others = recipe.ingredients.iter().flat_map(|line| &line.others);
        let others = others.map(|other| (" ".repeat(SET_IN) + &told_apart(other), other.amount.as_deref()));
        let unlisted = recipe.unlisted.iter().map(|food| (food.food.clone(), food.amount.as_deref()));
        let (mut name, mut amount) = (0, 0);
        for (a_name, an_amount) in listed.chain(others).chain(unlisted) {
            name = name.max(columns(&harmless(&a_name)));
            amount = amount.max(columns(&harmless(an_amount.unwrap_or_default())));
        }
        let (name, amount) = (name.min(WIDEST_NAME), amount.min(WIDEST_AMOUNT));
        let place = width.saturating_sub(INDENT + name + amount + 4).max(20);
        Table { name, amount, place }
    }

    fn row(&self, name: &str, amount: Option<&str>, place: &str) -> String {
        let (name, amount) = (harmless(name), harmless(amount.unwrap_or_default()));
        row(INDENT, &[(&name, self.name), (&amount, self.amount), (place, self.place)])
    }

    /// A further food of a line, set in below the first.
    fn further(&self, other: &Other) -> String {
        let (name, amount) = (harmless(&told_apart(other)), harmless(other.amount.as_deref().unwrap_or_default()));
        row(INDENT + SET_IN, &[(&name, self.name.saturating_sub(SET_IN)), (&amount, self.amount)])
    }

    fn ingredients(&self, recipe: &RecipeUses) -> String {
        let mut out = String::new();
        let mut group = None;
        for (place, ingredient) in recipe.ingredients.iter().enumerate() {
            if place == 0 || group != ingredient.group.as_deref() {
                group = ingredient.group.as_deref();
                out.push('\n');
                out.extend(group.map(|group| format!("  {HEADING}{}{HEADING:#}\n", harmless(group))));
            }
            out.push_str(&self.row(&ingredient.name, ingredient.amount.as_deref(), &goes_into(ingredient)));
            out.extend(ingredient.others.iter().map(|other| self.further(other)));
        }
        out
    }
}

/// A further food of a line, with what it is to the first.
fn told_apart(other: &Other) -> String {
    format!("{} {}", if other.instead { "or" } else { "and" }, other.name)
}

/// What goes in, step by step, how much, and what is left of it; nothing where no step takes anything.
fn steps(recipe: &RecipeUses, width: usize) -> String {
    let left_of = |takes: &Takes| match takes.left.as_deref() {
        Some(NOTHING) if takes.all => String::new(),
        Some(left) => format!("{left} left"),
        None => String::new(),
    };
    let all = || recipe.steps.iter().flat_map(|step| &step.takes);
    let widest = |of: &dyn Fn(&Takes) -> String| all().map(|takes| columns(&harmless(&of(takes)))).max().unwrap_or(0);
    let name = widest(&|takes| takes.name.clone()).min(width / 3);
    let amount = widest(&|takes| takes.amount.clone().unwrap_or_default()).min(width / 3);
    let number = recipe.steps.len().to_string().len();
    let left = width.saturating_sub(INDENT + number + name + amount + 6).max(12);
    let mut out = String::new();
    for step in &recipe.steps {
        for (place, takes) in step.takes.iter().enumerate() {
            let label = if place == 0 { step.step.to_string() } else { String::new() };
            let taken = harmless(takes.amount.as_deref().unwrap_or_default());
            let (what, rest) = (harmless(&takes.name), left_of(takes));
            let rest = harmless(&rest);
            out.push_str(&row(INDENT, &[(&label, number), (&what, name), (&taken, amount), (&rest, left)]));
        }
    }
    if out.is_empty() { out } else { format!("\n  {HEADING}Step by step{HEADING:#}\n{out}") }
}

/// `steps 2, 5`; `step 2 (half), step 5 (the rest)` where a share is told. Behind it stands what no step takes.
fn goes_into(ingredient: &Ingredient) -> String {
    let places = places(ingredient);
    match ingredient.left.as_deref().filter(|left| *left != NOTHING && !ingredient.uses.is_empty()) {
        Some(left) => format!("{places}, {WRONG}{} left{WRONG:#}", harmless(left)),
        None => places,
    }
}

fn places(ingredient: &Ingredient) -> String {
    if ingredient.uses.is_empty() {
        let never = || format!("{WRONG}never used{WRONG:#}");
        return ingredient.excuse.map_or_else(never, |excuse| format!("{ASIDE}{excuse}{ASIDE:#}"));
    }
    let mut steps: Vec<(usize, Vec<String>)> = Vec::new();
    for used in &ingredient.uses {
        let how = how_much(used, ingredient.uses.len() == 1);
        match steps.last_mut() {
            Some((step, hows)) if *step == used.step => hows.extend(how),
            _ => steps.push((used.step, how.into_iter().collect())),
        }
    }
    if steps.len() > 1 && steps.iter().all(|(_, hows)| hows.is_empty()) {
        let steps: Vec<String> = steps.iter().map(|(step, _)| step.to_string()).collect();
        return format!("steps {}", steps.join(", "));
    }
    let step = |(step, hows): &(usize, Vec<String>)| {
        if hows.is_empty() { format!("step {step}") } else { format!("step {step} ({})", hows.join(", ")) }
    };
    steps.iter().map(step).collect::<Vec<_>>().join(", ")
}

/// `half`, `zest`, `juice: the rest`; nothing where the whole is meant. What comes in with others says so: as the `only` use,
/// even "the rest of the ingredients" is all of this one.
fn how_much(used: &Use, only: bool) -> Option<String> {
    let all_of_it = used.share.as_deref() == Some(ALL);
    let share = used.share.as_deref().filter(|_| !all_of_it).map(harmless);
    match (used.part, share) {
        (None, Some(_)) if used.collective && only => Some("with others".to_owned()),
        (None, None) if used.collective && all_of_it => Some("with others".to_owned()),
        (None, share) => share,
        (Some(part), Some(share)) => Some(format!("{part}: {share}")),
        (Some(part), None) => Some(part.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::cli::report::{Step, Unlisted};
    use anstream::adapter::strip_str;

    fn ingredient(line: usize, group: &str, name: &str, amount: &str, uses: &[(usize, &str)]) -> Ingredient {
        let some = |text: &str| Some(text.to_owned()).filter(|text| !text.is_empty());
        Ingredient {
            line,
            group: some(group),
            name: name.into(),
            amount: some(amount),
            uses: uses
                .iter()
                .map(|(step, share)| Use {
                    step: *step,
                    part: ["zest", "juice"].into_iter().find(|part| share.starts_with(part)),
                    share: some(
                        share.trim_start_matches("zest ").trim_start_matches("juice ").trim_start_matches("* "),
                    ),
                    collective: share.starts_with('*'),
                    marked: false,
                })
                .collect(),
            ..Ingredient::default()
        }
    }

    fn takes(name: &str, amount: &str, all: bool, left: &str) -> Takes {
        Takes { name: name.into(), line: None, amount: Some(amount.into()), all, left: Some(left.into()) }
    }

    #[test]
    fn a_recipe_is_a_table_with_what_is_wrong_below() {
        let recipe = RecipeUses {
            title: "Rhubarb and Rye Crumble".into(),
            ingredients: vec![
                ingredient(8, "For the fruit", "rhubarb", "2 lb (900 g)", &[(2, "")]),
                ingredient(
                    9,
                    "For the fruit",
                    "orange",
                    "1",
                    &[(2, "zest all"), (2, "juice half"), (5, "juice the rest")],
                ),
                ingredient(12, "For the crumble", "rye flour", "1 cup (100 g)", &[(3, "* all"), (4, "")]),
                ingredient(13, "For the crumble", "flaky salt", "1 pinch", &[]),
                Ingredient {
                    others: vec![Other { name: "yogurt".into(), amount: Some("1 cup (245 g)".into()), instead: true }],
                    ..ingredient(14, "For the crumble", "heavy cream", "1/2 cup", &[(4, "")])
                },
            ],
            steps: vec![
                Step::default(),
                Step {
                    step: 2,
                    line: 20,
                    takes: vec![
                        takes("rhubarb", "2 lb (900 g)", true, "nothing"),
                        takes("juice of the orange", "half", false, "half"),
                    ],
                },
                Step { step: 3, line: 22, takes: vec![takes("juice of the orange", "half", false, "nothing")] },
            ],
            unlisted: vec![Unlisted { step: 4, line: 24, food: "honey".into(), amount: Some("2 tbsp".into()) }],
        };
        let expected = "\
Rhubarb and Rye Crumble  crumble.tamis

  For the fruit
    rhubarb      2 lb (900 g)   step 2
    orange       1              step 2 (zest, juice: half), step 5 (juice: the rest)

  For the crumble
    rye flour    1 cup (100 g)  step 3 (with others), step 4
    flaky salt   1 pinch        never used
    heavy cream  1/2 cup        step 4
      or yogurt  1 cup (245 g)

  Step by step
    2  rhubarb              2 lb (900 g)
       juice of the orange  half          half left
    3  juice of the orange  half          nothing left

  Used, but not in the list
    honey        2 tbsp         step 4 (line 24)

  In the list, but never used
    flaky salt   1 pinch        line 13

";
        assert_eq!(strip_str(&show(&recipe, "crumble.tamis", 100)).to_string(), expected);
    }

    #[test]
    fn a_narrow_page_breaks_inside_the_cells() {
        let many: Vec<(usize, &str)> = (10..=19).map(|step| (step, "")).collect();
        let recipe = RecipeUses { ingredients: vec![ingredient(3, "", "salt", "", &many)], ..RecipeUses::default() };
        let shown = strip_str(&show(&recipe, "-", 40)).to_string();
        assert!(shown.lines().all(|line| columns(line) <= 40), "{shown}");
        assert!(shown.contains("\n    salt    steps 10, 11, 12, 13, 14,\n            15,"), "{shown}");
    }
}

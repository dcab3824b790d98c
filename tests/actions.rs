//! What can be done with a line or a recipe that is not wrong, and that none of it changes what a cook does.

use std::{collections::BTreeMap, fs, path::PathBuf, sync::Arc};

use tamis::{
    assist::{self, Action, Change},
    book::House,
    checks::{Finding, Severity},
    measure::{Comparison, Verdict, compare},
    recipe::{Recipe, flow::Taken, weights},
    text::{Edit, Span},
    workspace::Manuscript,
};

/// A recipe in which the words of a table stand where they belong.
fn manuscript(line: &str, step: &str) -> String {
    format!("Recipe: Table Talk\nServes: 4\n\nIngredients:\n- {line}\n- 1 cup (240 ml) water\n\nMethod:\n\n1. {step}\n")
}

fn read(text: &str) -> Manuscript {
    Manuscript::new(text, Arc::default())
}

/// What is offered with the cursor right behind `before` characters of the first recipe.
fn offered(text: &str, at: Span) -> Vec<Action> {
    let manuscript = read(text);
    let (start, recipe) = manuscript.recipe_at(at.start).expect("a recipe");
    assert_eq!(start, 0, "the only one");
    assist::actions(recipe, manuscript.house(), at)
}

/// Adds, converts, spells out, marks: the line as it is, the change, and the line as it is then; `None` where nothing is offered.
#[test]
fn a_line_is_changed_as_a_copy_editor_would() {
    use Change::{AddCustomary, AddMetric, SpellOut, Weigh, WeighCounted};
    let table = [
        ("1 cup flour", AddMetric, Some("1 cup (125 g) flour")),
        ("1 cup milk", AddMetric, Some("1 cup (240 ml) milk")),
        ("1 1/2 lb beef", AddMetric, Some("1 1/2 lb (675 g) beef")),
        (
            "about 2 cups flour, plus more for dusting",
            AddMetric,
            Some("about 2 cups (250 g) flour, plus more for dusting"),
        ),
        (
            "2 to 3 tbsp olive oil // the good one",
            AddMetric,
            Some("2 to 3 tbsp (30 to 45 ml) olive oil // the good one"),
        ),
        ("1 cup plus 2 tbsp sugar", AddMetric, Some("1 cup plus 2 tbsp (225 g) sugar")),
        ("2 (14-oz) cans tomatoes", AddMetric, Some("2 (14-oz / 400 g) cans tomatoes")),
        ("1 lb. 4 oz. turnips", AddMetric, Some("1 lb. 4 oz. (575 g) turnips")),
        ("2 teaspoons salt", AddMetric, Some("2 teaspoons (12 g) salt")),
        (
            "2 lb potatoes, cut into 1-inch cubes",
            AddMetric,
            Some("2 lb (900 g) potatoes, cut into 1-inch (2.5 cm) cubes"),
        ),
        // What is there already, what nobody knows, what is loosened another way.
        ("1 cup (120 g) flour", AddMetric, None),
        ("1 cup sugar (200 g)", AddMetric, None),
        ("1 cup fat hen leaves", AddMetric, None),
        ("1 heaping cup flour", AddMetric, None),
        ("2 eggs", AddMetric, None),
        ("salt, to taste", AddMetric, None),
        ("500 g beef", AddCustomary, Some("500 g (1 lb 2 oz) beef")),
        ("250 ml milk", AddCustomary, Some("250 ml (1 cup plus 1 tbsp) milk")),
        ("1 onion (about 150 g)", AddCustomary, Some("1 onion (about 150 g / 5 1/4 oz)")),
        ("1 cup flour", Weigh, Some("125 g flour")),
        ("1 cup (120 g) flour, sifted", Weigh, Some("120 g flour, sifted")),
        (
            "about 2 to 3 cups flour, plus more for dusting",
            Weigh,
            Some("about 250 to 380 g flour, plus more for dusting"),
        ),
        ("1/2 cup (118 ml) honey ?? which one", Weigh, None),
        ("1 tsp salt", Weigh, None),
        ("1 cup butter or oil", Weigh, None),
        ("2 large eggs", Weigh, None),
        ("1/4 cup chopped parsley", Weigh, None),
        ("2 large eggs, beaten", WeighCounted, Some("2 large eggs (about 100 g), beaten")),
        ("3 cloves garlic", WeighCounted, Some("3 cloves garlic (about 9 g)")),
        ("2 lemons, zest and juice", WeighCounted, None),
        ("2 T sugar", SpellOut, Some("2 tablespoons sugar")),
        ("1 T. sugar", SpellOut, Some("1 tablespoon sugar")),
        ("1/2 c sugar", SpellOut, Some("1/2 cup sugar")),
        ("2c. sugar", SpellOut, Some("2 cups sugar")),
        ("2 (14-oz / 400 g) cans tomatoes", SpellOut, Some("2 (14-ounce / 400 g) cans tomatoes")),
        ("2 tablespoons sugar", SpellOut, None),
        ("200 g sugar", SpellOut, None),
    ];
    for (line, change, expected) in table {
        let text = manuscript(line, "Mix everything with the water.");
        let start = text.find(line).expect("the line");
        let actions = offered(&text, Span::new(start, start + line.len()));
        let found = actions.iter().find(|action| action.change == change && !action.throughout);
        let changed = found.map(|action| Edit::apply_all(&text, &action.edits));
        let expected = expected.map(|expected| text.replace(line, expected));
        assert_eq!(changed, expected, "{line}: {change:?}");
    }
}

/// A step: what its brackets and its measures become.
#[test]
fn a_step_is_changed_as_a_copy_editor_would() {
    use Change::{AddMetric, Mark, SpellOut};
    let table = [
        ("Bake in a 9-inch pan at 350°F.", AddMetric, Some("Bake in a 9-inch (23 cm) pan at 350°F (175°C).")),
        ("Pour into a 9 x 13 in dish.", AddMetric, Some("Pour into a 9 x 13 in (23 x 33 cm) dish.")),
        ("Add [2 tbsp of the sugar].", AddMetric, Some("Add [2 tbsp (25 g) of the sugar].")),
        ("Bake at 180°C/160°C fan/gas mark 4. Lower the oven by 25°F.", AddMetric, None),
        (
            "Stir in half the sugar, then the rest of the sugar.",
            Mark,
            Some("Stir in [half the sugar], then [the rest of the sugar]."),
        ),
        ("Stir until the sugar melts.", Mark, None),
        ("Add 2 T. of the sugar.", SpellOut, Some("Add 2 tablespoons of the sugar.")),
        ("Pour into a 9 x 13-in. dish.", SpellOut, Some("Pour into a 9 x 13-inch dish.")),
    ];
    for (step, change, expected) in table {
        let text = manuscript("1 cup (200 g) sugar", step);
        let start = text.find(step).expect("the step");
        let actions = offered(&text, Span::new(start, start + step.len()));
        let found = actions.iter().find(|action| action.change == change && !action.throughout);
        let changed = found.map(|action| Edit::apply_all(&text, &action.edits));
        assert_eq!(changed, expected.map(|expected| text.replace(step, expected)), "{step}: {change:?}");
    }
}

/// Shares in the method go by weight with their line, and stay together what they were.
#[test]
fn steps_are_weighed_with_their_line() {
    let text = "Recipe: Glaze\nServes: 4\n\nIngredients:\n- 1 cup sugar, divided\n- 1 cup (240 ml) water\n\nMethod:\n\n\
                1. Boil the water with [1/4 cup of the sugar].\n\n2. Add 1/2 cup of the sugar, then [the rest of the sugar].\n";
    let at = Span::at(text.find("1 cup sugar").expect("the line"));
    let actions = offered(text, at);
    let weigh = actions.iter().find(|action| action.change == Change::Weigh).expect("it can be weighed");
    assert_eq!(weigh.title, "Give it by weight: 200 g");
    let expected =
        text.replace("1 cup sugar", "200 g sugar").replace("1/4 cup of", "50 g of").replace("1/2 cup of", "100 g of");
    assert_eq!(Edit::apply_all(text, &weigh.edits), expected);
}

/// With a cursor, what it touches; with a selection, every line of it; and throughout the recipe only where that is more.
#[test]
fn what_is_offered_goes_by_the_place() {
    let text = manuscript("1 cup flour (2 tbsp for dusting)", "Toss the flour with the water and bake at 350°F.");
    let titles = |from: &str, to: &str| -> Vec<String> {
        let start = text.find(from).expect("a place");
        let end = text.find(to).expect("a place");
        offered(&text, Span::new(start, end)).into_iter().map(|action| action.title).collect()
    };
    let offered = titles("350", "350");
    assert_eq!(offered.first().map(String::as_str), Some("Add the metric measure: 175°C"));
    assert!(offered.contains(&"Add metric measures throughout the recipe".to_owned()), "{offered:#?}");
    assert!(offered.contains(&"Put the mentions in this step in brackets".to_owned()), "{offered:#?}");
    let offered = titles("Table Talk", "Table Talk");
    assert!(offered.iter().all(|title| !title.contains("this")), "only the whole recipe: {offered:#?}");
    assert!(!offered.is_empty());
}

// The promises, on every place of every sample.

fn samples() -> Vec<(PathBuf, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let mut paths: Vec<PathBuf> = [folder.clone(), folder.join("mistakes")]
        .iter()
        .flat_map(|folder| fs::read_dir(folder).expect("the samples can be read"))
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.extension().is_some_and(|ext| ext == "tamis"))
        .collect();
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), fs::read_to_string(&path).expect("a sample is text"))).collect()
}

/// How many findings of each code hurt as much as an info or more.
fn felt(findings: &[Finding]) -> BTreeMap<&'static str, usize> {
    let mut out = BTreeMap::new();
    for finding in findings.iter().filter(|finding| finding.severity <= Severity::Info) {
        *out.entry(finding.code).or_default() += 1;
    }
    out
}

/// The foods of the list, and who uses how much of them where: in words, and as a part of the whole.
fn cooked(recipe: &Recipe) -> Vec<(String, f64)> {
    let mut out = Vec::new();
    for (index, line) in recipe.ingredients.iter().enumerate() {
        let foods: Vec<_> =
            line.names.iter().map(|name| (name.food.map(|food| food.name), name.part, &name.words)).collect();
        let tags = line.tags;
        out.push((format!("{foods:?} {tags:?} {:?} {}", line.group, line.alternatives), 0.0));
        for found in recipe.flow.uses(index) {
            let (taken, share) = match found.taken {
                Taken::Amount(_, Some((least, most))) => ("a share".to_owned(), (least + most) / 2.0),
                Taken::Amount(..) => ("an amount".to_owned(), 0.0),
                other => (format!("{other:?}"), 0.0),
            };
            out.push((format!("  step {} {:?} {taken}", found.step, found.part), share));
        }
    }
    for step in &recipe.steps {
        let results: Vec<_> = step.results.iter().map(|result| &result.words).collect();
        out.push((format!("step {:?} {results:?}", step.group), 0.0));
    }
    let unlisted: Vec<_> = recipe.flow.unlisted.iter().map(|one| (one.step, one.food.map(|food| food.name))).collect();
    out.push((format!("{unlisted:?}"), 0.0));
    out
}

/// Shares by weight and by volume are alike within their rounding.
fn alike(one: &(String, f64), other: &(String, f64)) -> bool {
    one.0 == other.0 && (one.1 - other.1).abs() < 0.05 * one.1.max(1.0)
}

/// What an action breaks, in words.
fn broken(before: &Manuscript, start: usize, action: &Action) -> Option<String> {
    let text = before.text();
    let edits: Vec<Edit> =
        action.edits.iter().map(|edit| Edit::replace(edit.span.shifted(start), edit.text.clone())).collect();
    let changed = Edit::apply_all(&text, &edits);
    let after = read(&changed);
    let told = |what: String| Some(format!("`{}` {what}", action.title));
    let (own, other) = (before.recipe_at(start)?.1, after.recipe_at(start)?.1);
    if other.damage.len() > own.damage.len() {
        return told("cannot be read".to_owned());
    }
    let (had, has) = (felt(&before.findings()), felt(&after.findings()));
    if let Some((code, _)) = has.iter().find(|(code, count)| had.get(*code).is_none_or(|had| had < *count)) {
        let findings = after.findings();
        let new = findings.iter().find(|finding| finding.code == *code).map(|finding| finding.message.clone());
        return told(format!("brings {code}: {}", new.unwrap_or_default()));
    }
    let (cooks, cooked) = (cooked(own), cooked(other));
    let differs = cooks.iter().zip(&cooked).find(|(one, other)| !alike(one, other));
    if differs.is_some() || cooks.len() != cooked.len() {
        return told(format!("is cooked otherwise: {differs:?}"));
    }
    amounts_differ(own, other, before.house(), action).or_else(|| again(&after, start, action, &edits, &changed))
}

/// An amount that is another one afterwards, beyond the rounding.
fn amounts_differ(own: &Recipe, other: &Recipe, house: &House, action: &Action) -> Option<String> {
    for (one, two) in own.ingredients.iter().zip(&other.ingredients) {
        let (Some(index), Some(changed)) = (one.amount, two.amount) else { continue };
        let stated = |recipe: &Recipe, index: usize| {
            let measure = recipe.measures.get(index)?;
            (measure.each.is_empty()).then(|| measure.stated.amounts()).flatten()
        };
        let (Some(written), Some(now)) = (stated(own, index), stated(other, changed)) else { continue };
        // As the author restates it, and so answers for it.
        let restated = own
            .measures
            .get(index)
            .is_some_and(|measure| measure.restated.iter().any(|stated| stated.amounts().as_ref() == Some(&now)));
        if written == now || restated {
            continue;
        }
        let range = weights::range_of(own, index);
        let agrees = match compare(&written, &now, &house.measures, range.as_ref()) {
            Comparison::Compared(agreement) => agreement.verdict(&house.tolerances) == Verdict::Agrees,
            _ => false,
        };
        if !agrees {
            return Some(format!("`{}`: {written:?} became {now:?}", action.title));
        }
    }
    None
}

/// Done once, there is nothing left of the same kind to be done there.
fn again(after: &Manuscript, start: usize, action: &Action, edits: &[Edit], changed: &str) -> Option<String> {
    let (_, recipe) = after.recipe_at(start)?;
    let first = edits.iter().map(|edit| edit.span.start).min()?;
    let place = if action.throughout { 0 } else { first - start + 1 };
    let left = assist::actions(recipe, after.house(), Span::at(place));
    // Behind a mention that stands in brackets now, the step may have another of the same name.
    let here = |other: &Action| other.edits.iter().any(|edit| (edit.span.start + start).abs_diff(first) <= 1);
    let same = left
        .iter()
        .filter(|other| other.throughout || here(other))
        .find(|other| (other.throughout, &other.title) == (action.throughout, &action.title))?;
    let edits: Vec<Edit> =
        same.edits.iter().map(|edit| Edit::replace(edit.span.shifted(start), edit.text.clone())).collect();
    Some(format!("`{}` goes on and on:\n{}", action.title, Edit::apply_all(changed, &edits)))
}

/// Of each kind of change at a single place, one in so many is tried: each costs a manuscript read anew.
const ONE_IN: usize = 8;

/// Every action that is offered anywhere in a recipe, once.
fn everywhere(recipe: &Recipe, house: &House) -> Vec<Action> {
    let places = recipe.measures.iter().map(|measure| measure.span.start);
    let places = places.chain(recipe.flow.mentions.iter().map(|mention| mention.span.start)).chain([0]);
    let mut seen: Vec<Action> = Vec::new();
    for place in places {
        for action in assist::actions(recipe, house, Span::at(place)) {
            if !seen.contains(&action) {
                seen.push(action);
            }
        }
    }
    seen
}

#[test]
fn no_action_changes_what_a_cook_does() {
    let mut wrong = Vec::new();
    let mut tried: BTreeMap<(Change, bool), usize> = BTreeMap::new();
    for (number, (path, text)) in samples().into_iter().enumerate() {
        let text = if number % 2 == 0 { text } else { text.replace('\n', "\r\n") };
        let manuscript = read(&text);
        for (start, recipe) in manuscript.recipes() {
            let measures: Vec<Span> = recipe.measures.iter().map(|measure| measure.span).collect();
            for action in everywhere(recipe, manuscript.house()) {
                for edit in &action.edits {
                    let within = measures.iter().any(|measure| measure.contains(edit.span));
                    assert!(edit.span.is_empty() || within, "{}: words are touched", action.title);
                    assert!(!edit.text.contains(['\n', '\r']), "{}", action.title);
                }
                let count = tried.entry((action.change, action.throughout)).or_default();
                *count += 1;
                if action.throughout || count.is_multiple_of(ONE_IN) {
                    let broken = broken(&manuscript, start, &action);
                    wrong.extend(broken.map(|broken| format!("{}: {broken}", path.display())));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} broken of {tried:#?}\n{}", wrong.len(), wrong.join("\n"));
    for change in Change::ALL {
        for throughout in [false, true] {
            assert!(
                tried.get(&(change, throughout)).is_some_and(|count| *count >= 5),
                "{change:?} {throughout}: {tried:?}"
            );
        }
    }
}

/// What hangs on brackets: the same lines, in the same steps, with the same shares, as `tamis uses` tells them.
#[test]
fn brackets_change_no_link() {
    for (path, text) in samples() {
        let manuscript = read(&text);
        for (start, recipe) in manuscript.recipes() {
            let actions = assist::actions(recipe, manuscript.house(), Span::at(0));
            let Some(mark) = actions.iter().find(|action| action.change == Change::Mark && action.throughout) else {
                continue;
            };
            let marked = Edit::apply_all(&recipe.text, &mark.edits);
            let after = read(&marked);
            let (_, other) = after.recipe_at(0).expect("still a recipe");
            let told = |recipe: &Recipe| -> Vec<_> {
                let lines = 0..recipe.ingredients.len();
                let uses = lines.flat_map(|line| recipe.flow.uses(line).into_iter().map(move |found| (line, found)));
                uses.map(|(line, found)| (line, found.step, found.part, assist::share(recipe, &found))).collect()
            };
            assert_eq!(told(recipe), told(other), "{} at {start}:\n{marked}", path.display());
        }
    }
}

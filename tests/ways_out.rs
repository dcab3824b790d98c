//! Ways out of a finding: where its stet goes, and that it then stands; on recipes of a table, and on every finding of the samples.

use std::sync::Arc;

use tamis::{
    assist::{self, Leads, WayOut},
    book::sheet::Decision,
    checks::Finding,
    text::Edit,
    workspace::{Manuscript, posts::Form},
};
use tamis_tests::folder::samples;

fn ways_out(manuscript: &Manuscript, finding: &Finding) -> Vec<WayOut> {
    let (start, recipe) = manuscript.recipe_at(finding.span.start).expect("a finding stands in a recipe");
    assist::ways_out(recipe, finding.code, finding.span.start - start)
}

/// The edit that lets a finding stand, and its title.
fn stand(manuscript: &Manuscript, finding: &Finding) -> Option<(Edit, String)> {
    let (start, _) = manuscript.recipe_at(finding.span.start)?;
    ways_out(manuscript, finding).into_iter().find_map(|way| match way.leads {
        Leads::Here(edit) => Some((edit.shifted(start), way.title)),
        Leads::ToTheSheet(_) => None,
    })
}

fn read(text: &str, form: Form) -> Manuscript {
    Manuscript::of(text, form, Default::default())
}

/// The text after the one finding of this code has been let stand, and what the action is called.
fn let_stand(text: &str, form: Form, code: &str) -> (String, String) {
    let manuscript = read(text, form);
    let finding = manuscript.findings().into_iter().find(|finding| finding.code == code);
    let finding = finding.unwrap_or_else(|| panic!("no {code} in\n{text}"));
    let (edit, title) = stand(&manuscript, &finding).expect("it may stand");
    (Edit::put_into(text, &[edit]), title)
}

const LOAF: &str = "\
Recipe: Shed Loaf
Serves: 8

Nobody minds the crust.

Equipment:
- 1 loaf pan
- 1 sieve

Ingredients:

For the dough:
- 2 cups (250 g) flour
• 1/2 cup (60 g) walnuts,
  chopped
1/4 cup (50 g) sugar

Method:

Mix the flour and the the sugar in the loaf pan and bake at 350°F (175°C)
until brown, 40 minutes.

Storage: Keeps for a a week.
";

#[test]
fn a_stet_goes_above_what_the_finding_speaks_of() {
    let table = [
        ("ingredient-unused", "• 1/2 cup", "here"),
        ("equipment-unused", "- 1 sieve", "here"),
        ("oven-not-heated", "Mix the flour", "here"),
    ];
    for (code, above, place) in table {
        let (text, title) = let_stand(LOAF, Form::Manuscript, code);
        assert_eq!(text, LOAF.replace(above, &format!("stet {code}: \n{above}")));
        assert_eq!(title, format!("Let it stand {place}: stet {code}"));
    }
}

#[test]
fn what_is_said_of_a_whole_recipe_may_stand_in_all_of_it() {
    let text = LOAF.replace("Serves: 8\n", "");
    for title in ["Recipe: Shed Loaf\n", "Recipe: Shed Loaf"] {
        let text = if title.ends_with('\n') { text.clone() } else { title.to_owned() };
        let manuscript = read(&text, Form::Manuscript);
        let at_title = manuscript.findings().into_iter().find(|finding| finding.span.of(&text) == "Shed Loaf");
        let Some(finding) = at_title else { continue };
        let (edit, title) = stand(&manuscript, &finding).expect("it may stand");
        let code = finding.code;
        let expected = text.replacen("Shed Loaf", &format!("Shed Loaf\nstet {code}: "), 1);
        assert_eq!(Edit::put_into(&text, &[edit]), expected);
        assert_eq!(title, format!("Let it stand in this recipe: stet {code}"));
    }
}

#[test]
fn stets_stack_and_keep_line_breaks_and_posts() {
    let (once, _) = let_stand(LOAF, Form::Manuscript, "oven-not-heated");
    let (twice, _) = let_stand(&once, Form::Manuscript, "word-repeated");
    assert_eq!(twice, LOAF.replace("Mix the", "stet oven-not-heated: \nstet word-repeated: \nMix the"));

    let crlf = |text: &str| text.replace('\n', "\r\n");
    let (text, _) = let_stand(&crlf(LOAF), Form::Manuscript, "ingredient-unused");
    assert_eq!(text, crlf(&let_stand(LOAF, Form::Manuscript, "ingredient-unused").0));

    let post = |recipe: &str| format!("# Bread\n\nAs ever:\n\n```tamis\n{recipe}```\n\nand so on\n");
    let (text, _) = let_stand(&post(LOAF), Form::Post, "ingredient-unused");
    assert_eq!(text, post(&let_stand(LOAF, Form::Manuscript, "ingredient-unused").0));
}

/// Whatever is found in the manuscripts with mistakes: let stand it is gone, nothing else is, and the reason that is still to be written
/// is asked for.
#[test]
fn every_finding_of_the_samples_can_be_let_stand() {
    let codes = |text: &str| -> Vec<&'static str> {
        read(text, Form::Manuscript).findings().iter().map(|finding| finding.code).collect()
    };
    let mut tried = 0;
    for (path, text) in samples("mistakes") {
        let manuscript = read(&text, Form::Manuscript);
        let about_stets = ["stet-unused", "stet-without-reason"];
        for finding in manuscript.findings().iter().filter(|finding| !about_stets.contains(&finding.code)) {
            let (edit, _) = stand(&manuscript, finding)
                .unwrap_or_else(|| panic!("{}: {} cannot stand", path.display(), finding.code));
            let now = codes(&Edit::put_into(&text, &[edit]));
            let count = |codes: &[&str], code| codes.iter().filter(|other| **other == code).count();
            let before = codes(&text);
            assert!(count(&now, finding.code) < count(&before, finding.code), "{} {}", path.display(), finding.code);
            assert_eq!(count(&now, "stet-without-reason"), count(&before, "stet-without-reason") + 1);
            let mut others: Vec<&str> = before.into_iter().filter(|code| *code != finding.code).collect();
            let mut left: Vec<&str> = now.into_iter().filter(|code| *code != finding.code).collect();
            left.retain(|code| *code != "stet-without-reason");
            others.retain(|code| *code != "stet-without-reason");
            assert_eq!((left, path.display().to_string()), (others, path.display().to_string()));
            tried += 1;
        }
    }
    assert!(tried > 40, "{tried} findings");
}

#[test]
fn of_a_stet_itself_there_is_no_way_out_but_to_turn_the_check_off() {
    let text = LOAF.replace("Serves: 8\n", "stet time-total:\nServes: 8\n");
    let manuscript = read(&text, Form::Manuscript);
    for finding in manuscript.findings().iter().filter(|finding| finding.code.starts_with("stet-")) {
        let ways = ways_out(&manuscript, finding);
        let titles: Vec<&str> = ways.iter().map(|way| way.title.as_str()).collect();
        assert_eq!(titles, [format!("Turn {} off for this book", finding.code)]);
    }
}

#[test]
fn a_house_may_know_a_food_or_let_it_go_unlisted() {
    let decided = |list: &str, step: &str, code: &str| -> Vec<Decision> {
        let text = format!("Recipe: Odds\nServes: 2\n\nIngredients:\n- {list}\n- 1 cabbage\n\nMethod:\n\n1. {step}\n");
        let manuscript = Manuscript::new(&text, Arc::default());
        let finding = manuscript.findings().into_iter().find(|finding| finding.code == code);
        let finding = finding.unwrap_or_else(|| panic!("no {code} in\n{text}"));
        let ways = ways_out(&manuscript, &finding).into_iter();
        let decisions = ways.filter_map(|way| match way.leads {
            Leads::ToTheSheet(decision) => Some(decision),
            Leads::Here(_) => None,
        });
        decisions.collect()
    };
    let off = |code: &str| Decision::TurnOff(code.to_owned());
    let unlisted = decided("salt", "Toss the cabbage with the salt and 2 tbsp olive oil.", "ingredient-unlisted");
    assert_eq!(unlisted, [Decision::Exempt("olive oil".into()), off("ingredient-unlisted")]);
    let unknown = decided("2 tbsp dried zorrel", "Shred the cabbage.", "ingredient-unused");
    assert_eq!(unknown, [Decision::Know("zorrel".into()), off("ingredient-unused")]);
    let known = decided("2 tbsp sugar", "Shred the cabbage.", "ingredient-unused");
    assert_eq!(known, [off("ingredient-unused")]);
}

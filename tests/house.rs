//! The house style sheet: what it says takes effect, and what it cannot say is marked where it stands.

use std::sync::Arc;

use tamis::{
    book::{Grade, House, Severity, sheet},
    checks::CHECKS,
    larder::{Allergen, AllergenList, Diet, HOUSE_SOURCE},
    measure::{Cup, FractionStyle, Pint, RangeStyle, Scale, Style, Tablespoon, Unit, UnitStyle},
    recipe::SectionKind,
    workspace::Manuscript,
};
use uom::si::{f64::Volume, mass::gram, volume::milliliter};

fn read(sheet: &str) -> (House, Vec<sheet::StyleFault>) {
    let codes: Vec<&str> = CHECKS.iter().map(|check| check.code).collect();
    sheet::read(sheet, &codes)
}

/// The house style of a sheet without a fault.
fn house(sheet: &str) -> House {
    let (house, faults) = read(sheet);
    assert_eq!(faults, [], "{sheet}");
    house
}

/// Beneath a line stands what is wrong with it: `# ^^^^ message`, the carets beneath the place.
fn marked(sheet: &str) {
    let (_, faults) = read(sheet);
    let mut expected = Vec::new();
    let (mut start, mut line_start) = (0, 0);
    for line in sheet.split_inclusive('\n') {
        let mark = line.strip_prefix('#').filter(|rest| rest.trim_start().starts_with('^'));
        match mark {
            None => line_start = start,
            Some(mark) => {
                let column = 1 + mark.len() - mark.trim_start().len();
                let carets = mark.trim_start().len() - mark.trim_start().trim_start_matches('^').len();
                let message = mark.trim_start().trim_start_matches('^').trim().to_owned();
                expected.push((line_start + column, line_start + column + carets, message));
            }
        }
        start += line.len();
    }
    let found: Vec<_> = faults.into_iter().map(|fault| (fault.span.start, fault.span.end, fault.message)).collect();
    let shown = |faults: &[(usize, usize, String)]| -> Vec<String> {
        faults.iter().map(|(start, end, message)| format!("{start}: {:?} {message}", &sheet[*start..*end])).collect()
    };
    assert_eq!(shown(&found), shown(&expected), "in\n{sheet}");
}

#[test]
fn an_empty_sheet_is_the_style_of_a_us_manuscript() {
    for sheet in ["", "\n# nothing yet\n", "[measures]\n", "\u{feff}[measures]\n"] {
        assert_eq!(house(sheet), House::default());
    }
}

#[test]
fn a_whole_sheet() {
    let house = house(
        r#"
required-sections = ["ingredients", "method", "tests", "make-ahead"]
required-labels = ["serves"]
exempt = ["olive oil", "nettle flour", "spices"]
allergens = "eu"

[style]
fractions = "glyph"
ranges = "en-dash"
units = "long"
spellings = { tablespoon = "Tbsp.", cup = "cup/cups" }
restate-metric = true
actions-in-a-step = 8

[measures]
cup = "metric"
tablespoon = "australian"

[tolerances]
same-kind = { info = 3, error = 30 }
oven.warning = 4

[weights]
"plain flour" = 125          # 250 ml, so 0.5 g/ml
"nettle flour" = 100

[foods."nettle flour"]
also = ["stinging nettle meal"]
kinds = ["flour"]
each = { scoop = 30, large = 12.5 }
parts = ["husks"]
allergens = ["wheat", "gluten"]
not-for = ["gluten-free"]

[foods.aubergine]
also = ["Society eggplant"]

[checks]
ingredient-unused = "warning"
order-of-use = "off"
"#,
    );
    assert_eq!(house.required, [SectionKind::Ingredients, SectionKind::Method, SectionKind::Tests]);
    assert_eq!((house.required_prose.as_slice(), house.labels.as_slice()), (&["Make ahead"][..], &["Serves"][..]));
    let (fractions, ranges, units) = (FractionStyle::Glyph, RangeStyle::Dash, UnitStyle::Long);
    assert_eq!((house.style(), house.actions), (Style { fractions, ranges, units }, Some(8)));
    assert_eq!(house.setting.spellings[&Unit::Tablespoon], ("Tbsp.".to_owned(), "Tbsp.".to_owned()));
    assert_eq!(house.setting.spellings[&Unit::Cup], ("cup".to_owned(), "cups".to_owned()));
    assert_eq!(house.unlisted, ["olive oil", "nettle flour", "spice"]);
    assert_eq!(house.allergens, AllergenList::Eu);
    let measures = house.measures;
    assert_eq!((measures.cup, measures.tablespoon), (Cup::Metric, Tablespoon::Australian));
    assert_eq!((measures.pint, measures.scale), (Pint::Us, Scale::Celsius));
    let kinds = house.tolerances.same_kind;
    assert_eq!((kinds.query, kinds.misleading, kinds.wrong), (Some(0.03), 0.125, 0.30));
    assert_eq!((house.tolerances.degrees.misleading, house.tolerances.degrees.wrong), (4.0, 15.0));
    assert_eq!(house.grade("ingredient-unused"), Some(Grade::As(Severity::Warning)));
    assert_eq!((house.grade("order-of-use"), house.grade("listed-twice")), (Some(Grade::Off), None));

    let larder = house.larder();
    let nettle = larder.food("stinging-nettle meal").unwrap();
    assert_eq!((nettle.name, nettle.kinds.as_slice()), ("nettle flour", &["flour"][..]));
    assert_eq!(nettle.each("scoop").unwrap().typical.get::<gram>(), 30.0);
    assert!(nettle.holds(Allergen::Gluten) && nettle.breaks(Diet::GlutenFree) && nettle.part("husk").is_some());
    let cup = Volume::new::<milliliter>(250.0);
    for (name, grams) in [("all-purpose flour", 125.0), ("nettle flour", 100.0)] {
        let weight = larder.food(name).unwrap().density.unwrap().weight_of(cup);
        assert!((weight.typical.get::<gram>() - grams).abs() < 1e-9 && weight.source == HOUSE_SOURCE, "{name}");
    }
    assert_eq!(larder.food("society eggplants").unwrap().name, "eggplant");
    assert!(larder.food("aubergine").unwrap().density == tamis::larder::larder().food("eggplant").unwrap().density);
}

/// The sheet on the page of `tamis explain house-style` says nothing that is not taken, and names every key there is.
#[test]
fn the_sheet_in_the_manual_can_be_used() {
    let shown = sheet::DOCS.split("```").nth(1).unwrap();
    let house = house(shown);
    assert_eq!((house.measures.cup, house.measures.pint), (Cup::Metric, Pint::Imperial));
    let schema = schemars::schema_for!(sheet::Sheet).to_value();
    let tables = [&schema["properties"], &schema["$defs"]["MeasuresTable"]["properties"]];
    let tables = tables.into_iter().chain(
        ["StyleTable", "TolerancesTable", "StepsTable", "FoodTable"].map(|table| &schema["$defs"][table]["properties"]),
    );
    for key in tables.flat_map(|table| table.as_object().unwrap().keys()) {
        assert!(shown.contains(key.as_str()), "{key}");
    }
}

#[test]
fn the_other_measures_go_with_the_cup() {
    let table = [
        ("us", Cup::UsCustomary, Tablespoon::UsCustomary, Pint::Us),
        ("us-legal", Cup::UsLegal, Tablespoon::Metric, Pint::Us),
        ("metric", Cup::Metric, Tablespoon::Metric, Pint::Us),
        ("imperial", Cup::Imperial, Tablespoon::Imperial, Pint::Imperial),
    ];
    for (word, cup, tablespoon, pint) in table {
        let measures = house(&format!("measures.cup = \"{word}\"")).measures;
        assert_eq!((measures.cup, measures.tablespoon, measures.pint), (cup, tablespoon, pint), "{word}");
    }
}

/// Counted by hand from the laws that the list names; the larder's names for the allergens.
#[test]
fn each_list_of_allergens_has_what_its_law_lists() {
    let table = [
        (AllergenList::Us, 9, "mustard"),
        (AllergenList::Eu, 14, "wheat"),
        (AllergenList::Uk, 14, "wheat"),
        (AllergenList::Ca, 13, "lupin"),
        (AllergenList::Anz, 13, "celery"),
    ];
    for (list, count, not_in_it) in table {
        assert_eq!(list.allergens().len(), count, "{list:?}");
        assert!(!list.holds(Allergen::find(not_in_it).unwrap()), "{list:?}");
    }
}

#[test]
fn a_sheet_that_is_no_toml_is_marked_once_and_what_stands_above_holds() {
    let (house, faults) = read("allergens = \"eu\"\nexempt = [\"salt\" \"sugar\"]\n[measures]\ncup = \"metric\n");
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert!(faults[0].message.starts_with("The style sheet cannot be read here: missing comma"), "{faults:?}");
    assert_eq!(house.allergens, AllergenList::Eu);
    for sheet in
        ["=", "[", "a = ", "\"", "[measures]\ncup = 'us'\ncup = 'us'", "\u{0}", "[[foods]]", "a.b.c = {", "foods = 1"]
    {
        assert!(!read(sheet).1.is_empty(), "{sheet:?}");
    }
}

/// Whatever is typed, something is read, and every mark lies in the text.
#[test]
fn every_beginning_of_a_sheet_can_be_read() {
    let sheet =
        "exempt = [\"salt\"]\n[foods.\"crème\"]\nalso = [\"crêpe 😀\"]\neach.large = 3\n[weights]\n\"é\" = 1e3\n";
    for (end, _) in sheet.char_indices() {
        for fault in read(&sheet[..end]).1 {
            assert!(sheet[..end].get(fault.span.start..fault.span.end).is_some(), "{fault:?} in {end} bytes");
        }
    }
}

#[test]
fn faults_are_marked_where_they_stand_and_say_what_to_do() {
    let cases = [
        r#"
  exempts = ["salt"]
# ^^^^^^^ The style sheet has nothing called `exempts`. Did you mean `exempt`?
  colour = "blue"
# ^^^^^^ The style sheet has nothing called `colour`. It can have required-sections, required-labels, exempt, allergens, measures, style, tolerances, weights, foods and checks.
"#,
        r#"
[measures]
  cups = "us"
# ^^^^ `[measures]` has nothing called `cups`. Did you mean `cup`?
  cup = "us_legal"
#       ^^^^^^^^^^ `cup` cannot be “us_legal”. Did you mean “us-legal”? It can be us, us-legal, metric or imperial.
  pint = 20
#        ^^ `pint` needs one of these words, in quotation marks: us or imperial.
"#,
        r#"
allergens = "france"
#           ^^^^^^^^ `allergens` cannot be “france”. It can be us, eu, uk, ca or anz.
required-sections = "method"
#                   ^^^^^^^^ `required-sections` needs a list in square brackets behind its `=`.
exempt = ["olive oli", "butter", "plutonium"]
#         ^^^^^^^^^^^ There is no food in the larder called “olive oli”. Did you mean “olive oil”?
#                                ^^^^^^^^^^^ There is no food in the larder called “plutonium”. If it is one, tell of it in a table of its own: [foods."plutonium"].
"#,
        r#"
[weights]
  flower = 120
# ^^^^^^ There is no food in the larder called “flower”. Did you mean “flour”?
  sugar = "200 g"
#         ^^^^^^^ `sugar` needs a number behind its `=`.
  butter = -1
#          ^^ A weight is a number of grams, more than 0 and no more than 100,000.
  "all-purpose flour" = 12
#                       ^^ A cup of all-purpose flour usually weighs 112 to 150 g: 12 g is too far from that to be right. Write the grams of one level cup.
"#,
        r#"
[foods."nettle flour"]
kinds = ["flower", "flour"]
#        ^^^^^^^^ There is no kind of food called “flower”. Did you mean “flour”?
allergens = ["weat"]
#            ^^^^^^ “weat” is none that Tamis knows. Did you mean “wheat”?
not-for = ["zebras"]
#          ^^^^^^^^ “zebras” is none that Tamis knows. There are vegan, vegetarian, pescatarian, gluten-free, dairy-free, nut-free, egg-free, halal and kosher.
  each = { bucket = 3, large = 0 }
#          ^^^^^^ Nobody counts by “bucket”. Write a size (small, medium, large, extra-large or jumbo), something to count by (clove, slice, can), or `one`.
#                              ^ A weight is a number of grams, more than 0 and no more than 100,000.
  cup = 100
# ^^^ `[foods.nettle flour]` has nothing called `cup`. It can have also, kinds, each, parts, allergens and not-for.
"#,
        r#"
[foods."plot butter"]
[foods]
  "society spread".also = ["plot butters"]
# ^^^^^^^^^^^^^^^^ “plot butters” means “plot butter” already, further up in this sheet. A name can mean one food only.
"#,
        r#"
[checks]
  ingredient-unsued = "off"
# ^^^^^^^^^^^^^^^^^ There is no check “ingredient-unsued”. Did you mean “ingredient-unused”?
  grease = "off"
# ^^^^^^ There is no check “grease”. `tamis explain` lists them all.
  listed-twice = "loud"
#                ^^^^^^ `listed-twice` cannot be “loud”. It can be off, hint, info, warning or error.
"#,
        r#"
[style]
  fractions = "vulgar"
#             ^^^^^^^^ `fractions` cannot be “vulgar”. It can be slash, glyph or decimal.
  restate-metric = "yes"
#                  ^^^^^ `restate-metric` needs true or false behind its `=`.
  actions-in-a-step = 0
#                     ^ `actions-in-a-step` needs a whole number above 0 behind its `=`.
[style.spellings]
  tablespon = "Tbsp."
# ^^^^^^^^^ There is no unit called “tablespon”. Did you mean “tablespoon”?
  teaspoon = "tbsp"
#            ^^^^^^ Nobody would read “tbsp” as a teaspoon, and neither does Tamis. It reads tsp, teaspoon and teaspoons, with or without a full stop.
"#,
        r#"
[tolerances]
  same-kind.info = 20
# ^^^^^^^^^ These do not rise: info 20, warning 12.5, error 25. None may be below 0 or smaller than the one before; one that is left out keeps its usual figure.
  oven = 10
#        ^^ `oven` needs a table behind its `=`.
"#,
    ];
    for case in cases {
        marked(case);
    }
}

const PESTO: &str = "Recipe: Plot Pesto
Serves: 4

Ingredients:
- 1 cup (100 g) nettle flour
- 3 society greens

Method:

1. Stir the nettle flour and the greens together.

2. Drizzle over 2 tbsp olive oil and chill until set.
";

/// The check and the marked words of each finding.
fn findings(text: &str, sheet: &str) -> Vec<String> {
    let manuscript = Manuscript::new(text, Arc::new(house(sheet)));
    let shown = |finding: tamis::checks::Finding| {
        format!("{} {}: {}", finding.severity.name(), finding.code, finding.span.of(text))
    };
    manuscript.findings().into_iter().map(shown).collect()
}

#[test]
fn the_sheet_takes_effect_in_a_manuscript() {
    let without = ["warning ingredient-unlisted: olive oil"];
    assert_eq!(findings(PESTO, ""), without);
    assert_eq!(findings(PESTO, "exempt = ['olive oil']"), [""; 0]);
    assert_eq!(findings(PESTO, "exempt = ['oils']"), [""; 0]);
    assert_eq!(findings(PESTO, "[checks]\ningredient-unlisted = 'hint'"), ["hint ingredient-unlisted: olive oil"]);
    assert_eq!(findings(PESTO, "[checks]\ningredient-unlisted = 'off'"), [""; 0]);
    // A cup of the house's nettle flour weighs 200 g, so that 100 g restates half a cup.
    let heavy = "exempt = ['oil']\n[foods.'nettle flour']\n[weights]\n'nettle flour' = 210\n";
    let disagrees = findings(PESTO, heavy);
    assert!(disagrees.len() == 1 && disagrees[0].contains("restated-disagrees"), "{disagrees:?}");
    assert_eq!(findings(PESTO, "exempt = ['oil']\n[foods.'nettle flour']\n[weights]\n'nettle flour' = 102\n"), [""; 0]);
    // A step that uses a food of the house, which the list does not have.
    let text = PESTO.replace("- 1 cup (100 g) nettle flour\n", "").replace("the nettle flour", "1 cup plot dust");
    assert_eq!(findings(&text, "exempt = ['oil']"), [""; 0]);
    let known = "exempt = ['oil']\n[foods.'plot dust']\n";
    assert_eq!(findings(&text, known), ["warning ingredient-unlisted: plot dust"]);
}

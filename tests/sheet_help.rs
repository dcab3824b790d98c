//! Help in a style sheet: what could be written at the `|` of a sheet, and what stands there means.

use tamis::workspace::sheet_help::{meaning, words};

/// The sheet without its `|`, and where that was.
fn at(sheet: &str) -> (String, usize) {
    let offset = sheet.find('|').expect("a cursor");
    (sheet.replacen('|', "", 1), offset)
}

fn proposed(sheet: &str) -> Vec<String> {
    let (text, offset) = at(sheet);
    words(&text, offset).into_iter().map(|word| word.text).collect()
}

#[test]
fn what_can_be_written_is_what_the_schema_knows() {
    let table: &[(&str, &[&str])] = &[
        ("[measures]\ncup = |", &["\"us\"", "\"us-legal\"", "\"metric\"", "\"imperial\""]),
        ("[measures]\ncup = \"me|\"", &["us", "us-legal", "metric", "imperial"]),
        ("[measures]\ncup = \"us\"\n|", &["tablespoon = ", "pint = ", "degrees = "]),
        ("measures.cup = '|'", &["us", "us-legal", "metric", "imperial"]),
        ("[style]\nrestate-metric = |", &["true", "false"]),
        ("[tolerances.oven]\nin|", &["info = ", "warning = ", "error = "]),
        ("[tolerances.|", &["same-kind", "volume-to-weight", "oven"]),
        ("[checks]\norder-of-use = |", &["\"off\"", "\"hint\"", "\"info\"", "\"warning\"", "\"error\""]),
        ("allergens = |", &["\"us\"", "\"eu\"", "\"uk\"", "\"ca\"", "\"anz\""]),
        // Nothing is proposed where anybody may write what they like, or in a comment.
        ("exempt = [|", &[]),
        ("[foods]\n|", &[]),
        ("[measures]\ncup = \"us\" # or |", &[]),
        ("# |", &[]),
        ("[nothing]\n|", &[]),
    ];
    for (sheet, expected) in table {
        assert_eq!(proposed(sheet), *expected, "{sheet}");
    }
    let root = proposed("exempt = []\n|");
    assert!(root.contains(&"[measures]\n".to_owned()) && root.contains(&"required-sections = ".to_owned()), "{root:?}");
    assert!(!root.contains(&"exempt = ".to_owned()), "it is there already");
    let sections = proposed("required-sections = [\"tests\", |]");
    assert!(sections.contains(&"\"storage\"".to_owned()), "{sections:?}");
    assert_eq!(proposed("required-sections = [\n  \"tests\",\n  |"), sections);
    let checks = proposed("[checks]\nord|");
    assert!(checks.contains(&"order-of-use = ".to_owned()) && checks.len() > 60, "{}", checks.len());
    let food = proposed("[foods.\"nettle flour\"]\nkinds = ['flour']\n|");
    assert!(food.contains(&"also = ".to_owned()) && !food.contains(&"kinds = ".to_owned()), "{food:?}");
}

#[test]
fn what_is_proposed_says_what_it_means_and_replaces_what_was_typed() {
    let (text, offset) = at("[measures]\ntabl|esp = 3");
    let word = words(&text, offset).into_iter().find(|word| word.label == "tablespoon").unwrap();
    assert_eq!((word.span.of(&text), word.says.as_str()), ("tablesp", "Which tablespoon; the teaspoon goes with it."));
}

#[test]
fn keys_and_words_say_what_they_mean() {
    let table = [
        ("[mea|sures]\n", Some(("measures", "What a measure means that does not say by itself."))),
        (
            "[measures]\ncu|p = \"metric\"",
            Some((
                "cup",
                "Which cup. Where the other measures are left out, they go with it.\n\nIt can be `us`, `us-legal`, `metric`, `imperial`.",
            )),
        ),
        ("[measures]\ncup = \"met|ric\"", Some(("metric", "250 ml: Australia, New Zealand, Canada, South Africa."))),
        ("[checks]\norder-of-use = \"off|\"", Some(("off", "The check does not run."))),
        (
            "[checks]\n|order-of-use = \"off\"",
            Some((
                "order-of-use",
                "A line of the list stands out of the order in which the steps use it.\n\nIt can be `off`, `hint`, `info`, `warning`, `error`.",
            )),
        ),
        ("[foods.quince]\nal|so = []", Some(("also", "Its other names, in the singular."))),
        ("exempts| = []", None),
        ("cup = |", None),
        ("# cup|", None),
        ("", None),
    ];
    for (sheet, expected) in table {
        let (text, offset) = if sheet.is_empty() { (String::new(), 0) } else { at(sheet) };
        let said = meaning(&text, offset);
        let said = said.as_ref().map(|(span, says)| (span.of(&text), says.as_str()));
        assert_eq!(said, expected, "{sheet}");
    }
}

/// Whatever has been written so far, at any place.
#[test]
fn no_sheet_is_too_broken() {
    let sheet = "\u{feff}[foods.\"a.b\"]\r\nalso = ['crème', \"|\n[\n]] = # \u{2028}\n\"\"\"x=\n=[[";
    for offset in (0..=sheet.len()).filter(|offset| sheet.is_char_boundary(*offset)) {
        let _ = (words(sheet, offset), meaning(sheet, offset));
    }
}

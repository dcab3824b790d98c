//! The JSON Schema of the house style sheet, which `tamis schema` prints and which ships in `editors/schema/`, says what the
//! server reads.
//!
//! `TAMIS_WRITE_SCHEMA=1 cargo test -p tamis-tests --test house_schema` writes it anew; read the difference before keeping it.

use std::{collections::BTreeSet, fs, path::Path};

use serde_json::Value;
use tamis::{book::sheet, checks::CHECKS};
use tamis_tests::program::run;

fn schema() -> String {
    let answer = run(Path::new("."), &["schema"], b"");
    assert_eq!((answer.code, answer.err.as_str()), (Some(0), ""));
    answer.out
}

fn parsed() -> Value {
    serde_json::from_str(&schema()).expect("the schema is JSON")
}

fn read(sheet: &str) -> Vec<sheet::StyleFault> {
    let codes: Vec<&str> = CHECKS.iter().map(|check| check.code).collect();
    sheet::read(sheet, &codes).1
}

#[test]
fn the_schema_that_ships_is_current() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../editors/schema/tamis.schema.json");
    if std::env::var_os("TAMIS_WRITE_SCHEMA").is_some() {
        fs::write(&file, schema()).expect("the schema can be written");
    }
    let shipped = fs::read_to_string(&file).unwrap_or_default();
    assert!(shipped == schema(), "editors/schema/tamis.schema.json is stale; see the top of tests/house_schema.rs");
}

/// Validated by a JSON Schema validator of other hands (the crate `jsonschema`), a sheet is good or bad as the server finds it.
#[test]
fn a_validator_and_the_server_agree() {
    let validator = jsonschema::validator_for(&parsed()).expect("the schema is one");
    let shown = sheet::DOCS.split("```").nth(1).expect("the manual shows a sheet");
    let good = [
        "",
        shown,
        "exempt = ['salt']\nallergens = 'anz'\nrequired-sections = ['method', 'make-ahead']",
        "required-labels = ['serves', 'allergens']",
        "[measures]\ncup = 'us-legal'\ntablespoon = 'metric'\npint = 'us'\ndegrees = 'celsius'",
        "[style]\nfractions = 'decimal'\nranges = 'hyphen'\nunits = 'long'\nrestate-metric = false\nactions-in-a-step = 1",
        "[style.spellings]\ntablespoon = 'Tbsp.'",
        "[tolerances]\noven = { warning = 7 }\nsame-kind.info = 2.5",
        "[weights]\nflour = 120\nsugar = 199.5",
        "[foods.'plot dust']\nalso = ['shed dust']\nkinds = ['herb']\neach.scoop = 3\nparts = ['stem']\nallergens = ['wheat']\nnot-for = ['vegan']",
        "[checks]\norder-of-use = 'off'\nquery-open = 'error'",
    ];
    let bad = [
        "exempts = ['salt']",
        "exempt = 'salt'",
        "exempt = [1]",
        "allergens = 'france'",
        "required-sections = ['starters']",
        "required-labels = ['price']",
        "measures = 1",
        "[measures]\ncups = 'us'",
        "[measures]\ncup = 250",
        "[style]\nfractions = 'vulgar'",
        "[style]\nrestate-metric = 'yes'",
        "[style]\nactions-in-a-step = 0",
        "[style]\nactions-in-a-step = 2.5",
        "[style]\nspellings = ['Tbsp.']",
        "[style]\nspelling.tablespoon = 'Tbsp.'",
        "[tolerances]\noven = 7",
        "[tolerances]\noven.alarm = 7",
        "[tolerances]\noven.warning = '7'",
        "[weights]\nflour = '120 g'",
        "[weights]\nflour = 0",
        "[foods.'plot dust']\ncup = 3",
        "[foods.'plot dust']\nallergens = ['weat']",
        "[foods.'plot dust']\nnot-for = ['zebras']",
        "[foods.'plot dust']\neach = 3",
        "[checks]\norder-of-use = 'loud'",
        "[checks]\norder-of-us = 'off'",
        "[checks]\norder-of-use = true",
    ];
    for (sheets, is_good) in [(&good[..], true), (&bad[..], false)] {
        for text in sheets {
            let value: toml::Table = toml::from_str(text).unwrap_or_else(|fault| panic!("{text}: {fault}"));
            let json = serde_json::to_value(value).expect("a sheet can be JSON");
            let found: Vec<String> = validator.iter_errors(&json).map(|fault| fault.to_string()).collect();
            assert_eq!(found.is_empty(), is_good, "{text}\n{found:#?}");
            let faults = read(text);
            assert_eq!(faults.is_empty(), is_good, "{text}\n{faults:#?}");
        }
    }
}

/// The keys of a table of the schema that are not free names.
fn keys(table: &Value) -> BTreeSet<String> {
    table["properties"].as_object().into_iter().flatten().map(|(key, _)| key.clone()).collect()
}

/// What the server says can stand in a table: it lists all keys to whoever writes one that comes near none.
fn known_keys(sheet: &str) -> BTreeSet<String> {
    let faults = read(sheet);
    let message = faults.iter().map(|fault| fault.message.as_str()).find(|message| message.contains(" can have "));
    let listed = message.unwrap_or_else(|| panic!("{sheet}: {faults:?}")).split_once(" can have ").expect("a list").1;
    listed.trim_end_matches('.').replace(" and ", ", ").split(", ").map(str::to_owned).collect()
}

#[test]
fn every_key_that_the_server_knows_is_in_the_schema_and_the_reverse() {
    let schema = parsed();
    let table = |name: &str| &schema["$defs"][name];
    let tables = [
        ("zzz = 1", &schema),
        ("measures.zzz = 1", table("MeasuresTable")),
        ("style.zzz = 1", table("StyleTable")),
        ("tolerances.zzz = 1", table("TolerancesTable")),
        ("tolerances.oven.zzz = 1", table("StepsTable")),
        ("foods.flour.zzz = 1", table("FoodTable")),
    ];
    for (sheet, table) in tables {
        assert_eq!(known_keys(sheet), keys(table), "{sheet}");
    }
    let codes: BTreeSet<String> = CHECKS.iter().map(|check| check.code.to_owned()).collect();
    assert_eq!(keys(&schema["properties"]["checks"]), codes);
}

/// An editor shows what each key means.
#[test]
fn every_key_and_every_choice_has_a_description() {
    fn look(value: &Value, path: &str, bare: &mut Vec<String>) {
        for (key, inner) in value.as_object().into_iter().flatten() {
            let path = format!("{path}/{key}");
            match key.as_str() {
                "properties" => {
                    let described = |entry: &&Value| entry["description"].is_string();
                    let all = inner.as_object().into_iter().flatten();
                    bare.extend(all.filter(|(_, entry)| !described(entry)).map(|(name, _)| format!("{path}/{name}")));
                }
                "oneOf" => {
                    let choices = inner.as_array().into_iter().flatten();
                    bare.extend(choices.filter(|choice| !choice["description"].is_string()).map(|_| path.clone()));
                }
                _ => {}
            }
            look(inner, &path, bare);
        }
    }
    let mut bare = Vec::new();
    look(&parsed(), "", &mut bare);
    assert_eq!(bare, [""; 0]);
}

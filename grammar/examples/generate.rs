//! Makes `src/words.h` from `units.json` and `words.json`, and the parser from `grammar.js`:
//! `cargo run -p tree-sitter-tamis --example generate`.

use std::{collections::BTreeMap, fmt::Write as _, fs, path::Path};

use serde_json::Value;
use tree_sitter_generate::{OptLevel, generate_parser_in_directory};

/// The version of tree-sitter's parse tables that is written.
const ABI: usize = 15;

/// What the scanner asks of a word, in the order of the bits: of what use it is as a unit, and which lists of `words.json` hold it.
/// The labels are together and in the order of the scanner's tokens.
const KINDS: [&str; 19] = [
    "unit",
    "unit_in_lower_case",
    "unit_in_upper_case",
    "unit_of_words",
    "unit_of_sums",
    "unit_of_packs",
    "number",
    "part",
    "hedge",
    "size",
    "noun_of_size",
    "between_amounts",
    "label_recipe",
    "label_header",
    "label_equipment",
    "label_ingredients",
    "label_method",
    "label_tests",
    "label_prose",
];

/// Slots of the table of words; a power of two, about twice as many as there are words.
const SLOTS: usize = 1024;

fn main() {
    let grammar = Path::new(env!("CARGO_MANIFEST_DIR"));
    if let Err(fault) = generate(grammar, &grammar.join("src")) {
        eprintln!("{fault}");
        std::process::exit(1);
    }
}

/// Writes the scanner's words and the parser of the grammar in the folder `grammar` into the folder `out`.
pub fn generate(grammar: &Path, out: &Path) -> Result<(), String> {
    fs::create_dir_all(out).map_err(|fault| format!("{}: {fault}", out.display()))?;
    let words = words_header(&json(&grammar.join("units.json"))?, &json(&grammar.join("words.json"))?)?;
    fs::write(out.join("words.h"), words).map_err(|fault| format!("words.h: {fault}"))?;
    let script = Some("native");
    let mut remarks = Vec::new();
    let made = generate_parser_in_directory(
        grammar,
        Some(out),
        None::<&Path>,
        ABI,
        None,
        script,
        true,
        OptLevel::default(),
        &mut remarks,
    );
    remarks.iter().for_each(|remark| eprintln!("{remark}"));
    made.map_err(|fault| format!("grammar.js: {fault}"))
}

fn json(path: &Path) -> Result<Value, String> {
    let text = fs::read_to_string(path).map_err(|fault| format!("{}: {fault}", path.display()))?;
    serde_json::from_str(&text).map_err(|fault| format!("{}: {fault}", path.display()))
}

/// The table of words as C: every word in the slot of its hash, or in the next free one.
fn words_header(units: &Value, lists: &Value) -> Result<String, String> {
    let mut words = BTreeMap::new();
    add_units(units, &mut words);
    for (kind, list) in lists.as_object().ok_or("words.json is no table of lists")? {
        let bit = KINDS.iter().position(|known| known == kind).ok_or(format!("words.json: {kind} is no kind"))?;
        strings(list).for_each(|word| add(word, bit, &mut words));
    }
    let mut out = String::from(
        "// Made from units.json and words.json by `cargo run -p tree-sitter-tamis --example generate`.\n\n",
    );
    for (bit, kind) in KINDS.iter().enumerate() {
        let _ = writeln!(out, "#define {} {:#x}u", kind.to_uppercase(), 1u32 << bit);
    }
    let longest = words.keys().map(String::len).max().unwrap_or_default();
    let _ = writeln!(out, "\n#define LONGEST_WORD {longest}\n#define SLOTS {SLOTS}u\n");
    out.push_str("static const struct { const char *text; unsigned kinds; } WORDS[SLOTS] = {\n");
    for (slot, (word, bits)) in slots(&words) {
        let kinds: Vec<String> =
            (0..KINDS.len()).filter(|bit| bits & 1 << bit != 0).map(|bit| KINDS[bit].to_uppercase()).collect();
        let _ = writeln!(out, "  [{slot}] = {{\"{word}\", {}}},", kinds.join(" | "));
    }
    out.push_str("};\n");
    Ok(out)
}

/// The words of units that are one word of ASCII letters. What stands before its number, `gas mark`, the scanner knows by itself.
fn add_units(units: &Value, words: &mut BTreeMap<String, u32>) {
    let bit = |kind: &str| KINDS.iter().position(|known| *known == kind).unwrap_or_default();
    for row in units.as_array().into_iter().flatten().filter(|row| row.get("before").is_none()) {
        let kind = row["kind"].as_str().unwrap_or_default();
        let digits_only = row.get("digits").is_some() || kind == "temperature";
        for word in strings(&row["words"]).filter(|word| word.bytes().all(|byte| byte.is_ascii_alphabetic())) {
            add(word, bit("unit"), words);
            if word.len() > 1 && !digits_only {
                add(word, bit("unit_of_words"), words);
            }
            if matches!(kind, "volume" | "weight" | "time" | "length") {
                add(word, bit("unit_of_sums"), words);
            }
            if matches!(kind, "volume" | "weight") {
                add(word, bit("unit_of_packs"), words);
            }
        }
        for word in strings(&row["cased"]) {
            let upper = word.starts_with(|letter: char| letter.is_ascii_uppercase());
            add(&word.to_lowercase(), bit(if upper { "unit_in_upper_case" } else { "unit_in_lower_case" }), words);
        }
    }
}

fn strings(list: &Value) -> impl Iterator<Item = &str> {
    list.as_array().into_iter().flatten().filter_map(Value::as_str)
}

fn add(word: &str, bit: usize, words: &mut BTreeMap<String, u32>) {
    *words.entry(word.to_owned()).or_default() |= 1 << bit;
}

/// Each word in its slot. The hash is the one that `read_word` of the scanner computes.
fn slots(words: &BTreeMap<String, u32>) -> BTreeMap<usize, (&str, u32)> {
    let mut slots = BTreeMap::new();
    for (word, bits) in words {
        let hash = word.bytes().fold(0u32, |hash, byte| hash.wrapping_mul(31).wrapping_add(byte.into()));
        let mut slot = (hash ^ hash >> 10) as usize % SLOTS;
        while slots.contains_key(&slot) {
            slot = (slot + 1) % SLOTS;
        }
        slots.insert(slot, (word.as_str(), *bits));
    }
    slots
}

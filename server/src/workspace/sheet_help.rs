//! Help for whoever writes a style sheet: what could stand at a place, and what a key or a word means. All of it is what the schema
//! says, and the schema is made from the types that read the sheet.

use std::sync::LazyLock;

use serde_json::Value;

use super::schema::schema;
use crate::text::{Span, lines};

static SCHEMA: LazyLock<Value> = LazyLock::new(schema);

/// Something that could be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Word {
    /// The word itself.
    pub label: String,
    /// What is put in.
    pub text: String,
    /// In the place of what.
    pub span: Span,
    /// What it means.
    pub says: String,
    /// Whether it is a key, and no value.
    pub is_key: bool,
}

/// A place in a sheet, as far as it has been written.
#[derive(Debug, PartialEq, Eq)]
struct Place {
    /// The keys that lead to the table or to the value in which it lies.
    path: Vec<String>,
    part: Part,
    /// The word there; empty between words.
    word: Span,
    /// Whether it stands in quotation marks.
    quoted: bool,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    /// The name of a table, in its square brackets.
    Heading,
    /// A key.
    Key,
    /// A value, or an element of one.
    Value,
}

/// What could be written at `offset`.
pub fn words(text: &str, offset: usize) -> Vec<Word> {
    let Some(place) = place(text, offset) else { return Vec::new() };
    let Some(node) = node(&place.path) else { return Vec::new() };
    let word = |label: &str, text: String, says: &'static Value, is_key: bool| Word {
        label: label.to_owned(),
        text,
        span: place.word,
        says: described(says),
        is_key,
    };
    match place.part {
        Part::Value => {
            let quote = if place.quoted { "" } else { "\"" };
            let choices = choices(node).into_iter();
            choices
                .map(|(name, says, bare)| {
                    let text = if bare { name.clone() } else { format!("{quote}{name}{quote}") };
                    word(&name, text, says, false)
                })
                .collect()
        }
        Part::Heading => {
            let tables = properties(node).filter(|(_, says)| is_table(says));
            tables.map(|(name, says)| word(name, name.clone(), says, true)).collect()
        }
        Part::Key => {
            let taken = keys_of(text, &place);
            let free = properties(node).filter(|(name, _)| !taken.contains(name));
            let text = |name: &str, says: &'static Value| match is_table(says) {
                true if place.path.is_empty() => format!("[{name}]\n"),
                true => format!("{name}."),
                false => format!("{name} = "),
            };
            free.map(|(name, says)| word(name, text(name, says), says, true)).collect()
        }
    }
}

/// What the key or the word at `offset` means, and how far it reaches.
pub fn meaning(text: &str, offset: usize) -> Option<(Span, String)> {
    let place = place(text, offset).filter(|place| !place.word.is_empty())?;
    let written = place.word.of(text);
    let node = node(&place.path)?;
    if place.part == Part::Value {
        let (_, says, _) = choices(node).into_iter().find(|(name, ..)| name == written)?;
        return Some((place.word, described(says))).filter(|(_, says)| !says.is_empty());
    }
    let says = child(node, written)?;
    let names: Vec<String> = choices(says).into_iter().map(|(name, ..)| format!("`{name}`")).collect();
    let choice = if names.is_empty() { String::new() } else { format!("\n\nIt can be {}.", names.join(", ")) };
    Some((place.word, format!("{}{choice}", described(says)))).filter(|(_, says)| !says.is_empty())
}

/// The node of the schema that a path leads to.
fn node(path: &[String]) -> Option<&'static Value> {
    path.iter().try_fold(&*SCHEMA, |node, key| child(node, key))
}

fn child(node: &'static Value, key: &str) -> Option<&'static Value> {
    let node = table(node);
    node.get("properties")
        .and_then(|own| own.get(key))
        .or_else(|| node.get("additionalProperties").filter(|any| any.is_object()))
}

fn properties(node: &'static Value) -> impl Iterator<Item = (&'static String, &'static Value)> {
    table(node).get("properties").and_then(Value::as_object).into_iter().flatten()
}

/// What a node refers to; of alternatives the one that is not "nothing".
fn table(node: &'static Value) -> &'static Value {
    let alternatives = node.get("anyOf").and_then(Value::as_array).into_iter().flatten();
    let something = alternatives.into_iter().find(|one| one.get("type").is_none_or(|kind| kind != "null"));
    let node = something.unwrap_or(node);
    let reference = node.get("$ref").and_then(Value::as_str).and_then(|reference| reference.strip_prefix('#'));
    reference.and_then(|path| SCHEMA.pointer(path)).unwrap_or(node)
}

fn is_table(node: &'static Value) -> bool {
    let node = table(node);
    node.get("properties").is_some() || node.get("additionalProperties").is_some_and(Value::is_object)
}

/// The words that a value can be, with what each means, and whether it goes without quotation marks; of a list, its elements.
fn choices(node: &'static Value) -> Vec<(String, &'static Value, bool)> {
    let node = table(node);
    if let Some(items) = node.get("items") {
        return choices(items);
    }
    let named = node.get("oneOf").and_then(Value::as_array).into_iter().flatten();
    let named = named.filter_map(|one| Some((one.get("const")?.as_str()?.to_owned(), one, false)));
    let bare = node.get("enum").and_then(Value::as_array).into_iter().flatten();
    let bare = bare.filter_map(|one| Some((one.as_str()?.to_owned(), &Value::Null, false)));
    let is_boolean = node.get("type").is_some_and(|kind| {
        kind == "boolean" || kind.as_array().is_some_and(|kinds| kinds.iter().any(|kind| kind == "boolean"))
    });
    let boolean =
        ["true", "false"].into_iter().filter(|_| is_boolean).map(|word| (word.to_owned(), &Value::Null, true));
    named.chain(bare).chain(boolean).collect()
}

/// What the schema says of a node, line by line as it is written, else of what it refers to.
fn described(node: &'static Value) -> String {
    let own = node.get("description").or_else(|| table(node).get("description"));
    own.and_then(Value::as_str).unwrap_or_default().replace('\n', " ")
}

/// Where `offset` lies. Nothing in a comment.
fn place(text: &str, offset: usize) -> Option<Place> {
    let (line, above) = line_at(text, offset)?;
    let written = text.get(line.start..offset)?;
    if has_comment(written) {
        return None;
    }
    let word = word_at(text, offset, line);
    let quoted = text.get(..word.start).is_some_and(|before| before.ends_with(['"', '\'']));
    let heading = above.iter().rev().find_map(|line| heading(line.of(text))).unwrap_or_default();
    let start = written.trim_start();
    if start.starts_with('[') && !start.contains(']') {
        let path = keys(text.get(line.start..word.start)?.trim_start().trim_start_matches('['));
        return Some(Place { path, part: Part::Heading, word, quoted });
    }
    let (owner, part) = match key_before_equals(written) {
        Some(key) => (keys(key), Part::Value),
        None => match open_list(text, &above) {
            Some(key) => (keys(key), Part::Value),
            None => (keys(text.get(line.start..word.start)?.trim_start()), Part::Key),
        },
    };
    Some(Place { path: heading.into_iter().chain(owner).collect(), part, word, quoted })
}

/// The line that holds `offset`, without its break, and those above it.
fn line_at(text: &str, offset: usize) -> Option<(Span, Vec<Span>)> {
    let mut above = Vec::new();
    let mut start = 0;
    for line in lines(text) {
        let (content, end) = (line.trim_end_matches(['\n', '\r']), start + line.len());
        let span = Span::new(start, start + content.len());
        if offset <= span.end || offset < end {
            return (span.start <= offset && offset <= span.end).then_some((span, above));
        }
        above.push(span);
        start = end;
    }
    (offset == text.len()).then_some((Span::at(offset), above))
}

/// The name around `offset` in a line.
fn word_at(text: &str, offset: usize, line: Span) -> Span {
    let is_name = |letter: char| letter.is_alphanumeric() || matches!(letter, '-' | '_');
    let before = text.get(line.start..offset).unwrap_or_default();
    let behind = text.get(offset..line.end).unwrap_or_default();
    let start = offset - before.len() + before.trim_end_matches(is_name).len();
    Span::new(start, offset + behind.len() - behind.trim_start_matches(is_name).len())
}

/// The keys of a heading: `[foods."nettle flour"]`.
fn heading(line: &str) -> Option<Vec<String>> {
    let inside = line.trim_start().strip_prefix('[')?;
    Some(keys(inside.get(..inside.rfind(']')?)?.trim_start_matches('[')))
}

/// Keys that dots part, without their quotation marks; what is still being written is left out where nothing stands there yet.
fn keys(text: &str) -> Vec<String> {
    let mut out = vec![String::new()];
    let mut quote = None;
    for letter in text.chars() {
        match (quote, letter) {
            (None, '"' | '\'') => quote = Some(letter),
            (Some(open), _) if letter == open => quote = None,
            (None, '.') => out.push(String::new()),
            (None, _) if letter.is_whitespace() => {}
            _ => out.iter_mut().last().into_iter().for_each(|key| key.push(letter)),
        }
    }
    out.retain(|key| !key.is_empty());
    out
}

/// What stands before the `=` of a line.
fn key_before_equals(line: &str) -> Option<&str> {
    outside_quotes(line).find(|(_, letter)| *letter == '=').and_then(|(at, _)| line.get(..at))
}

/// The key of a list that has been begun in a line above and not ended.
fn open_list<'t>(text: &'t str, above: &[Span]) -> Option<&'t str> {
    let mut depth = 0_i32;
    for line in above.iter().rev().map(|line| line.of(text)) {
        let key = key_before_equals(line);
        let value = line.get(key.map_or(0, str::len)..).unwrap_or_default();
        for (_, letter) in outside_quotes(value) {
            depth += i32::from(letter == '[') - i32::from(letter == ']');
        }
        if key.is_some() {
            return key.filter(|_| depth > 0);
        }
        if heading(line).is_some() {
            return None;
        }
    }
    None
}

fn has_comment(line: &str) -> bool {
    outside_quotes(line).any(|(_, letter)| letter == '#')
}

/// The letters of a line that stand in no quotation marks.
fn outside_quotes(line: &str) -> impl Iterator<Item = (usize, char)> {
    let mut quote = None;
    line.char_indices().filter(move |(_, letter)| {
        match quote {
            Some(open) if *letter == open => quote = None,
            None if matches!(letter, '"' | '\'') => quote = Some(*letter),
            _ => return quote.is_none(),
        }
        false
    })
}

/// The keys that the table of a place has already, but for the one that is being written.
fn keys_of(text: &str, place: &Place) -> Vec<String> {
    let mut out = Vec::new();
    let (mut table, mut start) = (Vec::new(), 0);
    for line in lines(text) {
        let content = line.trim_end_matches(['\n', '\r']).len();
        let here = Span::new(start, start + content).contains(place.word);
        start += line.len();
        if let Some(keys) = heading(line) {
            out.extend(keys.split_last().filter(|(_, owner)| *owner == place.path).map(|(last, _)| last.clone()));
            table = keys;
        } else if table == place.path && !here {
            out.extend(key_before_equals(line).and_then(|key| keys(key).into_iter().next()));
        }
    }
    out
}

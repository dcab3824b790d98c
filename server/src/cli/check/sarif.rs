//! Findings as a log in SARIF 2.1.0, the Static Analysis Results Interchange Format of OASIS: for code scanning and for viewers.

use std::path::Component;

use serde::Serialize;
use serde_json::{Map, Value, json};

use super::lines::place;
use crate::assist::wording::first_sentence;
use crate::book::sheet;
use crate::checks::{CHECKS, Finding, Fix, Severity};
use crate::cli::frame::Frame;
use crate::cli::report::Checked;
use crate::text::{LineEnding, LineIndex, Span};
use crate::workspace::book;
use crate::workspace::walk::Source;

/// Where the schema of the format is.
const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// What stands around the results: a log of one run by one tool, with all its rules.
pub fn frame() -> Frame {
    let driver = json!({
        "name": "Tamis",
        "version": env!("CARGO_PKG_VERSION"),
        "semanticVersion": env!("CARGO_PKG_VERSION"),
        "rules": rules(),
    });
    let head = format!(
        "{{\"$schema\":{},\"version\":\"2.1.0\",\"runs\":[{{\"tool\":{},\"columnKind\":\"unicodeCodePoints\",\"results\":[",
        json!(SCHEMA),
        json!({ "driver": driver })
    );
    Frame { head, tail: "]}]}\n", ..Frame::array() }
}

/// A rule for each check, and one for the style sheet; their help is what the page of the check says before its examples.
fn rules() -> Vec<Value> {
    let rule = |code: &str, docs: &str, level: Severity, on: bool| {
        let help = docs.split("\n## Example").next().unwrap_or(docs).trim_end();
        json!({
            "id": code,
            "shortDescription": { "text": format!("{}.", first_sentence(docs)) },
            "help": { "text": help, "markdown": help },
            "defaultConfiguration": { "enabled": on, "level": self::level(level) },
        })
    };
    let checks = CHECKS.iter().map(|check| rule(check.code, check.docs, check.severity, check.on));
    checks.chain([rule(book::CODE, sheet::DOCS, Severity::Error, true)]).collect()
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "error",
        Severity::Warning => "warning",
        Severity::Info | Severity::Hint => "note",
    }
}

/// The results of one file: elements of the array, a line each, with commas between.
pub fn show(checked: &Checked, source: &Source, text: &str) -> String {
    let page = Page { uri: uri(source), lines: LineIndex::new(text), ending: LineEnding::of(text).unwrap_or_default() };
    let one = |(recipe, finding): &(String, Finding)| {
        // Nothing in it can fail: its keys are strings and its numbers whole.
        serde_json::to_string(&page.result(recipe, finding)).unwrap_or_default()
    };
    checked.findings.iter().map(one).collect::<Vec<_>>().join(",\n")
}

struct Page<'t> {
    uri: String,
    lines: LineIndex<'t>,
    ending: LineEnding,
}

/// Lines and columns from 1; the end is behind the last letter.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: u32,
    start_column: u32,
    end_line: u32,
    end_column: u32,
}

impl Page<'_> {
    fn result(&self, recipe: &str, finding: &Finding) -> Map<String, Value> {
        let mut location = self.location(finding.span, None);
        if let (Some(location), false) = (location.as_object_mut(), recipe.is_empty()) {
            location.insert("logicalLocations".into(), json!([{ "name": recipe }]));
        }
        let mut result = Map::new();
        result.insert("ruleId".into(), json!(finding.code));
        // The style sheet's own is the last of the rules.
        let rule = CHECKS.iter().position(|check| check.code == finding.code).unwrap_or(CHECKS.len());
        result.insert("ruleIndex".into(), json!(rule));
        result.insert("level".into(), json!(level(finding.severity)));
        result.insert("message".into(), json!({ "text": finding.message }));
        result.insert("locations".into(), json!([location]));
        if !finding.related.is_empty() {
            let related = finding.related.iter().map(|(span, words)| self.location(*span, Some(words)));
            result.insert("relatedLocations".into(), related.collect());
        }
        if !finding.fixes.is_empty() {
            result.insert("fixes".into(), finding.fixes.iter().map(|fix| self.fix(fix)).collect());
        }
        result
    }

    fn location(&self, span: Span, words: Option<&str>) -> Value {
        let mut location =
            json!({ "physicalLocation": { "artifactLocation": { "uri": self.uri }, "region": self.region(span) } });
        if let (Some(location), Some(words)) = (location.as_object_mut(), words) {
            location.insert("message".into(), json!({ "text": words }));
        }
        location
    }

    fn fix(&self, fix: &Fix) -> Value {
        let replacements = fix.edits.iter().map(|edit| {
            let text = self.ending.put_into(&edit.text);
            json!({ "deletedRegion": self.region(edit.span), "insertedContent": { "text": text } })
        });
        json!({
            "description": { "text": fix.title },
            "artifactChanges": [{
                "artifactLocation": { "uri": self.uri },
                "replacements": replacements.collect::<Vec<_>>(),
            }],
        })
    }

    fn region(&self, span: Span) -> Region {
        let (start, end) = (place(&self.lines, span.start), place(&self.lines, span.end));
        Region { start_line: start.line, start_column: start.column, end_line: end.line, end_column: end.column }
    }
}

/// A file as a reference to it, from the folder that the program runs in: with slashes, and percent signs for what no URI may hold
/// (RFC 3986).
fn uri(source: &Source) -> String {
    let path = source.path();
    let parts = path.components().filter_map(|part| match part {
        Component::Normal(name) => Some(escaped(&name.to_string_lossy())),
        Component::ParentDir => Some("..".to_owned()),
        Component::Prefix(drive) => Some(escaped(&drive.as_os_str().to_string_lossy())),
        Component::RootDir | Component::CurDir => None,
    });
    let joined = parts.collect::<Vec<_>>().join("/");
    if path.is_absolute() { format!("file:///{joined}") } else { joined }
}

fn escaped(name: &str) -> String {
    let one = |byte: u8| match byte {
        b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' => char::from(byte).to_string(),
        _ => format!("%{byte:02X}"),
    };
    name.bytes().map(one).collect()
}

#[cfg(test)]
mod tests {
    use std::path::PathBuf;

    use super::*;

    #[test]
    fn a_file_is_named_as_a_uri() {
        let uri = |path: &str| uri(&Source::File(PathBuf::from(path)));
        assert_eq!(uri("./jams/plum & crème 100%.tamis"), "jams/plum%20%26%20cr%C3%A8me%20100%25.tamis");
        assert_eq!(uri("../a:b.tamis"), "../a%3Ab.tamis");
        assert_eq!(uri("/book/a.tamis"), "file:///book/a.tamis");
    }
}

//! Findings for another program, in the positions that the Language Server Protocol counts.

use serde::Serialize;

use crate::checks::{Finding, Fix};
use crate::cli::report::Checked;
use crate::text::{Edit, Encoding, LineEnding, LineIndex, Position, Span};

/// The findings of the manuscript `text` at `path`: objects of a JSON array, a line each, with commas between.
pub fn show(checked: &Checked, path: &str, text: &str) -> String {
    let page = Page { lines: LineIndex::new(text), ending: LineEnding::of(text).unwrap_or_default() };
    let one = |(recipe, finding): &(String, Finding)| {
        // Nothing in it can fail: its keys are strings and its numbers whole.
        serde_json::to_string(&page.finding(path, recipe, finding)).unwrap_or_default()
    };
    checked.findings.iter().map(one).collect::<Vec<_>>().join(",\n")
}

#[derive(Serialize)]
struct FindingJson<'a> {
    path: &'a str,
    recipe: &'a str,
    code: &'a str,
    severity: &'static str,
    message: &'a str,
    range: Range,
    fixes: Vec<FixJson<'a>>,
}

#[derive(Serialize)]
struct FixJson<'a> {
    title: &'a str,
    edits: Vec<EditJson>,
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct EditJson {
    range: Range,
    new_text: String,
}

#[derive(Serialize)]
struct Range {
    start: Place,
    end: Place,
}

/// Line and column, both from 0; the column in UTF-16 units.
#[derive(Serialize)]
struct Place {
    line: u32,
    character: u32,
}

struct Page<'t> {
    lines: LineIndex<'t>,
    ending: LineEnding,
}

impl Page<'_> {
    fn finding<'a>(&self, path: &'a str, recipe: &'a str, finding: &'a Finding) -> FindingJson<'a> {
        let fix =
            |fix: &'a Fix| FixJson { title: &fix.title, edits: fix.edits.iter().map(|edit| self.edit(edit)).collect() };
        FindingJson {
            path,
            recipe,
            code: finding.code,
            severity: finding.severity.name(),
            message: &finding.message,
            range: self.range(finding.span),
            fixes: finding.fixes.iter().map(fix).collect(),
        }
    }

    fn edit(&self, edit: &Edit) -> EditJson {
        EditJson { range: self.range(edit.span), new_text: self.ending.put_into(&edit.text).into_owned() }
    }

    fn range(&self, span: Span) -> Range {
        Range { start: self.place(span.start), end: self.place(span.end) }
    }

    fn place(&self, offset: usize) -> Place {
        let Position { line, column } = self.lines.position(offset, Encoding::Utf16);
        Place { line, character: column }
    }
}

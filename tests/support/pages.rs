//! The pages of the checks, read as tests: manuscripts with the expected marks drawn in, and what their fixes give.

use std::fmt::Write as _;

use tamis::{
    checks::{Finding, Severity},
    text::{Encoding, LineIndex, Span},
};

/// The page of one check.
#[derive(Debug, Default)]
pub struct Page {
    /// What its first heading says.
    pub title: String,
    /// Its second-level headings, in order, each once.
    pub headings: Vec<String>,
    /// Manuscripts in which the check finds what is drawn in them.
    pub examples: Vec<Example>,
    /// Manuscripts in which it finds nothing.
    pub silent: Vec<Block>,
    /// What stands under `Source`.
    pub source: String,
}

/// A manuscript on a page.
#[derive(Debug, Clone)]
pub struct Block {
    /// The line of the page on which it starts, from 1.
    pub line: usize,
    /// The manuscript.
    pub text: String,
    /// The house style sheet that it is under: what stands in a `toml` block before it.
    pub sheet: String,
    /// The prose between it and what stands above it.
    pub reason: String,
}

/// A manuscript with marks.
#[derive(Debug)]
pub struct Example {
    /// Without its marks.
    pub block: Block,
    /// The marks.
    pub marks: Vec<Mark>,
    /// What fixes give: the title of the fix, or none for the first one.
    pub after: Vec<(Option<String>, Block)>,
}

/// A finding as drawn: `//   ^^^^ error: words of the message`. At the left margin, where `//` would stand in the way, the
/// carets stand alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Mark {
    /// The line of the manuscript, from 0.
    pub line: usize,
    /// Its first character, from 0.
    pub column: usize,
    /// How many characters it marks on that line.
    pub length: usize,
    /// How bad.
    pub severity: Severity,
    /// Words that the message contains.
    pub words: String,
}

const SEVERITIES: [Severity; 4] = [Severity::Error, Severity::Warning, Severity::Info, Severity::Hint];

impl Page {
    /// Reads a page.
    pub fn read(markdown: &str) -> Page {
        let mut page = Page::default();
        let mut heading = String::new();
        let mut prose = String::new();
        let mut sheet = String::new();
        let mut lines = markdown.lines().enumerate();
        while let Some((number, line)) = lines.next() {
            if let Some(title) = line.strip_prefix("# ") {
                page.title = title.to_owned();
            } else if let Some(title) = line.strip_prefix("## ") {
                heading = title.trim().to_owned();
                prose.clear();
                if !page.headings.contains(&heading) {
                    page.headings.push(heading.clone());
                }
            } else if let "```tamis" | "```toml" = line.trim_end() {
                let inside = lines.by_ref().map(|(_, line)| line).take_while(|line| line.trim_end() != "```");
                let text: String = inside.map(|line| format!("{line}\n")).collect();
                if line.trim_end() == "```toml" {
                    sheet = text;
                    continue;
                }
                let (reason, sheet) = (std::mem::take(&mut prose), std::mem::take(&mut sheet));
                page.block(&heading, Block { line: number + 1, text, sheet, reason });
            } else {
                prose.push_str(line.trim());
                if heading == "Source" {
                    page.source.push_str(line);
                }
            }
        }
        page
    }

    fn block(&mut self, heading: &str, block: Block) {
        if let Some(title) = heading.strip_prefix("After the fix") {
            let title = title.trim().trim_matches('"');
            let example = self.examples.last_mut().expect("`After the fix` stands below an example");
            example.after.push(((!title.is_empty()).then(|| title.to_owned()), block));
        } else if heading == "Stays silent" {
            self.silent.push(block);
        } else if heading == "Example" {
            let (text, marks) = unmarked(&block.text);
            self.examples.push(Example { block: Block { text, ..block }, marks, after: Vec::new() });
        } else {
            panic!("line {}: a manuscript under `{heading}`", block.line);
        }
    }
}

/// A text without the marks drawn in it, and the marks.
pub fn unmarked(drawn: &str) -> (String, Vec<Mark>) {
    let mut text = String::new();
    let mut marks = Vec::new();
    let mut lines = 0usize;
    for line in drawn.lines() {
        match mark(line, lines.saturating_sub(1)) {
            Some(mark) => marks.push(mark),
            None => {
                writeln!(text, "{line}").expect("writing to a string");
                lines += 1;
            }
        }
    }
    (text, marks)
}

fn mark(line: &str, above: usize) -> Option<Mark> {
    let column = line.chars().position(|c| c == '^')?;
    let lead: String = line.chars().take(column).collect();
    let rest = line.get(lead.len()..)?;
    let length = rest.chars().take_while(|c| *c == '^').count();
    let message = rest.get(length..)?.trim_start();
    let severity = SEVERITIES.into_iter().find(|severity| message.starts_with(&format!("{}: ", severity.name())))?;
    let words = message.split_once(": ").map(|(_, words)| words.trim().to_owned())?;
    let carets = lead.strip_prefix("//").unwrap_or(&lead).chars().all(|c| c == ' ');
    carets.then_some(Mark { line: above, column, length, severity, words })
}

/// A finding as it would be drawn. One that marks nothing is drawn as a single caret; one that goes on over lines, on its
/// first line.
pub fn drawn(text: &str, finding: &Finding) -> Mark {
    let lines = LineIndex::new(text);
    let start = lines.position(finding.span.start, Encoding::Utf32);
    let line = lines.line(start.line as usize);
    let length = Span::new(finding.span.start, finding.span.end.min(line.end)).of(text).trim_end().chars().count();
    Mark {
        line: start.line as usize,
        column: start.column as usize,
        length: length.max(1),
        severity: finding.severity,
        words: finding.message.clone(),
    }
}

impl Mark {
    /// Whether this is the finding that was expected.
    pub fn is(&self, expected: &Mark) -> bool {
        let place = |mark: &Mark| (mark.line, mark.column, mark.length, mark.severity);
        place(self) == place(expected) && self.words.contains(&expected.words)
    }

    fn line(&self) -> String {
        let lead = if self.column < 2 { " ".repeat(self.column) } else { format!("//{}", " ".repeat(self.column - 2)) };
        format!("{lead}{} {}: {}", "^".repeat(self.length), self.severity.name(), self.words)
    }
}

/// A text with marks drawn in it, as a page shows it.
pub fn draw(text: &str, marks: &[Mark]) -> String {
    let mut out = String::new();
    for (number, line) in text.lines().enumerate() {
        writeln!(out, "{line}").expect("writing to a string");
        for mark in marks.iter().filter(|mark| mark.line == number) {
            writeln!(out, "{}", mark.line()).expect("writing to a string");
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    const DRAWN: &str = "\
- 1/3 cup (65 g) sugar
//               ^^^^^ error: no step
1. Stir the crème.
^ hint: number
//          ^^^^^ info: cream
// a comment with ^ in it
";

    #[test]
    fn marks_are_read_as_they_are_drawn() {
        let (text, marks) = unmarked(DRAWN);
        assert_eq!(text, "- 1/3 cup (65 g) sugar\n1. Stir the crème.\n// a comment with ^ in it\n");
        let places: Vec<_> = marks.iter().map(|mark| (mark.line, mark.column, mark.length, mark.severity)).collect();
        let (error, hint, info) = (Severity::Error, Severity::Hint, Severity::Info);
        assert_eq!(places, [(0, 17, 5, error), (1, 0, 1, hint), (1, 12, 5, info)]);
        assert_eq!(draw(&text, &marks), DRAWN);
    }
}

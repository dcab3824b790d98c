//! Findings for the eye: the line with the place marked, what is wrong, how it could be mended.

use annotate_snippets::normalize_untrusted_str as harmless;
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};

use crate::checks::{Finding, Severity};
use crate::cli::report::Checked;
use crate::text::{Encoding, LineIndex, Span};

/// A related place further away than this many lines is shown in an excerpt of its own.
const NEAR: usize = 40;

/// The findings of the manuscript `text` at `path`, each followed by an empty line, in colour, on lines of `width` columns.
pub fn show(checked: &Checked, path: &str, text: &str, width: usize) -> String {
    let page = Page { path, text, lines: LineIndex::new(text) };
    let renderer = Renderer::styled().hyperlink(false).term_width(width);
    let show_one = |(_, finding): &(String, Finding)| format!("{}\n\n", renderer.render(&[page.group(finding)]));
    checked.findings.iter().map(show_one).collect()
}

struct Page<'t> {
    path: &'t str,
    text: &'t str,
    lines: LineIndex<'t>,
}

/// A place to underline: the finding's own where there is no label.
struct Mark<'f> {
    line: usize,
    span: Span,
    label: Option<&'f str>,
}

impl Page<'_> {
    fn group<'a>(&'a self, finding: &'a Finding) -> Group<'a> {
        let level = match finding.severity {
            Severity::Error => Level::ERROR,
            Severity::Warning => Level::WARNING,
            Severity::Info => Level::INFO,
            Severity::Hint => Level::NOTE.with_name("hint"),
        };
        let title = level.primary_title(&finding.message).id(finding.code);
        let helps = finding.fixes.iter().map(|fix| Level::HELP.message(harmless(&fix.title)));
        Group::with_title(title).elements(self.excerpts(finding)).elements(helps)
    }

    /// The lines that `finding` is about: its own with all related places nearby, then the others one by one.
    fn excerpts<'a>(&'a self, finding: &'a Finding) -> Vec<Snippet<'a, Annotation<'a>>> {
        let own = self.mark(finding.span, None);
        let related = finding.related.iter().map(|(span, label)| self.mark(*span, Some(label)));
        let (near, far): (Vec<Mark>, Vec<Mark>) = related.partition(|mark| mark.line.abs_diff(own.line) <= NEAR);
        let first = self.excerpt(&[own].into_iter().chain(near).collect::<Vec<_>>());
        let others = far.iter().map(|mark| self.excerpt(std::slice::from_ref(mark)));
        std::iter::once(first).chain(others).collect()
    }

    fn mark<'f>(&self, span: Span, label: Option<&'f str>) -> Mark<'f> {
        Mark { line: self.lines.line_of(span.start.min(self.text.len())), span, label }
    }

    /// From the first line with a mark to the last; the renderer folds what lies between. Every line break becomes `\n`,
    /// the only one that the renderer is sure to know.
    fn excerpt<'a>(&'a self, marks: &[Mark<'a>]) -> Snippet<'a, Annotation<'a>> {
        let first = marks.iter().map(|mark| mark.line).min().unwrap_or_default();
        let last = marks.iter().map(|mark| mark.line).max().unwrap_or_default();
        let mut source = String::new();
        let mut annotations = Vec::new();
        for line in first..=last {
            let content = self.lines.line(line);
            let marks_here = marks.iter().filter(|mark| mark.line == line);
            annotations.extend(marks_here.map(|mark| self.annotation(mark, content, source.len())));
            source.push_str(content.of(self.text));
            source.push('\n');
        }
        Snippet::source(source).path(self.path).line_start(first + 1).annotations(annotations)
    }

    /// `mark` in an excerpt whose line `content` begins at `base`. A mark of several lines is drawn on its first.
    fn annotation<'a>(&self, mark: &Mark<'a>, content: Span, base: usize) -> Annotation<'a> {
        let within = |offset: usize| {
            let place = self.lines.position(offset.clamp(content.start, content.end), Encoding::Utf8);
            base + place.column as usize
        };
        let kind = if mark.label.is_none() { AnnotationKind::Primary } else { AnnotationKind::Context };
        kind.span(within(mark.span.start)..within(mark.span.end)).label(mark.label)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{Certainty, Fix};
    use anstream::adapter::strip_str;

    const SHORTBREAD: &str = "Recipe: Society Shortbread

Ingredients:
- 1 cup (225 g) butter
- 1/2 cup (100 g) sugar
- 1 pinch salt, which the society's oldest member measures between her second finger and the thumb, never the first

Method:

1. Cream the butter and [the rest of the sugar] 😀 together. Bake.
";

    /// The finding about the first `marked` in `text`, shown without colour.
    fn shown(text: &str, marked: &str, related: &[(&str, &str)], width: usize) -> String {
        let place = |words: &str| {
            let start = text.find(words).unwrap();
            Span::new(start, start + words.len())
        };
        let finding = Finding {
            code: "rest-of-nothing",
            severity: Severity::Error,
            certainty: Certainty::Sure,
            span: place(marked),
            message: "no sugar has been taken before, so there is no rest of it".into(),
            related: related.iter().map(|(words, label)| (place(words), label.to_string())).collect(),
            fixes: vec![Fix::new("use all of the sugar", vec![])],
        };
        let checked = Checked { recipes: 1, findings: vec![("Society Shortbread".into(), finding)] };
        strip_str(&show(&checked, "shortbread.tamis", text, width)).to_string()
    }

    #[test]
    fn a_finding_shows_its_line_its_related_lines_and_the_help() {
        let seen = shown(SHORTBREAD, "[the rest of the sugar]", &[("sugar", "the list has all of it")], 100);
        let expected = "\
error[rest-of-nothing]: no sugar has been taken before, so there is no rest of it
  --> shortbread.tamis:10:25
   |
 5 | - 1/2 cup (100 g) sugar
   |                   ----- the list has all of it
...
10 | 1. Cream the butter and [the rest of the sugar] 😀 together. Bake.
   |                         ^^^^^^^^^^^^^^^^^^^^^^^
   |
   = help: use all of the sugar

";
        assert_eq!(seen, expected);
    }

    #[test]
    fn a_long_line_is_cut_to_the_width() {
        let seen = shown(SHORTBREAD, "second finger", &[], 60);
        assert!(seen.contains("6 | ...sures between her second finger and the thumb, nev...\n"), "{seen}");
        assert!(seen.contains("  |                      ^^^^^^^^^^^^^\n"), "{seen}");
    }

    #[test]
    fn a_far_related_place_has_an_excerpt_of_its_own() {
        let book = format!("{SHORTBREAD}{}Storage: Keeps in a tin.\n", "\n".repeat(2 * NEAR));
        let seen = shown(&book, "tin", &[("butter", "as said there")], 80);
        assert!(seen.contains("91 | Storage: Keeps in a tin.\n"), "{seen}");
        assert!(seen.contains(" 4 | - 1 cup (225 g) butter\n   |                 ------ as said there\n"), "{seen}");
    }

    #[test]
    fn any_span_of_any_text_can_be_shown() {
        let long = "crème 😀 ".repeat(12);
        for text in ["", "\n", "\r\n", "a\r\n\tb\r", "\u{FEFF}é😀\u{301}", "x\ry", "\u{202E}salt\u{1b}[1m", &long] {
            for start in 0..text.len() + 2 {
                for end in (start..text.len() + 2).step_by(1 + text.len() / 16) {
                    let span = Span::new(start, end);
                    let finding = Finding {
                        code: "stet-unused",
                        severity: Severity::Hint,
                        certainty: Certainty::Sure,
                        span,
                        message: "\u{1b}[2J".into(),
                        related: vec![(Span::new(start / 2, end), "here".into())],
                        fixes: vec![],
                    };
                    let seen = show(&Checked { recipes: 1, findings: vec![(String::new(), finding)] }, "a", text, 40);
                    assert!(strip_str(&seen).to_string().contains("hint[stet-unused]: ␛[2J"), "{seen}");
                }
            }
        }
    }
}

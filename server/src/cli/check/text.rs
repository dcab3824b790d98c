//! Findings for the eye: the line with the place marked, what is wrong, how it could be mended.

use std::ops::Range;

use annotate_snippets::normalize_untrusted_str as harmless;
use annotate_snippets::renderer::{
    DEFAULT_EMPHASIS_STYLE, DEFAULT_ERROR_STYLE, DEFAULT_INFO_STYLE, DEFAULT_LINE_NUM_STYLE, DEFAULT_NOTE_STYLE,
    DEFAULT_WARNING_STYLE, Style,
};
use annotate_snippets::{Annotation, AnnotationKind, Group, Level, Renderer, Snippet};

use super::cut::{ELLIPSIS, cut};
use crate::checks::{Finding, Severity};
use crate::cli::console::Paper;
use crate::cli::report::Checked;
use crate::cli::wrap::columns;
use crate::text::{Encoding, LineIndex, Span};

/// A related place further away than this many lines is told and not shown.
const NEAR: usize = 40;

/// How many columns go to the number of a line, the rule beside it, and the marks of what is left out.
const GUTTER: usize = 10;

/// Lines are cut here; the renderer, which cuts all lines of an excerpt at one column, is to leave them alone.
const UNCUT: usize = 1 << 16;

/// The findings of the manuscript `text` at `path`, each followed by an empty line.
pub fn show(checked: &Checked, path: &str, text: &str, paper: Paper) -> String {
    let renderer = if paper.colours { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.hyperlink(false).term_width(UNCUT);
    let page = Page { path, text, lines: LineIndex::new(text), paper, renderer };
    checked.findings.iter().map(|(_, finding)| page.show(finding)).collect()
}

struct Page<'t> {
    path: &'t str,
    text: &'t str,
    lines: LineIndex<'t>,
    paper: Paper,
    renderer: Renderer,
}

/// A place to underline: the finding's own where there is no label.
struct Mark<'f> {
    line: usize,
    /// In bytes of its line; what is marked of further lines is not drawn.
    place: Range<usize>,
    label: Option<&'f str>,
}

impl Page<'_> {
    /// Title and place are set apart from the excerpts: the renderer takes the columns of a place from the lines that it is
    /// given, and these may have been cut; and a title it would set letter by letter, which takes it as long as the excerpt.
    fn show(&self, finding: &Finding) -> String {
        let own = self.mark(finding.span, None);
        let related = finding.related.iter().map(|(span, label)| self.mark(*span, Some(label)));
        let (near, far): (Vec<Mark>, Vec<Mark>) = related.partition(|mark| mark.line.abs_diff(own.line) <= NEAR);
        let place = self.place(&own);
        let marks: Vec<Mark> = std::iter::once(own).chain(near).collect();
        let notes = far.iter().map(|mark| {
            let label = mark.label.unwrap_or_default();
            Level::NOTE.message(harmless(&format!("line {}: {label}", mark.line + 1)))
        });
        let helps = finding.fixes.iter().map(|fix| Level::HELP.message(harmless(&fix.title)));
        let excerpt =
            Group::with_level(level_of(finding.severity)).element(self.excerpt(&marks)).elements(notes).elements(helps);
        let digits = marks.iter().map(|mark| (mark.line + 1).to_string().len()).max().unwrap_or_default();
        let arrow = format!("{:digits$}-->", "");
        let excerpt = self.renderer.render(&[excerpt]);
        let rule = self.style(DEFAULT_LINE_NUM_STYLE);
        format!("{}\n{rule}{arrow}{rule:#} {place}\n{excerpt}\n\n", self.title(finding))
    }

    /// What is wrong, and the code of the check that says so.
    fn title(&self, finding: &Finding) -> String {
        let (name, style) = match finding.severity {
            Severity::Error => ("error", DEFAULT_ERROR_STYLE),
            Severity::Warning => ("warning", DEFAULT_WARNING_STYLE),
            Severity::Info => ("info", DEFAULT_INFO_STYLE),
            Severity::Hint => ("hint", DEFAULT_NOTE_STYLE),
        };
        let (code, message) = (finding.code, harmless(&finding.message));
        let (style, said) = (self.style(style), self.style(DEFAULT_EMPHASIS_STYLE));
        format!("{style}{name}[{code}]{style:#}{said}: {message}{said:#}")
    }

    fn style(&self, style: Style) -> Style {
        if self.paper.colours { style } else { Style::new() }
    }

    fn mark<'a>(&self, span: Span, label: Option<&'a str>) -> Mark<'a> {
        let line = self.lines.line_of(span.start.min(self.text.len()));
        let content = self.lines.line(line);
        let column = |offset: usize| {
            let place = self.lines.position(offset.clamp(content.start, content.end), Encoding::Utf8);
            place.column as usize
        };
        Mark { line, place: column(span.start)..column(span.end), label }
    }

    /// Path, line and column, from 1; columns are letters.
    fn place(&self, mark: &Mark<'_>) -> String {
        let before = self.lines.line(mark.line).of(self.text).get(..mark.place.start).unwrap_or_default();
        format!("{}:{}:{}", harmless(self.path), mark.line + 1, Encoding::Utf32.width(before) + 1)
    }

    /// From the first line with a mark to the last; the renderer folds what lies between. Every line break becomes `\n`,
    /// the only one that the renderer is sure to know.
    fn excerpt<'a>(&self, marks: &[Mark<'a>]) -> Snippet<'a, Annotation<'a>> {
        let first = marks.iter().map(|mark| mark.line).min().unwrap_or_default();
        let last = marks.iter().map(|mark| mark.line).max().unwrap_or_default();
        let mut source = String::new();
        let mut annotations = Vec::new();
        for line in first..=last {
            let here: Vec<&Mark> = marks.iter().filter(|mark| mark.line == line).collect();
            let content = self.lines.line(line).of(self.text);
            let kept = self.kept(content, &here);
            let start = source.len() + if kept.start > 0 { ELLIPSIS.len() } else { 0 };
            annotations.extend(here.iter().map(|mark| {
                let within = |offset: usize| start + offset.clamp(kept.start, kept.end) - kept.start;
                let kind = if mark.label.is_none() { AnnotationKind::Primary } else { AnnotationKind::Context };
                kind.span(within(mark.place.start)..within(mark.place.end)).label(mark.label)
            }));
            let left_out = |is_so: bool| if is_so { ELLIPSIS } else { "" };
            source.push_str(left_out(kept.start > 0));
            source.push_str(content.get(kept.clone()).unwrap_or_default());
            source.push_str(left_out(kept.end < content.len()));
            source.push('\n');
        }
        Snippet::source(source).line_start(first + 1).annotations(annotations)
    }

    /// The part of a line that is shown with its marks.
    fn kept(&self, line: &str, marks: &[&Mark<'_>]) -> Range<usize> {
        let start = marks.iter().map(|mark| mark.place.start).min().unwrap_or_default();
        let end = marks.iter().map(|mark| mark.place.end).max().unwrap_or_default();
        let label = marks.iter().map(|mark| mark.label.map_or(0, |label| columns(label) + 1)).max().unwrap_or_default();
        cut(line, start..end, label, self.paper.width.saturating_sub(GUTTER).max(GUTTER))
    }
}

fn level_of(severity: Severity) -> Level<'static> {
    match severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Info => Level::INFO,
        Severity::Hint => Level::NOTE,
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
        let checked =
            Checked { recipes: 1, findings: vec![("Society Shortbread".into(), finding)], ..Checked::default() };
        in_both(&checked, text, width)
    }

    /// The same without colours, however that comes about.
    fn in_both(checked: &Checked, text: &str, width: usize) -> String {
        let [coloured, plain] =
            [true, false].map(|colours| show(checked, "shortbread.tamis", text, Paper { width, colours }));
        assert_ne!(coloured, plain);
        assert_eq!(strip_str(&coloured).to_string(), plain);
        plain
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
    fn a_long_line_is_cut_to_the_width_and_only_that_line() {
        let seen = shown(SHORTBREAD, "second finger", &[("butter", "see here")], 60);
        let expected = "\
 --> shortbread.tamis:6:72
  |
4 | - 1 cup (225 g) butter
  |                 ------ see here
5 | - 1/2 cup (100 g) sugar
6 | …measures between her second finger and the thumb,…
  |                       ^^^^^^^^^^^^^
  |
";
        assert!(seen.contains(expected), "{seen}");
    }

    #[test]
    fn a_far_related_place_is_told() {
        let book = format!("{SHORTBREAD}{}Storage: Keeps in a tin.\n", "\n".repeat(2 * NEAR));
        let seen = shown(&book, "tin", &[("butter", "as said there")], 80);
        let expected = "\
  --> shortbread.tamis:91:21
   |
91 | Storage: Keeps in a tin.
   |                     ^^^
   |
   = note: line 4: as said there
   = help: use all of the sugar
";
        assert!(seen.contains(expected), "{seen}");
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
                    let checked =
                        Checked { recipes: 1, findings: vec![(String::new(), finding)], ..Checked::default() };
                    let seen = in_both(&checked, text, 40);
                    assert!(seen.contains("hint[stet-unused]: ␛[2J"), "{seen}");
                }
            }
        }
    }
}

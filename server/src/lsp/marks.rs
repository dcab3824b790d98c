//! The diagnostics of a document as the client is to read them: one list in JSON, of which an edit changes what it has to. Those of a recipe
//! are put into the protocol's words once, counted from its first line; where that line moves, only the numbers are written anew.

use std::fmt::Write;
use std::sync::Arc;

use rustc_hash::FxHashMap;

use super::capabilities::Editor;
use super::convert::Converter;
use super::documents::{Finding, Opened};

/// What has been put into words of one document, in the order of the text.
#[derive(Debug, Default)]
pub struct Worded {
    stretches: Vec<Stretch>,
    list: Marks,
}

/// The findings of one recipe, or of a whole style sheet.
#[derive(Debug)]
struct Stretch {
    /// Kept, so that no others can have their address.
    findings: Arc<[Finding]>,
    first_line: u32,
    words: Words,
    /// How many bytes of the list are about it.
    length: usize,
}

/// Some diagnostics as JSON, each behind a comma.
#[derive(Debug, Default)]
struct Words {
    /// Without the numbers of the lines.
    json: String,
    /// Where a number is missing, and the line, counted from the first of the stretch.
    lines: Vec<(usize, u32)>,
}

/// All diagnostics of a document.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Marks {
    /// In JSON, each behind a comma. Who keeps these has the next edit of them make a copy.
    list: Arc<String>,
}

/// Some findings, with the offset and the line that their recipe starts at.
type Found<'f> = (usize, u32, &'f Arc<[Finding]>);

impl Marks {
    /// What is wrong with a document.
    pub fn of(document: &Opened, editor: &Editor) -> Marks {
        let mut worded = document.worded();
        if let Some(manuscript) = document.manuscript() {
            let found = manuscript.findings_by_line().filter(|(.., findings)| !findings.is_empty());
            let found = found.map(|(line, start, findings)| (start, u32::try_from(line).unwrap_or(u32::MAX), findings));
            worded.follow(document, editor, &found.collect::<Vec<_>>());
        } else {
            worded.follow(document, editor, &[(0, 0, &document.findings().into())]);
        }
        worded.list.clone()
    }

    /// Whether nothing is wrong.
    pub fn is_empty(&self) -> bool {
        self.list.is_empty()
    }

    /// In JSON, without the brackets of the list.
    pub fn json(&self) -> &str {
        self.list.get(1..).unwrap_or_default()
    }

    /// Puts some diagnostics in the place of so many bytes from `start`.
    fn replace(&mut self, start: usize, length: usize, json: &str) {
        let end = start + length;
        if self.list.get(start..end) == Some(json) {
            return;
        }
        let list = Arc::make_mut(&mut self.list);
        if end == list.len() {
            // `replace_range` goes byte by byte, and here it may be all of a long list.
            list.truncate(start);
            list.push_str(json);
        } else {
            list.replace_range(start..end, json);
        }
    }
}

impl Worded {
    /// Puts what is found now in the place of what was found before. What stays at both ends is left as it is.
    fn follow(&mut self, document: &Opened, editor: &Editor, found: &[Found<'_>]) {
        let stays = |(stretch, (_, line, findings)): &(&Stretch, &Found<'_>)| {
            stretch.first_line == *line && Arc::ptr_eq(&stretch.findings, findings)
        };
        let above = self.stretches.iter().zip(found).take_while(stays).count();
        let (before, now) = (self.stretches.get(above..), found.get(above..));
        let (before, now) = (before.unwrap_or_default(), now.unwrap_or_default());
        let below = before.iter().rev().zip(now.iter().rev()).take_while(stays).count();
        let now = now.get(..now.len() - below).unwrap_or_default();
        let gone = above..above + before.len() - below;
        if gone.is_empty() && now.is_empty() {
            return;
        }
        let start = self.stretches.iter().take(above).map(|stretch| stretch.length).sum();
        let gone: Vec<Stretch> = self.stretches.drain(gone).collect();
        let length = gone.iter().map(|stretch| stretch.length).sum();
        let mut known: FxHashMap<usize, Stretch> =
            gone.into_iter().map(|stretch| (Arc::as_ptr(&stretch.findings).addr(), stretch)).collect();
        let mut json = String::new();
        let fresh: Vec<Stretch> = now
            .iter()
            .map(|(start, first_line, findings)| {
                let known = known.remove(&Arc::as_ptr(findings).addr()).map(|stretch| stretch.words);
                let words = known.unwrap_or_else(|| Words::new(document, editor, (*start, *first_line), findings));
                let before = json.len();
                words.write(*first_line, &mut json);
                Stretch { findings: Arc::clone(findings), first_line: *first_line, words, length: json.len() - before }
            })
            .collect();
        self.stretches.splice(above..above, fresh);
        self.list.replace(start, length, &json);
    }
}

impl Words {
    /// The findings of the recipe that starts at an offset, in a line.
    fn new(document: &Opened, editor: &Editor, (start, first_line): (usize, u32), findings: &[Finding]) -> Self {
        let converter = Converter::new(document, editor);
        let mut words = Words::default();
        for finding in findings {
            // A diagnostic is plain data, which can always be written.
            if let Ok(json) = serde_json::to_string(&converter.diagnostic(&finding.clone().shifted(start))) {
                words.json.push(',');
                words.add(&json, first_line);
            }
        }
        words
    }

    /// Takes the numbers of the lines out of a diagnostic and keeps both.
    fn add(&mut self, json: &str, first_line: u32) {
        // A quotation mark within a text is written otherwise, so this stands nowhere else.
        const LINE: &str = "\"line\":";
        let mut rest = json;
        while let Some((before, behind)) = rest.split_once(LINE) {
            let after = behind.trim_start_matches(|letter: char| letter.is_ascii_digit());
            let line: Option<u32> = behind.strip_suffix(after).and_then(|line| line.parse().ok());
            self.json.extend([before, LINE]);
            self.lines.push((self.json.len(), line.unwrap_or_default().saturating_sub(first_line)));
            rest = after;
        }
        self.json.push_str(rest);
    }

    /// Adds them to a list, for a stretch that begins in this line.
    fn write(&self, first_line: u32, list: &mut String) {
        let mut from = 0;
        for (at, line) in &self.lines {
            list.push_str(self.json.get(from..*at).unwrap_or_default());
            // A string takes everything.
            let _ = write!(list, "{}", line.saturating_add(first_line));
            from = *at;
        }
        list.push_str(self.json.get(from..).unwrap_or_default());
    }
}

#[cfg(test)]
mod tests {
    use tower_lsp::lsp_types::Url;

    use super::*;
    use crate::{
        book::Book,
        text::{Edit, Span},
    };

    const TART: &str = "\
Recipe: 🥧 Tart
Serves: 6

Ingredients:
- 1/2 cup (100 g) sugar
- 1 sheet puff pastry

Method:

1. Bake the puff pastry pastry.

";

    fn opened(text: &str) -> Opened {
        Opened::new(Url::parse("untitled:Tarts").unwrap(), 1, text, Book::default())
    }

    /// A number below another, from a row that is always the same (Knuth's constants).
    fn below(state: &mut u64, end: usize) -> usize {
        *state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (*state >> 33) as usize % end
    }

    #[test]
    fn what_is_kept_is_what_a_fresh_look_writes() {
        let editor = Editor { related_information: true, ..Editor::default() };
        let mut text: String = (1..=9).map(|number| TART.replace("Tart", &format!("Tart {number}"))).collect();
        let (mut document, mut dice) = (opened(&text), 20_261_126);
        // As long as somebody keeps an older list, it stays what it was.
        let first = Marks::of(&document, &editor);
        let written = first.json().to_owned();
        for round in 0..150 {
            let mut from = below(&mut dice, text.len() + 1);
            let mut to = (from + [0, 0, 1, 250][below(&mut dice, 4)]).min(text.len());
            while !text.is_char_boundary(from) {
                from -= 1;
            }
            while !text.is_char_boundary(to) {
                to += 1;
            }
            let put = ["x", "\n", "", "\n\nRecipe: Flan\n", TART, " “\"line\":7” "][below(&mut dice, 6)];
            document.apply(&Edit::replace(Span::new(from, to), put));
            document.catch_up();
            text.replace_range(from..to, put);
            let (kept, fresh) = (Marks::of(&document, &editor), opened(&text));
            assert_eq!(kept, Marks::of(&fresh, &editor), "round {round}:\n{text}");
            let read: Vec<serde_json::Value> = serde_json::from_str(&format!("[{}]", kept.json())).unwrap();
            assert_eq!(read.len(), fresh.findings().len());
        }
        assert_eq!(first.json(), written);
    }
}

//! What is said of a place under the pointer: manuscripts with a caret under each place, and the Markdown beside it.
//!
//! `tests/hover/*.tamis` are manuscripts with marks drawn in below the lines they speak of:
//!
//! ```text
//! - 1 cup milk
//! //^^^^^ **240 ml** · 245 g · 8 3/4 oz
//! //      whole milk: 244 g a cup (USDA SR26 01077)
//! ```
//!
//! The carets cover what the answer speaks of, as far as it stands on that line; each line behind them is a paragraph. A mark
//! without text says that nothing is known. `UPDATE=1 cargo test -p tamis-tests --test hover` writes down what is said now; read
//! the difference before keeping it.

use std::{fs, path::PathBuf, sync::Arc};

use serde_json::json;
use tamis::{
    assist,
    text::{Document, Encoding, Span},
    workspace::Manuscript,
};
use tamis_tests::editor::Editor;

/// A place that is pointed at, and what is to be said of it.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Mark {
    /// The line of the manuscript, from 0.
    line: usize,
    /// The first character, from 0, and how many.
    column: usize,
    length: usize,
    paragraphs: Vec<String>,
}

/// A manuscript and its marks.
struct Fixture {
    text: String,
    marks: Vec<Mark>,
}

impl Fixture {
    fn read(source: &str) -> Fixture {
        let mut fixture = Fixture { text: String::new(), marks: Vec::new() };
        let mut line = 0;
        for drawn in source.lines() {
            match marked(drawn) {
                Some((column, length, text)) => {
                    let paragraphs = Some(text.to_owned()).filter(|text| !text.is_empty()).into_iter().collect();
                    fixture.marks.push(Mark { line: line - 1, column, length, paragraphs });
                }
                None if goes_on(drawn) && !fixture.marks.is_empty() => {
                    let mark = fixture.marks.last_mut().expect("a mark above");
                    mark.paragraphs.push(drawn.trim_start_matches('/').trim().to_owned());
                }
                None => {
                    fixture.text.push_str(drawn);
                    fixture.text.push('\n');
                    line += 1;
                }
            }
        }
        fixture
    }

    fn draw(&self, marks: &[Mark]) -> String {
        let mut out = String::new();
        for (number, line) in self.text.lines().enumerate() {
            out.push_str(line);
            out.push('\n');
            for mark in marks.iter().filter(|mark| mark.line == number) {
                // At the left margin the slashes would stand in the way.
                let lead = if mark.column >= 2 { "//" } else { "" };
                let indent = " ".repeat(mark.column - lead.len());
                let carets = "^".repeat(mark.length);
                let mut paragraphs = mark.paragraphs.iter();
                let first = paragraphs.next().map(|text| format!(" {text}")).unwrap_or_default();
                out.push_str(&format!("{lead}{indent}{carets}{first}\n"));
                let below = " ".repeat(mark.column.max(2) - 2 + mark.length);
                paragraphs.for_each(|text| out.push_str(&format!("//{below} {text}\n")));
            }
        }
        out
    }

    /// The offset of the first character of a mark.
    fn offset(&self, mark: &Mark) -> usize {
        let above: usize = self.text.split_inclusive('\n').take(mark.line).map(str::len).sum();
        let line = self.text[above..].lines().next().unwrap_or_default();
        above + line.char_indices().nth(mark.column).map_or(line.len(), |(at, _)| at)
    }
}

/// Column, length and text of a line that draws a mark.
fn marked(line: &str) -> Option<(usize, usize, &str)> {
    let rest = line.strip_prefix("//").unwrap_or(line);
    let at = rest.find('^').filter(|at| rest[..*at].trim().is_empty())?;
    let length = rest[at..].chars().take_while(|c| *c == '^').count();
    Some((line.len() - rest.len() + at, length, rest[at + length..].trim()))
}

/// A line below a mark: a comment that starts further in than a comment of the manuscript does.
fn goes_on(line: &str) -> bool {
    line.strip_prefix("//  ").is_some_and(|rest| !rest.trim().is_empty())
}

/// What is said at the first character of a mark.
fn said(text: &str, offset: usize) -> Option<(Span, String)> {
    let manuscript = Manuscript::new(text, Arc::default());
    let (start, recipe) = manuscript.recipe_at(offset)?;
    let hover = assist::hover(recipe, manuscript.house(), offset - start)?;
    Some((hover.span.shifted(start), hover.markdown))
}

/// The mark as it should be drawn.
fn now(fixture: &Fixture, mark: &Mark) -> Mark {
    let offset = fixture.offset(mark);
    let Some((span, markdown)) = said(&fixture.text, offset) else {
        return Mark { paragraphs: Vec::new(), ..mark.clone() };
    };
    let line_start = fixture.text[..span.start].rfind('\n').map_or(0, |at| at + 1);
    let line = fixture.text[..line_start].matches('\n').count();
    let on_line = span.of(&fixture.text).lines().next().unwrap_or_default();
    Mark {
        line,
        column: fixture.text[line_start..span.start].chars().count(),
        length: on_line.chars().count(),
        paragraphs: markdown.split("\n\n").map(str::to_owned).collect(),
    }
}

fn fixtures() -> Vec<(PathBuf, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("hover");
    let entries = fs::read_dir(folder).expect("the fixtures can be read").map(|entry| entry.expect("an entry").path());
    let mut paths: Vec<PathBuf> = entries.filter(|path| path.extension().is_some_and(|ext| ext == "tamis")).collect();
    paths.sort();
    paths.into_iter().map(|path| (path.clone(), fs::read_to_string(&path).expect("a fixture is text"))).collect()
}

#[test]
fn every_place_says_what_is_drawn() {
    let update = std::env::var_os("UPDATE").is_some();
    let mut wrong = Vec::new();
    for (path, source) in fixtures() {
        let fixture = Fixture::read(&source);
        assert!(!fixture.marks.is_empty(), "{}: no marks", path.display());
        let marks: Vec<Mark> = fixture.marks.iter().map(|mark| now(&fixture, mark)).collect();
        if update {
            fs::write(&path, fixture.draw(&marks)).expect("a fixture can be written");
            continue;
        }
        let drawn = fixture.marks.iter().zip(&marks).filter(|(drawn, now)| drawn != now);
        wrong.extend(drawn.map(|(drawn, now)| format!("{}\n{drawn:#?}\nand now\n{now:#?}", path.display())));
        assert_eq!(fixture.draw(&fixture.marks), source, "{}: drawn otherwise than UPDATE=1 would", path.display());
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// The same answers through the protocol, on CRLF, in every encoding: the range covers the same text.
#[tokio::test]
async fn every_editor_is_told_the_same() {
    for (name, encoding) in [("utf-16", Encoding::Utf16), ("utf-8", Encoding::Utf8), ("utf-32", Encoding::Utf32)] {
        let capabilities = json!({
            "general": { "positionEncodings": [name] },
            "textDocument": { "hover": { "contentFormat": ["markdown"] } },
        });
        let (mut editor, _) = Editor::introduced(capabilities).await;
        for (path, source) in fixtures() {
            let uri = format!("untitled:{}", path.file_stem().and_then(|stem| stem.to_str()).expect("a plain name"));
            let fixture = Fixture::read(&source);
            let text = fixture.text.replace('\n', "\r\n");
            let document = Document::new(&text);
            editor.open(&uri, &text).await;
            editor.published().await;
            for mark in &fixture.marks {
                let offset = fixture.offset(mark) + mark.line;
                let at = document.position(offset, encoding);
                let position = json!({ "line": at.line, "character": at.column });
                let params = json!({ "textDocument": { "uri": uri }, "position": position });
                let hover = editor.request("textDocument/hover", params).await.expect("an answer");
                let value = hover["contents"]["value"].as_str().map(|value| value.split("\n\n").collect::<Vec<_>>());
                assert_eq!(value.unwrap_or_default(), mark.paragraphs, "{name}: {mark:?}");
                if !mark.paragraphs.is_empty() {
                    let place = |end: &str| {
                        let place = &hover["range"][end];
                        let number = |key: &str| place[key].as_u64().expect("a number") as u32;
                        tamis::text::Position::new(number("line"), number("character"))
                    };
                    let covered = document.span(place("start")..place("end"), encoding);
                    assert_eq!(covered.start, offset, "{name}: {mark:?}");
                    let shown = covered.of(&text).lines().next().unwrap_or_default();
                    assert_eq!(shown.chars().count(), mark.length, "{name}: {mark:?}");
                }
            }
            editor.close(&uri).await;
            editor.published().await;
        }
        editor.leave().await;
    }
}

/// Wherever the pointer stands in any sample: no panic, a place inside the recipe that holds the pointer, and no empty answer.
#[test]
fn a_hover_covers_the_pointer() {
    let samples = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../samples");
    for folder in [samples.clone(), samples.join("mistakes")] {
        for entry in fs::read_dir(folder).expect("the samples can be read") {
            let path = entry.expect("an entry").path();
            if path.extension().is_none_or(|ext| ext != "tamis") {
                continue;
            }
            let text = fs::read_to_string(&path).expect("a sample is text");
            let manuscript = Manuscript::new(&text, Arc::default());
            for (start, recipe) in manuscript.recipes() {
                for (offset, _) in recipe.text.char_indices().step_by(3) {
                    let Some(hover) = assist::hover(recipe, manuscript.house(), offset) else { continue };
                    let place = || format!("{} at {}", path.display(), start + offset);
                    assert!(hover.span.touches(offset) || near(recipe, &hover.span, offset), "{}", place());
                    assert!(!hover.markdown.trim().is_empty(), "{}", place());
                    for word in ["None", "Some(", "NaN", "inf ", "{", "}"] {
                        assert!(!hover.markdown.contains(word), "{}: {}", place(), hover.markdown);
                    }
                }
            }
        }
    }
}

/// Beside a statement, inside the whole measure: a hedge, a parenthesis.
fn near(recipe: &tamis::recipe::Recipe, span: &Span, offset: usize) -> bool {
    recipe.measures.iter().any(|measure| measure.span.contains(*span) && measure.span.touches(offset))
}

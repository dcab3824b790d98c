//! Manuscripts inside of Markdown: what stands in a code fence whose info string is `tamis`.

use std::path::Path;

use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag};

use crate::{syntax::split, text::Span};

/// The first word behind the fence.
const INFO: &str = "tamis";

/// How the names of Markdown files end.
pub const ENDINGS: &[&str] = &["md", "markdown"];

/// What a text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Form {
    /// A manuscript, all of it.
    #[default]
    Manuscript,
    /// A post in Markdown, with manuscripts in its fences.
    Post,
}

/// A stretch of a text that is read by itself, or not at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stretch {
    /// Where it is.
    pub span: Span,
    /// Whether it is manuscript; else it is the author's prose around it.
    pub manuscript: bool,
}

impl Form {
    /// What a file is, by its name.
    pub fn of(file: &Path) -> Form {
        let post = file.extension().is_some_and(|own| ENDINGS.iter().any(|ending| own.eq_ignore_ascii_case(ending)));
        if post { Form::Post } else { Form::Manuscript }
    }

    /// The stretches of a text, one behind the other, with nothing between them.
    pub fn stretches(self, text: &str) -> Vec<Stretch> {
        let manuscript = |span: Span| {
            let recipes = split(span.of(text)).into_iter();
            recipes.map(move |own| Stretch { span: own.shifted(span.start), manuscript: true })
        };
        if self == Form::Manuscript {
            return manuscript(Span::new(0, text.len())).collect();
        }
        let mut out = Vec::new();
        let mut end = 0;
        for fence in fences(text) {
            out.push(Stretch { span: Span::new(end, fence.start), manuscript: false });
            out.extend(manuscript(fence));
            end = fence.end;
        }
        if end < text.len() || out.is_empty() {
            out.push(Stretch { span: Span::new(end, text.len()), manuscript: false });
        }
        out
    }
}

/// Whether a Markdown text has a manuscript in it. Costs less than to look where.
pub fn holds_manuscript(text: &str) -> bool {
    let folded = text.to_ascii_lowercase();
    let mut fenced = folded.match_indices(INFO).filter_map(|(at, _)| folded.get(..at));
    fenced.any(|before| before.trim_end_matches(' ').ends_with(['`', '~'])) && !fences(text).is_empty()
}

/// What stands inside of the fences, without their first and their last line. Fences inside of lists and quotations are left alone:
/// their lines are indented, and what is indented in a manuscript means something.
fn fences(text: &str) -> Vec<Span> {
    let mut out: Vec<Span> = Vec::new();
    let (mut depth, mut inside) = (0_usize, None::<Vec<Span>>);
    for (event, range) in Parser::new(text).into_offset_iter() {
        match event {
            Event::Start(tag) => {
                inside = (depth == 0 && is_ours(&tag)).then(Vec::new);
                depth += 1;
            }
            Event::End(_) => {
                depth -= 1;
                out.extend(inside.take().and_then(|lines| together(text, &lines)));
            }
            Event::Text(_) => inside.iter_mut().for_each(|lines| lines.push(Span::new(range.start, range.end))),
            _ => {}
        }
    }
    out
}

/// Lines that follow each other, but for the half of a CRLF that the parser swallows. Nothing where they are indented.
fn together(text: &str, lines: &[Span]) -> Option<Span> {
    let mut pairs = lines.iter().zip(lines.iter().skip(1));
    let joined = pairs.all(|(one, next)| text.get(one.end..next.start).is_some_and(|gap| matches!(gap, "" | "\r")));
    joined.then_some(lines.first()?.joined(*lines.last()?))
}

fn is_ours(tag: &Tag<'_>) -> bool {
    let Tag::CodeBlock(CodeBlockKind::Fenced(info)) = tag else { return false };
    info.split_whitespace().next().is_some_and(|word| word.eq_ignore_ascii_case(INFO))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The manuscripts of a post.
    fn found(text: &str) -> Vec<&str> {
        fences(text).into_iter().map(|span| span.of(text)).collect()
    }

    /// CommonMark 0.31.2, 4.5 "Fenced code blocks", tells where a fence ends.
    #[test]
    fn manuscripts_stand_in_fences_of_their_name() {
        let table: &[(&str, &[&str])] = &[
            (
                "# A post\n\n```tamis\nRecipe: A\n```\n\nand\n\n~~~ tamis spring\nRecipe: B\n~~~\n",
                &["Recipe: A\n", "Recipe: B\n"],
            ),
            ("```Tamis\r\nRecipe: A\r\nServes: 4\r\n```\r\n", &["Recipe: A\r\nServes: 4\r\n"]),
            ("```tamis\nRecipe: still typed", &["Recipe: still typed"]),
            ("```tamis\nRecipe: A\n\n\nServes: 4\n```", &["Recipe: A\n\n\nServes: 4\n"]),
            ("````tamis\nRecipe: A\n```\n````\n", &["Recipe: A\n```\n"]),
            ("````md\n```tamis\nRecipe: A\n```\n````\n", &[]),
            ("```\nRecipe: A\n```\n```rust\n```\n    ```tamis\n", &[]),
            (" ```tamis\n Recipe: A\n Serves: 4\n ```\n", &[]),
            ("- first\n  ```tamis\n  Recipe: A\n  ```\n> ```tamis\n> Recipe: B\n> ```\n", &[]),
            ("```tamis\n```\n", &[]),
            ("tamis `tamis` tamis", &[]),
        ];
        for (text, expected) in table {
            assert_eq!(found(text), *expected, "{text}");
            assert_eq!(holds_manuscript(text), !expected.is_empty(), "{text}");
        }
    }

    #[test]
    fn stretches_cover_the_text() {
        for text in ["", "prose", "```tamis\nRecipe: A\n\nRecipe: B\n```", "a\n```tamis\nRecipe: A\n```\nb\n"] {
            for form in [Form::Manuscript, Form::Post] {
                let stretches = form.stretches(text);
                let all: String = stretches.iter().map(|stretch| stretch.span.of(text)).collect();
                assert_eq!(all, text, "{form:?}: {stretches:?}");
            }
        }
    }
}

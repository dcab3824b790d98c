//! The page of a check, which is written in a small part of Markdown, set for a terminal.

use anstyle::{AnsiColor, Style};

use crate::cli::wrap::wrapped;

const HEADING: Style = Style::new().bold();
const STRONG: Style = Style::new().bold();
const EMPHASIS: Style = Style::new().italic();
const CODE: Style = AnsiColor::Cyan.on_default();

const BULLET: &str = "- ";
const FENCE: &str = "```";

/// How far the manuscripts on a page stand in.
const EXAMPLE_INDENT: &str = "    ";

/// `page` with its headings, paragraphs, lists and examples, on lines of `width` columns. Of several sections with one
/// heading the first is shown: the others are there to be tested.
pub fn show(page: &str, width: usize) -> String {
    let mut out = String::new();
    for (place, block) in first_sections(blocks(page)).iter().enumerate() {
        if place > 0 {
            out.push('\n');
        }
        out.push_str(&block.show(width));
    }
    out
}

enum Block {
    Heading(String),
    Paragraph(String),
    List(Vec<String>),
    /// Lines that stand as they are: a manuscript, or a table.
    Example(Vec<String>),
}

impl Block {
    fn show(&self, width: usize) -> String {
        let lines: Vec<String> = match self {
            Block::Heading(text) => vec![format!("{HEADING}{}{HEADING:#}", inline(text))],
            Block::Paragraph(text) => wrapped(&inline(text), width),
            Block::List(items) => items.iter().flat_map(|item| list_item(item, width)).collect(),
            Block::Example(lines) => lines.iter().map(|line| format!("{EXAMPLE_INDENT}{line}")).collect(),
        };
        lines.iter().map(|line| format!("{}\n", line.trim_end())).collect()
    }
}

fn list_item(item: &str, width: usize) -> Vec<String> {
    let lines = wrapped(&inline(item), width.saturating_sub(2));
    lines.iter().enumerate().map(|(at, line)| format!("{}{line}", if at == 0 { "- " } else { "  " })).collect()
}

/// The blocks of a page, in order.
fn blocks(page: &str) -> Vec<Block> {
    let mut lines = page.lines().peekable();
    let mut blocks = Vec::new();
    while let Some(line) = lines.next() {
        let text = line.trim();
        let mut with_those = |wanted: fn(&str) -> bool| -> Vec<&str> {
            let others = std::iter::from_fn(|| lines.next_if(|next| wanted(next)).map(str::trim));
            std::iter::once(text).chain(others).collect()
        };
        if text.is_empty() {
            continue;
        } else if text.starts_with(FENCE) {
            // A fence closes with as many marks as it opened with.
            let fence = text.get(..text.len() - text.trim_start_matches('`').len()).unwrap_or_default();
            let example = lines.by_ref().take_while(|next| next.trim() != fence);
            blocks.push(Block::Example(example.map(str::to_owned).collect()));
        } else if let Some(heading) = text.strip_prefix('#') {
            blocks.push(Block::Heading(heading.trim_start_matches('#').trim().to_owned()));
        } else if text.starts_with('|') {
            let rows = with_those(|next| next.starts_with('|'));
            blocks.push(Block::Example(rows.into_iter().map(str::to_owned).collect()));
        } else if text.starts_with(BULLET) {
            blocks.push(Block::List(items(&with_those(|next| goes_on(next) || next.starts_with(BULLET)))));
        } else {
            blocks.push(Block::Paragraph(with_those(goes_on).join(" ")));
        }
    }
    blocks
}

/// Whether a line belongs to the paragraph or to the item before it.
fn goes_on(line: &str) -> bool {
    let text = line.trim();
    !(text.is_empty() || text.starts_with(['#', '|']) || text.starts_with(FENCE) || line.starts_with(BULLET))
}

/// The blocks without the sections whose heading has been there before. What stands in quotation marks does not tell
/// headings apart.
fn first_sections(blocks: Vec<Block>) -> Vec<Block> {
    let mut seen: Vec<String> = Vec::new();
    let mut is_first = true;
    let wanted = |block: &Block| {
        if let Block::Heading(text) = block {
            let heading = text.split('"').next().unwrap_or_default().trim().to_owned();
            is_first = !seen.contains(&heading);
            seen.push(heading);
        }
        is_first
    };
    blocks.into_iter().filter(wanted).collect()
}

/// The items of a list: each begins with a bullet and may go on in the next lines.
fn items(lines: &[&str]) -> Vec<String> {
    let mut items: Vec<String> = Vec::new();
    for line in lines {
        match (line.strip_prefix(BULLET), items.last_mut()) {
            (None, Some(item)) => {
                item.push(' ');
                item.push_str(line);
            }
            (item, _) => items.push(item.unwrap_or(line).to_owned()),
        }
    }
    items
}

/// `text` with what stands between backticks, stars or double stars in its style. Backticks stay: without colour they still
/// set a code off from the prose.
fn inline(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find(['`', '*']) {
        let (before, marked) = rest.split_at(at);
        out.push_str(before);
        let (mark, style) = match marked {
            _ if marked.starts_with('`') => ("`", CODE),
            _ if marked.starts_with("**") => ("**", STRONG),
            _ => ("*", EMPHASIS),
        };
        let after = marked.get(mark.len()..).unwrap_or_default();
        // A star before a space or without a fellow is only a star.
        match after.split_once(mark) {
            Some((inner, behind)) if !inner.is_empty() && !inner.starts_with(' ') => {
                let shown = if mark == "`" { format!("`{inner}`") } else { inner.to_owned() };
                out.push_str(&format!("{style}{shown}{style:#}"));
                rest = behind;
            }
            _ => {
                out.push_str(mark);
                rest = after;
            }
        }
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use anstream::adapter::strip_str;

    const PAGE: &str = "\
## What

An ingredient of the *list* that **no step** uses. `stet` silences
it, at 2 * 3 places.

- one
  and more of it
- two

````
Method:
```
  1. Mix.
````

| a | b |
| - | - |
## What \"again\"
Not shown.
## Source
Common practice, no source.
";

    #[test]
    fn a_page_is_set_for_a_terminal() {
        let shown = strip_str(&show(PAGE, 40)).to_string();
        let expected = "\
What

An ingredient of the list that no step
uses. `stet` silences it, at 2 * 3
places.

- one and more of it
- two

    Method:
    ```
      1. Mix.

    | a | b |
    | - | - |

Source

Common practice, no source.
";
        assert_eq!(shown, expected);
    }

    #[test]
    fn unpaired_marks_stay() {
        for text in ["5 * 3", "a ` b", "**", "x *", "`", "``"] {
            assert_eq!(strip_str(&inline(text)).to_string(), text);
        }
    }
}

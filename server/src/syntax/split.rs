//! Splits a manuscript into its recipes, so that each can be read by itself and an edit costs one recipe.

use crate::text::{Span, lines};

/// The recipes of `text`, one span each, together the whole text. What stands above the first `Recipe:` is the first span;
/// it is a recipe of its own only where it has sections.
pub fn split(text: &str) -> Vec<Span> {
    let mut out = Vec::new();
    let mut start = 0;
    let mut line_start = 0;
    let mut open = true;
    for line in lines(text) {
        let end = line_start + line.len();
        let content = line.trim_start_matches('\u{feff}');
        if open && starts_recipe(content) && line_start > start {
            out.push(Span::new(start, line_start));
            start = line_start;
        }
        open = content.trim().is_empty() || is_label(content);
        line_start = end;
    }
    if start < text.len() || out.is_empty() {
        out.push(Span::new(start, text.len()));
    }
    out
}

/// The parts of a recipe that can be read each by itself, one span each, together the whole text: what stands above the lists, each list,
/// the method and what follows it. A part starts where the label of a list stands alone on a line, behind a blank one: there nothing above can go on.
pub fn parts(text: &str) -> Vec<Span> {
    let mut out = Vec::new();
    let (mut start, mut line_start, mut open) = (0, 0, false);
    for line in lines(text) {
        if open && line_start > start && starts_list(line) {
            out.push(Span::new(start, line_start));
            start = line_start;
        }
        open = line.trim().is_empty();
        line_start += line.len();
    }
    out.push(Span::new(start, text.len()));
    out
}

/// Whether a line is the label of a list or of the method, and nothing else.
fn starts_list(line: &str) -> bool {
    let label = line.trim_end().strip_suffix(':').unwrap_or_default();
    LISTS.iter().any(|list| label.eq_ignore_ascii_case(list))
}

/// Whether a line is `Recipe: …`, in any case, at the left margin.
pub fn starts_recipe(line: &str) -> bool {
    let line = line.trim_start_matches('\u{feff}');
    line.get(..7).is_some_and(|label| label.eq_ignore_ascii_case("recipe:"))
}

/// Whether a `Recipe:` line right behind `text` would start a recipe: behind a blank line, a label, or nothing.
pub fn lets_recipe_follow(text: &str) -> bool {
    let Some(last) = lines(text).last() else { return true };
    last.ends_with(['\n', '\r']) && (last.trim_start_matches('\u{feff}').trim().is_empty() || is_label(last))
}

/// Whether a line is a label or a heading, behind which another label may stand without a blank line.
fn is_label(line: &str) -> bool {
    let line = line.trim_end();
    !line.starts_with(char::is_whitespace)
        && (line.ends_with(':') || HEADERS.iter().any(|label| has_label(line, label)))
}

const HEADERS: &[&str] = &[
    "recipe",
    "yield",
    "serves",
    "time",
    "course",
    "cuisine",
    "diet",
    "allergens",
    "author",
    "photo",
    "keywords",
    "status",
];

/// The labels of lists and of the method, as in `words.json` of the grammar.
const LISTS: &[&str] =
    &["equipment", "ingredients", "method", "directions", "instructions", "preparation", "steps", "tests"];

fn has_label(line: &str, label: &str) -> bool {
    line.get(..label.len()).is_some_and(|start| start.eq_ignore_ascii_case(label))
        && line.get(label.len()..).is_some_and(|rest| rest.starts_with(':'))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pieces(text: &str) -> Vec<&str> {
        split(text).into_iter().map(|span| span.of(text)).collect()
    }

    #[test]
    fn each_recipe_is_a_piece_and_nothing_is_lost() {
        assert_eq!(
            pieces("Prose.\n\nRecipe: A\n\nMethod:\n\nEat.\n\nRecipe: B\n"),
            ["Prose.\n\n", "Recipe: A\n\nMethod:\n\nEat.\n\n", "Recipe: B\n"]
        );
        assert_eq!(
            pieces("Recipe: A\r\rRECIPE: B\r\nServes: 2\r\nrecipe: C"),
            ["Recipe: A\r\r", "RECIPE: B\r\nServes: 2\r\n", "recipe: C"]
        );
        assert_eq!(pieces(""), [""]);
        assert_eq!(pieces("\u{feff}Recipe: A\n"), ["\u{feff}Recipe: A\n"]);
    }

    #[test]
    fn each_list_is_a_part_and_nothing_is_lost() {
        let parts = |text| -> Vec<&str> { parts(text).into_iter().map(|span| span.of(text)).collect() };
        assert_eq!(
            parts("Recipe: A\n\nIngredients:\n\n- salt\n\nMETHOD: \r\n\r\nEat.\n\nNotes:\n\nNone.\n"),
            ["Recipe: A\n\n", "Ingredients:\n\n- salt\n\n", "METHOD: \r\n\r\nEat.\n\nNotes:\n\nNone.\n"]
        );
        for text in
            ["", "Method:\n", "Recipe: A\nMethod:\n", "As the old book says,\n\n method:\n", "A\n\nMethod: stir\n"]
        {
            assert_eq!(parts(text), [text]);
        }
    }

    #[test]
    fn inside_prose_it_is_prose() {
        let text = "Recipe: A\n\nThe old book says\nRecipe: of my aunt\n\nMethod:\n";
        assert_eq!(pieces(text), [text]);
        assert_eq!(pieces("Recipe: A\n\n  Recipe: B\n"), ["Recipe: A\n\n  Recipe: B\n"]);
    }
}

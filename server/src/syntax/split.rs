//! Splits a manuscript into its recipes, so that each can be read by itself and an edit costs one recipe.

use crate::text::{Span, lines};

/// The recipes of `text`, one span each, together the whole text. What stands above the first `Recipe:` is the first span;
/// it is a recipe of its own only where it has sections.
pub fn split(text: &str) -> Vec<Span> {
    let mut out = Vec::new();
    let mut start = 0;
    let mut line_start = 0;
    let mut above = "";
    for line in lines(text) {
        if line_start > start && starts_recipe(line) && lets_follow(above) {
            out.push(Span::new(start, line_start));
            start = line_start;
        }
        line_start += line.len();
        above = line;
    }
    if start < text.len() || out.is_empty() {
        out.push(Span::new(start, text.len()));
    }
    out
}

/// A part of a recipe that can be read by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// Where it stands.
    pub span: Span,
    /// The label that it is read behind where it goes on with the list or the method above; else nothing.
    pub behind: &'static str,
}

/// What a part reads on in.
#[derive(Debug, Clone, Copy)]
enum Within {
    /// Anything: what is cut next is a list.
    Any,
    /// A list, so many lines of which are in the part.
    List(usize),
    /// The method, of which so many steps have been read.
    Method(usize),
}

/// What a part is read behind that goes on with the method.
pub(super) const BEHIND_METHOD: &str = "Steps:\n\n";

/// What one is read behind that goes on with a list.
pub(super) const BEHIND_LIST: &str = "Ingredients:\n\n";

/// So many lines of a list are a part: with more, an edit costs more than it has to; with less, so does the whole.
const LINES: usize = 4;

/// The parts of a recipe that can be read each by itself, together the whole text: what stands above the lists, a few lines of a list, each
/// step of the method, and what follows the last with it.
///
/// A list starts where its label stands alone on a line, behind a blank one: there nothing above can go on. Nor can it at the mark of a line
/// of a list, or at the number of a step behind a blank line. Behind a line at the margin that is none of these nothing is cut any more
/// before the next list: it may be the label of something else.
pub fn parts(text: &str) -> Vec<Cut> {
    let mut out = Vec::new();
    let (mut start, mut at, mut behind) = (0, 0, "");
    let (mut open, mut within) = (false, Within::Any);
    for line in lines(text) {
        let list = Some(line).filter(|_| open && at > start).and_then(list);
        let cut;
        (within, cut) = match list {
            Some(list) if METHOD.contains(&list) => (Within::Method(0), Some("")),
            Some(_) => (Within::List(0), Some("")),
            None => within.line(line, open),
        };
        if let Some(cut) = cut {
            out.push(Cut { span: Span::new(start, at), behind });
            (start, behind) = (at, cut);
        }
        open = line.trim().is_empty();
        at += line.len();
    }
    out.push(Cut { span: Span::new(start, text.len()), behind });
    out
}

impl Within {
    /// What is read on in behind a line that is no label of a list, and, where a part starts with it, what that is read behind. The line may
    /// stand behind a blank one (`open`).
    fn line(self, line: &str, open: bool) -> (Within, Option<&'static str>) {
        let at_margin = !line.starts_with([' ', '\t']) && !line.trim().is_empty();
        match self {
            Within::List(LINES..) if is_item(line) => (Within::List(1), Some(BEHIND_LIST)),
            Within::List(lines) if is_item(line) => (Within::List(lines + 1), None),
            Within::List(_) if is_heading(line) => (self, None),
            Within::Method(0) if is_numbered(line) => (Within::Method(1), None),
            Within::Method(steps) if is_numbered(line) && open => (Within::Method(steps + 1), Some(BEHIND_METHOD)),
            _ if at_margin => (Within::Any, None),
            _ => (self, None),
        }
    }
}

/// Whether a line has the mark of a line of a list.
fn is_item(line: &str) -> bool {
    line.starts_with("- ")
}

/// Whether a line is a heading within a list, and surely no label: `For the dough:`.
fn is_heading(line: &str) -> bool {
    line.get(..4).is_some_and(|start| start.eq_ignore_ascii_case("for ")) && line.trim_end().ends_with(':')
}

/// The label of a list or of the method that a line is, and nothing else.
fn list(line: &str) -> Option<&'static str> {
    let label = line.trim_end().strip_suffix(':')?;
    LISTS.iter().chain(METHOD).find(|list| label.eq_ignore_ascii_case(list)).copied()
}

/// Whether a line begins with the number of a step: `12. `.
fn is_numbered(line: &str) -> bool {
    let behind = line.trim_start_matches(|c: char| c.is_ascii_digit());
    behind.len() < line.len() && behind.starts_with(". ")
}

/// Whether a line is `Recipe: …`, in any case, at the left margin.
pub fn starts_recipe(line: &str) -> bool {
    let line = line.trim_start_matches('\u{feff}');
    line.get(..7).is_some_and(|label| label.eq_ignore_ascii_case("recipe:"))
}

/// Whether a `Recipe:` line right behind `text` would start a recipe: behind a blank line, a label, or nothing.
pub fn lets_recipe_follow(text: &str) -> bool {
    let Some(last) = lines(text).last() else { return true };
    last.ends_with(['\n', '\r']) && lets_follow(last)
}

/// Whether a line is blank, or a label.
fn lets_follow(line: &str) -> bool {
    let line = line.trim_start_matches('\u{feff}');
    line.trim().is_empty() || is_label(line)
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

/// The labels of lists, as in `words.json` of the grammar.
const LISTS: &[&str] = &["equipment", "ingredients", "tests"];

/// Those of the method.
const METHOD: &[&str] = &["method", "directions", "instructions", "preparation", "steps"];

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

    fn cut(text: &str) -> Vec<&str> {
        parts(text).into_iter().map(|part| part.span.of(text)).collect()
    }

    #[test]
    fn each_list_is_a_part_and_nothing_is_lost() {
        assert_eq!(
            cut("Recipe: A\n\nIngredients:\n\n- salt\n\nMETHOD: \r\n\r\nEat.\n\nNotes:\n\nNone.\n"),
            ["Recipe: A\n\n", "Ingredients:\n\n- salt\n\n", "METHOD: \r\n\r\nEat.\n\nNotes:\n\nNone.\n"]
        );
        for text in
            ["", "Method:\n", "Recipe: A\nMethod:\n", "As the old book says,\n\n method:\n", "A\n\nMethod: stir\n"]
        {
            assert_eq!(cut(text), [text]);
        }
    }

    #[test]
    fn each_numbered_step_is_a_part_until_something_else_stands_at_the_margin() {
        let text = "A\n\nMethod:\n\n1. Stir\n   well.\n\n2. Bake.\n\n3. Eat.\n\nNotes:\n\n4. None.\n\n5. Nor here.\n";
        let last = "3. Eat.\n\nNotes:\n\n4. None.\n\n5. Nor here.\n";
        assert_eq!(cut(text), ["A\n\n", "Method:\n\n1. Stir\n   well.\n\n", "2. Bake.\n\n", last]);
        let behind: Vec<&str> = parts(text).iter().map(|part| part.behind.trim_end()).collect();
        assert_eq!(behind, ["", "", "Steps:", "Steps:"]);
        for method in [
            "Method:\n\n1. Stir.\n2. Bake.\n",
            "Method:\n\n1. Stir\nwell.\n\n2. Bake.\n",
            "Method:\n\nStir.\n\n2. Bake.\n",
            "Ingredients:\n\n1. Salt.\n\n2. Flour.\n",
        ] {
            assert_eq!(cut(&format!("A\n\n{method}")), ["A\n\n", method]);
        }
    }

    #[test]
    fn a_few_lines_of_a_list_are_a_part() {
        let text = "A\n\nIngredients:\n- 1\n- 2\n\nFor the top:\n- 3\n- 4,\n  sliced\n- 5\n- 6\n\nSteps:\n\n- 7\n";
        let lists =
            ["Ingredients:\n- 1\n- 2\n\nFor the top:\n- 3\n- 4,\n  sliced\n", "- 5\n- 6\n\n", "Steps:\n\n- 7\n"];
        assert_eq!(cut(text), [&["A\n\n"], &lists[..]].concat());
        let behind: Vec<&str> = parts(text).iter().map(|part| part.behind.trim_end()).collect();
        assert_eq!(behind, ["", "", "Ingredients:", ""]);
        for list in
            ["Ingredients:\n- 1\n- 2\n\nNotes:\n- 3\n- 4\n- 5\n- 6\n", "Ingredients:\n1\n2\n- 3\n- 4\n- 5\n- 6\n- 7\n"]
        {
            assert_eq!(cut(&format!("A\n\n{list}")), ["A\n\n", list]);
        }
    }

    #[test]
    fn inside_prose_it_is_prose() {
        let text = "Recipe: A\n\nThe old book says\nRecipe: of my aunt\n\nMethod:\n";
        assert_eq!(pieces(text), [text]);
        assert_eq!(pieces("Recipe: A\n\n  Recipe: B\n"), ["Recipe: A\n\n  Recipe: B\n"]);
    }
}

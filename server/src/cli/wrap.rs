//! Text set in columns. What colours it has no width.

use anstream::adapter::strip_str;
use unicode_width::UnicodeWidthStr;

/// How many columns `text` takes on a terminal.
pub fn columns(text: &str) -> usize {
    strip_str(text).to_string().width()
}

/// `text` in lines of at most `width` columns, broken at spaces. A word that is wider has a line of its own. Never empty.
pub fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let (mut line, mut taken) = (String::new(), 0);
    for word in text.split_whitespace() {
        let needed = columns(word);
        if taken > 0 && taken + 1 + needed > width {
            lines.push(std::mem::take(&mut line));
            taken = 0;
        }
        if taken > 0 {
            line.push(' ');
            taken += 1;
        }
        line.push_str(word);
        taken += needed;
    }
    lines.push(line);
    lines
}

/// One row of a table: each cell wrapped to its width and padded, two spaces between, `indent` spaces before. The last cell
/// is not padded.
pub fn row(indent: usize, cells: &[(&str, usize)]) -> String {
    let cells: Vec<(Vec<String>, usize)> = cells.iter().map(|(text, width)| (wrapped(text, *width), *width)).collect();
    let height = cells.iter().map(|(lines, _)| lines.len()).max().unwrap_or_default();
    let mut out = String::new();
    for at in 0..height {
        let mut line = " ".repeat(indent);
        for (lines, width) in &cells {
            let cell = lines.get(at).map_or("", String::as_str);
            line.push_str(cell);
            line.push_str(&" ".repeat(width.saturating_sub(columns(cell)) + 2));
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_break_at_spaces_and_colours_and_wide_letters_are_measured_as_seen() {
        assert_eq!(wrapped("rub the butter in", 10), ["rub the", "butter in"]);
        assert_eq!(wrapped("a boysenberryandelderflower jelly", 10), ["a", "boysenberryandelderflower", "jelly"]);
        assert_eq!(wrapped("", 10), [""]);
        assert_eq!(columns("\u{1b}[1mcrème\u{1b}[0m"), 5);
        assert_eq!(columns("味噌"), 4);
        assert_eq!(wrapped("\u{1b}[1mdark rye\u{1b}[0m flour", 8), ["\u{1b}[1mdark rye\u{1b}[0m", "flour"]);
    }

    #[test]
    fn a_row_is_as_high_as_its_highest_cell() {
        let set = row(2, &[("light brown sugar", 11), ("110 g", 6), ("step 3", 20)]);
        assert_eq!(set, "  light brown  110 g   step 3\n  sugar\n");
    }
}

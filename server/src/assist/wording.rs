//! Small things about words that several answers share.

use crate::{recipe::Recipe, text::Span};

/// A text on one line: every run of space and line breaks is one space.
pub fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The first words of a text, up to about `most` characters, with an ellipsis where some are left out.
pub fn first_words(text: &str, most: usize) -> String {
    let mut out = String::new();
    for word in text.split_whitespace() {
        if !out.is_empty() && out.chars().count() + 1 + word.chars().count() > most {
            return out.trim_end_matches([',', ';', ':', '.']).to_owned() + "…";
        }
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out
}

/// The first sentence of a page, below its title, without its full stop; what is stressed in it is not.
pub fn first_sentence(page: &str) -> String {
    let lines = page.lines().map(str::trim).skip_while(|line| line.is_empty() || line.starts_with('#'));
    let paragraph = lines.take_while(|line| !line.is_empty() && !line.starts_with('#')).collect::<Vec<_>>().join(" ");
    let plain = paragraph.replace('*', "");
    let end = plain.find(". ").unwrap_or(plain.len());
    plain.get(..end).unwrap_or_default().trim_end_matches('.').to_owned()
}

/// A text whose first letter is a small one: `Flour` as it stands in a sentence.
pub fn lower_first(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

/// `span` without the space at its ends.
pub fn trimmed(text: &str, span: Span) -> Span {
    let inside = span.of(text);
    let start = span.start + inside.len() - inside.trim_start().len();
    Span::new(start, start + inside.trim().len())
}

/// What stands behind a label above the sections: `Serves`, `Time`. Nothing where it stands there without a value.
pub fn header<'r>(recipe: &'r Recipe, label: &str) -> Option<&'r str> {
    let headers = recipe.headers.iter().filter(|header| recipe.at(header.label).eq_ignore_ascii_case(label));
    headers.map(|header| recipe.at(header.value).trim()).find(|value| !value.is_empty())
}

/// The plural of a food that is counted.
pub fn plural(name: &str) -> String {
    let ends = |ends: &[&str]| ends.iter().any(|end| name.ends_with(end));
    match name.strip_suffix('y').filter(|stem| !stem.ends_with(['a', 'e', 'o', 'u'])) {
        Some(stem) => format!("{stem}ies"),
        None if ends(&["s", "x", "z", "ch", "sh", "tomato", "potato", "mango"]) => format!("{name}es"),
        None => format!("{name}s"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_sentence_of_a_page() {
        let page = "# order-of-use\n\nA line of the *list*\nstands `out`. More of it.\n\n## What\n";
        assert_eq!(first_sentence(page), "A line of the list stands `out`");
        assert_eq!(first_sentence("# x\n"), "");
    }

    #[test]
    fn plurals() {
        for (one, many) in [("egg", "eggs"), ("cherry", "cherries"), ("peach", "peaches"), ("tomato", "tomatoes")] {
            assert_eq!(plural(one), many);
        }
    }
}

//! What would be changed in a file, line by line, as version control shows it.

use anstyle::{AnsiColor, Style};
use similar::TextDiff;

const REMOVED: Style = AnsiColor::Red.on_default();
const ADDED: Style = AnsiColor::Green.on_default();
const PLACE: Style = AnsiColor::Cyan.on_default();

/// The lines that differ, with three around them, in the unified form that `patch` reads; nothing where none do.
pub fn unified(path: &str, before: &str, after: &str) -> String {
    if before == after {
        return String::new();
    }
    let difference = TextDiff::from_lines(before, after);
    let plain = difference.unified_diff().header(path, path).to_string();
    plain.split_inclusive('\n').map(coloured).collect()
}

fn coloured(line: &str) -> String {
    let (words, ending) = line.split_at(line.trim_end_matches(['\n', '\r']).len());
    let style = match words.chars().next() {
        Some('-') => REMOVED,
        Some('+') => ADDED,
        Some('@') => PLACE,
        _ => return line.to_owned(),
    };
    format!("{style}{words}{style:#}{ending}")
}

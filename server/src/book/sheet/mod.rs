//! The house style sheet, `tamis.toml`: text in, the house style out, and what is wrong with the sheet.
//!
//! What cannot be taken is reported and left out; the rest of the sheet takes effect.

mod decide;
mod faults;
mod foods;
mod settle;
mod style;
mod tables;
mod value;

pub use decide::{Decision, decide};
pub use faults::StyleFault;
pub use tables::Sheet;

use serde::Deserialize;
use toml::Spanned;
use toml::de::{DeTable, DeValue};

use self::value::Table;
use super::House;
use crate::text::Span;

/// What a style sheet is, and what can be wrong with one: a page for whoever keeps it.
pub const DOCS: &str = include_str!("docs.md");

/// Reads a style sheet. `checks` are the names of all checks; those that the sheet speaks of have to be among them.
pub fn read(text: &str, checks: &[&str]) -> (House, Vec<StyleFault>) {
    let (document, broken) = DeTable::parse_recoverable(text);
    let mut table = document.into_inner();
    let mut faults = Vec::new();
    let whole = table.clone();
    let sheet = loop {
        match Sheet::deserialize(Table(&table)) {
            Ok(sheet) => break sheet,
            Err(misread) => {
                let removed = remove(&mut table, &misread.path);
                faults.push(faults::misread(misread));
                if !removed {
                    break Sheet::default();
                }
            }
        }
    };
    let places = Places { table: &whole };
    let house = settle::house(&sheet, checks, &places, &mut faults);
    // One slip of the pen makes much of what follows look wrong: it alone is worth a word.
    if let Some(slip) = broken.iter().map(|error| faults::not_toml(error, text)).min_by_key(|fault| fault.span) {
        faults.retain(|fault| fault.span.start < slip.span.start);
        faults.push(slip);
    }
    faults.sort_by_key(|fault| fault.span);
    (house, faults)
}

/// Takes the entry at the end of a path out; `false` where there is none.
fn remove(table: &mut DeTable<'_>, path: &[String]) -> bool {
    let Some((last, tables)) = path.split_last() else { return false };
    let mut table = table;
    for key in tables {
        match table.get_mut(key.as_str()).map(Spanned::get_mut) {
            Some(DeValue::Table(inner)) => table = inner,
            _ => return false,
        }
    }
    table.remove(last.as_str()).is_some()
}

/// Where the keys and values of a sheet stand.
struct Places<'t> {
    table: &'t DeTable<'t>,
}

impl Places<'_> {
    fn entry(&self, path: &[&str]) -> Option<(Span, Span, &DeValue<'_>)> {
        let (last, tables) = path.split_last()?;
        let mut table = self.table;
        for key in tables {
            match table.get(*key)?.get_ref() {
                DeValue::Table(inner) => table = inner,
                _ => return None,
            }
        }
        let (key, value) = table.get_key_value(*last)?;
        let span = |range: std::ops::Range<usize>| Span::new(range.start, range.end);
        Some((span(key.span()), span(value.span()), value.get_ref()))
    }

    /// The key at the end of a path.
    fn key(&self, path: &[&str]) -> Span {
        self.entry(path).map_or(Span::at(0), |(key, ..)| key)
    }

    /// The value at the end of a path.
    fn value(&self, path: &[&str]) -> Span {
        self.entry(path).map_or(Span::at(0), |(_, value, _)| value)
    }

    /// The element of this index in the list at the end of a path.
    fn element(&self, path: &[&str], index: usize) -> Span {
        match self.entry(path) {
            Some((_, whole, DeValue::Array(list))) => {
                list.get(index).map_or(whole, |element| Span::new(element.span().start, element.span().end))
            }
            _ => self.value(path),
        }
    }
}

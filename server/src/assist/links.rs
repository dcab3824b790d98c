//! What leads elsewhere: the titles of other recipes, and addresses.

use crate::{recipe::Recipe, text::Span};

/// A place that leads elsewhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// The place: a title without its brackets, or an address.
    pub span: Span,
    /// Where it leads.
    pub to: Destination,
}

/// Where a link leads.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Destination {
    /// To the recipe of this title, as it is written.
    Recipe(String),
    /// To an address of the web.
    Address(String),
}

/// The links of a recipe, in the order of the text.
pub fn links(recipe: &Recipe) -> Vec<Link> {
    let titles = recipe.references.iter().map(|reference| Link {
        span: reference.title,
        to: Destination::Recipe(recipe.at(reference.title).to_owned()),
    });
    let mut out: Vec<Link> = titles.collect();
    out.extend(addresses(&recipe.text));
    out.sort_by_key(|link| link.span);
    out
}

/// Addresses that begin with `http://` or `https://`, without the punctuation of the sentence around them.
fn addresses(text: &str) -> impl Iterator<Item = Link> {
    text.match_indices("://").filter_map(|(at, _)| {
        let before = text.get(..at)?;
        let scheme = ["https", "http"].into_iter().find(|scheme| {
            before.get(before.len().saturating_sub(scheme.len())..).is_some_and(|end| end.eq_ignore_ascii_case(scheme))
        })?;
        let start = at - scheme.len();
        let rest = text.get(start..)?;
        let end = rest.find(|c: char| c.is_whitespace() || "<>\"[]{}|\\^`".contains(c)).unwrap_or(rest.len());
        let address = without_punctuation(rest.get(..end)?);
        (address.len() > scheme.len() + 3).then(|| Link {
            span: Span::new(start, start + address.len()),
            to: Destination::Address(address.to_owned()),
        })
    })
}

/// `(see https://example.org/a).` ends before the parenthesis; one that was opened inside the address belongs to it.
fn without_punctuation(mut address: &str) -> &str {
    while let Some(last) = address.chars().last() {
        let opened = address.matches('(').count() >= address.matches(')').count();
        if !(".,;:!?'’\"”*_".contains(last) || last == ')' && !opened) {
            break;
        }
        address = address.strip_suffix(last).unwrap_or_default();
    }
    address
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_address_ends_where_its_sentence_goes_on() {
        let table = [
            ("see https://example.org/plums.", Some("https://example.org/plums")),
            ("(from HTTP://example.org/a?b=c, 2nd ed.)", Some("HTTP://example.org/a?b=c")),
            ("https://example.org/Plum_(fruit))", Some("https://example.org/Plum_(fruit)")),
            ("[x](https://example.org/é/)", Some("https://example.org/é/")),
            ("// https://", None),
            ("ftp://example.org ://", None),
        ];
        for (text, address) in table {
            let found: Vec<Link> = addresses(text).collect();
            let found: Vec<&str> = found.iter().map(|link| link.span.of(text)).collect();
            assert_eq!(found, Vec::from_iter(address), "{text}");
        }
    }
}

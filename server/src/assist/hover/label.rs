//! Labels, headings and the codes of checks: the first lines of the page that tells about them.

use super::Said;
use crate::{
    assist::labels::label_of,
    checks::{check, support::words},
    recipe::{Recipe, Stet},
    text::Span,
};

/// What is said of a label above the sections, or of the heading of one.
pub fn at(recipe: &Recipe, offset: usize) -> Option<Said> {
    let headers = recipe.headers.iter().map(|header| header.label);
    let headings = recipe.sections.iter().map(|section| section.heading);
    let span = headers.chain(headings).chain(title_label(recipe)).find(|span| span.touches(offset))?;
    let written = recipe.at(span);
    // `Ingredients for the dough` and `Ingredients (dough)` are the section too.
    let label = label_of(written).or_else(|| label_of(written.split([' ', '(']).next()?))?;
    let canonical = label.name();
    let same = written.to_lowercase().starts_with(&canonical.to_lowercase());
    let name = if same { canonical.to_owned() } else { format!("{}**, read as **{canonical}", words::plain(written)) };
    Some((span, vec![format!("**{name}**"), label.what.to_owned()]))
}

/// `Recipe`, before the title.
fn title_label(recipe: &Recipe) -> Option<Span> {
    let title = recipe.title.filter(|_| recipe.labelled)?;
    let line = recipe.text.get(..title.start)?;
    let start = line.rfind(['\n', '\r']).map_or(0, |at| at + 1);
    let label = Span::new(start, start + line.get(start..)?.trim_end().trim_end_matches(':').len());
    (!label.is_empty()).then_some(label)
}

/// What is said of a stet: the page of its check, and what it does.
pub fn stet(recipe: &Recipe, offset: usize) -> Option<Said> {
    let stet: &Stet = recipe.stets.iter().find(|stet| stet.span.touches(offset) && offset <= stet.check.end)?;
    let code = recipe.at(stet.check);
    let mut lines = vec![format!("**{code}**")];
    match check(code) {
        Some(check) => lines.extend(first_lines(check.docs)),
        None => lines.push("No check has this name.".to_owned()),
    }
    lines.push("Let it stand: what this line speaks for is left as it is, for the reason behind the colon.".to_owned());
    Some((Span::new(stet.span.start, stet.check.end), lines))
}

/// What a check is about, and what it looks at: the first two paragraphs of its page.
fn first_lines(page: &str) -> Vec<String> {
    let paragraphs = page.split("\n\n").flat_map(|block| {
        // A heading stands right above its paragraph.
        let lines: Vec<&str> = block.lines().filter(|line| !line.starts_with('#')).map(str::trim).collect();
        Some(lines.join(" ").trim().to_owned()).filter(|text| !text.is_empty())
    });
    paragraphs.take(2).collect()
}

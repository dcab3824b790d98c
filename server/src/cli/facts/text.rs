//! The facts of a food as a page.

use annotate_snippets::normalize_untrusted_str as harmless;
use anstyle::Style;

use super::CAUTION;
use crate::assist::{Amounts, Facts, Sourced, Spread, tidy};
use crate::cli::wrap::{columns, row, wrapped};
use crate::larder::{AllergenList, Nutrients};
use crate::measure::{FractionStyle, Unit, print_decimal, print_number};

const HEADING: Style = Style::new().bold();
const ASIDE: Style = Style::new().dimmed();

/// How far a section stands in, and its rows.
const SECTION: usize = 2;
const INDENT: usize = 4;

/// The widest that the first column of a section gets.
const WIDEST: usize = 24;

/// The page, on lines of `width` columns.
pub fn show(facts: &Facts, width: usize) -> String {
    let page = Page { width };
    let sections = [
        page.head(facts),
        facts.amounts.as_ref().map(|amounts| page.amounts(facts, amounts)).unwrap_or_default(),
        page.weights(&cup(facts), &facts.cupfuls, "as it comes"),
        page.weights("One weighs", &facts.each, "one"),
        page.parts(facts),
        page.allergens(facts),
        facts.nutrients.as_ref().map(|nutrients| page.nutrients(facts, nutrients)).unwrap_or_default(),
        page.foot(facts),
    ];
    sections.into_iter().filter(|section| !section.is_empty()).collect::<Vec<_>>().join("\n")
}

fn cup(facts: &Facts) -> String {
    format!("A {} cup ({} ml) holds", facts.cup.name(), facts.cup.millilitres().round())
}

struct Page {
    width: usize,
}

impl Page {
    fn head(&self, facts: &Facts) -> String {
        let mut title = format!("{HEADING}{}{HEADING:#}", harmless(facts.food.name));
        if let Some(of_it) = facts.part.or(facts.form) {
            title.push_str(&format!(", {of_it}"));
        }
        let mut out = format!("{title}\n");
        let own = |name: &&str| !name.eq_ignore_ascii_case(facts.food.name);
        let names: Vec<String> = facts.food.synonyms.iter().copied().filter(own).map(harmless).collect();
        for (label, words) in [("also", names.join(", ")), ("kinds", facts.food.kinds.join(", "))] {
            if !words.is_empty() {
                out.push_str(&self.columns(SECTION, &[label], 5, &words));
            }
        }
        out
    }

    fn amounts(&self, facts: &Facts, amounts: &Amounts) -> String {
        let mut rows: Vec<(&str, String)> = Vec::new();
        rows.extend(amounts.weight.as_ref().map(|weight| ("weight", spread(weight))));
        rows.extend(amounts.volume.as_ref().map(|volume| ("volume", spread(volume))));
        if !amounts.counts.is_empty() {
            rows.push((
                "number",
                format!("about {}", amounts.counts.iter().map(counted).collect::<Vec<_>>().join(" · ")),
            ));
        }
        rows.push(("basis", amounts.basis.join("; ")));
        let of_it = facts.form.map(|form| format!(", {form}")).unwrap_or_default();
        let rows: String = rows.iter().map(|(label, text)| self.columns(INDENT, &[label], 6, text)).collect();
        format!("{}{rows}", heading(&format!("{}{of_it}", harmless(&amounts.asked))))
    }

    /// Weights with their spread and their sources.
    fn weights(&self, title: &str, weights: &[Sourced], plain: &'static str) -> String {
        if weights.is_empty() {
            return String::new();
        }
        let name = |weight: &Sourced| weight.what.unwrap_or(plain);
        let widest = weights.iter().map(|weight| columns(name(weight))).max().unwrap_or_default().min(WIDEST);
        let rows = weights.iter().map(|weight| {
            let source = format!("{ASIDE}{}{ASIDE:#}", weight.source);
            row(INDENT, &[(name(weight), widest), (&grams(weight.typical), 8), (&range(weight), 16), (&source, 30)])
        });
        format!("{}{}", heading(title), rows.collect::<String>())
    }

    fn parts(&self, facts: &Facts) -> String {
        let mut rows = String::new();
        let mut line = |what: &str, figure: String, source: &str| {
            let source = format!("{ASIDE}{source}{ASIDE:#}");
            rows.push_str(&row(INDENT, &[(what, 12), (&figure, 8), ("", 16), (&source, 30)]));
        };
        for (part, weight) in &facts.parts {
            if let Some(weight) = weight {
                line(part, grams(weight.typical), weight.source);
            }
        }
        if let Some(edible) = facts.edible {
            line("edible share", format!("{} %", (edible.share * 100.0).round()), edible.source);
        }
        let unweighed: Vec<&str> =
            facts.parts.iter().filter(|(_, weight)| weight.is_none()).map(|(part, _)| *part).collect();
        if !unweighed.is_empty() {
            rows.insert_str(0, &row(INDENT, &[(&unweighed.join(", "), self.width.saturating_sub(INDENT).max(20))]));
        }
        if rows.is_empty() { rows } else { format!("{}{rows}", heading("Parts")) }
    }

    fn allergens(&self, facts: &Facts) -> String {
        let none = if facts.own { "tamis.toml names none" } else { "none known" };
        let listed = |words: &[&str]| if words.is_empty() { none.to_owned() } else { words.join(", ") };
        let mut out = heading("Allergens and diets");
        for (list, held) in &facts.allergens {
            out.push_str(&self.columns(INDENT, &[region(*list)], 25, &listed(held)));
        }
        let diets: Vec<&str> = facts.breaks.iter().map(|diet| diet.name()).collect();
        out.push_str(&self.columns(INDENT, &["does not fit"], 25, &listed(&diets)));
        out
    }

    /// Per 100 g, and in the amount that was asked for where its weight is one figure.
    fn nutrients(&self, facts: &Facts, nutrients: &Nutrients) -> String {
        let weight = facts.amounts.as_ref().and_then(|amounts| amounts.weight.as_ref());
        let amount = weight.filter(|weight| weight.typical.is_exact()).map(|weight| weight.typical.least);
        let mut out = heading(&format!("Nutrition, of what is eaten  {ASIDE}{}{ASIDE:#}", nutrients.source));
        let figures = [
            ("energy", Some(nutrients.kcal), "kcal"),
            ("protein", Some(nutrients.protein), "g"),
            ("fat", Some(nutrients.fat), "g"),
            ("carbohydrate", Some(nutrients.carbohydrate), "g"),
            ("of it fibre", nutrients.fibre, "g"),
            ("of it sugars", nutrients.sugars, "g"),
            ("sodium", nutrients.sodium, "mg"),
            ("alcohol", nutrients.alcohol.filter(|alcohol| *alcohol > 0.0), "g"),
        ];
        let columns =
            |what: &str, in_100: &str, in_amount: &str| row(INDENT, &[(what, 12), (in_100, 12), (in_amount, 14)]);
        let in_amount = amount.map(|grams| format!("{:>6} g", print_decimal(tidy(grams)))).unwrap_or_default();
        out.push_str(&columns("in", &format!("{:>6} g", 100), &in_amount));
        for (name, figure, unit) in figures {
            if let Some(figure) = figure {
                let print = |number: f64| format!("{:>6} {unit}", print_decimal(tidy(number)));
                let in_amount = amount.map(|grams| print(figure * grams / 100.0)).unwrap_or_default();
                out.push_str(&columns(name, &print(figure), &in_amount));
            }
        }
        out
    }

    /// What the short names of the sources mean, and the caution.
    fn foot(&self, facts: &Facts) -> String {
        let mut sources: Vec<&str> = facts.cupfuls.iter().chain(&facts.each).map(|weight| weight.source).collect();
        sources.extend(facts.parts.iter().filter_map(|(_, weight)| weight.map(|weight| weight.source)));
        sources.extend(facts.edible.map(|edible| edible.source));
        sources.extend(facts.nutrients.map(|nutrients| nutrients.source));
        let used = SOURCES.iter().filter(|(name, _)| sources.iter().any(|source| source.starts_with(name)));
        let mut notes: Vec<String> = used.map(|(name, meaning)| format!("{name}: {meaning}.")).collect();
        notes.push(CAUTION.to_owned());
        let lines = notes.iter().flat_map(|note| wrapped(note, self.width.saturating_sub(SECTION)));
        lines.map(|line| format!("{}{ASIDE}{line}{ASIDE:#}\n", " ".repeat(SECTION))).collect()
    }

    /// A label and a text that takes what room is left.
    fn columns(&self, indent: usize, label: &[&str; 1], wide: usize, text: &str) -> String {
        let room = self.width.saturating_sub(indent + wide + 2).max(20);
        let label = format!("{ASIDE}{}{ASIDE:#}", label.concat());
        row(indent, &[(&label, wide), (text, room)])
    }
}

/// The sources of the larder by what their names start with.
const SOURCES: &[(&str, &str)] = &[
    ("SR26", "USDA National Nutrient Database for Standard Reference, Release 26 (2013), with the number of the food"),
    ("SR Legacy", "USDA FoodData Central, SR Legacy (2018), with the number of the food"),
    ("FDC Foundation", "USDA FoodData Central, Foundation Foods, with the number of the food"),
    ("common practice", "what cookbooks print; no table has it"),
    ("memory", "written down from memory, and to be checked"),
    ("house style", "the style sheet tamis.toml"),
];

fn heading(text: &str) -> String {
    format!("{}{HEADING}{text}{HEADING:#}\n", " ".repeat(SECTION))
}

fn region(list: AllergenList) -> &'static str {
    match list {
        AllergenList::Us => "United States",
        AllergenList::Eu => "European Union and UK",
        AllergenList::Uk => "United Kingdom",
        AllergenList::Ca => "Canada",
        AllergenList::Anz => "Australia, New Zealand",
    }
}

fn grams(number: f64) -> String {
    format!("{} g", print_decimal(tidy(number)))
}

/// `112 to 150 g`, or nothing where there is only one figure.
fn range(weight: &Sourced) -> String {
    let (low, high) = (print_decimal(tidy(weight.low)), print_decimal(tidy(weight.high)));
    if low == high { String::new() } else { format!("{low} to {high} g") }
}

/// `190 g (170 to 225 g) · 6 3/4 oz`
fn spread(spread: &Spread) -> String {
    let mut printed = spread.printed.clone();
    if let Some((first, range)) = printed.first_mut().zip(spread.range.as_ref()) {
        first.push_str(&format!(" ({range})"));
    }
    printed.join(" · ")
}

/// `4`, `3 1/2 large`, `2 cloves`
fn counted((count, unit): &(f64, Option<&'static str>)) -> String {
    let count_in_words = print_number(*count, FractionStyle::default());
    match unit {
        None => count_in_words,
        Some(unit) => {
            format!("{count_in_words} {}", Unit::find(unit).map_or(*unit, |unit| unit.symbol_for(*count)))
        }
    }
}

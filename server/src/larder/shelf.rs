//! Reads a shelf: one table of foods, tab-separated, a food a row.

use std::sync::OnceLock;

use super::cells::{self, cut, lines, list, split};
use super::food::{Density, Each, Edible, Food, Form, Nutrients, Part, Weight};
use super::properties::{Allergen, Diet};

/// A shelf: the name of its file, and its text.
pub type Shelf = (&'static str, &'static str);

/// The header row of every shelf.
const HEADER: &str =
    "name\tsynonyms\tkinds\tcup\tcup_source\tforms\teach\tparts\tedible\tallergens\tbreaks\tnutrients\tnutrient_source";

/// Something on a shelf that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// The shelf's file name.
    pub shelf: &'static str,
    /// Line in the file, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub message: String,
}

/// A row of a shelf. Its figures are read when its food is asked for the first time: a book names some hundreds of the foods here, and a
/// recipe a dozen.
#[derive(Debug)]
pub(super) struct Row {
    text: &'static str,
    food: OnceLock<Option<Box<Food>>>,
}

impl Row {
    fn new(text: &'static str) -> Self {
        Row { text, food: OnceLock::new() }
    }

    /// A food that stands on no shelf.
    pub fn of(food: Food) -> Self {
        Row { text: "", food: OnceLock::from(Some(Box::new(food))) }
    }

    /// The food; nothing where the row has a fault.
    pub fn food(&self) -> Option<&Food> {
        self.food.get_or_init(|| food(self.text).ok().map(Box::new)).as_deref()
    }

    /// The name of the food as it stands here, and then its synonyms.
    pub fn names(&self) -> impl Iterator<Item = &'static str> {
        cells::names(self.text)
    }

    /// What the parts of the food are called, as it stands here.
    pub fn part_names(&self) -> impl Iterator<Item = &'static str> {
        cells::part_names(self.text)
    }
}

/// The rows of a shelf, without comments and header.
pub(super) fn rows(shelf: &Shelf) -> impl Iterator<Item = Row> + use<> {
    cells::rows(shelf.1).map(Row::new)
}

/// Everything on a shelf that cannot be read.
pub(super) fn faults((shelf, text): &Shelf, faults: &mut Vec<Fault>) {
    for (place, (line, row)) in lines(text).enumerate() {
        let read = match place {
            0 if row == HEADER => Ok(()),
            0 => Err(format!("the header row must be `{HEADER}`")),
            _ => food(row).map(drop),
        };
        faults.extend(read.err().map(|message| Fault { shelf, line: line + 1, message }));
    }
}

fn food(row: &'static str) -> Result<Food, String> {
    let mut cells = cells::cells(row);
    let mut cell = || cells.next().unwrap_or_default();
    let (name, synonyms, kinds) = (cell(), cell(), cell());
    let (cup, cup_source, forms, each, parts, edible) = (cell(), cell(), cell(), cell(), cell(), cell());
    let (allergens, breaks, nutrients, nutrient_source) = (cell(), cell(), cell(), cell());
    if name.is_empty() {
        return Err("a food without a name".to_owned());
    }
    if let Some(extra) = cells.next() {
        return Err(format!("`{name}` has a cell too many: `{extra}`"));
    }
    let named = |message: String| format!("`{name}`: {message}");
    Ok(Food {
        name,
        synonyms: list(synonyms).collect(),
        kinds: list(kinds).collect(),
        density: density(cup, cup_source).map_err(named)?,
        forms: list(forms).map(form).collect::<Result<_, _>>().map_err(named)?,
        each: list(each).map(weight_of_one).collect::<Result<_, _>>().map_err(named)?,
        parts: list(parts).map(part).collect::<Result<_, _>>().map_err(named)?,
        edible: edible_share(edible).map_err(named)?,
        allergens: list(allergens).map(allergen).collect::<Result<_, _>>().map_err(named)?,
        breaks: list(breaks).map(diet).collect::<Result<_, _>>().map_err(named)?,
        nutrients: (nutrients, nutrient_source),
        read: OnceLock::new(),
    })
}

fn density(cup: &'static str, source: &'static str) -> Result<Option<Density>, String> {
    if cup.is_empty() {
        return Ok(None);
    }
    if source.is_empty() {
        return Err("the weight of a cup has no source".to_owned());
    }
    let (low, typical, high) = spread(cup)?;
    Ok(Some(Density::of_cup(low, typical, high, source)))
}

/// `sifted=110/115/125@SR26 20081`: grams a cup.
fn form(entry: &'static str) -> Result<Form, String> {
    let (name, (low, typical, high), source) = sourced(entry)?;
    Ok(Form { name, density: Density::of_cup(low, typical, high, source) })
}

/// `clove=3@SR26 11215`: grams.
fn weight_of_one(entry: &'static str) -> Result<Each, String> {
    let (unit, (low, typical, high), source) = sourced(entry)?;
    Ok(Each { unit, weight: Weight::of_grams(low, typical, high, source) })
}

/// `zest`, or with its weight in grams `juice=47@SR26 09152`.
fn part(entry: &'static str) -> Result<Part, String> {
    if !entry.contains('=') {
        return Ok(Part { name: entry, weight: None });
    }
    let (name, (low, typical, high), source) = sourced(entry)?;
    Ok(Part { name, weight: Some(Weight::of_grams(low, typical, high, source)) })
}

/// `88@SR26 11282`: percent.
fn edible_share(cell: &'static str) -> Result<Option<Edible>, String> {
    if cell.is_empty() {
        return Ok(None);
    }
    let (percent, source) = cut(cell, b'@').ok_or_else(|| format!("`{cell}` has no source"))?;
    Ok(Some(Edible { share: number(percent)? / 100.0, source: source.trim_ascii() }))
}

fn allergen(name: &'static str) -> Result<Allergen, String> {
    Allergen::find(name).ok_or_else(|| format!("`{name}` is no allergen"))
}

fn diet(name: &'static str) -> Result<Diet, String> {
    Diet::find(name).ok_or_else(|| format!("`{name}` is no diet"))
}

/// `kcal=364; protein=10.3; fat=0.98; carb=76.3; fibre=2.7; sugars=0.27; sodium=2; alcohol=0`: per 100 g, sodium in mg.
pub(super) fn nutrients(cell: &'static str, source: &'static str) -> Result<Option<Nutrients>, String> {
    if cell.is_empty() {
        return Ok(None);
    }
    if source.is_empty() {
        return Err("the nutrients have no source".to_owned());
    }
    let (mut kcal, mut protein, mut fat, mut carbohydrate) = (None, None, None, None);
    let (mut fibre, mut sugars, mut sodium, mut alcohol) = (None, None, None, None);
    for entry in list(cell) {
        let (name, figure) = cut(entry, b'=').ok_or_else(|| format!("`{entry}` is not NAME=FIGURE"))?;
        let slot = match name {
            "kcal" => &mut kcal,
            "protein" => &mut protein,
            "fat" => &mut fat,
            "carb" => &mut carbohydrate,
            "fibre" => &mut fibre,
            "sugars" => &mut sugars,
            "sodium" => &mut sodium,
            "alcohol" => &mut alcohol,
            _ => return Err(format!("`{name}` is no nutrient")),
        };
        *slot = Some(number(figure)?);
    }
    let (Some(kcal), Some(protein), Some(fat), Some(carbohydrate)) = (kcal, protein, fat, carbohydrate) else {
        return Err("kcal, protein, fat and carb are needed".to_owned());
    };
    Ok(Some(Nutrients { kcal, protein, fat, carbohydrate, fibre, sugars, sodium, alcohol, source }))
}

type Sourced = (&'static str, (f64, f64, f64), &'static str);

/// `NAME=FIGURES@SOURCE`.
fn sourced(entry: &'static str) -> Result<Sourced, String> {
    let (name, rest) = cut(entry, b'=').ok_or_else(|| format!("`{entry}` is not NAME=GRAMS@SOURCE"))?;
    let (figures, source) = cut(rest, b'@').ok_or_else(|| format!("`{entry}` has no source"))?;
    if source.trim_ascii().is_empty() {
        return Err(format!("`{entry}` has no source"));
    }
    Ok((name.trim_ascii(), spread(figures)?, source.trim_ascii()))
}

/// `low/typical/high`, or one figure for all three.
fn spread(figures: &str) -> Result<(f64, f64, f64), String> {
    let mut parts = split(figures, b'/').map(number);
    let (first, second, third, more) = (parts.next(), parts.next(), parts.next(), parts.next());
    match (first, second, third, more) {
        (Some(one), None, None, None) => one.map(|one| (one, one, one)),
        (Some(low), Some(typical), Some(high), None) => {
            let (low, typical, high) = (low?, typical?, high?);
            if low <= typical && typical <= high {
                Ok((low, typical, high))
            } else {
                Err(format!("`{figures}` is not in rising order"))
            }
        }
        _ => Err(format!("`{figures}` is not LOW/TYPICAL/HIGH")),
    }
}

/// A plain decimal. (The standard parser takes three times as long, and half of a shelf is figures.)
fn number(text: &str) -> Result<f64, String> {
    const TENS: [f64; 7] = [1.0, 10.0, 100.0, 1e3, 1e4, 1e5, 1e6];
    let text = text.trim_ascii();
    let (mut value, mut decimals, mut point) = (0_u64, 0, false);
    for byte in text.bytes() {
        match byte {
            b'0'..=b'9' if decimals < 6 && value < 1_000_000_000 => {
                value = value * 10 + u64::from(byte - b'0');
                decimals += usize::from(point);
            }
            b'.' if !point => point = true,
            _ => return Err(format!("`{text}` is no number")),
        }
    }
    let scale = TENS.get(decimals).filter(|_| !text.is_empty() && text != ".");
    scale.map(|scale| value as f64 / scale).ok_or_else(|| format!("`{text}` is no number"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_with_a_fault_is_named_with_its_line() {
        let table = [
            ("\tx", "a food without a name"),
            ("flour\t\t\t125", "`flour`: the weight of a cup has no source"),
            ("flour\t\t\t125/120/130\tSR26 20081", "`flour`: `125/120/130` is not in rising order"),
            ("flour\t\t\ta lot\tSR26 20081", "`flour`: `a lot` is no number"),
            ("flour\t\t\tinf\tSR26 20081", "`flour`: `inf` is no number"),
            ("flour\t\t\t\t\tsifted=115", "`flour`: `sifted=115` has no source"),
            ("flour\t\t\t\t\t\t\t\t\tgrain", "`flour`: `grain` is no allergen"),
            ("a\t\t\t\t\t\t\t\t\t\t\t\t\tb", "`a` has a cell too many: `b`"),
        ];
        for (row, message) in table {
            let text: &'static str = format!("# a comment\n{HEADER}\n{row}\n").leak();
            let mut told = Vec::new();
            faults(&("test.tsv", text), &mut told);
            assert!(rows(&("test.tsv", text)).all(|row| row.food().is_none()), "{row}");
            assert_eq!(told, [Fault { shelf: "test.tsv", line: 3, message: message.to_owned() }]);
        }
    }

    #[test]
    fn every_nutrient_cell_can_be_read() {
        for food in super::super::larder().foods() {
            let (figures, source) = food.nutrients;
            let read = nutrients(figures, source);
            assert!(read.as_ref().is_ok_and(|read| read.is_none() == figures.is_empty()), "{}: {read:?}", food.name);
        }
        assert!(nutrients("kcal=364", "SR26 20081").is_err());
        assert!(nutrients("kcal=364; protein=10; fat=1; carb=76", "").is_err());
        assert!(nutrients("kcal=364; protein=10; fat=1; carb=76; joy=1", "SR26 20081").is_err());
    }

    #[test]
    fn figures_are_plain_decimals() {
        for (text, value) in
            [("0", 0.0), ("12", 12.0), ("0.25", 0.25), (" 113.4 ", 113.4), ("38758", 38758.0), (".5", 0.5)]
        {
            assert_eq!(number(text), Ok(value));
        }
        for text in ["", ".", "1.2.3", "-1", "1e3", "inf", "12345678901", "½"] {
            assert!(number(text).is_err(), "{text}");
        }
    }
}

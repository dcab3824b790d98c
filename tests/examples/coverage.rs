//! How much of what is written in a folder of manuscripts the larder knows, and how many grams it makes of it.
//!
//!     cargo run -p tamis-tests --example coverage -- FOLDER [--missing] [--sample COUNT]
//!
//! `--missing` lists the lines without a food or without grams; `--sample` draws lines to be read by a person: which food, how heavy.

use std::{collections::BTreeMap, path::PathBuf, process::ExitCode, sync::Arc};

use tamis::{
    book::House,
    measure::UnitKind,
    recipe::{Ingredient, Recipe, portions},
    workspace::{Manuscript, read::read, walk},
};
use uom::si::mass::gram;

/// A line that was read.
struct Line {
    text: String,
    foods: Vec<&'static str>,
    measured: &'static str,
    grams: Option<f64>,
}

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let (mut folders, mut missing, mut sample) = (Vec::new(), false, 0);
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--missing" => missing = true,
            "--sample" => sample = arguments.next().and_then(|count| count.parse().ok()).unwrap_or(100),
            folder => folders.push(PathBuf::from(folder)),
        }
    }
    let lines = lines(&folders);
    if lines.is_empty() {
        eprintln!("No ingredient line to read. Name a folder of manuscripts.");
        return ExitCode::FAILURE;
    }
    figures(&lines);
    if missing {
        let lacking = |line: &&Line| line.foods.is_empty() || line.measured != NOT_MEASURED && line.grams.is_none();
        lines.iter().filter(lacking).for_each(print);
    }
    draw(&lines, sample).for_each(print);
    ExitCode::SUCCESS
}

const NOT_MEASURED: &str = "not measured, or by eye";

fn lines(folders: &[PathBuf]) -> Vec<Line> {
    let found = walk::find(folders);
    let house = Arc::new(House::default());
    let manuscripts =
        found.manuscripts.iter().filter_map(|source| Some(Manuscript::new(&read(source).ok()?, Arc::clone(&house))));
    manuscripts
        .flat_map(|manuscript| manuscript.recipes().flat_map(|(_, recipe)| lines_of(recipe)).collect::<Vec<_>>())
        .collect()
}

/// The lines of a recipe that name something to eat; water is not asked for.
fn lines_of(recipe: &Recipe) -> Vec<Line> {
    let measures = House::default().measures;
    let line = |(index, line): (usize, &Ingredient)| {
        let named = line.names.iter().filter(|name| !name.aside).filter_map(|name| name.food);
        let one = portions::asked(recipe, line).map(|asked| asked.food);
        let foods: Vec<_> =
            one.map_or_else(|| named.collect(), |food| vec![food]).into_iter().map(|food| food.name).collect();
        let aside = line.tags.remark || line.reference.is_some() || foods == ["water"];
        let grams = portions::portion_of(recipe, index, &measures).map(|portion| portion.weight.typical.get::<gram>());
        let text = recipe.at(line.span).split_whitespace().collect::<Vec<_>>().join(" ");
        (!aside).then(|| Line { text, foods, measured: measured(recipe, line), grams })
    };
    recipe.ingredients.iter().enumerate().filter_map(line).collect()
}

fn measured(recipe: &Recipe, line: &Ingredient) -> &'static str {
    let Some(stated) = line.amount.map(|index| &recipe.measures[index].stated) else { return NOT_MEASURED };
    match stated.kind() {
        Some(UnitKind::Volume) => "by volume",
        Some(UnitKind::Weight) => "by weight",
        Some(UnitKind::Count) if stated.unit().is_none() => "counted, the food itself",
        Some(UnitKind::Count) => "counted, by a unit",
        _ => NOT_MEASURED,
    }
}

fn figures(lines: &[Line]) {
    let share =
        |part: usize, whole: usize| format!("{part} of {whole}, {:.1} %", 100.0 * part as f64 / whole.max(1) as f64);
    let known = lines.iter().filter(|line| !line.foods.is_empty());
    println!("lines whose food is known: {}", share(known.count(), lines.len()));
    let mut by_measure: BTreeMap<&str, (usize, usize)> = BTreeMap::new();
    for line in lines.iter().filter(|line| !line.foods.is_empty()) {
        let entry = by_measure.entry(line.measured).or_default();
        *entry = (entry.0 + usize::from(line.grams.is_some()), entry.1 + 1);
    }
    for (measured, (weighed, all)) in by_measure {
        println!("  {measured}, in grams: {}", share(weighed, all));
    }
}

fn print(line: &Line) {
    let grams = line.grams.map_or("-".to_owned(), |grams| format!("{grams:.1} g"));
    println!("{}\n    {} · {} · {grams}", line.text, line.foods.join(" + "), line.measured);
}

/// The same lines in each run: a draw by multiplication, without another crate.
fn draw(lines: &[Line], count: usize) -> impl Iterator<Item = &Line> {
    let mut order: Vec<usize> = (0..lines.len()).collect();
    order.sort_by_key(|index| (*index as u64 + 1).wrapping_mul(0x9E37_79B9_7F4A_7C15).rotate_left(29));
    order.into_iter().take(count).map(|index| &lines[index])
}

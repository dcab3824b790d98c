//! From the tables as they are written to the house style: what the words mean, and whether there are foods and checks of these names.

use super::Places;
use super::faults::{StyleFault, unknown};
use super::foods::{self, folded, same, unknown_food};
use super::style;
use super::tables::{
    Country, CupWord, GradeWord, MeasuresTable, PintWord, RequiredLabel, RequiredSection, ScaleWord, Sheet, StepsTable,
    TablespoonWord,
};
use crate::book::near::nearest;
use crate::book::{Grade, House, Severity};
use crate::larder::{AllergenList, larder};
use crate::measure::{Cup, Measures, Pint, Scale, Steps, Tablespoon, Tolerances, print_decimal};
use crate::recipe::SectionKind;

/// The house style that the tables describe.
pub(super) fn house(sheet: &Sheet, checks: &[&str], places: &Places<'_>, faults: &mut Vec<StyleFault>) -> House {
    let mut house = House { measures: measures(&sheet.measures), ..House::default() };
    if let Some(sections) = &sheet.required_sections {
        house.required = sections.iter().filter_map(|section| section_kind(*section).ok()).collect();
        house.required_prose = sections.iter().filter_map(|section| section_kind(*section).err()).collect();
    }
    house.labels = sheet.required_labels.iter().map(|label| label_name(*label)).collect();
    house.setting = style::setting(&sheet.style, places, faults);
    house.actions = sheet.style.actions_in_a_step.map(|most| usize::try_from(most).unwrap_or(usize::MAX));
    house.allergens = sheet.allergens.map(allergen_list).unwrap_or_default();
    tolerances(sheet, &mut house.tolerances, places, faults);
    house.foods = foods::foods(sheet, house.measures.cup, places, faults);
    house.unlisted = exempt(sheet, places, faults);
    for (code, word) in &sheet.checks {
        if checks.contains(&code.as_str()) {
            house.grades.insert(code.clone(), grade(*word));
        } else {
            let near = nearest(code, checks.iter().copied());
            let message = unknown("check", code, near, "`tamis explain` lists them all.");
            faults.push(StyleFault::new(places.key(&["checks", code]), message));
        }
    }
    // What the house asks for is looked for, though nobody else is bothered with it.
    let asked =
        [("metric-missing", sheet.style.restate_metric == Some(true)), ("step-overloaded", house.actions.is_some())];
    for (code, _) in asked.into_iter().filter(|(code, asked)| *asked && checks.contains(code)) {
        house.grades.entry(code.to_owned()).or_insert(Grade::As(Severity::Hint));
    }
    house
}

/// Where the other measures are left out, they go with the cup.
fn measures(table: &MeasuresTable) -> Measures {
    let cup = table.cup.unwrap_or(CupWord::Us);
    Measures {
        cup: match cup {
            CupWord::Us => Cup::UsCustomary,
            CupWord::UsLegal => Cup::UsLegal,
            CupWord::Metric => Cup::Metric,
            CupWord::Imperial => Cup::Imperial,
        },
        tablespoon: match (table.tablespoon, cup) {
            (Some(TablespoonWord::Us), _) | (None, CupWord::Us) => Tablespoon::UsCustomary,
            (Some(TablespoonWord::Metric), _) | (None, CupWord::UsLegal | CupWord::Metric) => Tablespoon::Metric,
            (Some(TablespoonWord::Australian), _) => Tablespoon::Australian,
            (Some(TablespoonWord::Imperial), _) | (None, CupWord::Imperial) => Tablespoon::Imperial,
        },
        pint: match (table.pint, cup) {
            (Some(PintWord::Imperial), _) | (None, CupWord::Imperial) => Pint::Imperial,
            _ => Pint::Us,
        },
        scale: match (table.degrees, cup) {
            (Some(ScaleWord::Celsius), _) | (None, CupWord::Metric) => Scale::Celsius,
            _ => Scale::Fahrenheit,
        },
    }
}

/// What the section holds, or the heading of one that holds prose.
fn section_kind(section: RequiredSection) -> Result<SectionKind, &'static str> {
    match section {
        RequiredSection::Equipment => Ok(SectionKind::Equipment),
        RequiredSection::Ingredients => Ok(SectionKind::Ingredients),
        RequiredSection::Method => Ok(SectionKind::Method),
        RequiredSection::Tests => Ok(SectionKind::Tests),
        RequiredSection::Notes => Err("Notes"),
        RequiredSection::Storage => Err("Storage"),
        RequiredSection::MakeAhead => Err("Make ahead"),
        RequiredSection::Variations => Err("Variations"),
    }
}

fn label_name(label: RequiredLabel) -> &'static str {
    match label {
        RequiredLabel::Yield => "Yield",
        RequiredLabel::Serves => "Serves",
        RequiredLabel::Time => "Time",
        RequiredLabel::Course => "Course",
        RequiredLabel::Cuisine => "Cuisine",
        RequiredLabel::Diet => "Diet",
        RequiredLabel::Allergens => "Allergens",
        RequiredLabel::Author => "Author",
        RequiredLabel::Photo => "Photo",
        RequiredLabel::Keywords => "Keywords",
        RequiredLabel::Status => "Status",
    }
}

fn allergen_list(country: Country) -> AllergenList {
    match country {
        Country::Us => AllergenList::Us,
        Country::Eu => AllergenList::Eu,
        Country::Uk => AllergenList::Uk,
        Country::Ca => AllergenList::Ca,
        Country::Anz => AllergenList::Anz,
    }
}

fn grade(word: GradeWord) -> Grade {
    match word {
        GradeWord::Off => Grade::Off,
        GradeWord::Hint => Grade::As(Severity::Hint),
        GradeWord::Info => Grade::As(Severity::Info),
        GradeWord::Warning => Grade::As(Severity::Warning),
        GradeWord::Error => Grade::As(Severity::Error),
    }
}

fn tolerances(sheet: &Sheet, tolerances: &mut Tolerances, places: &Places<'_>, faults: &mut Vec<StyleFault>) {
    let table = &sheet.tolerances;
    let all = [
        ("same-kind", &table.same_kind, 100.0, &mut tolerances.same_kind),
        ("volume-to-weight", &table.volume_to_weight, 100.0, &mut tolerances.by_density),
        ("oven", &table.oven, 1.0, &mut tolerances.degrees),
    ];
    for (name, table, unit, steps) in all {
        match risen(table, unit, steps) {
            Ok(new) => *steps = new,
            Err(message) => faults.push(StyleFault::new(places.key(&["tolerances", name]), message)),
        }
    }
}

/// The steps that the house writes, those it leaves out as they were; `unit` of them make a one. They have to rise.
fn risen(table: &StepsTable, unit: f64, usual: &Steps) -> Result<Steps, String> {
    let or = |written: Option<f64>, usual: f64| written.map_or(usual, |number| number / unit);
    let query = table.info.map(|number| number / unit).or(usual.query);
    let new = Steps { query, misleading: or(table.warning, usual.misleading), wrong: or(table.error, usual.wrong) };
    let least = new.query.unwrap_or(new.misleading);
    if 0.0 <= least && least <= new.misleading && new.misleading <= new.wrong {
        return Ok(new);
    }
    let print = |share: f64| print_decimal(share * unit);
    let query = new.query.map(|query| format!("info {}, ", print(query))).unwrap_or_default();
    Err(format!(
        "These do not rise: {query}warning {}, error {}. None may be below 0 or smaller than the one before; one that is left out \
         keeps its usual figure.",
        print(new.misleading),
        print(new.wrong)
    ))
}

/// Exempt foods, which have to be foods or kinds of food that are known.
fn exempt(sheet: &Sheet, places: &Places<'_>, faults: &mut Vec<StyleFault>) -> Vec<String> {
    let own = |name: &str| {
        let names = sheet.foods.iter().flat_map(|(food, table)| std::iter::once(food).chain(&table.also));
        names.into_iter().any(|own| same(own, name))
    };
    let mut exempt = Vec::new();
    for (index, name) in sheet.exempt.iter().enumerate() {
        match larder().kind(&folded(name)) {
            Some(kind) => exempt.push(kind.to_owned()),
            None if own(name) || larder().food(name).is_some() => exempt.push(name.clone()),
            None => faults.push(StyleFault::new(places.element(&["exempt"], index), unknown_food(name))),
        }
    }
    exempt
}

//! The facts of a food for another program: grams, millilitres, and the words of the page.

use std::collections::BTreeMap;

use serde::Serialize;

use super::CAUTION;
use crate::assist::{Facts, Sourced, Spread};
use crate::larder::AllergenList;

/// One JSON object on one line.
pub fn show(facts: &Facts) -> String {
    // Nothing in it can fail: its keys are strings, and the larder holds no number that JSON has not.
    format!("{}\n", serde_json::to_string(&FactsJson::of(facts)).unwrap_or_default())
}

#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct FactsJson<'f> {
    food: &'f str,
    synonyms: &'f [&'static str],
    kinds: &'f [&'static str],
    part: Option<&'f str>,
    form: Option<&'f str>,
    amount: Option<AmountJson<'f>>,
    cup: CupJson,
    each: Vec<WeightJson>,
    parts: Vec<PartJson>,
    edible: Option<EdibleJson>,
    /// What each list would have declared: `us`, `eu`, and that of the house where it goes by another.
    allergens: BTreeMap<&'static str, &'f [&'static str]>,
    not_for: Vec<&'static str>,
    nutrients: Option<NutrientsJson>,
    caution: &'static str,
}

#[derive(Serialize)]
struct AmountJson<'f> {
    asked: &'f str,
    grams: Option<SpreadJson<'f>>,
    millilitres: Option<SpreadJson<'f>>,
    counts: Vec<CountJson>,
    basis: &'f [String],
}

/// `high` is null where the amount is open above.
#[derive(Serialize)]
struct SpreadJson<'f> {
    low: f64,
    least: f64,
    most: Option<f64>,
    high: Option<f64>,
    printed: &'f [String],
}

#[derive(Serialize)]
struct CountJson {
    count: f64,
    of: Option<&'static str>,
}

#[derive(Serialize)]
struct CupJson {
    millilitres: f64,
    holds: Vec<WeightJson>,
}

/// Grams.
#[derive(Serialize)]
struct WeightJson {
    what: Option<&'static str>,
    low: f64,
    typical: f64,
    high: f64,
    source: &'static str,
}

#[derive(Serialize)]
struct PartJson {
    part: &'static str,
    grams: Option<WeightJson>,
}

#[derive(Serialize)]
struct EdibleJson {
    percent: f64,
    source: &'static str,
}

/// Per 100 g of what is eaten: kcal, g, and mg of sodium. What is not published is null, which is not zero.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct NutrientsJson {
    kcal: f64,
    protein: f64,
    fat: f64,
    carbohydrate: f64,
    fibre: Option<f64>,
    sugars: Option<f64>,
    sodium_mg: Option<f64>,
    alcohol: Option<f64>,
    source: &'static str,
}

impl<'f> FactsJson<'f> {
    fn of(facts: &'f Facts) -> Self {
        let held = |(list, held): &'f (AllergenList, Vec<&'static str>)| (code(*list), held.as_slice());
        let part =
            |(part, grams): &(&'static str, Option<Sourced>)| PartJson { part, grams: grams.as_ref().map(weight) };
        FactsJson {
            food: facts.food.name,
            synonyms: &facts.food.synonyms,
            kinds: &facts.food.kinds,
            part: facts.part,
            form: facts.form,
            amount: facts.amounts.as_ref().map(|amounts| AmountJson {
                asked: &amounts.asked,
                grams: amounts.weight.as_ref().map(spread),
                millilitres: amounts.volume.as_ref().map(spread),
                counts: amounts.counts.iter().map(|(count, of)| CountJson { count: *count, of: *of }).collect(),
                basis: &amounts.basis,
            }),
            cup: CupJson {
                millilitres: tenth(facts.cup.millilitres()),
                holds: facts.cupfuls.iter().map(weight).collect(),
            },
            each: facts.each.iter().map(weight).collect(),
            parts: facts.parts.iter().map(part).collect(),
            edible: facts
                .edible
                .map(|edible| EdibleJson { percent: tenth(edible.share * 100.0), source: edible.source }),
            allergens: facts.allergens.iter().map(held).collect(),
            not_for: facts.breaks.iter().map(|diet| diet.name()).collect(),
            nutrients: facts.nutrients.map(|nutrients| NutrientsJson {
                kcal: nutrients.kcal,
                protein: nutrients.protein,
                fat: nutrients.fat,
                carbohydrate: nutrients.carbohydrate,
                fibre: nutrients.fibre,
                sugars: nutrients.sugars,
                sodium_mg: nutrients.sodium,
                alcohol: nutrients.alcohol,
                source: nutrients.source,
            }),
            caution: CAUTION,
        }
    }
}

fn weight(weight: &Sourced) -> WeightJson {
    let (low, typical, high) = (tenth(weight.low), tenth(weight.typical), tenth(weight.high));
    WeightJson { what: weight.what, low, typical, high, source: weight.source }
}

fn spread(spread: &Spread) -> SpreadJson<'_> {
    SpreadJson {
        low: tenth(spread.low),
        least: tenth(spread.typical.least),
        most: spread.typical.most.map(tenth),
        high: Some(spread.high).filter(|high| high.is_finite()).map(tenth),
        printed: &spread.printed,
    }
}

/// As the style sheet names the list.
fn code(list: AllergenList) -> &'static str {
    match list {
        AllergenList::Us => "us",
        AllergenList::Eu => "eu",
        AllergenList::Uk => "uk",
        AllergenList::Ca => "ca",
        AllergenList::Anz => "anz",
    }
}

fn tenth(number: f64) -> f64 {
    (number * 10.0).round() / 10.0
}

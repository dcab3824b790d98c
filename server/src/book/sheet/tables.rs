//! The house style sheet as it is written. What is said here of a key is what the JSON Schema says of it.

use std::collections::BTreeMap;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::Deserialize;

use crate::larder::{Allergen, Diet};

/// The house style of the manuscripts in this folder and in the folders below it. What is left out stays as in a US manuscript with
/// metric measures restated.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(title = "Tamis house style")]
pub struct Sheet {
    /// The sections that every recipe must have. Ingredients and method, unless said otherwise.
    pub required_sections: Option<Vec<RequiredSection>>,
    /// The labels that every recipe must have above its sections: `["serves", "time"]`.
    pub required_labels: Vec<RequiredLabel>,
    /// Foods, or kinds of food, that a step may use without their being listed, besides water, ice and a pinch of salt or pepper:
    /// `["olive oil", "spice"]`.
    pub exempt: Vec<String>,
    /// Whose law says which allergens a recipe declares. The United States', unless said otherwise.
    pub allergens: Option<Country>,
    /// What a measure means that does not say by itself.
    pub measures: MeasuresTable,
    /// How measures are set, and how steps are cut.
    pub style: StyleTable,
    /// How far an amount and its restatement may be apart before something is said.
    pub tolerances: TolerancesTable,
    /// What a cup of a food weighs in this house, in grams, level, in the cup that the house uses:
    /// `"all-purpose flour" = 120`.
    #[schemars(schema_with = "grams")]
    pub weights: BTreeMap<String, f64>,
    /// Foods that the larder does not know, or does not know by these names, each in a table of its own: `[foods."nettle flour"]`.
    pub foods: BTreeMap<String, FoodTable>,
    /// How bad the findings of a check are in this house, by the check's name: `order-of-use = "off"`.
    pub checks: BTreeMap<String, GradeWord>,
}

/// A section that can be required.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RequiredSection {
    /// Things to cook with.
    Equipment,
    /// The list.
    Ingredients,
    /// The steps.
    Method,
    /// What was tried in the kitchen.
    Tests,
    /// Remarks.
    Notes,
    /// How to keep it, and how long.
    Storage,
    /// What can be done beforehand.
    MakeAhead,
    /// How it can be done otherwise.
    Variations,
}

/// A label that can be required.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RequiredLabel {
    /// How much it makes.
    Yield,
    /// For how many it is.
    Serves,
    /// How long it takes.
    Time,
    /// When it is eaten.
    Course,
    /// Where it comes from.
    Cuisine,
    /// Whom it suits.
    Diet,
    /// What it holds that some must not eat.
    Allergens,
    /// Who wrote it.
    Author,
    /// Its picture.
    Photo,
    /// Words to find it by.
    Keywords,
    /// How far it has come on the desk.
    Status,
}

/// A list of allergens.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Country {
    /// United States: the nine major food allergens.
    Us,
    /// European Union: the fourteen of annex II.
    Eu,
    /// United Kingdom: the same fourteen.
    Uk,
    /// Canada: priority allergens, gluten sources and sulphites.
    Ca,
    /// Australia and New Zealand.
    Anz,
}

/// What a measure means that does not say by itself.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
pub struct MeasuresTable {
    /// Which cup. Where the other measures are left out, they go with it.
    pub cup: Option<CupWord>,
    /// Which tablespoon; the teaspoon goes with it.
    pub tablespoon: Option<TablespoonWord>,
    /// Whose pint; the fluid ounce, gill, quart and gallon go with it.
    pub pint: Option<PintWord>,
    /// The scale of degrees that do not say which: `bake at 350°`.
    pub degrees: Option<ScaleWord>,
}

/// A cup.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CupWord {
    /// US customary, 236.6 ml.
    Us,
    /// 240 ml, the cup of US nutrition labels.
    UsLegal,
    /// 250 ml: Australia, New Zealand, Canada, South Africa.
    Metric,
    /// 284 ml, half an imperial pint.
    Imperial,
}

/// A tablespoon.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum TablespoonWord {
    /// US customary, 14.8 ml.
    Us,
    /// 15 ml.
    Metric,
    /// 20 ml.
    Australian,
    /// 17.8 ml, as in old British books.
    Imperial,
}

/// A pint.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PintWord {
    /// 473 ml, 16 US fluid ounces.
    Us,
    /// 568 ml, 20 imperial fluid ounces.
    Imperial,
}

/// A scale of degrees.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum ScaleWord {
    /// °F
    Fahrenheit,
    /// °C
    Celsius,
}

/// How measures are set, and how steps are cut. What is left out may be as each recipe has it, as long as a recipe keeps to one way.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
pub struct StyleTable {
    /// How fractions are set.
    pub fractions: Option<FractionWord>,
    /// How ranges are set.
    pub ranges: Option<RangeWord>,
    /// How units of volume and weight are set.
    pub units: Option<UnitsWord>,
    /// Units that are spelt in one way, whatever holds for the others: `tablespoon = "Tbsp."`, `cup = "cup/cups"` where more than one
    /// is spelt otherwise.
    pub spellings: BTreeMap<String, String>,
    /// Whether customary measures are restated in metric ones. Turns the check `metric-missing` on.
    pub restate_metric: Option<bool>,
    /// The most things that one step may tell a cook to do. Turns the check `step-overloaded` on.
    #[schemars(range(min = 1))]
    pub actions_in_a_step: Option<u64>,
}

/// How fractions are set.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FractionWord {
    /// `1 1/2`
    Slash,
    /// `1½`
    Glyph,
    /// `1.5`; thirds stay fractions.
    Decimal,
}

/// How ranges are set.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RangeWord {
    /// `2 to 3`
    To,
    /// `2–3`
    EnDash,
    /// `2-3`
    Hyphen,
}

/// How units are set.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum UnitsWord {
    /// `tbsp`, `oz`
    Short,
    /// `tablespoons`, `ounces`; metric units stay short.
    Long,
}

/// How far an amount and its restatement may be apart.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
pub struct TolerancesTable {
    /// Two measures of one kind, `2 cups (475 ml)`: in percent of what stands first. 5, 12.5 and 25, unless said otherwise.
    pub same_kind: StepsTable,
    /// A volume and a weight, `1 cup (120 g)`: in percent beyond what a cup of the food can weigh. 20 for a warning and 50 for an
    /// error, unless said otherwise.
    pub volume_to_weight: StepsTable,
    /// Two oven temperatures, in °C. 6 for a warning and 15 for an error, unless said otherwise.
    pub oven: StepsTable,
}

/// From which difference on something is said, and how loudly. Each is larger than the one before.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
pub struct StepsTable {
    /// Above this an editor would ask.
    pub info: Option<f64>,
    /// Above this it misleads.
    pub warning: Option<f64>,
    /// Above this one of the two is wrong.
    pub error: Option<f64>,
}

/// A food that the house knows besides; or, under the name of one that the larder has, what the house knows besides of that one.
#[derive(Debug, Default, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields, rename_all = "kebab-case")]
pub struct FoodTable {
    /// Its other names, in the singular.
    pub also: Vec<String>,
    /// What kind of food it is, the narrowest first: `["flour", "dry"]`. A step may speak of it by these words.
    pub kinds: Vec<String>,
    /// What one of it weighs, in grams, by size or by what it is counted in: `{ large = 60, bunch = 100 }`; `one` for a bare count.
    #[schemars(schema_with = "grams")]
    pub each: BTreeMap<String, f64>,
    /// What a method takes it apart into: `["zest", "juice"]`.
    pub parts: Vec<String>,
    /// The allergens it holds. For a food that the larder has, these stand in the place of the larder's.
    #[schemars(schema_with = "allergen_names")]
    pub allergens: Option<Vec<String>>,
    /// The diets it has no place in. For a food that the larder has, these stand in the place of the larder's.
    #[schemars(schema_with = "diet_names")]
    pub not_for: Option<Vec<String>>,
}

/// How bad the findings of a check are.
#[derive(Debug, Clone, Copy, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum GradeWord {
    /// The check does not run.
    Off,
    /// A matter of style.
    Hint,
    /// An editor would query it.
    Info,
    /// It will mislead or fail some readers.
    Warning,
    /// The recipe cannot be followed as written.
    Error,
}

fn grams(_: &mut SchemaGenerator) -> Schema {
    json_schema!({ "type": "object", "additionalProperties": { "type": "number", "exclusiveMinimum": 0 } })
}

fn allergen_names(_: &mut SchemaGenerator) -> Schema {
    names(&Allergen::ALL.map(Allergen::name))
}

fn diet_names(_: &mut SchemaGenerator) -> Schema {
    names(&Diet::ALL.map(Diet::name))
}

fn names(names: &[&str]) -> Schema {
    json_schema!({ "type": "array", "items": { "enum": names } })
}

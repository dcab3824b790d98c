//! What looking up a free name gives.

use super::food::{Food, Form};
use super::properties::{Allergen, Diet};
use crate::text::Span;

/// The food that a name means, and what else the name says of it. Spans are in the name.
#[derive(Debug, Clone, PartialEq)]
pub struct Found<'l> {
    /// The food.
    pub food: &'l Food,
    /// The words that say so, from the first to the last.
    pub span: Span,
    /// The parts of it that are meant: zest and juice in "zest and juice of 1 lemon". Empty when the whole is.
    pub parts: Vec<&'l str>,
    /// The longest of the food's forms that the name states anywhere, and where: "chopped" in "walnuts, chopped".
    pub form: Option<(&'l Form, Span)>,
    /// Diets that the name itself claims to fit: "vegan butter", "gluten-free flour".
    pub claims: Vec<Diet>,
    /// The slip, when a word had to be corrected.
    pub misspelt: Option<Slip>,
    /// Whether the name can hardly mean another food. Not so when an unknown word follows the food ("chicken dinner") or two foods
    /// stand together that the larder does not know as one ("hazelnut milk").
    pub certain: bool,
}

/// A misspelt word of a name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Slip {
    /// Where it stands.
    pub span: Span,
    /// The word that was most likely meant, folded.
    pub meant: String,
}

impl Found<'_> {
    /// Whether it holds this allergen, as far as the name does not say that it is made without.
    pub fn holds(&self, allergen: Allergen) -> bool {
        self.food.holds(allergen) && !self.claims.iter().any(|claim| claim.rules_out(allergen))
    }

    /// Whether it has no place in this diet, as far as the name does not claim that it has.
    pub fn breaks(&self, diet: Diet) -> bool {
        self.food.breaks(diet) && !self.claims.iter().any(|claim| claim.implies(diet))
    }
}

//! The checks. Each has a folder: its rule and its fixes in `mod.rs`, its page, examples and sources in `docs.md`.
//!
//! A check is a pure function over one recipe, the house style and the book. Adding one touches its folder and one line of [`CHECKS`].

mod amount_implausible;
mod amount_zero;
mod changed_since_test;
mod copy_to_come;
mod count_disagrees;
mod cross_reference_broken;
mod cross_reference_circular;
mod dash_style;
mod discarded_used;
mod divided_missing;
mod divided_needless;
mod equipment_unlisted;
mod equipment_unused;
mod finding;
mod form_disagrees;
mod fraction_style;
mod group_disagrees;
mod ingredient_unlisted;
mod ingredient_unused;
mod label_missing;
mod label_unknown;
mod listed_twice;
mod listed_without_amount;
mod measure_loose;
mod mention_ambiguous;
mod mention_unmarked;
mod metric_missing;
mod number_malformed;
mod optional_needed;
mod order_of_use;
mod oven_heated_early;
mod oven_heated_unused;
mod oven_not_heated;
mod page_number_typed;
mod pan_not_prepared;
mod pan_size_disagrees;
mod part_unused;
mod part_used_up;
mod portions_over;
mod portions_short;
mod promised_unlisted;
mod pronoun_unclear;
mod query_open;
mod range_reversed;
mod reserved_missing;
mod reserved_unused;
mod rest_of_nothing;
mod restated_disagrees;
mod restated_other_cup;
mod result_unused;
mod result_used_early;
mod result_used_up;
mod run;
mod salt_kind_unsaid;
mod section_empty;
mod section_missing;
mod section_order;
mod serves_implausible;
mod share_exceeds;
mod share_left_over;
mod spelling_of_unit;
mod step_numbering;
mod step_overloaded;
mod step_without_end;
mod stet_unused;
mod stet_without_reason;
mod subrecipe_short;
pub(crate) mod support;
mod temperature_implausible;
mod time_implausible;
mod time_total;
mod title_twice;
mod unit_ambiguous;
mod unit_unknown;
mod unit_wrong_kind;
mod untested;
mod used_again;
mod vessel_nearly_empty;
mod vessel_overfilled;
mod weight_unlike_the_book;
mod word_repeated;
mod worked;
mod yield_missing;

pub use finding::{Certainty, Finding, Fix, Severity};
pub use run::run;
pub use worked::Worked;

use crate::{
    book::{Habits, House, Titles},
    recipe::Recipe,
};

/// What a check sees.
#[derive(Debug, Clone, Copy)]
pub struct View<'v> {
    /// The recipe.
    pub recipe: &'v Recipe,
    /// The house style.
    pub house: &'v House,
    /// What the other recipes of the book do.
    pub habits: &'v Habits,
    /// What they are called, and which asks for which.
    pub titles: Titles<'v>,
    /// For each stet of the recipe, whether it silenced anything; empty while the checks that it could silence still run.
    pub stets_used: &'v [bool],
    /// What the checks have worked out of the recipe so far.
    pub worked: &'v Worked<'v>,
}

/// One check.
#[derive(Debug, Clone, Copy)]
pub struct Check {
    /// Its code: plain words of the trade that name the fault.
    pub code: &'static str,
    /// How badly its findings hurt at most, unless the house says otherwise.
    pub severity: Severity,
    /// Whether it runs where the house does not ask for it.
    pub on: bool,
    /// Its page: what, why it matters, examples, sources.
    pub docs: &'static str,
    /// The rule.
    pub find: fn(&View<'_>, &mut Vec<Finding>),
}

/// Every check, in the order of the manual.
pub static CHECKS: &[Check] = &[
    ingredient_unused::CHECK,
    ingredient_unlisted::CHECK,
    mention_ambiguous::CHECK,
    share_exceeds::CHECK,
    share_left_over::CHECK,
    rest_of_nothing::CHECK,
    result_unused::CHECK,
    result_used_early::CHECK,
    result_used_up::CHECK,
    part_unused::CHECK,
    part_used_up::CHECK,
    used_again::CHECK,
    count_disagrees::CHECK,
    form_disagrees::CHECK,
    group_disagrees::CHECK,
    reserved_unused::CHECK,
    reserved_missing::CHECK,
    discarded_used::CHECK,
    optional_needed::CHECK,
    pronoun_unclear::CHECK,
    promised_unlisted::CHECK,
    pan_not_prepared::CHECK,
    order_of_use::CHECK,
    divided_missing::CHECK,
    divided_needless::CHECK,
    equipment_unused::CHECK,
    equipment_unlisted::CHECK,
    listed_twice::CHECK,
    listed_without_amount::CHECK,
    mention_unmarked::CHECK,
    oven_not_heated::CHECK,
    oven_heated_unused::CHECK,
    oven_heated_early::CHECK,
    step_without_end::CHECK,
    time_total::CHECK,
    time_implausible::CHECK,
    step_numbering::CHECK,
    step_overloaded::CHECK,
    restated_disagrees::CHECK,
    restated_other_cup::CHECK,
    weight_unlike_the_book::CHECK,
    pan_size_disagrees::CHECK,
    unit_unknown::CHECK,
    number_malformed::CHECK,
    range_reversed::CHECK,
    amount_zero::CHECK,
    amount_implausible::CHECK,
    unit_wrong_kind::CHECK,
    unit_ambiguous::CHECK,
    salt_kind_unsaid::CHECK,
    metric_missing::CHECK,
    temperature_implausible::CHECK,
    vessel_overfilled::CHECK,
    vessel_nearly_empty::CHECK,
    portions_short::CHECK,
    portions_over::CHECK,
    yield_missing::CHECK,
    serves_implausible::CHECK,
    query_open::CHECK,
    copy_to_come::CHECK,
    label_unknown::CHECK,
    label_missing::CHECK,
    section_missing::CHECK,
    section_order::CHECK,
    stet_unused::CHECK,
    stet_without_reason::CHECK,
    untested::CHECK,
    changed_since_test::CHECK,
    title_twice::CHECK,
    cross_reference_broken::CHECK,
    cross_reference_circular::CHECK,
    subrecipe_short::CHECK,
    page_number_typed::CHECK,
    measure_loose::CHECK,
    section_empty::CHECK,
    word_repeated::CHECK,
    fraction_style::CHECK,
    dash_style::CHECK,
    spelling_of_unit::CHECK,
];

/// The check of this code.
pub fn check(code: &str) -> Option<&'static Check> {
    CHECKS.iter().find(|check| check.code == code)
}

//! The recipe for more or for fewer: every amount of the list, of the method and of what it makes, taken so many times. Times,
//! temperatures and vessels do not follow from numbers, and are left to whoever cooks.

use std::collections::BTreeSet;

use super::wording::{one_line, plural};
use crate::{
    book::House,
    checks::support::{restating, rewriting, setting, words},
    larder::words::fold,
    measure::{Amount, Style, System, Unit, UnitKind, UnitStyle, print_decimal, print_interval, times},
    recipe::{
        Ingredient, Recipe,
        measures::{Measure, Place, Stated},
        mentions::Share,
        vessels::vessels,
        yields,
    },
    text::{Edit, Span},
};

/// For so many at most a recipe is written.
pub const MOST: f64 = 10_000.0;

/// A recipe taken so many times.
#[derive(Debug, Clone, PartialEq)]
pub struct Scaled {
    /// The edits, in order.
    pub edits: Vec<Edit>,
    /// What has been done, and what is left to be looked at, in a sentence or two.
    pub told: String,
}

/// For how many the recipe is, by what it serves, else by what it makes.
pub fn serves(recipe: &Recipe, house: &House) -> Option<f64> {
    let served = yields::servings(recipe).map(|(count, _)| count);
    let made = || yields::stated(recipe, &house.measures).first().map(|portions| portions.count);
    let bare = || yields::bare_number(recipe).map(|(count, _)| count);
    served.or_else(made).or_else(bare).map(|count| count.middle()).filter(|count| *count > 0.0)
}

/// How much of a recipe is wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Wanted {
    /// Enough for so many.
    For(f64),
    /// So many times as much.
    Times(f64),
}

/// The edits that make it a recipe for as much as is wanted.
///
/// # Errors
/// In words, where nothing says for how many it is, or what is wanted is no number of people or of times.
pub fn scale(recipe: &Recipe, house: &House, wanted: Wanted) -> Result<Scaled, String> {
    let factor = match wanted {
        Wanted::For(to) if !(to > 0.0 && to <= MOST) => {
            return Err(format!("A recipe is for more than none and for at most {MOST} people."));
        }
        Wanted::Times(times) if !(times > 0.0 && times <= MOST) => {
            return Err(format!("A recipe is taken more than no times and at most {MOST} times."));
        }
        Wanted::For(to) => match serves(recipe, house) {
            Some(from) => to / from,
            None => {
                let words = "Nothing says for how many this recipe is. Write “Serves: 4” below its title first.";
                return Err(words.to_owned());
            }
        },
        Wanted::Times(times) => times,
    };
    let style = setting::style_in(recipe, house);
    let style = Style { units: house.setting.units.unwrap_or_else(|| own_units(recipe)), ..style };
    let scaler = Scaler { recipe, house, style, factor, taken: taken(recipe) };
    let mut edits: Vec<Edit> =
        (0..recipe.measures.len()).flat_map(|index| scaler.measure(index).unwrap_or_default()).collect();
    edits.extend(scaler.portions());
    edits.sort();
    edits.dedup();
    edits.retain(|edit| recipe.at(edit.span) != edit.text);
    Ok(Scaled { edits, told: scaler.told(wanted) })
}

/// The measures of the method that say how much of something goes in or comes out.
fn taken(recipe: &Recipe) -> BTreeSet<usize> {
    let shares = recipe.flow.mentions.iter().flat_map(|mention| {
        match mention.share {
            Share::Amount(index) | Share::AllBut(index) | Share::RestAmount(index) => Some(index),
            // A third of it stays a third of it.
            Share::Fraction(..) => None,
            _ => mention.measure,
        }
    });
    let unlisted = recipe.flow.unlisted.iter().map(|unlisted| unlisted.measure);
    shares.chain(unlisted.flatten()).collect()
}

/// How a recipe writes its units: `tablespoons` where it has those and no `tbsp`.
fn own_units(recipe: &Recipe) -> UnitStyle {
    let written =
        setting::terms(recipe).into_iter().filter_map(|(_, term)| Some((term.amount()?.unit?, recipe.at(term.unit?))));
    let mut ways = written.filter(|(unit, _)| unit.symbol() != unit.name() && unit.system() == Some(System::Customary));
    let is_long = |(unit, word): (Unit, &str)| {
        let word = word.trim().trim_start_matches(HYPHENS);
        word.eq_ignore_ascii_case(unit.name()) || word.eq_ignore_ascii_case(unit.plural())
    };
    match ways.next() {
        Some(first) if is_long(first) && ways.all(is_long) => UnitStyle::Long,
        _ => UnitStyle::Short,
    }
}

struct Scaler<'r> {
    recipe: &'r Recipe,
    house: &'r House,
    style: Style,
    factor: f64,
    taken: BTreeSet<usize>,
}

impl Scaler<'_> {
    /// The edits of one measure; nothing where it stays as it is.
    fn measure(&self, index: usize) -> Option<Vec<Edit>> {
        let measure = self.recipe.measures.get(index)?;
        let follows = match measure.place {
            Place::Header(header) => self.is_of_yield(header) && !self.names_a_pan(header),
            Place::Ingredient(line) => self.recipe.ingredient(line).is_some_and(|line| self.is_of_list(line, index)),
            Place::Step(_) => self.taken.contains(&index) && !self.is_for_each(measure),
            Place::Result(_) => true,
            Place::Equipment(_) | Place::Test(_) | Place::Prose => false,
        };
        if !follows {
            return None;
        }
        let mut edits = Vec::new();
        for stated in measure.statements().filter(|stated| !stated.each && !stated.terms.is_empty()) {
            edits.push(self.stated(stated)?);
        }
        if let Place::Ingredient(line) = measure.place {
            edits.extend(self.recipe.ingredient(line).and_then(|line| self.noun(line, measure)));
        }
        Some(edits)
    }

    /// One statement of an amount, as its author writes it where its unit stays.
    fn stated(&self, stated: &Stated) -> Option<Edit> {
        let amounts = times(&stated.amounts()?, self.factor, &self.house.measures)?;
        if let ([term], [Amount { number, unit: None }]) = (stated.terms.as_slice(), amounts.as_slice()) {
            return Some(Edit::replace(term.number, print_interval(number, None, &self.style)));
        }
        let (edit, _) = rewriting::rewrite_in(self.recipe, stated, &amounts, &self.style);
        Some(Edit { span: restating::as_written(self.recipe, stated), text: edit.text.trim_end().to_owned() })
    }

    /// The name behind a bare number, in its plural or its singular where that has changed: `1 egg`, `2 eggs`.
    fn noun(&self, line: &Ingredient, measure: &Measure) -> Option<Edit> {
        let before = measure.count().filter(|_| measure.each.is_empty())?;
        let after = times(&[Amount::new(before, None)], self.factor, &self.house.measures)?.first()?.number;
        let many = |most: Option<f64>| most.is_none_or(|most| most > 1.0);
        let (was, is) = (many(before.most), many(after.most));
        let name = line.names.iter().find(|name| !name.aside && name.span.start >= measure.span.end)?.span;
        let text = self.recipe.at(name);
        let start = name.start + text.rfind(char::is_whitespace).map_or(0, |at| at + 1);
        let last = Span::new(start, name.end);
        let word = self.recipe.at(last);
        match (was, is, words::is_plural(word)) {
            (false, true, false) => Some(Edit::replace(last, plural(word))),
            // What folding takes off is the plural, where the word has nothing else to fold.
            (true, false, true) if word.is_ascii() && word.chars().all(|letter| letter.is_ascii_lowercase()) => {
                Some(Edit::replace(last, fold(word).into_owned()))
            }
            _ => None,
        }
    }

    /// The numbers of portions that the method divides something into, whose size stays.
    fn portions(&self) -> Vec<Edit> {
        let divided = yields::divided(self.recipe, &self.house.measures).into_iter();
        let whole = divided.filter(|portions| portions.whole && !portions.count.is_open());
        let one = |portions: yields::Portions| {
            let count = portions.count.map(|count| (count * self.factor).round().max(1.0));
            Edit::replace(portions.number, print_interval(&count, None, &self.style))
        };
        whole.map(one).collect()
    }

    fn is_of_yield(&self, header: usize) -> bool {
        let label = self.recipe.headers.get(header).map_or("", |header| self.recipe.at(header.label));
        ["serves", "yield"].iter().any(|own| label.eq_ignore_ascii_case(own))
    }

    /// "One 9-inch dish": not two of them, and no larger one by numbers alone.
    fn names_a_pan(&self, header: usize) -> bool {
        let own = |measure: &&Measure| measure.place == Place::Header(header);
        self.recipe.measures.iter().filter(own).any(|measure| measure.stated.kind() == Some(UnitKind::Length))
    }

    /// Whether it says how much of the line goes in: its amount, or a weight or volume that is no size of one.
    fn is_of_list(&self, line: &Ingredient, index: usize) -> bool {
        let Some(measure) = self.recipe.measures.get(index) else { return false };
        let text = &self.recipe.text;
        let before = text.get(line.span.start..measure.span.start).unwrap_or_default().trim_end().to_lowercase();
        let unit = measure.stated.terms.first().and_then(|term| term.unit);
        let hyphened = unit.is_some_and(|unit| {
            let written = self.recipe.at(unit);
            let above = text.get(..unit.start).unwrap_or_default();
            written.starts_with(HYPHENS) || above.ends_with(HYPHENS)
        });
        let sized = hyphened || before.ends_with(" into") || before.ends_with(" in");
        let measured = matches!(measure.stated.kind(), Some(UnitKind::Weight | UnitKind::Volume));
        !sized && (line.amount == Some(index) || measured && !self.is_for_each(measure))
    }

    /// "1/4 cup of batter for each pancake": the size of one, whatever the number. Looked for in its sentence, or in its line.
    fn is_for_each(&self, measure: &Measure) -> bool {
        let text = &self.recipe.text;
        let stops = |c: char| matches!(c, '.' | ';' | '\n' | '\r');
        let before = text.get(..measure.span.start).unwrap_or_default();
        let start = before.rfind(stops).map_or(0, |at| at + 1);
        let behind = text.get(measure.span.end..).unwrap_or_default();
        let end = measure.span.end + behind.find(stops).unwrap_or(behind.len());
        let words = Span::new(start, end).of(text).to_lowercase();
        words.split(|c: char| !c.is_alphabetic()).any(|word| matches!(word, "each" | "per" | "every" | "apiece"))
    }

    /// What has been done, and what to look at.
    fn told(&self, wanted: Wanted) -> String {
        let times = print_decimal(self.factor);
        let done = match wanted {
            Wanted::For(to) => format!("Now for {} ({times} times as much).", print_decimal(to)),
            Wanted::Times(_) => format!("Now {times} times as much."),
        };
        let mut look: Vec<String> = Vec::new();
        let steps: BTreeSet<usize> =
            self.recipe.measures.iter().enumerate().filter_map(|(index, measure)| self.left(index, measure)).collect();
        let numbers: Vec<String> = steps.iter().map(|step| (step + 1).to_string()).collect();
        match numbers.as_slice() {
            [] => {}
            [one] => look.push(format!("step {one}")),
            [others @ .., last] => look.push(format!("steps {} and {last}", others.join(", "))),
        }
        let mut named: Vec<String> = Vec::new();
        for vessel in
            vessels(self.recipe, &self.house.measures).iter().filter(|vessel| !vessel.again && vessel.one.is_some())
        {
            let name = one_line(self.recipe.at(vessel.span));
            if !named.contains(&name) {
                named.push(name);
            }
        }
        if !named.is_empty() {
            look.push(format!("the {}", named.join(", the ")));
        }
        if look.is_empty() {
            return done;
        }
        format!("{done} Times, temperatures and vessels stay as they were. Look at {}.", look.join(" and at "))
    }

    /// The step of a time, or of an amount, that has not been touched.
    fn left(&self, index: usize, measure: &Measure) -> Option<usize> {
        let Place::Step(step) = measure.place else { return None };
        match measure.stated.kind()? {
            UnitKind::Time => Some(step),
            UnitKind::Weight | UnitKind::Volume => self.measure(index).is_none().then_some(step),
            _ => None,
        }
    }
}

/// Hyphens between a number and its unit.
const HYPHENS: [char; 3] = ['-', '‐', '‑'];

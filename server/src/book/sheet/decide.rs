//! Changes of a style sheet that leave the rest of it as its keeper wrote it.

use serde::{Deserialize, Serialize};
use toml_edit::{Array, DocumentMut, Item, Table, TableLike, Value, value};

use crate::text::{Edit, LineEnding, difference};

/// Something that the house decides once, for the whole book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Decision {
    /// The check of this code does not run.
    TurnOff(String),
    /// There is a food of this name.
    Know(String),
    /// The food of this name need not be listed.
    Exempt(String),
}

/// The edits that write a decision into a style sheet; none where it stands there already. Nothing where the sheet cannot be read.
pub fn decide(sheet: &str, decision: &Decision) -> Option<Vec<Edit>> {
    let mut document: DocumentMut = sheet.parse().ok()?;
    match decision {
        Decision::TurnOff(code) => {
            let checks = table(&mut document, "checks", false)?;
            match checks.get_mut(code).and_then(Item::as_value_mut) {
                // What is remarked beside it stays.
                Some(old) => {
                    let around = old.decor().clone();
                    *old = Value::from("off");
                    *old.decor_mut() = around;
                }
                None => drop(checks.insert(code, value("off"))),
            }
        }
        Decision::Know(food) => {
            let foods = table(&mut document, "foods", true)?;
            if !foods.contains_key(food) {
                foods.insert(food, Item::Table(Table::new()));
            }
        }
        Decision::Exempt(food) => {
            let exempt = document.entry("exempt").or_insert(value(Array::new())).as_array_mut()?;
            if !exempt.iter().any(|known| known.as_str() == Some(food)) {
                exempt.push(food.as_str());
            }
        }
    }
    // Its lines go on ending as they do.
    let ending = LineEnding::of(sheet).unwrap_or_default();
    let text = LineEnding::taken_out_of(&document.to_string());
    Some(difference(sheet, &ending.put_into(&text)))
}

/// The table of this name, new at the end where there is none; `implicit` where its heading says nothing by itself.
fn table<'d>(document: &'d mut DocumentMut, name: &str, implicit: bool) -> Option<&'d mut dyn TableLike> {
    let mut new = Table::new();
    new.set_implicit(implicit);
    document.entry(name).or_insert(Item::Table(new)).as_table_like_mut()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn leads(sheet: &str, decision: &Decision, expected: &str) {
        for ending in ["\n", "\r\n"] {
            let own = |text: &str| text.replace('\n', ending);
            let edits = decide(&own(sheet), decision).unwrap();
            assert_eq!(
                Edit::put_into(&own(sheet), &edits),
                if sheet.is_empty() { expected.into() } else { own(expected) }
            );
            assert_eq!(decide(&own(expected), decision), Some(vec![]), "once is enough");
        }
    }

    #[test]
    fn what_is_decided_is_added_and_the_rest_stays_as_it_is() {
        let off = Decision::TurnOff("order-of-use".into());
        let sheet = "# ours\nallergens = 'uk'   # since 2019\n\n[checks]\ntime-total = \"info\" # lenient\n";
        leads(sheet, &off, &format!("{sheet}order-of-use = \"off\"\n"));
        leads("", &off, "[checks]\norder-of-use = \"off\"\n");
        leads("allergens = 'uk'\n", &off, "allergens = 'uk'\n\n[checks]\norder-of-use = \"off\"\n");
        leads("[checks]\norder-of-use = 'hint' # why?\n", &off, "[checks]\norder-of-use = \"off\" # why?\n");
        leads("checks = { time-total = 'off' }\n", &off, "checks = { time-total = 'off' , order-of-use = \"off\" }\n");
    }

    #[test]
    fn foods_are_made_known_and_exempt() {
        let know = Decision::Know("nettle flour".into());
        leads("", &know, "[foods.\"nettle flour\"]\n");
        let known = "[foods.quince] # ours\nalso = ['cydonia']\n";
        leads(known, &know, &format!("{known}\n[foods.\"nettle flour\"]\n"));
        let exempt = Decision::Exempt("olive oil".into());
        leads("", &exempt, "exempt = [\"olive oil\"]\n");
        let listed = "exempt = [\"spice\"] # both\n\n[measures]\ncup = \"us\"\n";
        leads(listed, &exempt, &listed.replace("\"spice\"]", "\"spice\", \"olive oil\"]"));
    }

    #[test]
    fn a_sheet_that_cannot_be_read_is_left_alone() {
        assert_eq!(decide("cup = = 3", &Decision::TurnOff("order-of-use".into())), None);
        assert_eq!(decide("checks = 3", &Decision::TurnOff("order-of-use".into())), None);
        assert_eq!(decide("exempt = 'oil'", &Decision::Exempt("olive oil".into())), None);
    }
}

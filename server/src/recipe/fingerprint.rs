//! A short sign for what is cooked: it stays the same however a recipe is laid out and marked, and changes with its amounts and steps.

use super::{
    Recipe,
    language::token::{Token, TokenKind},
    measures::Measure,
};

/// The parameters of the hash FNV-1a for 64 bits, as its authors publish them (draft-eastlake-fnv, "The FNV Non-Cryptographic Hash
/// Algorithm"). It has to come out the same in every version of this program: the sign is kept in manuscripts.
const FNV_OFFSET: u64 = 0xcbf2_9ce4_8422_2325;
const FNV_PRIME: u64 = 0x0000_0100_0000_01b3;

/// How many hexadecimal digits a fingerprint has.
const DIGITS: usize = 8;

/// The fingerprint of the amounts and steps of a recipe: eight hexadecimal digits. What stands in the notes, in the tests, beside an
/// amount as its restatement, in brackets or behind `=>` is marking; the order of the list, the numbers of steps, units spelt in another
/// way and line breaks are layout.
pub fn fingerprint(recipe: &Recipe) -> String {
    let mut listed: Vec<String> = recipe
        .ingredients
        .iter()
        .filter(|line| !line.tags.remark)
        .map(|line| {
            let amounts = line.measures.iter().filter_map(|index| recipe.measures.get(*index)).map(amount);
            let names = line.names.iter().flat_map(|name| name.all_words.iter().map(|word| word.to_string()));
            let titles = line.reference.and_then(|index| recipe.references.get(index));
            let titles = titles.map(|reference| recipe.at(reference.title).to_lowercase());
            amounts.chain(names).chain(titles).collect::<Vec<_>>().join(" ")
        })
        .collect();
    listed.sort();
    let steps = recipe.steps.iter().map(|step| {
        let words: Vec<String> = step.tokens.iter().flat_map(|token| said(recipe, step, token)).collect();
        words.join(" ")
    });
    let all = listed.into_iter().chain(steps).collect::<Vec<_>>().join("\n");
    let hash = all.bytes().fold(FNV_OFFSET, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(FNV_PRIME));
    let digits = format!("{hash:016x}");
    digits.get(..DIGITS).unwrap_or(&digits).to_owned()
}

/// The words and amounts of a token; of a marked mention those inside its brackets.
fn said(recipe: &Recipe, step: &super::Step, token: &Token) -> Vec<String> {
    match token.kind {
        TokenKind::Word => vec![token.fold.to_string()],
        TokenKind::Number => vec![recipe.at(token.span).to_owned()],
        TokenKind::Measure(index) => recipe.measures.get(index).map(amount).into_iter().collect(),
        TokenKind::Mention(index) => {
            let inside = step.marks.get(index).map(|mark| mark.tokens.as_slice()).unwrap_or_default();
            inside.iter().flat_map(|token| said(recipe, step, token)).collect()
        }
        TokenKind::Reference(index) => {
            let title = recipe.references.get(index).map(|reference| recipe.at(reference.title));
            title.unwrap_or_default().split_whitespace().map(str::to_lowercase).collect()
        }
        _ => Vec::new(),
    }
}

/// An amount as first stated, in numbers and units, and the size of what it counts.
fn amount(measure: &Measure) -> String {
    let first_size = measure.each.first();
    let terms = std::iter::once(&measure.stated).chain(first_size).flat_map(|stated| &stated.terms);
    let term = |term: &super::measures::Term| match term.amount() {
        Some(amount) => {
            let most = amount.number.most.map_or("more".to_owned(), |most| format!("{most:.3}"));
            format!("{:.3}-{most}{}", amount.number.least, amount.unit.map_or("", |unit| unit.name()))
        }
        None => "?".to_owned(),
    };
    terms.map(term).collect::<Vec<_>>().join("+")
}

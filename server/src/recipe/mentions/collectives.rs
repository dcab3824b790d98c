//! Words for many: all the ingredients, everything but the herbs, the first three, the dry ingredients.

use smol_str::SmolStr;

use crate::{
    recipe::language::{
        lexicon::Roles,
        token::{Token, TokenKind},
    },
    text::Words,
};

/// Which ingredients a collective means.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Scope {
    /// All of them.
    All,
    /// All that nothing has claimed.
    Remaining,
    /// The first so many of the list.
    First(usize),
    /// The last so many.
    Last(usize),
    /// Powders: flour, sugar, leavening, salt, spices.
    Dry,
    /// Liquids, eggs, melted fat.
    Wet,
    /// Those of a group, or of a kind, that these words name: "the dressing ingredients".
    Named(Vec<SmolStr>),
}

/// A collective in a step.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Collective {
    /// Index of its first token.
    pub start: usize,
    /// Index after its last token, exceptions not included.
    pub end: usize,
    /// Which ingredients.
    pub scope: Scope,
    /// Tokens of what is left out ("but the herbs"), from and to.
    pub except: Option<(usize, usize)>,
    /// Whether it means only what stands about ("mix everything"): nobody can say what.
    pub loose: bool,
}

/// Whether one of these tokens is a word that no collective does without.
pub fn says_many(tokens: &[Token]) -> bool {
    tokens.iter().any(|token| token.one_among(&MANY))
}

static MANY: Words = Words::new("ingredient everything all");

/// The collective that starts at `at`, if one does.
pub fn collective(tokens: &[Token], at: usize) -> Option<Collective> {
    let token = tokens.get(at)?;
    if token.one_of(&["everything", "all"])
        && let Some(found) = everything(tokens, at)
    {
        return Some(found);
    }
    if token.kind != TokenKind::Word {
        return None;
    }
    let end = ingredients_word(tokens, at)?;
    let words: Vec<&Token> = tokens.get(at..end)?.iter().filter(|word| word.kind == TokenKind::Word).collect();
    let (scope, end) = match (scope(&words), part_of_the_dish(tokens, end + 1)) {
        (Scope::All, Some((part, end))) => (Scope::Named(part), end),
        (scope, _) => (scope, end + 1),
    };
    Some(Collective { start: at, end, scope, except: exception(tokens, end), loose: false })
}

/// "… for the levain": the part of the dish that these ingredients are for, and where its name ends.
fn part_of_the_dish(tokens: &[Token], at: usize) -> Option<(Vec<SmolStr>, usize)> {
    let leads = tokens.get(at..at + 2)?;
    if !(leads.first()?.word("for") && leads.last()?.one_of(&["the", "your"])) {
        return None;
    }
    let name = tokens.get(at + 2..)?.iter();
    let name =
        name.take_while(|token| token.kind == TokenKind::Word && !token.is(Roles::SMALL) && !token.word("together"));
    let words: Vec<SmolStr> = name.map(|token| token.fold.clone()).collect();
    let end = at + 2 + words.len();
    (1..=3).contains(&words.len()).then_some((words, end))
}

fn everything(tokens: &[Token], at: usize) -> Option<Collective> {
    let token = tokens.get(at)?;
    if token.word("all")
        && (!tokens.get(at + 1).is_some_and(|next| next.word("but")) || says_share(tokens.get(at + 2)?))
    {
        return None;
    }
    let rest = tokens.get(at + 1).is_some_and(|next| next.word("else"));
    let end = if token.word("all") || !rest { at + 1 } else { at + 2 };
    let except = exception(tokens, end);
    if token.word("all") && except.is_none() {
        return None;
    }
    if let Some((part, end)) = part_of_the_dish(tokens, end).filter(|_| token.word("everything")) {
        return Some(Collective {
            start: at,
            end,
            scope: Scope::Named(part),
            loose: true,
            except: exception(tokens, end),
        });
    }
    let scope = if rest { Scope::Remaining } else { Scope::All };
    Some(Collective { start: at, end, scope, loose: except.is_none() && !rest, except })
}

/// "All but 2 tbsp of the sugar", "all but a third of it" is a share, and no word for many.
fn says_share(token: &Token) -> bool {
    matches!(token.kind, TokenKind::Measure(_) | TokenKind::Number)
        || token.one_of(&["a", "an", "one", "two", "half", "about", "some"])
}

/// Where the word "ingredients" stands that a phrase starting at `at` leads up to: "all of the dry ingredients", "batter ingredients".
fn ingredients_word(tokens: &[Token], at: usize) -> Option<usize> {
    const LEADS: &[&str] = &[
        "all",
        "the",
        "remaining",
        "rest",
        "other",
        "dry",
        "wet",
        "liquid",
        "first",
        "last",
        "your",
        "these",
        "those",
        "any",
        "both",
        "remainder",
    ];
    let first = tokens.get(at)?;
    if !first.one_of(LEADS) {
        // One noun straight before: "fold in batter ingredients".
        let plain = !first.is(Roles::SMALL.and(Roles::STATE)) && (!first.is(Roles::VERB) || qualifies(first));
        return tokens.get(at + 1).filter(|next| plain && is_ingredients(tokens, at + 1, next)).map(|_| at + 1);
    }
    for offset in 1..7 {
        let token = tokens.get(at + offset)?;
        if token.word("ingredient") {
            return is_ingredients(tokens, at + offset, token).then_some(at + offset);
        }
        let small = token.is(Roles::SMALL)
            && !token.one_of(LEADS)
            && !token.one_of(&["of", "and", "one", "two", "three", "four", "five", "six", "for"]);
        let leads = matches!(token.kind, TokenKind::Word | TokenKind::Measure(_) | TokenKind::Number | TokenKind::And)
            && !small;
        if !leads || token.is(Roles::VERB) && !qualifies(token) {
            return None;
        }
    }
    None
}

fn is_ingredients(tokens: &[Token], at: usize, token: &Token) -> bool {
    token.word("ingredient") && token.inflected && !tokens.get(at + 1).is_some_and(|next| next.word("list"))
}

/// Words that are verbs elsewhere and qualify ingredients here: the crumb ingredients, the dry ingredients.
fn qualifies(token: &Token) -> bool {
    token.one_of(&[
        "rest", "dry", "dress", "crumb", "crumble", "rub", "top", "cream", "glaze", "marinate", "blend", "batter",
        "pastry", "sauce", "warm", "cool",
    ])
}

fn scope(words: &[&Token]) -> Scope {
    let has = |wanted: &[&str]| words.iter().any(|word| word.one_of(wanted));
    let count = words.iter().find_map(|word| number_word(&word.fold));
    if has(&["first"]) {
        return count.map_or(Scope::All, Scope::First);
    }
    if has(&["last"]) {
        return count.map_or(Scope::Remaining, Scope::Last);
    }
    if has(&["remaining", "rest", "other", "remainder", "leftover"]) {
        return Scope::Remaining;
    }
    if has(&["dry"]) {
        return Scope::Dry;
    }
    if has(&["wet", "liquid"]) {
        return Scope::Wet;
    }
    const PLAIN: &[&str] = &[
        "all",
        "the",
        "of",
        "your",
        "these",
        "those",
        "ingredient",
        "listed",
        "above",
        "together",
        "other",
        "prepared",
        "any",
        "optional",
    ];
    let named: Vec<SmolStr> = words.iter().filter(|word| !word.one_of(PLAIN)).map(|word| word.fold.clone()).collect();
    if named.is_empty() { Scope::All } else { Scope::Named(named) }
}

fn number_word(word: &str) -> Option<usize> {
    const NUMBERS: &[&str] = &["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
    NUMBERS.iter().position(|number| *number == word).map(|at| at + 1)
}

/// "but the herbs", "except for the cheese", "apart from the salt".
fn exception(tokens: &[Token], at: usize) -> Option<(usize, usize)> {
    let opener = tokens.get(at)?;
    let skip = match &*opener.fold {
        "but" | "except" | "excluding" | "save" | "besides" | "minus" => 1,
        "apart" | "aside" | "other" => 2,
        _ if matches!(opener.kind, TokenKind::Comma | TokenKind::Open) => return exception_after_comma(tokens, at),
        _ => return None,
    };
    let start = at + skip;
    let end = tokens.get(start..)?.iter().position(|token| {
        matches!(token.kind, TokenKind::Stop | TokenKind::Close | TokenKind::Pause)
            || token.one_of(&["into", "in", "to", "until", "with", "together"])
    });
    let end = end.map_or(tokens.len(), |length| start + length);
    (end > start).then_some((start, end))
}

fn exception_after_comma(tokens: &[Token], at: usize) -> Option<(usize, usize)> {
    let next = tokens.get(at + 1)?;
    next.one_of(&["except", "excluding", "apart", "but"]).then(|| exception(tokens, at + 1)).flatten()
}

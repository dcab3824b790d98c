//! What an ingredient line says about how it is used: optional, divided, to serve, for the pan.

use super::{language::token::Token, model::Tags};

/// The tags of a line.
pub fn tags(tokens: &[Token]) -> Tags {
    let mut tags = Tags::default();
    for (at, token) in tokens.iter().enumerate() {
        let next = |by: usize| tokens.get(at + by);
        let next_is = |by: usize, words: &[&str]| next(by).is_some_and(|token| token.one_of(words));
        match &*token.fold {
            "optional" | "optionally" => tags.optional = true,
            "if" if next_is(1, &["you", "desired", "using", "liked", "wanted"]) => tags.optional = true,
            "divided" => tags.divided = true,
            "taste" if at > 0 => tags.taste = true,
            "needed" | "required" | "necessary" => tags.taste = true,
            "garnish" => tags.serving = true,
            "serve" | "serving" | "sprinkle" | "finish" | "decorate" | "drizzle"
                if !tags.more && preceded(tokens, at, &["to", "for"]) =>
            {
                tags.serving = true
            }
            "more" | "extra" if preceded(tokens, at, &["plus", "or", "and", "with"]) => tags.more = true,
            "extra" | "more" if next_is(1, &["for", "to"]) => tags.more = true,
            "grease" | "greasing" | "dusting" | "dust" | "frying" | "fry" | "brushing" | "brush" | "rolling"
            | "flouring"
                if !tags.more && preceded(tokens, at, &["to", "for", "deep", "and"]) =>
            {
                tags.pan = true;
            }
            "pan" | "dish" | "tin" | "tray" | "surface" | "worktop" | "board" | "ramekin"
                if !tags.more
                    && (1..4)
                        .any(|back| at >= back && tokens.get(at - back).is_some_and(|token| token.word("for"))) =>
            {
                tags.pan = true;
            }
            _ => {}
        }
    }
    tags
}

fn preceded(tokens: &[Token], at: usize, words: &[&str]) -> bool {
    at.checked_sub(1).and_then(|before| tokens.get(before)).is_some_and(|token| token.one_of(words))
}

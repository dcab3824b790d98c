//! What a step does, by its verb: which acts cook, which only wait, and which go on while the cook does something else.
//!
//! Common practice, no source: these are the verbs that published directions are written with.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

/// What is done to the food.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum ActKind {
    /// In the oven: bake, or put in the oven and leave there.
    Bake,
    /// Roast: in an oven as a rule, else on a spit or in a dry pan.
    Roast,
    /// Under a broiler, which Britain calls a grill.
    Broil,
    /// Over coals or on a ridged plate.
    Grill,
    /// Toast: in an oven, in a pan or in a toaster.
    Toast,
    /// Fry, deep or shallow.
    Fry,
    /// Fry in little fat, stirring.
    Saute,
    /// Sear or brown: its own cue.
    Sear,
    /// Boil.
    Boil,
    /// Boil for a moment.
    Blanch,
    /// Simmer.
    Simmer,
    /// Cook in liquid that does not move.
    Poach,
    /// Steam.
    Steam,
    /// Stew.
    Stew,
    /// Braise.
    Braise,
    /// Boil down.
    Reduce,
    /// Cook, in whatever way.
    Cook,
    /// In a microwave oven.
    Microwave,
    /// Heat or warm.
    Heat,
    /// Melt.
    Melt,
    /// In a refrigerator.
    Chill,
    /// In a freezer.
    Freeze,
    /// Cool.
    Cool,
    /// Rest, stand, sit.
    Rest,
    /// Rise, prove, ferment.
    Rise,
    /// Soak or steep.
    Soak,
    /// Marinate, brine or cure.
    Marinate,
    /// Dry.
    Dry,
    /// Knead.
    Knead,
    /// Beat, whisk, whip.
    Beat,
    /// Keep or store what is done: no part of the work.
    Keep,
    /// Any other work.
    Work,
}

impl ActKind {
    /// What the folded word `word` does where it stands as a verb; nothing where it is none of these.
    pub fn of(word: &str) -> Option<ActKind> {
        KINDS.get(word).copied()
    }

    /// Whether heat does it, and it goes on until somebody says that it is done.
    pub fn cooks(self) -> bool {
        use ActKind::*;
        matches!(
            self,
            Bake | Roast
                | Broil
                | Grill
                | Fry
                | Saute
                | Boil
                | Simmer
                | Poach
                | Steam
                | Stew
                | Braise
                | Reduce
                | Cook
                | Microwave
        )
    }

    /// Whether nothing but time does it.
    pub fn waits(self) -> bool {
        use ActKind::*;
        matches!(self, Chill | Freeze | Cool | Rest | Rise | Soak | Marinate | Dry)
    }

    /// Whether it goes on while the cook's hands are free.
    pub fn goes_on_alone(self) -> bool {
        use ActKind::*;
        self.waits()
            || matches!(self, Bake | Roast | Boil | Simmer | Poach | Steam | Stew | Braise | Reduce | Cook | Microwave)
    }
}

/// Words of [`WORDS`] that are more often something else, and count only where an order stands: the cool water, the roast.
pub(super) fn is_weak(word: &str) -> bool {
    WEAK.contains(&word)
}

const WEAK: &[&str] = &[
    "brown", "cool", "cook", "dry", "grill", "heat", "keep", "leave", "melt", "poach", "proof", "rest", "rise",
    "roast", "set", "sit", "stand", "steam", "stew", "toast", "warm", "cure", "brine", "cream", "whip",
];

static KINDS: LazyLock<FxHashMap<&'static str, ActKind>> = LazyLock::new(|| {
    let words = WORDS.iter().flat_map(|(kind, words)| words.split(' ').map(|word| (word, *kind)));
    words.collect()
});

/// The verbs, folded: lower case, without accents, in American spelling.
const WORDS: &[(ActKind, &str)] = &[
    (ActKind::Bake, "bake rebake"),
    (ActKind::Roast, "roast"),
    (ActKind::Broil, "broil"),
    (ActKind::Grill, "grill chargrill barbecue barbeque smoke"),
    (ActKind::Toast, "toast"),
    (ActKind::Fry, "fry deep-fry stir-fry pan-fry shallow-fry"),
    (ActKind::Saute, "saute sautee"),
    (ActKind::Sear, "sear brown caramelize caramelise"),
    (ActKind::Boil, "boil parboil"),
    (ActKind::Blanch, "blanch"),
    (ActKind::Simmer, "simmer"),
    (ActKind::Poach, "poach coddle"),
    (ActKind::Steam, "steam"),
    (ActKind::Stew, "stew"),
    (ActKind::Braise, "braise"),
    (ActKind::Reduce, "reduce"),
    (ActKind::Cook, "cook"),
    (ActKind::Microwave, "microwave"),
    (ActKind::Heat, "heat warm reheat preheat"),
    (ActKind::Melt, "melt"),
    (ActKind::Chill, "chill refrigerate"),
    (ActKind::Freeze, "freeze"),
    (ActKind::Cool, "cool"),
    (ActKind::Rest, "rest stand sit leave"),
    (ActKind::Rise, "rise prove proof ferment"),
    (ActKind::Soak, "soak steep infuse"),
    (ActKind::Marinate, "marinate marinade brine cure"),
    (ActKind::Dry, "dry dehydrate"),
    (ActKind::Knead, "knead"),
    (ActKind::Beat, "beat whisk whip cream"),
    (ActKind::Keep, "keep store last"),
];

/// The verb of a form in -ing: `baking` is bake, `frying` fry, `chopping` chop.
pub(super) fn gerund(word: &str) -> Option<ActKind> {
    let stem = word.strip_suffix("ing")?;
    stem_of(stem)
}

/// The verb of a past participle: `baked` is bake, `fried` fry, `set aside` none.
pub(super) fn participle(word: &str) -> Option<ActKind> {
    if let Some(stem) = word.strip_suffix("ied") {
        return ActKind::of(&format!("{stem}y"));
    }
    stem_of(word.strip_suffix("ed")?)
}

fn stem_of(stem: &str) -> Option<ActKind> {
    let doubled = stem.chars().next_back().and_then(|last| stem.strip_suffix(last));
    ActKind::of(stem).or_else(|| ActKind::of(&format!("{stem}e"))).or_else(|| ActKind::of(doubled?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forms_of_a_verb_are_that_verb() {
        let table = [
            ("baking", Some(ActKind::Bake)),
            ("frying", Some(ActKind::Fry)),
            ("whipping", Some(ActKind::Beat)),
            ("simmering", Some(ActKind::Simmer)),
            ("ring", None),
        ];
        for (word, kind) in table {
            assert_eq!(gerund(word), kind, "{word}");
        }
        for (word, kind) in [("baked", Some(ActKind::Bake)), ("fried", Some(ActKind::Fry)), ("red", None)] {
            assert_eq!(participle(word), kind, "{word}");
        }
    }
}

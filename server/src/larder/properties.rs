//! Allergens and diets: what law and custom ask a recipe to declare.

/// An allergen that the United States (FALCPA and FASTER Act, nine) or the European Union (Regulation 1169/2011, annex II, fourteen) lists.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Allergen {
    /// Milk and what is made of it.
    Milk,
    /// Eggs of birds.
    Egg,
    /// Fish.
    Fish,
    /// Crustacean shellfish.
    Crustacean,
    /// Molluscs (EU).
    Mollusc,
    /// Tree nuts.
    TreeNut,
    /// Peanuts.
    Peanut,
    /// Wheat (US).
    Wheat,
    /// Cereals with gluten: wheat, rye, barley, oats (EU).
    Gluten,
    /// Soybeans.
    Soy,
    /// Sesame.
    Sesame,
    /// Celery (EU).
    Celery,
    /// Mustard (EU).
    Mustard,
    /// Sulphur dioxide and sulphites (EU above 10 mg/kg; a declaration in the US too).
    Sulphite,
    /// Lupin (EU).
    Lupin,
}

impl Allergen {
    /// All of them.
    pub const ALL: [Allergen; 15] = [
        Allergen::Milk,
        Allergen::Egg,
        Allergen::Fish,
        Allergen::Crustacean,
        Allergen::Mollusc,
        Allergen::TreeNut,
        Allergen::Peanut,
        Allergen::Wheat,
        Allergen::Gluten,
        Allergen::Soy,
        Allergen::Sesame,
        Allergen::Celery,
        Allergen::Mustard,
        Allergen::Sulphite,
        Allergen::Lupin,
    ];

    /// Its name on a shelf and in a message.
    pub fn name(self) -> &'static str {
        match self {
            Allergen::Milk => "milk",
            Allergen::Egg => "egg",
            Allergen::Fish => "fish",
            Allergen::Crustacean => "crustacean",
            Allergen::Mollusc => "mollusc",
            Allergen::TreeNut => "tree nut",
            Allergen::Peanut => "peanut",
            Allergen::Wheat => "wheat",
            Allergen::Gluten => "gluten",
            Allergen::Soy => "soy",
            Allergen::Sesame => "sesame",
            Allergen::Celery => "celery",
            Allergen::Mustard => "mustard",
            Allergen::Sulphite => "sulphite",
            Allergen::Lupin => "lupin",
        }
    }

    /// The allergen of this name.
    pub fn find(name: &str) -> Option<Allergen> {
        Allergen::ALL.into_iter().find(|allergen| allergen.name() == name)
    }
}

/// Whose law says which allergens a recipe has to declare.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum AllergenList {
    /// The nine of the United States: FALCPA 2004 and FASTER Act 2021 (21 U.S.C. 321(qq)).
    #[default]
    Us,
    /// The fourteen of the European Union: Regulation (EU) 1169/2011, annex II.
    Eu,
    /// The fourteen of the United Kingdom: the same annex, as retained; Food Information Regulations 2014.
    Uk,
    /// The priority allergens, gluten sources and sulphites of Canada: Food and Drug Regulations, B.01.010.1.
    Ca,
    /// Those of Australia and New Zealand: Food Standards Code, Standard 1.2.3, section 1.2.3—4.
    Anz,
}

impl AllergenList {
    /// What has to be declared.
    pub fn allergens(self) -> Vec<Allergen> {
        let listed = |allergen: &Allergen| self.holds(*allergen);
        Allergen::ALL.into_iter().filter(listed).collect()
    }

    /// Whether this allergen has to be declared. (The articles, as summed up by the agencies that apply them; from memory.)
    pub fn holds(self, allergen: Allergen) -> bool {
        use Allergen::{Celery, Gluten, Lupin, Mollusc, Mustard, Sulphite};
        match (self, allergen) {
            (AllergenList::Us, Mollusc | Gluten | Celery | Mustard | Sulphite | Lupin) => false,
            (AllergenList::Ca, Celery | Lupin) => false,
            (AllergenList::Anz, Celery | Mustard) => false,
            // In the cereals that the lists of Europe call 'containing gluten', wheat is one.
            (AllergenList::Eu | AllergenList::Uk, Allergen::Wheat) => false,
            _ => true,
        }
    }
}

/// A way of eating that some foods have no place in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Diet {
    /// Nothing from animals, honey included.
    Vegan,
    /// Nothing from killed animals: no meat, fish, gelatin, lard.
    Vegetarian,
    /// Vegetarian, with fish and seafood.
    Pescatarian,
    /// No wheat, rye, barley.
    GlutenFree,
    /// Nothing from milk.
    DairyFree,
    /// No tree nuts, no peanuts.
    NutFree,
    /// No eggs.
    EggFree,
    /// No pork, no alcohol.
    Halal,
    /// No pork, no shellfish.
    Kosher,
}

impl Diet {
    /// All of them.
    pub const ALL: [Diet; 9] = [
        Diet::Vegan,
        Diet::Vegetarian,
        Diet::Pescatarian,
        Diet::GlutenFree,
        Diet::DairyFree,
        Diet::NutFree,
        Diet::EggFree,
        Diet::Halal,
        Diet::Kosher,
    ];

    /// Its name on a shelf, in a header and in a message.
    pub fn name(self) -> &'static str {
        match self {
            Diet::Vegan => "vegan",
            Diet::Vegetarian => "vegetarian",
            Diet::Pescatarian => "pescatarian",
            Diet::GlutenFree => "gluten-free",
            Diet::DairyFree => "dairy-free",
            Diet::NutFree => "nut-free",
            Diet::EggFree => "egg-free",
            Diet::Halal => "halal",
            Diet::Kosher => "kosher",
        }
    }

    /// The diet of this name.
    pub fn find(name: &str) -> Option<Diet> {
        Diet::ALL.into_iter().find(|diet| diet.name() == name)
    }

    /// Whether a food that fits this diet fits the other as well: what is vegan is dairy-free.
    pub fn implies(self, other: Diet) -> bool {
        use Diet::{DairyFree, EggFree, Pescatarian, Vegan, Vegetarian};
        self == other
            || matches!(
                (self, other),
                (Vegan, Vegetarian | Pescatarian | DairyFree | EggFree) | (Vegetarian, Pescatarian)
            )
    }

    /// Whether no food that fits this diet holds the allergen.
    pub fn rules_out(self, allergen: Allergen) -> bool {
        use Allergen::{Crustacean, Egg, Fish, Gluten, Milk, Mollusc, Peanut, TreeNut, Wheat};
        match self {
            Diet::Vegan => matches!(allergen, Milk | Egg | Fish | Crustacean | Mollusc),
            Diet::Vegetarian => matches!(allergen, Fish | Crustacean | Mollusc),
            Diet::GlutenFree => matches!(allergen, Wheat | Gluten),
            Diet::DairyFree => allergen == Milk,
            Diet::NutFree => matches!(allergen, TreeNut | Peanut),
            Diet::EggFree => allergen == Egg,
            Diet::Pescatarian | Diet::Halal | Diet::Kosher => false,
        }
    }
}

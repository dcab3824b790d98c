//! How long things take, at the very least and the very most.
//!
//! The usual times are those of the trade as editors know them; the possible ones lie so far outside that only a slip of the unit
//! gets there (common practice, no source).

use uom::si::time::minute;

use crate::{
    larder::words::fold,
    recipe::{
        Recipe,
        clock::{Act, ActKind, Duration, Manner},
    },
    text::Words,
};

/// How long an act takes with some things, in minutes.
pub struct Band {
    /// The acts.
    pub kinds: &'static [ActKind],
    /// The things, folded, one of which has to be named beside the act or in the title; any where there are none.
    pub things: Words,
    /// How a message calls them.
    pub called: &'static str,
    /// Outside this nobody can mean it.
    pub possible: (f64, f64),
    /// Within this a guess at what was meant must lie.
    pub usual: (f64, f64),
    /// Words that explain what is out of the ordinary.
    pub unless: Words,
}

/// A time that nobody means.
pub struct Slip {
    /// What it is held against.
    pub band: &'static Band,
    /// Whether it is too short, and not too long.
    pub short: bool,
}

/// Whether nobody can mean a time of an act.
pub fn slip(recipe: &Recipe, act: &Act, time: &Duration) -> Option<Slip> {
    if matches!(time.manner, Manner::Rate | Manner::Limit) {
        return None;
    }
    let minutes = time.time.map(|time| time.get::<minute>());
    // A little more may be as short as it likes.
    let short = |band: &Band| time.manner != Manner::More && minutes.most.is_some_and(|most| most < band.possible.0);
    let is_out = |band: &Band| short(band) || minutes.least > band.possible.1;
    // Nearly all times are possible by any band, and then no words need be looked at.
    if !of(act).any(is_out) {
        return None;
    }
    let band = band(recipe, act).filter(|band| is_out(band))?;
    Some(Slip { band, short: short(band) })
}

/// The bands of such acts.
fn of(act: &Act) -> impl Iterator<Item = &'static Band> {
    BANDS.iter().filter(|band| band.kinds.contains(&act.kind))
}

/// The first band that fits an act; none where something explains what is out of the ordinary.
fn band(recipe: &Recipe, act: &Act) -> Option<&'static Band> {
    let beside = words_of(recipe.at(act.sentence));
    let title = words_of(recipe.name());
    let named = |list: &Words| beside.iter().chain(&title).any(|word| list.contains(word));
    let band = of(act).find(|band| band.things.is_empty() || named(&band.things))?;
    (!named(&band.unless)).then_some(band)
}

fn words_of(text: &str) -> Vec<String> {
    let words = text.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty());
    words.map(|word| fold(word).into_owned()).collect()
}

const ANY: f64 = f64::INFINITY;
const HOUR: f64 = 60.0;
const DAY: f64 = 24.0 * HOUR;

/// The bands: of those that fit an act, the first counts.
const BANDS: &[Band] = &[
    Band {
        kinds: &[ActKind::Bake],
        things: Words::new("pizza flatbread pita naan focaccia"),
        called: "a pizza or a flatbread",
        possible: (0.7, 2.0 * HOUR),
        usual: (2.0, 45.0),
        unless: Words::new("tandoor dry rise"),
    },
    Band {
        kinds: &[ActKind::Bake],
        things: Words::new(
            "cookie biscuit scone muffin cupcake roll bun brownie cracker shortbread macaroon gingersnap turnover tartlet snap",
        ),
        called: "a small bake",
        possible: (2.0, 3.0 * HOUR),
        usual: (5.0, HOUR),
        unless: Words::new("microwave meringue dry overnight off rusk"),
    },
    Band {
        kinds: &[ActKind::Bake],
        things: Words::new(
            "bread loaf cake pie tart quiche sponge crumble cobbler pastry pudding custard gratin lasagna",
        ),
        called: "a bake of this kind",
        possible: (1.5, 8.0 * HOUR),
        usual: (8.0, 3.0 * HOUR),
        unless: Words::new("microwave mug pumpernickel bean slow overnight off crumb"),
    },
    Band {
        kinds: &[ActKind::Bake],
        things: Words::new(""),
        called: "anything baked",
        possible: (1.5, DAY),
        usual: (5.0, 4.0 * HOUR),
        unless: Words::new("microwave mug waffle tandoor wood campfire iron crumb"),
    },
    Band {
        kinds: &[ActKind::Roast],
        things: Words::new(
            "chicken hen turkey duck goose beef pork lamb joint potato squash beet carrot parsnip pumpkin",
        ),
        called: "a roast",
        possible: (2.0, DAY),
        usual: (8.0, 6.0 * HOUR),
        unless: Words::new("skillet powder"),
    },
    Band {
        kinds: &[ActKind::Boil, ActKind::Poach],
        things: Words::new("egg"),
        called: "a boiled egg",
        possible: (0.4, 2.0 * HOUR),
        usual: (3.0, 15.0),
        unless: Words::new("skin tea coffee pudding dough noodle syrup sugar plant"),
    },
    Band {
        kinds: &[ActKind::Boil, ActKind::Cook],
        things: Words::new(
            "pasta spaghetti macaroni linguine penne fettuccine tagliatelle ravioli tortellini fusilli orzo",
        ),
        called: "pasta",
        possible: (0.3, 2.0 * HOUR),
        usual: (2.0, 20.0),
        unless: Words::new("sauce soup slow ragu stew bean meat beef pork onion"),
    },
    Band {
        kinds: &[ActKind::Boil],
        things: Words::new("potato rice carrot pea spinach asparagus broccoli cauliflower corn dumpling"),
        called: "anything boiled until tender",
        possible: (0.2, 5.0 * HOUR),
        usual: (4.0, 75.0),
        unless: Words::new("stock soup beef ham bone syrup"),
    },
    Band {
        kinds: &[
            ActKind::Fry,
            ActKind::Saute,
            ActKind::Sear,
            ActKind::Boil,
            ActKind::Poach,
            ActKind::Grill,
            ActKind::Broil,
        ],
        things: Words::new("shrimp prawn scallop"),
        called: "shellfish",
        possible: (0.2, 45.0),
        usual: (1.0, 12.0),
        unless: Words::new("stock shell bone onion sauce soup"),
    },
    Band {
        kinds: &[ActKind::Grill],
        things: Words::new("steak burger chop corn fish salmon trout pepper asparagus zucchini sandwich bread toast"),
        called: "anything grilled as quickly as this",
        possible: (0.2, 3.0 * HOUR),
        usual: (1.0, 45.0),
        unless: Words::new("brisket rib shoulder low slow smoke"),
    },
    Band {
        kinds: &[ActKind::Fry, ActKind::Saute, ActKind::Sear, ActKind::Toast],
        things: Words::new(""),
        called: "anything fried or toasted",
        possible: (0.0, 3.0 * HOUR),
        usual: (1.0, 45.0),
        unless: Words::new("confit low slow dry"),
    },
    Band {
        kinds: &[ActKind::Broil, ActKind::Blanch, ActKind::Microwave, ActKind::Melt],
        things: Words::new(""),
        called: "this",
        possible: (0.0, 2.0 * HOUR),
        usual: (0.5, 30.0),
        unless: Words::new("low slow sun"),
    },
    Band {
        kinds: &[ActKind::Braise, ActKind::Stew],
        things: Words::new(""),
        called: "a stew",
        possible: (2.0, 2.0 * DAY),
        usual: (10.0, 8.0 * HOUR),
        unless: Words::new(""),
    },
    Band {
        kinds: &[ActKind::Boil, ActKind::Simmer, ActKind::Steam, ActKind::Poach, ActKind::Reduce, ActKind::Cook],
        things: Words::new(""),
        called: "anything boiled",
        possible: (0.0, 3.0 * DAY),
        usual: (1.0, 12.0 * HOUR),
        unless: Words::new(""),
    },
    Band {
        kinds: &[ActKind::Knead, ActKind::Beat],
        things: Words::new(""),
        called: "kneading or beating",
        possible: (0.0, 2.0 * HOUR),
        usual: (0.5, 30.0),
        unless: Words::new("every intervals"),
    },
    Band {
        kinds: &[ActKind::Rise],
        things: Words::new("doubled double"),
        called: "a dough that doubles",
        possible: (10.0, 7.0 * DAY),
        usual: (30.0, 18.0 * HOUR),
        unless: Words::new("starter ferment yeast foamy"),
    },
    Band {
        kinds: &[ActKind::Rise],
        things: Words::new("dough loaf bread roll bun batter"),
        called: "a dough",
        possible: (2.0, 7.0 * DAY),
        usual: (15.0, 18.0 * HOUR),
        unless: Words::new("starter ferment yeast"),
    },
    Band {
        kinds: &[ActKind::Chill, ActKind::Freeze, ActKind::Marinate],
        things: Words::new(""),
        called: "anything chilled, frozen or marinated",
        possible: (1.0, ANY),
        usual: (5.0, 2.0 * DAY),
        unless: Words::new("rinse nitrogen glass"),
    },
];

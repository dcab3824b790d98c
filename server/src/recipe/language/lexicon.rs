//! The small words of kitchen prose, by what they do in a sentence. Words stand folded (lower case, singular).
//!
//! Common practice, no source: these are the words that published directions are written with.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

/// What a word may do in a sentence of directions; a word can do several things (`butter` is a food and an act).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Roles(u32);

impl Roles {
    /// Articles, prepositions, auxiliaries: never part of a food's name.
    pub const SMALL: Roles = Roles(1);
    /// A state a food is in (melted, chopped): passed over when names are compared.
    pub const STATE: Roles = Roles(1 << 1);
    /// A size (large, medium): passed over when names are compared.
    pub const SIZE: Roles = Roles(1 << 2);
    /// Tells a cook to do something; ends a doneness cue when it stands in its base form.
    pub const VERB: Roles = Roles(1 << 3);
    /// Opens a clause that tells when, not what: until, once, when, while.
    pub const CUE: Roles = Roles(1 << 4);
    /// Takes the next thing back: without, instead.
    pub const NEGATION: Roles = Roles(1 << 5);
    /// Something that a step made: mixture, batter, dough.
    pub const PRODUCT: Roles = Roles(1 << 6);
    /// A piece of a food: slice, cube, chunk.
    pub const PIECE: Roles = Roles(1 << 7);
    /// Says what a subject does or is: is, are, turns, melts.
    pub const PREDICATE: Roles = Roles(1 << 8);
    /// Also a verb, of which the object is the thing treated: butter the pan, zest the lemon.
    pub const ACT: Roles = Roles(1 << 9);
    /// A pan, a dish, a surface: what is greased, lined, floured.
    pub const VESSEL: Roles = Roles(1 << 10);
    /// it, them, they.
    pub const PRONOUN: Roles = Roles(1 << 11);
    /// Puts a food into the dish: add, stir, fold.
    pub const ADDING: Roles = Roles(1 << 12);

    /// Whether any of `other` is among these.
    pub fn any(self, other: Roles) -> bool {
        self.0 & other.0 != 0
    }

    /// These and `other`.
    pub const fn and(self, other: Roles) -> Roles {
        Roles(self.0 | other.0)
    }
}

/// The roles of a folded word; none for a word that is not in the lists (a food's name, most likely).
pub fn roles(word: &str) -> Roles {
    ROLES.get(word).copied().unwrap_or_default()
}

static ROLES: LazyLock<FxHashMap<&'static str, Roles>> = LazyLock::new(|| {
    let mut table: FxHashMap<&'static str, Roles> = FxHashMap::default();
    for (role, words) in LISTS {
        for word in words.split_whitespace() {
            let entry = table.entry(word).or_default();
            *entry = entry.and(*role);
        }
    }
    table
});

const LISTS: &[(Roles, &str)] = &[
    (
        Roles::SMALL,
        "a an the this that these those some any each every both all of in on at to from into onto with for by over \
         under and or but nor as per than then so if is are be been being was were has have had do does did can could \
         may might will would shall should must your you we i our my their its his her up down out off back away again \
         more most much many few several little bit lot plenty enough extra additional other another only just very \
         too also even still quite about around approximately approx roughly nearly almost least half quarter third \
         such like e.g eg i.e etc plus minus one two three four five six seven eight nine ten dozen first second next \
         last final same either neither not no yes between among through until there here where which who what how \
         well good nice favorite favourite choice optional optionally preferably ideally using instead pcs pc",
    ),
    (
        Roles::STATE,
        "fresh freshly frozen thawed dried dry cold cool cooled chilled warm warmed hot lukewarm tepid boiling melted \
         softened soft room-temperature toasted roasted untoasted raw cooked uncooked precooked boiled steamed fried \
         grilled smoked rinsed drained undrained soaked washed cleaned scrubbed peeled unpeeled skinned skinless \
         boneless bone-in skin-on trimmed untrimmed pitted stoned cored seeded deseeded hulled shelled unshelled \
         husked blanched chopped diced sliced minced grated shredded crushed ground crumbled cubed julienned \
         shaved torn halved quartered mashed pureed beaten whisked whipped sifted unsifted packed heaped heaping \
         level scant rounded overfilled divided separated reserved remaining prepared leftover organic natural plain \
         unbleached bleached good-quality quality free-range ripe unripe overripe firm tender young old thick thin \
         thickly thinly finely coarsely roughly lightly loosely firmly tightly well carefully gently gradually \
         slowly quickly evenly crosswise lengthwise diagonally bite-size bite-sized matchstick-size homemade \
         store-bought shop-bought bought ready-made canned tinned jarred bottled whole-peeled unsweetened sweetened \
         salted unsalted low-sodium reduced-sodium low-fat full-fat nonfat fat-free skim skimmed cracked crisp \
         crispy caramelized caramelised browned wilted squeezed zested juiced picked rubbed fine coarse quick \
         shaped cleaned gutted scaled filleted deveined smashed bruised lukewarm clean pasteurized pasteurised \
         defrosted stale day-old strained sieved",
    ),
    (
        Roles::SIZE,
        "large medium small big whole tiny jumbo extra-large mini baby giant regular average sized medium-sized large-sized \
         small-sized medium-large smallish deepish long short heaping generous thumb-size thumb-sized inch cm",
    ),
    (
        Roles::VERB,
        "add arrange assemble bake baste beat blanch blend boil braise bring broil brown brush build bury butter \
         caramelize caramelise carve char chill chop clean coat combine continue cook cool core cover cream crack \
         crimp crumble crush cube cut deglaze dice dip discard dissolve distribute divide drain dredge dress drizzle \
         drop dust empty enjoy fill filter finish flatten flip fold form freeze fry garnish glaze grate grease grill \
         grind halve heat incorporate increase julienne keep knead ladle lay layer leave let lift line loosen lower \
         make marinate mash massage measure melt mince mix moisten mop nestle open pack pat peel pierce pinch pit \
         place plate poach pound pour preheat prepare press process proof prove puree purée put quarter raise reduce \
         refrigerate reheat remove repeat reserve rest return rinse roast roll rub saute sauté sautee scald scatter \
         scoop score scrape scrub sear season seal seed serve set shake shape shred sieve sift simmer skim skin slice \
         slide smash smear smooth soak soften split spoon spread sprinkle squeeze stack start steam steep stir store \
         strain stretch stuff submerge sweat swirl take taste tear tie tilt tip toast top toss transfer trim turn \
         twist unmold unwrap use wait warm wash weigh whip whisk wilt wipe work wrap zest juice tong dilute oil flour \
         salt sugar pepper introduce throw punch check try allow pull preserve lay dissolve spray crack swirl gratin",
    ),
    (
        Roles::ADDING,
        "add stir fold mix whisk beat combine pour sprinkle scatter toss blend put place drizzle spoon top garnish \
         season dust brush throw tip whip cream rub knead work incorporate coat fill spread layer marinate melt heat \
         include grease",
    ),
    (Roles::CUE, "until till once when whenever while whilst unless because since after"),
    (Roles::NEGATION, "without instead except excluding never avoid"),
    (
        Roles::PRODUCT,
        "mixture mix batter dough sauce slurry paste marinade dressing syrup custard filling topping glaze frosting \
         icing crust base layer puree purée water liquid gravy blend rub brine bath combination meringue ganache roux \
         broth stock soup stew curry salad coating crumble compote jam cake pie loaf bread pastry tart pudding dish \
         log ball round disc patty lasagna lasagne",
    ),
    (
        Roles::PIECE,
        "slice cube piece chunk strip ring half quarter wedge flake shaving floret clove head stick knob pat dollop \
         handful sprig stalk bunch leaf bit segment round matchstick baton coin ribbon curl dice rasher sheet \
         portion stem spear kernel spoonful spoon cup glass mug bowl can tin jar packet package pcks pck \
         pack bag block box bottle tub ball ear rib bulb lump drop splash dash pinch drizzle squeeze squirt glug \
         sprinkling dusting couple amount quantity layer dot pound ounce gram kilo kilogram teaspoon tablespoon pint quart litre liter inch teaspoonful tablespoonful cupful",
    ),
    (
        Roles::PREDICATE,
        "is are be has have had was were turn begin start become melt look get feel come reach thicken soften wilt \
         brown bubble boil simmer dissolve evaporate puff rise set firm register read release pop sizzle smell change \
         run cling finish shimmer foam cool absorb double golden tender soft smooth crisp brown translucent transparent \
         creamy thick light fluffy stiff done cooked melted dissolved combined incorporated hot warm cold fragrant \
         incorporated bubbly thickened browned softened wilted reduced set ready",
    ),
    (
        Roles::ACT,
        "butter oil flour salt sugar pepper zest juice cream steam toast core ice bread crumb egg grill dress grease",
    ),
    (
        Roles::VESSEL,
        "pan dish tin tray sheet ramekin mold mould bowl skillet pot casserole tray rack grate grill griddle board \
         surface counter worktop bench paper foil parchment side base bottom hand tray muffin loaf cake baking work \
         frying springform pie slot plate ring cup tube knife cutter pin",
    ),
    (Roles::PRONOUN, "it them they these this"),
];

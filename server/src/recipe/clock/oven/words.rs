//! The words by which ovens and what else is hot are told apart (common practice, no source).

use crate::text::Words;

/// How hot an oven is, in books that had no thermometer, and what else says that it is hot.
pub static HEAT_WORDS: Words = Words::new(
    "moderate moderately quick slow hot hottish cool cold brisk sharp gentle fierce low medium warm steady soaking sound \
     solid fast high good fair ordinary even tolerable temperate slack declining very \
     residual broil grill convection maximum max hottest",
);

/// An oven that has been heated, however hot.
pub static PREHEATED: Words = Words::new("heated preheated preheating warmed");

/// Ovens that are no kitchen's oven: they need no heating beforehand, or get it otherwise.
pub static OTHER_OVENS: Words = Words::new(
    "toaster microwave camp solar tandoor clay wood brick pizza outdoor earth masonry halogen steam baker reflector \
     beehive cob fired mud stone bread",
);

/// Names that begin with an oven: mitts, dishes that stand the heat.
pub static PARTS_OF_OVENS: Words =
    Words::new("mitt safe proof ready glove rack shelf door dried light chip cloth thermometer paper bag");

/// What is heated to a temperature of its own.
pub static OTHER_HEAT: Words = Words::new(
    "oil fat lard syrup sugar water milk internal inside center core thermometer read register reach thickest probe grill \
     smoker fryer griddle skillet pan iron barbecue caramel custard chocolate room cool yeast lukewarm rise proof dough \
     between thigh meat butter candy refrigerator freezer liquid",
);

/// What else is preheated.
pub static OTHER_DEVICES: Words = Words::new(
    "grill pan skillet waffle fryer griddle barbecue oil pot wok smoker machine iron press kettle broiler tandoor stone \
     cooker maker coal burner microwave airfryer plate",
);

/// Where food is that is in no oven.
pub static ELSEWHERE: Words = Words::new(
    "refrigerator fridge freezer icebox skillet saucepan pot stove stovetop burner cooker boil simmer water wok bowl \
     griddle frying heat microwave",
);

/// What roasts without an oven.
pub static OVER_A_FIRE: Words = Words::new(
    "spit fire flame coal ember ash skillet wok griddle stove burner gas charcoal grill barbecue campfire pit hearth \
     rotisserie smoker jack",
);

/// Verbs that heat an oven.
pub static HEATS: Words =
    Words::new("heat preheat heating preheating preheated set warm light get have fire start prepare turn put switch");

/// Verbs that change its heat.
pub static CHANGES: Words = Words::new(
    "lower reduce raise increase decrease drop bring adjust turn reset change lowering reducing raising increasing",
);

/// What was in an oven, where nobody is told to put it in.
pub static SPOKEN_OF: Words = Words::new("oven baking baked bake roasted roasting roast broiler gratin broiled");

/// Names that begin with baking and are no baking.
pub static BAKING_TOOLS: Words = Words::new(
    "sheet dish tray pan tin powder soda paper parchment cup stone bean mat rack tool spread chocolate apple potato",
);

/// What puts food somewhere.
pub static MOVES: Words = Words::new("put place return set slide pop stick transfer move get throw shove lay arrange");

//! The larder against tables and standards from outside the project.

use tamis::larder::{CUP_MILLILITRES, Food, larder};
use uom::si::f64::Volume;
use uom::si::mass::gram;
use uom::si::mass_density::gram_per_cubic_centimeter;
use uom::si::volume::{cubic_inch, milliliter};

fn food(name: &str) -> &'static Food {
    larder().food(name).unwrap_or_else(|| panic!("no {name}"))
}

/// Grams in a US customary cup: low, typical, high. The form is empty for the food as it usually goes into a cup.
fn cup(name: &str, form: &str) -> (f64, f64, f64) {
    let food = food(name);
    let density = if form.is_empty() { food.density } else { food.form(form).map(|form| form.density) };
    let weight =
        density.unwrap_or_else(|| panic!("{name} {form}")).weight_of(Volume::new::<milliliter>(CUP_MILLILITRES));
    (weight.low.get::<gram>(), weight.typical.get::<gram>(), weight.high.get::<gram>())
}

#[track_caller]
fn near(value: f64, expected: f64, off: f64, what: &str) {
    assert!((value - expected).abs() <= off, "{what}: {value} is not {expected} ± {off}");
}

/// NIST Handbook 44, appendix C: a US gallon is 231 cubic inches, a cup a sixteenth of it.
#[test]
fn a_cup_is_a_sixteenth_of_231_cubic_inches() {
    near(CUP_MILLILITRES, Volume::new::<cubic_inch>(231.0 / 16.0).get::<milliliter>(), 1e-3, "cup");
}

/// USDA National Nutrient Database for Standard Reference, release 26 (2013), household weights: food, form, grams a cup, NDB number.
#[test]
fn cups_weigh_what_the_usda_weighed() {
    let table = [
        ("all-purpose flour", "", 125.0, "20081"),
        ("bread flour", "", 137.0, "20083"),
        ("whole-wheat flour", "", 120.0, "20080"),
        ("cornstarch", "", 128.0, "20027"),
        ("almond flour", "", 95.0, "12061"),
        ("granulated sugar", "", 200.0, "19335"),
        ("brown sugar", "packed", 220.0, "19334"),
        ("brown sugar", "unpacked", 145.0, "19334"),
        ("powdered sugar", "", 120.0, "19336"),
        ("powdered sugar", "sifted", 100.0, "19336"),
        ("honey", "", 339.0, "19296"),
        ("maple syrup", "", 315.0, "19353"),
        ("molasses", "", 337.0, "19304"),
        ("butter", "", 227.0, "01145"),
        ("shortening", "", 205.0, "04615"),
        ("olive oil", "", 216.0, "04053"),
        ("milk", "", 244.0, "01077"),
        ("heavy cream", "", 238.0, "01053"),
        ("heavy cream", "whipped", 120.0, "01053"),
        ("sour cream", "", 230.0, "01056"),
        ("buttermilk", "", 245.0, "01088"),
        ("sweetened condensed milk", "", 306.0, "01095"),
        ("cream cheese", "", 232.0, "01017"),
        ("cheddar", "shredded", 113.0, "01009"),
        ("feta", "crumbled", 150.0, "01019"),
        ("ricotta", "", 246.0, "01036"),
        ("egg", "", 243.0, "01123"),
        ("cocoa powder", "", 86.0, "19165"),
        ("chocolate chips", "", 168.0, "19080"),
        ("salt", "", 292.0, "02047"),
        ("vanilla extract", "", 208.0, "02050"),
        ("dry breadcrumbs", "", 108.0, "18079"),
        ("fresh breadcrumbs", "", 45.0, "18069"),
        ("rolled oats", "", 81.0, "08120"),
        ("white rice", "", 185.0, "20044"),
        ("peanut butter", "", 258.0, "16098"),
        ("raisin", "", 145.0, "09298"),
        ("onion", "chopped", 160.0, "11282"),
        ("tomato", "chopped", 180.0, "11529"),
        ("blueberry", "", 148.0, "09050"),
        ("lemon juice", "", 244.0, "09152"),
    ];
    for (name, form, grams, number) in table {
        near(cup(name, form).1, grams, 0.6, &format!("{name} {form} (SR26 {number})"));
    }
}

/// The same release, weights of one: food, unit, grams of the edible part, NDB number.
#[test]
fn ones_weigh_what_the_usda_weighed() {
    let table = [
        ("egg", "large", 50.0, "01123"),
        ("egg", "medium", 44.0, "01123"),
        ("egg yolk", "large", 17.0, "01125"),
        ("egg white", "large", 33.0, "01124"),
        ("butter", "stick", 113.0, "01145"),
        ("garlic", "clove", 3.0, "11215"),
        ("onion", "medium", 110.0, "11282"),
        ("carrot", "medium", 61.0, "11124"),
        ("celery", "stalk", 40.0, "11143"),
        ("bell pepper", "medium", 119.0, "11333"),
        ("tomato", "medium", 123.0, "11529"),
        ("potato", "medium", 213.0, "11353"),
        ("apple", "medium", 182.0, "09003"),
        ("banana", "medium", 118.0, "09040"),
        ("active dry yeast", "packet", 7.2, "18375"),
        ("gelatin", "envelope", 7.0, "19177"),
        ("phyllo dough", "sheet", 19.0, "18338"),
        ("corn tortilla", "one", 24.0, "18363"),
    ];
    for (name, unit, grams, number) in table {
        let weight = food(name).each(unit).unwrap_or_else(|| panic!("{name} {unit}"));
        near(weight.typical.get::<gram>(), grams, 0.05, &format!("{name} {unit} (SR26 {number})"));
    }
}

/// Average Weight of a Measured Cup of Various Foods, Home Economics Research Report 41, USDA Agricultural Research Service (1977).
/// Another laboratory, forty years earlier: the larder's spread has to reach it.
#[test]
fn the_spread_of_a_cup_reaches_an_older_table() {
    let table = [
        ("all-purpose flour", "", 126.0),
        ("all-purpose flour", "sifted", 116.0),
        ("bread flour", "", 123.0),
        ("bread flour", "sifted", 117.0),
        ("cake flour", "", 111.0),
        ("cake flour", "sifted", 99.0),
        ("dark rye flour", "", 128.0),
        ("light rye flour", "", 101.0),
        ("degermed cornmeal", "", 151.0),
        ("cornstarch", "", 125.0),
        ("granulated sugar", "", 196.0),
        ("brown sugar", "packed", 211.0),
        ("powdered sugar", "", 113.0),
        ("molasses", "", 309.0),
        ("margarine", "", 225.0),
        ("shortening", "", 187.0),
        ("neutral oil", "", 209.0),
    ];
    for (name, form, grams) in table {
        let (low, _, high) = cup(name, form);
        assert!(low * 0.99 <= grams && grams <= high * 1.01, "{name} {form}: {grams} is not in {low}…{high}");
    }
}

/// US Standards, Grades, and Weight Classes for Shell Eggs (AMS 56): least net ounces a dozen. The shell is 12 % (SR26 01123).
#[test]
fn eggs_weigh_what_their_class_says() {
    let classes = [("small", 18.0), ("medium", 21.0), ("large", 24.0), ("extra-large", 27.0), ("jumbo", 30.0)];
    let egg = food("egg");
    let edible = egg.edible.unwrap().share;
    for (size, ounces) in classes {
        let contents = ounces / 12.0 * 28.349_523_125 * edible;
        near(egg.each(size).unwrap().typical.get::<gram>(), contents, 1.0, size);
    }
}

/// Physical constants: water at room temperature, ice-cold fat, table salt.
#[test]
fn densities_agree_with_physics() {
    let typical = |name: &str| food(name).density.unwrap().typical.get::<gram_per_cubic_centimeter>();
    // CRC Handbook of Chemistry and Physics: water 0.998 g/ml at 20 °C; ethanol 40 % by volume 0.948 (from memory).
    near(typical("water"), 0.998, 0.01, "water");
    near(typical("vodka"), 0.948, 0.015, "vodka");
    // FoodData Central, Foundation foods 748608: 100 ml extra virgin olive oil weigh 90.7 g.
    near(typical("olive oil"), 0.907, 0.01, "olive oil");
    // Codex STAN 12: honey holds at most 20 % water, which gives 1.38 g/ml and more (from memory).
    assert!(typical("honey") >= 1.38);
    // Molar masses (IUPAC): sodium 22.990, sodium chloride 58.443.
    near(food("salt").nutrients().unwrap().sodium.unwrap(), 22.990 / 58.443 * 100_000.0, 700.0, "sodium in salt");
}

/// Standards of identity, 21 CFR: the least share of fat in per cent of weight.
#[test]
fn fats_meet_the_standards_of_identity() {
    let table = [
        ("milk", 3.25, "131.110"),
        ("heavy cream", 36.0, "131.150"),
        ("light whipping cream", 30.0, "131.157"),
        ("light cream", 18.0, "131.155"),
        ("half-and-half", 10.5, "131.180"),
        ("sour cream", 18.0, "131.160"),
        ("evaporated milk", 6.5, "131.130"),
        ("sweetened condensed milk", 8.0, "131.120"),
        ("milk powder", 26.0, "131.147"),
        ("cream cheese", 33.0, "133.133"),
        ("mayonnaise", 65.0, "169.140"),
        ("margarine", 80.0, "166.110"),
        // 21 U.S.C. 321a
        ("butter", 80.0, "butter act"),
    ];
    for (name, least, section) in table {
        let fat = food(name).nutrients().unwrap().fat;
        assert!(fat >= least, "{name} has {fat} % fat, {section} asks for {least}");
    }
    // 131.125: nonfat dry milk has not more than 1.5 %.
    assert!(food("nonfat dry milk").nutrients().unwrap().fat <= 1.5);
}

/// A quarter of an avoirdupois pound, and half a US cup: the two things that a stick of butter is.
#[test]
fn a_stick_of_butter_is_a_quarter_pound_and_half_a_cup() {
    let stick = food("butter").each("stick").unwrap();
    near(stick.high.get::<gram>(), 453.592_37 / 4.0, 0.05, "stick");
    near(cup("butter", "").1 / 2.0, 453.592_37 / 4.0, 0.5, "half a cup");
}

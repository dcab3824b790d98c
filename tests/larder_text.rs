//! Finding foods in running text, and whatever may be typed. What a step means is common practice, no source.

use tamis::larder::{larder, words};

/// A step's words, folded, with a break where punctuation stands.
fn scan(text: &str) -> Vec<String> {
    let words: Vec<_> = words::split(text).into_iter().collect();
    let mut folded: Vec<String> = Vec::new();
    for word in &words {
        if word.before.is_some() {
            folded.push(String::new());
        }
        folded.push(word.folded.clone().into_owned());
    }
    larder()
        .scan(&folded)
        .map(|hit| hit.part.map_or(hit.food.name.to_owned(), |part| format!("{}: {part}", hit.food.name)))
        .collect()
}

#[test]
fn a_step_is_scanned_for_its_foods() {
    let table: &[(&str, &[&str])] = &[
        (
            "Whisk the flour, cocoa powder and cream of tartar.",
            &["all-purpose flour", "cocoa powder", "cream of tartar"],
        ),
        ("Stir in the peanut butter, beans and tomatoes.", &["peanut butter", "bean", "tomato"]),
        ("Scatter over the spring onions and the zest of half the lemon.", &["scallion", "lemon: zest"]),
        ("Beat the egg yolks into the coconut milk.", &["egg yolk", "coconut milk"]),
        ("Add the celery leaves", &["celery leaf"]),
        ("Squeeze in the juice of the lemon, and collect the juices", &["lemon: juice"]),
        ("Roll out, toast, sprinkle, ice and sponge off", &["ice"]),
        ("Melt the cheddar cheese over the fusilli pasta", &["cheddar", "fusilli"]),
        ("Line the tin with foil and set a rack on it.", &[]),
        ("Cut the kale and the pears", &["kale", "pear"]),
        ("Cook until thick, stirring, about ten minutes.", &[]),
        ("", &[]),
    ];
    for (text, foods) in table {
        assert_eq!(scan(text), *foods, "{text}");
    }
}

proptest::proptest! {
    /// Whatever is typed: an answer or none, and spans that lie in the text.
    #[test]
    fn any_text_can_be_looked_up(text in "(?s)(.{0,40}|([a-z]{1,9}|of|or|, |2|½|-|’|/|é|butter|lemon|zest|eggs| ){0,12})") {
        if let Some(found) = larder().find(&text) {
            proptest::prop_assert!(text.get(found.span.start..found.span.end).is_some_and(|words| !words.is_empty()));
            let other = found.form.map(|(_, span)| span).into_iter().chain(found.misspelt.map(|slip| slip.span));
            for span in other {
                proptest::prop_assert!(text.get(span.start..span.end).is_some());
            }
        }
        let words: Vec<_> = words::split(&text).into_iter().map(|word| word.folded.into_owned()).collect();
        let mut last = 0;
        for hit in larder().scan(&words) {
            proptest::prop_assert!(last <= hit.start && hit.start < hit.end && hit.end <= words.len());
            last = hit.end;
        }
        for word in &words {
            proptest::prop_assert_eq!(words::fold(word), word.as_str());
        }
    }
}

/// Nothing that stands on a shelf may be lost: each name finds its own food, alone and with a word of state before it.
#[test]
fn every_name_on_the_shelves_finds_its_food() {
    for food in larder().foods() {
        for name in std::iter::once(&food.name).chain(&food.synonyms) {
            assert_eq!(larder().food(name).map(|found| found.name), Some(food.name), "{name}");
            let scanned: Vec<String> = words::split(name).into_iter().map(|word| word.folded.into_owned()).collect();
            let first = larder().scan(&scanned).next().map(|hit| (hit.food.name, hit.end));
            assert_eq!(first, Some((food.name, scanned.len())), "{name}");
        }
    }
}

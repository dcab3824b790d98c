//! Where things come from and where else they are spoken of, as an editor shows it.

use serde_json::{Value, json};
use tamis::text::Span;
use tamis_tests::drawn::{self, draw};
use tamis_tests::editor::Editor;

const BOOK: &str = "file:///book/plums.tamis";

/// Asks about the cursor drawn in `manuscript`.
async fn ask(manuscript: &str, method: &str, more: Value) -> (String, usize, Value) {
    let drawn = drawn::read(manuscript);
    let cursor = drawn.cursor.expect("a cursor");
    let mut editor = Editor::usual().await;
    editor.open(BOOK, &drawn.text).await;
    editor.published().await;
    let mut params = json!({ "textDocument": { "uri": BOOK }, "position": drawn::position(&drawn.text, cursor) });
    params.as_object_mut().unwrap().extend(more.as_object().cloned().unwrap_or_default());
    let answer = editor.request(&format!("textDocument/{method}"), params).await.unwrap();
    editor.leave().await;
    (drawn.text, cursor, answer)
}

fn places<'a>(answer: &'a Value, place: impl Fn(&'a Value) -> (Span, String)) -> Vec<(Span, String)> {
    answer.as_array().into_iter().flatten().map(place).collect()
}

/// An ingredient from the list to the last step, whatever it is called there; and the same from any of those places.
const HIGHLIGHTS: &[&str] = &[
    "\
Ingredients:
- 2 cups (250 g) all-purpose flour
- 3/4 cup (150 g) granulated sugar
//                | cursor
//                ^^^^^^^^^^^^^^^^ stated
- 2 tbsp (28 g) brown sugar
- 4 eggs, separated

Method:

1. Whisk the flour with [half the granulated sugar]. => dry mix
//                                ^^^^^^^^^^^^^^^^ taken
2. Beat the yolks with the brown sugar. Do not add the granulated sugar yet.
//                                                     ^^^^^^^^^^^^^^^^ named
3. Whip the egg whites with [the rest of the granulated sugar], and fold in the dry mix.
//                                           ^^^^^^^^^^^^^^^^ taken
",
    "\
Ingredients:
- 4 eggs, separated
//        ^^^^^^^^^ stated
- 1 cup (200 g) sugar

Method:

1. Beat the yolks with the sugar.
2. Whip the whites of the eggs and fold them in.
//          | cursor
//          ^^^^^^^^^^^^^^^^^^ taken
",
    "\
Equipment:
- 1 large bowl, 4 quarts (4 l)
//  ^^^^^^^^^^ stated
- 1 whisk
- 1 small bowl

Ingredients:
- 3 eggs

Method:

1. Whisk the eggs in the large bowl.
//                          | cursor
//                       ^^^^^^^^^^ taken
2. Pour half into the [small bowl], and the rest back into the large bowl; rinse the bowls and the whisk.
//                                                             ^^^^^^^^^^ taken
",
    "\
Ingredients:
- 2 cups (250 g) flour
- 1/2 cup (120 ml) water

Method:

1. Mix the flour with the water. => dough
//                                  ^^^^^ stated
2. Knead the dough for 5 minutes.
//            | cursor
//           ^^^^^ taken
3. Let the dough rest, then roll out half the dough. => dough
//         ^^^^^ named
//                                            ^^^^^ taken
//                                                      ^^^^^ stated
4. Bake the dough.
//          ^^^^^ taken
",
];

#[tokio::test]
async fn the_way_of_a_thing_is_shown_wherever_it_goes() {
    for manuscript in HIGHLIGHTS {
        let (text, cursor, answer) = ask(manuscript, "documentHighlight", json!({})).await;
        let words = |kind: &Value| match kind.as_u64() {
            Some(1) => "named",
            Some(2) => "taken",
            Some(3) => "stated",
            other => panic!("{other:?}"),
        };
        let places = places(&answer, |one| (drawn::span(&text, &one["range"]), words(&one["kind"]).to_owned()));
        assert_eq!(draw(&text, Some(cursor), &places), *manuscript);
    }
}

/// Where what stands at the cursor comes from.
const DEFINITIONS: &[&str] = &[
    "\
Ingredients:
- 1 cup (200 g) sugar
- 2 lb (900 g) plums, halved
//             ^^^^^ here

Method:

1. Toss the plums with the sugar.
//           | cursor
//          ^^^^^ this
",
    "\
Ingredients:
- 1 lemon, zest and juice
//         ^^^^ here

Method:

1. Add the juice and the [grated zest].
//                         | cursor
//                        ^^^^^^^^^^^ this
",
    "\
Ingredients:
- 2 cups (250 g) flour

Method:

1. Mix the flour with water. => dough, crumbs
//                              ^^^^^ here
2. Knead the dough. Roll it in the crumbs.
//              | cursor
//           ^^^^^ this
",
    "\
Ingredients:

For the crumble:
^^^^^^^^^^^^^^^ here
- 1 cup (100 g) rye flour
//              ^^^^^^^^^ here
- 7 tbsp (100 g) butter
//               ^^^^^^ here

Method:

1. Rub the [crumble] together.
//           | cursor
//         ^^^^^^^^^ this
",
    "\
Equipment:
- 1 baking dish, 9 x 13 in (23 x 33 cm)
//  ^^^^^^^^^^^ here

Ingredients:
- 2 lb (900 g) plums

Method:

1. Lay the plums in the dish.
//                       | cursor
//                      ^^^^ this
",
    "\
Recipe: Plum Slice

Ingredients:
- 1 batch [[rye crusts]]
//            | cursor
//        ^^^^^^^^^^^^^^ this

Recipe: Rye Crust
//      ^^^^^^^^^ here

Ingredients:
- 2 cups (200 g) rye flour
",
];

#[tokio::test]
async fn everything_comes_from_somewhere() {
    for manuscript in DEFINITIONS {
        let (text, cursor, answer) = ask(manuscript, "definition", json!({})).await;
        let mut found = places(&answer, |one| {
            let (whole, name) = (&one["targetRange"], &one["targetSelectionRange"]);
            let (whole, name) = (drawn::span(&text, whole), drawn::span(&text, name));
            assert!(whole.contains(name), "{one}");
            (name, "here".to_owned())
        });
        found.push((drawn::span(&text, &answer[0]["originSelectionRange"]), "this".to_owned()));
        assert_eq!(draw(&text, Some(cursor), &found), *manuscript);
    }
}

/// A client that takes nothing but places gets them; and where nothing comes from anywhere, nothing.
#[tokio::test]
async fn a_place_may_be_all_that_is_wanted() {
    let (mut editor, _) = Editor::introduced(json!({})).await;
    let text = "Recipe: Plums\n\nIngredients:\n- 2 lb plums\n\nMethod:\n\n1. Boil the plums with [[Nothing]].\n";
    editor.open(BOOK, text).await;
    editor.published().await;
    for (word, place) in [("plums with", Some("plums")), ("Boil", None), ("Nothing", None), ("Method", None)] {
        let position = drawn::position(text, text.find(word).unwrap() + 1);
        let params = json!({ "textDocument": { "uri": BOOK }, "position": position });
        let answer = editor.request("textDocument/definition", params).await.unwrap();
        let found = places(&answer, |one| (drawn::span(text, &one["range"]), one["uri"].as_str().unwrap().to_owned()));
        let found: Vec<_> = found.iter().map(|(span, uri)| (span.of(text), uri.as_str())).collect();
        assert_eq!(found, Vec::from_iter(place.map(|place| (place, BOOK))), "{word}");
    }
    editor.leave().await;
}

/// The type of what another recipe makes is that recipe.
#[tokio::test]
async fn what_another_recipe_makes_leads_to_that_recipe() {
    let manuscript = "\
Recipe: Plum Slice

Ingredients:
- 1 batch [[Rye Crust]]

Method:

1. Line the dish with the [rye crust].
//                           | cursor

Recipe: Rye Crust
//      ^^^^^^^^^ here
";
    let (text, cursor, answer) = ask(manuscript, "typeDefinition", json!({})).await;
    let found = places(&answer, |one| (drawn::span(&text, &one["targetSelectionRange"]), "here".to_owned()));
    assert_eq!(draw(&text, Some(cursor), &found), manuscript);
}

/// References, without the places that list or make the thing; those are added where the client wants them.
const REFERENCES: &[&str] = &[
    "\
Ingredients:
- 3 eggs
//   | cursor
//  ^^^^ declaration
- 1 cup (200 g) sugar
- 1 tbsp rum

Method:

1. Beat all the ingredients together. => base
//      ^^^^^^^^^^^^^^^^^^^
2. Dust the base with sugar.
",
    "\
Recipe: Plum Slice

Ingredients:
- 1 batch [[Rye Crust]]
//          ^^^^^^^^^

Recipe: Rye Crust
//         | cursor
//      ^^^^^^^^^ declaration

Ingredients:
- 2 cups (200 g) rye flour

Notes: The filling is that of the [[Plum Slice]], or try half a [[Rye Crust]] with cheese.
//                                                                ^^^^^^^^^
",
];

#[tokio::test]
async fn every_place_that_speaks_of_it_is_found() {
    for manuscript in REFERENCES {
        let context = |declared: bool| json!({ "context": { "includeDeclaration": declared } });
        let (text, cursor, answer) = ask(manuscript, "references", context(true)).await;
        let (_, _, bare) = ask(manuscript, "references", context(false)).await;
        let without = places(&bare, |one| (drawn::span(&text, &one["range"]), String::new()));
        let found = places(&answer, |one| {
            let span = drawn::span(&text, &one["range"]);
            let declared = !without.iter().any(|(other, _)| *other == span);
            (span, if declared { "declaration" } else { "" }.to_owned())
        });
        assert_eq!(draw(&text, Some(cursor), &found), *manuscript);
    }
}

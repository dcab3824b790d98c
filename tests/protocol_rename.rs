//! Renaming, as an editor asks for it: every place that carries the name, and a reason where it cannot be done.

use serde_json::{Value, json};
use tamis::text::{Document, Edit};
use tamis_tests::drawn;
use tamis_tests::editor::{Editor, Refused};

const CAKE: &str = "file:///book/cake.tamis";
const REQUEST_FAILED: i64 = -32803;

const MANUSCRIPT: &str = "\
Recipe: Glut Cake

Equipment:
- 1 large bowl
- 1 loaf pan, 9 x 5 in (23 x 13 cm)

Ingredients:
- 2 cups (250 g) all-purpose flour
- 3/4 cup (150 g) light brown sugar
- 2 large eggs
- 1 orange, zest and juice
- 2 scallions, sliced
- butter or oil, for the pan

Method:

1. Butter the loaf pan. Whisk the flour in the large bowl.

2. Beat the eggs with half the brown sugar and the [zest]. => batter

3. Fold [the batter] into the flour with [the rest of the light brown sugar]. Each egg makes it lighter,
   and the orange juice too.

4. Scatter the green onions over the batter in the pan and bake for 50 minutes. Scallions burn: cover them.
";

fn at(text: &str, place: &str) -> Value {
    let (before, behind) = place.split_once('‸').unwrap();
    let offset = text.find(&format!("{before}{behind}")).unwrap_or_else(|| panic!("{place}")) + before.len();
    drawn::position(text, offset)
}

async fn opened(text: &str) -> Editor {
    let mut editor = Editor::usual().await;
    editor.open(CAKE, text).await;
    editor.published().await;
    editor
}

async fn renamed(editor: &mut Editor, text: &str, place: &str, new: &str) -> Result<String, Refused> {
    let params = json!({ "textDocument": { "uri": CAKE }, "position": at(text, place), "newName": new });
    let answer = editor.request("textDocument/rename", params).await?;
    let change = &answer["documentChanges"][0];
    assert_eq!(change["textDocument"], json!({ "uri": CAKE, "version": 1 }));
    let edits = change["edits"].as_array().unwrap().iter();
    let edits: Vec<Edit> =
        edits.map(|edit| Edit::replace(drawn::span(text, &edit["range"]), edit["newText"].as_str().unwrap())).collect();
    Ok(Edit::apply_all(text, &edits))
}

/// Where, the new name, and the lines that come out otherwise.
const RENAMED: &[(&str, &str, &[&str])] = &[
    // The new name is shortened in the method as the old one was.
    (
        "light brown su‸gar\n",
        "dark brown sugar",
        &[
            "- 3/4 cup (150 g) dark brown sugar",
            "3. Fold [the batter] into the flour with [the rest of the dark brown sugar]. Each egg makes it lighter,",
        ],
    ),
    // One that cannot be shortened that way is written out.
    (
        "half the brown su‸gar",
        "muscovado",
        &[
            "- 3/4 cup (150 g) muscovado",
            "2. Beat the eggs with half the muscovado and the [zest]. => batter",
            "3. Fold [the batter] into the flour with [the rest of the muscovado]. Each egg makes it lighter,",
        ],
    ),
    // Singular and plural stay what they are.
    (
        "Each e‸gg makes",
        "duck eggs",
        &[
            "- 2 large duck eggs",
            "2. Beat the duck eggs with half the brown sugar and the [zest]. => batter",
            "3. Fold [the batter] into the flour with [the rest of the light brown sugar]. Each duck egg makes it lighter,",
        ],
    ),
    // A result, from the step that makes it or from one that uses it.
    (
        "=> bat‸ter",
        "sponge mixture",
        &[
            "2. Beat the eggs with half the brown sugar and the [zest]. => sponge mixture",
            "3. Fold [the sponge mixture] into the flour with [the rest of the light brown sugar]. Each egg makes it lighter,",
            "4. Scatter the green onions over the sponge mixture in the pan and bake for 50 minutes. Scallions burn: cover them.",
        ],
    ),
    // Another word for the same thing goes with it, and a capital stays one.
    (
        "scall‸ions",
        "leeks",
        &[
            "- 2 leeks, sliced",
            "4. Scatter the leeks over the batter in the pan and bake for 50 minutes. Leeks burn: cover them.",
        ],
    ),
    // A part of something.
    (
        "the [ze‸st]",
        "peel",
        &["- 1 orange, peel and juice", "2. Beat the eggs with half the brown sugar and the [peel]. => batter"],
    ),
    // The name of the whole, where a part is spoken of.
    ("- 1 ora‸nge", "lemon", &["- 1 lemon, zest and juice", "   and the lemon juice too."]),
    (
        "the large bo‸wl",
        "mixing bowl",
        &["- 1 mixing bowl", "1. Butter the loaf pan. Whisk the flour in the mixing bowl."],
    ),
    // "In the pan" still says which.
    (
        "loaf p‸an,",
        "bread pan",
        &["- 1 bread pan, 9 x 5 in (23 x 13 cm)", "1. Butter the bread pan. Whisk the flour in the large bowl."],
    ),
];

#[tokio::test]
async fn every_mention_that_carries_the_name_carries_the_new_one() {
    for text in [MANUSCRIPT.to_owned(), MANUSCRIPT.replace('\n', "\r\n")] {
        let mut editor = opened(&text).await;
        for (place, new, lines) in RENAMED {
            let place = if text.contains('\r') { place.replace('\n', "\r\n") } else { place.to_string() };
            let after = renamed(&mut editor, &text, &place, new).await.unwrap();
            let changed: Vec<&str> = after.lines().filter(|line| !text.lines().any(|old| old == *line)).collect();
            assert_eq!(changed, *lines, "{place} -> {new}");
        }
        editor.leave().await;
    }
}

/// Where, the new name, and words of the reason.
const REFUSED: &[(&str, &str, &str)] = &[
    ("Recipe: Gl‸ut", "[Cake]", "cannot stand in a title"),
    ("and ba‸ke", "roast", "Nothing that can be renamed"),
    ("Me‸thod", "Steps", "Nothing that can be renamed"),
    ("3/4 c‸up", "mug", "Nothing that can be renamed"),
    // "Butter" means what the line lists: either of two.
    ("1. But‸ter", "lard", "is not the name"),
    ("flo‸ur\n", "", "at least one letter"),
    ("flo‸ur\n", "12", "at least one letter"),
    ("flo‸ur\n", "1 flour", "A number in front"),
    ("flo‸ur\n", "flour, sifted", "',' would end the name"),
    ("flo‸ur\n", "flour\nsalt", "would end the name"),
    ("flo‸ur\n", "[flour]", "'[' would end the name"),
    ("flo‸ur\n", "flour and starch", "not be read as one name"),
    ("light brown su‸gar\n", "flour", "in step 1 would mean something else"),
    ("=> bat‸ter", "eggs", "in step 3 would mean something else"),
];

#[tokio::test]
async fn what_cannot_be_renamed_is_refused_with_a_reason() {
    let mut editor = opened(MANUSCRIPT).await;
    for (place, new, reason) in REFUSED {
        let refused = renamed(&mut editor, MANUSCRIPT, place, new).await.expect_err(place);
        assert_eq!(refused.code, REQUEST_FAILED);
        assert!(refused.message.contains(reason), "{place} -> {new}: {}", refused.message);
    }
    editor.leave().await;
}

#[tokio::test]
async fn an_editor_asks_before_it_asks_for_a_name() {
    let mut editor = opened(MANUSCRIPT).await;
    for (place, named) in [
        ("half the brown su‸gar", Some(("brown sugar", "light brown sugar"))),
        ("[the ba‸tter]", Some(("batter", "batter"))),
        ("in the pa‸n", Some(("pan", "loaf pan"))),
        ("- 2 large e‸ggs", Some(("eggs", "eggs"))),
        ("Fo‸ld", None),
    ] {
        let params = json!({ "textDocument": { "uri": CAKE }, "position": at(MANUSCRIPT, place) });
        let answer = editor.request("textDocument/prepareRename", params).await;
        match named {
            None => assert_eq!(answer.unwrap_err().code, REQUEST_FAILED, "{place}"),
            Some((words, name)) => {
                let answer = answer.unwrap();
                assert_eq!(drawn::span(MANUSCRIPT, &answer["range"]).of(MANUSCRIPT), words);
                assert_eq!(answer["placeholder"], name);
            }
        }
    }
    editor.leave().await;
}

/// Behind a rename the document is read as it was: nothing new is found in it.
#[tokio::test]
async fn a_rename_brings_no_finding() {
    let mut editor = Editor::usual().await;
    editor.open(CAKE, MANUSCRIPT).await;
    let codes = |published: tamis_tests::editor::Published| -> Vec<Value> {
        published.diagnostics.iter().map(|diagnostic| diagnostic["code"].clone()).collect()
    };
    let before = codes(editor.published().await);
    let after = renamed(&mut editor, MANUSCRIPT, "light brown su‸gar\n", "dark brown sugar").await.unwrap();
    assert_eq!(Document::new(&after).line_count(), Document::new(MANUSCRIPT).line_count());
    editor.change(CAKE, 2, json!([{ "text": after }])).await;
    assert_eq!(codes(editor.published().await), before);
    editor.leave().await;
}

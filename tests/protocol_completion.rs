//! What an editor is offered to write, and in which order.

use std::hash::{DefaultHasher, Hash, Hasher};

use serde_json::{Value, json};
use tamis::text::{Document, Edit};
use tamis_tests::drawn;
use tamis_tests::editor::Editor;

/// What comes before the place that is asked about.
const LIST: &str = "\
Recipe: Plum Slice
Serves: 8

Equipment:
- 1 large bowl

Ingredients:
- 2 cups (250 g) all-purpose flour
- 3/4 cup (150 g) brown sugar, divided
- 4 eggs, separated
- 1 tsp fine salt

For the top:
- 2 lb (900 g) plums, halved
- 2 tbsp sugar
";

const METHOD: &str = "
Method:

1. Beat the yolks with 1/2 cup (100 g) of the brown sugar and the flour. => batter

";

/// An editor that takes everything.
async fn editor() -> Editor {
    let item = json!({
        "snippetSupport": true,
        "labelDetailsSupport": true,
        "documentationFormat": ["markdown"],
    });
    Editor::introduced(json!({ "textDocument": { "completion": { "completionItem": item } } })).await.0
}

struct Offer {
    text: String,
    list: Value,
}

/// What is offered at the `‸` of a text; by itself, where `typed` has just been typed.
async fn offered(editor: &mut Editor, drawn: &str, typed: Option<&str>) -> Offer {
    let cursor = drawn.find('‸').expect("a cursor");
    let text = drawn.replace('‸', "");
    // Each under a name of its own: what is found in a text that is shown already is not told again.
    let mut name = DefaultHasher::new();
    drawn.hash(&mut name);
    let uri = format!("untitled:{}", name.finish());
    editor.open(&uri, &text).await;
    let context = match typed {
        Some(sign) => json!({ "triggerKind": 2, "triggerCharacter": sign }),
        None => json!({ "triggerKind": 1 }),
    };
    let params = json!({
        "textDocument": { "uri": uri }, "position": drawn::position(&text, cursor), "context": context,
    });
    let list = editor.request("textDocument/completion", params).await.unwrap();
    editor.published().await;
    Offer { text, list }
}

impl Offer {
    fn items(&self) -> &[Value] {
        let items = self.list["items"].as_array().unwrap();
        let order: Vec<&str> = items.iter().map(|item| item["sortText"].as_str().unwrap()).collect();
        assert!(order.is_sorted(), "{order:?}");
        items
    }

    /// The first offers: `label | detail`.
    fn shown(&self, most: usize) -> Vec<String> {
        let items = self.items().iter().take(most);
        let shown = items.map(|item| match item["detail"].as_str() {
            Some(detail) => format!("{} | {detail}", item["label"].as_str().unwrap()),
            None => item["label"].as_str().unwrap().to_owned(),
        });
        shown.collect()
    }

    fn item(&self, label: &str) -> &Value {
        self.items()
            .iter()
            .find(|item| item["label"] == label)
            .unwrap_or_else(|| panic!("{label}: {:?}", self.shown(99)))
    }

    /// The line of the cursor once an offer has been taken.
    fn line_after(&self, label: &str) -> String {
        let edit = &self.item(label)["textEdit"];
        let span = drawn::span(&self.text, &edit["range"]);
        let text = Edit::apply_all(&self.text, &[Edit::replace(span, edit["newText"].as_str().unwrap())]);
        let document = Document::new(&text);
        let line = document.line(document.line_of(span.start));
        document.slice(line).into_owned()
    }
}

/// Where a line of the method is being written, behind what sign, and the first offers.
const IN_A_STEP: &[(&str, Option<&str>, &[&str])] = &[
    // What has been made and what is left come first, whatever nothing has used before what has.
    (
        "2. Fold the ‸",
        Some(" "),
        &[
            "batter | made in step 1",
            "whites | of the eggs",
            "salt | 1 tsp",
            "plums | 2 lb (900 g)",
            "sugar | 2 tbsp",
            "brown sugar | 1/4 cup (50 g) left",
            "eggs | some left",
        ],
    ),
    ("2. Fold the batter into the ‸", Some(" "), &["whites | of the eggs"]),
    // A name is found by any of its words, and by as much of it as is there.
    ("2. Scatter the su‸", None, &["sugar | 2 tbsp", "brown sugar | 1/4 cup (50 g) left"]),
    ("2. Scatter the brown su‸", None, &["sugar | 2 tbsp", "brown sugar | 1/4 cup (50 g) left"]),
    // Used up is offered when it is asked for, not before.
    ("2. Dust with fl‸", None, &["all-purpose flour | all used"]),
    (
        "2. Wipe the b‸",
        None,
        &["batter | made in step 1", "brown sugar | 1/4 cup (50 g) left", "large bowl | equipment"],
    ),
    // In brackets, with the rest of what has been begun.
    (
        "2. Fold the [‸",
        Some("["),
        &[
            "batter | made in step 1",
            "whites | of the eggs",
            "salt | 1 tsp",
            "plums | 2 lb (900 g)",
            "sugar | 2 tbsp",
            "the rest of the brown sugar | 1/4 cup (50 g) left",
            "brown sugar | 1/4 cup (50 g) left",
            "eggs | some left",
            "large bowl | equipment",
        ],
    ),
    ("2. Scatter [‸]", Some("["), &["batter | made in step 1"]),
    ("2. Scatter [the rest of the br‸", None, &["brown sugar | 1/4 cup (50 g) left"]),
    ("2. Lay the [top ‸", None, &["top ingredients | all 2 of them"]),
    // Units behind a number; those that are used already first.
    ("2. Bake for 40 ‸", Some(" "), &["minutes | minute", "hours | hour"]),
    ("2. Bake for 40 to 45 mi‸", None, &["minutes | minute", "ml | millilitre"]),
    // Nothing in a remark, in a word of its own, behind an arrow.
    ("2. Bake. // the ‸", None, &[]),
    ("?? Is the ‸", None, &[]),
    ("2. Bake until done. => ‸", Some(" "), &[]),
];

#[tokio::test]
async fn a_step_is_offered_what_the_recipe_still_needs() {
    let mut editor = editor().await;
    let mut wrong = String::new();
    for (line, typed, expected) in IN_A_STEP {
        let offer = offered(&mut editor, &format!("{LIST}{METHOD}{line}\n"), *typed).await;
        let shown = offer.shown(expected.len().max(1));
        if shown != *expected {
            wrong += &format!("{line}\n  expected {expected:#?}\n  offered {:#?}\n", offer.shown(99));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
    editor.leave().await;
}

/// Where a line of the list is being written, and the first offers.
const IN_THE_LIST: &[(&str, Option<&str>, &[&str])] = &[
    // What the method has and the list lacks.
    ("- ‸", Some(" "), &["rum | the method has it · cup"]),
    ("- 2 ‸", Some(" "), &["cups | cup", "tbsp | tablespoon", "tsp | teaspoon", "lb | pound"]),
    ("- 2 tb‸", None, &["tbsp | tablespoon"]),
    ("- 2 cups ‸", Some(" "), &["rum | the method has it · cup"]),
    ("- 2 cups (480 ml) whole mi‸", None, &["milk | cup"]),
    ("- 1 tsp bak‸", None, &["baking soda | tsp", "baking powder | tsp"]),
    ("- 1 spring on‸", None, &["scallion | each"]),
    ("- 1 lb apples, pe‸", None, &[]),
];

#[tokio::test]
async fn the_list_is_offered_foods_with_their_units() {
    let mut editor = editor().await;
    let mut wrong = String::new();
    for (line, typed, expected) in IN_THE_LIST {
        let method = METHOD.replace("the flour", "the flour and add 2 tbsp rum");
        let offer = offered(&mut editor, &format!("{LIST}{line}\n{method}"), *typed).await;
        // The weight of one is the larder's to say.
        let shown: Vec<String> = offer.shown(expected.len().max(1));
        let without_weight = |shown: &String| shown.split(',').next().unwrap().to_owned();
        if shown.iter().map(without_weight).collect::<Vec<_>>() != *expected {
            wrong += &format!("{line}\n  expected {expected:#?}\n  offered {:#?}\n", offer.shown(9));
        }
    }
    assert!(wrong.is_empty(), "{wrong}");
    editor.leave().await;
}

/// What stands there, the offer that is taken, and the line that comes out.
const TAKEN: &[(&str, &str, &str)] = &[
    ("2. Fold the [‸", "batter", "2. Fold the [batter]"),
    ("2. Fold the [‸] in", "batter", "2. Fold the [batter] in"),
    ("2. Fold [half the b‸", "batter", "2. Fold [half the batter]"),
    ("2. Scatter [‸", "the rest of the brown sugar", "2. Scatter [the rest of the brown sugar]"),
    ("2. Scatter the brown su‸ over", "brown sugar", "2. Scatter the brown sugar over"),
    ("2. Bake for 1 ‸", "hour", "2. Bake for 1 hour"),
    ("See [[b‸", "Bottled Plums", "See [[Bottled Plums]]"),
    ("See [[‸]]", "Bottled Plums", "See [[Bottled Plums]]"),
    ("See [[‸]", "Bottled Plums", "See [[Bottled Plums]]"),
    ("stet ‸", "step-numbering", "stet step-numbering: "),
    ("stet sha‸: so be it", "share-exceeds", "stet share-exceeds: so be it"),
    ("Sto‸", "Storage:", "Storage: "),
];

#[tokio::test]
async fn what_is_taken_fits_what_stands_there() {
    let mut editor = editor().await;
    for (line, label, after) in TAKEN {
        let text = format!("{LIST}{METHOD}{line}\n\nRecipe: Bottled Plums\n\nIngredients:\n- plums\n");
        let offer = offered(&mut editor, &text, None).await;
        assert_eq!(offer.line_after(label), *after, "{line}");
    }
    let list = |line: &str| format!("{LIST}{line}\n{METHOD}");
    for (line, label, after) in [
        ("- 2 bread fl‸", "bread flour", "- 2 cups bread flour"),
        ("- 3 egg‸", "egg", "- 3 eggs"),
        ("- 1 cup milk‸", "milk", "- 1 cup milk"),
        // With places to fill in, for an editor that can.
        ("- cinn‸", "cinnamon", "- ${1:1} tsp cinnamon"),
    ] {
        let offer = offered(&mut editor, &list(line), None).await;
        assert_eq!(offer.line_after(label), after, "{line}");
    }
    editor.leave().await;

    let (mut plain, _) = Editor::introduced(json!({})).await;
    let offer = offered(&mut plain, &list("- cinn‸"), None).await;
    assert_eq!(offer.line_after("cinnamon"), "- cinnamon");
    assert_eq!(offer.item("cinnamon")["insertTextFormat"], 1);
    assert!(offer.item("cinnamon")["labelDetails"].is_null());
    plain.leave().await;
}

/// Labels and headings that a recipe does not have yet, where one may stand.
#[tokio::test]
async fn a_line_may_start_with_what_the_recipe_lacks() {
    let mut editor = editor().await;
    for (text, first) in [
        ("‸", &["Recipe: | starts a recipe", "Ingredients: | the list", "Method: | the steps"][..]),
        ("Rec‸", &["Recipe: | starts a recipe"]),
        ("Recipe: Plums\n‸", &["Yield: | what it makes", "Serves: | how many it feeds"]),
        ("Recipe: Plums\nServes: 2\n‸", &["Yield: | what it makes", "Time: | active and total"]),
        ("Recipe: Plums\n\nA note.\n\nIng‸", &["Ingredients: | the list"]),
        (
            "Recipe: Plums\n\nIngredients:\n- plums\n\nM‸",
            &["Method: | the steps", "Make ahead: | what can be done before"],
        ),
        (
            "Recipe: Plums\n\nMethod:\n\n1. Boil.\n\n‸",
            &["Ingredients: | the list", "Equipment: | what to cook it with"],
        ),
        // In the middle of a paragraph, behind a word with a blank before it, where the colon is there already.
        ("Recipe: Plums\n\nA note\nIng‸", &[]),
        ("Recipe: Plums\n\n Ing‸", &[]),
        ("Recipe: Plums\n\nIng‸: \n", &[]),
    ] {
        let offer = offered(&mut editor, text, None).await;
        assert_eq!(offer.shown(first.len().max(1)), first, "{text}");
    }
    // Nobody has asked.
    assert_eq!(offered(&mut editor, "Recipe: Plums\n\nA ‸", Some(" ")).await.shown(1), [""; 0]);
    editor.leave().await;
}

/// Behind `stet` the checks come first that find something, and of those what is found below.
#[tokio::test]
async fn stet_is_offered_what_is_found() {
    let mut editor = editor().await;
    let text = format!(
        "{LIST}\nMethod:\n\n1. Beat the yolks with the flour.\n\nstet ‸\n\n3. Chill the batter in the the bowl.\n"
    );
    let offer = offered(&mut editor, &text, None).await;
    assert_eq!(offer.shown(2)[0].split(" | ").next(), Some("step-numbering"), "{:?}", offer.shown(5));
    assert!(offer.shown(4).iter().any(|shown| shown.starts_with("ingredient-unused")), "{:?}", offer.shown(5));
    editor.leave().await;
}

#[tokio::test]
async fn more_is_said_of_what_is_looked_at() {
    let mut editor = editor().await;
    for (line, label, said) in [
        ("- 1 tsp bak‸", "baking powder", "**baking powder**"),
        ("- 1 tb‸", "tbsp", "1 tablespoon is"),
        ("stet sha‸", "share-exceeds", "# share-exceeds"),
    ] {
        let offer = offered(&mut editor, &format!("{LIST}{line}\n{METHOD}"), None).await;
        let item = offer.item(label).clone();
        assert!(item["documentation"].is_null());
        let resolved = editor.request("completionItem/resolve", item.clone()).await.unwrap();
        let value = resolved["documentation"]["value"].as_str().unwrap();
        assert!(value.contains(said) && !value.contains("```"), "{label}: {value}");
        assert_eq!(resolved["textEdit"], item["textEdit"]);
    }
    // An item of somebody else's comes back as it is.
    let stranger = json!({ "label": "?", "data": { "id": 7 } });
    assert_eq!(editor.request("completionItem/resolve", stranger.clone()).await.unwrap(), stranger);
    editor.leave().await;
}

//! What an editor makes of a document as a whole: its outline, what folds, what a selection grows to, where links lead.

use serde_json::{Value, json};
use tamis_tests::drawn;
use tamis_tests::editor::Editor;

const BOOK: &str = "file:///book/winter.tamis";

const WINTER: &str = "\
Notes of the kitchen hut, https://example.org/hut (see there).

Recipe: 🥧 Apple and Rye Pie
Serves: 6
Time: 30 min active, 2 h total

Keeps well.

// the crust is the society's own
// and nobody's business

Equipment:
- 1 pie dish, 9 in (23 cm)

Ingredients:
- 1 batch [[Rye Crust]]

For the filling:
- 2 lb (900 g) apples, peeled
- 1/2 cup (100 g) sugar
- 1 tsp cinnamon

Method:

1. Toss the apples with the sugar and the cinnamon in a bowl large enough to hold them all with
   room to spare. => filling

For the pie:

2. Line the pie dish with the crust, fill it with the filling, and bake for 50 minutes.

Storage: Keeps 2 days.

Recipe: Rye Crust

Ingredients:
- 2 cups (200 g) rye flour

Method:

Knead the flour with 1/2 cup (120 ml) water. See [[Nobody's Crust]].
";

async fn opened(text: &str) -> Editor {
    let mut editor = Editor::usual().await;
    editor.open(BOOK, text).await;
    editor.published().await;
    editor
}

async fn ask(editor: &mut Editor, method: &str, more: Value) -> Value {
    let mut params = json!({ "textDocument": { "uri": BOOK } });
    params.as_object_mut().unwrap().extend(more.as_object().cloned().unwrap_or_default());
    editor.request(&format!("textDocument/{method}"), params).await.unwrap()
}

/// The symbols as an outline shows them, each with the words that selecting it goes to.
fn tree(text: &str, symbols: &Value, depth: usize, out: &mut Vec<String>) {
    for symbol in symbols.as_array().into_iter().flatten() {
        let (whole, name) = (drawn::span(text, &symbol["range"]), drawn::span(text, &symbol["selectionRange"]));
        assert!(whole.contains(name), "{symbol}");
        let detail = symbol["detail"].as_str().map(|detail| format!(" | {detail}")).unwrap_or_default();
        out.push(format!("{}{}{detail}", "  ".repeat(depth), symbol["name"].as_str().unwrap()));
        for child in symbol["children"].as_array().into_iter().flatten() {
            assert!(whole.contains(drawn::span(text, &child["range"])), "{child} in {}", symbol["name"]);
        }
        tree(text, &symbol["children"], depth + 1, out);
    }
}

const OUTLINE: &str = "\
🥧 Apple and Rye Pie | serves 6 · 30 min active, 2 h total
  Equipment
    1 pie dish, 9 in (23 cm)
  Ingredients
    Rye Crust | 1 batch
    For the filling
      apples | 2 lb (900 g)
      sugar | 1/2 cup (100 g)
      cinnamon | 1 tsp
  Method
    1. Toss the apples with the sugar and the cinnamon in a bowl… | => filling
      filling
    For the pie
      2. Line the pie dish with the crust, fill it with the filling…
  Storage
Rye Crust
  Ingredients
    rye flour | 2 cups (200 g)
  Method
    Knead the flour with 1/2 cup (120 ml) water. See [[Nobody's…
";

#[tokio::test]
async fn the_outline_is_that_of_the_recipes() {
    for text in [WINTER.to_owned(), WINTER.replace('\n', "\r\n")] {
        let mut editor = opened(&text).await;
        let symbols = ask(&mut editor, "documentSymbol", json!({})).await;
        let mut lines = Vec::new();
        tree(&text, &symbols, 0, &mut lines);
        assert_eq!(lines.join("\n") + "\n", OUTLINE);
        editor.leave().await;
    }
}

/// A client that cannot take a tree gets a list, each entry with what it stands in.
#[tokio::test]
async fn an_outline_can_be_flat() {
    let (mut editor, _) = Editor::introduced(json!({})).await;
    editor.open(BOOK, WINTER).await;
    editor.published().await;
    let symbols = ask(&mut editor, "documentSymbol", json!({})).await;
    let symbols = symbols.as_array().unwrap();
    assert_eq!(symbols.len(), OUTLINE.lines().count());
    let sugar = symbols.iter().find(|symbol| symbol["name"] == "sugar").unwrap();
    assert_eq!(sugar["containerName"], "For the filling");
    assert_eq!(drawn::span(WINTER, &sugar["location"]["range"]).of(WINTER), "1/2 cup (100 g) sugar");
    editor.leave().await;
}

#[tokio::test]
async fn recipes_sections_groups_and_remarks_fold() {
    let mut editor = opened(WINTER).await;
    let folds = ask(&mut editor, "foldingRange", json!({})).await;
    let line = |value: &Value| WINTER.lines().nth(value.as_u64().unwrap() as usize).unwrap();
    let shown = folds.as_array().unwrap().iter().map(|fold| {
        format!("{} ... {} ({})", line(&fold["startLine"]), line(&fold["endLine"]), fold["kind"].as_str().unwrap())
    });
    let shown: Vec<String> = shown.collect();
    assert_eq!(
        shown,
        [
            "Recipe: 🥧 Apple and Rye Pie ... Storage: Keeps 2 days. (region)",
            "Equipment: ... - 1 pie dish, 9 in (23 cm) (region)",
            "Ingredients: ... - 1 tsp cinnamon (region)",
            "For the filling: ... - 1 tsp cinnamon (region)",
            "Method: ... 2. Line the pie dish with the crust, fill it with the filling, and bake for 50 minutes. (region)",
            "For the pie: ... 2. Line the pie dish with the crust, fill it with the filling, and bake for 50 minutes. (region)",
            "// the crust is the society's own ... // and nobody's business (comment)",
            "Recipe: Rye Crust ... Knead the flour with 1/2 cup (120 ml) water. See [[Nobody's Crust]]. (region)",
            "Ingredients: ... - 2 cups (200 g) rye flour (region)",
            "Method: ... Knead the flour with 1/2 cup (120 ml) water. See [[Nobody's Crust]]. (region)",
        ]
    );
    editor.leave().await;
}

/// For a place between words, what a selection there grows to, first lines only.
const GROWN: &[(&str, &[&str])] = &[
    (
        "‸100 g) sugar",
        &[
            "100",
            "100 g",
            "1/2 cup (100 g)",
            "1/2 cup (100 g) sugar",
            "For the filling:",
            "Ingredients:",
            "Recipe: 🥧 Apple and Rye Pie",
            "Notes of the kitchen hut, https://example.org/hut (see there).",
        ],
    ),
    (
        "the fil‸ling, and",
        &[
            "filling",
            "Line the pie dish with the crust, fill it with the filling, and bake for 50 minutes.",
            "2. Line the pie dish with the crust, fill it with the filling, and bake for 50 minutes.",
            "For the pie:",
            "Method:",
            "Recipe: 🥧 Apple and Rye Pie",
            "Notes of the kitchen hut, https://example.org/hut (see there).",
        ],
    ),
    (
        "See [[No‸body",
        &[
            "Nobody's",
            "Nobody's Crust",
            "[[Nobody's Crust]]",
            "See [[Nobody's Crust]].",
            "Knead the flour with 1/2 cup (120 ml) water. See [[Nobody's Crust]].",
            "Method:",
            "Recipe: Rye Crust",
            "Notes of the kitchen hut, https://example.org/hut (see there).",
        ],
    ),
    ("Notes of the kit‸chen", &["Notes of the kitchen hut, https://example.org/hut (see there)."]),
];

#[tokio::test]
async fn a_selection_grows_by_what_a_cook_would_take_hold_of() {
    let mut editor = opened(WINTER).await;
    for (place, grown) in GROWN {
        let (before, behind) = place.split_once('‸').unwrap();
        let offset = WINTER.find(&format!("{before}{behind}")).unwrap() + before.len();
        let positions = json!({ "positions": [drawn::position(WINTER, offset)] });
        let answer = ask(&mut editor, "selectionRange", positions).await;
        let mut shown = Vec::new();
        let mut range = &answer[0];
        while !range.is_null() {
            shown.push(drawn::span(WINTER, &range["range"]).of(WINTER).lines().next().unwrap());
            range = &range["parent"];
        }
        assert_eq!(shown, *grown, "{place}");
    }
    editor.leave().await;
}

#[tokio::test]
async fn links_lead_to_addresses_and_to_recipes_that_there_are() {
    let mut editor = opened(WINTER).await;
    let links = ask(&mut editor, "documentLink", json!({})).await;
    let shown = links.as_array().unwrap().iter().map(|link| {
        let place = drawn::span(WINTER, &link["range"]).of(WINTER);
        format!("{place} -> {}", link["target"].as_str().unwrap())
    });
    let crust = WINTER.lines().position(|line| line == "Recipe: Rye Crust").unwrap() + 1;
    assert_eq!(
        shown.collect::<Vec<_>>(),
        [
            "https://example.org/hut -> https://example.org/hut".to_owned(),
            format!("Rye Crust -> file:///book/winter.tamis#L{crust}"),
        ]
    );
    editor.leave().await;
}

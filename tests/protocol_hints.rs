//! What an editor shows beside the text: hints, and a line above each recipe; and how they are turned off.

use serde_json::{Value, json};
use tamis::text::{Document, Edit, Span};
use tamis_tests::drawn::{self, draw};
use tamis_tests::editor::Editor;

const BOOK: &str = "file:///book/plums.tamis";

/// Hints stand behind the words that they are drawn under.
const DRAWN: &str = "\
Recipe: Plum Slice
Serves: 8
Time: 20 min active, 1 h total

Ingredients:
- 2 cups (250 g) all-purpose flour
- 1/2 cup sugar, divided
//      ^ ≈ 100 g
- 1 cup milk
//    ^ ≈ 240 ml
- 1 tsp fine salt
- 3 eggs
- 2 cups chopped plot weeds

Method:

1. Whisk the flour with 2 tbsp of the sugar for 5 minutes.
//               ^ 2 cups (250 g)
//                           ^ ≈ 25 g
2. Beat [the rest of the sugar] with the eggs and half the milk for 10 minutes.
//                            ^ 1/4 cup plus 2 tbsp
//                                          ^ 3
//                                                            ^ 1/2 cup
//                                                                            ^ at 0:15
3. Salt the whole, stir in [the remaining milk] and rest for 1 hour, stirring every 10 minutes.
//                                            ^ 1/2 cup
//                                                                                            ^ at 1:15
4. Serve the weeds beside it.
//               ^ 2 cups
5. Bake for 40 to 45 minutes.
//                          ^ at 1:55 to 2:00

Tests:
- 2026-04-21: done at 42 min
- 2025-05-30: too sweet
";

async fn hints(editor: &mut Editor, text: &str) -> Vec<Value> {
    let range = drawn::range(text, Span::new(0, text.len()));
    let params = json!({ "textDocument": { "uri": BOOK }, "range": range });
    editor.request("textDocument/inlayHint", params).await.unwrap().as_array().unwrap().clone()
}

async fn lenses(editor: &mut Editor) -> Vec<Value> {
    let params = json!({ "textDocument": { "uri": BOOK } });
    editor.request("textDocument/codeLens", params).await.unwrap().as_array().unwrap().clone()
}

fn place(text: &str, position: &Value) -> usize {
    drawn::span(text, &json!({ "start": position, "end": position })).start
}

fn labels(hints: &[Value]) -> Vec<&str> {
    hints.iter().map(|hint| hint["label"].as_str().unwrap()).collect()
}

#[tokio::test]
async fn hints_say_what_a_reader_would_reckon_out() {
    let text = drawn::read(DRAWN).text;
    let mut editor = Editor::usual().await;
    editor.open(BOOK, &text).await;
    editor.published().await;
    let hints = hints(&mut editor, &text).await;
    let places = hints.iter().map(|hint| {
        let end = place(&text, &hint["position"]);
        (Span::new(end - 1, end), hint["label"].as_str().unwrap().to_owned())
    });
    assert_eq!(draw(&text, None, &places.collect::<Vec<_>>()), DRAWN);
    // Only what is on the screen.
    let line = json!({ "start": { "line": 6, "character": 0 }, "end": { "line": 6, "character": 99 } });
    let params = json!({ "textDocument": { "uri": BOOK }, "range": line });
    let few = editor.request("textDocument/inlayHint", params).await.unwrap();
    assert_eq!(labels(few.as_array().unwrap()), ["≈ 100 g"]);
    editor.leave().await;
}

/// What a hint says can be written down, and it says what it rests on once somebody looks.
#[tokio::test]
async fn a_hint_can_be_taken_and_says_what_it_rests_on() {
    let text = drawn::read(DRAWN).text;
    let mut editor = Editor::usual().await;
    editor.open(BOOK, &text).await;
    editor.published().await;
    let hints = hints(&mut editor, &text).await;
    let sugar = hints.iter().find(|hint| hint["label"] == "≈ 100 g").unwrap();
    assert!(sugar["tooltip"].is_null());
    let edit = &sugar["textEdits"][0];
    let edit = Edit::replace(drawn::span(&text, &edit["range"]), edit["newText"].as_str().unwrap());
    let taken = Edit::apply_all(&text, &[edit]);
    assert!(taken.contains("\n- 1/2 cup (100 g) sugar, divided\n"));
    let resolved = editor.request("inlayHint/resolve", sugar.clone()).await.unwrap();
    let reason = resolved["tooltip"].as_str().unwrap();
    assert!(reason.contains("in a US cup of granulated sugar"), "{reason}");
    // Of what the text no longer says, nothing is said.
    editor.change(BOOK, 2, json!([{ "text": taken }])).await;
    editor.published().await;
    let resolved = editor.request("inlayHint/resolve", sugar.clone()).await.unwrap();
    assert_eq!((&resolved["label"], &resolved["tooltip"]), (&sugar["label"], &Value::Null));
    editor.leave().await;
}

#[tokio::test]
async fn a_line_above_each_recipe_sums_it_up() {
    let text = format!(
        "{}\nRecipe: Windfalls\n\nIngredients:\n- 2 apples\n\nMethod:\n\n1. Boil the apples.\n\nTests:\n",
        drawn::read(DRAWN).text
    );
    let mut editor = Editor::usual().await;
    editor.open(BOOK, &text).await;
    let published = editor.published().await;
    let lenses = lenses(&mut editor).await;
    let shown = lenses.iter().map(|lens| {
        assert_eq!(lens["command"]["command"], "");
        (drawn::span(&text, &lens["range"]).of(&text), lens["command"]["title"].as_str().unwrap())
    });
    let shown: Vec<_> = shown.collect();
    assert_eq!(shown.len(), 2);
    let (title, line) = shown[0];
    assert_eq!(title, "Plum Slice");
    assert!(line.starts_with("serves 8 · 20 min active, 1 h total · "), "{line}");
    assert!(line.ends_with(" · tested 2026-04-21"), "{line}");
    assert!(shown[1].1.ends_with(" · not tested"), "{}", shown[1].1);
    // The lines count what is published.
    let counted =
        shown.iter().flat_map(|(_, line)| line.split([' ', ','])).filter_map(|word| word.parse::<usize>().ok());
    let counted: usize = counted.filter(|number| ![8, 20].contains(number)).sum();
    assert_eq!(counted - 1, published.diagnostics.len(), "{shown:?}, besides the hour");
    editor.leave().await;
}

#[tokio::test]
async fn what_is_shown_can_be_turned_off() {
    let text = drawn::read(DRAWN).text;
    let clock = |hints: &[Value]| labels(hints).iter().filter(|label| label.starts_with("at ")).count();
    let weights = |hints: &[Value]| labels(hints).iter().filter(|label| label.starts_with('≈')).count();

    // From the start.
    let mut editor = Editor::silent();
    let params = json!({
        "processId": null, "rootUri": null,
        "capabilities": { "workspace": { "inlayHint": { "refreshSupport": true }, "codeLens": { "refreshSupport": true } } },
        "initializationOptions": { "hints": { "clock": false } },
    });
    editor.request("initialize", params).await.unwrap();
    editor.notify("initialized", json!({})).await;
    editor.open(BOOK, &text).await;
    editor.published().await;
    let first = hints(&mut editor, &text).await;
    assert_eq!((clock(&first), weights(&first)), (0, 3));
    assert_eq!(lenses(&mut editor).await.len(), 1);

    // Later on; the client is told that it shows what nobody wants any more.
    let change = json!({ "settings": { "tamis": { "hints": { "weights": false }, "lenses": false } } });
    editor.notify("workspace/didChangeConfiguration", change).await;
    editor.asked("workspace/inlayHint/refresh").await;
    editor.asked("workspace/codeLens/refresh").await;
    let then = hints(&mut editor, &text).await;
    assert_eq!((clock(&then), weights(&then)), (3, 0));
    assert_eq!(lenses(&mut editor).await.len(), 0);
    editor.leave().await;
}

/// A client that keeps its configuration to itself until it is asked for it.
#[tokio::test]
async fn the_configuration_is_asked_for() {
    let text = drawn::read(DRAWN).text;
    let (mut editor, _) = Editor::introduced(json!({ "workspace": { "configuration": true } })).await;
    let asked = json!({ "items": [{ "section": "tamis" }] });
    assert_eq!(editor.asked_and_told("workspace/configuration", json!([null])).await, asked);
    editor.open(BOOK, &text).await;
    editor.published().await;
    assert_eq!(lenses(&mut editor).await.len(), 1);
    editor.notify("workspace/didChangeConfiguration", json!({ "settings": null })).await;
    let off = json!([{ "lenses": false }]);
    assert_eq!(editor.asked_and_told("workspace/configuration", off).await, asked);
    // The answer is read before whatever is asked behind it, in whatever task.
    while !lenses(&mut editor).await.is_empty() {}
    editor.leave().await;
}

/// Something to reckon with is no use where the text is not as it was.
#[tokio::test]
async fn nothing_is_hinted_at_where_little_is_known() {
    let silent = "\
Recipe: Silence

Ingredients:
- 1 cup (200 g) sugar
- 1 cup sugar (200 g)
- 1 tsp baking soda
- 250 ml milk
- 1 cup butter or oil
- 2 (14 oz) cans plums
- salt

Method:

1. Mix it all for 5 minutes.
2. Chill for 2 days.
3. Wait for 5 minutes.
";
    let mut editor = Editor::usual().await;
    editor.open(BOOK, silent).await;
    editor.published().await;
    assert_eq!(labels(&hints(&mut editor, silent).await), [""; 0]);
    assert!(Document::new(silent).line_count() > 10);
    editor.leave().await;
}

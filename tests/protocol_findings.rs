//! Findings, hovers and fixes as an editor is shown them, on a manuscript with an emoji in front and CRLF behind.

use std::sync::Arc;

use serde_json::{Value, json};
use tamis::text::{Document, Edit, Encoding, Position, Span};
use tamis::workspace::Manuscript;
use tamis_tests::editor::{Editor, Published};

const TART: &str = "untitled:Tart";

/// The sugar goes into no step.
const MANUSCRIPT: &str = "\
Recipe: 🥧 Plum Tart
Yield: one tart
Serves: 6

Ingredients:

- 1 lb (450 g) 🍑 plums, halved
- 1/2 cup (100 g) sugar
- 1 sheet puff pastry

Method:

1. Heat the oven to 400°F (200°C).

2. Lay the plums on the puff pastry and bake until the edges are brown, 30 to 35 minutes.
";

fn crlf() -> String {
    MANUSCRIPT.replace('\n', "\r\n")
}

fn place(value: &Value) -> Position {
    Position::new(value["line"].as_u64().unwrap() as u32, value["character"].as_u64().unwrap() as u32)
}

fn span(text: &Document, range: &Value) -> Span {
    text.span(place(&range["start"])..place(&range["end"]), Encoding::Utf16)
}

/// The text after an action, as an editor applies it.
fn after(text: &str, action: &Value) -> String {
    let document = Document::new(text);
    let edits = action["edit"]["documentChanges"][0]["edits"].as_array().expect("edits of one document");
    let edit = |edit: &Value| Edit::replace(span(&document, &edit["range"]), edit["newText"].as_str().unwrap());
    Edit::apply_all(text, &edits.iter().map(edit).collect::<Vec<_>>())
}

fn of_code<'p>(published: &'p Published, code: &str) -> Vec<&'p Value> {
    published.diagnostics.iter().filter(|diagnostic| diagnostic["code"] == code).collect()
}

async fn actions(editor: &mut Editor, range: &Value, only: &str) -> Vec<Value> {
    let context = json!({ "diagnostics": [], "only": [only] });
    let params = json!({ "textDocument": { "uri": TART }, "range": range, "context": context });
    editor.request("textDocument/codeAction", params).await.unwrap().as_array().unwrap().clone()
}

#[tokio::test]
async fn a_finding_is_shown_where_it_is_and_moves_with_the_text() {
    let mut editor = Editor::usual().await;
    editor.open(TART, &crlf()).await;
    let published = editor.published().await;
    let [sugar] = of_code(&published, "ingredient-unused")[..] else { panic!("{published:#?}") };
    assert_eq!((&sugar["source"], &sugar["severity"]), (&json!("tamis"), &json!(1)));
    assert_eq!(span(&Document::new(&crlf()), &sugar["range"]).of(&crlf()), "sugar");
    assert_eq!(sugar["range"]["start"]["line"], 7);
    assert_eq!(sugar["tags"], json!([1]), "may be shown faded");
    let related = &sugar["relatedInformation"][0]["location"];
    assert_eq!((&related["uri"], &related["range"]["start"]["line"]), (&json!(TART), &json!(14)));

    let start = json!({ "line": 0, "character": 0 });
    let above = json!([{ "range": { "start": start, "end": start }, "text": "// for the summer fête 🎪\r\n" }]);
    editor.change(TART, 2, above).await;
    let moved = editor.published().await;
    assert_eq!(moved.version, Some(2));
    assert_eq!(of_code(&moved, "ingredient-unused")[0]["range"]["start"]["line"], 8);

    editor.change(TART, 3, json!([{ "text": "" }])).await;
    let nothing = editor.published().await;
    assert_eq!((nothing.version, nothing.diagnostics.len()), (Some(3), 0), "the empty list when nothing is wrong");
    editor.change(TART, 4, json!([{ "text": crlf() }])).await;
    let again = editor.published().await;
    assert_eq!(again.diagnostics, published.diagnostics);
    editor.close(TART).await;
    let cleared = editor.published().await;
    assert_eq!((cleared.version, cleared.diagnostics.len()), (None, 0), "a closed document shows nothing");
    editor.leave().await;
}

#[tokio::test]
async fn a_hover_covers_what_it_speaks_of() {
    let mut editor = Editor::usual().await;
    editor.open(TART, &crlf()).await;
    editor.published().await;
    let text = crlf();
    let document = Document::new(&text);
    for (word, covered) in
        [("450 g", Some("450 g")), ("plums, halved", Some("plums")), ("Yield", Some("Yield")), ("until", None)]
    {
        let at = document.position(text.find(word).unwrap() + 1, Encoding::Utf16);
        let position = json!({ "line": at.line, "character": at.column });
        let params = json!({ "textDocument": { "uri": TART }, "position": position });
        let hover = editor.request("textDocument/hover", params).await.unwrap();
        let Some(covered) = covered else {
            assert_eq!(hover, Value::Null, "{word}");
            continue;
        };
        assert_eq!(hover["contents"]["kind"], "markdown");
        assert!(!hover["contents"]["value"].as_str().unwrap().is_empty());
        assert_eq!(span(&document, &hover["range"]).of(&text), covered);
    }
    editor.leave().await;
}

#[tokio::test]
async fn every_quick_fix_mends_what_it_says() {
    let mut editor = Editor::usual().await;
    editor.open(TART, &crlf()).await;
    let sugar = of_code(&editor.published().await, "ingredient-unused")[0].clone();
    let offered = actions(&mut editor, &sugar["range"], "quickfix").await;
    let titles: Vec<&Value> = offered.iter().map(|action| &action["title"]).collect();
    let (ways_out, fixes): (Vec<&Value>, Vec<&Value>) =
        titles.iter().partition(|title| title.as_str().unwrap().starts_with("Let it stand"));
    let known = Manuscript::new(&crlf(), Arc::default()).findings();
    let unused = known.iter().find(|finding| finding.code == "ingredient-unused").unwrap();
    let named: Vec<&str> = unused.fixes.iter().map(|fix| fix.title.as_str()).collect();
    assert_eq!(json!(fixes), json!(named), "in their order, the likeliest first");
    assert_eq!(sugar.get("data"), None, "what may be offered does not go out with every keystroke");
    assert_eq!(ways_out, titles.last().into_iter().copied().collect::<Vec<_>>(), "behind them one way out");
    assert!(offered.len() > 1, "{titles:?}");
    let mut version = 1;
    for action in &offered {
        assert_eq!((&action["kind"], &action["diagnostics"]), (&json!("quickfix"), &json!([sugar])));
        assert_eq!(action["edit"]["documentChanges"][0]["textDocument"], json!({ "uri": TART, "version": 1 }));
        let mended = after(&crlf(), action);
        assert_eq!(mended.matches('\n').count(), mended.matches("\r\n").count(), "line breaks are the document's own");
        version += 1;
        editor.change(TART, version, json!([{ "text": mended }])).await;
        let published = editor.published().await;
        assert_eq!(of_code(&published, "ingredient-unused"), [&Value::Null; 0], "{}", action["title"]);
    }
    editor.leave().await;
}

/// What an editor runs on saving: fixes that need no decision, until there are none.
#[tokio::test]
async fn fix_all_mends_what_needs_no_decision() {
    let mut editor = Editor::usual().await;
    let mut text = crlf().replace("2. Lay", "4. Lay");
    editor.open(TART, &text).await;
    assert_eq!(of_code(&editor.published().await, "step-numbering").len(), 1);
    let anywhere = json!({ "start": { "line": 0, "character": 0 }, "end": { "line": 0, "character": 0 } });
    let mut version = 1;
    while let [action] = &actions(&mut editor, &anywhere, "source.fixAll").await[..] {
        text = after(&text, action);
        version += 1;
        editor.change(TART, version, json!([{ "text": text }])).await;
        editor.published().await;
        assert!(version < 5, "goes on and on:\n{text}");
    }
    assert_eq!((version, text), (2, crlf()), "once, and the sugar is left to the author");
    editor.leave().await;
}

/// The code leads to the page of its check where the client says an address for that, and that it knows what to do with one.
#[tokio::test]
async fn the_code_of_a_finding_leads_to_its_page() {
    let table = [
        (true, json!({ "pages": "kitchen:/{code}.txt" }), json!("kitchen:/ingredient-unused.txt")),
        (true, json!({ "pages": "no address" }), Value::Null),
        (true, json!({ "lenses": false }), Value::Null),
        (true, Value::Null, Value::Null),
        (false, json!({ "pages": "kitchen:/{code}.txt" }), Value::Null),
    ];
    for (knows, options, address) in table {
        let mut editor = Editor::silent();
        let published = json!({ "publishDiagnostics": { "codeDescriptionSupport": knows } });
        let params = json!({
            "processId": null, "rootUri": null,
            "capabilities": { "textDocument": published },
            "initializationOptions": options,
        });
        editor.request("initialize", params).await.unwrap();
        editor.notify("initialized", json!({})).await;
        editor.open(TART, MANUSCRIPT).await;
        let sugar = of_code(&editor.published().await, "ingredient-unused")[0].clone();
        assert_eq!(sugar["codeDescription"]["href"], address, "{knows} {options}");
        editor.leave().await;
    }
}

//! Semantic tokens: what each word is, what has changed, what is on the screen.

use serde_json::{Value, json};
use tamis::text::{Document, Encoding, Position, Span};
use tamis_tests::drawn::{self, draw};
use tamis_tests::editor::Editor;

const BOOK: &str = "file:///book/plums.tamis";

/// What each word is. Words of prose that are nothing have no token.
const DRAWN: &str = "\
Recipe: 🥧 Plum Slice 2
^^^^^^ keyword
//      ^^^^^^^^^^^^^^ class declaration
Serves: 8
^^^^^^ property
//      ^ number

Equipment:
^^^^^^^^^ keyword
- 1 baking dish
//^ number
//  ^^^^^^^^^^^ struct declaration

Ingredients:
^^^^^^^^^^^ keyword

For the crust:
^^^^^^^^^^^^^ namespace declaration
- about 2 cups (250 g) 🌾 rye flour, sifted // dark
//^^^^^ modifier
//      ^ number
//        ^^^^ type
//              ^^^ number
//                  ^ type
//                       ^^^^^^^^^ parameter declaration
//                                         ^^^^^^^ comment
- 1 batch [[Plum Jam]]
//^ number
//  ^^^^^ type
//          ^^^^^^^^ class

Method:
^^^^^^ keyword

1. Rub half the rye flour into it. Do not knead the flour. => crust (about 1/2 lb)
//              ^^^^^^^^^ parameter
//                                                  ^^^^^ parameter readonly
//                                                         ^^ operator
//                                                            ^^^^^ variable declaration
//                                                                   ^^^^^ modifier
//                                                                         ^^^ number
//                                                                             ^^ type
stet step-numbering: so be it
^^^^ keyword
//   ^^^^^^^^^^^^^^ decorator
//                   ^^^^^^^^ string
2. Lay the [crust] in the [baking
//          ^^^^^ variable
//                         ^^^^^^ struct
   dish] for 10 to 12 minutes.
// ^^^^ struct
//           ^^^^^^^^ number
//                    ^^^^^^^ type

?? Which jam?
^^^^^^^^^^^^^ comment documentation
";

async fn opened(text: &str) -> (Editor, Value) {
    let (mut editor, answer) = Editor::introduced(json!({})).await;
    editor.open(BOOK, text).await;
    editor.published().await;
    (editor, answer["capabilities"]["semanticTokensProvider"]["legend"].clone())
}

async fn ask(editor: &mut Editor, method: &str, more: Value) -> Value {
    let mut params = json!({ "textDocument": { "uri": BOOK } });
    params.as_object_mut().unwrap().extend(more.as_object().cloned().unwrap_or_default());
    editor.request(&format!("textDocument/semanticTokens/{method}"), params).await.unwrap()
}

/// Tokens as the protocol writes them, each with its place in the text and what it is.
fn read(text: &str, legend: &Value, data: &Value) -> Vec<(Span, String)> {
    let document = Document::new(text);
    let numbers: Vec<u32> = data.as_array().unwrap().iter().map(|number| number.as_u64().unwrap() as u32).collect();
    let (mut line, mut column, mut end) = (0, 0, 0);
    let mut out = Vec::new();
    for token in numbers.chunks(5) {
        let [delta_line, delta_start, length, kind, modifiers] = token else { panic!("five numbers each") };
        column = if *delta_line == 0 { column + delta_start } else { *delta_start };
        line += delta_line;
        let place = |column: u32| document.offset(Position::new(line, column), Encoding::Utf16);
        let span = Span::new(place(column), place(column + length));
        assert_eq!(document.slice(span).encode_utf16().count(), *length as usize, "within its line");
        assert!(span.start >= end, "in order, and none over another");
        end = span.end;
        let mut words = vec![legend["tokenTypes"][*kind as usize].as_str().unwrap()];
        let all = legend["tokenModifiers"].as_array().unwrap();
        words.extend(
            all.iter()
                .enumerate()
                .filter(|(bit, _)| modifiers & (1 << bit) != 0)
                .map(|(_, word)| word.as_str().unwrap()),
        );
        out.push((span, words.join(" ")));
    }
    out
}

#[tokio::test]
async fn every_word_is_what_it_is() {
    let drawn = drawn::read(DRAWN);
    for text in [drawn.text.clone(), drawn.text.replace('\n', "\r\n")] {
        let (mut editor, legend) = opened(&text).await;
        let tokens = ask(&mut editor, "full", json!({})).await;
        let places = read(&text, &legend, &tokens["data"]);
        assert_eq!(draw(&text, None, &places), DRAWN);
        editor.leave().await;
    }
}

/// Only standard kinds, so that every colour scheme has a colour for them.
#[tokio::test]
async fn the_legend_is_standard() {
    // The Language Server Protocol 3.17, SemanticTokenTypes and SemanticTokenModifiers.
    const TYPES: &str = "namespace type class enum interface struct typeParameter parameter variable property enumMember event \
                         function method macro keyword modifier comment string number regexp operator decorator";
    const MODIFIERS: &str =
        "declaration definition readonly static deprecated abstract async modification documentation defaultLibrary";
    let (editor, legend) = opened("").await;
    for (list, standard) in [("tokenTypes", TYPES), ("tokenModifiers", MODIFIERS)] {
        for name in legend[list].as_array().unwrap() {
            assert!(standard.split(' ').any(|word| word == name), "{name}");
        }
    }
    editor.leave().await;
}

fn book(recipes: usize) -> String {
    let recipe = |number: usize| {
        format!(
            "Recipe: Plums {number}\n\nIngredients:\n- {number} plums\n\nMethod:\n\n1. Boil the plums for 2 minutes.\n\n"
        )
    };
    (0..recipes).map(recipe).collect()
}

/// The list that a client has once it has applied what it is told.
fn applied(before: &Value, delta: &Value) -> Vec<Value> {
    let mut data = before.as_array().unwrap().clone();
    for edit in delta["edits"].as_array().unwrap() {
        let number = |name: &str| edit[name].as_u64().unwrap() as usize;
        let (start, gone) = (number("start"), number("deleteCount"));
        data.splice(start..start + gone, edit["data"].as_array().cloned().unwrap_or_default());
    }
    data
}

#[tokio::test]
async fn an_edit_tells_what_it_changes() {
    let mut text = book(40);
    let (mut editor, _) = opened(&text).await;
    let mut last = ask(&mut editor, "full", json!({})).await;
    // In the middle, a line more, the end, a recipe less, and nothing.
    let edits = ["4 plums\n- 1 tsp salt", "30. Boil", "plums for 3 hours.\n", "", "x"];
    for (version, put) in (2..).zip(edits) {
        let at = text.find("4 plums").unwrap_or_default();
        let end = if put.is_empty() { at + 90 } else { at + 7 };
        let changed = format!("{}{put}{}", &text[..at], &text[end..]);
        let range = drawn::range(&text, Span::new(at, end));
        editor.change(BOOK, version, json!([{ "range": range, "text": put }])).await;
        editor.published().await;
        text = changed;
        let delta = ask(&mut editor, "full/delta", json!({ "previousResultId": last["resultId"] })).await;
        let fresh = {
            let (mut other, _) = opened(&text).await;
            let fresh = ask(&mut other, "full", json!({})).await;
            other.leave().await;
            fresh
        };
        let data = applied(&last["data"], &delta);
        assert_eq!(json!(data), fresh["data"], "{put:?}");
        let told: usize =
            delta["edits"].as_array().unwrap().iter().map(|edit| edit["data"].as_array().unwrap().len()).sum();
        assert!(told < data.len() / 4, "{told} numbers of {}", data.len());
        last = json!({ "resultId": delta["resultId"], "data": data });
    }
    let delta = ask(&mut editor, "full/delta", json!({ "previousResultId": last["resultId"] })).await;
    assert_eq!(delta["edits"], json!([]), "nothing has changed");
    // A name that nobody knows any more: everything again.
    let again = ask(&mut editor, "full/delta", json!({ "previousResultId": last["resultId"] })).await;
    assert_eq!(again["data"], last["data"]);
    editor.leave().await;
}

#[tokio::test]
async fn a_screen_gets_what_is_on_it() {
    let text = book(10);
    let (mut editor, legend) = opened(&text).await;
    let all = read(&text, &legend, &ask(&mut editor, "full", json!({})).await["data"]);
    let document = Document::new(&text);
    for (first, last) in [(0, 0), (5, 30), (12, 12), (80, 500), (3, 200)] {
        let range = json!({ "start": { "line": first, "character": 4 }, "end": { "line": last, "character": 2 } });
        let tokens = ask(&mut editor, "range", json!({ "range": range })).await;
        let on_screen = |(span, _): &&(Span, String)| (first..=last).contains(&document.line_of(span.start));
        let expected: Vec<_> = all.iter().filter(on_screen).cloned().collect();
        assert_eq!(read(&text, &legend, &tokens["data"]), expected, "{first} to {last}");
    }
    editor.leave().await;
}

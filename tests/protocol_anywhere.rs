//! Every question of an editor, at any place of any text: it is answered, and what comes back are places of that text.

use proptest::prelude::*;
use proptest::test_runner::TestCaseError;
use serde_json::{Value, json};
use tamis::text::Span;
use tamis_tests::drawn;
use tamis_tests::editor::{Editor, Refused};
use tamis_tests::folder;

const URI: &str = "file:///book/anything.tamis";

/// Some reason in words against what was asked: no fault.
const REQUEST_FAILED: i64 = -32803;

/// What is put into a text to spoil it.
const PIECES: &[&str] = &[
    "",
    "",
    "[",
    "]",
    "[[",
    "]]",
    "(",
    "1/",
    "½",
    "°",
    "=> ",
    "=> =>",
    "\n",
    "\n\n",
    "\r",
    "\r\n",
    "\t",
    ":",
    "stet ",
    "?? ",
    "// ",
    "Recipe: ",
    "\nIngredients:\n",
    "\nMethod:\n",
    "- ",
    "[the rest of the ",
    "2 ",
    "e\u{301}",
    "🥚",
    "\u{feff}",
    "\0",
    "ß",
    "https://",
    "half the ",
    "[remaining ingredients]",
];

/// Questions about a whole document.
const OF_A_DOCUMENT: &[&str] =
    &["documentSymbol", "foldingRange", "documentLink", "semanticTokens/full", "codeLens", "formatting"];

/// Questions about a place.
const OF_A_PLACE: &[&str] = &[
    "hover",
    "definition",
    "typeDefinition",
    "documentHighlight",
    "prepareRename",
    "completion",
    "prepareCallHierarchy",
];

/// What can be done to the recipe at a place.
const COMMANDS: &[&str] = &["tamis.scale", "tamis.addMetric", "tamis.addUs", "tamis.markMentions", "tamis.recordTest"];

fn samples() -> Vec<String> {
    folder::samples("").into_iter().map(|(_, text)| text).collect()
}

/// A place in a text that comes from a number: at the start of a character.
fn place(text: &str, at: usize) -> usize {
    let mut at = at % (text.len() + 1);
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// A sample with some pieces put in and some stretches taken out.
fn spoilt(sample: &str, damage: &[(usize, usize, usize)]) -> String {
    let mut text = sample.to_owned();
    for (at, length, piece) in damage {
        let start = place(&text, *at);
        let end = place(&text, start + length % 24).max(start);
        text.replace_range(start..end, PIECES[piece % PIECES.len()]);
    }
    text
}

/// Whether every range in an answer is one of the text.
fn ranges(text: &str, value: &Value) {
    match value {
        Value::Object(fields) => {
            if fields.get("start").is_some_and(|start| start.get("line").is_some()) {
                drawn::span(text, value);
            }
            fields.values().for_each(|field| ranges(text, field));
        }
        Value::Array(items) => items.iter().for_each(|item| ranges(text, item)),
        _ => {}
    }
}

fn sound(text: &str, what: &str, answer: Result<Value, Refused>) -> Result<Value, TestCaseError> {
    match answer {
        Ok(answer) => {
            ranges(text, &answer);
            Ok(answer)
        }
        Err(refused) if refused.code == REQUEST_FAILED && !refused.message.is_empty() => Ok(Value::Null),
        Err(refused) => Err(TestCaseError::fail(format!("{what}: {refused:?}\n{text}"))),
    }
}

async fn asked(text: &str, places: &[usize]) -> Result<(), TestCaseError> {
    let mut editor = Editor::usual().await;
    editor.open(URI, text).await;
    let document = json!({ "uri": URI });
    let options = json!({ "tabSize": 2, "insertSpaces": true });
    for what in OF_A_DOCUMENT {
        let answer = editor
            .request(&format!("textDocument/{what}"), json!({ "textDocument": document, "options": options }))
            .await;
        sound(text, what, answer)?;
    }
    for at in places {
        let position = drawn::position(text, place(text, *at));
        for what in OF_A_PLACE {
            let params = json!({ "textDocument": document, "position": position });
            let answer = editor.request(&format!("textDocument/{what}"), params).await;
            sound(text, what, answer)?;
        }
        let other = place(text, places.first().copied().unwrap_or_default());
        let between = drawn::range(text, Span::new(other.min(place(text, *at)), other.max(place(text, *at))));
        for what in ["inlayHint", "semanticTokens/range", "rangeFormatting"] {
            let params = json!({ "textDocument": document, "range": between, "options": options });
            let answer = editor.request(&format!("textDocument/{what}"), params).await;
            sound(text, what, answer)?;
        }
        for sign in ["\n", ")", "."] {
            let params = json!({ "textDocument": document, "position": position, "ch": sign, "options": options });
            let answer = editor.request("textDocument/onTypeFormatting", params).await;
            sound(text, "onTypeFormatting", answer)?;
        }
        let params = json!({
            "textDocument": document, "position": position, "context": { "includeDeclaration": true },
            "newName": "quince", "positions": [position],
        });
        for what in ["references", "rename", "selectionRange"] {
            let answer = editor.request(&format!("textDocument/{what}"), params.clone()).await;
            sound(text, what, answer)?;
        }
        for what in COMMANDS {
            let about = json!({ "uri": URI, "position": position, "to": 1 + at % 12 });
            let params = json!({ "command": what, "arguments": [about] });
            let answer = editor.request("workspace/executeCommand", params).await;
            let is_carried_out = answer.is_ok();
            sound(text, what, answer)?;
            if is_carried_out {
                let refused = json!({ "applied": false, "failureReason": "it was to be seen only" });
                ranges(text, &editor.asked_and_told("workspace/applyEdit", refused).await);
                editor.told("window/showMessage").await;
            }
        }
    }
    editor.published().await;
    editor.leave().await;
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_question_is_answered_at_any_place(
        sample in any::<prop::sample::Index>(),
        damage in prop::collection::vec((any::<usize>(), 0..200_usize, any::<usize>()), 0..8),
        places in prop::collection::vec(any::<usize>(), 1..12),
    ) {
        let samples = samples();
        let text = spoilt(&samples[sample.index(samples.len())], &damage);
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().unwrap();
        runtime.block_on(asked(&text, &places))?;
    }
}

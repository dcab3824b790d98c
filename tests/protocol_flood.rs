//! Thousands of edits as fast as the pipe takes them: in the end both sides hold the same text.

use serde_json::{Value, json};
use tamis_tests::{dice::Dice, editor::Editor};

const LOAF: &str = "untitled:Loaf";

/// What gets typed and pasted, chosen for what breaks naive counting.
const PIECES: [&str; 22] = [
    "a",
    "1/2 cup (120 ml) milk",
    "\n",
    "\r\n",
    "\r",
    "🥚",
    "👩🏽\u{200d}🍳",
    "é",
    "e\u{301}",
    "卵を割る",
    "\u{2028}",
    "\t",
    "\0",
    "°F",
    "\n\n",
    "- 2 eggs\r\n",
    "",
    "Recipe: Loaf\n",
    "\nIngredients:\n\n- 1 cup (120 g) flour\n- 2 oz (57 g) butter\n",
    "\r\nMethod:\r\n\r\n1. Beat the eggs into the flour. => batter\r\n",
    "2. Bake the batter in a 9-inch (23 cm) tin for 40 to 45 minutes. Add half the butter.\n",
    "stet unit-unknown: so be it\n",
];

/// The text as a simple-minded editor holds it.
struct Plain {
    characters: Vec<char>,
    width: fn(char) -> usize,
}

impl Plain {
    /// Line and column of the place before a character.
    fn position(&self, at: usize) -> Value {
        let (mut line, mut column) = (0, 0);
        for (i, character) in self.characters.iter().enumerate().take(at) {
            let ends_line = *character == '\n' || *character == '\r' && self.characters.get(i + 1) != Some(&'\n');
            (line, column) = if ends_line { (line + 1, 0) } else { (line, column + (self.width)(*character)) };
        }
        json!({ "line": line, "character": column })
    }

    /// A place that a cursor can reach: not between the two halves of a line break.
    fn place(&self, dice: &mut Dice) -> usize {
        let at = dice.below(self.characters.len() + 1);
        let within_break = at > 0 && self.characters[at - 1] == '\r' && self.characters.get(at) == Some(&'\n');
        if within_break { at - 1 } else { at }
    }

    /// Replaces something by something else, and says so as the protocol does.
    fn edit(&mut self, dice: &mut Dice) -> Value {
        if dice.below(500) == 0 {
            let text: String = (0..dice.below(30)).map(|_| PIECES[dice.below(PIECES.len())]).collect();
            self.characters = text.chars().collect();
            return json!({ "text": text });
        }
        let one = self.place(dice);
        // Mostly typing; now and then a selection, more often while the text is long.
        let other = match dice.below(4) {
            0 if self.characters.len() > 2000 => self.place(dice),
            0 => (one + dice.below(12)).min(self.characters.len()),
            _ => one,
        };
        let (start, mut end) = (one.min(other), one.max(other));
        if self.characters.get(end.wrapping_sub(1)) == Some(&'\r') && self.characters.get(end) == Some(&'\n') {
            end += 1;
        }
        let range = json!({ "start": self.position(start), "end": self.position(end) });
        let text: String = (0..dice.below(4)).map(|_| PIECES[dice.below(PIECES.len())]).collect();
        self.characters.splice(start..end, text.chars());
        json!({ "range": range, "text": text })
    }

    fn text(&self) -> String {
        self.characters.iter().collect()
    }
}

async fn flood(encoding: &str, width: fn(char) -> usize, edits: usize, seed: u64) {
    let mut dice = Dice(seed);
    let (mut editor, _) = Editor::introduced(json!({ "general": { "positionEncodings": [encoding] } })).await;
    let mut plain = Plain { characters: "Recipe: Loaf\r\n\r\n- 1 egg 🥚\r\n".chars().collect(), width };
    editor.open(LOAF, &plain.text()).await;
    let (mut version, mut sent, mut hovers) = (1, 0, Vec::new());
    while sent < edits {
        let changes: Vec<Value> = (0..1 + dice.below(4)).map(|_| plain.edit(&mut dice)).collect();
        sent += changes.len();
        version += 1;
        editor.change(LOAF, version, Value::Array(changes)).await;
        if dice.below(20) == 0 {
            let params = json!({ "textDocument": { "uri": LOAF }, "position": { "line": 0, "character": 3 } });
            hovers.push(editor.send("textDocument/hover", params).await);
        }
        if dice.below(300) == 0 {
            assert_eq!(editor.held_text(LOAF).await, (version, plain.text()), "after {sent} edits");
        }
    }
    assert_eq!(editor.held_text(LOAF).await, (version, plain.text()), "{encoding}, seed {seed}");
    for hover in hovers {
        if let Err(refused) = editor.answer(hover).await {
            assert_eq!(refused.message, "Content modified");
        }
    }
    let (mut seen, mut shown) = (0, Vec::new());
    while seen < version {
        let published = editor.published().await;
        let next = published.version.expect("a version");
        assert!(next > seen, "version {next} after version {seen}");
        (seen, shown) = (next, published.diagnostics);
    }
    assert_eq!(seen, version, "the newest text is checked in the end");
    assert!(!shown.is_empty(), "a text in which nothing is found proves little");
    editor.open("untitled:Fresh", &plain.text()).await;
    let fresh = editor.published().await.diagnostics;
    assert_eq!(shown, fresh, "what was found on the way is what a fresh look finds:\n{}", plain.text());
    editor.leave().await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn five_thousand_edits_in_utf_16() {
    flood("utf-16", char::len_utf16, 5000, 20_261_125).await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn the_other_encodings() {
    flood("utf-8", char::len_utf8, 1500, 20_260_421).await;
    flood("utf-32", |_| 1, 1500, 77).await;
}

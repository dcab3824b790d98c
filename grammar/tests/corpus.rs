//! Runs `test/corpus/*.txt`, in the format of tree-sitter's own corpus tests: a title between lines of `=`, a text, `---`, and the
//! named nodes with their fields. `UPDATE=1` writes the trees that the grammar gives now; read every change before it is kept.
//! `\r`, `\0` and `\u{feff}` in a text stand for themselves, as no editor shows them.

mod common;

use std::{env, fs, path::Path};

const RULE: &str = "==================";

struct Case {
    title: String,
    text: String,
    tree: String,
}

fn read(file: &str) -> Vec<Case> {
    let rule = format!("{RULE}\n");
    let mut parts = file.split(&rule).skip(1);
    let mut cases = Vec::new();
    while let (Some(title), Some(body)) = (parts.next(), parts.next()) {
        let (text, tree) = body.split_once("\n---\n").unwrap_or_else(|| panic!("no --- behind the text of {title}"));
        let (title, text, tree) = (title.trim().to_owned(), text.to_owned(), tree.trim().to_owned());
        cases.push(Case { title, text, tree });
    }
    cases
}

fn written_out(text: &str) -> String {
    text.replace("\\r", "\r").replace("\\0", "\0").replace("\\u{feff}", "\u{feff}")
}

#[test]
fn every_case_of_the_corpus_parses_as_written() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("test/corpus");
    let update = env::var_os("UPDATE").is_some();
    let (mut count, mut wrong) = (0, Vec::new());
    for entry in fs::read_dir(&folder).expect("the corpus is part of the crate") {
        let path = entry.expect("a folder that can be read").path();
        let mut rewritten = String::new();
        for case in read(&fs::read_to_string(&path).expect("the corpus is UTF-8")) {
            count += 1;
            let tree = common::outline(common::parse(&written_out(&case.text)).root_node(), None);
            if tree != case.tree && !update {
                wrong.push(format!("{}: {}\nexpected\n{}\nfound\n{tree}\n", path.display(), case.title, case.tree));
            }
            rewritten += &format!("{RULE}\n{}\n{RULE}\n{}\n---\n\n{tree}\n\n", case.title, case.text);
        }
        if update {
            let beside = path.with_extension("new");
            fs::write(&beside, rewritten.trim_end().to_owned() + "\n").expect("the folder can be written");
            fs::rename(&beside, &path).expect("the folder can be written");
        }
    }
    assert!(count >= 70, "only {count} cases");
    assert!(wrong.is_empty(), "{} of {count} cases differ\n\n{}", wrong.len(), wrong.join("\n"));
}

//! The layers: each imports only those before it, and what has no business with editors, terminals or files names none.

use std::{
    fs,
    path::{Path, PathBuf},
};

/// The layers of `server/src`, from the bottom up.
const LAYERS: &[&str] =
    &["text", "measure", "larder", "syntax", "recipe", "book", "checks", "assist", "workspace", "lsp", "cli"];

fn source() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../server/src")
}

fn rust_files(folder: &Path, out: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).expect("a folder of the sources can be read") {
        let path = entry.expect("an entry can be read").path();
        if path.is_dir() {
            rust_files(&path, out);
        } else if path.extension().is_some_and(|ext| ext == "rs") {
            out.push(path);
        }
    }
}

/// Every source file with its layer's place and its text, tests inside it left out.
fn files() -> Vec<(PathBuf, usize, String)> {
    let mut all = Vec::new();
    for (place, layer) in LAYERS.iter().enumerate() {
        let mut paths = Vec::new();
        rust_files(&source().join(layer), &mut paths);
        for path in paths {
            let text = fs::read_to_string(&path).expect("a source file is text");
            let code = text.split("#[cfg(test)]").next().unwrap_or_default().to_owned();
            all.push((path, place, code));
        }
    }
    assert!(all.len() > 50, "only {} files found", all.len());
    all
}

/// The layers that a text names behind `crate::`, alone or in braces.
fn imported(code: &str) -> Vec<String> {
    let mut out = Vec::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        match rest.strip_prefix('{') {
            Some(group) => {
                let mut depth = 0;
                let mut word = String::new();
                for c in group.chars() {
                    match c {
                        '{' => depth += 1,
                        '}' if depth == 0 => break,
                        '}' => depth -= 1,
                        _ if depth > 0 => {}
                        c if c.is_alphanumeric() || c == '_' => word.push(c),
                        _ => {
                            out.push(std::mem::take(&mut word));
                        }
                    }
                }
                out.push(word);
            }
            None => out.push(rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()),
        }
    }
    out
}

#[test]
fn layers_import_downwards_only() {
    let mut wrong = Vec::new();
    for (path, place, code) in files() {
        for name in imported(&code) {
            if LAYERS.iter().position(|layer| *layer == name).is_some_and(|other| other > place) {
                wrong.push(format!("{} imports {name}", path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn the_core_is_pure() {
    let workspace = LAYERS.iter().position(|layer| *layer == "workspace").expect("a layer");
    let mut wrong = Vec::new();
    for (path, _, code) in files().into_iter().filter(|(_, place, _)| *place < workspace) {
        let prose = |line: &&str| !line.trim_start().starts_with("//");
        let code: String = code.lines().filter(prose).collect::<Vec<_>>().join("\n");
        for name in
            ["tower_lsp", "lsp_types", "tokio", "serde_json", "std::fs", "std::time", "std::env", "println!", "unsafe "]
        {
            if code.contains(name) {
                wrong.push(format!("{} names {name}", path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn every_folder_of_the_sources_is_a_layer() {
    for entry in fs::read_dir(source()).expect("the sources can be read") {
        let path = entry.expect("an entry can be read").path();
        let name = path.file_name().and_then(|name| name.to_str()).unwrap_or_default().to_owned();
        assert!(path.is_file() || LAYERS.contains(&name.as_str()), "{name} is in no layer");
    }
}

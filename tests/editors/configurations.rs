//! The configuration of editors that no package registry has: read as its format, and held to the keys and the names of the editor's own
//! manual; queries are held to the grammar too.

use std::{collections::BTreeSet, fs, path::PathBuf};

use serde_json::Value;
use tree_sitter::{Language, Query};

fn editors() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../editors")
}

fn read(path: &str) -> String {
    fs::read_to_string(editors().join(path)).unwrap_or_else(|fault| panic!("editors/{path}: {fault}"))
}

fn toml_of(path: &str) -> toml::Table {
    read(path).parse().unwrap_or_else(|fault| panic!("editors/{path}: {fault}"))
}

/// No key but these, and of these all that end in `!`.
fn held_to(keys: &[&str], table: &toml::Table, what: &str) {
    let known: BTreeSet<&str> = keys.iter().map(|key| key.trim_end_matches('!')).collect();
    for key in table.keys() {
        assert!(known.contains(key.as_str()), "{what}: no such key: {key}");
    }
    for key in keys.iter().filter_map(|key| key.strip_suffix('!')) {
        assert!(table.contains_key(key), "{what}: {key} is missing");
    }
}

fn table<'t>(table: &'t toml::Table, key: &str) -> &'t toml::Table {
    table.get(key).and_then(toml::Value::as_table).unwrap_or_else(|| panic!("{key} is a table"))
}

fn one<'t>(table: &'t toml::Table, key: &str) -> &'t toml::Table {
    match table.get(key).and_then(toml::Value::as_array).map(Vec::as_slice) {
        Some([toml::Value::Table(one)]) => one,
        other => panic!("{key} has one entry: {other:?}"),
    }
}

/// The keys of `languages.toml`: Helix 25.07, manual, "Languages"
/// (<https://docs.helix-editor.com/languages.html>), read 2026-11-26.
#[test]
fn helix_knows_every_key() {
    let all = toml_of("helix/languages.toml");
    held_to(&["language-server!", "language!", "grammar!"], &all, "languages.toml");
    let server = table(table(&all, "language-server"), "tamis");
    held_to(
        &["command!", "args!", "config", "timeout", "environment", "required-root-patterns"],
        server,
        "language-server",
    );
    assert_eq!(server["command"].as_str(), Some("tamis"));
    let language = one(&all, "language");
    let keys = [
        "name!",
        "language-id",
        "scope!",
        "injection-regex",
        "file-types!",
        "shebangs",
        "roots",
        "auto-format",
        "diagnostic-severity",
        "comment-token",
        "comment-tokens",
        "block-comment-tokens",
        "indent!",
        "language-servers!",
        "grammar",
        "formatter",
        "soft-wrap",
        "text-width",
        "rulers",
        "path-completion",
        "workspace-lsp-roots",
        "persistent-diagnostic-sources",
    ];
    held_to(&keys, language, "language");
    held_to(&["tab-width!", "unit!"], table(language, "indent"), "indent");
    assert_eq!(language["language-servers"].as_array().and_then(|servers| servers.first()?.as_str()), Some("tamis"));
    let grammar = one(&all, "grammar");
    held_to(&["name!", "source!"], grammar, "grammar");
    held_to(&["path!"], table(grammar, "source"), "source");
    assert_eq!(grammar["name"], language["name"], "the queries' folder, the grammar and the language have one name");
}

/// The keys of an extension and of a language: Zed, manual, "Developing Extensions" and "Language Extensions"
/// (<https://zed.dev/docs/extensions/languages>), read 2026-11-26.
#[test]
fn zed_knows_every_key() {
    let extension = toml_of("zed/extension.toml");
    let keys = [
        "id!",
        "name!",
        "version!",
        "schema_version!",
        "authors!",
        "description!",
        "repository!",
        "grammars!",
        "language_servers!",
    ];
    held_to(&keys, &extension, "extension.toml");
    let grammar = table(table(&extension, "grammars"), "tamis");
    held_to(&["repository!", "rev!", "path"], grammar, "grammars.tamis");
    assert!(editors().join("..").join(grammar["path"].as_str().unwrap()).join("src/parser.c").exists());
    let server = table(table(&extension, "language_servers"), "tamis");
    held_to(&["name!", "languages!", "language_ids"], server, "language_servers.tamis");

    let language = toml_of("zed/languages/tamis/config.toml");
    let keys = [
        "name!",
        "grammar!",
        "path_suffixes!",
        "line_comments",
        "block_comment",
        "first_line_pattern",
        "tab_size",
        "hard_tabs",
        "soft_wrap",
        "brackets",
        "word_characters",
        "autoclose_before",
        "debuggers",
    ];
    held_to(&keys, &language, "config.toml");
    assert_eq!(server["languages"].as_array().and_then(|names| names.first()), language.get("name"));
    assert_eq!(table(server, "language_ids").get(language["name"].as_str().unwrap()).unwrap().as_str(), Some("tamis"));
    for bracket in language["brackets"].as_array().unwrap() {
        held_to(&["start!", "end!", "close!", "newline!"], bracket.as_table().unwrap(), "brackets");
    }
}

/// The entry in the option `lsp_servers` of kak-lsp 16 and later (its README, "Configuration"; from memory; kak-lsp 22 was seen to take it).
#[test]
fn kakoune_is_told_the_server_in_a_table() {
    let text = read("kakoune/tamis.kak");
    let entry = text.split("str tamis_server %{").nth(1).and_then(|rest| rest.split('}').next()).unwrap();
    let servers: toml::Table = entry.parse().unwrap();
    held_to(
        &[
            "command!",
            "args!",
            "root_globs",
            "root",
            "settings",
            "settings_section",
            "experimental",
            "symbol_kinds",
            "workaround_server_sends_plaintext_labeled_as_markdown",
        ],
        table(&servers, "tamis"),
        "lsp_servers",
    );
}

/// Kate's plugin LSP Client (its manual, "LSP Client Plugin": "Configuration") and the package LSP of Sublime Text
/// (<https://lsp.sublimetext.io/client_configuration/>); from memory.
#[test]
fn kate_and_sublime_text_are_told_the_server() {
    let kate: Value = serde_json::from_str(&read("kate/settings.json")).unwrap();
    let server = &kate["servers"]["tamis"];
    assert_eq!(server["command"], serde_json::json!(["tamis", "lsp"]));
    let known = [
        "command",
        "use",
        "root",
        "rootIndicationFileNames",
        "url",
        "highlightingModeRegex",
        "settings",
        "initializationOptions",
    ];
    for server in kate["servers"].as_object().unwrap().values() {
        assert!(server.as_object().unwrap().keys().all(|key| known.contains(&key.as_str())), "{server}");
    }
    // Posts have the same server.
    assert_eq!(kate["servers"]["markdown"]["use"], "tamis");
    // The mode by which it is found is the name of our highlighting.
    assert_eq!(server["highlightingModeRegex"], "^Tamis$");
    assert!(read("kate/tamis.xml").contains("<language name=\"Tamis\""));

    // Sublime Text reads JSON with remarks and with commas behind the last entry.
    let text = read("sublime/LSP.sublime-settings");
    let plain: String = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
    let plain = plain.replace(char::is_whitespace, "").replace(",}", "}").replace(",]", "]");
    let sublime: Value = serde_json::from_str(&plain).unwrap();
    let client = &sublime["clients"]["tamis"];
    assert_eq!(client["command"], serde_json::json!(["tamis", "lsp"]));
    // Ours, and that of Markdown in Sublime Text's own package, in whose fences manuscripts stand.
    let selector = client["selector"].as_str().unwrap();
    let (own, posts) = selector.split_once('|').unwrap();
    assert!(read("sublime/Tamis.sublime-syntax").contains(&format!("scope: {own}\n")));
    assert_eq!(posts, "text.html.markdown");
}

/// The names that themes colour, or that begin as one does: Helix 25.07, manual, "Themes", "Scopes"
/// (<https://docs.helix-editor.com/themes.html>); Zed, manual, "Language Extensions", "Syntax highlighting". From memory.
const HELIX: &[&str] = &[
    "attribute",
    "type",
    "constructor",
    "constant",
    "string",
    "comment",
    "variable",
    "label",
    "punctuation",
    "keyword",
    "operator",
    "function",
    "tag",
    "namespace",
    "special",
    "markup",
    "diff",
    "warning",
    "hint",
];
const ZED: &[&str] = &[
    "attribute",
    "boolean",
    "comment",
    "constant",
    "constructor",
    "embedded",
    "emphasis",
    "enum",
    "function",
    "hint",
    "keyword",
    "label",
    "link_text",
    "link_uri",
    "number",
    "operator",
    "predictive",
    "preproc",
    "primary",
    "property",
    "punctuation",
    "string",
    "tag",
    "text",
    "title",
    "type",
    "variable",
    "variant",
];

/// The query in Emacs's own file: its captures are faces of ours.
#[test]
fn the_query_of_emacs_fits_the_grammar_and_names_faces() {
    let text = read("emacs/tamis-ts-mode.el");
    let query =
        text.split("(defconst tamis-ts--query \"").nth(1).and_then(|rest| rest.split("\"\n  \"").next()).unwrap();
    let query = Query::new(&tree_sitter_tamis::LANGUAGE.into(), &query.replace("\\\"", "\"")).unwrap();
    let mode = read("emacs/tamis-mode.el");
    for capture in query.capture_names() {
        assert!(mode.contains(&format!("(defface {capture} ")), "there is no face {capture}");
    }
}

#[test]
fn queries_fit_the_grammar_and_name_what_the_editor_knows() {
    let language: Language = tree_sitter_tamis::LANGUAGE.into();
    let others: &[(&str, &[&str])] = &[
        ("injections", &["injection"]),
        ("indents", &["indent"]),
        ("locals", &["local"]),
        ("outline", &["item", "name", "context"]),
        ("brackets", &["open", "close"]),
    ];
    let mut tried = 0;
    for (folder, colours) in [("helix/queries/tamis", HELIX), ("zed/languages/tamis", ZED)] {
        for entry in fs::read_dir(editors().join(folder)).unwrap() {
            let path = entry.unwrap().path();
            if path.extension().is_none_or(|ending| ending != "scm") {
                continue;
            }
            let name = path.file_stem().unwrap().to_str().unwrap();
            let known = others.iter().find(|(other, _)| *other == name).map_or(colours, |(_, names)| *names);
            let query = Query::new(&language, &fs::read_to_string(&path).unwrap())
                .unwrap_or_else(|fault| panic!("{}: {fault}", path.display()));
            for capture in query.capture_names() {
                let first = capture.split('.').next().unwrap();
                assert!(known.contains(&first), "{}: nothing is made of @{capture}", path.display());
            }
            tried += 1;
        }
    }
    assert_eq!(tried, 9, "every query of both editors");
}

//! How fast a manuscript parses: one megabyte of the samples, as one tree, as a tree for each recipe, and without a tree, and again after
//! one character. `cargo bench -p tree-sitter-tamis`; the design asks for 8 MB/s.

use std::{fs, hint::black_box, path::Path};

use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use tree_sitter::{InputEdit, Parser, Point, Tree};
use tree_sitter_tamis::Reader;

/// The sound samples, over and over, cut at one megabyte.
fn manuscript() -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let entries = fs::read_dir(folder).expect("the samples can be read").map(|entry| entry.expect("an entry").path());
    let mut paths: Vec<_> = entries.filter(|path| path.extension().is_some_and(|ending| ending == "tamis")).collect();
    paths.sort();
    let all: String = paths.iter().map(|path| fs::read_to_string(path).expect("a sample is text") + "\n\n").collect();
    let mut text = all.repeat(1_000_000 / all.len() + 1);
    let end = (0..=1_000_000).rev().find(|end| text.is_char_boundary(*end)).unwrap_or_default();
    text.truncate(end);
    text
}

fn parser() -> Parser {
    let mut parser = Parser::new();
    parser.set_language(&tree_sitter_tamis::LANGUAGE.into()).expect("the grammar fits the parser");
    parser
}

fn parse(parser: &mut Parser, text: &str, old: Option<&Tree>) -> Tree {
    parser.parse(text, old).expect("nothing cancels the parse")
}

fn benches(criterion: &mut Criterion) {
    let text = manuscript();
    let mut parser = parser();
    let mut group = criterion.benchmark_group("parse 1 MB");
    group.throughput(Throughput::Bytes(text.len() as u64)).sample_size(20);
    group.bench_function("one tree", |bencher| bencher.iter(|| black_box(parse(&mut parser, &text, None))));
    let starts: Vec<usize> = text.match_indices("\nRecipe:").map(|(at, _)| at + 1).collect();
    let recipes: Vec<&str> = starts.iter().zip(starts.iter().skip(1)).map(|(from, to)| &text[*from..*to]).collect();
    group.bench_function("a tree a recipe", |bencher| {
        bencher.iter(|| recipes.iter().for_each(|recipe| drop(black_box(parse(&mut parser, recipe, None)))));
    });
    let mut reader = Reader::default();
    group.bench_function("no tree", |bencher| {
        bencher.iter(|| recipes.iter().for_each(|recipe| assert!(black_box(reader.nodes(recipe)).is_some())));
    });
    group.finish();

    let mut group = criterion.benchmark_group("again after one character");
    for (name, text) in [("in 1 MB", text.as_str()), ("in one recipe", recipes[0])] {
        let at = text.len() / 2;
        let at = (at..text.len()).find(|at| text.is_char_boundary(*at)).unwrap_or(text.len());
        let edited = format!("{}x{}", &text[..at], &text[at..]);
        let point = |column| Point { row: 0, column };
        let mut old = parse(&mut parser, text, None);
        old.edit(&InputEdit {
            start_byte: at,
            old_end_byte: at,
            new_end_byte: at + 1,
            start_position: point(at),
            old_end_position: point(at),
            new_end_position: point(at + 1),
        });
        group.bench_function(name, |bencher| bencher.iter(|| black_box(parse(&mut parser, &edited, Some(&old)))));
    }
    group.finish();
}

criterion_group!(all, benches);
criterion_main!(all);

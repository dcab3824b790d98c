//! What a manuscript costs, layer by layer, and what a keystroke costs in a book of ten recipes and of ten thousand.
//! `cargo bench -p tamis --bench manuscript`; the text is that of the samples.

#![allow(clippy::unwrap_used, reason = "a benchmark without its samples has nothing to measure")]

use std::hint::black_box;
use std::path::Path;
use std::sync::Arc;

use criterion::{BatchSize, Criterion, Throughput, criterion_group, criterion_main};
use tamis::book::{Book, Catalogue, House, OwnTitles, Titles};
use tamis::syntax::{Tree, split};
use tamis::text::{Edit, Span};
use tamis::workspace::Manuscript;
use tamis::{checks, larder::larder, recipe};

/// The recipes of the samples, sound and mistaken ones, each by itself.
fn samples() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let mut files: Vec<_> = [folder.clone(), folder.join("mistakes")]
        .iter()
        .flat_map(|folder| std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()))
        .filter(|path| path.extension().is_some_and(|ending| ending == "tamis"))
        .collect();
    files.sort();
    let texts = files.iter().map(|file| std::fs::read_to_string(file).unwrap() + "\n");
    texts.flat_map(|text| split(&text).into_iter().map(|span| span.of(&text).to_owned()).collect::<Vec<_>>()).collect()
}

/// A book of so many recipes, made of the samples over and over.
fn book(recipes: &[String], count: usize) -> String {
    recipes.iter().filter(|text| text.starts_with("Recipe:")).cycle().take(count).map(String::as_str).collect()
}

fn layers(criterion: &mut Criterion) {
    let (texts, book) = (samples(), Book::default());
    let (own, catalogue) = (OwnTitles::default(), Catalogue::default());
    let titles = Titles { own: &own, book: &catalogue, file: None, above: false };
    let trees: Vec<Tree> = texts.iter().map(|text| Tree::parse(text).unwrap()).collect();
    let read = || texts.iter().zip(&trees).map(|(text, tree)| recipe::read(text, tree, larder()));
    let mut group = criterion.benchmark_group("samples");
    group.throughput(Throughput::Bytes(texts.iter().map(|text| text.len() as u64).sum()));
    group.bench_function("parse", |bencher| {
        bencher.iter(|| texts.iter().filter(|text| Tree::parse(black_box(text)).is_some()).count());
    });
    group.bench_function("model", |bencher| bencher.iter(|| read().map(|recipe| recipe.steps.len()).sum::<usize>()));
    // Each time anew, for a recipe remembers what it was asked.
    group.bench_function("checks", |bencher| {
        bencher.iter_batched(
            || read().collect::<Vec<_>>(),
            |recipes| {
                let all: Vec<_> = recipes.iter().map(|recipe| (recipe, titles)).collect();
                checks::run(&all, &book).iter().map(Vec::len).sum::<usize>()
            },
            BatchSize::LargeInput,
        );
    });
    group.finish();
}

fn books(criterion: &mut Criterion) {
    let (recipes, house) = (samples(), Arc::new(House::default()));
    let text = book(&recipes, 100);
    let mut group = criterion.benchmark_group("book");
    group.throughput(Throughput::Bytes(text.len() as u64));
    group.bench_function("open 100 recipes", |bencher| {
        bencher.iter_with_large_drop(|| Manuscript::new(black_box(&text), Arc::clone(&house)));
    });
    group.finish();
    let mut group = criterion.benchmark_group("keystroke");
    for count in [10, 10_000] {
        let mut manuscript = Manuscript::new(&book(&recipes, count), Arc::clone(&house));
        // A place in a word of the last recipe but one.
        let from = manuscript.recipes().nth(count - 2).map_or(0, |(start, recipe)| start + recipe.text.len() / 2);
        let edits = [Edit::insert(from, "x"), Edit::delete(Span::new(from, from + 1))];
        group.bench_function(format!("in {count} recipes"), |bencher| {
            bencher.iter(|| edits.iter().for_each(|edit| manuscript.apply(black_box(edit))));
        });
    }
    group.finish();
}

criterion_group!(manuscript_benches, layers, books);
criterion_main!(manuscript_benches);

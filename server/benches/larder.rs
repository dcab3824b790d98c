//! How long it takes until the larder is there, and then to find foods in it. `cargo bench -p tamis --bench larder`; what is asked for
//! is less than 1 ms before the first manuscript can be read.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use tamis::larder::{Larder, larder, words};

/// Names as they stand in lists, some with a slip, and words of a step.
const NAMES: &[&str] = &[
    "cold unsalted butter, cubed",
    "boneless, skinless chicken thighs",
    "1 can (400 g) chopped tomatoes, with their juice",
    "finely grated zest of 1 lemon",
    "freshly ground black pepper",
    "brocoli, in florets",
    "an unheard-of thing",
];
const STEP: &str = "Meanwhile melt half the butter in a wide pan, add the onion, the garlic and a pinch of salt, and cook gently until soft";

fn benches(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("larder");
    group.bench_function("load", |bencher| bencher.iter_with_large_drop(Larder::built));
    group.bench_function("load and find seven names", |bencher| {
        bencher.iter_with_large_drop(|| {
            let larder = Larder::built();
            let found = NAMES.iter().filter(|name| larder.find(name).is_some()).count();
            (larder, found)
        });
    });
    group.bench_function("find seven names", |bencher| {
        bencher.iter(|| NAMES.iter().filter(|name| larder().find(black_box(name)).is_some()).count());
    });
    let step: Vec<String> = words::split(STEP).into_iter().map(|word| word.folded.into_owned()).collect();
    group.bench_function("scan a step", |bencher| bencher.iter(|| larder().scan(black_box(&step)).count()));
    group.finish();
}

criterion_group!(larder_benches, benches);
criterion_main!(larder_benches);

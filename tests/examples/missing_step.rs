//! How often `ingredient-unused` offers the place that a use was taken from.
//!
//!     cargo run -p tamis-tests --example missing_step -- FOLDER [--wrong]
//!
//! `--wrong` lists the uses whose place is not among those offered, and those where it is not the first. How the uses are
//! taken out, and which place is right, stands in `tests/support/missing_step.rs`.

use std::{path::PathBuf, process::ExitCode};

use tamis::workspace::{read::read, walk};
use tamis_tests::missing_step::{Case, cases};

fn main() -> ExitCode {
    let (flags, folders): (Vec<String>, Vec<String>) = std::env::args().skip(1).partition(|it| it.starts_with("--"));
    let folders: Vec<PathBuf> = folders.iter().map(PathBuf::from).collect();
    let found = walk::find(&folders);
    let texts = found.manuscripts.iter().filter_map(|source| Some((source.to_string(), read(source).ok()?)));
    let all: Vec<(String, Case)> =
        texts.flat_map(|(path, text)| cases(&text).into_iter().map(move |case| (path.clone(), case))).collect();
    if all.is_empty() {
        eprintln!("No use to take out. Name a folder of manuscripts.");
        return ExitCode::FAILURE;
    }
    let share = |of: &dyn Fn(&Case) -> bool| {
        let count = all.iter().filter(|(_, case)| of(case)).count();
        format!("{count} of {}, {:.1} %", all.len(), 100.0 * count as f64 / all.len() as f64)
    };
    println!("steps that went out whole:      {}", share(&|case| case.whole));
    println!("the first place is right:       {}", share(&Case::first));
    println!("the first step named is right:  {}", share(&Case::first_step));
    println!("a place that is offered is:     {}", share(&Case::any));
    let places: usize = all.iter().map(|(_, case)| case.offered.len()).sum();
    println!("places offered on average:      {:.1}", places as f64 / all.len() as f64);
    if flags.iter().any(|flag| flag == "--wrong") {
        for (path, case) in all.iter().filter(|(_, case)| !case.first() || !case.any()) {
            let verdict = if case.any() { "not first" } else { "not offered" };
            let titles: Vec<&str> = case.offered.iter().map(|offered| &*offered.title).collect();
            println!("{verdict}: {path}: {}, from step {}\n    {}", case.line, case.step, titles.join(" · "));
        }
    }
    ExitCode::SUCCESS
}

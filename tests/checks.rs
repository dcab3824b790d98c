//! The page of every check, kept to its word: what its examples show is found, nothing else is, fixes mend what they promise,
//! and the same holds however the text has come to be. `cargo test --test checks share-exceeds` runs the pages of one check.

use std::{path::Path, sync::Arc};

use libtest_mimic::{Arguments, Failed, Trial};
use tamis::{
    book::{Book, Catalogue, Grade, sheet},
    checks::{CHECKS, Check, Finding, Fix},
    text::Edit,
    workspace::Manuscript,
};
use tamis_tests::{
    fixes::{broken_promise, found},
    pages::{Block, Example, Mark, Page, draw, drawn},
};

/// More rounds than this no fixing takes.
const ROUNDS: usize = 20;
const HEADINGS: [&str; 4] = ["What", "Why it matters to the cook", "Example", "Stays silent"];

fn main() {
    let mut arguments = Arguments::from_args();
    arguments.test_threads.get_or_insert(2);
    let mut trials: Vec<Trial> = CHECKS.iter().flat_map(trials).collect();
    trials.extend(samples());
    libtest_mimic::run(&arguments, trials).exit();
}

/// One test for the shape of the page, and one for each manuscript on it.
fn trials(check: &'static Check) -> Vec<Trial> {
    let page = Page::read(check.docs);
    let examples = page.examples.into_iter().map(|example| {
        let name = format!("{} example at line {}", check.code, example.block.line);
        Trial::test(name, move || shows(check, &example))
    });
    let silent = page.silent.into_iter().map(|block| {
        Trial::test(format!("{} stays silent at line {}", check.code, block.line), move || stays_silent(check, &block))
    });
    let shape = Trial::test(format!("{} page", check.code), move || is_complete(check));
    std::iter::once(shape).chain(examples).chain(silent).collect()
}

/// Every fix of every finding in the samples keeps its word too.
fn samples() -> Vec<Trial> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../samples");
    let files = [folder.clone(), folder.join("mistakes")].into_iter().flat_map(|folder| {
        let entries = std::fs::read_dir(&folder).expect("the folder of samples can be read");
        entries.map(|entry| entry.expect("an entry of it too").path())
    });
    let manuscripts = files.filter(|path| path.extension().is_some_and(|ending| ending == "tamis"));
    let trial = |path: std::path::PathBuf| {
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        Trial::test(format!("fixes in sample {name}"), move || {
            let text = std::fs::read_to_string(&path)?;
            let book = Book::default();
            each(&found(&text, &book), |finding| fixes_keep_their_word(&text, finding, &book))
        })
    };
    manuscripts.map(trial).collect()
}

fn is_complete(check: &Check) -> Result<(), Failed> {
    let page = Page::read(check.docs);
    let missing: Vec<_> = HEADINGS.iter().filter(|heading| !page.headings.iter().any(|own| own == *heading)).collect();
    require(missing.is_empty(), || format!("the page lacks {missing:?}"))?;
    require(page.title == check.code, || format!("its title is `{}`", page.title))?;
    require(!page.source.trim().is_empty(), || "nothing stands under `Source`".into())?;
    require(page.examples.len() >= 2, || format!("{} examples; two are wanted", page.examples.len()))?;
    require(page.silent.len() >= 3, || format!("silent on {} manuscripts; three are wanted", page.silent.len()))?;
    each(&page.silent, |block| {
        require(!block.reason.is_empty(), || format!("line {}: no reason why it stays silent", block.line))
    })
}

fn shows(check: &Check, example: &Example) -> Result<(), Failed> {
    let book = book(check, &example.block.sheet);
    let text = &example.block.text;
    let own: Vec<Finding> = found(text, &book).into_iter().filter(|finding| finding.code == check.code).collect();
    let marks: Vec<Mark> = own.iter().map(|finding| drawn(text, finding)).collect();
    let same = marks.len() == example.marks.len()
        && marks.iter().all(|mark| example.marks.iter().any(|expected| mark.is(expected)))
        && example.marks.iter().all(|expected| marks.iter().any(|mark| mark.is(expected)));
    require(same, || format!("expected\n{}\nfound\n{}", draw(text, &example.marks), draw(text, &marks)))?;
    each(&own, |finding| fixes_keep_their_word(text, finding, &book))?;
    each(&example.after, |(title, after)| gives(text, &own, title.as_deref(), &after.text))?;
    converges(check, text, &book)?;
    is_the_same_however_it_came(text, &book)
}

fn stays_silent(check: &Check, block: &Block) -> Result<(), Failed> {
    let book = book(check, &block.sheet);
    let own = found(&block.text, &book).into_iter().filter(|finding| finding.code == check.code);
    let marks: Vec<Mark> = own.map(|finding| drawn(&block.text, &finding)).collect();
    require(marks.is_empty(), || format!("found\n{}", draw(&block.text, &marks)))?;
    is_the_same_however_it_came(&block.text, &book)
}

/// The book of a manuscript: one of its sheet, in which there is nothing else; without a sheet none. The check itself runs in it.
fn book(check: &Check, sheet: &str) -> Book {
    let codes: Vec<&str> = CHECKS.iter().map(|check| check.code).collect();
    let (mut house, faults) = sheet::read(sheet, &codes);
    assert_eq!(faults, [], "{sheet}");
    if !check.on {
        house.grades.entry(check.code.to_owned()).or_insert(Grade::As(check.severity));
    }
    let catalogue = if sheet.is_empty() { Catalogue::default() } else { Catalogue::of([]) };
    Book { house: Arc::new(house), catalogue: Arc::new(catalogue), ..Book::default() }
}

fn fixes_keep_their_word(text: &str, finding: &Finding, book: &Book) -> Result<(), Failed> {
    each(&finding.fixes, |fix| match broken_promise(text, finding, fix, book) {
        Some(broken) => Err(broken.into()),
        None => Ok(()),
    })
}

fn gives(text: &str, own: &[Finding], title: Option<&str>, expected: &str) -> Result<(), Failed> {
    let mut fixes = own.iter().flat_map(|finding| &finding.fixes);
    let fix: Option<&Fix> = match title {
        Some(title) => fixes.find(|fix| fix.title == title),
        None => own.first().and_then(|finding| finding.fixes.first()),
    };
    let titles: Vec<&str> = own.iter().flat_map(|finding| &finding.fixes).map(|fix| fix.title.as_str()).collect();
    let Some(fix) = fix else { return Err(format!("no such fix: {title:?}; there are {titles:?}").into()) };
    let fixed = Edit::apply_all(text, &fix.edits);
    require(fixed == expected, || format!("`{}` gives\n{fixed}\nand not\n{expected}", fix.title))
}

/// First fix after first fix, nothing is left that has one.
fn converges(check: &Check, text: &str, book: &Book) -> Result<(), Failed> {
    let mut text = text.to_owned();
    for _ in 0..ROUNDS {
        let own = found(&text, book).into_iter().filter(|finding| finding.code == check.code);
        let Some(fix) = own.flat_map(|finding| finding.fixes).next() else { return Ok(()) };
        text = Edit::apply_all(&text, &fix.edits);
    }
    Err(format!("after {ROUNDS} rounds of fixing there is still something to fix:\n{text}").into())
}

fn is_the_same_however_it_came(text: &str, book: &Book) -> Result<(), Failed> {
    let marks = |text: &str, findings: Vec<Finding>| -> Vec<(Mark, Vec<String>)> {
        let fixed = |fix: &Fix| Edit::apply_all(&text.replace("\r\n", "\n"), &plain(text, &fix.edits));
        findings.iter().map(|finding| (drawn(text, finding), finding.fixes.iter().map(fixed).collect())).collect()
    };
    let expected = marks(text, found(text, book));
    let crlf = text.replace('\n', "\r\n");
    let found_there = marks(&crlf, found(&crlf, book));
    same("with CRLF", &found_there, &expected)?;

    let head = "// 🥕 from the spring number\n\n";
    let below = format!("{head}{text}");
    let mut moved = marks(&below, found(&below, book));
    for (mark, fixed) in &mut moved {
        mark.line -= 2;
        fixed
            .iter_mut()
            .for_each(|fixed| *fixed = fixed.strip_prefix(head).unwrap_or("the comment is gone").to_owned());
    }
    same("below a line with an emoji", &moved, &expected)?;

    let mut typed = Manuscript::in_book("", book.clone());
    for (at, c) in text.char_indices() {
        typed.apply(&Edit::insert(at, c));
    }
    same("typed", &marks(text, typed.findings()), &expected)
}

/// The same findings with the same fixes; else the first that differs.
fn same(how: &str, found: &[(Mark, Vec<String>)], expected: &[(Mark, Vec<String>)]) -> Result<(), Failed> {
    require(found.len() == expected.len(), || format!("{how}: {} findings and not {}", found.len(), expected.len()))?;
    each(found.iter().zip(expected), |(found, expected)| {
        require(found.0 == expected.0, || format!("{how}: {:?} and not {:?}", found.0, expected.0))?;
        each(found.1.iter().zip(&expected.1), |(found, expected)| {
            require(found == expected, || format!("{how}, a fix gives\n{found}\nand not\n{expected}"))
        })
    })
}

/// Edits of a text with CRLF as edits of the same text with LF.
fn plain(text: &str, edits: &[Edit]) -> Vec<Edit> {
    let back = |offset: usize| offset - text.get(..offset).unwrap_or_default().matches("\r\n").count();
    let span = |edit: &Edit| tamis::text::Span::new(back(edit.span.start), back(edit.span.end));
    edits.iter().map(|edit| Edit::replace(span(edit), edit.text.clone())).collect()
}

fn each<T>(all: impl IntoIterator<Item = T>, test: impl FnMut(T) -> Result<(), Failed>) -> Result<(), Failed> {
    all.into_iter().try_for_each(test)
}

fn require(holds: bool, otherwise: impl FnOnce() -> String) -> Result<(), Failed> {
    if holds { Ok(()) } else { Err(otherwise().into()) }
}

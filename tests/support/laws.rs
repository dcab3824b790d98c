//! What has to hold of any input, however it came about. Fuzzers look for inputs that break it (`tests/fuzz/`); `tests/any_input.rs` tries
//! those that once did, and edits at random.

use tamis::{
    assist,
    book::{Book, House, sheet},
    checks::{CHECKS, Finding},
    larder::larder,
    measure::{self, Amount, FractionStyle, Measures, System, Unit},
    recipe::Recipe,
    syntax::Tree,
    text::{Edit, Span},
    workspace::{Manuscript, posts::Form},
};
use tokio::io::{AsyncReadExt, AsyncWriteExt};

use crate::{editor::framed, layout};

#[path = "../../grammar/tests/common/noted.rs"]
mod noted;

/// What breaks where an input breaks it.
pub type Law = fn(&[u8]);

/// Each law, under the name of its fuzzer.
pub const LAWS: [(&str, Law); 4] =
    [("manuscript", manuscript), ("measures", measures), ("messages", messages), ("style_sheet", style_sheet)];

/// A text and then edits of it, parted by the byte 255, which no text has: two bytes say where an edit starts (as a share of 65,536), one
/// how much goes, and what follows comes instead. In the end everything is as if the text had been opened so, and every question about it
/// has an answer.
pub fn manuscript(input: &[u8]) {
    let mut parts = input.split(|byte| *byte == 255);
    let mut text = String::from_utf8_lossy(parts.next().unwrap_or_default()).into_owned();
    let mut typed = opened(&text);
    for part in parts {
        let (head, new) = part.split_at(part.len().min(3));
        let [high, low, gone] = [0, 1, 2].map(|at| usize::from(head.get(at).copied().unwrap_or_default()));
        let start = boundary(&text, (high * 256 + low) * text.len() / 65_536);
        let span = Span::new(start, boundary(&text, start + gone));
        edit(&mut typed, &mut text, &Edit::replace(span, String::from_utf8_lossy(new).into_owned()));
    }
    same_as_fresh(&typed, &text);
    answers(&typed, &text);
    if typed.recipes().all(|(_, recipe)| recipe.text.len() < 4096) {
        layout::holds(&text);
        Edit::put_into(&text, &typed.mended().edits);
    }
}

/// A manuscript as if it had just been opened.
pub fn opened(text: &str) -> Manuscript {
    Manuscript::of(text, Form::Manuscript, Book::default())
}

/// Edits a manuscript and the plain text of it.
pub fn edit(typed: &mut Manuscript, text: &mut String, edit: &Edit) {
    *text = Edit::apply_all(text, std::slice::from_ref(edit));
    typed.apply(edit);
}

/// A manuscript that was edited is the same, letter for letter, tree for tree, use for use and finding for finding, as one opened with its
/// text; and so is, but for its trees, one that is opened to be read only. Its recipes, read without a tree, have the nodes of a tree.
#[track_caller]
pub fn same_as_fresh(typed: &Manuscript, text: &str) {
    let fresh = opened(text);
    assert_eq!(typed.text(), text);
    assert_eq!(drawn(typed), drawn(&fresh), "{text:?}");
    assert_eq!(understood(typed), understood(&fresh), "{text:?}");
    assert_eq!(typed.findings(), fresh.findings(), "{text:?}");
    let none = Tree::parse("").expect("the grammar fits the parser");
    let part_by_part = |text: &str| Tree::parse_again((&none, ""), (&none, ""), text);
    let mut both = noted::Both::new();
    for (_, recipe, whole) in fresh.pieces() {
        assert_eq!(part_by_part(&recipe.text).as_ref(), whole, "{text:?}");
        both.agree(&recipe.text);
    }
    let to_read = Manuscript::to_read(text, Form::Manuscript, Book::default());
    assert_eq!(understood(&to_read), understood(&fresh), "{text:?}");
    assert_eq!(to_read.findings(), fresh.findings(), "{text:?}");
}

/// What each recipe says, and who uses what and when.
fn understood(held: &Manuscript) -> Vec<String> {
    let of = |recipe: &Recipe| {
        let said = (&recipe.headers, &recipe.sections, &recipe.groups, &recipe.steps, &recipe.measures, &recipe.stets);
        let lines: Vec<_> =
            recipe.ingredients.iter().map(|line| (line.span, line.mark, line.group, line.tags)).collect();
        let unlisted: Vec<_> = recipe.flow.unlisted.iter().map(|unlisted| (unlisted.step, unlisted.span)).collect();
        format!("{said:?} {lines:?} {:?} {unlisted:?} {:?}", recipe.flow.mentions, recipe.clock)
    };
    held.pieces().map(|(_, recipe, _)| of(recipe)).collect()
}

/// Every recipe with the place where it begins and the nodes of its tree.
fn drawn(held: &Manuscript) -> Vec<(usize, String, Vec<String>)> {
    let nodes = |tree: Option<&Tree>| {
        let mut all = Vec::new();
        let mut open: Vec<_> = tree.into_iter().flat_map(Tree::roots).map(|(_, root)| root).collect();
        while let Some(node) = open.pop() {
            all.push(format!("{:?} {:?}", node.kind(), node.span()));
            open.extend(node.children());
        }
        all
    };
    held.pieces().map(|(start, recipe, tree)| (start, recipe.text.to_string(), nodes(tree))).collect()
}

/// The last place at or before `at` where a character starts, or the text ends.
pub fn boundary(text: &str, at: usize) -> usize {
    (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or_default()
}

/// Asks everything about a manuscript, at some places of each recipe.
fn answers(held: &Manuscript, text: &str) {
    let house = held.house();
    for finding in held.findings() {
        finding_is_sound(&finding, text);
    }
    for (_, recipe, findings) in held.findings_by_recipe() {
        let places: Vec<usize> = (0..=3).map(|part| boundary(&recipe.text, recipe.text.len() * part / 3)).collect();
        assist::outline(recipe);
        assist::folds(recipe);
        assist::links(recipe);
        assist::symbols(recipe, "e");
        assist::summary(recipe, findings);
        assist::organize(recipe);
        assist::tokens(recipe, None);
        assist::hints(recipe, house, Span::new(0, recipe.text.len()), |_| true);
        (0..recipe.steps.len()).for_each(|step| drop(assist::goes_in(recipe, house, step)));
        for at in places {
            if let Some(hover) = assist::hover(recipe, house, at) {
                assert!(recipe.text.get(hover.span.start..hover.span.end).is_some(), "{hover:?}");
            }
            let asked = assist::Asked { recipe, house, findings, titles: held.titles(), offset: at, wanted: true };
            for proposal in assist::completion(&asked).items {
                let after = Edit::apply_all(&recipe.text, &[Edit::replace(proposal.span, proposal.text)]);
                assert!(after.len() <= recipe.text.len() + 4096);
            }
            for action in assist::actions(recipe, house, Span::at(at)) {
                Edit::apply_all(&recipe.text, &action.edits);
            }
            assist::definition(recipe, at);
            assist::selection(recipe, at);
            if let Ok(edits) = assist::rename(recipe, at, "quince") {
                Edit::apply_all(&recipe.text, &edits);
            }
        }
    }
}

fn finding_is_sound(finding: &Finding, text: &str) {
    assert!(text.get(finding.span.start..finding.span.end).is_some(), "{finding:?} in {text:?}");
    assert!(!finding.message.is_empty());
    for fix in &finding.fixes {
        assert_ne!(Edit::apply_all(text, &fix.edits), text, "{fix:?} of {finding:?} changes nothing");
    }
}

/// A number and a unit, as a cook may write them, with a food: what is read of them can be weighed, turned into every unit, printed as a
/// cook would, and read again as what was printed.
pub fn measures(input: &[u8]) {
    let text = String::from_utf8_lossy(input);
    let measures = Measures::default();
    let house = House::default();
    measure::nearest_unit(&text);
    // What is not known is looked for among all names, which is slow.
    if larder().find(&text).is_some() {
        drop(assist::facts(&house, &text));
    }
    let (number, unit) = text.split_once(' ').unwrap_or((&text, ""));
    let Ok(number) = measure::read_number(number) else { return };
    for style in [FractionStyle::Slash, FractionStyle::Glyph, FractionStyle::Decimal] {
        let printed = measure::print_number(number.least, style);
        let again =
            measure::read_number(&printed).unwrap_or_else(|fault| panic!("{printed:?} is no number: {fault:?}"));
        let near = (again.least - number.least).abs() <= number.least.abs() * 0.51;
        assert!(near || number.least < 0.01, "{} is printed as {printed}, read as {again:?}", number.least);
    }
    let Some(unit) = Unit::find_beside(unit, &number) else { return };
    let quantity = Amount::new(number, Some(unit)).quantity(&measures);
    // The marks of a gas oven are steps: what lies between two of them comes back as the nearer one.
    for other in Unit::all().filter(|other| other.name() != "gas mark" && unit.name() != "gas mark") {
        if let Some(there) = quantity.number_of(other, &measures) {
            let back = Amount::new(there, Some(other)).quantity(&measures).number_of(unit, &measures);
            let back = back.unwrap_or_else(|| panic!("{} back from {}", unit.name(), other.name()));
            let off = (back.least - number.least).abs();
            assert!(
                !off.is_finite() || off <= 1e-9 * number.least.abs().max(1e3),
                "{number:?} {} becomes {back:?}",
                unit.name()
            );
        }
    }
    for system in [System::Metric, System::Customary] {
        measure::kitchen_amounts(&quantity, system, &measures);
    }
    measure::equivalents(&quantity, None, &measures);
}

/// What a client may say: messages parted by the byte 255. One that begins with `{` is given its header; any other is put on the wire as it
/// is. The server answers or it does not, and it ends once the client has hung up.
pub fn messages(input: &[u8]) {
    let mut wire = Vec::new();
    for message in input.split(|byte| *byte == 255) {
        match serde_json::from_slice::<serde_json::Value>(message) {
            Ok(value) if value.is_object() => wire.extend(framed(&value)),
            _ => wire.extend(message),
        }
    }
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build().expect("a runtime");
    runtime.block_on(async {
        let (mut to_server, input) = tokio::io::duplex(1 << 16);
        let (output, mut from_server) = tokio::io::duplex(1 << 16);
        let serving = tokio::spawn(tamis::lsp::serve(input, output));
        let reading = tokio::spawn(async move {
            let mut all = Vec::new();
            from_server.read_to_end(&mut all).await.map(|_| all)
        });
        // Fails where the server has been told to leave before the end.
        let _ = to_server.write_all(&wire).await;
        drop(to_server);
        let ending = serving.await.expect("no panic");
        assert_ne!(ending, tamis::lsp::Ending::Broken, "{:?}", String::from_utf8_lossy(&wire));
        reading.await.expect("no panic").expect("what was said can be read");
    });
}

/// A style sheet: it is read as far as it goes, and what is said against it stands in it.
pub fn style_sheet(input: &[u8]) {
    let text = String::from_utf8_lossy(input);
    let codes: Vec<&str> = CHECKS.iter().map(|check| check.code).collect();
    let (house, faults) = sheet::read(&text, &codes);
    for fault in faults {
        assert!(text.get(fault.span.start..fault.span.end).is_some(), "{fault:?} in {text:?}");
        assert!(!fault.message.is_empty());
    }
    let recipe = "Recipe: Broth\nServes: 2\n\nIngredients:\n- 1 cup (240 ml) water\n- 2 tsp salt\n\nMethod:\n\n1. Boil the water with the salt.\n";
    Manuscript::new(recipe, std::sync::Arc::new(house)).findings();
}

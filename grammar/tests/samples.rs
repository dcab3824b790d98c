//! No text of ours, with mistakes or without, holds anything that the grammar cannot read.

mod common;

use std::fmt::Write as _;

#[test]
fn no_sample_has_a_place_that_cannot_be_read() {
    let samples = common::samples();
    assert!(samples.len() >= 40, "only {} samples found", samples.len());
    let mut damage = String::new();
    for (path, text) in &samples {
        let tree = common::parse(text);
        common::walk(tree.root_node(), &mut |node| {
            if node.is_error() || node.is_missing() {
                let start = node.start_position();
                let what = if node.is_missing() { "MISSING" } else { "ERROR" };
                writeln!(damage, "{}:{}:{}: {what}", path.display(), start.row + 1, start.column + 1).unwrap();
            }
        });
    }
    assert!(damage.is_empty(), "the grammar cannot read\n{damage}");
}

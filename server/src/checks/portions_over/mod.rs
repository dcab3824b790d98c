//! `portions-over`: more comes out than the portions that the recipe says take.

use super::{Check, Finding, Severity, View, support::vessels_portions as portions};

/// The check.
pub const CHECK: Check =
    Check { code: "portions-over", severity: Severity::Warning, on: true, docs: include_str!("docs.md"), find };

fn find(view: &View<'_>, out: &mut Vec<Finding>) {
    let own = portions::faults(view).iter().filter(|fault| !fault.short);
    out.extend(own.map(|fault| Finding { code: CHECK.code, severity: CHECK.severity, ..fault.finding.clone() }));
}

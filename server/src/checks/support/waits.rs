//! The hours in which a recipe only waits: chills, rises, soaks.

use uom::si::{f64::Time, time::minute};

use crate::recipe::clock::Act;

/// A wait of so many minutes is too long to have an oven heat beside it, which takes 15 to 20 (common practice, no source).
const LONG: f64 = 45.0;

/// Whether an act only waits, and so long that no oven should be hot meanwhile.
pub fn is_long(act: &Act) -> bool {
    act.kind.waits() && !act.perhaps && act.time().is_some_and(|time| time.least >= Time::new::<minute>(LONG))
}

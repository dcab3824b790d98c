//! Numbers as cooks write them, units, quantities with their dimension, conversions, kitchen rounding and agreement.
//! Text in, quantities out; knows no tree and no food.

mod heat;
mod interval;
mod measures;
mod numbers;
mod quantity;
mod unit_table;
mod units;

pub use heat::{celsius, fahrenheit, gas_mark, nearest_gas_mark, scale_of, scales_of_pair};
pub use interval::Interval;
pub use measures::{Cup, Measures, Pint, Scale, Tablespoon};
pub use numbers::{NumberFault, read_number};
pub use quantity::{Amount, Quantity};
pub use units::{System, Unit, UnitKind};

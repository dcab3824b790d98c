//! Numbers as cooks write them, units, quantities with their dimension, conversions, kitchen rounding and agreement.
//! Text in, quantities out; knows no tree and no food.

mod agreement;
mod capacity;
mod heat;
mod hedges;
mod interval;
mod kitchen;
mod loose;
mod measures;
mod numbers;
mod pans;
mod print;
mod quantity;
mod similar;
mod times;
mod unit_table;
mod units;
mod usual;

pub use agreement::{Agreement, Comparison, Off, OtherMeasure, Steps, Tolerances, Verdict, compare, difference};
pub use capacity::{Capacity, Mold, capacity};
pub use heat::{celsius, fahrenheit, gas_mark, nearest_gas_mark, scale_of, scales_of_pair};
pub use hedges::Hedge;
pub use interval::Interval;
pub use kitchen::{equivalents, kitchen_amounts, round_number};
pub use loose::{Taken, taken_as};
pub use measures::{Cup, Measures, Pint, Scale, Tablespoon};
pub use numbers::{NumberFault, read_number};
pub use pans::{Outline, Pan, pans_apart};
pub use print::{
    FractionStyle, RangeStyle, Style, UnitStyle, print, print_amount, print_amounts, print_decimal, print_interval,
    print_number,
};
pub use quantity::{Amount, Quantity};
pub use similar::nearest_unit;
pub use times::times;
pub use units::{System, Unit, UnitKind};

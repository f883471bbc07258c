//! Dimensions, units, amounts as people write them, and their printing.
//!
//! [`parse`](fn@parse) reads `24 g`, `1 1/2 tsp`, `30–40 ml`, `20 ± 2 °C` and their kin into an [`Amount`]: a [`Range`] in the
//! canonical unit of its [`Dimension`], beside what was written. A range stays a range. [`show`](fn@show) is the one
//! place where a number becomes text. The sciences take the [`scalar`] types, which carry their unit in their name.

mod amount;
mod blame;
mod cursor;
mod dimension;
mod lookup;
mod mistake;
mod number;
mod parse;
mod range;
mod ratio;
mod rounding;
pub mod scalar;
mod show;
mod show_time;
mod size;
mod style;
mod table;
mod unit;

pub use amount::{Amount, Form, Heap, Written};
pub use dimension::Dimension;
pub use lookup::unit_named;
pub use mistake::Mistake;
pub use parse::parse;
pub use range::Range;
pub use ratio::Ratio;
pub use rounding::Digits;
pub use scalar::Scalar;
pub use show::{number, show, show_in};
pub use size::{Size, parse_size};
pub use style::{Decimal, Language, Style, System};
pub use table::units;
pub use unit::{Place, Unit, UnitSource};

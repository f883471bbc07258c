//! From one amount to another: forms of a material, dilutions, percentages, spoons, fills, rounding, shopping, and the
//! sizes of printed things.

pub mod class;
pub mod cooling;
pub mod cross_mixing;
pub mod dilution;
pub mod fill;
pub mod forms;
pub mod packets;
pub mod percent;
pub mod print;
pub mod rounding;
pub mod shopping;
pub mod spoons;
pub mod water;

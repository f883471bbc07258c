//! From one amount to another: forms of a material, dilutions, percentages, shopping, and the sizes of printed things.

pub mod cross_mixing;
pub mod dilution;
pub mod forms;
pub mod percent;
pub mod print;
pub mod shopping;

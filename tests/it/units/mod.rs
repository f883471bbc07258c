//! Amounts: what is understood, what is refused and where, what is printed, and the factors of the table.

mod factors;
mod mistakes;
mod printing;
mod properties;
mod reading;
mod sizes;

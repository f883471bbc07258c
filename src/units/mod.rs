//! Dimensions, units, amounts as people write them, and their printing.

//! The chemistry of baths.

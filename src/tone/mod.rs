//! From a scan to a positive: encoded values, densities, the paper's curve, and which way round it goes.

pub mod curve;
pub mod density;
pub mod flip;
pub mod levels;
pub mod picture;
pub mod red_light;
pub mod scene;
pub mod srgb;

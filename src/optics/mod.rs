//! Cameras, light and exposure: pure functions on typed quantities, one formula family a file.

pub mod ev;
pub mod f_number;
pub mod reciprocity;
pub mod scene;

pub use f_number::Plane;
pub use reciprocity::{Reciprocity, ReciprocityError, ReciprocityTable};
pub use scene::{Facing, SceneLight, Sky};

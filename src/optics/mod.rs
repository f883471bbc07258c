//! Cameras, light and exposure: pure functions on typed quantities, one formula family a file.

pub mod changing;
pub mod colour;
pub mod ev;
pub mod f_number;
pub mod facing;
pub mod falloff;
pub mod fit;
pub mod foil;
pub mod hole_scan;
pub mod holes;
pub mod measure;
pub mod paper_speed;
pub mod pinhole;
mod planck;
pub mod preflash;
pub mod reciprocity;
pub mod safelight;
pub mod scene;
pub mod sky;
pub mod strip;
pub mod sun;
pub mod view;

pub use colour::Sees;
pub use f_number::Plane;
pub use pinhole::Criterion;
pub use reciprocity::{Reciprocity, ReciprocityError, ReciprocityTable};
pub use scene::{Facing, SceneLight, Sky};

//! What a block says, as sections of rows: one file for each kind, or for kinds that are written alike.

mod camera;
mod earlier;
mod exposure;
mod ingredient;
mod paper;
mod process;
mod recipe;
mod rows;
mod safelight;
mod session;
mod steps;
mod usage;

use crate::notebook::{Block, Body};

use super::block_view::Desk;
use super::page::{PictureView, Section};

pub(super) use exposure::{light_text, time_given, verdict};
pub(super) use usage::Uses;

/// What was written in a block.
#[derive(Debug, Default)]
pub(super) struct Said {
    /// The line under the title.
    pub(super) subtitle: String,
    /// Its sections; some may be empty.
    pub(super) sections: Vec<Section>,
    /// Its scans, as paths in the notebook with what they show.
    pub(super) pictures: Vec<PictureView>,
}

/// Words what a block says.
pub(super) fn said(desk: &Desk<'_>, block: &Block) -> Said {
    let mut said = match &block.body {
        Body::Recipe(recipe) => recipe::said(desk, block, recipe),
        Body::Camera(camera) => camera::said(desk, block, camera),
        Body::Paper(paper) => paper::said(desk, block, paper),
        Body::Process(process) => process::said(desk, block, process),
        Body::Safelight(safelight) => safelight::said(desk, block, safelight),
        Body::Exposure(exposure) => exposure::said(desk, block, exposure),
        Body::Print(print) => exposure::print_said(desk, block, print),
        Body::Batch(batch) => session::batch_said(desk, block, batch),
        Body::Session(session) => session::said(desk, block, session),
        Body::Ingredient(ingredient) => ingredient::said(desk, block, ingredient),
    };
    said.sections.extend(usage::of(desk, block));
    said
}

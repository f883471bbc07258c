//! The blocks that rules of exposure look at.

use crate::notebook::{Block, Camera, Exposure, Paper, Safelight};
use crate::rules::context::Context;
use crate::rules::papers::papers_of;
use crate::source::Span;
use crate::units::Range;

/// Every camera that its id stands for: facts speak of these alone.
pub(super) fn cameras<'n>(context: &Context<'n>) -> impl Iterator<Item = (&'n Block, &'n Camera)> + use<'n> {
    context.notebook.cameras().filter(|(block, _)| !block.doubled)
}

/// A camera's hole in mm, as it was written or measured on its scan, and the place that says so.
pub(super) fn hole(context: &Context<'_>, camera: &Camera) -> Option<(Range, Span)> {
    let span = camera
        .pinhole
        .get()
        .map(|hole| hole.span)
        .or_else(|| camera.scan.get().map(|scan| scan.span))?;
    Some((context.notebook.hole(camera).ok()?, span))
}

/// Every paper that its id stands for: facts speak of these alone.
pub(super) fn papers<'n>(context: &Context<'n>) -> impl Iterator<Item = (&'n Block, &'n Paper)> + use<'n> {
    context.notebook.papers().filter(|(block, _)| !block.doubled)
}

/// Every exposure that its id stands for: facts speak of these alone.
pub(super) fn exposures<'n>(
    context: &Context<'n>,
) -> impl Iterator<Item = (&'n Block, &'n Exposure)> + use<'n> {
    context.notebook.exposures().filter(|(block, _)| !block.doubled)
}

/// The light of an exposure as an exposure value, and the sun's altitude in degrees, where both are known.
pub(super) fn light_and_sun(context: &Context<'_>, block: &Block) -> Option<[Range; 2]> {
    let facts = context.facts.of_block(&block.id);
    let range = |name: &str| facts.iter().find(|fact| fact.name == name)?.range();
    Some([range("light")?, range("sun.altitude")?])
}

/// A session under a lamp.
pub(super) struct LitSession<'n> {
    /// The lamp's block.
    pub(super) lamp: &'n Block,
    /// The lamp.
    pub(super) safelight: &'n Safelight,
    /// The papers of its sheets, each once, in the order of the sheets.
    pub(super) papers: Vec<&'n str>,
}

/// Every session whose lamp is known.
pub(super) fn lit_sessions<'n>(context: &Context<'n>) -> impl Iterator<Item = LitSession<'n>> + use<'n> {
    let notebook = context.notebook;
    notebook.sessions().filter_map(move |(_, session)| {
        let (lamp, safelight) = notebook.safelight(&session.safelight.get()?.value)?;
        let papers = papers_of(notebook, session);
        let papers = papers.iter().map(|on| on.block.id.as_str()).collect();
        Some(LitSession {
            lamp,
            safelight,
            papers,
        })
    })
}

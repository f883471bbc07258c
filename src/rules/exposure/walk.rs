//! The blocks that rules of exposure look at.

use crate::notebook::{Block, Body, Camera, Exposure, Paper, Safelight};
use crate::rules::context::Context;
use crate::source::Span;
use crate::units::Range;

/// Every block that its id stands for: facts speak of these alone.
fn firsts<'n>(context: &Context<'n>) -> impl Iterator<Item = &'n Block> + use<'n> {
    let notebook = context.notebook;
    notebook.blocks.iter().filter(|block| !block.doubled)
}

/// Every camera.
pub(super) fn cameras<'n>(context: &Context<'n>) -> impl Iterator<Item = (&'n Block, &'n Camera)> + use<'n> {
    firsts(context).filter_map(|block| match &block.body {
        Body::Camera(camera) => Some((block, camera.as_ref())),
        _ => None,
    })
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

/// Every paper.
pub(super) fn papers<'n>(context: &Context<'n>) -> impl Iterator<Item = (&'n Block, &'n Paper)> + use<'n> {
    firsts(context).filter_map(|block| match &block.body {
        Body::Paper(paper) => Some((block, paper.as_ref())),
        _ => None,
    })
}

/// Every exposure.
pub(super) fn exposures<'n>(
    context: &Context<'n>,
) -> impl Iterator<Item = (&'n Block, &'n Exposure)> + use<'n> {
    firsts(context).filter_map(|block| match &block.body {
        Body::Exposure(exposure) => Some((block, exposure.as_ref())),
        _ => None,
    })
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
    notebook.sessions().filter_map(move |(_block, session)| {
        let (lamp, safelight) = notebook.safelight(&session.safelight.get()?.value)?;
        let mut papers = Vec::new();
        for sheet in &session.sheets {
            let paper = match notebook.block(&sheet.value).map(|block| &block.body) {
                Some(Body::Exposure(exposure)) => exposure.paper.get(),
                Some(Body::Print(print)) => print.paper.get(),
                _ => None,
            };
            if let Some(paper) = paper
                && !papers.contains(&paper.value.as_str())
            {
                papers.push(paper.value.as_str());
            }
        }
        Some(LitSession {
            lamp,
            safelight,
            papers,
        })
    })
}

//! What a session develops under one id: how many sheets, of which paper, and how large.

use crate::units::Size;

use super::{Block, Body, Notebook, Paper};

/// The sheets that an exposure or a print is.
#[derive(Debug, Clone, Copy)]
pub struct Sheets<'n> {
    /// How many: each of a bracket counts.
    pub count: u32,
    /// What they are of, where that is known.
    pub paper: Option<(&'n Block, &'n Paper)>,
    /// How large each is: as the camera takes it, else as it comes from the packet.
    pub size: Option<&'n Size>,
}

impl Notebook {
    /// The sheets of an id that a session lists.
    pub fn sheets(&self, id: &str) -> Sheets<'_> {
        let (count, paper, camera) = match self.block(id).map(|block| &block.body) {
            Some(Body::Exposure(exposure)) => (
                exposure.bracket.get().map_or(1, |bracket| bracket.value.count),
                exposure.paper.get(),
                exposure.camera.get(),
            ),
            Some(Body::Print(print)) => (1, print.paper.get(), None),
            _ => (1, None, None),
        };
        let paper = paper.and_then(|paper| self.paper(&paper.value));
        let camera = camera.and_then(|camera| self.camera(&camera.value));
        let format = camera.and_then(|(_, camera)| camera.format.get());
        let packet = paper.and_then(|(_, paper)| paper.size.get());
        Sheets {
            count,
            paper,
            size: format.or(packet).map(|size| &size.value),
        }
    }
}

//! Which blocks may show what was computed of them: those on public pages that take nothing from a private one.
//!
//! A sheet from a private camera stands on its public page as it was written there; but a time that follows from that
//! camera's hole would tell of the hole.

use std::collections::{BTreeMap, BTreeSet};

use crate::notebook::{Audience, Block, Body, Earlier, Kind, Notebook, Recipe, Swap};
use crate::source::FileId;
use crate::syntax::slug;
use crate::units::Dimension;

use super::bath::Bath;
use super::shelf::Shelf;

/// The open blocks of a notebook.
#[derive(Debug)]
pub struct Open<'n> {
    notebook: &'n Notebook,
    /// The ids of all others.
    closed: BTreeSet<&'n str>,
}

impl<'n> Open<'n> {
    /// Those of a notebook.
    pub fn of(notebook: &'n Notebook) -> Self {
        let closed = closed(notebook);
        Self { notebook, closed }
    }

    /// Whether all are open.
    pub fn is_all(&self) -> bool {
        self.closed.is_empty()
    }

    /// Whether what was computed of the block with this id may be shown.
    pub fn contains(&self, id: &str) -> bool {
        !self.closed.contains(id) && self.notebook.block(id).is_some()
    }

    /// Whether what was computed of this block may be shown.
    pub fn has(&self, block: &Block) -> bool {
        !self.closed.contains(block.id.as_str())
    }
}

fn closed(notebook: &Notebook) -> BTreeSet<&str> {
    let private: BTreeSet<FileId> = notebook
        .pages
        .iter()
        .filter(|head| head.audience != Audience::Public)
        .map(|head| head.file)
        .collect();
    let mut closed = BTreeSet::new();
    // Most notebooks keep nothing to themselves.
    if private.is_empty() && !notebook.has_earlier() {
        return closed;
    }
    let is_private = |block: &Block| private.contains(&block.page);
    let materials = private_materials(notebook, &is_private);
    let mut users: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    let mut told: Vec<&str> = Vec::new();
    for block in notebook.blocks.iter().filter(|block| notebook.leads_to(block)) {
        for id in takes_from(&block.body) {
            users.entry(id).or_default().push(&block.id);
        }
        let earlier = notebook.earlier(&block.id);
        for (was, _) in earlier.into_iter().flat_map(Earlier::recipes) {
            users.entry(&was.id).or_default().push(&block.id);
        }
        let private = is_private(block) || earlier.is_some_and(|earlier| earlier.private);
        if private || takes_material(notebook, &block.body, earlier, &materials) {
            told.push(&block.id);
        }
    }
    while let Some(id) = told.pop() {
        if closed.insert(id) {
            told.extend(users.get(id).into_iter().flatten());
        }
    }
    closed
}

/// Whether the numbers of a bath could tell of what a private page alone describes: a material that it is weighed from,
/// another form of one that is in it, or a paper by whose size its capacity is counted in sheets.
pub fn tells_of_private(notebook: &Notebook, bath: &Bath, shelf: &Shelf<'_>) -> bool {
    let private: BTreeSet<FileId> = notebook
        .pages
        .iter()
        .filter(|head| head.audience != Audience::Public)
        .map(|head| head.file)
        .collect();
    if private.is_empty() {
        return false;
    }
    let is_private = |block: &Block| private.contains(&block.page);
    let by_area = bath
        .recipe
        .usage
        .capacity
        .get()
        .is_some_and(|capacity| capacity.value.amount.dimension == Dimension::Area);
    if by_area && notebook.of_kind(Kind::Paper).any(is_private) {
        return true;
    }
    let materials = private_materials(notebook, &is_private);
    !materials.is_empty()
        && bath.doses.iter().any(|dose| {
            let packet = shelf.way(dose).packet().map(|packet| packet.material);
            [dose.material(), packet].into_iter().flatten().any(|material| {
                let family = material.of.as_deref();
                let forms = family.map_or_else(Vec::new, |family| notebook.pantry.forms_of(family));
                materials.contains(&material.id) || forms.iter().any(|form| materials.contains(&form.id))
            })
        })
}

/// The blocks from whose figures those of a block are computed.
fn takes_from(body: &Body) -> Vec<&str> {
    let slots = match body {
        Body::Recipe(recipe) => vec![recipe.based_on.get()],
        Body::Exposure(exposure) => vec![exposure.camera.get(), exposure.paper.get()],
        Body::Print(print) => vec![print.of.get(), print.paper.get()],
        Body::Batch(batch) => vec![batch.of.get()],
        Body::Process(process) => process.steps.iter().map(|step| step.bath.get()).collect(),
        Body::Session(session) => {
            let baths = session
                .baths
                .iter()
                .flat_map(|(recipe, batch)| [Some(recipe), Some(batch)]);
            let sheets = session.sheets.iter().map(Some);
            [session.process.get(), session.safelight.get()]
                .into_iter()
                .chain(baths)
                .chain(sheets)
                .collect()
        }
        _ => Vec::new(),
    };
    slots.into_iter().flatten().map(|id| id.value.as_str()).collect()
}

/// The materials that private pages describe, as the pantry names them.
fn private_materials(notebook: &Notebook, is_private: &dyn Fn(&Block) -> bool) -> BTreeSet<String> {
    let private = notebook.ingredients().filter(|(block, _)| is_private(block));
    private
        .filter_map(|(_, ingredient)| ingredient.material.get())
        .map(|name| slug(&name.value))
        .collect()
}

fn takes_material(
    notebook: &Notebook,
    body: &Body,
    earlier: Option<&Earlier>,
    materials: &BTreeSet<String>,
) -> bool {
    if materials.is_empty() {
        return false;
    }
    let is_private = |name: &str| {
        let found = notebook.pantry.look_up(name);
        found
            .material()
            .is_some_and(|material| materials.contains(&material.id))
    };
    let mut before = earlier.into_iter().flat_map(Earlier::recipes);
    if before.any(|(_, recipe)| added(recipe).any(is_private)) {
        return true;
    }
    match body {
        Body::Recipe(recipe) => added(recipe).any(is_private),
        Body::Batch(batch) => batch.swaps.iter().any(|swap| match swap {
            Swap::Amount(addition) => is_private(&addition.material.value),
            Swap::Material { to, .. } => is_private(&to.value),
        }),
        _ => false,
    }
}

fn added(recipe: &Recipe) -> impl Iterator<Item = &str> {
    let parts = recipe.parts.iter().flat_map(|part| &part.add);
    recipe
        .add
        .iter()
        .chain(parts)
        .map(|addition| addition.material.value.as_str())
}

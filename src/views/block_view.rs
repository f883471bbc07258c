//! A block as it is shown on a page: what was written, what was computed, what there is to say about it.

use std::collections::{BTreeMap, BTreeSet};

use crate::facts::{Bath, Fact, Facts, Shelf, Value, tells_of_private};
use crate::finding::Finding;
use crate::notebook::{Block, Body, Kind, Notebook};
use crate::source::{Sources, Span, Spanned};
use crate::syntax::{Fence, is_elsewhere, resolve};
use crate::units::Style;

use super::bath_plots::Plotted;
use super::blocks::{self, Uses};
use super::finding_view::Found;
use super::page::{BlockView, CautionView, FindingView, PictureView};
use super::paths::{Places, encode};
use super::words::{Words, capital};
use super::{bath_plots, drawing, fact_view, finding_view, log_plot, pictures};

/// All that the words of a page are taken from.
pub(super) struct Desk<'a> {
    pub(super) notebook: &'a Notebook,
    pub(super) facts: &'a Facts,
    pub(super) findings: &'a [Finding],
    pub(super) sources: &'a Sources,
    pub(super) places: Places<'a>,
    pub(super) found: Found<'a>,
    pub(super) uses: Uses<'a>,
    /// The address of each block's card, from the site's root.
    pub(super) cards: BTreeMap<String, String>,
    /// The path of each process's clock, from the site's root.
    pub(super) clocks: BTreeMap<String, String>,
    pub(super) style: Style,
    /// The fixed words in the notebook's language.
    pub(super) words: &'static Words,
    /// Recipes and processes that are not to be followed.
    pub(super) left_out: BTreeMap<&'a str, String>,
    /// Where a picture was asked for that does not exist.
    pub(super) missing: BTreeSet<Span>,
}

impl<'a> Desk<'a> {
    /// The facts of a block that may be shown.
    pub(super) fn open_facts(&self, block: &Block) -> Vec<&'a Fact> {
        self.places.facts(self.facts, block)
    }

    /// What a recipe really holds, where that may be shown.
    pub(super) fn bath(&self, block: &Block) -> Option<&'a Bath> {
        (self.notebook.leads_to(block) && self.places.is_open(&block.id))
            .then(|| self.facts.baths.get(&block.id))
            .flatten()
    }

    /// What a recipe holds, where the site may scale it: it says what it makes, and nothing is wrong with it.
    pub(super) fn scaled(&self, block: &Block) -> Option<&'a Bath> {
        let bath = self
            .bath(block)
            .filter(|bath| bath.litres().is_some_and(|makes| makes.best > 0.0))?;
        let shown = matches!(block.body, Body::Recipe(_)) && !self.left_out.contains_key(block.id.as_str());
        let told = || tells_of_private(self.notebook, bath, &Shelf::of(self.notebook));
        (shown && !told()).then_some(bath)
    }

    /// The view of a scan that a block names, where there is such a file in the notebook.
    pub(super) fn picture(
        &self,
        block: &Block,
        file: Option<&Spanned<String>>,
        alt: &str,
    ) -> Option<PictureView> {
        let file = file?;
        let from = self.scan_path(block, file)?;
        Some(PictureView {
            src: encode(&pictures::site_path(&from)),
            alt: alt.to_owned(),
        })
    }

    fn scan_path(&self, block: &Block, file: &Spanned<String>) -> Option<String> {
        if self.missing.contains(&file.span) || is_elsewhere(&file.value) {
            return None;
        }
        resolve(self.sources.path(block.page), &file.value).filter(|path| pictures::is_picture(path))
    }

    /// The pictures that a block shows, as paths in the notebook.
    pub(super) fn scans(&self, block: &Block) -> Option<String> {
        let file = match &block.body {
            Body::Exposure(exposure) => exposure.scan.get()?.file.get()?,
            Body::Print(print) => print.scan.get()?.file.get()?,
            Body::Camera(camera) => camera.scan.get()?,
            _ => return None,
        };
        self.scan_path(block, file)
    }

    fn findings_in(&self, span: Span, href: Option<&String>) -> Vec<FindingView> {
        self.found
            .within(span)
            .into_iter()
            .map(|finding| finding_view::view(finding, self, href.cloned()))
            .collect()
    }
}

/// The view of a block.
pub(super) fn view(desk: &Desk<'_>, block: &Block) -> BlockView {
    let mut said = blocks::said(desk, block);
    let cautions = cautions(desk, block);
    // What stands among the cautions is not said again.
    for section in &mut said.sections {
        section
            .rows
            .retain(|row| !cautions.iter().any(|caution| caution.text == row.value));
    }
    said.sections
        .retain(|section| !section.rows.is_empty() || !section.steps.is_empty());
    let facts = desk.open_facts(block);
    let bath = desk.bath(block);
    let href = desk.places.block_from_root(block);
    BlockView {
        kind: block.kind().word().to_owned(),
        kind_word: (desk.words.block.kind)(block.kind()),
        id: desk.places.anchor(block),
        lasting: desk.notebook.leads_to(block) && !block.id.contains('@'),
        title: title(desk, block),
        subtitle: said.subtitle,
        evidence: untested(&facts).then(|| desk.words.card.untested.to_owned()),
        sections: said.sections,
        facts: fact_view::of_block(block, &facts, bath, desk),
        cautions,
        findings: desk.findings_in(block.span, href.as_ref()),
        card: desk
            .cards
            .get(&block.id)
            .filter(|_| desk.notebook.leads_to(block))
            .cloned(),
        clock: desk
            .clocks
            .get(&block.id)
            .filter(|_| desk.notebook.leads_to(block))
            .map(|path| encode(path)),
        scales: desk.scaled(block).is_some(),
        note: block.note.as_ref().map(|note| note.value.trim_end().to_owned()),
        pictures: said.pictures,
        drawing: match &block.body {
            Body::Camera(camera) => drawing::of_camera(block, camera, &facts, desk.style),
            _ => None,
        },
        plots: plots(desk, block, bath),
        source: None,
    }
}

fn plots(desk: &Desk<'_>, block: &Block, bath: Option<&Bath>) -> Vec<Plotted> {
    match (&block.body, bath) {
        (Body::Paper(_), _) if desk.notebook.leads_to(block) => {
            log_plot::of_paper(desk, block).into_iter().collect()
        }
        (_, Some(bath)) => bath_plots::of_bath(desk.notebook, bath, desk.facts, desk.style),
        _ => Vec::new(),
    }
}

/// The view of a fence of `kind` that could not be read as a block at all: its text as it stands, and why.
pub(super) fn unread(desk: &Desk<'_>, kind: Kind, fence: &Fence) -> BlockView {
    let words = desk.words.block;
    BlockView {
        kind: kind.word().to_owned(),
        kind_word: (words.kind)(kind),
        id: format!("{}.{}", kind.word(), fence.span.start),
        lasting: false,
        title: Words::fill(words.value.unread, &capital((words.a_kind)(kind))),
        subtitle: String::new(),
        evidence: None,
        sections: Vec::new(),
        facts: Vec::new(),
        cautions: Vec::new(),
        findings: desk.findings_in(fence.span, None),
        card: None,
        clock: None,
        scales: false,
        note: None,
        pictures: Vec::new(),
        drawing: None,
        plots: Vec::new(),
        source: Some(fence.text.clone()),
    }
}

/// The title; a block without a name of its own is called by its kind.
fn title(desk: &Desk<'_>, block: &Block) -> String {
    if block.title.is_none() && block.id.contains('@') {
        return capital((desk.words.block.a_kind)(block.kind()));
    }
    block.name().to_owned()
}

fn untested(facts: &[&Fact]) -> bool {
    let tested = facts.iter().find(|fact| fact.name == "tested");
    tested.is_some_and(|tested| matches!(tested.value, Ok(Value::Flag(false))))
}

/// The safety lines of a recipe. Of one whose bath may not be shown, its own.
fn cautions(desk: &Desk<'_>, block: &Block) -> Vec<CautionView> {
    let Some(bath) = desk.bath(block) else {
        let Body::Recipe(recipe) = &block.body else {
            return Vec::new();
        };
        let own = recipe.cautions.iter().map(|caution| CautionView {
            hazard: false,
            text: caution.value.trim().to_owned(),
            ours: false,
        });
        return own.collect();
    };
    let recipe = &bath.recipe;
    let waste = recipe.waste.get().map(|waste| &waste.value);
    let own: Vec<&String> = recipe
        .cautions
        .iter()
        .map(|line| &line.value)
        .chain(waste)
        .collect();
    super::cautions::cautions(bath, desk.notebook, desk.findings)
        .into_iter()
        .map(|line| CautionView {
            ours: !own.contains(&&line.text),
            hazard: line.hazard,
            text: line.text,
        })
        .collect()
}

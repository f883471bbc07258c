//! Which blocks become cards, which do not and why, and how cards are laid.

use std::collections::BTreeMap;

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, Grade, Standing};
use crate::notebook::{self, Block, Body, CardsOf, Notebook, Settings};
use crate::scale::print::SEALED_MARGIN;

use super::card::{Card, Flip, SheetLayout, Tray};
use super::common::Common;
use super::{camera_card, process_card, recipe_card, role_cards, safelight_card, sides};

/// The cards of a notebook.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cards {
    /// One a recipe, process, camera or safelight, in reading order; behind a process those of the people at it.
    pub cards: Vec<Card>,
    /// Blocks without a card, in reading order.
    pub left_out: Vec<LeftOut>,
}

/// A block that gets no card: one on the wall would be followed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOut {
    /// The block's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What it does not get: `card` or `label`.
    pub what: &'static str,
    /// Why, as the end of a sentence that begins with its name.
    pub why: String,
}

/// The cards of every block that may be followed and that the notebook wants cards of.
///
/// Left out are blocks with a fault that counts, those that lean on one (by `based on`, by a bath of the line, by a
/// material of the notebook's own), and those that say that a hazard, fault or doubt is `expects`: they are kept to teach
/// a mistake, not to be mixed. A hazard alone keeps no card from being made; the card carries it.
pub fn cards(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> Cards {
    let left = left_out(notebook, facts, findings);
    let common = Common::of(notebook, facts, findings);
    let layout = layout(&notebook.settings);
    let mut made = Cards::default();
    let blocks = notebook.blocks.iter().filter(|block| notebook.leads_to(block));
    for block in blocks {
        if !wanted(&notebook.settings, block) {
            continue;
        }
        let of_tools = || match block.body {
            Body::Camera(_) | Body::Safelight(_) if block.named => own_fault(block, findings),
            _ => None,
        };
        let why = left.get(block.id.as_str()).cloned().or_else(of_tools);
        if let Some(why) = why {
            made.left_out.push(LeftOut {
                id: block.id.clone(),
                title: block.name().to_owned(),
                what: "card",
                why,
            });
            continue;
        }
        let cards = of_block(&common, block, &left);
        made.cards
            .extend(cards.into_iter().map(|card| sides::divide(card, &layout)));
    }
    made
}

/// Whether the notebook asks for a card of such a block. What was said of `roles` is asked where the line is.
fn wanted(settings: &Settings, block: &Block) -> bool {
    let kind = match &block.body {
        Body::Recipe(_) => CardsOf::Recipes,
        Body::Process(_) => CardsOf::Processes,
        Body::Camera(_) => CardsOf::Cameras,
        Body::Safelight(_) => CardsOf::Safelights,
        _ => return false,
    };
    let of = settings.press.cards.as_ref().and_then(|cards| cards.of.get());
    of.is_none_or(|of| of.contains(&kind)) || people_at(settings, block) > 0
}

/// How many people share a line's work, where that was asked for.
fn people_at(settings: &Settings, block: &Block) -> usize {
    let roles = settings.press.cards.as_ref().map(|cards| &cards.roles);
    let asked = roles.is_some_and(|roles| roles.iter().any(|id| id.value == block.id));
    let count = settings
        .people
        .get()
        .and_then(|people| people.count.get())
        .map_or(0, |count| count.value as usize);
    if asked { count } else { 0 }
}

/// The cards of one block, each in one piece.
fn of_block(common: &Common<'_>, block: &Block, left: &BTreeMap<&str, String>) -> Vec<Card> {
    let settings = &common.notebook.settings;
    match (&block.body, common.facts.baths.get(&block.id)) {
        (Body::Process(process), _) => {
            let of = settings.press.cards.as_ref().and_then(|cards| cards.of.get());
            let line = of
                .is_none_or(|of| of.contains(&CardsOf::Processes))
                .then(|| process_card::card(common, block, process));
            let people = people_at(settings, block);
            let roles = role_cards::cards(common, block, process, people);
            line.into_iter().chain(roles).collect()
        }
        (Body::Recipe(_), Some(bath)) => {
            let tray = tray(common.notebook, left, &block.id);
            vec![recipe_card::card(common, block, bath, tray)]
        }
        (Body::Camera(camera), _) if block.named => {
            camera_card::card(common, block, camera).into_iter().collect()
        }
        (Body::Safelight(lamp), _) if block.named => vec![safelight_card::card(common, block, lamp)],
        _ => Vec::new(),
    }
}

/// How the notebook wants its cards laid: A6 on A4 (ISO 216) with 4 mm of film and 3 mm of bleed round each, both sides
/// used, fronts beside their backs, read from 600 mm, where it says nothing.
pub fn layout(settings: &Settings) -> SheetLayout {
    let cards = settings.press.cards.as_ref();
    let size = cards.and_then(|cards| cards.size.get()).map(|size| &size.value);
    let sheet = cards.and_then(|cards| cards.sheet.get()).map(|size| &size.value);
    let length = |slot: fn(&notebook::CardPress) -> &notebook::Slot<notebook::Figure>, usual: f64| {
        let said = cards.and_then(|cards| slot(cards).get());
        said.map_or(usual, |length| length.range.best)
    };
    let (card_width_mm, card_height_mm) = size.map_or((105.0, 148.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let (sheet_width_mm, sheet_height_mm) = sheet.map_or((210.0, 297.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let flip = cards.and_then(|cards| cards.flip.get()).map(|flip| {
        if flip.value == notebook::Flip::ShortEdge.word() {
            Flip::ShortEdge
        } else {
            Flip::LongEdge
        }
    });
    SheetLayout {
        card_width_mm,
        card_height_mm,
        sheet_width_mm,
        sheet_height_mm,
        lamination_mm: length(|cards| &cards.border, SEALED_MARGIN.millimetres()),
        bleed_mm: length(|cards| &cards.bleed, 3.0),
        two_sided: cards
            .and_then(|cards| cards.sides.get())
            .is_none_or(|sides| sides.value != "1"),
        flip,
        distance_mm: length(|cards| &cards.distance, 600.0),
    }
}

/// Recipes and processes that their ids lead to: the second of two blocks with one id has no name of its own.
pub(super) fn blocks(notebook: &Notebook) -> impl Iterator<Item = &Block> {
    notebook
        .blocks
        .iter()
        .filter(|block| matches!(block.body, Body::Recipe(_) | Body::Process(_)) && notebook.leads_to(block))
}

/// Why blocks get no card, by id; what is not to be followed from a wall is not to be followed on a screen.
pub(super) fn left_out<'n>(
    notebook: &'n Notebook,
    facts: &Facts,
    findings: &[Finding],
) -> BTreeMap<&'n str, String> {
    let mut left: BTreeMap<&str, String> = BTreeMap::new();
    let mut materials: Vec<&str> = Vec::new();
    for block in &notebook.blocks {
        // The log is the bulk of a notebook, and leans on nobody here.
        if !matches!(
            block.body,
            Body::Recipe(_) | Body::Process(_) | Body::Ingredient(_)
        ) {
            continue;
        }
        let Some(why) = own_fault(block, findings) else {
            continue;
        };
        match &block.body {
            Body::Recipe(_) | Body::Process(_) => {
                left.insert(&block.id, why);
            }
            Body::Ingredient(ingredient) => {
                let name = ingredient.material.get().map(|name| name.value.as_str());
                let known = name.and_then(|name| notebook.pantry.look_up(name).material());
                materials.extend(known.map(|material| material.id.as_str()));
            }
            _ => {}
        }
    }
    for block in blocks(notebook) {
        let Some(bath) = facts.baths.get(&block.id) else {
            continue;
        };
        let why = leans(bath, notebook, &left, &materials);
        if let Some(why) = why.filter(|_| !left.contains_key(block.id.as_str())) {
            left.insert(&block.id, why);
        }
    }
    for block in blocks(notebook) {
        let Body::Process(process) = &block.body else {
            continue;
        };
        let baths = process.steps.iter().filter_map(|step| step.bath.get());
        let faulty = baths
            .map(|bath| &bath.value)
            .find(|bath| left.contains_key(bath.as_str()));
        if let Some(bath) = faulty.filter(|_| !left.contains_key(block.id.as_str())) {
            left.insert(&block.id, format!("its bath `{bath}` has none"));
        }
    }
    left
}

/// Why nothing of a block itself is printed.
pub(super) fn own_fault(block: &Block, findings: &[Finding]) -> Option<String> {
    let mut own = findings.iter().filter(|finding| block.span.holds(finding.span));
    let why = own.find_map(|finding| match (&finding.standing, finding.grade) {
        (Standing::Open, Grade::Fault) => Some(format!("it has a fault: {}", finding.message)),
        (Standing::Expected, Grade::Hazard | Grade::Fault | Grade::Doubt) => {
            Some(format!("it is kept to teach a mistake, `{}`", finding.rule))
        }
        _ => None,
    });
    why.or_else(|| block.broken.then(|| "part of it could not be read".to_owned()))
}

/// Why a bath gets no card for what it leans on.
fn leans(
    bath: &Bath,
    notebook: &Notebook,
    left: &BTreeMap<&str, String>,
    materials: &[&str],
) -> Option<String> {
    let mut base = bath.recipe.based_on.get();
    let mut seen: Vec<&str> = vec![&bath.id];
    while let Some(id) = base {
        if left.contains_key(id.value.as_str()) {
            return Some(format!("`{}`, which it is based on, has none", id.value));
        }
        if seen.contains(&id.value.as_str()) {
            break;
        }
        seen.push(&id.value);
        base = notebook
            .recipe(&id.value)
            .and_then(|(_, recipe)| recipe.based_on.get());
    }
    let faulty = bath.doses.iter().find(|dose| {
        dose.material()
            .is_some_and(|material| materials.contains(&material.id.as_str()))
    });
    faulty
        .map(|dose| format!("its material `{}` has a fault", dose.name.value))
        .or_else(|| (!bath.complete).then(|| "part of it could not be read".to_owned()))
}

/// The bath's place in the first line that uses it.
fn tray(notebook: &Notebook, left: &BTreeMap<&str, String>, bath: &str) -> Option<Tray> {
    blocks(notebook)
        .filter(|block| !left.contains_key(block.id.as_str()))
        .find_map(|block| match &block.body {
            Body::Process(process) => process_card::tray_of(process, bath),
            _ => None,
        })
}

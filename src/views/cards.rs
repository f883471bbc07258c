//! Which blocks become cards, and which do not and why.

use std::collections::BTreeMap;

use crate::facts::{Bath, Facts};
use crate::finding::{Finding, Grade, Standing};
use crate::notebook::{Block, Body, Notebook, Settings};

use super::card::{Card, SheetLayout, Tray};
use super::recipe_card::Common;
use super::words::words_of;
use super::{process_card, recipe_card, sides};

/// The cards of a notebook.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Cards {
    /// One a recipe or process, in reading order.
    pub cards: Vec<Card>,
    /// Recipes and processes without a card, in reading order.
    pub left_out: Vec<LeftOut>,
}

/// A recipe or process that gets no card: one on the wall would be followed.
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

/// The cards of every recipe and process that may be followed.
///
/// Left out are blocks with a fault that counts, those that lean on one (by `based on`, by a bath of the line, by a
/// material of the notebook's own), and those that say that a hazard, fault or doubt is `expects`: they are kept to teach
/// a mistake, not to be mixed. A hazard alone keeps no card from being made; the card carries it.
pub fn cards(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> Cards {
    let left = left_out(notebook, facts, findings);
    let common = Common {
        notebook,
        facts,
        findings,
        words: words_of(notebook),
        style: notebook.settings.style,
    };
    let layout = layout(&notebook.settings);
    let mut made = Cards::default();
    for block in blocks(notebook) {
        if let Some(why) = left.get(block.id.as_str()) {
            made.left_out.push(LeftOut {
                id: block.id.clone(),
                title: block.name().to_owned(),
                what: "card",
                why: why.clone(),
            });
            continue;
        }
        let card = match (&block.body, facts.baths.get(&block.id)) {
            (Body::Process(process), _) => process_card::card(&common, block, process),
            (Body::Recipe(_), Some(bath)) => {
                let tray = tray(notebook, &left, &block.id);
                recipe_card::card(&common, block, bath, tray)
            }
            _ => continue,
        };
        made.cards.push(sides::divide(card, &layout, common.words));
    }
    made
}

/// How the notebook wants its cards laid: A6 on A4 (ISO 216) with 4 mm of film round each where it says nothing.
pub fn layout(settings: &Settings) -> SheetLayout {
    let cards = settings.press.cards.as_ref();
    let size = cards.and_then(|cards| cards.size.get()).map(|size| &size.value);
    let sheet = cards.and_then(|cards| cards.sheet.get()).map(|size| &size.value);
    let border = cards
        .and_then(|cards| cards.border.get())
        .map(|border| border.range.best);
    let (card_width_mm, card_height_mm) = size.map_or((105.0, 148.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let (sheet_width_mm, sheet_height_mm) = sheet.map_or((210.0, 297.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    SheetLayout {
        card_width_mm,
        card_height_mm,
        sheet_width_mm,
        sheet_height_mm,
        lamination_mm: border.unwrap_or(4.0),
    }
}

/// Whether a finding points into a block.
pub(super) fn stands_in(finding: &Finding, block: &Block) -> bool {
    let (inside, whole) = (finding.span, block.span);
    inside.file == whole.file && whole.start <= inside.start && inside.end <= whole.end
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
    let mut own = findings.iter().filter(|finding| stands_in(finding, block));
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

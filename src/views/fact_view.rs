//! Facts, worded: their names in plain words, and which of them hang beside their block.

use crate::facts::{Bath, Fact};
use crate::notebook::{Block, Body, Kind, slug};
use crate::units::Style;

use super::page::FactView;

/// What a fact's name is in plain words. A name that is not here is read as it stands, without its hyphens.
const LABELS: [(&str, &str); 41] = [
    ("age", "age when last used"),
    ("angle-of-view", "angle of view"),
    ("best-pinhole", "best pinhole"),
    ("buffer-capacity", "buffer capacity"),
    ("corner-loss", "lost in the corners"),
    ("cost", "materials cost"),
    ("cost-per-sheet", "cost of a sheet"),
    ("dead-by", "throw away by"),
    ("develop-time", "develop for"),
    ("duration", "time to mix"),
    ("electrons", "what can reduce silver"),
    ("f-number", "f-number"),
    ("finest-scan", "finest scan worth making"),
    ("from-log", "speed from the log"),
    ("gas", "carbon dioxide given off"),
    ("hands-on", "of that, by hand"),
    ("ionic-strength", "ionic strength"),
    ("left", "left of it"),
    ("litres", "all trays together"),
    ("makespan", "from first to last"),
    ("measured", "measured"),
    ("orientation", "which way round"),
    ("pH", "acidity"),
    ("pinhole", "the hole"),
    ("ready", "ready at"),
    ("recipe-changed", "its recipe"),
    ("resolution", "finest detail"),
    ("safe-time", "safe under this lamp"),
    ("sheets-left", "sheets left"),
    ("sheets-until-spent", "sheets until spent"),
    ("silver", "silver in the sheets"),
    ("soda-to-vitamin-c", "soda to vitamin C"),
    ("starts", "begins"),
    ("stops-from-f16", "slower than f/16 by"),
    ("stops-lost", "lost to reciprocity"),
    ("sun.altitude", "height of the sun"),
    ("sun.azimuth", "sun stands at"),
    ("time", "time to give"),
    ("time-metered", "metered time"),
    ("under-lamp", "under the lamp"),
    ("volume", "finished volume"),
];

/// Facts of a bath for those who want to look closer: in the list of facts, not in the margin.
const ASIDE: [&str; 3] = ["buffer-capacity", "electrons", "ionic-strength"];

/// How a fact says that it repeats what was written.
const AS_WRITTEN: [&str; 3] = ["as written", "as given", "what the recipe makes"];

/// The facts of a block as its slips, and those that only its list of facts shows.
pub(super) fn of_block(block: &Block, facts: &[&Fact], bath: Option<&Bath>, style: Style) -> Vec<FactView> {
    facts
        .iter()
        .filter(|fact| fact.name != "tested")
        .map(|fact| FactView {
            margin: hangs(block, fact, bath),
            ..view(block, fact, bath, style)
        })
        .collect()
}

/// A fact that prose of another page mentions: its label says whose it is.
pub(super) fn from_afar(block: &Block, fact: &Fact, bath: Option<&Bath>, style: Style) -> FactView {
    let view = view(block, fact, bath, style);
    FactView {
        label: format!("{}: {}", block.name(), view.label),
        ..view
    }
}

/// A fact as it is read.
pub(super) fn view(block: &Block, fact: &Fact, bath: Option<&Bath>, style: Style) -> FactView {
    FactView {
        id: format!("{}.{}", block.id, fact.name),
        label: label(block, fact, bath),
        text: fact.text(style),
        how: fact.how(),
        gap: fact.value.is_err(),
        margin: true,
        href: None,
    }
}

/// Whether a fact hangs beside its block. What the rows say already does not, nor a gap that has nothing to tell.
fn hangs(block: &Block, fact: &Fact, bath: Option<&Bath>) -> bool {
    // The block says so itself, key by key.
    if fact.name == "recipe-changed" {
        return false;
    }
    if AS_WRITTEN.contains(&fact.formula) && fact.value.is_ok() {
        return false;
    }
    match &block.body {
        Body::Recipe(written) => {
            let recipe = bath.map_or(&**written, |bath| &bath.recipe);
            let whole = !fact.name.contains('.');
            let of_steps = matches!(fact.name.as_ref(), "duration" | "hands-on");
            let has_steps =
                !recipe.steps.is_empty() || recipe.parts.iter().any(|part| !part.steps.is_empty());
            // What cannot be computed of a bath is said once, at its pH; and no gas is nothing to tell.
            let follows = matches!(fact.name.as_ref(), "gas" | "sheets-until-spent")
                && fact.range().is_none_or(|range| range.high <= 0.0);
            whole && !follows && (!of_steps || has_steps) && !ASIDE.contains(&fact.name.as_ref())
        }
        // The row says what was written, with its evidence.
        Body::Paper(paper) => match fact.name.as_ref() {
            "reciprocity" => paper.reciprocity.get().is_none(),
            "from-log" => fact.value.is_ok(),
            _ => true,
        },
        Body::Exposure(exposure) => match (fact.name.as_ref(), exposure.light.get()) {
            ("light", Some(light)) => !matches!(light.value, crate::notebook::Light::Value(_)),
            ("light", None) => false,
            // A gap of the light is a gap of all: it is said once, at the time.
            ("time-metered" | "stops-lost", _) => fact.value.is_ok(),
            _ => true,
        },
        _ => true,
    }
}

fn label(block: &Block, fact: &Fact, bath: Option<&Bath>) -> String {
    let name = fact.name.as_ref();
    match (block.kind(), name) {
        (Kind::Process, "duration") => return "the whole line".to_owned(),
        (Kind::Exposure, "time") if AS_WRITTEN.contains(&fact.formula) => return "time given".to_owned(),
        _ => {}
    }
    named(name, bath)
}

/// A name in plain words, and that of a part after the part's.
fn named(name: &str, bath: Option<&Bath>) -> String {
    if let Some(label) = known(name) {
        return label.to_owned();
    }
    match name.split_once('.') {
        Some(("strength", material)) => format!("{} in the bath", material_name(bath, material)),
        Some(("molar", material)) => format!("{} in moles", material_name(bath, material)),
        Some(("ionised", agent)) => format!("{} as ions", material_name(bath, agent)),
        Some(("sheets-left", bath)) => format!("sheets left in {}", plain(bath)),
        Some((part, rest)) => format!("{part}: {}", named(rest, bath)),
        None => plain(name),
    }
}

fn known(name: &str) -> Option<&'static str> {
    LABELS
        .iter()
        .find(|(known, _)| *known == name)
        .map(|(_, label)| *label)
}

/// A material as the recipe writes it.
fn material_name(bath: Option<&Bath>, material: &str) -> String {
    bath.and_then(|bath| bath.doses.iter().find(|dose| slug(&dose.name.value) == material))
        .map_or_else(|| plain(material), |dose| dose.name.value.clone())
}

fn plain(name: &str) -> String {
    name.replace(['-', '.'], " ")
}

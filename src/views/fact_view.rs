//! Facts, worded: their names in plain words, and which of them hang beside their block.

use crate::facts::{Bath, Fact};
use crate::notebook::{Block, Body, Kind, slug};
use crate::units::Style;

use super::page::FactView;

/// What a fact's name is in plain words.
const LABELS: [(&str, &str); 41] = [
    ("age", "age when last used"),
    ("angle-of-view", "angle of view"),
    ("best-pinhole", "best pinhole"),
    ("buffer", "buffer"),
    ("capacity", "capacity"),
    ("co2", "carbon dioxide"),
    ("dead-by", "throw away by"),
    ("density", "density"),
    ("develop-time", "develop for"),
    ("duration", "time to mix"),
    ("f-number", "f-number"),
    ("falloff", "fall-off to the corners"),
    ("from-log", "speed by the log"),
    ("gas", "carbon dioxide"),
    ("hands-on", "of that, by hand"),
    ("ionic-strength", "ionic strength"),
    ("light", "light"),
    ("litres", "all trays together"),
    ("pH", "pH"),
    ("reciprocity", "reciprocity"),
    ("resolution", "finest detail"),
    ("safe-time", "safe under this lamp"),
    ("sheets", "sheets"),
    ("silver", "silver"),
    ("speed", "speed"),
    ("start", "begin at"),
    ("starts", "begins"),
    ("stops-from-f16", "slower than f/16 by"),
    ("stops-lost", "lost to reciprocity"),
    ("temperature", "temperature"),
    ("tested", "evidence"),
    ("time", "time to give"),
    ("time-metered", "metered time"),
    ("top-up", "top up with"),
    ("under-lamp", "under the lamp"),
    ("volume", "finished volume"),
    ("wash", "wash for"),
    ("ready", "ready at"),
    ("reductant", "developing agent"),
    ("shrinkage", "kept back by the plant"),
    ("ionised", "share that is ionised"),
];

/// How a fact says that it repeats what was written.
const AS_WRITTEN: [&str; 3] = ["as written", "as given", "what the recipe makes"];

/// The facts of a block as its slips, and those that only its list of facts shows.
pub(super) fn of_block(block: &Block, facts: &[Fact], bath: Option<&Bath>, style: Style) -> Vec<FactView> {
    facts
        .iter()
        .filter(|fact| fact.name != "tested")
        .map(|fact| FactView {
            margin: hangs(block, fact, facts),
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
fn hangs(block: &Block, fact: &Fact, facts: &[Fact]) -> bool {
    if AS_WRITTEN.contains(&fact.formula) && fact.value.is_ok() {
        return false;
    }
    match &block.body {
        Body::Recipe(recipe) => {
            let whole = !fact.name.contains('.');
            let of_steps = matches!(fact.name.as_str(), "duration" | "hands-on");
            let has_steps = !recipe.steps.is_empty()
                || recipe.parts.iter().any(|part| !part.steps.is_empty())
                || facts
                    .iter()
                    .any(|fact| fact.name == "duration" && fact.value.is_ok());
            whole && (!of_steps || has_steps)
        }
        // The row says what was written, with its evidence.
        Body::Paper(paper) => match fact.name.as_str() {
            "reciprocity" => paper.reciprocity.get().is_none(),
            "from-log" => fact.value.is_ok(),
            _ => true,
        },
        Body::Exposure(exposure) => match (fact.name.as_str(), exposure.light.get()) {
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
    let name = fact.name.as_str();
    match (block.kind(), name) {
        (Kind::Process, "duration") => return "the whole line".to_owned(),
        (Kind::Exposure, "time") if AS_WRITTEN.contains(&fact.formula) => return "time given".to_owned(),
        _ => {}
    }
    if let Some(label) = known(name) {
        return label.to_owned();
    }
    match name.split_once('.') {
        Some(("strength", material)) => format!("{} in the bath", material_name(bath, material)),
        Some(("molar", material)) => format!("{} in moles", material_name(bath, material)),
        Some((part, rest)) => format!(
            "{part}: {}",
            known(rest).map_or_else(|| plain(rest), str::to_owned)
        ),
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

//! Facts, worded: their names in plain words, and which of them hang beside their block.

use crate::facts::{Bath, Fact, Measure, Value};
use crate::notebook::{Block, Body, Kind, slug};
use crate::units::Style;

use super::block_view::Desk;
use super::page::FactView;
use super::words::{FactWords, Words};

/// A label in the language of a table.
type Label = fn(&FactWords) -> &'static str;

/// What a fact's name is in plain words. A name that is not here is read as it stands, without its hyphens.
const LABELS: [(&str, Label); 45] = [
    ("age", |say| say.age),
    ("angle-of-view", |say| say.angle_of_view),
    ("best-pinhole", |say| say.best_pinhole),
    ("buffer-capacity", |say| say.buffer_capacity),
    ("corner-loss", |say| say.corner_loss),
    ("cost", |say| say.cost),
    ("cost-per-sheet", |say| say.cost_per_sheet),
    ("dead-by", |say| say.dead_by),
    ("develop-time", |say| say.develop_time),
    ("duration", |say| say.duration),
    ("electrons", |say| say.electrons),
    ("f-number", |say| say.f_number),
    ("finest-scan", |say| say.finest_scan),
    ("from-log", |say| say.from_log),
    ("gas", |say| say.gas),
    ("hands-on", |say| say.hands_on),
    ("ionic-strength", |say| say.ionic_strength),
    ("left", |say| say.left),
    ("light", |say| say.light),
    ("litres", |say| say.litres),
    ("makespan", |say| say.makespan),
    ("measured", |say| say.measured),
    ("orientation", |say| say.orientation),
    ("pH", |say| say.ph),
    ("pinhole", |say| say.pinhole),
    ("ready", |say| say.ready),
    ("recipe-changed", |say| say.recipe_changed),
    ("reciprocity", |say| say.reciprocity),
    ("resolution", |say| say.resolution),
    ("safe-time", |say| say.safe_time),
    ("sheets-left", |say| say.sheets_left),
    ("sheets-until-spent", |say| say.sheets_until_spent),
    ("silver", |say| say.silver),
    ("soda-to-vitamin-c", |say| say.soda_to_vitamin_c),
    ("speed", |say| say.speed),
    ("starts", |say| say.starts),
    ("stops-from-f16", |say| say.stops_from_f16),
    ("stops-lost", |say| say.stops_lost),
    ("sun.altitude", |say| say.sun_altitude),
    ("sun.azimuth", |say| say.sun_azimuth),
    ("tested", |say| say.tested),
    ("time", |say| say.time),
    ("time-metered", |say| say.time_metered),
    ("under-lamp", |say| say.under_lamp),
    ("volume", |say| say.volume),
];

/// Facts of a bath for those who want to look closer: in the list of facts, not in the margin.
const ASIDE: [&str; 3] = ["buffer-capacity", "electrons", "ionic-strength"];

/// How a fact says that it repeats what was written.
const AS_WRITTEN: [&str; 3] = ["as written", "as given", "what the recipe makes"];

/// The facts of a block as its slips, and those that only its list of facts shows.
pub(super) fn of_block(
    block: &Block,
    facts: &[&Fact],
    bath: Option<&Bath>,
    desk: &Desk<'_>,
) -> Vec<FactView> {
    facts
        .iter()
        .filter(|fact| fact.name != "tested")
        .map(|fact| FactView {
            margin: hangs(block, fact, bath),
            ..view(block, fact, bath, desk.words, desk.style)
        })
        .collect()
}

/// A fact that prose of another page mentions: its label says whose it is.
pub(super) fn from_afar(block: &Block, fact: &Fact, bath: Option<&Bath>, desk: &Desk<'_>) -> FactView {
    let view = view(block, fact, bath, desk.words, desk.style);
    FactView {
        label: format!("{}: {}", block.name(), view.label),
        ..view
    }
}

/// A fact as it is read.
pub(super) fn view(block: &Block, fact: &Fact, bath: Option<&Bath>, words: &Words, style: Style) -> FactView {
    FactView {
        id: format!("{}.{}", block.id, fact.name),
        label: label(block, fact, bath, &words.block.fact),
        text: text(fact, words, style),
        how: fact.how(),
        gap: fact.value.is_err(),
        margin: true,
        href: None,
    }
}

/// What a fact says.
fn text(fact: &Fact, words: &Words, style: Style) -> String {
    let say = &words.block.value;
    match (&fact.value, fact.name.as_ref()) {
        (Ok(Value::Flag(true)), "tested") => say.tested.to_owned(),
        (Ok(Value::Flag(false)), "tested") => words.card.untested.to_owned(),
        (Ok(Value::Flag(true)), "recipe-changed") => say.changed.to_owned(),
        (Ok(Value::Flag(false)), "recipe-changed") => say.unchanged.to_owned(),
        _ => match fact.measure {
            Measure::Plain(unit, _) if let Some((what, each)) = unit.split_once(" per ") => fact
                .text(style)
                .replace(unit, &Words::fill_all(words.card.per, &[what, each])),
            _ => fact.text(style),
        },
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

fn label(block: &Block, fact: &Fact, bath: Option<&Bath>, words: &FactWords) -> String {
    let name = fact.name.as_ref();
    match (block.kind(), name) {
        (Kind::Process, "duration") => return words.whole_line.to_owned(),
        (Kind::Exposure, "time") if AS_WRITTEN.contains(&fact.formula) => return words.time_given.to_owned(),
        _ => {}
    }
    named(name, bath, words)
}

/// A name in plain words, and that of a part after the part's.
fn named(name: &str, bath: Option<&Bath>, words: &FactWords) -> String {
    if let Some((_, label)) = LABELS.iter().find(|(known, _)| *known == name) {
        return label(words).to_owned();
    }
    match name.split_once('.') {
        Some(("strength", material)) => Words::fill(words.strength, &material_name(bath, material)),
        Some(("molar", material)) => Words::fill(words.molar, &material_name(bath, material)),
        Some(("ionised", agent)) => Words::fill(words.ionised, &material_name(bath, agent)),
        Some(("sheets-left", bath)) => Words::fill(words.sheets_left_in, &plain(bath)),
        Some((part, rest)) => format!("{part}: {}", named(rest, bath, words)),
        None => plain(name),
    }
}

/// A material as the recipe writes it.
fn material_name(bath: Option<&Bath>, material: &str) -> String {
    bath.and_then(|bath| bath.doses.iter().find(|dose| slug(&dose.name.value) == material))
        .map_or_else(|| plain(material), |dose| dose.name.value.clone())
}

fn plain(name: &str) -> String {
    name.replace(['-', '.'], " ")
}

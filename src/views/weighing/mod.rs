//! The weighing-out sheet of a recipe for one volume: what to weigh from the packets that are there, how far the scale
//! is off, what the water does, in which order, and what is left on the shelf. Terminal, JSON and PDF show the same.

mod rows;
mod stock;
mod target;
mod volumes;
mod water;

use serde::Serialize;

use crate::facts::{Bath, Facts, Value};
use crate::finding::Finding;
use crate::notebook::{Block, Notebook};
use crate::scale::cooling;
use crate::units::{Digits, Dimension, Range, Style, show};

use super::amounts::Weighing;
use super::card::{Caution, Line, Step};
use super::cautions::cautions;
use super::common::Common;
use super::reach::{self, Ph};
use super::scaling::{Scaling, scaling};
use super::steps::Wording;
use super::words::{SheetWords, Words, words_of};

pub(super) use rows::TOLD;
pub use stock::Stock;
pub(super) use stock::Use;
pub(super) use target::{MOST, capacity as capacity_of, dose_of, needs};
pub use target::{Target, litres_of};
pub use volumes::{
    VolumeGroup, VolumeRow, VolumeSheet, VolumeSheets, VolumeStock, volume_sheet_size, volume_sheets,
};

/// Where gas comes off, the vessel holds this many times the bath. Common practice, no source.
pub(super) const ROOM_FOR_GAS: f64 = 3.0;
/// Anywhere else it holds a fifth more than the bath, so that it can be stirred. Common practice, no source.
pub(super) const ROOM: f64 = 1.2;

/// A weighing-out sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Sheet {
    /// The recipe's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// What the bath is for.
    pub role: String,
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// The finished volume, as it is read.
    pub volume: String,
    /// The finished volume in litres.
    pub litres: f64,
    /// How that volume came about.
    pub because: String,
    /// Where no session has used the recipe with a good result.
    pub untested: Option<String>,
    /// What to measure out, part by part.
    pub groups: Vec<Group>,
    /// How far the scale puts the materials out of proportion.
    pub rounding: Option<String>,
    /// The pH of the finished bath; none where it cannot be computed.
    pub ph: Option<Ph>,
    /// The same in a sentence, or why there is none.
    pub acidity: Option<String>,
    /// What the water does: kept back, brought along, filled up; vessels.
    pub water: Vec<String>,
    /// What to do, in order.
    pub steps: Vec<Step>,
    /// How long it takes.
    pub times: Vec<Line>,
    /// What is left of the packets.
    pub shelf: Vec<Stock>,
    /// Safety lines, hazards first.
    pub cautions: Vec<Caution>,
    /// What to write on the jug.
    pub write_on: Vec<String>,
    /// Notebook, recipe, tool and version.
    pub stamp: String,
    /// The heads of its parts.
    #[serde(skip)]
    pub heads: Heads,
}

/// The heads of a sheet's parts.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Heads {
    /// Over what the water does.
    pub water: &'static str,
    /// Over the steps.
    pub steps: &'static str,
    /// Over how long it takes.
    pub time: &'static str,
    /// Over what is left of the packets.
    pub shelf: &'static str,
    /// Over what is in the packets.
    pub packets: &'static str,
    /// Over a column of packets.
    pub packet: &'static str,
    /// Over a column of what is in them.
    pub there: &'static str,
    /// Over a column of what the mix takes.
    pub takes: &'static str,
    /// Over a column of what is left.
    pub leaves: &'static str,
    /// Over the lighter safety lines.
    pub care: &'static str,
    /// Over the boxes.
    pub jug: &'static str,
}

impl Heads {
    fn of(words: &Words) -> Self {
        let say = &words.sheet;
        Self {
            water: say.water_and_vessel,
            steps: say.steps,
            time: words.card.time,
            shelf: say.shelf_afterwards,
            packets: say.shelf,
            packet: say.packet,
            there: say.there,
            takes: say.takes,
            leaves: say.leaves,
            care: say.take_care,
            jug: say.write_on_jug,
        }
    }
}

/// What goes into one part, or into the whole.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Group {
    /// The part's name; none where the bath has one part.
    pub name: Option<String>,
    /// In order of mixing.
    pub rows: Vec<Row>,
}

/// One thing to measure out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// What, as its packet is called.
    pub material: String,
    /// How much, as it is measured.
    pub amount: String,
    /// Grams to weigh, where it is weighed to the scale's step.
    pub grams: Option<f64>,
    /// Grams that the recipe wants, where it is weighed.
    pub wanted: Option<f64>,
    /// How far the one is from the other, in percent of what is wanted.
    pub off_percent: Option<f64>,
    /// The same as it is read; empty where it is not worth a word.
    pub off: String,
    /// What has to be known about it, a line each.
    pub notes: Vec<String>,
}

/// What a sheet is made from.
#[derive(Debug, Clone, Copy)]
pub struct Source<'n> {
    /// The notebook.
    pub notebook: &'n Notebook,
    /// Its facts.
    pub facts: &'n Facts,
    /// Its findings.
    pub findings: &'n [Finding],
}

/// A sheet, and what it takes from the packets as numbers.
pub(super) struct Plan {
    pub(super) sheet: Sheet,
    pub(super) uses: Vec<Use>,
    /// How long it takes, with what does not follow the volume.
    times: Vec<Time>,
}

/// A time and the words round it.
struct Time {
    label: String,
    /// As it is read.
    shown: String,
    /// What is said with it.
    template: &'static str,
    /// Whether it is worth a word at the volume that the recipe makes: there it stands in the steps.
    always: bool,
}

/// The sheet of a recipe for a volume in litres; nothing where the recipe does not say what it makes.
///
/// `because` is how the volume came about, as [`litres_of`] words it.
pub fn sheet(source: Source<'_>, block: &Block, bath: &Bath, litres: f64, because: String) -> Option<Sheet> {
    plan(source, block, bath, litres, because).map(|plan| plan.sheet)
}

/// The sheet with what it takes.
pub(super) fn plan(
    source: Source<'_>,
    block: &Block,
    bath: &Bath,
    litres: f64,
    because: String,
) -> Option<Plan> {
    let Source {
        notebook,
        facts,
        findings,
    } = source;
    let style = notebook.settings.style;
    let words = words_of(notebook);
    let say = &words.sheet;
    let multiple = litres / bath.litres()?.best;
    let weighing = Weighing::at(bath, notebook, words, vec![multiple]);
    let wording = Wording {
        named: true,
        bath,
        weighing: &weighing,
        words,
        style,
    };
    let common = Common::of(notebook, facts, findings);
    let plain = scaling(bath, notebook, &weighing, words)?;
    let spoons = spoons_of(notebook);
    let seen = rows::Seen {
        bath,
        plan: &plain,
        spoons: &spoons,
        weighing: &weighing,
        multiple,
        words,
        style,
    };
    let groups = seen.groups();
    let mut write_on = vec![say.mixed_by, words.card.mixed_at];
    if bath.recipe.keeps.working().is_some() {
        write_on.push(words.card.dead_by);
    }
    write_on.extend([say.really_made, say.ph_strip]);
    let tested = facts.get(&bath.id, "tested").map(|fact| &fact.value);
    let volume = weighing.volume(Range::exact(litres));
    let mut lines = water::lines(&seen, litres);
    lines.push(vessel(&plain, &weighing, litres, say));
    lines.extend(diluted(&plain, &weighing, litres, say));
    let uses = stock::uses(&seen);
    let times = times(&plain, multiple, words, style);
    let sheet = Sheet {
        id: block.id.clone(),
        title: block.name().to_owned(),
        role: bath.role().map_or("", |role| (words.role)(role)).to_owned(),
        language: words.code.to_owned(),
        litres,
        because,
        untested: matches!(tested, Some(Ok(Value::Flag(false)))).then(|| words.card.untested.to_owned()),
        rounding: seen.rounding(),
        ph: facts
            .chemistry
            .solution(&bath.id)
            .ok()
            .filter(|_| facts.get(&bath.id, "pH").is_some_and(|fact| fact.value.is_ok()))
            .map(|solution| Ph {
                because: String::new(),
                ..reach::ph(solution, style)
            }),
        acidity: acidity(facts, bath, words, style),
        groups,
        water: lines,
        steps: wording.steps(),
        times: times
            .iter()
            .filter(|time| time.always || multiple != 1.0)
            .map(|time| Line {
                label: time.label.clone(),
                text: Words::fill(time.template, &time.shown),
            })
            .collect(),
        shelf: stock::of(&seen, &uses),
        cautions: cautions(bath, notebook, findings),
        write_on: write_on.into_iter().map(str::to_owned).collect(),
        stamp: common.stamp(block),
        heads: Heads::of(words),
        volume,
    };
    Some(Plan { sheet, uses, times })
}

/// What the finished bath comes to, with what is least sure about it.
///
/// Why there is no pH is worded with the facts, in English: on a sheet in another language it would stand there unread.
fn acidity(facts: &Facts, bath: &Bath, words: &Words, style: Style) -> Option<String> {
    let fact = facts.get(&bath.id, "pH")?;
    let say = &words.sheet;
    Some(match (&fact.value, facts.chemistry.solution(&bath.id)) {
        (Ok(_), Ok(solution)) => {
            let said = Words::fill(say.comes_to, &fact.text(style));
            format!("{said} {}", Words::fill(say.not_sure, &words.widest(solution)))
        }
        _ if words.unsure.is_some() => say.not_computed.to_owned(),
        _ => format!("{} {}", say.not_computed, Words::fill(say.why, &fact.how())),
    })
}

fn vessel(plan: &Scaling, weighing: &Weighing<'_>, litres: f64, say: &SheetWords) -> String {
    let (template, room) = if plan.fizzes {
        (say.vessel_for_gas, ROOM_FOR_GAS)
    } else {
        (say.vessel, ROOM)
    };
    Words::fill(template, &weighing.volume(Range::exact(litres * room)))
}

/// A stock is used thinner than it is mixed.
fn diluted(plan: &Scaling, weighing: &Weighing<'_>, litres: f64, say: &SheetWords) -> Option<String> {
    let dilution = plan.dilution.as_ref()?;
    let all = dilution.water + 1.0;
    let volume = |litres: f64| weighing.volume(Range::exact(litres));
    Some(Words::fill_all(
        say.stock_used,
        &[
            &dilution.text,
            &volume(litres),
            &volume(litres * all),
            &volume(litres / all),
            &volume(litres - litres / all),
        ],
    ))
}

/// The spoons owned, ml.
pub(super) fn spoons_of(notebook: &Notebook) -> Vec<f64> {
    let owned = notebook.settings.spoons.iter();
    owned.map(|spoon| spoon.value.range.best * 1000.0).collect()
}

/// What stays as it is and what follows the volume.
fn times(plan: &Scaling, multiple: f64, words: &'static Words, style: Style) -> Vec<Time> {
    let say = &words.sheet;
    let mut lines = Vec::new();
    let factor = cooling::factor(multiple);
    let mut totals = Vec::new();
    for steps in &plan.times {
        let mut total = Some(Range::ZERO);
        for step in steps {
            let time = step.time.map(|time| match step.cools {
                Some(_) => time * factor,
                None => time,
            });
            if let (Some(label), Some(time)) = (&step.cools, time) {
                lines.push(Time {
                    label: label.clone(),
                    shown: show(time, Dimension::Time, Digits::Significant(2), style),
                    template: say.cools_slowly,
                    always: false,
                });
            }
            total = total.zip(time).map(|(total, time)| total + time);
        }
        totals.push(total);
    }
    // Parts are made side by side, the whole after them.
    let common = totals.pop().flatten();
    let whole = totals.into_iter().try_fold(Range::ZERO, |whole, part| {
        part.map(|part| {
            Range::new(
                whole.low.max(part.low),
                whole.best.max(part.best),
                whole.high.max(part.high),
            )
        })
    });
    let whole = whole.zip(common).map(|(whole, common)| whole + common);
    if let Some(whole) = whole.filter(|whole| whole.high > 0.0) {
        let shown = show(whole, Dimension::Time, Digits::Significant(2), style);
        lines.push(Time {
            label: say.in_all.to_owned(),
            shown,
            template: say.takes_as_long,
            always: true,
        });
    }
    lines
}

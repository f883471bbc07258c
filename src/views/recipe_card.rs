//! The card of a bath: what to weigh, what to do, and above all how long and how warm.

use crate::facts::{Bath, Value};
use crate::notebook::{Block, Capacity, SecondPoint, Usage};
use crate::units::{Amount, Style};

use super::amounts::Weighing;
use super::card::{Alt, Card, CardKind, Figure, Line, Tray};
use super::cautions::cautions;
use super::common::Common;
use super::steps::Wording;
use super::words::Words;

/// The card of a recipe that stands at `tray`.
pub(super) fn card(common: &Common<'_>, block: &Block, bath: &Bath, tray: Option<Tray>) -> Card {
    let (words, style) = (common.words, common.style);
    let weighing = Weighing::of(bath, common.notebook, words);
    let wording = Wording {
        named: true,
        bath,
        weighing: &weighing,
        words,
        style,
    };
    let usage = &bath.recipe.usage;
    let figure = |label: &str, amount: &Amount| Figure {
        label: label.to_owned(),
        value: amount.show(style),
    };
    let time = usage.time.get().map(|time| figure(words.card.time, time));
    let temperature = usage
        .temperature
        .get()
        .map(|warm| figure(words.card.temperature, warm));
    let mut groups = weighing.groups(bath);
    // What a volume is good for stands under it, where there is a table.
    let capacity = usage.capacity.get();
    let row = capacity.and_then(|capacity| weighing.capacity(&capacity.value));
    let in_table = groups.last_mut().zip(row).map(|(last, row)| last.rows.push(row));
    let tested = common.facts.get(&bath.id, "tested").map(|fact| &fact.value);
    let boxes: &[&str] = match bath.recipe.keeps.working() {
        Some(_) => &[words.card.mixed_at, words.card.dead_by],
        None => &[],
    };
    Card {
        role: bath.role().map_or("", |role| (words.role)(role)).to_owned(),
        alt: alt(common, tray),
        tray,
        key_figures: time.into_iter().chain(temperature).collect(),
        volumes: if groups.is_empty() {
            Vec::new()
        } else {
            weighing.volumes()
        },
        groups,
        steps: wording.steps(),
        lines: at_tray(common, usage),
        beforehand: beforehand(common, bath, &weighing, in_table.is_some()),
        boxes: boxes.iter().map(|&name| name.to_owned()).collect(),
        cautions: cautions(bath, common.notebook, common.findings),
        untested: matches!(tested, Some(Ok(Value::Flag(false)))).then(|| words.card.untested.to_owned()),
        ..common.blank(block, CardKind::Recipe)
    }
}

fn alt(common: &Common<'_>, tray: Option<Tray>) -> Alt {
    let words = &common.words.alt;
    let told = tray.map(|tray| {
        let number = tray.number.to_string();
        (
            Words::fill_all(words.trays, &[&number, &tray.of.to_string()]),
            Words::fill(words.notches, &number),
        )
    });
    let (trays, notches) = told.unwrap_or_default();
    Alt {
        danger: words.danger.to_owned(),
        trays,
        notches,
    }
}

fn line(label: &str, text: Option<String>) -> Option<Line> {
    text.map(|text| Line::new(label, text))
}

/// A second time, agitation, what ends the step.
fn at_tray(common: &Common<'_>, usage: &Usage) -> Vec<Line> {
    let (words, style) = (common.words, common.style);
    let second = usage.at.get().and_then(|second| match &second.value {
        // A second time within the first one's temperatures says nothing, or is left over from what it is based on.
        SecondPoint::Point { temperature, .. } if covers(usage, temperature) => None,
        SecondPoint::Point { time, temperature } => Some(format!(
            "{} {}",
            time.show(style),
            Words::fill(words.card.at, &temperature.show(style))
        )),
        SecondPoint::Q10(_) => None,
    });
    let agitation = usage.agitation.get().map(|text| text.value.clone());
    let ends = usage.see.get().map(|text| text.value.clone());
    [
        line(words.card.or_time, second),
        line(words.card.agitation, agitation),
        line(words.card.ends_when, ends),
    ]
    .into_iter()
    .flatten()
    .collect()
}

/// Dilution, capacity where no table has it, keeping.
fn beforehand(common: &Common<'_>, bath: &Bath, weighing: &Weighing<'_>, in_table: bool) -> Vec<Line> {
    let (words, style) = (common.words, common.style);
    let usage = &bath.recipe.usage;
    let dilution = usage.dilution.get().map(|dilution| dilution.show(style));
    let capacity = usage
        .capacity
        .get()
        .filter(|_| !in_table)
        .map(|capacity| capacity_text(&capacity.value, bath, words, weighing, style));
    [
        line(words.card.dilution, dilution),
        line(words.card.good_for, capacity),
        line(words.card.keeps, keeping(bath, words, style)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn covers(usage: &Usage, temperature: &Amount) -> bool {
    let stated = usage.temperature.get();
    stated.is_some_and(|stated| stated.range.overlaps(temperature.range))
}

/// `20 sheets per 1 l`, `60 sheets per litre`: a card has several volumes, so a number alone would not do.
fn capacity_text(
    capacity: &Capacity,
    bath: &Bath,
    words: &Words,
    weighing: &Weighing<'_>,
    style: Style,
) -> String {
    let amount = capacity.amount.show(style);
    let makes = bath.litres().map(|litres| weighing.volume(litres));
    let of = if capacity.per_litre {
        words.card.a_litre.to_owned()
    } else {
        match makes {
            Some(makes) => makes,
            None => return amount,
        }
    };
    Words::fill_all(words.card.per, &[&amount, &of])
}

fn keeping(bath: &Bath, words: &Words, style: Style) -> Option<String> {
    let keeps = &bath.recipe.keeps;
    let places = [
        (&keeps.one, "{}"),
        (&keeps.tray, words.card.in_tray),
        (&keeps.bottle, words.card.in_bottle),
        (&keeps.stock, words.card.as_stock),
    ];
    let told: Vec<String> = places
        .iter()
        .filter_map(|(time, template)| Some(Words::fill(template, &time.get()?.show(style))))
        .collect();
    (!told.is_empty()).then(|| told.join(", "))
}

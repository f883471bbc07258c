//! The card of a lamp: how long paper may lie under it, how far away, and what each line takes of that.

use crate::facts::Fact;
use crate::notebook::{Block, Body, Safelight, Switches};
use crate::units::{Digits, Dimension, Range, show};

use super::card::{Card, CardKind, Figure, Line, Times, TimesRow};
use super::cards::own_fault;
use super::cautions::plain;
use super::common::Common;

/// The card of a safelight.
pub(super) fn card(common: &Common<'_>, block: &Block, lamp: &Safelight) -> Card {
    let (words, style) = (&common.words.kinds, common.style);
    let safe = common
        .facts
        .get(&block.id, "safe-time")
        .filter(|fact| fact.range().is_some());
    let figure = |label: &str, value: String| Figure {
        label: label.to_owned(),
        value,
    };
    let distance = lamp.distance.get();
    let key_figures = safe
        .map(|fact| figure(words.safe, fact.text(style)))
        .into_iter()
        .chain(distance.map(|distance| figure(words.distance, distance.show(style))))
        .collect();
    let mut lines = Vec::new();
    let mut line = |label: &str, text: String| {
        lines.push(Line::new(label, text));
    };
    if let Some(name) = lamp.lamp.get() {
        line(words.lamp, name.value.clone());
    }
    line(words.nearer, words.half_as_far.to_owned());
    if let Some(tested) = tested(common, lamp) {
        line(words.tested, tested);
    }
    if let Some(note) = &block.note {
        line(words.note, note.value.trim().to_owned());
    }
    let changing = lamp
        .switches
        .get()
        .is_some_and(|switches| switches.value == Switches::ColourChanging.word());
    let cautions = changing
        .then_some(words.changing_lamp)
        .into_iter()
        .chain([words.screens, common.words.say.dry_hands]);
    Card {
        role: lamp
            .colour
            .get()
            .map_or_else(String::new, |colour| colour.value.clone()),
        key_figures,
        times: safe.and_then(|safe| budget(common, safe)),
        beforehand: lines,
        boxes: vec![words.paper_out.to_owned(), words.back_by.to_owned()],
        cautions: cautions.map(plain).collect(),
        untested: safe.is_none().then(|| words.lamp_untested.to_owned()),
        ..common.blank(block, CardKind::Safelight)
    }
}

/// What a sheet takes of the safe time in each line, and what that leaves for cutting and loading.
fn budget(common: &Common<'_>, safe: &Fact) -> Option<Times> {
    let (words, style) = (&common.words.kinds, common.style);
    let safe = safe.range()?.best;
    // In whole minutes, and rather too long than too short.
    let minutes = |minutes: f64| {
        show(
            Range::exact(minutes * 60.0),
            Dimension::Time,
            Digits::Significant(3),
            style,
        )
    };
    let lines = common
        .notebook
        .blocks
        .iter()
        .filter(|block| matches!(block.body, Body::Process(_)) && common.notebook.leads_to(block))
        .filter(|block| own_fault(block, common.findings).is_none());
    let rows: Vec<TimesRow> = lines
        .filter_map(|line| {
            let lies = common.facts.get(&line.id, "under-lamp")?.range()?;
            (lies.high > 0.0).then(|| TimesRow {
                name: line.name().to_owned(),
                value: String::new(),
                times: vec![
                    minutes(libm::ceil(lies.high / 60.0)),
                    if lies.high + 60.0 <= safe {
                        minutes(libm::floor((safe - lies.high) / 60.0))
                    } else {
                        words.over.to_owned()
                    },
                ],
            })
        })
        .collect();
    (!rows.is_empty()).then(|| Times {
        head: words.line.to_owned(),
        value_head: String::new(),
        columns: vec![words.sheet_lies.to_owned(), words.left.to_owned()],
        rows,
    })
}

/// When, on which paper and from how far the lamp was tested.
fn tested(common: &Common<'_>, lamp: &Safelight) -> Option<String> {
    let test = lamp.tested.get()?;
    let paper = test.paper.get().map(|id| {
        let block = common.notebook.block(&id.value);
        block.map_or(id.value.as_str(), Block::name).to_owned()
    });
    let at = test.at.get().map(|at| at.show(common.style));
    let told: Vec<String> = test
        .date
        .get()
        .map(|date| date.value.written.clone())
        .into_iter()
        .chain(paper)
        .chain(at)
        .collect();
    (!told.is_empty()).then(|| told.join(", "))
}

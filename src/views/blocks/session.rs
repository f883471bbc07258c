//! Batches and sessions: baths as really mixed, and an evening at the trays.

use crate::notebook::{Batch, Block, Body, Event, MeasuredWith, Moment, Session, Swap};
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::{Layout, Row, Section};
use super::super::words::Words;
use super::rows::{Rows, figure_row, reference_row, section, unlabelled};
use super::{Said, earlier};

pub(super) fn batch_said(desk: &Desk<'_>, block: &Block, batch: &Batch) -> Said {
    let (style, row, value) = (desk.style, &desk.words.block.row, &desk.words.block.value);
    let mut rows = Rows::new(desk, block);
    rows.reference(row.batch_of, &batch.of);
    rows.figure(row.volume, &batch.volume);
    rows.text(row.by_whom, &batch.by);
    rows.text(row.kept_in, &batch.bottle);
    for swap in &batch.swaps {
        match swap {
            Swap::Amount(addition) => rows.remarked(
                &addition.material.value,
                addition.amount.show(style),
                value.other_amount,
            ),
            Swap::Material { from, to } => {
                rows.plain(&Words::fill(row.in_place_of, &from.value), to.value.clone());
            }
        }
    }
    if let Some(measured) = batch.measured.get() {
        let how = [
            measured.with.get().map(|with| {
                let known = MeasuredWith::from_word(with.value);
                Words::fill(
                    value.measured_by,
                    known.map_or(with.value, desk.words.block.measured_with),
                )
            }),
            measured
                .diluted
                .get()
                .map(|diluted| Words::fill(value.diluted, &diluted.show(style))),
            measured
                .at
                .get()
                .map(|at| Words::fill(desk.words.card.at, &at.show(style))),
        ];
        let how = how.into_iter().flatten().collect::<Vec<_>>().join(", ");
        rows.slot(row.measured, &measured.ph, |ph| Row {
            remark: how,
            ..unlabelled(ph.show(style))
        });
    }
    rows.when(row.thrown_away, &batch.discarded);
    Said {
        subtitle: batch
            .made
            .get()
            .map_or_else(String::new, |made| Words::fill(value.mixed, &made.value.written)),
        sections: [Some(rows.figures(None)), earlier::section_of(desk, block, batch)]
            .into_iter()
            .flatten()
            .collect(),
        pictures: Vec::new(),
    }
}

pub(super) fn said(desk: &Desk<'_>, block: &Block, session: &Session) -> Said {
    let (style, words) = (desk.style, &desk.words.block.row);
    let mut rows = Rows::new(desk, block);
    rows.reference(words.process, &session.process);
    rows.wanted(words.temperature, &session.temperature, |temperature| {
        figure_row(temperature, desk)
    });
    rows.reference(words.lamp, &session.safelight);
    rows.when(words.ready_by, &session.ready);
    rows.count(words.people, &session.people);
    rows.count(words.sheets_each, &session.each);
    rows.figure(words.spare, &session.spare);
    rows.figure(words.carried, &session.carried);
    let baths = session.baths.iter().map(|(recipe, batch)| Row {
        label: name(desk, &recipe.value),
        remark: earlier::remark(desk, &batch.value),
        ..reference_row(desk, block.page, &batch.value)
    });
    let sheets = session
        .sheets
        .iter()
        .enumerate()
        .map(|(at, sheet)| sheet_row(desk, block, at, &sheet.value));
    let times = session.times.iter().map(|(step, time)| {
        let time = figure_row(time, desk);
        Row {
            label: name(desk, &step.value),
            ..time
        }
    });
    Said {
        subtitle: session
            .when
            .get()
            .map_or_else(String::new, |when| when.value.written.clone()),
        sections: vec![
            rows.figures(None),
            section(Some(words.baths), baths.collect(), Layout::Figures),
            section(Some(words.sheets), sheets.collect(), Layout::Figures),
            section(Some(words.real_times), times.collect(), Layout::Figures),
            Section {
                steps: session
                    .events
                    .iter()
                    .map(|event| event_text(desk, event, style))
                    .collect(),
                ..section(Some(words.happened), Vec::new(), Layout::Figures)
            },
        ],
        pictures: Vec::new(),
    }
}

/// A sheet and how it came out.
fn sheet_row(desk: &Desk<'_>, block: &Block, at: usize, id: &str) -> Row {
    let words = desk.words.block;
    let result = desk.places.block(id).and_then(|sheet| match &sheet.body {
        Body::Exposure(exposure) => exposure.result.get(),
        _ => None,
    });
    Row {
        label: Words::fill(words.row.nth_sheet, &(at + 1).to_string()),
        remark: result.map_or_else(
            || words.value.result_not_noted.to_owned(),
            |result| super::verdict(&result.value, desk.words, desk.style),
        ),
        ..reference_row(desk, block.page, id)
    }
}

/// A block's title; what is no block, or a private one, as it was written.
fn name(desk: &Desk<'_>, id: &str) -> String {
    desk.places
        .block(id)
        .map_or_else(|| id.to_owned(), |block| block.name().to_owned())
}

/// `19:12, Pier, strip, at Last light tea: first grey after 45 s; the longest step came first`.
fn event_text(desk: &Desk<'_>, event: &Event, style: Style) -> String {
    let say = &desk.words.block.value;
    let moment = event.at.get().map(|at| match &at.value {
        Moment::Date(when) if when.timed => when.at.strftime("%H:%M").to_string(),
        Moment::Date(when) => when.written.clone(),
        Moment::Clock(time) => time.strftime("%H:%M").to_string(),
        Moment::After(time) => Words::fill(say.after, &time.show(style)),
    });
    let head = [
        moment,
        event.sheet.get().map(|sheet| name(desk, &sheet.value)),
        event
            .step
            .get()
            .map(|step| Words::fill(say.in_step, &name(desk, &step.value))),
    ];
    let head = head.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let tail = [
        event
            .appeared
            .get()
            .map(|time| Words::fill(say.first_grey, &time.show(style))),
        event.note.get().map(|note| note.value.trim().to_owned()),
    ];
    let tail = tail.into_iter().flatten().collect::<Vec<_>>().join("; ");
    match (head.is_empty(), tail.is_empty()) {
        (true, _) => tail,
        (_, true) => head,
        _ => format!("{head}: {tail}"),
    }
}

//! Batches and sessions: baths as really mixed, and an evening at the trays.

use crate::notebook::{Batch, Block, Body, Event, Moment, Session, Swap};
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::{Layout, Row, Section};
use super::rows::{Rows, reference_row, row, section};
use super::{Said, earlier};

pub(super) fn batch_said(desk: &Desk<'_>, block: &Block, batch: &Batch) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.reference("of", &batch.of);
    rows.figure("volume", &batch.volume);
    rows.text("by", &batch.by);
    rows.text("kept in", &batch.bottle);
    for swap in &batch.swaps {
        match swap {
            Swap::Amount(addition) => rows.remarked(
                &addition.material.value,
                addition.amount.show(style),
                "in place of the recipe's amount",
            ),
            Swap::Material { from, to } => rows.plain(&format!("for {}", from.value), to.value.clone()),
        }
    }
    if let Some(measured) = batch.measured.get() {
        let how = [
            measured.with.get().map(|with| format!("by {}", with.value)),
            measured
                .diluted
                .get()
                .map(|diluted| format!("diluted {}", diluted.show(style))),
            measured.at.get().map(|at| format!("at {}", at.show(style))),
        ];
        let how = how.into_iter().flatten().collect::<Vec<_>>().join(", ");
        rows.slot("measured", &measured.ph, |ph| Row {
            remark: how,
            ..row("", ph.show(style))
        });
    }
    rows.when("thrown away", &batch.discarded);
    Said {
        subtitle: batch
            .made
            .get()
            .map_or_else(String::new, |made| format!("mixed {}", made.value.written)),
        sections: [Some(rows.figures(None)), earlier::section_of(desk, block, batch)]
            .into_iter()
            .flatten()
            .collect(),
        pictures: Vec::new(),
    }
}

pub(super) fn said(desk: &Desk<'_>, block: &Block, session: &Session) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.reference("process", &session.process);
    rows.wanted("temperature", &session.temperature, |temperature| {
        super::rows::figure_row(temperature, style)
    });
    rows.reference("lamp", &session.safelight);
    rows.when("ready by", &session.ready);
    rows.count("people", &session.people);
    rows.count("sheets each", &session.each);
    rows.figure("spare", &session.spare);
    rows.figure("a sheet carried", &session.carried);
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
        let time = super::rows::figure_row(time, style);
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
            section(Some("baths"), baths.collect(), Layout::Figures),
            section(Some("sheets"), sheets.collect(), Layout::Figures),
            section(Some("real times"), times.collect(), Layout::Figures),
            Section {
                steps: session
                    .events
                    .iter()
                    .map(|event| event_text(desk, event, style))
                    .collect(),
                ..section(Some("what happened"), Vec::new(), Layout::Figures)
            },
        ],
        pictures: Vec::new(),
    }
}

/// A sheet and how it came out.
fn sheet_row(desk: &Desk<'_>, block: &Block, at: usize, id: &str) -> Row {
    let result = desk.places.block(id).and_then(|sheet| match &sheet.body {
        Body::Exposure(exposure) => exposure.result.get(),
        _ => None,
    });
    Row {
        label: format!("sheet {}", at + 1),
        remark: result.map_or_else(
            || "result not noted".to_owned(),
            |result| super::verdict(&result.value, desk.style),
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
    let moment = event.at.get().map(|at| match &at.value {
        Moment::Date(when) if when.timed => when.at.strftime("%H:%M").to_string(),
        Moment::Date(when) => when.written.clone(),
        Moment::Clock(time) => time.strftime("%H:%M").to_string(),
        Moment::After(time) => format!("after {}", time.show(style)),
    });
    let head = [
        moment,
        event.sheet.get().map(|sheet| name(desk, &sheet.value)),
        event
            .step
            .get()
            .map(|step| format!("in {}", name(desk, &step.value))),
    ];
    let head = head.into_iter().flatten().collect::<Vec<_>>().join(", ");
    let tail = [
        event
            .appeared
            .get()
            .map(|time| format!("first grey after {}", time.show(style))),
        event.note.get().map(|note| note.value.trim().to_owned()),
    ];
    let tail = tail.into_iter().flatten().collect::<Vec<_>>().join("; ");
    match (head.is_empty(), tail.is_empty()) {
        (true, _) => tail,
        (_, true) => head,
        _ => format!("{head}: {tail}"),
    }
}

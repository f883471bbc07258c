//! Exposures and prints: one sheet, or a strip, and how it came out. What was not noted is shown as not noted.

use crate::notebook::{
    Block, Exposure, Light, Preflash, Print, Receptor, Scan, Side, Slot, Strip, Through, Verdict,
};
use crate::optics::{Facing, Sky};
use crate::source::Spanned;
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::{PictureView, Row};
use super::super::words::Words;
use super::Said;
use super::rows::{Rows, figure_row, unlabelled};

pub(super) fn said(desk: &Desk<'_>, block: &Block, exposure: &Exposure) -> Said {
    let (style, words, row) = (desk.style, desk.words, &desk.words.block.row);
    let mut rows = Rows::new(desk, block);
    rows.reference(row.camera, &exposure.camera);
    rows.reference(row.paper, &exposure.paper);
    rows.wanted(row.light, &exposure.light, |light| {
        let sky = exposure.sky.get().and_then(|sky| Sky::from_word(sky.value));
        let facing = exposure
            .facing
            .get()
            .and_then(|facing| Facing::from_word(facing.value));
        let remarks = [sky.map(words.block.sky), facing.map(words.block.facing)];
        Row {
            remark: remarks.into_iter().flatten().collect::<Vec<_>>().join(", "),
            ..unlabelled(light_text(&light.value, words, style))
        }
    });
    rows.figure(row.colour, &exposure.colour);
    if exposure.strip.is_absent() {
        given(desk, block, exposure, &mut rows);
    }
    rows.slot(row.strip, &exposure.strip, |strip| {
        unlabelled(strip_text(&strip.value, words, style))
    });
    rows.slot(row.bracket, &exposure.bracket, |bracket| {
        let bracket = &bracket.value;
        unlabelled(format!("{} × {}", bracket.count, bracket.stops.show(style)))
    });
    rows.slot(row.receptor, &exposure.receptor, |receptor| {
        unlabelled(match &receptor.value {
            Receptor::Dome => words.block.value.dome.to_owned(),
            Receptor::Flat => words.block.value.disc.to_owned(),
            Receptor::Constant(constant) => format!("C = {}", constant.show(style)),
        })
    });
    rows.figure(row.filter, &exposure.filter);
    rows.slot(row.flashed, &exposure.preflash, |flash| preflash(flash, desk));
    rows.figure(row.subject_at, &exposure.subject);
    rows.word(row.sheet_lay, &exposure.side, |word| {
        Side::from_word(word).map(words.block.side)
    });
    rows.wanted(row.result, &exposure.result, |result| {
        unlabelled(verdict(&result.value, words, style))
    });
    rows.text(row.by_whom, &exposure.by);
    let mut after = Rows::new(desk, block);
    after.text(row.next_time, &exposure.next);
    Said {
        subtitle: exposure
            .when
            .get()
            .map_or_else(String::new, |when| when.value.written.clone()),
        sections: vec![rows.figures(None), after.lines(None)],
        pictures: scan(desk, block, &exposure.scan),
    }
}

/// The time given; where none was written, the one that was computed and stands in the margin.
fn given(desk: &Desk<'_>, block: &Block, exposure: &Exposure, rows: &mut Rows<'_, '_>) {
    let words = desk.words.block;
    if !exposure.time.is_absent() {
        rows.figure(words.row.time, &exposure.time);
        return;
    }
    match computed_time(desk, block) {
        Some(time) => rows.remarked(words.row.time, time, words.value.computed),
        None => rows.blank(words.row.time),
    }
}

fn computed_time(desk: &Desk<'_>, block: &Block) -> Option<String> {
    let mut facts = desk.open_facts(block).into_iter();
    let fact = facts.find(|fact| fact.name == "time" && fact.value.is_ok())?;
    Some(fact.text(desk.style))
}

/// The time of an exposure in words: of a strip its steps, else the time written, else the one computed.
pub(in crate::views) fn time_given(desk: &Desk<'_>, block: &Block, exposure: &Exposure) -> Option<String> {
    match (exposure.strip.get(), exposure.time.get()) {
        (Some(strip), _) => Some(strip_text(&strip.value, desk.words, desk.style)),
        (None, Some(time)) => Some(time.amount.show(desk.style)),
        (None, None) => computed_time(desk, block),
    }
}

pub(super) fn print_said(desk: &Desk<'_>, block: &Block, print: &Print) -> Said {
    let (style, words, row) = (desk.style, desk.words, &desk.words.block.row);
    let mut rows = Rows::new(desk, block);
    rows.reference(row.print_of, &print.of);
    rows.reference(row.paper, &print.paper);
    rows.wanted(row.lamp, &print.lamp, |lamp| unlabelled(&lamp.value));
    rows.figure(row.distance, &print.distance);
    if print.strip.is_absent() {
        rows.wanted(row.time, &print.time, |time| figure_row(time, desk));
    } else {
        rows.figure(row.time, &print.time);
    }
    rows.slot(row.strip, &print.strip, |strip| {
        unlabelled(strip_text(&strip.value, words, style))
    });
    rows.word(row.laid, &print.through, |word| {
        Through::from_word(word).map(words.block.through)
    });
    rows.wanted(row.result, &print.result, |result| {
        unlabelled(verdict(&result.value, words, style))
    });
    Said {
        subtitle: print
            .when
            .get()
            .map_or_else(String::new, |when| when.value.written.clone()),
        sections: vec![rows.figures(None)],
        pictures: scan(desk, block, &print.scan),
    }
}

fn scan(desk: &Desk<'_>, block: &Block, scan: &Slot<Scan>) -> Vec<PictureView> {
    let file: Option<&Spanned<String>> = scan.get().and_then(|scan| scan.file.get());
    let alt = Words::fill(desk.words.block.value.scan_of, block.name());
    desk.picture(block, file, &alt).into_iter().collect()
}

/// The light that was measured or judged, in words.
pub(in crate::views) fn light_text(light: &Light, words: &Words, style: Style) -> String {
    match light {
        Light::Value(value) | Light::Lux(value) => value.show(style),
        Light::Meter {
            time,
            f_number,
            speed,
        } => Words::fill_all(
            words.block.value.meter,
            &[&time.show(style), &f_number.show(style), &speed.show(style)],
        ),
        Light::Scene(scene) => (words.scene)(*scene).to_owned(),
    }
}

fn strip_text(strip: &Strip, words: &Words, style: Style) -> String {
    let (steps, stops, from) = (
        strip.steps.to_string(),
        strip.stops.show(style),
        strip.from.show(style),
    );
    Words::fill_all(words.block.value.from_step, &[&steps, &stops, &from])
}

fn preflash(flash: &Preflash, desk: &Desk<'_>) -> Row {
    let style = desk.style;
    match flash {
        Preflash::Exposure(figure) => figure_row(figure, desk),
        Preflash::Lamp { lamp, distance, time } => {
            let words = [
                lamp.get().map(|lamp| lamp.value.clone()),
                distance
                    .get()
                    .map(|distance| Words::fill(desk.words.card.at, &distance.show(style))),
            ];
            let remark = words.into_iter().flatten().collect::<Vec<_>>().join(" ");
            match time.get() {
                Some(time) => Row {
                    remark,
                    ..unlabelled(time.show(style))
                },
                None => unlabelled(remark),
            }
        }
    }
}

/// A verdict in the words that are written for it.
pub(in crate::views) fn verdict(verdict: &Verdict, words: &Words, style: Style) -> String {
    let say = &words.block.value;
    match verdict {
        Verdict::Right => say.right.to_owned(),
        Verdict::Needs(stops) => {
            // `1/2 stop thin` is more light as well, and is told apart from less at a glance.
            let (stops, more) = (stops.show(style), stops.range.best > 0.0);
            let sign = if more && !stops.starts_with('+') { "+" } else { "" };
            Words::fill(say.needs, &format!("{sign}{stops}"))
        }
        Verdict::RightAtStep(step) => Words::fill(say.right_at_step, &step.to_string()),
        Verdict::Blank => say.blank.to_owned(),
        Verdict::Black => say.black.to_owned(),
        Verdict::Leak => say.leak.to_owned(),
    }
}

//! Exposures and prints: one sheet, or a strip, and how it came out. What was not noted is shown as not noted.

use crate::notebook::{Block, Exposure, Light, Preflash, Print, Receptor, Scan, Slot, Strip, Verdict};
use crate::source::Spanned;
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::page::{PictureView, Row};
use super::Said;
use super::rows::{Rows, figure_row, row};

pub(super) fn said(desk: &Desk<'_>, block: &Block, exposure: &Exposure) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.reference("camera", &exposure.camera);
    rows.reference("paper", &exposure.paper);
    rows.wanted("light", &exposure.light, |light| {
        let words = [&exposure.sky, &exposure.facing].map(|word| word.get().map(|word| word.value));
        Row {
            remark: words.into_iter().flatten().collect::<Vec<_>>().join(", "),
            ..row("", light_text(&light.value, style))
        }
    });
    rows.figure("colour", &exposure.colour);
    if exposure.strip.is_absent() {
        given(desk, block, exposure, &mut rows);
    }
    rows.slot("strip", &exposure.strip, |strip| {
        row("", strip_text(&strip.value, style))
    });
    rows.slot("bracket", &exposure.bracket, |bracket| {
        let bracket = &bracket.value;
        row("", format!("{} × {}", bracket.count, bracket.stops.show(style)))
    });
    rows.slot("receptor", &exposure.receptor, |receptor| {
        let words = match &receptor.value {
            Receptor::Dome => "dome".to_owned(),
            Receptor::Flat => "flat".to_owned(),
            Receptor::Constant(constant) => format!("C = {}", constant.show(style)),
        };
        row("", words)
    });
    rows.figure("filter", &exposure.filter);
    rows.slot("flashed before", &exposure.preflash, |flash| {
        preflash(flash, style)
    });
    rows.figure("subject at", &exposure.subject);
    rows.word("sheet lay", &exposure.side);
    rows.wanted("result", &exposure.result, |result| {
        row("", verdict(&result.value, style))
    });
    rows.text("by", &exposure.by);
    let mut after = Rows::new(desk, block);
    after.text("next time", &exposure.next);
    Said {
        subtitle: exposure
            .when
            .get()
            .map_or_else(String::new, |when| when.value.written.clone()),
        sections: vec![rows.figures(None), after.lines(None)],
        pictures: scan(desk, block, &exposure.scan, "Scan of"),
    }
}

/// The time given; where none was written, the one that was computed and stands in the margin.
fn given(desk: &Desk<'_>, block: &Block, exposure: &Exposure, rows: &mut Rows<'_, '_>) {
    if !exposure.time.is_absent() {
        rows.figure("time", &exposure.time);
        return;
    }
    match computed_time(desk, block) {
        Some(time) => rows.remarked("time", time, "computed"),
        None => rows.blank("time"),
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
        (Some(strip), _) => Some(strip_text(&strip.value, desk.style)),
        (None, Some(time)) => Some(time.amount.show(desk.style)),
        (None, None) => computed_time(desk, block),
    }
}

pub(super) fn print_said(desk: &Desk<'_>, block: &Block, print: &Print) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.reference("of", &print.of);
    rows.reference("paper", &print.paper);
    rows.wanted("lamp", &print.lamp, |lamp| row("", &lamp.value));
    rows.figure("distance", &print.distance);
    if print.strip.is_absent() {
        rows.wanted("time", &print.time, |time| figure_row(time, style));
    } else {
        rows.figure("time", &print.time);
    }
    rows.slot("strip", &print.strip, |strip| {
        row("", strip_text(&strip.value, style))
    });
    rows.word("laid", &print.through);
    rows.wanted("result", &print.result, |result| {
        row("", verdict(&result.value, style))
    });
    Said {
        subtitle: print
            .when
            .get()
            .map_or_else(String::new, |when| when.value.written.clone()),
        sections: vec![rows.figures(None)],
        pictures: scan(desk, block, &print.scan, "Scan of"),
    }
}

fn scan(desk: &Desk<'_>, block: &Block, scan: &Slot<Scan>, what: &str) -> Vec<PictureView> {
    let file: Option<&Spanned<String>> = scan.get().and_then(|scan| scan.file.get());
    desk.picture(block, file, &format!("{what} {}", block.name()))
        .into_iter()
        .collect()
}

/// The light that was measured or judged, in words.
pub(in crate::views) fn light_text(light: &Light, style: Style) -> String {
    match light {
        Light::Value(value) | Light::Lux(value) => value.show(style),
        Light::Meter {
            time,
            f_number,
            speed,
        } => format!(
            "{} at {}, {}",
            time.show(style),
            f_number.show(style),
            speed.show(style)
        ),
        Light::Scene(scene) => scene.words().to_owned(),
    }
}

fn strip_text(strip: &Strip, style: Style) -> String {
    format!(
        "{} × {} from {}",
        strip.steps,
        strip.stops.show(style),
        strip.from.show(style)
    )
}

fn preflash(flash: &Preflash, style: Style) -> Row {
    match flash {
        Preflash::Exposure(figure) => figure_row(figure, style),
        Preflash::Lamp { lamp, distance, time } => {
            let words = [
                lamp.get().map(|lamp| lamp.value.clone()),
                distance
                    .get()
                    .map(|distance| format!("at {}", distance.show(style))),
            ];
            let remark = words.into_iter().flatten().collect::<Vec<_>>().join(" ");
            match time.get() {
                Some(time) => Row {
                    remark,
                    ..row("", time.show(style))
                },
                None => row("", remark),
            }
        }
    }
}

/// A verdict in the words that are written for it.
pub(in crate::views) fn verdict(verdict: &Verdict, style: Style) -> String {
    match verdict {
        Verdict::Right => "right".to_owned(),
        Verdict::Needs(stops) => {
            // `1/2 stop thin` is more light as well, and is told apart from less at a glance.
            let (stops, more) = (stops.show(style), stops.range.best > 0.0);
            let sign = if more && !stops.starts_with('+') { "+" } else { "" };
            format!("needs {sign}{stops}")
        }
        Verdict::RightAtStep(step) => format!("right at step {step}"),
        Verdict::Blank => "blank".to_owned(),
        Verdict::Black => "black".to_owned(),
        Verdict::Leak => "light leak".to_owned(),
    }
}

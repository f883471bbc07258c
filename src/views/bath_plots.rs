//! The plots of a bath: its pH against more or less of its soda or acid, and a stop's pH against the sheets that went through.

use serde::Serialize;

use crate::facts::{Along, Bath, Curve, Facts};
use crate::notebook::Notebook;
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::plot::{Axis, Band, Limit, Line, Measure, Place, Plot, Side, Stroke};
use super::words::{Words, words};

/// A plot that is ready to be set.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Plotted {
    /// What it shows.
    pub title: String,
    /// The drawing, as SVG without ids.
    pub svg: String,
}

/// The plots that say something of a bath.
pub(super) fn of_bath(notebook: &Notebook, bath: &Bath, facts: &Facts, style: Style) -> Vec<Plotted> {
    let (amounts, sheets) = facts.curves(notebook, bath);
    let amounts = amounts.map(|curve| against_amount(&curve, style));
    let sheets = sheets.map(|curve| against_sheets(&curve, style));
    let plots = amounts.into_iter().chain(sheets);
    plots
        .filter_map(|plot| {
            Some(Plotted {
                svg: plot.svg(None)?,
                title: plot.title,
            })
        })
        .collect()
}

fn against_amount(curve: &Curve, style: Style) -> Plot {
    let say = &words(style.language).block.plot;
    let (material, unit) = match &curve.along {
        Along::Grams(material) => (material.as_str(), "g"),
        Along::Millilitres(material) => (material.as_str(), "ml"),
        Along::Sheets => (say.sheets, ""),
    };
    let across = Axis::linear(material, Measure::Unit(unit.to_owned()));
    let title = Words::fill(say.against, material);
    let mut plot = drawn(curve, title, across, say.finished, say.may_lie, style);
    let (x, ph) = curve.here;
    plot.place = Some(Place {
        name: Words::fill(
            say.this_recipe,
            &show(ph, Dimension::PH, Digits::Decimals(1), style),
        ),
        x,
        y: ph.best,
        band: Some((ph.low, ph.high)),
    });
    plot
}

fn against_sheets(curve: &Curve, style: Style) -> Plot {
    let say = &words(style.language).block.plot;
    let across = Axis::linear(say.sheets_through, Measure::Unit(say.sheets.to_owned()));
    let title = say.of_stop.to_owned();
    let mut plot = drawn(curve, title, across, say.carried, say.carried_band, style);
    let (sheets, spent) = curve.here;
    plot.limits.push(Limit {
        name: Words::fill(
            say.spent_above,
            &show(spent, Dimension::PH, Digits::Decimals(0), style),
        ),
        at: spent.best,
        on: Side::Up,
    });
    plot.place = Some(Place {
        name: Words::fill(
            words(style.language).block.row.many_sheets,
            &number(Range::exact(sheets), Digits::Significant(2), style),
        ),
        x: sheets,
        y: spent.best,
        band: None,
    });
    plot
}

/// A curve with its band.
fn drawn(curve: &Curve, title: String, across: Axis, name: &str, within: &str, style: Style) -> Plot {
    let mut plot = Plot::new(title, across, Axis::linear("pH", Measure::Ph), style);
    plot.bands.push(Band {
        name: within.to_owned(),
        edges: curve.points.iter().map(|(x, ph)| (*x, ph.low, ph.high)).collect(),
    });
    plot.lines.push(Line {
        name: name.to_owned(),
        points: curve.points.iter().map(|(x, ph)| (*x, ph.best)).collect(),
        stroke: Stroke::Solid,
    });
    plot
}

//! Facts of cameras: the f-number and what follows from it.

use crate::notebook::{Camera, Plane};
use crate::optics;
use crate::units::scalar::{FNumber, Length};
use crate::units::{Digits, Dimension, Range, Style};

use super::fact::{Fact, Measure};

const F_NUMBER: &str = "distance from hole to paper divided by the hole's diameter";

pub(super) fn facts(camera: &Camera, style: Style) -> Vec<Fact> {
    let f_number = f_number(camera, style);
    let stops =
        match f_number.range() {
            Some(range) => stops_from_f16().number(range.map_monotone(|n| {
                optics::f_number::stops_between(FNumber::new(16.0), FNumber::new(n)).stops()
            })),
            None => stops_from_f16().gap("the f-number is not known"),
        };
    vec![f_number, stops.from("f-number", "see f-number")]
}

fn stops_from_f16() -> Fact {
    Fact::new(
        "stops-from-f16",
        Measure::Amount(Dimension::Stops, Digits::Decimals(1)),
        "twice the binary logarithm of the f-number over 16",
    )
}

fn f_number(camera: &Camera, style: Style) -> Fact {
    let mut fact = Fact::new(
        "f-number",
        Measure::Amount(Dimension::FNumber, Digits::Significant(3)),
        F_NUMBER,
    )
    .source("iso-517");
    let hole = camera.pinhole.get().map(|hole| hole.range);
    if let Some(hole) = camera.pinhole.get() {
        fact = fact.from("pinhole", hole.show(style));
    }
    let distance = distance(camera);
    if let Ok(range) = &distance {
        fact = fact.from(
            "distance",
            crate::units::show(*range, Dimension::Length, Digits::Significant(4), style),
        );
    }
    let Some(hole) = hole else {
        return fact.gap(if camera.scan.get().is_some() {
            "the hole's scan is not measured by this version: give `pinhole`"
        } else {
            "the pinhole cannot be read"
        });
    };
    match distance {
        Ok(distance) => match optics::f_number::f_number_range(distance, hole) {
            Some(range) => fact.number(range),
            None => fact.gap("a hole of nothing has no f-number"),
        },
        Err(why) => fact.gap(why),
    }
}

/// The distance that makes the exposure: computed for round tins, as written for flat paper.
fn distance(camera: &Camera) -> Result<Range, String> {
    let plane = camera.plane.get().map(|plane| &plane.value);
    let computed = |make: &dyn Fn(Length) -> optics::Plane, radius: Range| {
        radius.map_monotone(|mm| {
            make(Length::from_millimetres(mm))
                .effective_distance()
                .millimetres()
        })
    };
    match plane {
        Some(Plane::Wall { radius }) => Ok(computed(&|radius| optics::Plane::Wall { radius }, radius.range)),
        Some(Plane::Axis { radius }) => Ok(computed(&|radius| optics::Plane::Axis { radius }, radius.range)),
        Some(Plane::Lid { radius, height }) => {
            let height = Length::from_millimetres(height.range.best);
            Ok(computed(
                &|radius| optics::Plane::Lid { radius, height },
                radius.range,
            ))
        }
        Some(Plane::Flat) | None if camera.plane.is_broken() => {
            Err("how the paper lies cannot be read".to_owned())
        }
        Some(Plane::Flat) | None => match camera.distance.get() {
            Some(distance) => Ok(distance.range),
            None => Err("the distance cannot be read".to_owned()),
        },
    }
}

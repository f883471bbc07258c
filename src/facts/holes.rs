//! What more holes than one make of an exposure.

use crate::notebook::{Camera, Exposure, Plane};
use crate::optics::holes::{image_shift, image_shift_on_wall};
use crate::units::scalar::Length;
use crate::units::{Digits, Dimension, Range, Style, show};

/// From this share of the sheet on, the part where all images lie over each other is the one to expose for. Own choice.
const MOST: f64 = 0.5;

/// The stops that several holes give the part of the sheet to expose for, and why in words; none for one hole.
///
/// Their images lie over each other but for a shift. Where most of the sheet has them all, each sheet needs an n-th of the
/// time; where they lie apart, each needs its own. How far the holes are apart must be known to tell.
pub(super) fn given(camera: &Camera, exposure: &Exposure, style: Style) -> Option<(Range, String)> {
    let count = camera.holes.get()?.value;
    if count < 2 {
        return None;
    }
    let all = libm::log2(f64::from(count));
    let stops = |stops: f64| show(Range::exact(stops), Dimension::Stops, Digits::Decimals(1), style);
    let Some(shared) = shared(camera, exposure, count) else {
        return Some((
            Range::new(0.0, 0.0, all),
            format!(
                "{count}, how far apart is not known: between nothing and {} more light, where images lie over each other",
                stops(all)
            ),
        ));
    };
    let percent = libm::round(100.0 * shared);
    Some(if shared >= MOST {
        (
            Range::exact(all),
            format!(
                "{count}: on {percent:.0} % of the sheet all images lie over each other and give {} more light",
                stops(all)
            ),
        )
    } else {
        (
            Range::exact(0.0),
            format!(
                "{count}: the images lie apart, each by itself; where all meet, on {percent:.0} % of the sheet, there is {} more light",
                stops(all)
            ),
        )
    })
}

/// The share of the sheet that all images cover, the holes in a row along its long side.
fn shared(camera: &Camera, exposure: &Exposure, count: u32) -> Option<f64> {
    let size = &camera.format.get()?.value;
    let long = size.width.max(size.height);
    let apart = Length::from_millimetres(camera.spacing.get()?.range.best);
    let shift = match camera.plane.get().map(|plane| &plane.value) {
        Some(Plane::Wall { .. }) => image_shift_on_wall(apart),
        Some(Plane::Axis { .. } | Plane::Lid { .. }) => return None,
        Some(Plane::Flat) | None => {
            let distance = Length::from_millimetres(camera.distance.get()?.range.best);
            let subject = exposure.subject.get().map(|subject| subject.range.best);
            let subject = Length::from_millimetres(subject.unwrap_or(f64::INFINITY));
            image_shift(apart, distance, subject)
        }
    };
    let lost = f64::from(count - 1) * (shift / long).abs();
    Some((1.0 - lost).max(0.0))
}

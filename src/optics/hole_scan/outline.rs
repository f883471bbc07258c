//! The outline of a hole at a level, found between the pixels.

use super::grey::{Grey, Place, bright_places};

/// What lies within a level, in pixels.
pub(super) struct Outline {
    /// Above the level.
    pub(super) area: f64,
    /// The same with everything that it goes round.
    pub(super) filled: f64,
    /// Round the outside.
    pub(super) edge: f64,
}

/// The outline of a hole at a level, found between the middles of pixels: the picture is cut into squares with a pixel at
/// each corner, and the level crosses their sides in straight proportion.
pub(super) fn outline(picture: &Grey, hole: &[Place], level: f32) -> Outline {
    let (mut left, mut right, mut top, mut foot) = (usize::MAX, 0, usize::MAX, 0);
    for (x, y) in hole {
        (left, right) = (left.min(*x), right.max(*x));
        (top, foot) = (top.min(*y), foot.max(*y));
    }
    // Room for the edge at a lower level; what is not joined to the hole is left out below.
    let room = 6;
    let (left, top) = (left.saturating_sub(room), top.saturating_sub(room));
    let (right, foot) = (
        (right + room).min(picture.width - 1),
        (foot + room).min(picture.height() - 1),
    );
    let window: Vec<f32> = (top..=foot)
        .flat_map(|y| (left..=right).map(move |x| (x, y)))
        .map(|(x, y)| picture.at(x, y))
        .collect();
    let window = Grey {
        width: right - left + 1,
        levels: window,
    };
    let Some(own) = bright_places(&window, level).into_iter().max_by_key(Vec::len) else {
        return Outline {
            area: 0.0,
            filled: 0.0,
            edge: 0.0,
        };
    };
    let mut own_only = window.clone();
    let mut is_own = vec![false; window.levels.len()];
    for (x, y) in own {
        if let Some(mark) = is_own.get_mut(y * window.width + x) {
            *mark = true;
        }
    }
    for (value, own) in own_only.levels.iter_mut().zip(&is_own) {
        if *value > level && !own {
            *value = level;
        }
    }
    // Dark places that the hole goes round count as hole for its outside.
    let dark = Grey {
        width: window.width,
        levels: own_only.levels.iter().map(|value| -value).collect(),
    };
    let mut filled = own_only.clone();
    for place in bright_places(&dark, -level) {
        let (end_x, end_y) = (window.width - 1, window.height() - 1);
        let outside = |(x, y): &Place| *x == 0 || *y == 0 || *x == end_x || *y == end_y;
        if place.iter().any(outside) {
            continue;
        }
        for (x, y) in place {
            if let Some(value) = filled.levels.get_mut(y * window.width + x) {
                *value = 2.0 * level - *value;
            }
        }
    }
    let (area, _) = contour(&own_only, level);
    let (filled, edge) = contour(&filled, level);
    Outline { area, filled, edge }
}

/// The area above a level and the length of its edge.
fn contour(picture: &Grey, level: f32) -> (f64, f64) {
    let (mut area, mut edge) = (0.0, 0.0);
    for y in 0..picture.height().saturating_sub(1) {
        for x in 0..picture.width.saturating_sub(1) {
            let corners = [
                picture.at(x, y),
                picture.at(x + 1, y),
                picture.at(x + 1, y + 1),
                picture.at(x, y + 1),
            ];
            let (within, along) = square(corners.map(|corner| f64::from(corner - level)));
            area += within;
            edge += along;
        }
    }
    (area, edge)
}

/// The part of a unit square where a level is above zero, and the length of the line that bounds it, from the level at its
/// corners going round. Where two opposite corners are above, the parts are taken as apart.
fn square(corners: [f64; 4]) -> (f64, f64) {
    const AT: [(f64, f64); 4] = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)];
    let above = corners.map(|corner| corner > 0.0);
    match above.iter().filter(|above| **above).count() {
        0 => return (0.0, 0.0),
        4 => return (1.0, 0.0),
        _ => {}
    }
    if above == [true, false, true, false] || above == [false, true, false, true] {
        let mut sum = (0.0, 0.0);
        for keep in 0..4 {
            let mut one = corners.map(|corner| corner.min(-f64::MIN_POSITIVE));
            if let (Some(slot), Some(corner)) = (one.get_mut(keep), corners.get(keep))
                && *corner > 0.0
            {
                // The crossings of a single corner are those of the whole square.
                *slot = *corner;
                let (next, last) = ((keep + 1) % 4, (keep + 3) % 4);
                for side in [next, last] {
                    if let (Some(slot), Some(corner)) = (one.get_mut(side), corners.get(side)) {
                        *slot = *corner;
                    }
                }
                let (area, edge) = square(one);
                sum = (sum.0 + area, sum.1 + edge);
            }
        }
        return sum;
    }
    let mut shape: Vec<(f64, f64)> = Vec::with_capacity(5);
    let mut crossings: Vec<(f64, f64)> = Vec::with_capacity(2);
    let next = corners.iter().cycle().skip(1);
    let next_at = AT.iter().cycle().skip(1);
    for ((corner, at), (following, to)) in corners.iter().zip(AT).zip(next.zip(next_at)) {
        if *corner > 0.0 {
            shape.push(at);
        }
        if (*corner > 0.0) != (*following > 0.0) {
            let share = corner / (corner - following);
            let crossing = (at.0 + share * (to.0 - at.0), at.1 + share * (to.1 - at.1));
            shape.push(crossing);
            crossings.push(crossing);
        }
    }
    let following = shape.iter().cycle().skip(1);
    let twice: f64 = shape
        .iter()
        .zip(following)
        .map(|(a, b)| a.0 * b.1 - b.0 * a.1)
        .sum();
    let along = match crossings.as_slice() {
        [a, b] => libm::hypot(a.0 - b.0, a.1 - b.1),
        _ => 0.0,
    };
    (twice.abs() / 2.0, along)
}

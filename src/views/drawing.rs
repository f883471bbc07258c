//! A camera drawn to scale from its numbers: where the hole is, where the paper lies, and which rays reach its ends.

use std::fmt::Write as _;

use serde::Serialize;

use crate::facts::Fact;
use crate::notebook::{Block, Camera, Plane};
use crate::units::Style;

use super::words::{AltWords, Words, words as words_in};

/// A line drawing. Its paths hold numbers and path letters alone, so that a page can set them as they are.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Drawing {
    /// Left, top, width and height, in mm of the camera.
    pub view_box: String,
    /// What is drawn, in a few words.
    pub title: String,
    /// What there is to see, for those who cannot.
    pub words: String,
    /// The lines.
    pub paths: Vec<Stroke>,
}

/// One line of a drawing.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Stroke {
    /// What it is: `box`, `paper`, `ray` or `hole`.
    pub class: &'static str,
    /// Path data of SVG.
    pub d: String,
}

/// How far rays go on before the hole, as a share of the camera's depth.
const BEFORE: f64 = 0.28;

/// The drawing of a camera whose measures are known: seen from above, the light coming from the left; a hole in the lid
/// is seen from the side.
pub(super) fn of_camera(block: &Block, camera: &Camera, facts: &[&Fact], style: Style) -> Option<Drawing> {
    let format = &camera.format.get()?.value;
    let (a, b) = (format.width.millimetres(), format.height.millimetres());
    let (long, short) = (a.max(b), a.min(b));
    let plane = camera.plane.get().map(|plane| &plane.value);
    if plane.is_none() && camera.plane.is_broken() {
        return None;
    }
    let shape = match plane {
        None | Some(Plane::Flat) => flat(camera.distance.get()?.range.best, long),
        Some(Plane::Wall { radius }) => wall(radius.range.best, long),
        Some(Plane::Axis { radius }) => axis(radius.range.best, long),
        Some(Plane::Lid { radius, height }) => lid(radius.range.best, height.range.best, short),
    };
    if !(shape.depth.is_finite() && shape.depth > 0.0 && shape.half.is_finite() && shape.half > 0.0) {
        return None;
    }
    let before = shape.depth * BEFORE;
    let mut paths = vec![
        Stroke {
            class: "box",
            d: shape.walls,
        },
        Stroke {
            class: "paper",
            d: shape.paper,
        },
    ];
    for (x, y) in shape.ends {
        let slope = if x > 0.0 { y / x } else { 0.0 };
        // A steep ray would run far over the drawing's edge.
        let reach = before.min(shape.half * 1.1 / slope.abs().max(1e-9));
        paths.push(Stroke {
            class: "ray",
            d: format!("M{} {}L{} {}", n(-reach), n(-reach * slope), n(x), n(y)),
        });
    }
    let r = shape.depth / 60.0;
    paths.push(Stroke {
        class: "hole",
        d: format!(
            "M{} 0A{r} {r} 0 1 0 {} 0A{r} {r} 0 1 0 {} 0Z",
            n(-r),
            n(r),
            n(-r),
            r = n(r)
        ),
    });
    let margin = shape.depth * 0.04;
    let top = -shape.half * 1.12 - margin;
    let value = |name: &str| {
        let fact = facts.iter().find(|fact| fact.name == name);
        fact.filter(|fact| fact.value.is_ok())
            .map(|fact| fact.text(style))
    };
    let alt = &words_in(style.language).alt;
    let mut words = format!("{} {}", (shape.seen)(alt), alt.hole_left);
    if let Some(n) = value("f-number") {
        let _ = write!(words, " {}", Words::fill(alt.works_at, &n));
    }
    if let Some(angle) = value("angle-of-view") {
        let _ = write!(words, " {}", Words::fill(alt.sees_angle, &angle));
    }
    Some(Drawing {
        view_box: format!(
            "{} {} {} {}",
            n(-before - margin),
            n(top),
            n(before + shape.depth + 2.0 * margin),
            n(-2.0 * top)
        ),
        title: Words::fill(alt.to_scale, block.name()),
        words,
        paths,
    })
}

/// A camera with its hole at the origin, mm.
struct Shape {
    walls: String,
    paper: String,
    /// The paper's ends.
    ends: Vec<(f64, f64)>,
    depth: f64,
    /// From the axis to the outermost wall.
    half: f64,
    seen: fn(&AltWords) -> &'static str,
}

fn flat(distance: f64, long: f64) -> Shape {
    let half = long / 2.0;
    let wall = half * 1.06;
    Shape {
        walls: format!("M0 {}H{}V{}H0Z", n(-wall), n(distance), n(wall)),
        paper: format!("M{x} {}V{}", n(-half), n(half), x = n(distance)),
        ends: vec![(distance, -half), (distance, half)],
        depth: distance,
        half: wall,
        seen: |words| words.from_above,
    }
}

fn wall(radius: f64, long: f64) -> Shape {
    let angle = (long / radius / 2.0).min(3.1);
    let (x, y) = (radius + radius * libm::cos(angle), radius * libm::sin(angle));
    Shape {
        walls: format!(
            "M0 0A{r} {r} 0 1 1 {} 0A{r} {r} 0 1 1 0 0Z",
            n(2.0 * radius),
            r = n(radius)
        ),
        paper: arc((x, y), radius, angle > std::f64::consts::FRAC_PI_2),
        ends: vec![(x, -y), (x, y)],
        depth: 2.0 * radius,
        half: radius,
        seen: |words| words.from_above,
    }
}

fn axis(radius: f64, long: f64) -> Shape {
    let angle = (long / radius / 2.0).min(std::f64::consts::FRAC_PI_2);
    let (x, y) = (radius * libm::cos(angle), radius * libm::sin(angle));
    Shape {
        walls: format!("M0 {}A{r} {r} 0 0 1 0 {r}Z", n(-radius), r = n(radius)),
        paper: arc((x, y), radius, false),
        ends: vec![(x, -y), (x, y)],
        depth: radius,
        half: radius,
        seen: |words| words.from_above,
    }
}

fn lid(radius: f64, height: f64, short: f64) -> Shape {
    let (r, from) = (n(radius), (height - short).max(0.0));
    let mut ends = vec![(height, -radius), (height, radius)];
    if from > 0.0 {
        ends.extend([(from, -radius), (from, radius)]);
    }
    Shape {
        walls: format!("M0 -{r}H{h}V{r}H0Z", h = n(height)),
        paper: format!("M{f} -{r}H{h}M{f} {r}H{h}", f = n(from), h = n(height)),
        ends,
        depth: height,
        half: radius,
        seen: |words| words.from_side,
    }
}

/// Paper along a round wall, from its end above the axis to the one below.
fn arc((x, y): (f64, f64), radius: f64, large: bool) -> String {
    format!(
        "M{x} {}A{r} {r} 0 {} 1 {x} {}",
        n(-y),
        u8::from(large),
        n(y),
        x = n(x),
        r = n(radius)
    )
}

/// A number of a path: a tenth of a millimetre is finer than the line.
fn n(value: f64) -> String {
    let rounded = libm::round(value * 10.0) / 10.0;
    // No minus before zero.
    format!("{}", rounded + 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paper_lies_on_its_wall() {
        // A quarter of the wall round: its ends stand 45° from the middle, seen from the centre.
        let shape = wall(50.0, 50.0 * std::f64::consts::FRAC_PI_2);
        let (x, y) = shape.ends[1];
        assert!((libm::hypot(x - 50.0, y) - 50.0).abs() < 1e-9);
        assert!((libm::atan2(y, x - 50.0).to_degrees() - 45.0).abs() < 1e-9);
    }

    #[test]
    fn numbers_of_paths_are_plain() {
        assert_eq!(n(-0.01), "0");
        assert_eq!(n(12.34), "12.3");
        assert_eq!(n(100.0), "100");
    }
}

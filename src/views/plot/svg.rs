//! The pieces of SVG that a plot is put together from. All take the colour of the text around them.

use std::fmt::Write as _;

use super::super::markup::xml;
use super::{Shape, Stroke};

/// The attributes of a limit's line.
pub(super) const LIMIT: &str = r#"stroke="currentColor" stroke-width="1.25" stroke-dasharray="1 4""#;

/// The attributes of a line.
pub(super) fn pen(stroke: Stroke) -> String {
    let dashes = match stroke {
        Stroke::Solid => "",
        Stroke::Dashed => r#" stroke-dasharray="7 5""#,
        Stroke::Dotted => r#" stroke-dasharray="0.1 5""#,
    };
    format!(r#"stroke="currentColor" stroke-width="2"{dashes}"#)
}

/// The attributes of a point's path.
pub(super) fn shape(shape: Shape, x: f64, y: f64) -> String {
    let r = 4.0;
    let (left, right, top, foot) = (n1(x - r), n1(x + r), n1(y - r), n1(y + r));
    let round = format!(
        "M{left} {y}A{r} {r} 0 1 0 {right} {y}A{r} {r} 0 1 0 {left} {y}Z",
        y = n1(y)
    );
    match shape {
        Shape::Disc => format!(r#"fill="currentColor" d="{round}""#),
        Shape::Ring => format!(r#"stroke="currentColor" stroke-width="1.5" d="{round}""#),
        Shape::Square => {
            format!(r#"stroke="currentColor" stroke-width="1.5" d="M{left} {top}H{right}V{foot}H{left}Z""#)
        }
        Shape::Cross => {
            format!(
                r#"stroke="currentColor" stroke-width="1.5" d="M{left} {top}L{right} {foot}M{left} {foot}L{right} {top}""#
            )
        }
    }
}

/// The path data through points.
pub(super) fn path(points: impl Iterator<Item = (f64, f64)>) -> String {
    let mut d = String::new();
    for (x, y) in points {
        // Far outside the field a point says no more than that the line leaves it.
        let (x, y) = (x.clamp(-1e4, 1e4), y.clamp(-1e4, 1e4));
        let letter = if d.is_empty() { 'M' } else { 'L' };
        let _ = write!(d, "{letter}{} {}", n1(x), n1(y));
    }
    d
}

/// Words at a place; `anchor` is `start`, `middle` or `end`.
pub(super) fn text(out: &mut String, x: f64, y: f64, anchor: &str, words: &str) {
    let _ = write!(
        out,
        r#"<text fill="currentColor" text-anchor="{anchor}" x="{}" y="{}">{}</text>"#,
        n1(x),
        n1(y),
        xml(words)
    );
}

/// A number of the drawing: a tenth is finer than any screen.
pub(super) fn n1(value: f64) -> String {
    let rounded = libm::round(value * 10.0) / 10.0;
    // No minus before zero.
    format!("{}", rounded + 0.0)
}

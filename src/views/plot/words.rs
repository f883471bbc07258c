//! What a plot shows, in words, from the same numbers that are drawn.

use super::super::words::capital;
use super::{Plot, Side};

/// The title, where the lines begin and end, and where the place is.
pub(super) fn words(plot: &Plot) -> String {
    let mut sentences = Vec::new();
    for line in &plot.lines {
        let known: Vec<(f64, f64)> = line
            .points
            .iter()
            .copied()
            .filter(|(x, y)| x.is_finite() && y.is_finite())
            .collect();
        if let (Some(first), Some(last)) = (known.first(), known.last()) {
            sentences.push(format!(
                "{} runs from {} to {}.",
                capital(&line.name),
                at(plot, *first),
                at(plot, *last)
            ));
        }
    }
    if let Some(place) = &plot.place {
        let within = place.band.map_or_else(String::new, |(low, high)| {
            let (low, high) = (value(plot, Side::Up, low), value(plot, Side::Up, high));
            if low == high {
                String::new()
            } else {
                format!(", and may be anything from {low} to {high}")
            }
        });
        sentences.push(format!(
            "{} is at {}{within}.",
            capital(&place.name),
            at(plot, (place.x, place.y))
        ));
    }
    for limit in &plot.limits {
        sentences.push(format!(
            "{} is marked at {}.",
            capital(&limit.name),
            value(plot, limit.on, limit.at)
        ));
    }
    for dots in &plot.dots {
        let named: Vec<&str> = dots.points.iter().filter_map(|dot| dot.name.as_deref()).collect();
        let apart = if named.is_empty() {
            String::new()
        } else {
            format!(", among them {}", named.join(", "))
        };
        sentences.push(format!("{}: {}{apart}.", capital(&dots.name), dots.points.len()));
    }
    sentences.join(" ")
}

fn at(plot: &Plot, (x, y): (f64, f64)) -> String {
    format!(
        "{} for {}",
        value(plot, Side::Up, y),
        value(plot, Side::Across, x)
    )
}

fn value(plot: &Plot, side: Side, value: f64) -> String {
    match side {
        Side::Across => plot.across.read(value, plot.style),
        Side::Up => plot.up.read(value, plot.style),
    }
}

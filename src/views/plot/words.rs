//! What a plot shows, in words, from the same numbers that are drawn.

use super::super::words::{Words, capital, words as words_in};
use super::{Plot, Side};

/// The title, where the lines begin and end, and where the place is.
pub(super) fn words(plot: &Plot) -> String {
    let say = &words_in(plot.style.language).block.plot;
    let mut sentences = Vec::new();
    for line in &plot.lines {
        let known: Vec<(f64, f64)> = line
            .points
            .iter()
            .copied()
            .filter(|(x, y)| x.is_finite() && y.is_finite())
            .collect();
        if let (Some(first), Some(last)) = (known.first(), known.last()) {
            sentences.push(Words::fill_all(
                say.runs,
                &[&capital(&line.name), &at(plot, *first), &at(plot, *last)],
            ));
        }
    }
    if let Some(place) = &plot.place {
        let within = place.band.map_or_else(String::new, |(low, high)| {
            let (low, high) = (value(plot, Side::Up, low), value(plot, Side::Up, high));
            if low == high {
                String::new()
            } else {
                Words::fill_all(say.between, &[&low, &high])
            }
        });
        let here = at(plot, (place.x, place.y));
        sentences.push(Words::fill_all(
            say.place_at,
            &[&capital(&place.name), &here, &within],
        ));
    }
    for limit in &plot.limits {
        let marked = value(plot, limit.on, limit.at);
        sentences.push(Words::fill_all(say.marked, &[&capital(&limit.name), &marked]));
    }
    for dots in &plot.dots {
        let named: Vec<&str> = dots.points.iter().filter_map(|dot| dot.name.as_deref()).collect();
        let apart = if named.is_empty() {
            String::new()
        } else {
            Words::fill(say.among, &named.join(", "))
        };
        sentences.push(format!("{}: {}{apart}.", capital(&dots.name), dots.points.len()));
    }
    sentences.join(" ")
}

fn at(plot: &Plot, (x, y): (f64, f64)) -> String {
    let (up, across) = (value(plot, Side::Up, y), value(plot, Side::Across, x));
    Words::fill_all(words_in(plot.style.language).block.plot.at, &[&up, &across])
}

fn value(plot: &Plot, side: Side, value: f64) -> String {
    match side {
        Side::Across => plot.across.read(value, plot.style),
        Side::Up => plot.up.read(value, plot.style),
    }
}

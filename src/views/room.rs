//! What one side of a card holds: a rough measure of its parts at sizes that are easy to read, and its words.
//!
//! The press measures every letter; this only says beforehand what is likely to go on, so that most cards are set once.

use crate::scale::print::{CAP_RATIO, TEXT, character_height, type_size};
use crate::units::scalar::Length;

use super::card::{Card, CardKind, SheetLayout};

/// The width of a letter on average, ems: that of the card's sans over English words, counted from pressed cards.
const LETTER_EM: f64 = 0.54;
/// From one line to the next, ems.
const LINE_EM: f64 = 1.3;
/// Type for what is read at a table, points.
const TABLE_PT: f64 = 9.5;
/// A point, mm.
const POINT_MM: f64 = 25.4 / 72.0;
/// From this width on a card that lies on its side has two columns, mm.
const TWO_COLUMNS_MM: f64 = 120.0;
/// Between two parts of a card, mm.
const GAP_MM: f64 = 2.4;

/// Whether a side is likely to hold what is on it.
pub(super) fn holds(side: &Card, layout: &SheetLayout) -> bool {
    let (width, height) = (layout.card_width_mm, layout.card_height_mm);
    let margin = (0.06 * width.min(height)).min(6.0);
    let inner = width - 2.0 * margin;
    let wide = width > height * 1.15 && width >= TWO_COLUMNS_MM;
    // In two columns a line is half as long, and two stand beside each other.
    let (measure, columns) = if wide { (inner * 0.52, 1.8) } else { (inner, 1.0) };
    let needed = head(side, inner) + body(side, measure, layout.distance_mm) / columns;
    needed <= height - 2.0 * margin
}

fn lines(text: &str, points: f64, width: f64) -> f64 {
    let letters = (width / (LETTER_EM * points * POINT_MM)).max(1.0);
    (text.chars().count() as f64 / letters).ceil().max(1.0)
}

fn head(side: &Card, width: f64) -> f64 {
    let name = if side.tray.is_some() { 18.0 } else { 13.0 };
    let band = if side.untested.is_some() { 9.0 } else { 3.0 };
    name * (width / 93.0).clamp(0.7, 1.6) + band + 4.0
}

/// The height of everything below the head.
fn body(side: &Card, width: f64, distance_mm: f64) -> f64 {
    let far = type_size(
        character_height(Length::from_millimetres(distance_mm), TEXT),
        CAP_RATIO,
    ) * 0.85;
    let row = TABLE_PT * POINT_MM * 1.55;
    let mut needed = 0.0;
    let mut part = |height: f64| {
        if height > 0.0 {
            needed += height + GAP_MM;
        }
    };
    let figures = side.key_figures.len() as f64;
    part(if width < 80.0 { 12.0 * figures } else { 16.0 * (figures / 2.0).ceil() });
    let rows = side.groups.iter().map(|group| {
        let long = group
            .rows
            .iter()
            .map(|row| lines(&row.material, TABLE_PT, (width - 14.0 * side.volumes.len() as f64).max(14.0)));
        long.sum::<f64>() + f64::from(u8::from(group.name.is_some()))
    });
    part(rows.sum::<f64>() * row);
    part(side.times.as_ref().map_or(0.0, |times| (times.rows.len() as f64 + 1.5) * 6.2));
    part(if side.drawing.is_some() { width * 0.36 } else { 0.0 });
    part(match side.kind {
        CardKind::Process | CardKind::Role => side.steps.len() as f64 * 10.0,
        _ => steps(side, width),
    });
    let told = side
        .lines
        .iter()
        .chain(&side.beforehand)
        .map(|line| lines(&line.text, far, (width - 20.0).max(20.0)));
    part(told.sum::<f64>() * far * POINT_MM * LINE_EM);
    part(11.0 * (side.boxes.len() as f64 / 2.0).ceil());
    let warned = side.cautions.iter().map(|caution| {
        let points = if caution.hazard { far * 0.8 } else { TABLE_PT };
        lines(&caution.text, points, width - 6.0) * points * POINT_MM * LINE_EM + 1.0
    });
    part(warned.sum());
    needed
}

/// Steps of mixing, in two columns from four on.
fn steps(side: &Card, width: f64) -> f64 {
    let columns = if side.steps.len() < 4 || width < 80.0 { 1.0 } else { 2.0 };
    let all = side.steps.iter().map(|step| {
        let text = format!("{} {} {} {}", step.what, step.figure, step.second, step.note);
        lines(text.trim(), TABLE_PT, width / columns - 8.0) * TABLE_PT * POINT_MM * LINE_EM + 1.0
    });
    all.sum::<f64>() / columns * 1.15
}

/// Words of a side that are read while working: without amounts, times and trays, which are tables, without safety lines
/// and the stamp. A figure with its unit is one word, and a name that stood on the front is not read again.
pub fn words_at_work(side: &Card) -> usize {
    let mut count = 0;
    let mut read = |text: &str| {
        count += text
            .split(' ')
            .filter(|word| word.chars().any(char::is_alphabetic))
            .count();
    };
    if side.side.is_none_or(|side| side.number == 1) && !side.key_figures.is_empty() {
        read(&side.title);
        read(&side.role);
    }
    for figure in &side.key_figures {
        read(&figure.label);
        read(&figure.value);
    }
    if side.kind == CardKind::Recipe {
        for step in &side.steps {
            read(&step.what);
            read(&step.figure);
            read(&step.second);
            read(&step.note);
        }
    }
    for line in side.lines.iter().chain(&side.beforehand) {
        read(&line.label);
        read(&line.text);
    }
    side.boxes.iter().for_each(|name| read(name));
    count
}

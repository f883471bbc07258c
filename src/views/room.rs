//! What one side of a card holds: a rough measure of its parts a little above the least sizes, and its words.
//!
//! The press measures every letter; this only says beforehand what is likely to go on, so that most cards are set once.

use crate::scale::print::{CAP_RATIO, LEAST, character_height, type_size};
use crate::units::scalar::Length;

use super::card::{Card, CardKind, SheetLayout};
use super::going_in::stem_of;

/// The width of a letter on average, ems: that of the card's sans over English words, counted from pressed cards.
const LETTER_EM: f64 = 0.5;
/// From one line to the next, ems.
const LINE_EM: f64 = 1.25;
/// Type for what is read in the hand, points.
const TABLE_PT: f64 = 8.3;
/// A point, mm.
const POINT_MM: f64 = 25.4 / 72.0;
/// From this width on a card that lies on its side has two columns, mm.
const TWO_COLUMNS_MM: f64 = 120.0;
/// A side is tried when it is this share too full by the measure here: setting once more costs little, a side too many
/// is a card more to hang up.
const HOPE: f64 = 0.88;
/// Between two parts of a card, mm.
const GAP_MM: f64 = 1.8;

/// Whether a side is likely to hold what is on it.
pub(super) fn holds(side: &Card, layout: &SheetLayout) -> bool {
    let (width, height) = (layout.card_width_mm, layout.card_height_mm);
    let margin = (0.06 * width.min(height)).min(6.0);
    let inner = width - 2.0 * margin;
    let wide = width > height * 1.15 && width >= TWO_COLUMNS_MM;
    // In two columns a line is half as long, and two stand beside each other.
    let (measure, columns) = if wide { (inner * 0.52, 1.8) } else { (inner, 1.0) };
    let needed = head(side, inner) + body(side, measure, layout.distance_mm) / columns;
    needed * HOPE <= height - 2.0 * margin
}

fn lines(text: &str, points: f64, width: f64) -> f64 {
    let letters = (width / (LETTER_EM * points * POINT_MM)).max(1.0);
    (text.chars().count() as f64 / letters).ceil().max(1.0)
}

fn head(side: &Card, width: f64) -> f64 {
    let name = if side.tray.is_some() { 15.0 } else { 11.0 };
    let band = if side.untested.is_some() { 8.0 } else { 2.0 };
    name * (width / 93.0).clamp(0.7, 1.6) + band + 4.0
}

/// The height of everything below the head.
fn body(side: &Card, width: f64, distance_mm: f64) -> f64 {
    let far = type_size(
        character_height(Length::from_millimetres(distance_mm), LEAST),
        CAP_RATIO,
    ) * 1.1;
    let row = TABLE_PT * POINT_MM * 1.55;
    let mut needed = 0.0;
    let mut part = |height: f64| {
        if height > 0.0 {
            needed += height + GAP_MM;
        }
    };
    let figures = side.key_figures.len() as f64;
    part(if width < 80.0 {
        11.0 * figures
    } else {
        14.0 * (figures / 2.0).ceil()
    });
    let rows = side.groups.iter().map(|group| {
        let long = group.rows.iter().map(|row| {
            lines(
                &row.material,
                TABLE_PT,
                (width - 14.0 * side.volumes.len() as f64).max(14.0),
            )
        });
        long.sum::<f64>() + f64::from(u8::from(group.name.is_some()))
    });
    part(rows.sum::<f64>() * row);
    part(
        side.times
            .as_ref()
            .map_or(0.0, |times| (times.rows.len() as f64 + 1.5) * 5.4),
    );
    // Beside a figure a drawing takes no height of its own.
    let alone = side.drawing.is_some() && side.key_figures.is_empty();
    part(if alone { width * 0.36 } else { 0.0 });
    part(match side.kind {
        CardKind::Process | CardKind::Role => side.steps.len() as f64 * 9.5,
        _ => steps(side, width),
    });
    for (told, points) in [(&side.lines, far), (&side.beforehand, TABLE_PT)] {
        let rows = told
            .iter()
            .map(|line| lines(&line.text, points, (width - 20.0).max(20.0)));
        part(rows.sum::<f64>() * points * POINT_MM * LINE_EM);
    }
    part(11.0 * (side.boxes.len() as f64 / 2.0).ceil());
    let warned = side.cautions.iter().map(|caution| {
        let points = if caution.hazard && !side.key_figures.is_empty() {
            far
        } else {
            TABLE_PT
        };
        lines(&caution.text, points, width - 6.0) * points * POINT_MM * LINE_EM + 1.0
    });
    part(warned.sum());
    needed
}

/// Steps of mixing, in two columns from four on.
fn steps(side: &Card, width: f64) -> f64 {
    let columns = if side.steps.len() < 4 || width < 80.0 {
        1.0
    } else {
        2.0
    };
    let all = side.steps.iter().map(|step| {
        let text = format!("{} {} {} {}", step.what, step.figure, step.second, step.note);
        lines(text.trim(), TABLE_PT, width / columns - 8.0) * TABLE_PT * POINT_MM * LINE_EM + 1.0
    });
    all.sum::<f64>() / columns * 1.15
}

/// Words of a side that are read while working: without amounts, times and trays, which are tables, without safety lines
/// and the stamp. A figure with its unit is one word, and a name that stood on the front is not read again; nor is that of
/// a material which the side's own table has: there it is looked up.
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
        let rows = side.groups.iter().flat_map(|group| &group.rows);
        let in_table: Vec<&str> = rows.map(|row| stem_of(&row.material)).collect();
        for step in &side.steps {
            let told = in_table.iter().filter(|name| !name.is_empty());
            read(&told.fold(step.what.clone(), |what, name| what.replace(name, "")));
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

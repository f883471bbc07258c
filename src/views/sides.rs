//! One side or two: what is needed in the dark stands on the front, what is done beforehand in the light on the back.

use super::card::{Card, CardKind, Caution, SheetLayout};
use super::words::Words;

/// Lines of small type that an A6 side holds under its large figures, counted from pressed cards.
const RECIPE_LINES: f64 = 17.0;
/// The same for a back without large figures and boxes.
const BACK_LINES: f64 = 24.0;
/// The same for a line of trays, at two lines a tray.
const PROCESS_LINES: f64 = 23.0;
/// Words that one side of a recipe may ask to be read while working: about forty, for wet hands and a red lamp, with some
/// room so that a short recipe is not divided for a word or two. Common practice, no source.
const WORDS: usize = 48;
/// Characters in a line of an A6 side: of cautions, of heavy cautions, of lines with a label.
const WIDTHS: (usize, usize, usize) = (62, 50, 45);
/// The area of an A6 side, mm² (ISO 216).
const A6: f64 = 105.0 * 148.0;

/// Moves part of a card to its back where one side would hold too much to be read with wet hands.
pub(super) fn divide(card: Card, layout: &SheetLayout, words: &Words) -> Card {
    let holds = match card.kind {
        CardKind::Recipe => RECIPE_LINES,
        CardKind::Process => PROCESS_LINES,
    };
    let area = layout.card_width_mm * layout.card_height_mm / A6;
    let room = holds * area;
    let wordy = card.kind == CardKind::Recipe && words_at_work(&card) > WORDS;
    if needs(&card) as f64 <= room && !wordy {
        return card;
    }
    let stamp = |side: &str| format!("{} · {}", card.stamp, Words::fill(words.card.side, side));
    let hazards: Vec<Caution> = card
        .cautions
        .iter()
        .filter(|caution| caution.hazard)
        .cloned()
        .collect();
    let (first, second) = (stamp("1"), stamp("2"));
    match card.kind {
        CardKind::Recipe => {
            let back = Card {
                key_figures: Vec::new(),
                lines: Vec::new(),
                boxes: Vec::new(),
                stamp: second,
                ..card.clone()
            };
            // Hazards stand on both sides: nobody turns a card over to be warned. The rest does where there is room.
            let back = if needs(&back) as f64 <= BACK_LINES * area {
                back
            } else {
                Card {
                    cautions: hazards,
                    ..back
                }
            };
            Card {
                volumes: Vec::new(),
                groups: Vec::new(),
                steps: Vec::new(),
                stamp: first,
                back: Some(Box::new(back)),
                ..card
            }
        }
        CardKind::Process => {
            let back = Card {
                steps: Vec::new(),
                stamp: second,
                ..card.clone()
            };
            Card {
                lines: Vec::new(),
                boxes: Vec::new(),
                cautions: hazards,
                stamp: first,
                back: Some(Box::new(back)),
                ..card
            }
        }
    }
}

/// Lines of small type that all of a card takes.
fn needs(card: &Card) -> usize {
    let broken = |text: &str, width: usize| text.chars().count().div_ceil(width);
    let (light, heavy, labelled) = WIDTHS;
    let rows = card
        .groups
        .iter()
        .map(|group| group.rows.len() + usize::from(group.name.is_some()));
    let steps = match card.kind {
        CardKind::Recipe => card.steps.len().div_ceil(2),
        CardKind::Process => 2 * card.steps.len(),
    };
    let lines = card.lines.iter().map(|line| broken(&line.text, labelled));
    let cautions = card
        .cautions
        .iter()
        .map(|caution| broken(&caution.text, if caution.hazard { heavy } else { light }));
    rows.sum::<usize>() + steps + lines.sum::<usize>() + cautions.sum::<usize>()
}

/// Words of a card without its amounts, safety lines and stamp; a figure with its unit is one.
fn words_at_work(card: &Card) -> usize {
    let count = |text: &str| {
        text.split(' ')
            .filter(|word| word.chars().any(char::is_alphabetic))
            .count()
    };
    let figures = card
        .key_figures
        .iter()
        .map(|figure| count(&figure.label) + count(&figure.value));
    let steps = card
        .steps
        .iter()
        .map(|step| count(&step.what) + count(&step.figure) + count(&step.second) + count(&step.note));
    let lines = card
        .lines
        .iter()
        .map(|line| count(&line.label) + count(&line.text));
    let boxes = card.boxes.iter().map(|name| count(name));
    count(&card.title)
        + count(&card.role)
        + figures.sum::<usize>()
        + steps.sum::<usize>()
        + lines.sum::<usize>()
        + boxes.sum::<usize>()
}

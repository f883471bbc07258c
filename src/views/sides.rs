//! How a card is shared out over sides: what is needed in the dark stands on the first, what is done beforehand in the
//! light on the next, and what still does not go on is cut again, at a part of the recipe, a row or a step.
//!
//! Nothing is ever dropped: a side that cannot be cut further and is still too full is a finding of the press.

use super::card::{AmountGroup, Card, CardKind, SheetLayout, Times};
use super::room::{holds, words_at_work};

/// Words that one side may ask to be read while working, for wet hands and a red lamp. Common practice, no source.
pub const WORDS: usize = 40;
/// More sides than this are a book, not a card.
pub const MOST: usize = 12;

/// Shares a card out over as many sides as it needs by a rough measure of its lines, and by its words. The press measures
/// again, letter by letter, and goes on with [`refine`] where this was too hopeful.
pub(super) fn divide(card: Card, layout: &SheetLayout) -> Card {
    let mut sides = vec![card.clone()];
    while let Some(at) = sides
        .iter()
        .position(|side| (!holds(side, layout) || wordy(side)) && cuts(side, &sides))
    {
        if sides.len() >= MOST || !refine(&mut sides, at) {
            break;
        }
    }
    Card::of_sides(sides).unwrap_or(card)
}

/// Whether a cut would help: one for words alone only where it takes words away.
fn cuts(side: &Card, sides: &[Card]) -> bool {
    sides.len() < MOST && (cut(side).is_some() || repeats(side, sides))
}

fn wordy(side: &Card) -> bool {
    words_at_work(side) > WORDS && (is_mixed(side) || side.steps.len() > 1 && side.kind == CardKind::Recipe)
}

/// Takes something off a side that holds too much: what also stands elsewhere, or else a part that goes on a side of its
/// own behind it. Tells whether there was anything to take.
pub fn refine(sides: &mut Vec<Card>, at: usize) -> bool {
    let Some(side) = sides.get(at) else { return false };
    if repeats(side, sides) {
        let others: Vec<String> = others(side, sides).map(str::to_owned).collect();
        if let Some(side) = sides.get_mut(at) {
            side.cautions
                .retain(|caution| caution.hazard || !others.contains(&caution.text));
        }
        return true;
    }
    match cut(side) {
        Some((first, second)) => {
            sides.splice(at..=at, [first, second]);
            true
        }
        None => false,
    }
}

/// Whether lighter cautions of a side stand on another one too.
fn repeats(side: &Card, sides: &[Card]) -> bool {
    let mut light = side.cautions.iter().filter(|caution| !caution.hazard);
    light.any(|caution| others(side, sides).any(|text| text == caution.text))
}

fn others<'a>(side: &'a Card, sides: &'a [Card]) -> impl Iterator<Item = &'a str> {
    let elsewhere = sides.iter().filter(move |other| !std::ptr::eq(*other, side));
    elsewhere.flat_map(|other| other.cautions.iter().map(|caution| caution.text.as_str()))
}

/// Whether a side has both what is read in the dark and what is done beforehand.
fn is_mixed(side: &Card) -> bool {
    side.kind == CardKind::Recipe
        && (!side.key_figures.is_empty() || !side.boxes.is_empty())
        && (!side.groups.is_empty() || !side.steps.is_empty())
}

/// The two sides that one becomes; nothing where it holds a single thing.
fn cut(side: &Card) -> Option<(Card, Card)> {
    let bare = bare(side);
    if is_mixed(side) {
        return Some(dark_and_light(side, bare));
    }
    let light = side.cautions.iter().any(|caution| !caution.hazard);
    let heavy = side.cautions.iter().any(|caution| caution.hazard);
    let table = !side.groups.is_empty() || side.times.is_some() || !side.key_figures.is_empty();
    let work = table || !side.steps.is_empty();
    let hazards = || {
        side.cautions
            .iter()
            .filter(|caution| caution.hazard)
            .cloned()
            .collect()
    };
    let told = !side.lines.is_empty() || !side.beforehand.is_empty();
    if light && (work || told || side.drawing.is_some() || !side.boxes.is_empty()) {
        let (mut first, mut second) = (side.clone(), bare);
        first.cautions = hazards();
        second.cautions = side
            .cautions
            .iter()
            .filter(|caution| !caution.hazard)
            .cloned()
            .collect();
        // What is read beforehand goes with them, where that leaves something; a line of trays keeps its trays alone.
        if work || heavy || !side.lines.is_empty() || side.drawing.is_some() || !side.boxes.is_empty() {
            second.beforehand = std::mem::take(&mut first.beforehand);
        }
        if side.kind == CardKind::Process && !side.steps.is_empty() {
            second.lines = std::mem::take(&mut first.lines);
            second.boxes = std::mem::take(&mut first.boxes);
        }
        return Some((first, second));
    }
    if table && !side.steps.is_empty() {
        // Hazards stand on both: nobody turns a card over to be warned.
        let (mut first, mut second) = (side.clone(), bare);
        second.steps = std::mem::take(&mut first.steps);
        second.steps_from = side.steps_from;
        second.cautions.clone_from(&side.cautions);
        second.boxes = std::mem::take(&mut first.boxes);
        return Some((first, second));
    }
    if side.drawing.is_some() && work {
        let (mut first, mut second) = (side.clone(), bare);
        second.drawing = first.drawing.take();
        second.beforehand = std::mem::take(&mut first.beforehand);
        return Some((first, second));
    }
    if work && !side.beforehand.is_empty() {
        let (mut first, mut second) = (side.clone(), bare);
        second.beforehand = std::mem::take(&mut first.beforehand);
        return Some((first, second));
    }
    // At a tray its time and what is done there are read together.
    if work && !side.lines.is_empty() && side.kind != CardKind::Recipe {
        let (mut first, mut second) = (side.clone(), bare);
        second.lines = std::mem::take(&mut first.lines);
        second.boxes = std::mem::take(&mut first.boxes);
        return Some((first, second));
    }
    if heavy && (work || told || !side.boxes.is_empty()) {
        let (mut calm, mut warned) = (side.clone(), bare);
        warned.cautions = std::mem::take(&mut calm.cautions);
        // First the warning, then what it warns of; on the wall first the time.
        let on_wall = !side.key_figures.is_empty() || side.kind != CardKind::Recipe;
        return Some(if on_wall { (calm, warned) } else { (warned, calm) });
    }
    if work && told {
        let (mut first, mut second) = (side.clone(), bare);
        second.lines = std::mem::take(&mut first.lines);
        second.beforehand = std::mem::take(&mut first.beforehand);
        return Some((first, second));
    }
    if (work || told) && !side.boxes.is_empty() && side.steps.is_empty() {
        let (mut first, mut second) = (side.clone(), bare);
        second.boxes = std::mem::take(&mut first.boxes);
        return Some((first, second));
    }
    halves(side)
}

/// A front for the tray and a back for the jug. What hurts in the mixing stands where it is mixed; what hurts in the tray
/// stands on both.
fn dark_and_light(side: &Card, bare: Card) -> (Card, Card) {
    let front = Card {
        key_figures: side.key_figures.clone(),
        boxes: side.boxes.clone(),
        lines: side.lines.clone(),
        cautions: side
            .cautions
            .iter()
            .filter(|caution| !caution.mixing)
            .cloned()
            .collect(),
        ..bare.clone()
    };
    let back = Card {
        volumes: side.volumes.clone(),
        groups: side.groups.clone(),
        steps: side.steps.clone(),
        steps_from: side.steps_from,
        beforehand: side.beforehand.clone(),
        cautions: side.cautions.clone(),
        ..bare
    };
    (front, back)
}

/// The card with its name and nothing else.
fn bare(side: &Card) -> Card {
    Card {
        key_figures: Vec::new(),
        volumes: Vec::new(),
        groups: Vec::new(),
        times: None,
        drawing: None,
        steps: Vec::new(),
        steps_from: 1,
        lines: Vec::new(),
        beforehand: Vec::new(),
        boxes: Vec::new(),
        cautions: Vec::new(),
        back: None,
        ..side.clone()
    }
}

/// A side that holds one kind of thing, cut in two: amounts at a part or a row, steps at a part or a step, times, lines
/// and cautions in the middle.
fn halves(side: &Card) -> Option<(Card, Card)> {
    let (mut first, mut second) = (side.clone(), side.clone());
    second.key_figures.clear();
    if let Some((a, b)) = halve_groups(&side.groups) {
        (first.groups, second.groups) = (a, b);
    } else if let Some(at) = middle(side.steps.len()).map(|at| at_part(side, at)) {
        second.steps = first.steps.split_off(at);
        second.steps_from = side.steps_from + at;
        second.boxes = std::mem::take(&mut first.boxes);
    } else if let Some((a, b)) = side.times.as_ref().and_then(halve_times) {
        (first.times, second.times) = (Some(a), Some(b));
        second.boxes = std::mem::take(&mut first.boxes);
    } else if let Some(at) = middle(side.lines.len()) {
        second.lines = first.lines.split_off(at);
        second.boxes = std::mem::take(&mut first.boxes);
    } else if let Some(at) = middle(side.beforehand.len()) {
        second.beforehand = first.beforehand.split_off(at);
    } else if let Some(at) = middle(side.cautions.len()) {
        second.cautions = first.cautions.split_off(at);
    } else {
        return None;
    }
    Some((first, second))
}

fn middle(count: usize) -> Option<usize> {
    (count > 1).then(|| count.div_ceil(2))
}

/// The beginning of a part near the middle of the steps; the middle where none is near.
fn at_part(side: &Card, middle: usize) -> usize {
    let begins = |at: usize| {
        let before = at.checked_sub(1).and_then(|before| side.steps.get(before));
        side.steps
            .get(at)
            .zip(before)
            .is_some_and(|(here, before)| here.part != before.part)
    };
    let near = middle.div_ceil(2);
    (0..=near)
        .flat_map(|off| [middle + off, middle.saturating_sub(off)])
        .find(|at| begins(*at))
        .unwrap_or(middle)
}

fn halve_groups(groups: &[AmountGroup]) -> Option<(Vec<AmountGroup>, Vec<AmountGroup>)> {
    if let [group] = groups {
        let at = middle(group.rows.len())?;
        let part = |rows: &[_]| {
            vec![AmountGroup {
                name: group.name.clone(),
                rows: rows.to_vec(),
            }]
        };
        let (a, b) = group.rows.split_at_checked(at)?;
        return Some((part(a), part(b)));
    }
    // Where the rows before first come to half of all.
    let rows: usize = groups.iter().map(|group| group.rows.len()).sum();
    let mut before = 0;
    let at = groups.iter().position(|group| {
        before += group.rows.len();
        before * 2 >= rows
    })?;
    let (a, b) = groups.split_at_checked((at + 1).min(groups.len().saturating_sub(1)))?;
    (!a.is_empty() && !b.is_empty()).then(|| (a.to_vec(), b.to_vec()))
}

fn halve_times(times: &Times) -> Option<(Times, Times)> {
    let at = middle(times.rows.len())?;
    let (a, b) = times.rows.split_at_checked(at)?;
    let with = |rows: &[_]| Times {
        rows: rows.to_vec(),
        ..times.clone()
    };
    Some((with(a), with(b)))
}

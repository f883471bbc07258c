//! Who does what while a class takes its sheets through a line: a card for each person, by the line and the people.
//!
//! One keeps the baths and one the clock and the lamp, from four people on; before that one keeps both. The others stand at
//! the trays, each at neighbouring ones, shared out so that the longest stretch is as short as it can be; who is left over
//! loads. Common practice, no source.

use crate::notebook::{Block, Body, Duration, Process, ProcessStep, StepKind, StepLight};
use crate::units::{Digits, Dimension, Range, show};

use super::card::{Card, CardKind, Line};
use super::common::Common;
use super::process_card::{bath_of, line_cautions, row};
use super::steps::listed;
use super::words::Words;

/// From how many people on the baths and the clock are two persons' work.
const APART: usize = 4;
/// Washing and drying need a hand now and then, not one all the time, s.
const NOW_AND_THEN: f64 = 60.0;
/// More people than this are two classes.
const CROWD: usize = 40;

/// The cards of a line for so many people; none for one alone, who does everything.
pub(super) fn cards(common: &Common<'_>, block: &Block, process: &Process, people: usize) -> Vec<Card> {
    let people = people.min(CROWD);
    if people < 2 || process.steps.is_empty() {
        return Vec::new();
    }
    let keepers = if people < APART { 1 } else { 2 };
    let spans = share_out(&weights(common, process), people - keepers);
    let mut cards = if keepers == 1 {
        vec![keeper(common, block, process, true, true)]
    } else {
        vec![
            keeper(common, block, process, true, false),
            keeper(common, block, process, false, true),
        ]
    };
    cards.extend(
        spans
            .iter()
            .map(|span| at_trays(common, block, process, span.clone())),
    );
    let over = people - cards.len();
    cards.extend((0..over).map(|_| loader(common, block)));
    let of = cards.len();
    for (at, card) in cards.iter_mut().enumerate() {
        let number = (at + 1).to_string();
        // No block's id holds a point, so this one is nobody else's.
        card.id = format!("{}.{number}", block.id);
        card.role = Words::fill_all(
            common.words.kinds.person,
            &[block.name(), &number, &of.to_string()],
        );
        card.boxes = vec![common.words.kinds.name.to_owned()];
    }
    cards
}

/// How long each step keeps a pair of hands, s.
fn weights(common: &Common<'_>, process: &Process) -> Vec<f64> {
    let seconds = |step: &ProcessStep| {
        let stated = match step.time.get().map(|time| &time.value) {
            Some(Duration::Takes(time)) => Some(time.range.best),
            _ => bath_of(common, step)
                .and_then(|bath| bath.recipe.usage.time.get())
                .map(|time| time.range.best),
        };
        let seconds = stated.unwrap_or(NOW_AND_THEN).max(1.0);
        match step.kind {
            StepKind::Wash | StepKind::Dry => seconds.min(NOW_AND_THEN),
            _ => seconds,
        }
    };
    process.steps.iter().map(seconds).collect()
}

/// Neighbouring steps for each of at most `hands` people, so that the longest stretch is as short as it can be.
fn share_out(weights: &[f64], hands: usize) -> Vec<std::ops::Range<usize>> {
    let hands = hands.min(weights.len()).max(1);
    let sum = |span: std::ops::Range<usize>| weights.get(span).map_or(0.0, |part| part.iter().sum::<f64>());
    // The limits worth trying are the sums of stretches.
    let mut limits: Vec<f64> = (0..weights.len())
        .flat_map(|from| (from + 1..=weights.len()).map(move |to| (from, to)))
        .map(|(from, to)| sum(from..to))
        .collect();
    limits.sort_by(f64::total_cmp);
    limits
        .into_iter()
        .map(|limit| packed(weights, limit, hands))
        .find(|spans| spans.len() <= hands)
        .unwrap_or_else(|| packed(weights, f64::INFINITY, 1))
}

/// Stretches no longer than `limit`, filled from the left; a step is kept for each of the hands still to come.
fn packed(weights: &[f64], limit: f64, hands: usize) -> Vec<std::ops::Range<usize>> {
    let mut spans: Vec<std::ops::Range<usize>> = Vec::new();
    let mut held = 0.0;
    for (at, weight) in weights.iter().enumerate() {
        let waiting = hands.saturating_sub(spans.len());
        let spare = weights.len() - at > waiting;
        match spans.last_mut() {
            Some(span) if held + weight <= limit + 1e-9 && spare => {
                span.end = at + 1;
                held += weight;
            }
            _ => {
                spans.push(at..at + 1);
                held = *weight;
            }
        }
    }
    spans
}

/// Who keeps the baths, the clock and lamp, or both.
fn keeper(common: &Common<'_>, block: &Block, process: &Process, baths: bool, clock: bool) -> Card {
    let words = &common.words.kinds;
    let mut lines = Vec::new();
    if baths {
        let names = names(common, process);
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        if !names.is_empty() {
            let all = listed(&names, common.words.card.and);
            lines.push(Line::new(words.before, Words::fill(words.mix, &all)));
        }
    }
    if clock {
        lines.push(Line::new(words.before, words.lamp_on));
    }
    if baths {
        lines.push(Line::new(words.during, words.write_times));
    }
    if clock {
        if let Some(longest) = longest(common, block) {
            lines.push(Line::new(words.during, Words::fill(words.call_times, &longest)));
        }
        let mut steps = process.steps.iter().rev();
        let last = steps.find(|step| matches!(step.lit(), Some(StepLight::Red | StepLight::Dark)));
        lines.extend(last.map(|last| {
            let what = row(common, last).what;
            Line::new(words.after, Words::fill(words.room_light, &what))
        }));
    }
    if baths {
        lines.push(Line::new(words.after, words.pour_away));
    }
    let title = match (baths, clock) {
        (true, true) => words.lead_and_clock,
        (true, false) => words.lead,
        _ => words.clock,
    };
    Card {
        title: title.to_owned(),
        lines,
        cautions: if baths {
            line_cautions(common, block, &process.steps)
        } else {
            line_cautions(common, block, &[])
        },
        ..common.blank(block, CardKind::Role)
    }
}

/// How long a sheet may lie under the lamp: as the tested lamp allows, where there is one, else as the line takes.
fn longest(common: &Common<'_>, block: &Block) -> Option<String> {
    let lamps = common
        .notebook
        .blocks
        .iter()
        .filter(|lamp| matches!(lamp.body, Body::Safelight(_)));
    let safe = lamps
        .filter_map(|lamp| common.facts.get(&lamp.id, "safe-time")?.range())
        .map(|safe| safe.best)
        .reduce(f64::min);
    let under = || {
        common
            .facts
            .get(&block.id, "under-lamp")?
            .range()
            .map(|under| under.high)
    };
    let seconds = safe.or_else(under).filter(|seconds| *seconds > 0.0)?;
    Some(show(
        Range::exact(libm::floor(seconds / 60.0).max(1.0) * 60.0),
        Dimension::Time,
        Digits::Significant(3),
        common.style,
    ))
}

/// The baths of a line, each once, by what they are called.
fn names(common: &Common<'_>, process: &Process) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for bath in process.steps.iter().filter_map(|step| bath_of(common, step)) {
        let block = common.notebook.block(&bath.id);
        let name = block.map_or(bath.id.as_str(), Block::name).to_owned();
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// Who stands at some neighbouring trays.
fn at_trays(common: &Common<'_>, block: &Block, process: &Process, span: std::ops::Range<usize>) -> Card {
    let words = &common.words.kinds;
    let steps = process.steps.get(span.clone()).unwrap_or_default();
    let rows: Vec<_> = steps.iter().map(|step| row(common, step)).collect();
    let mut what: Vec<&str> = rows.iter().map(|row| row.what.as_str()).collect();
    what.dedup();
    let called = |at: usize| process.steps.get(at).map(|step| row(common, step).what);
    let before = span.start.checked_sub(1).and_then(called);
    let after = called(span.end);
    let mut lines: Vec<Line> = steps
        .iter()
        .zip(&rows)
        .filter_map(|(step, row)| Some(Line::new(&row.what, step.agitation.get()?.value.clone())))
        .collect();
    lines.extend(before.map(|before| Line::new(words.takes_from, before)));
    lines.extend(after.map(|after| Line::new(words.hands_to, after)));
    Card {
        title: listed(&what, common.words.card.and),
        steps_from: span.start + 1,
        lines,
        cautions: line_cautions(common, block, steps),
        steps: rows,
        ..common.blank(block, CardKind::Role)
    }
}

/// Who loads and unloads.
fn loader(common: &Common<'_>, block: &Block) -> Card {
    let words = &common.words.kinds;
    Card {
        title: words.loader.to_owned(),
        lines: vec![
            Line::new(words.during, words.load),
            Line::new(words.hands_to, words.hand_over),
        ],
        cautions: line_cautions(common, block, &[]),
        ..common.blank(block, CardKind::Role)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_longest_stretch_is_as_short_as_it_can_be() {
        // 4 min, three short ones, 1 min, 1 min: by hand, two people are best off at 4 min | the rest.
        let weights = [240.0, 20.0, 30.0, 30.0, 60.0, 60.0];
        assert_eq!(share_out(&weights, 2), [0..1, 1..6]);
        assert_eq!(share_out(&weights, 1).first(), Some(&(0..6)));
        assert_eq!(share_out(&weights, 9).len(), 6);
    }

    proptest! {
        #[test]
        fn every_tray_has_one_person_and_nobody_has_none(
            weights in proptest::collection::vec(1.0..600.0f64, 1..14), hands in 1usize..14,
        ) {
            let spans = share_out(&weights, hands);
            prop_assert_eq!(spans.len(), hands.min(weights.len()));
            let mut next = 0;
            for span in &spans {
                prop_assert!(span.start == next && span.end > span.start);
                next = span.end;
            }
            prop_assert_eq!(next, weights.len());
            // Nobody does better: all ways to cut, for short lines.
            let worst = |spans: &[std::ops::Range<usize>]| spans.iter()
                .map(|span| weights[span.clone()].iter().sum::<f64>()).fold(0.0, f64::max);
            if weights.len() <= 8 {
                let cuts = weights.len() - 1;
                let best = (0u32..1 << cuts)
                    .filter(|set| set.count_ones() as usize + 1 == spans.len())
                    .map(|set| {
                        let mut from = 0;
                        let mut all = Vec::new();
                        for at in 0..cuts {
                            if set >> at & 1 == 1 { all.push(from..at + 1); from = at + 1; }
                        }
                        all.push(from..weights.len());
                        worst(&all)
                    })
                    .fold(f64::INFINITY, f64::min);
                prop_assert!(worst(&spans) <= best + 1e-6, "{:?} {} {}", spans, worst(&spans), best);
            }
        }
    }
}

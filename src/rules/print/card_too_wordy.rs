//! More words than are read with wet hands.

use crate::finding::{Grade, slug};
use crate::notebook::{Block, Body, Kind};
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::{Span, Spanned};

/// Words of the author's own on the side of a card that is read at work: forty, less the fixed ones around them, which are
/// the labels, figures and boxes. Common practice, no source.
const OF_A_BATH: usize = 24;
const OF_A_CAMERA: usize = 18;
const OF_A_LAMP: usize = 14;
/// Characters of a line that are quoted.
const QUOTED: usize = 48;

pub(super) const RULE: Rule = Rule {
    name: slug::CARD_TOO_WORDY,
    grade: Grade::Hint,
    group: Group::Print,
    looks_for: "A recipe, camera or safelight whose own words take up more of its card than is read while working: of a \
                recipe its name, `agitation` and `see`, of a camera its name and `note`, of a safelight its name, `lamp` \
                and `note`.",
    why: "A card is read with wet hands, in red light, by somebody who counts seconds. Forty words a side are about what is \
          read then. The fixed words take their part of them; amounts, times and safety lines are not counted.",
    instead: "Cut the lines that are quoted to what the hands need, and keep the reasons on the page.",
    threshold: Some("24 words of its own for a recipe, 18 for a camera, 14 for a safelight."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```camera
id: long-box
title: Long box
pinhole: 0.3 mm
distance: 60 mm
format: 100×125 mm
note: The lid sticks when it is damp, so warm it in your hands first, then turn it to the left and pull.
```
",
        ),
        Example::good(
            "
```camera
id: long-box
title: Long box
pinhole: 0.3 mm
distance: 60 mm
format: 100×125 mm
note: Damp lid? Warm it, turn left, pull.
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let kinds = [Kind::Recipe, Kind::Camera, Kind::Safelight];
    for block in kinds.into_iter().flat_map(|kind| context.notebook.of_kind(kind)) {
        let text = |slot: &crate::notebook::Slot<Spanned<String>>| {
            slot.get().map(|text| (text.span, text.value.clone()))
        };
        let (budget, lines) = match &block.body {
            // As the recipe is made: what it is based on may say the rest.
            Body::Recipe(_) => {
                let Some(bath) = context.facts.baths.get(&block.id) else {
                    continue;
                };
                let usage = &bath.recipe.usage;
                (OF_A_BATH, vec![text(&usage.agitation), text(&usage.see)])
            }
            Body::Camera(_) => (OF_A_CAMERA, vec![note(block)]),
            Body::Safelight(lamp) => (OF_A_LAMP, vec![text(&lamp.lamp), note(block)]),
            _ => continue,
        };
        let lines: Vec<(Span, String)> = lines.into_iter().flatten().collect();
        told(block, budget, lines, report);
    }
}

fn note(block: &Block) -> Option<(Span, String)> {
    block.note.as_ref().map(|note| (note.span, note.value.clone()))
}

fn told(block: &Block, budget: usize, mut lines: Vec<(Span, String)>, report: &mut Report) {
    lines.sort_by_key(|(_, text)| std::cmp::Reverse(words(text)));
    // Where all of it was taken over, the base answers for it.
    let Some(place) = place(block, lines.iter().map(|(span, _)| *span)) else {
        return;
    };
    let name = (block.head, block.name().to_owned());
    let count: usize = lines.iter().chain([&name]).map(|(_, text)| words(text)).sum();
    if count <= budget {
        return;
    }
    let longest: Vec<String> = lines
        .iter()
        .take(2)
        .map(|(_, text)| format!("“{}” ({} words)", quoted(text), words(text)))
        .collect();
    let over = count - budget;
    report.add(
        report
            .finding(
                place,
                format!("{count} words of your own on one side of the card, {over} more than are read with wet hands"),
            )
            .help(format!("cut {over} from {}", longest.join(" and "))),
    );
}

/// Words as they are read: a figure with its unit is one.
fn words(text: &str) -> usize {
    let words = text.split_whitespace();
    words.filter(|word| word.chars().any(char::is_alphabetic)).count()
}

fn quoted(text: &str) -> String {
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    match text.char_indices().nth(QUOTED) {
        Some((cut, _)) => format!("{}…", text.get(..cut).unwrap_or_default().trim_end()),
        None => text,
    }
}

//! A used fixer sent down a drain that nobody was asked about.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SILVER_DOWN_DRAIN,
    grade: Grade::Fault,
    group: Group::Room,
    looks_for: "A fixer with thiosulfate whose `waste` sends it down a drain, while `drain` does not say who was asked, when, and what the answer was; or sends it to a septic tank or a garden.",
    why: "A single sheet brings a litre of fresh fixer over 5 mg of silver, the limit that many places set. Only those who run the drain can allow more, and a septic tank or a garden has no such limit: silver kills what lives in it.",
    instead: "Collect it: `waste: labelled can, to the collection point`. Or ask the authority and write who, when and the answer under `drain`.",
    threshold: Some(
        "Any fixer with thiosulfate; words such as sink, drain, toilet, sewer, septic or garden in `waste` that are not denied.",
    ),
    sureness: Sureness::Published,
    sources: &["EPA 530-K-99-002, photo processing waste"],
    examples: &[
        Example::bad(
            "
title: A test
zone: Europe/London
---8<---
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Pour it down the sink.
```
",
        ),
        Example::bad(
            "
title: A test
zone: Europe/London
drain:
  asked: Harbour Water Office
  on: 2031-03-03
  answer: Up to two litres a week to the sewer.
---8<---
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: To the garden.
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
---8<---
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point. Never to the sink or the garden.
```
",
        ),
        Example::good(
            "
title: A test
zone: Europe/London
drain:
  asked: Harbour Water Office
  on: 2031-03-03
  answer: Up to two litres a week to the sewer.
---8<---
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: To the sewer, two litres a week.
```
",
        ),
    ],
    check: Some(check),
};

/// Ways into a drain, which an authority may allow.
const DRAINS: &[&str] = &["drain", "gully", "gutter", "loo", "sewer", "sink", "toilet"];
/// Ways that nobody allows.
const NEVER: &[&str] = &["garden", "septic", "soakaway"];
/// Words that deny, or leave it to be asked.
const DENIED: &[&str] = &["ask", "avoid", "never", "no", "nor", "not", "unless", "without"];

fn check(context: &Context<'_>, report: &mut Report) {
    let drain = &context.notebook.settings.drain;
    let answered = drain.is_broken()
        || drain.get().is_some_and(|drain| {
            !drain.asked.is_absent() && !drain.on.is_absent() && !drain.answer.is_absent()
        });
    for (block, bath) in context.baths() {
        let Some(waste) = bath.recipe.waste.get() else {
            continue;
        };
        if bath.first(Property::Thiosulfate).is_none() {
            continue;
        }
        let Some(span) = place(block, [waste.span]) else {
            continue;
        };
        let (never, down) = (sent(&waste.value, NEVER), sent(&waste.value, DRAINS));
        let message = match (never, down) {
            (Some(word), _) => format!("used fixer holds silver, which a {word} never takes"),
            (None, Some(word)) if !answered => {
                format!("used fixer holds silver, and no authority's answer allows it into the {word}")
            }
            _ => continue,
        };
        report.add(report.finding(span, message).help(
            "write `waste: labelled can, to the collection point`, or ask the authority and note who, when and the answer under `drain`",
        ));
    }
}

/// The first of these words in a sentence that does not deny it.
fn sent<'w>(text: &str, words: &[&'w str]) -> Option<&'w str> {
    let text = text.to_lowercase();
    text.split(['.', ';', '!', '?']).find_map(|sentence| {
        let said: Vec<&str> = sentence.split(|c: char| !c.is_alphanumeric()).collect();
        if said.iter().any(|word| DENIED.contains(word)) {
            return None;
        }
        words.iter().copied().find(|word| said.contains(word))
    })
}

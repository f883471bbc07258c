//! A fixer that does not say where its silver goes.

use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::{head, own};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::SILVER_WASTE_MISSING,
    grade: Grade::Doubt,
    group: Group::Room,
    looks_for: "A fixer with thiosulfate and no `waste`, in a notebook without an answer under `drain`.",
    why: "A single sheet brings a litre of fresh fixer over 5 mg of silver, the limit that many places set. It \
              must not go to a septic tank or a garden, and in most places not to the sink.",
    instead: "Write where it is collected: `waste: labelled can, to the collection point`.",
    threshold: Some("Any fixer with thiosulfate."),
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
waste: Labelled can, to the collection point.
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    // What the authority answered once holds for every fixer of the notebook.
    let drain = context.notebook.settings.drain.get();
    if drain.is_some_and(|drain| !drain.answer.is_absent()) {
        return;
    }
    for (block, bath) in context.baths() {
        let fixes = bath.role() == Some(Role::Fixer) && bath.first(Property::Thiosulfate).is_some();
        if fixes && own(bath) && bath.recipe.waste.is_absent() {
            report.add(
                report
                    .finding(
                        head(block, bath),
                        "used fixer holds silver, and nothing says where it goes",
                    )
                    .help("write `waste: labelled can, to the collection point`, as your authority told you"),
            );
        }
    }
}

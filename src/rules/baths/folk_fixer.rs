//! A fixer that does not fix.

use crate::facts::Known;
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::{head, own, place};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::FOLK_FIXER,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A fixer without any salt that dissolves silver: salt, onion, lemon.",
    why: "They leave the silver salt in the sheet. Prints from an onion bath went brown within a day.",
    instead: "Use hypo: 200 g of crystals in a litre. Or call the result unfixed and keep it in the dark.",
    threshold: None,
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  plain salt: 300 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  onion juice: 500 ml
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::good(
            "
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
    for (block, bath) in context.baths() {
        if bath.role() != Some(Role::Fixer) || !own(bath) || bath.doses.is_empty() {
            continue;
        }
        let may = bath.doses.iter().any(|dose| {
            dose.is(Property::SilverSolvent)
                || matches!(
                    dose.known,
                    Known::Unknown { .. } | Known::Ambiguous { .. } | Known::NeedsForm { .. }
                )
        });
        if may {
            continue;
        }
        let folk = bath.first(Property::FolkFixer).map(|dose| dose.name.span);
        let span = place(block, folk).unwrap_or_else(|| head(block, bath));
        report.add(
            report
                .finding(
                    span,
                    "nothing in this bath dissolves silver salt: it does not fix",
                )
                .help("use `hypo, crystals: 200 g` in a litre"),
        );
    }
}

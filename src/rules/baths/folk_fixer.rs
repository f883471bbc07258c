//! A fixer that does not fix.

use crate::facts::{Bath, Known};
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
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
    for mixture in context.mixed {
        let judged = mixture.judged(|bath| fixes_nothing(bath).then_some(RULE.grade));
        if judged.is_none() || !mixture.own() {
            continue;
        }
        let folk = mixture.bath.first(Property::FolkFixer);
        let folk = folk.map(|dose| dose.name.span);
        let span = place(mixture.block, folk).unwrap_or_else(|| mixture.head());
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

/// Whether a fixer holds something, and nothing that is or may be a solvent of silver salts.
fn fixes_nothing(bath: &Bath) -> bool {
    let may = bath.doses.iter().any(|dose| {
        dose.is(Property::SilverSolvent)
            || matches!(
                dose.known,
                Known::Unknown { .. } | Known::Ambiguous { .. } | Known::NeedsForm { .. }
            )
    });
    bath.role() == Some(Role::Fixer) && !bath.doses.is_empty() && !may
}

//! Hypo that does not say how much water it holds.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::form::{equals, report_missing};

pub(super) const RULE: Rule = Rule {
    name: slug::HYPO_FORM_MISSING,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "Hypo that does not say its form: crystals or anhydrous.",
    why: "Crystals hold five molecules of water: 127 g of dry powder do the work of 200 g of crystals. Weighed the wrong \
          way round, the fixer is weak and the sheets turn brown.",
    instead: "Read the packet and write `hypo, crystals` or `hypo, anhydrous`.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &["The Darkroom Cookbook, 3rd edition (conversions of thiosulfate)"],
    examples: &[
        Example::bad(
            "
```recipe
id: some-hypo
role: fixer
makes: 1 l
add:
  hypo: 200 g
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
  hypo, anhydrous: 127 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    report_missing(
        context,
        report,
        |dose| dose.is(Property::Thiosulfate),
        |notebook, dose, forms| {
            let name = &dose.name.value;
            let message = format!("`{name}` comes as crystals or dry: which is meant?");
            let write = format!("write `{name}, crystals` or `{name}, anhydrous`");
            let help = match equals(notebook, dose, forms) {
                Some(equals) => format!("{write}, as the packet says: {equals}"),
                None => format!("{write}, as the packet says"),
            };
            (message, help)
        },
    );
}

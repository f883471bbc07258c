//! Any other salt that does not say how much water it holds.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::form::{equals, report_missing};

pub(super) const RULE: Rule = Rule {
    name: slug::FORM_MISSING,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "A material other than soda and hypo that is sold in several forms and does not say which.",
    why: "The forms hold different amounts of water, so the same grams are a different amount of salt.",
    instead: "Write the form after the name, as the packet says it.",
    threshold: None,
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: buffer
role: stock
makes: 1 l
water: 800 ml
add:
  sodium metaborate: 20 g
keeps: 4 weeks
```
",
        ),
        Example::good(
            "
```recipe
id: buffer
role: stock
makes: 1 l
water: 800 ml
add:
  NaBO2·4H2O: 20 g
keeps: 4 weeks
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
        |dose| !dose.is(Property::Carbonate) && !dose.is(Property::Thiosulfate),
        |notebook, dose, forms| {
            let names: Vec<String> = forms.iter().map(|form| format!("`{form}`")).collect();
            let message = format!("`{}` is sold in several forms: which is meant?", dose.name.value);
            let write = format!("write {}", names.join(" or "));
            let help = match equals(notebook, dose, forms) {
                Some(equals) => format!("{write}: {equals}"),
                None => write,
            };
            (message, help)
        },
    );
}

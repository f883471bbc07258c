//! Washing soda that does not say how much water it holds.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

use super::form::{equals, report_missing};

pub(super) const RULE: Rule = Rule {
    name: slug::SODA_FORM_MISSING,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "Washing soda that does not say its form: anhydrous, monohydrate or crystals.",
    why: "Crystals are more than half water. 50 g of crystals where 50 g of dry powder was meant bring little more than \
          a third of the alkali, and the picture comes slow and thin.",
    instead: "Read the packet and write `washing soda, crystals` or `washing soda, anhydrous`. 1 g anhydrous is 1.17 g \
              monohydrate is 2.70 g crystals. An unmarked packet is told by the oven: baked until it gets no lighter, \
              anhydrous loses nothing, monohydrate 14.5 % of its weight, baking soda 36.9 %, crystals 63.0 %; \
              `trayside mix RECIPE --baked \"100 g: 64 g\"` reads the two weighings.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &["The Darkroom Cookbook, 3rd edition (conversions of carbonate)"],
    examples: &[
        Example::bad(
            "
```recipe
id: some-soda
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda: 36 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
```
",
        ),
        Example::good(
            "
```recipe
id: crystals
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, crystals: 97.2 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      vitamin C powder: 12 g
    steps:
      - dissolve: 2 min
steps:
  - pour: [agent, into alkali]
  - make up
keeps: 1 h
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
        |dose| dose.is(Property::Carbonate),
        |notebook, dose, forms| {
            let name = &dose.name.value;
            let message = format!("`{name}` comes dry or as crystals: which is meant?");
            let write = format!("write `{name}, crystals` or `{name}, anhydrous`");
            let help = match equals(notebook, dose, forms) {
                Some(equals) => format!("{write}, as the packet says: {equals}"),
                None => format!("{write}, as the packet says"),
            };
            (message, help)
        },
    );
}

//! An acid in a sulfite bath that is too much for it.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{acid_equivalents, alkali_equivalents, contents, moles};

pub(super) const RULE: Rule = Rule {
    name: slug::ACID_INTO_SULFITE,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "A concentrated acid with a sulfite or thiosulfate, or more acid than the sulfite takes up.",
    why: "Acid frees sulfur dioxide from sulfite. The more acid, the more gas; a concentrated acid does it in \
              one breath.",
    instead: "Use less acid, diluted first, added last and slowly. Nobody with asthma mixes it.",
    threshold: Some(
        "A concentrated acid is a hazard. More acid, in equivalents, than sulfite and alkali together is a \
              doubt.",
    ),
    sureness: Sureness::Computed,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: sour-aid
role: wash aid
makes: 1 l
add:
  sodium sulfite: 10 g
  glacial acetic acid: 10 ml
keeps: 8 h
acknowledge:
  acid-concentrated: shown here for what it does to sulfite
```
",
        ),
        Example::good(
            "
```recipe
id: plain-aid
role: wash aid
makes: 1 l
add:
  sodium sulfite: 20 g
keeps: 8 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let sulfite = mixture.may_hold(context, Property::Sulfite);
        let thiosulfate = mixture.may_hold(context, Property::Thiosulfate);
        let Some(salt) = sulfite.or(thiosulfate) else {
            continue;
        };
        if let Some(acid) = mixture.may_burn(context) {
            // Unprotected hypo with any acid is told by its own rule.
            if let (true, Some(span)) = (sulfite.is_some(), mixture.at([acid, salt])) {
                let message = format!(
                    "`{}` is too strong to add to `{}`: it frees sulfur dioxide at once",
                    acid.name.value, salt.name.value
                );
                report.add(
                    report
                        .finding(span, message)
                        .help("use vinegar or citric acid, diluted first, added last and slowly"),
                );
            }
            continue;
        }
        let plain = mixture.bath.doses.iter().find(|dose| {
            dose.is(Property::Acid) && !dose.is(Property::Sulfite) && !dose.is(Property::Ascorbate)
        });
        let (Some(acid), None, Some(held)) = (plain, thiosulfate, contents(context.notebook, &mixture.bath))
        else {
            continue;
        };
        if moles(&held, acid_equivalents).best <= 2.0 * moles(&held, alkali_equivalents).best {
            continue;
        }
        if let Some(span) = mixture.at([acid, salt]) {
            let message = format!(
                "there is more acid in `{}` than `{}` takes up: it gives off sulfur dioxide",
                acid.name.value, salt.name.value
            );
            report.add(
                report
                    .graded(Grade::Doubt, span, message)
                    .help(format!("use less `{}`, or none", acid.name.value)),
            );
        }
    }
}

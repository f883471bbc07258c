//! A step that names a part which the recipe does not have.

use crate::finding::{Grade, slug};
use crate::notebook::{Body, Part, nearest};
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};

pub(super) const RULE: Rule = Rule {
    name: slug::PART_UNKNOWN,
    grade: Grade::Fault,
    group: Group::Baths,
    looks_for: "A step that pours or combines a part which the recipe does not have.",
    why: "Whoever mixes from the card stands before jugs that are named otherwise, and the time of the whole cannot be \
          told from parts that are not there.",
    instead: "Write the name of the part as it stands under `parts`.",
    threshold: None,
    sureness: Sureness::Language,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: two-jugs
role: rinse
makes: 1 l
parts:
  - name: warm
    water: 400 ml at 30 °C
  - name: cold
    water: 400 ml at 15 °C
steps:
  - combine: [warm, cool]
  - make up
```
",
        ),
        Example::good(
            "
```recipe
id: two-jugs
role: rinse
makes: 1 l
parts:
  - name: warm
    water: 400 ml at 30 °C
  - name: cold
    water: 400 ml at 15 °C
steps:
  - combine: [warm, cold]
  - make up
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    for (block, bath) in context.baths() {
        let Body::Recipe(own) = &block.body else { continue };
        let parts = &bath.recipe.parts;
        let unread = parts.is_empty() || !bath.complete || parts.iter().any(|part| part.name.get().is_none());
        if unread {
            continue;
        }
        let names = || {
            parts
                .iter()
                .filter_map(|part: &Part| part.name.get())
                .map(|name| name.value.as_str())
        };
        // Steps that a base supplies are read where they stand.
        let steps = own
            .steps
            .iter()
            .chain(own.parts.iter().flat_map(|part| &part.steps));
        for named in steps.flat_map(|step| &step.parts) {
            if names().any(|name| name == named.value) {
                continue;
            }
            let message = format!("this recipe has no part `{}`", named.value);
            let finding = report.finding(named.span, message);
            let finding = if let Some(near) = nearest(&named.value, names()) {
                finding
                    .help(format!("did you mean `{near}`?"))
                    .replace(named.span, near)
            } else {
                let known: Vec<String> = names().map(|name| format!("`{name}`")).collect();
                finding.help(format!("its parts are {}", known.join(", ")))
            };
            report.add(finding);
        }
    }
}

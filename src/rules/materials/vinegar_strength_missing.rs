//! Vinegar, or acetic acid, without its strength.

use crate::facts::Dose;
use crate::finding::{Grade, slug};
use crate::notebook::Notebook;
use crate::rules::burning_acid::holds_acetic;
use crate::rules::context::{Context, Report};
use crate::rules::figures::number;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Digits, Dimension, Range, show};

use super::strength::unsaid;

pub(super) const RULE: Rule = Rule {
    name: slug::VINEGAR_STRENGTH_MISSING,
    grade: Grade::Fault,
    group: Group::Materials,
    looks_for: "Vinegar or acetic acid without the per cent that stands on its label.",
    why: "Vinegar is sold from 4 % to well over 10 %, acetic acid up to 100 %. The stop will be as strong as the bottle: \
          too weak and it is spent after a few sheets, too strong and gas blisters the layer.",
    instead: "Copy the number from the label: `vinegar 8 %`. A litre of 1 % stop takes 200 ml of 5 %, 125 ml of 8 % or \
              100 ml of 10 %.",
    threshold: None,
    sureness: Sureness::Published,
    sources: &["FDA CPG 525.825, vinegar (at least 4 g of acetic acid in 100 ml)"],
    examples: &[
        Example::bad(
            "
```recipe
id: some-vinegar
role: stop
makes: 1 l
add:
  vinegar: 150 ml
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-vinegar
role: stop
makes: 1 l
add:
  vinegar 8 %: 150 ml
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

fn check(context: &Context<'_>, report: &mut Report) {
    let notebook = context.notebook;
    for mixture in context.mixed {
        let open = |dose: &Dose| unsaid(dose).is_some_and(|material| holds_acetic(notebook, material));
        for dose in mixture.spoken_of(open) {
            let Some(span) = place(mixture.block, [dose.name.span]) else {
                continue;
            };
            let message = format!("`{}` does not say how strong it is", dose.name.value);
            let help = format!(
                "copy the per cent from the label, such as `{} 5 %`{}",
                dose.name.value,
                spread(notebook, dose, mixture.bath.litres())
            );
            report.add(report.finding(span, message).help(help));
        }
    }
}

/// What the measure makes with a weak and a strong bottle.
fn spread(notebook: &Notebook, dose: &Dose, litres: Option<Range>) -> String {
    let (Some(litres), Dimension::Volume) = (litres, dose.amount.dimension) else {
        return String::new();
    };
    let style = notebook.settings.style;
    let share = dose.amount.range.best / litres.best;
    let measure = show(
        dose.amount.range,
        Dimension::Volume,
        Digits::Significant(3),
        style,
    );
    format!(
        ": {measure} of a 5 % bottle make a {} % bath, of a 10 % bottle {} %",
        number(share * 5.0, 2, style),
        number(share * 10.0, 2, style)
    )
}

//! Acid in a thiosulfate bath that nothing protects.

use crate::facts::{Bath, Dose};
use crate::finding::{Grade, slug};
use crate::notebook::Notebook;
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{acid_equivalents, alkali_equivalents, contents, moles, sulfite};

pub(super) const RULE: Rule = Rule {
    name: slug::ACID_INTO_HYPO,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "An acid in a bath with hypo or another thiosulfate, where no sulfite protects it.",
    why: "Acid breaks thiosulfate up: the bath turns milky with sulfur and gives off sulfur dioxide, a sharp gas that \
          takes the breath and can be dangerous with asthma. The bath is lost as well.",
    instead: "Leave hypo plain and rinse between stop and fixer. A real acid fixer holds sulfite, at least 6.3 g of \
              sodium sulfite in a litre, dissolved before the acid goes in.",
    threshold: Some(
        "Any acid with less than 0.05 mol of sulfite in a litre; or more than three times the acid that alkali and sulfite together take up.",
    ),
    sureness: Sureness::Practice,
    sources: &["US Navy training manual 14209 (fixers are sulfurised by acid carried over from the stop)"],
    examples: &[
        Example::bad(
            "
```recipe
id: sour-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
  vinegar 8 %: 100 ml
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

/// How many times the acid that sulfite takes up a fixer bears before it falls to pH 3.8: weak acids hold it above.
const HELD: f64 = 3.0;

/// Moles of sulfite in a litre from which on an acid fixer holds (practice).
const PROTECTED: f64 = 0.05;

fn check(context: &Context<'_>, report: &mut Report) {
    for mixture in mixtures(context) {
        let Some(hypo) = mixture.may_hold(context, Property::Thiosulfate) else {
            continue;
        };
        let Some(acid) = sour(&mixture.bath) else { continue };
        if is_protected(context.notebook, &mixture.bath) {
            continue;
        }
        if let Some(span) = mixture.at([acid, hypo]) {
            let message = format!(
                "the acid in `{}` breaks up `{}`: sulfur, and a choking gas",
                acid.name.value, hypo.name.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help(format!("leave `{}` out and keep the hypo plain", acid.name.value))
                    .relate(hypo.name.span, "this is the thiosulfate"),
            );
        }
    }
}

/// An acid that is no sulfite. Vitamin C counts where no alkali takes its acid away.
fn sour(bath: &Bath) -> Option<&Dose> {
    let alkali = bath.first(Property::Alkali).is_some();
    bath.doses.iter().find(|dose| {
        let acid = dose.is(Property::Acid) && !dose.is(Property::Sulfite) && !dose.is(Property::Thiosulfate);
        acid && (!alkali || !dose.is(Property::Ascorbate))
    })
}

fn is_protected(notebook: &Notebook, bath: &Bath) -> bool {
    let (Some(contents), Some(litres)) = (contents(notebook, bath), bath.litres()) else {
        // Amounts that cannot be told: a sulfite of any amount is believed to be enough.
        return bath.first(Property::Sulfite).is_some();
    };
    let acid = moles(&contents, acid_equivalents).best;
    let taken_up = moles(&contents, alkali_equivalents).best;
    let sulfite = moles(&contents, sulfite).best;
    if sulfite >= PROTECTED * litres.best * 0.99 {
        return acid <= HELD * taken_up.max(sulfite);
    }
    acid < taken_up
}

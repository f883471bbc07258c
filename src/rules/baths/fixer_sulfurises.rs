//! A thiosulfate bath so acid that it breaks up.

use crate::chem::Equilibrium;
use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;
use crate::rules::what_if::as_ph;
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::FIXER_SULFURISES,
    grade: Grade::Hazard,
    group: Group::Baths,
    looks_for: "A bath with a thiosulfate whose computed pH, as it is mixed or as it is used, is below 4.5 with less than 0.05 mol of sulfite in a kilogram of water, or below 3.8 with more.",
    why: "Acid breaks thiosulfate up into sulfur and sulfur dioxide, a gas that chokes; asthmatics feel it first. The bath turns milky and harms the prints. Sulfite holds that off for a while.",
    instead: "Leave the acid out, or put in so much sulfite that the pH stays above 4.5.",
    threshold: Some("Below pH 4.5 without, below 3.8 with 0.05 mol/kg of sulfite."),
    sureness: Sureness::Practice,
    sources: &["US Navy training manual 14209 (acid carried over sulfurises a fixer)"],
    examples: &[
        Example::bad(
            "
```recipe
id: fixer
role: fixer
makes: 1 l
add:
  hypo, crystals: 250 g
  sodium bisulfite: 4 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::good(
            "
```recipe
id: fixer
role: fixer
makes: 1 l
add:
  hypo, crystals: 250 g
  sodium sulfite, anhydrous: 10 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
    ],
    check: Some(check),
};

/// Sulfite that protects, in mol/kg, and the pH without it and with it (common practice).
const PROTECTS: f64 = 0.05;
const BARE: f64 = 4.5;
const PROTECTED: f64 = 3.8;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in mixtures(context) {
        let Ok(solution) = context.facts.chemistry.solution(&mixture.block.id) else {
            continue;
        };
        // A stock stands for weeks as it was mixed, and is the more acid one.
        let undiluted = solution.undiluted.as_ref();
        let at = if undiluted.is_some_and(|stock| falls_apart(stock, stock.ph())) {
            undiluted.map(|stock| format!("undiluted, at {},", as_ph(Range::exact(stock.ph()), style)))
        } else {
            falls_apart(&solution.band.equilibrium, solution.band.best)
                .then(|| format!("at {}", as_ph(solution.ph(), style)))
        };
        let Some(at) = at else { continue };
        if told(report, mixture.block, &[slug::ACID_INTO_HYPO]) {
            continue;
        }
        let hypo = mixture.bath.first(Property::Thiosulfate);
        let acid = mixture.bath.first(Property::Acid);
        let Some(span) = mixture.at(acid.into_iter().chain(hypo)) else {
            continue;
        };
        let message = format!("{at} this fixer falls apart into sulfur and a choking gas");
        report.add(report.finding(span, message).help(
            "leave the acid out; an acid fixer wants at least 7 g of anhydrous sulfite in a litre and a pH above 4.5",
        ));
    }
}

/// Whether a bath with a thiosulfate is more acid than its sulfite protects from.
fn falls_apart(solved: &Equilibrium, ph: f64) -> bool {
    let bath = solved.bath();
    let thiosulfate = bath.concentration("thiosulfuric").moles_per_kilogram();
    let sulfite = bath.concentration("sulfurous").moles_per_kilogram();
    let limit = if sulfite < PROTECTS { BARE } else { PROTECTED };
    thiosulfate > 0.0 && ph < limit
}

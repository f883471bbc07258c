//! A bath with sulfite so acid that it smells of sulfur dioxide.

use crate::finding::{Grade, slug};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::mixture::mixtures;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::told::told;
use crate::rules::what_if::as_ph;

pub(super) const RULE: Rule = Rule {
    name: slug::SULFUR_DIOXIDE_FREED,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A bath with sulfite or metabisulfite whose computed pH is below 4.5.",
    why: "Below that, sulfur dioxide leaves the tray: sharp in the nose, and worse for who has asthma.",
    instead: "Keep a window open and the tray covered, or raise the pH above 4.5 with more sulfite.",
    threshold: Some("Below pH 4.5."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: acid-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
  sodium metabisulfite: 25 g
keeps: 4 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::good(
            "
```recipe
id: acid-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
  sodium sulfite, anhydrous: 15 g
keeps: 4 weeks
waste: Labelled can, to the collection point.
```
",
        ),
    ],
    check: Some(check),
};

/// Below this pH sulfite gives off gas that is noticed (common practice, no source).
const SMELLS: f64 = 4.5;
/// Sulfite that is more than a trace, in mol/kg (common practice, no source).
const TRACE: f64 = 0.005;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in mixtures(context) {
        let Ok(solution) = context.facts.chemistry.solution(&mixture.block.id) else {
            continue;
        };
        let bath = solution.band.equilibrium.bath();
        let sulfite = bath.concentration("sulfurous").moles_per_kilogram();
        if sulfite < TRACE || solution.band.best >= SMELLS {
            continue;
        }
        let causes = [
            slug::FIXER_SULFURISES,
            slug::ACID_INTO_HYPO,
            slug::ACID_INTO_SULFITE,
        ];
        if told(report, mixture.block, &causes) {
            continue;
        }
        let Some(span) = mixture.at(mixture.bath.first(Property::Sulfite)) else {
            continue;
        };
        let shown = as_ph(solution.ph(), style);
        let message =
            format!("at {shown} this bath gives off sulfur dioxide, which stings in nose and chest");
        report.add(
            report
                .finding(span, message)
                .help("open a window and cover the tray, or take more sulfite, to a pH above 4.5"),
        );
    }
}

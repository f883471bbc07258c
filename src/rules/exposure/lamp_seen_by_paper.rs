//! A lamp in a colour that the paper sees.

use std::collections::BTreeSet;

use crate::finding::{Grade, slug};
use crate::notebook::Safelight;
use crate::optics::Sees;
use crate::rules::context::{Context, Report};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::source::Span;

use super::walk::lit_sessions;

pub(super) const RULE: Rule = Rule {
    name: slug::LAMP_SEEN_BY_PAPER,
    grade: Grade::Fault,
    group: Group::Exposure,
    looks_for: "A safelight whose colour the paper it is used with sees.",
    why: "Amber and yellow lamps were made for papers that see blue alone. Paper that sees green as well, as all variable contrast paper does, fogs under them within minutes.",
    instead: "Use a deep red lamp, and test it.",
    threshold: Some(
        "Paper that sees blue alone: shorter than 580 nm, or green and blue. Other paper: shorter than 610 nm, or amber, orange, yellow too.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
sees: blue-green
```

```safelight
id: beam
lamp: red bulb
colour: amber
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
        Example::good(
            "
```paper
id: grade-2
base: RC
speed: 5
reciprocity: 1.2
sees: blue-green
```

```safelight
id: beam
lamp: red bulb
colour: red
distance: 1.3 m
tested:
  paper: grade-2
  pre-exposed: clean to 30 min
```
",
        ),
    ],
    check: Some(check),
};

/// The shortest safe wavelengths in nanometres, for paper that sees blue alone and for other paper. Common practice, no
/// source.
const SHORTEST: (f64, f64) = (580.0, 610.0);
/// Words for colours that every paper sees, and for those that only paper for blue alone does not.
const COLOURS: (&[&str], &[&str]) = (
    &["white", "blue", "green", "violet", "purple", "cyan", "pink"],
    &["amber", "yellow", "orange"],
);

fn check(context: &Context<'_>, report: &mut Report) {
    let mut told = BTreeSet::new();
    let mut look = |lamp: &crate::notebook::Block, safelight: &Safelight, paper: &str| {
        let Some((block, body)) = context.notebook.paper(paper) else {
            return;
        };
        let Some(sees) = body.sees.get() else { return };
        let blue_alone = sees.value == Sees::Blue.words();
        let Some((span, colour)) = seen(safelight, blue_alone) else {
            return;
        };
        if told.insert((lamp.id.clone(), paper.to_owned())) {
            let message = format!(
                "`{}` sees {}, and this lamp is {colour}",
                block.name(),
                sees.value
            );
            report.add(
                report
                    .finding(span, message)
                    .help("use a deep red lamp with it, and test that one")
                    .relate(sees.span, "this is what the paper sees"),
            );
        }
    };
    for (block, safelight) in context.notebook.safelights() {
        if let Some(paper) = safelight.tested.get().and_then(|test| test.paper.get()) {
            look(block, safelight, &paper.value);
        }
    }
    for lit in lit_sessions(context) {
        for paper in &lit.papers {
            look(lit.lamp, lit.safelight, paper);
        }
    }
}

/// The lamp's colour where the paper sees it, and its place.
fn seen(lamp: &Safelight, blue_alone: bool) -> Option<(Span, String)> {
    if let Some(wavelength) = lamp.wavelength.get() {
        let shortest = if blue_alone { SHORTEST.0 } else { SHORTEST.1 };
        let nanometres = wavelength.range.best * 1e6;
        return (nanometres < shortest).then(|| (wavelength.span, format!("{nanometres:.0} nm")));
    }
    let colour = lamp.colour.get()?;
    let lower = colour.value.to_lowercase();
    let mut words = lower.split(|c: char| !c.is_alphabetic());
    // `red` beside another word says which red.
    if words.clone().any(|word| word == "red") {
        return None;
    }
    let found = words.any(|word| COLOURS.0.contains(&word) || (!blue_alone && COLOURS.1.contains(&word)));
    found.then(|| (colour.span, colour.value.clone()))
}

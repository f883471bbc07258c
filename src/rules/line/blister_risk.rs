//! Soda straight into a strong stop.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::Role;
use crate::pantry::Formula;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::{LineStep, lines};
use crate::rules::substance::{acetic, carbonate, citric, contents, moles};

pub(super) const RULE: Rule = Rule {
    name: slug::BLISTER_RISK,
    grade: Grade::Doubt,
    group: Group::Line,
    looks_for: "A developer with soda followed, without a rinse, by a stop of more than 10 g of acid in a litre.",
    why: "Soda and acid make gas inside the wet layer. More than the water holds comes out as bubbles, and \
              leaves pinholes and blisters.",
    instead: "Rinse for 15 s between them, or use a stop of 10 g in a litre or less.",
    threshold: Some("Carbonate above 0.04 mol/l, acetic or citric acid above 10 g/l, no water between."),
    sureness: Sureness::Published,
    sources: &["US Navy training manual 14209 (a stop must not cause blisters)"],
    examples: &[
        Example::bad(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
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

```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 15 g
keeps: 12 h
```

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: the-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - bath: weak-stop
    time: 30 s
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
        Example::good(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
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

```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 15 g
keeps: 12 h
```

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: the-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: weak-stop
    time: 30 s
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
        Example::good(
            "
```recipe
id: rosemary
role: developer
makes: 1 l
parts:
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
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

```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
```

```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```

```process
id: the-line
paper: RC
steps:
  - bath: rosemary
    time: 4 min
    light: red
  - bath: weak-stop
    time: 30 s
    light: red
  - rinse: tap water
    time: 30 s
    light: red
  - bath: plain-hypo
    time: 2 min
    light: red
  - wash: tap water
    time: 4 min
    light: room
```
",
        ),
    ],
    check: Some(check),
};

/// Carbon dioxide that water takes at 20 °C, in mol/l.
const TAKES: f64 = 0.04;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for line in lines(context) {
        for pair in line.steps.windows(2) {
            let [developer, stop] = pair else { continue };
            if !developer.is(Role::Developer) || !stop.is(Role::Stop) {
                continue;
            }
            let soda = strength(context, developer, carbonate).unwrap_or(0.0);
            let acid = strength(context, stop, acetic).unwrap_or(0.0) * 60.052
                + strength(context, stop, citric).unwrap_or(0.0) * 192.123;
            // The same margin for rounding as where the stop itself is judged.
            if soda <= TAKES || acid <= 10.05 {
                continue;
            }
            let message = format!(
                "from soda straight into {} of acid in a litre: gas may blister the layer",
                grams(acid, style)
            );
            report.add(
                report
                    .finding(stop.step.span, message)
                    .help("put `- rinse: tap water` with `time: 15 s` before it, or halve the stop"),
            );
        }
    }
}

/// Moles in a litre of a step's bath.
fn strength(context: &Context<'_>, step: &LineStep<'_>, each: fn(&Formula) -> f64) -> Option<f64> {
    let bath: &Bath = step.bath.filter(|bath| bath.complete)?;
    let held = contents(context.notebook, bath)?;
    Some(moles(&held, each).best / bath.working_litres()?.best)
}

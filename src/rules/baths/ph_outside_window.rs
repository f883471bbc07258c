//! A developer or fixer whose pH is where it does not work.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Block, Role, Support};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::steps::alkali_follows;
use crate::rules::told::{CAUSTIC_CAUSES, WINDOW_CAUSES, told, told_as_grave};
use crate::rules::what_if::{as_ph, other_soda};
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::PH_OUTSIDE_WINDOW,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A developer or a fixer whose whole computed band of pH lies outside of the window in which such baths work.",
    why: "Too low, and the agent is not ionised: minutes become hours. Too high, and the sheet fogs, the gelatin softens and the air eats the bath within the hour. A fixer that is too alkaline goes on developing.",
    instead: "Correct the amounts. Where the bath is right and only the soda is another, take the weight of that form.",
    threshold: Some(
        "Vitamin C below 9.3 and above 11.3, plants below 9.0, soft film developers 8.2 to 10.0, acid fixers above 6.0, others above 10.2; a fault from 1.3 below, or above 12.0.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
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
      borax: 20 g
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
      Na3PO4: 60 g
    steps:
      - dissolve: 5 min
  - name: agent
    water: 200 ml at 24 °C
    add:
      sodium ascorbate: 14 g
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
",
        ),
    ],
    check: Some(check),
};

/// Where baths of a kind work: below and above which they are doubtful, and below and above which they fail.
struct Window {
    fails_below: f64,
    low: f64,
    high: f64,
    fails_above: f64,
    below: &'static str,
    above: &'static str,
}

impl Window {
    /// How grave a pH is, and what comes of it; none within the window.
    fn judge(&self, ph: Range) -> Option<(Grade, &'static str)> {
        let graded = |fails: bool| if fails { Grade::Fault } else { Grade::Doubt };
        if ph.high < self.low {
            Some((graded(ph.high < self.fails_below), self.below))
        } else {
            (ph.low > self.high).then_some((graded(ph.low > self.fails_above), self.above))
        }
    }
}

/// By the agent (common practice; the ionised share of vitamin C is computed).
const ASCORBATE: Window = Window {
    fails_below: 8.0,
    low: 9.3,
    high: 11.3,
    fails_above: 12.0,
    below: "hardly any of the vitamin C is ionised, and development is slow or never comes",
    above: "it fogs, and air ends it within the hour",
};
const PLANTS: Window = Window {
    fails_below: 8.5,
    low: 9.0,
    below: "the phenols are hardly ionised, and minutes become hours",
    ..ASCORBATE
};
const CLASSIC: Window = Window {
    fails_below: 8.5,
    below: "the agent is hardly ionised, and development is slow",
    ..ASCORBATE
};
const SOFT: Window = Window {
    fails_below: 7.5,
    low: 8.2,
    high: 10.0,
    below: "development is slow or never comes",
    above: "it is no soft developer any more",
    ..ASCORBATE
};
const ACID_FIXER: Window = Window {
    fails_below: f64::NEG_INFINITY,
    low: f64::NEG_INFINITY,
    high: 6.0,
    fails_above: f64::INFINITY,
    below: "",
    above: "it is no acid fixer: it neither stops development nor hardens",
};
const ALKALINE_FIXER: Window = Window {
    high: 10.2,
    fails_above: 11.0,
    above: "development goes on in it, and gelatin softens",
    ..ACID_FIXER
};

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let (block, bath) = (mixture.block, &*mixture.bath);
        let (Some(window), Ok(solution)) = (window(bath), context.facts.chemistry.solution(&block.id)) else {
            continue;
        };
        let answered = if mixture.is_batch() {
            told(report, block, &[slug::SWAP_WRONG_WAY])
        } else {
            answered_by_base(block, bath)
        };
        if solution.is_unbuffered() || answered || told(report, block, WINDOW_CAUSES) {
            continue;
        }
        let ph = solution.ph();
        let Some((grade, why)) = window.judge(ph) else {
            continue;
        };
        if told_as_grave(report, block, CAUSTIC_CAUSES, grade) {
            continue;
        }
        if bath.role() == Some(Role::Developer) && alkali_follows(context, bath) {
            continue;
        }
        let of_recipe = mixture.recipe().and_then(|recipe| {
            let written = context.facts.chemistry.solution(&recipe.id).ok()?;
            Some(self::window(recipe)?.judge(written.ph())?.0)
        });
        if of_recipe.is_some_and(|said| said <= grade) {
            continue;
        }
        let message = format!("this bath comes out at {}: {why}", as_ph(ph, style));
        let mut finding = report.graded(grade, mixture.head(), message);
        if let Some(help) = other_soda(context.notebook, bath, solution, style) {
            finding = finding.help(help);
        } else {
            let edge = if ph.high < window.low {
                window.low
            } else {
                window.high
            };
            finding = finding.help(format!(
                "it should come to about {edge:.1}: check the amounts, the form of the alkali, and its `gas`"
            ));
        }
        report.add(finding);
    }
}

/// Whether nothing of the recipe is its own, so that the recipe it is based on has said it.
fn answered_by_base(block: &Block, bath: &Bath) -> bool {
    let own = bath.doses.iter().map(|dose| dose.name.span);
    bath.recipe.based_on.get().is_some() && place(block, own).is_none()
}

fn window(bath: &Bath) -> Option<&'static Window> {
    match bath.role()? {
        Role::Developer => {
            let support = bath.recipe.usage.support.get();
            let film = support.and_then(|word| Support::from_word(word.value)) == Some(Support::Film);
            let soft =
                film && bath.first(Property::Borate).is_some() && bath.first(Property::Carbonate).is_none();
            if soft {
                Some(&SOFT)
            } else if bath.first(Property::Ascorbate).is_some() {
                Some(&ASCORBATE)
            } else if bath.first(Property::Phenolic).is_some() {
                Some(&PLANTS)
            } else {
                bath.first(Property::DevelopingAgent).map(|_| &CLASSIC)
            }
        }
        Role::Fixer if bath.first(Property::Thiosulfate).is_some() => Some(if bath.acid().is_some() {
            &ACID_FIXER
        } else {
            &ALKALINE_FIXER
        }),
        _ => None,
    }
}

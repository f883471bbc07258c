//! A stop too weak or too strong.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Notebook, Role};
use crate::rules::context::{Context, Report};
use crate::rules::figures::{grams, number};
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{acetic, citric, contents, moles};
use crate::units::Range;

pub(super) const RULE: Rule = Rule {
    name: slug::STOP_STRENGTH,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A stop of acetic acid outside 0.5 to 2.5 %, or of citric acid outside 5 to 20 g in a litre.",
    why: "A weak stop is spent after a few sheets. A strong one makes gas of the soda inside the wet layer and \
              lifts it off.",
    instead: "Use 1 to 2 % acetic acid, or 10 to 15 g of citric acid in a litre.",
    threshold: Some("Acetic acid 0.5–2.5 g in 100 ml, citric acid 5–20 g in a litre."),
    sureness: Sureness::Published,
    sources: &[
        "The Darkroom Cookbook, 3rd edition (citric stop)",
        "US Navy training manual 14209 (a stop must not cause blisters)",
    ],
    examples: &[
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  vinegar 5 %: 40 ml
keeps: 12 h
```
",
        ),
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 50 g
keeps: 12 h
```
",
        ),
        Example::bad(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  vinegar 10 %: 400 ml
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  citric acid, anhydrous: 10 g
keeps: 12 h
```
",
        ),
        Example::good(
            "
```recipe
id: weak-stop
role: stop
makes: 1 l
add:
  vinegar 8 %: 125 ml
keeps: 12 h
```
",
        ),
    ],
    check: Some(check),
};

/// Grams in a mole of acetic and of anhydrous citric acid.
const ACETIC: f64 = 60.052;
const CITRIC: f64 = 192.123;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let bath = &*mixture.bath;
        let judge = |bath: &Bath| Some((RULE.grade, strength(context.notebook, bath)?.word()?));
        let judged = mixture.judged(|bath| judge(bath).map(|(grade, _)| grade));
        let (Some(_), Some((_, word)), Some(found), Some(acid)) =
            (judged, judge(bath), strength(context.notebook, bath), bath.acid())
        else {
            continue;
        };
        let makes = bath.recipe.makes.get().map(|makes| makes.span);
        let places = [acid.amount.span].into_iter().chain(makes);
        let Some(span) = mixture.point(places) else {
            continue;
        };
        let message = format!(
            "{} of {} in a litre, {word}",
            grams(found.grams.best, style),
            found.of
        );
        let factor = 10.0 / found.grams.best;
        report.add(report.finding(span, message).help(format!(
            "for 10 g in a litre take {} times as much of `{}`",
            number(factor, 2, style),
            acid.name.value
        )));
    }
}

/// How strong a stop of one acid is.
struct Strength {
    /// Grams of it in a litre.
    grams: Range,
    /// Below and above which it is too weak and too strong.
    low: f64,
    high: f64,
    of: &'static str,
}

impl Strength {
    /// A range counts as outside only if all of it is.
    fn word(&self) -> Option<&'static str> {
        if self.grams.high < self.low * 0.995 {
            Some("too weak: it is spent after a few sheets")
        } else {
            (self.grams.low > self.high * 1.005)
                .then_some("too strong: gas from the soda may blister the layer")
        }
    }
}

fn strength(notebook: &Notebook, bath: &Bath) -> Option<Strength> {
    if bath.role() != Some(Role::Stop) || !bath.complete {
        return None;
    }
    let (held, litres) = (contents(notebook, bath)?, bath.working_litres()?);
    bath.acid()?;
    let vinegar = moles(&held, acetic).scale(ACETIC / litres.best);
    let lemon = moles(&held, citric).scale(CITRIC / litres.best);
    // Two acids are not weighed against each other.
    let (grams, high, of) = match (vinegar.best > 0.0, lemon.best > 0.0) {
        (true, false) => (vinegar, 25.0, "acetic acid"),
        (false, true) => (lemon, 20.0, "citric acid"),
        _ => return None,
    };
    Some(Strength {
        grams,
        low: 5.0,
        high,
        of,
    })
}

//! Hypo too weak or too strong for paper.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Notebook, Role, Support};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{contents, moles, thiosulfate};
use crate::rules::told::told;

pub(super) const RULE: Rule = Rule {
    name: slug::HYPO_STRENGTH,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A fixer of sodium thiosulfate with less than 150 g of crystals in a litre, or more than 400.",
    why: "Weak hypo fixes so slowly that the sheet is never clear of silver. Below one part in ten it is not \
              to be trusted at all.",
    instead: "Use 200 g of crystals, or 127 g of anhydrous, in a litre.",
    threshold: Some("Counted as crystals: below 100 g/l a fault, below 150 a doubt, above 400 a hint."),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 120 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
",
        ),
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
add:
  hypo, anhydrous: 80 g
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

/// Grams of crystals and of anhydrous hypo in a mole.
const CRYSTALS: f64 = 248.18;
const ANHYDROUS: f64 = 158.11;

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for mixture in context.mixed {
        let bath = &*mixture.bath;
        let judged = mixture.judged(|bath| {
            let litres = bath.working_litres()?.best;
            judge(crystals(context.notebook, bath)? / litres).map(|(grade, _)| grade)
        });
        let (Some(grade), Some(total), Some(litres), Some(hypo)) = (
            judged,
            crystals(context.notebook, bath),
            bath.working_litres(),
            bath.first(Property::Thiosulfate),
        ) else {
            continue;
        };
        if mixture.is_batch() && told(report, mixture.block, &[slug::SWAP_WRONG_WAY]) {
            continue;
        }
        let strength = total / litres.best;
        let what = judge(strength).map_or("", |(_, what)| what);
        let makes = bath.recipe.makes.get().map(|makes| makes.span);
        let Some(span) = mixture.point([hypo.amount.span].into_iter().chain(makes)) else {
            continue;
        };
        let message = format!(
            "as crystals this is {} in a litre, {what}",
            grams(strength, style)
        );
        report.add(report.graded(grade, span, message).help(format!(
            "take {} of crystals or {} of anhydrous hypo for this bath",
            grams(200.0 * litres.best, style),
            grams(200.0 * litres.best * ANHYDROUS / CRYSTALS, style)
        )));
    }
}

/// Grams of hypo, as crystals, in a fixer for paper.
fn crystals(notebook: &Notebook, bath: &Bath) -> Option<f64> {
    let support = bath.recipe.usage.support.get();
    let film = support.and_then(|word| Support::from_word(word.value)) == Some(Support::Film);
    // Rapid fixers of ammonium are of another strength.
    let rapid = bath.first(Property::Ammonium).is_some();
    if bath.role() != Some(Role::Fixer) || film || rapid || !bath.complete {
        return None;
    }
    bath.first(Property::Thiosulfate)?;
    Some(moles(&contents(notebook, bath)?, thiosulfate).best * CRYSTALS)
}

/// What grams of crystals in a litre are to paper.
fn judge(strength: f64) -> Option<(Grade, &'static str)> {
    if strength < 99.5 {
        Some((Grade::Fault, "too weak to fix"))
    } else if strength < 149.5 {
        Some((Grade::Doubt, "weak: it fixes slowly"))
    } else {
        (strength > 401.0).then_some((Grade::Hint, "stronger than paper needs"))
    }
}

//! Hypo too weak or too strong for paper.

use crate::finding::{Grade, slug};
use crate::notebook::{Role, Support};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::rules::substance::{contents, moles, thiosulfate};

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
    for (block, bath) in context.baths() {
        let film = bath
            .recipe
            .usage
            .support
            .get()
            .and_then(|word| Support::from_word(word.value))
            == Some(Support::Film);
        // Rapid fixers of ammonium are of another strength.
        let rapid = bath.first(Property::Ammonium).is_some();
        if bath.role() != Some(Role::Fixer) || film || rapid || !bath.complete {
            continue;
        }
        let (Some(held), Some(litres), Some(hypo)) = (
            contents(context.notebook, bath),
            bath.working_litres(),
            bath.first(Property::Thiosulfate),
        ) else {
            continue;
        };
        let strength = moles(&held, thiosulfate).best * CRYSTALS / litres.best;
        let (grade, what) = if strength < 99.5 {
            (Grade::Fault, "too weak to fix")
        } else if strength < 149.5 {
            (Grade::Doubt, "weak: it fixes slowly")
        } else if strength > 401.0 {
            (Grade::Hint, "stronger than paper needs")
        } else {
            continue;
        };
        let makes = bath.recipe.makes.get().map(|makes| makes.span);
        let Some(span) = place(block, std::iter::once(hypo.amount.span).chain(makes)) else {
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

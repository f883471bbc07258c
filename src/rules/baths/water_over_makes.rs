//! More water put in than the bath makes.

use crate::facts::Bath;
use crate::finding::{Grade, slug};
use crate::notebook::{Slot, Water};
use crate::pantry::Property;
use crate::rules::context::{Context, Report};
use crate::rules::figures::volume;
use crate::rules::place::place;
use crate::rules::rule::{Example, Group, Rule, Sureness};
use crate::units::{Dimension, Range};

pub(super) const RULE: Rule = Rule {
    name: slug::WATER_OVER_MAKES,
    grade: Grade::Doubt,
    group: Group::Baths,
    looks_for: "A recipe whose water, with its other liquids, fills or overfills what it makes.",
    why: "Amounts are for the finished volume. A whole litre of water with salts in it is more than a litre, \
              each time by another amount, so no two batches are alike.",
    instead: "Begin with about three quarters of the volume, and end with `make up`.",
    threshold: Some(
        "Water alone as much as `makes`, with more than 20 g of solids in a litre, is a doubt; more liquid \
              than `makes`, after what plants keep back, a fault.",
    ),
    sureness: Sureness::Practice,
    sources: &[],
    examples: &[
        Example::bad(
            "
```recipe
id: plain-hypo
role: fixer
makes: 1 l
water: 1 l at 40 °C
add:
  hypo, crystals: 200 g
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
water: 700 ml at 40 °C
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

fn check(context: &Context<'_>, report: &mut Report) {
    let style = context.notebook.settings.style;
    for (block, bath) in context.baths() {
        let (true, Some(makes), Some(put_in)) = (bath.complete, bath.litres(), put_in(bath)) else {
            continue;
        };
        let waters = std::iter::once(&bath.recipe.water)
            .chain(bath.recipe.parts.iter().map(|part| &part.water))
            .filter_map(|water| Some(water.get()?.amount.span));
        let makes_span = bath.recipe.makes.get().map(|makes| makes.span);
        let Some(span) = place(block, makes_span.into_iter().chain(waters)) else {
            continue;
        };
        let solids: f64 = bath
            .doses
            .iter()
            .filter(|dose| dose.amount.dimension == Dimension::Mass)
            .map(|dose| dose.amount.range.best)
            .sum();
        let (grade, message) = if put_in.low > makes.high * 1.001 {
            let message = format!(
                "the parts come to {}, and the bath to {}",
                volume(put_in.low, style),
                volume(makes.best, style)
            );
            (Grade::Fault, message)
        } else if put_in.low > makes.best * 0.99 && solids > 20.0 * makes.best {
            (
                Grade::Doubt,
                "the water alone fills the bath: with its salts it comes to more".to_owned(),
            )
        } else {
            continue;
        };
        report.add(report.graded(grade, span, message).help(format!(
            "begin with about {} of water, and end with `make up`",
            volume(makes.best * 0.75, style)
        )));
    }
}

/// Litres of liquid that go in, less what plants keep back. None where water is weighed: that is how a laboratory
/// writes a solution, and its volume is not meant.
fn put_in(bath: &Bath) -> Option<Range> {
    let recipe = &bath.recipe;
    let mut total = Range::ZERO;
    let mut add = |water: &Slot<Water>| -> Option<()> {
        if water.is_broken() {
            return None;
        }
        if let Some(water) = water.get() {
            if water.amount.dimension != Dimension::Volume {
                return None;
            }
            total = total + water.amount.range;
        }
        Some(())
    };
    add(&recipe.water)?;
    for part in &recipe.parts {
        add(&part.water)?;
    }
    if total.high <= 0.0 {
        return None;
    }
    for dose in &bath.doses {
        let Some(material) = dose.material() else { continue };
        if dose.amount.dimension == Dimension::Volume && material.density.is_some() {
            total = total + dose.amount.range;
        }
        let all = Range::exact(1.0);
        if let Some(kept) = dose.keeps_back(all) {
            total = total - Range::new(0.0, kept.best, kept.high).scale(1e-3);
        } else if material.is(Property::Plant)
            && material.form.is_none()
            && material.contains.iter().all(|share| share.extracted.is_none())
        {
            // A plant of the notebook's own keeps back an unknown amount, up to about five times its weight.
            if let Some(grams) = dose.grams(all) {
                total = total - Range::new(0.0, grams.best * 2.0, grams.high * 5.0).scale(1e-3);
            }
        }
    }
    Some(total)
}

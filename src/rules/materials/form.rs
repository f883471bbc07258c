//! What the rules about missing forms share: the forms of a material, and what an amount of one is in another.

use crate::facts::{Dose, Known};
use crate::finding::Finding;
use crate::notebook::Notebook;
use crate::pantry::Lookup;
use crate::rules::context::{Context, Report};
use crate::rules::figures::grams;
use crate::rules::place::place;
use crate::units::Range;

/// Reports every material of a recipe or batch that lacks its form and is `wanted`.
pub(super) fn report_missing(
    context: &Context<'_>,
    report: &mut Report,
    wanted: impl Fn(&Dose) -> bool,
    word: impl Fn(&Notebook, &Dose, &[String]) -> (String, String),
) {
    for mixture in context.mixed {
        for dose in mixture.spoken_of(&wanted) {
            let Known::NeedsForm { forms, .. } = &dose.known else {
                continue;
            };
            if let Some(span) = place(mixture.block, [dose.name.span]) {
                let (message, help) = word(context.notebook, dose, forms);
                let finding: Finding = report.finding(span, message).help(help);
                report.add(finding);
            }
        }
    }
}

/// What the written amount, taken as the driest form, is in every other form: `18 g anhydrous is 48.6 g crystals`.
pub(super) fn equals(notebook: &Notebook, dose: &Dose, forms: &[String]) -> Option<String> {
    let style = notebook.settings.style;
    let written = dose.grams(Range::exact(1.0))?.best;
    let mut known: Vec<(&'static str, f64)> = forms
        .iter()
        .filter_map(|name| match notebook.pantry.look_up(name) {
            Lookup::Found { material, .. } => Some((material.form?.word(), material.molar_mass()?)),
            _ => None,
        })
        .collect();
    known.sort_by(|a, b| a.1.total_cmp(&b.1));
    let ((dry, lightest), rest) = known.split_first()?;
    let others: Vec<String> = rest
        .iter()
        .map(|(form, mass)| format!("{} {form}", grams(written * mass / lightest, style)))
        .collect();
    (!others.is_empty()).then(|| format!("{} {dry} is {}", grams(written, style), others.join(" or ")))
}

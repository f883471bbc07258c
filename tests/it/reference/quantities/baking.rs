//! What the oven makes of soda.

use trayside::chem::{SodaForm, bake, baking_loss};
use trayside::units::scalar::Mass;

use super::super::words::{numbers, with_unit};
use super::{Found, Statement, per_cent};

pub(super) fn baking(statement: &Statement<'_>) -> Option<Found> {
    if !statement.has(&["bak", "heat", "calcin"]) {
        return None;
    }
    if statement.has(&["ph "])
        || !statement.has(&[
            "loss",
            "lose",
            "lost",
            "left",
            "from",
            "remain",
            "yield",
            "converted",
            "complete",
            "full",
        ])
    {
        return None;
    }
    // What goes in stands behind the last `of` or `from` where both forms are named.
    let lower = &statement.lower;
    let source = ["g of ", "g ", "baking of ", "baking ", "from ", "loss of "]
        .iter()
        .find_map(|word| {
            lower
                .rfind(word)
                .map(|at| &lower[at..])
                .filter(|rest| soda_form(rest).is_some())
        });
    let source = source.unwrap_or(lower);
    // `baking soda` names the powder and no deed.
    let form = soda_form(source).or_else(|| soda_form(lower))?;
    let grams = with_unit(statement.text, &["g", "grams", "gram"]);
    let part = numbers(statement.text).into_iter().find_map(|(value, rest)| {
        let rest = rest.trim_start();
        rest.strip_prefix('%').map(|_| value / 100.0)
    });
    let part = part
        .or_else(|| statement.has(&["half"]).then_some(0.5))
        .unwrap_or(1.0);
    let loss = match form {
        SodaForm::Bicarbonate => baking_loss(part),
        other => other.full_loss() * part,
    };
    let wants_loss = statement.has(&["loss", "lose", "lost"]);
    Some(match (wants_loss, grams) {
        (true, Some(grams)) if !statement.unit.contains('%') && statement.asks(&["g"]) => Ok(grams * loss),
        (true, _) => Ok(per_cent(statement, loss)),
        (false, Some(grams)) => {
            if form == SodaForm::Bicarbonate && !statement.has(&["left", "remain", "residue"]) {
                bake(Mass::from_grams(grams), loss)
                    .map_err(|error| error.to_string())
                    .map(|[(carbonate, moles), _]| moles.moles() * carbonate.molar_mass().unwrap_or(f64::NAN))
            } else {
                Ok(grams * (1.0 - loss))
            }
        }
        (false, None) => Ok(per_cent(statement, 1.0 - loss)),
    })
}

pub(super) fn soda_form(text: &str) -> Option<SodaForm> {
    let lower = text.to_lowercase();
    let has = |words: &[&str]| words.iter().any(|word| lower.contains(word));
    if has(&[
        "bicarb",
        "hydrogen carbonate",
        "hydrogencarbonate",
        "baking soda",
        "nahco3",
    ]) {
        Some(SodaForm::Bicarbonate)
    } else if has(&["deca", "crystals", "10h2o"]) {
        Some(SodaForm::Decahydrate)
    } else if has(&["mono", "·h2o", ".h2o"]) {
        Some(SodaForm::Monohydrate)
    } else if has(&["anhydrous", "na2co3"]) {
        Some(SodaForm::Anhydrous)
    } else {
        None
    }
}

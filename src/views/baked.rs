//! What two weighings say of a white soda, and how much of it a recipe wants.

use serde::Serialize;

use crate::chem::SodaForm;
use crate::facts::{Bath, Facts, baked as weighed};
use crate::notebook::{Block, Notebook};
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::counted::Counted;
use super::reach::{Ph, ph};

/// What two weighings say.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Baked {
    /// The recipe's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The finished volume.
    pub volume: String,
    /// What it lost, in percent of its weight.
    pub lost_percent: f64,
    /// What it was and is, a sentence each.
    pub says: Vec<String>,
    /// How much of the baked powder the recipe wants, as it is weighed.
    pub amount: Option<String>,
    /// The same in grams.
    pub grams: Option<f64>,
    /// The pH that it makes.
    pub ph: Option<Ph>,
    /// Why there is no amount.
    pub why: Option<String>,
}

/// The answer for a soda that weighed so many grams before and after.
pub fn baked(
    notebook: &Notebook,
    facts: &Facts,
    (block, bath): (&Block, &Bath),
    (before, after): (f64, f64),
    litres: f64,
) -> Result<Baked, String> {
    let style = notebook.settings.style;
    let made = bath.litres().filter(|made| made.best > 0.0);
    let Some(made) = made else {
        return Err(format!("`{}` does not say what it makes", block.id));
    };
    let multiple = litres / made.best;
    let unsolved = Err("its recipe is not known".to_owned());
    let solved = facts.chemistry.get(&bath.id).unwrap_or(&unsolved);
    let found = weighed(notebook, bath, solved, before, after)?;
    let counted = Counted::of(notebook, Dimension::Mass);
    let percent = |part: f64| number(Range::exact(part * 100.0), Digits::Significant(2), style);
    let mut says = vec![format!("It lost {} % of its weight.", percent(found.lost))];
    let guess = found.guess;
    says.push(if guess.doubtful {
        format!(
            "If it gets no lighter, it is none of the pure sodas: nearest is {}, which loses {} %.",
            called(guess.form),
            percent(guess.form.full_loss())
        )
    } else {
        format!(
            "If it gets no lighter, it was {}, which loses {} %.",
            called(guess.form),
            percent(guess.form.full_loss())
        )
    });
    says.push(if found.lost > SodaForm::Bicarbonate.full_loss() + 0.03 {
        "Baking soda loses no more than 37 %, so it was none; what is left is washing soda, anhydrous.".to_owned()
    } else if found.turned > 0.99 {
        "If it was baking soda, all of it is washing soda, anhydrous, now.".to_owned()
    } else {
        format!(
            "If it was baking soda, {} % of it has turned: the powder is {} % washing soda, anhydrous, and the rest as it was. If it was a washing soda, all that is left is anhydrous.",
            percent(found.turned),
            percent(found.washing)
        )
    });
    let mut answer = Baked {
        id: block.id.clone(),
        title: block.name().to_owned(),
        volume: volume(litres, style),
        lost_percent: libm::round(found.lost * 1e3) / 10.0,
        says,
        amount: None,
        grams: None,
        ph: None,
        why: None,
    };
    match found.worth {
        Ok((dosed, range)) => {
            let grams = counted.rounded(range.best * multiple);
            if let Some((name, written)) = found.of {
                answer.says.push(format!(
                    "{} of the baked powder do the work of {} of `{name}`.",
                    counted.exactly(grams),
                    counted.text(written.scale(multiple))
                ));
            }
            answer.amount = Some(counted.exactly(grams));
            answer.grams = Some(counted.in_unit(grams));
            answer.ph = dosed
                .solution(notebook, Range::exact(grams / multiple))
                .ok()
                .map(|solution| ph(&solution, style));
        }
        Err(why) => answer.why = Some(why),
    }
    Ok(answer)
}

fn volume(litres: f64, style: Style) -> String {
    show(
        Range::exact(litres),
        Dimension::Volume,
        Digits::Significant(3),
        style,
    )
}

fn called(form: SodaForm) -> &'static str {
    match form {
        SodaForm::Anhydrous => "washing soda, anhydrous",
        SodaForm::Monohydrate => "washing soda, monohydrate",
        SodaForm::Bicarbonate => "baking soda",
        SodaForm::Decahydrate => "washing soda, crystals",
    }
}

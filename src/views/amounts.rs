//! The amounts of a bath for several volumes: scaled, turned into the form that is on the shelf, rounded to the scale.
//!
//! This is the one place where a weighing is rounded.

use crate::facts::{Bath, Dose};
use crate::notebook::{Notebook, Step, Verb, Water};
use crate::pantry::{Lookup, Material};
use crate::scale::forms;
use crate::units::{Amount, Digits, Dimension, Range, Style, Unit, show, show_in};

use super::card::{AmountGroup, AmountRow};
use super::words::Words;

/// For which multiples of what the recipe makes a card gives amounts: half, as written, double.
const MULTIPLES: [f64; 3] = [0.5, 1.0, 2.0];
/// A step that rounds by more than this part of the amount is too coarse for it: the amount is then printed finer than
/// the scale shows, so that whoever weighs sees it. Common practice, no source.
const COARSE: f64 = 0.05;

/// How amounts are scaled, rounded and worded.
pub(super) struct Weighing<'n> {
    notebook: &'n Notebook,
    words: &'static Words,
    style: Style,
    step: Option<(f64, &'static Unit)>,
    litres: Option<Range>,
    multiples: Vec<f64>,
}

impl<'n> Weighing<'n> {
    /// The weighing of a bath: for three volumes where it says what it makes, else as written.
    pub(super) fn of(bath: &Bath, notebook: &'n Notebook, words: &'static Words) -> Self {
        let step = notebook.settings.scale.get();
        Self {
            notebook,
            words,
            style: notebook.settings.style,
            step: step
                .map(|step| (step.range.best, step.unit))
                .filter(|(step, _)| *step > 0.0),
            litres: bath.litres(),
            multiples: match bath.litres() {
                Some(_) => MULTIPLES.to_vec(),
                None => vec![1.0],
            },
        }
    }

    /// The heads of the columns.
    pub(super) fn volumes(&self) -> Vec<String> {
        match self.litres {
            Some(litres) => self.each(|multiple| self.volume(litres.scale(multiple))),
            None => vec![String::new()],
        }
    }

    /// A volume as it is printed everywhere on a card.
    pub(super) fn volume(&self, litres: Range) -> String {
        show(litres, Dimension::Volume, Digits::Significant(3), self.style)
    }

    /// A volume of the recipe at each volume of the card, with strokes between.
    pub(super) fn joined_volume(&self, amount: &Amount) -> String {
        self.each(|multiple| self.volume(amount.range.scale(multiple)))
            .join(" / ")
    }

    /// Water to begin with where the recipe does not say: three quarters of what is not poured in otherwise, to two
    /// digits, so that there is room for what is stirred in. Common practice, no source.
    pub(super) fn first_water(&self, bath: &Bath) -> String {
        let Some(litres) = self.litres else {
            return String::new();
        };
        let liquids = bath.doses.iter().map(|dose| &dose.amount.amount);
        let poured: f64 = liquids
            .filter(|amount| amount.dimension == Dimension::Volume)
            .map(|amount| amount.range.best)
            .sum();
        let water = Range::exact(0.75 * (litres.best - poured).max(0.0));
        self.each(|multiple| {
            show(
                water.scale(multiple),
                Dimension::Volume,
                Digits::Significant(2),
                self.style,
            )
        })
        .join(" / ")
    }

    /// Whether the card gives more than one volume.
    pub(super) fn has_several(&self) -> bool {
        self.multiples.len() > 1
    }

    /// The amounts of all parts and of the whole, in order of mixing.
    pub(super) fn groups(&self, bath: &Bath) -> Vec<AmountGroup> {
        let recipe = &bath.recipe;
        let mut groups = Vec::new();
        let doses = |part: Option<&str>| -> Vec<AmountRow> {
            let of_part = bath.doses.iter().filter(|dose| dose.part.as_deref() == part);
            of_part.map(|dose| self.dose(dose)).collect()
        };
        let mut first: Vec<AmountRow> = recipe
            .water
            .get()
            .map(|water| self.water(water))
            .into_iter()
            .collect();
        first.extend(doses(None));
        if !first.is_empty() {
            groups.push(AmountGroup {
                name: None,
                rows: first,
            });
        }
        for part in &recipe.parts {
            let name = part.name.get().map(|name| name.value.clone());
            let mut rows: Vec<AmountRow> = part
                .water
                .get()
                .map(|water| self.water(water))
                .into_iter()
                .collect();
            rows.extend(doses(name.as_deref()));
            if let Some(makes) = part.makes.get().filter(|_| has_make_up(&part.steps)) {
                rows.push(self.make_up(&makes.amount));
            }
            groups.push(AmountGroup { name, rows });
        }
        if let Some(makes) = recipe.makes.get().filter(|_| is_made_up(bath)) {
            let row = self.make_up(&makes.amount);
            let several = groups.iter().any(|group| group.name.is_some());
            match groups.last_mut().filter(|_| !several) {
                Some(group) => group.rows.push(row),
                None => groups.push(AmountGroup {
                    name: several.then(|| self.words.finished.to_owned()),
                    rows: vec![row],
                }),
            }
        }
        groups
    }

    fn make_up(&self, makes: &Amount) -> AmountRow {
        AmountRow {
            material: self.words.make_up_row.to_owned(),
            amounts: self.each(|multiple| self.volume(makes.range.scale(multiple))),
        }
    }

    fn water(&self, water: &Water) -> AmountRow {
        let material = match &water.at {
            Some(at) => {
                let at = Words::fill(self.words.at, &at.show(self.style));
                format!("{} {at}", self.words.water)
            }
            None => self.words.water.to_owned(),
        };
        AmountRow {
            material,
            amounts: self.each(|multiple| self.scaled(&water.amount.amount, multiple)),
        }
    }

    fn dose(&self, dose: &Dose) -> AmountRow {
        if let Some((name, grams)) = self.on_shelf(dose) {
            return AmountRow {
                material: name,
                amounts: self.each(|multiple| self.weight(grams.scale(multiple), None)),
            };
        }
        AmountRow {
            material: dose.name.value.clone(),
            amounts: self.each(|multiple| self.dosed(dose, multiple)),
        }
    }

    /// One amount of a material at a volume.
    fn dosed(&self, dose: &Dose, multiple: f64) -> String {
        let amount = &dose.amount.amount;
        let grams = || {
            dose.grams(self.litres?)
                .map(|grams| self.weight(grams.scale(multiple), None))
        };
        match amount.dimension {
            Dimension::AmountOfSubstance | Dimension::Molarity | Dimension::MassConcentration => {
                grams().unwrap_or_else(|| self.scaled_if_extensive(amount, multiple))
            }
            Dimension::VolumeFraction => match self.litres {
                Some(litres) => self.volume((litres * amount.range).scale(multiple)),
                None => amount.show(self.style),
            },
            _ => self.scaled_if_extensive(amount, multiple),
        }
    }

    /// A strength stays what it is, whatever the volume.
    fn scaled_if_extensive(&self, amount: &Amount, multiple: f64) -> String {
        match amount.dimension {
            Dimension::Mass | Dimension::Volume | Dimension::Count | Dimension::AmountOfSubstance => {
                self.scaled(amount, multiple)
            }
            _ => amount.show(self.style),
        }
    }

    /// An amount as it is measured out: weights to the scale's step, everything else as `units` rounds it.
    fn scaled(&self, amount: &Amount, multiple: f64) -> String {
        let scaled = amount.scaled(multiple);
        if amount.dimension != Dimension::Mass || amount.each.is_some() {
            return scaled.show(self.style);
        }
        self.weight(scaled.range, Some(&scaled))
    }

    /// A weight to the scale's step and in its unit; finer where the step is too coarse for it.
    fn weight(&self, grams: Range, written: Option<&Amount>) -> String {
        let fits = |(step, _): &(f64, &Unit)| {
            let rounded = (grams.best / step).round() * step;
            (rounded - grams.best).abs() <= COARSE * grams.best
        };
        let (text, about) = match (self.step.filter(fits), written) {
            (Some((step, unit)), _) => (
                show_in(grams, unit, Digits::Step(step), self.style),
                written.is_some_and(|amount| amount.about),
            ),
            (None, Some(written)) => (written.show(self.style), false),
            (None, None) => (
                show(grams, Dimension::Mass, Digits::Significant(3), self.style),
                false,
            ),
        };
        if about { format!("about {text}") } else { text }
    }

    /// The name and the grams, for the volume that the recipe makes, of the packet that is really there, where it holds
    /// the same substance in another form.
    fn on_shelf(&self, dose: &Dose) -> Option<(String, Range)> {
        let written = dose.material()?;
        let formula = written.formula.as_ref()?;
        let packets: Vec<(&str, &Material)> = self
            .notebook
            .settings
            .shelf
            .iter()
            .filter_map(|packet| {
                let name = &packet.material.get()?.value;
                match self.notebook.pantry.look_up(name) {
                    Lookup::Found { material, .. } => Some((name.as_str(), material)),
                    _ => None,
                }
            })
            .collect();
        if packets.iter().any(|(_, packet)| packet.id == written.id) {
            return None;
        }
        let grams = dose.grams(self.litres.unwrap_or(Range::exact(1.0)))?;
        packets.iter().find_map(|(name, packet)| {
            let of_family = packet.of.is_some() && packet.of == written.of;
            let other = packet.formula.as_ref().filter(|other| *other != formula)?;
            let grams = of_family
                .then(|| forms::same_substance(grams, formula, other))
                .flatten()?;
            Some(((*name).to_owned(), grams))
        })
    }

    fn each(&self, text: impl Fn(f64) -> String) -> Vec<String> {
        self.multiples.iter().map(|multiple| text(*multiple)).collect()
    }
}

pub(super) fn has_make_up(steps: &[Step]) -> bool {
    steps.iter().any(|step| step.verb == Verb::MakeUp)
}

/// Whether water is added at the end: to what the recipe makes. A bath whose water is weighed is as large as it comes.
pub(super) fn is_made_up(bath: &Bath) -> bool {
    let recipe = &bath.recipe;
    let waters = recipe.parts.iter().map(|part| &part.water).chain([&recipe.water]);
    let weighed = waters
        .filter_map(|water| water.get())
        .any(|water| water.amount.dimension == Dimension::Mass);
    recipe.makes.get().is_some() && (!weighed || has_make_up(&recipe.steps))
}

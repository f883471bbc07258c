//! What safety lines are chosen by: what a bath holds, how it is mixed, who is in the room and who was asked.

use crate::facts::{Bath, Dose, Known};
use crate::notebook::{Notebook, Premises, Role, Verb};
use crate::pantry::{Form, Property};
use crate::units::{Dimension, Language, Range};

use super::steps::listed;
use super::words::Words;

/// Water from here on scalds, °C. Common practice, no source.
const SCALDS: f64 = 60.0;
/// An acid in solution burns from here on, g/l: a quarter, as acetic acid is classed (from memory, unverified).
const BURNS: f64 = 250.0;

/// What a line is chosen by.
pub(super) struct Seen<'a> {
    pub(super) bath: &'a Bath,
    pub(super) notebook: &'a Notebook,
    pub(super) words: &'static Words,
}

impl Seen<'_> {
    pub(super) fn has(&self, property: Property) -> bool {
        self.bath.first(property).is_some()
    }

    pub(super) fn holds(&self, properties: &[Property]) -> Option<String> {
        properties
            .iter()
            .any(|property| self.has(*property))
            .then(String::new)
    }

    pub(super) fn states(&self, codes: &[&str]) -> Option<String> {
        self.bath
            .doses
            .iter()
            .any(|dose| stated(dose, codes))
            .then(String::new)
    }

    /// Carbonate in mol/l, the most it may be.
    pub(super) fn carbonate(&self) -> Option<f64> {
        let litres = self.bath.litres()?;
        let moles = self
            .bath
            .all(Property::Carbonate)
            .filter_map(|dose| dose.moles(litres))
            .fold(Range::ZERO, |sum, moles| sum + moles);
        Some(moles.checked_div(litres)?.high)
    }

    pub(super) fn acid_burns(&self) -> bool {
        self.bath
            .acid()
            .and_then(Dose::strength_grams_per_litre)
            .is_some_and(|strength| strength.high >= BURNS && strength.high < 1000.0)
    }

    pub(super) fn scalds(&self) -> bool {
        let recipe = &self.bath.recipe;
        let waters = recipe.parts.iter().map(|part| &part.water).chain([&recipe.water]);
        let hot_water = waters
            .filter_map(|water| water.get()?.at.as_ref())
            .any(|at| at.range.high >= SCALDS);
        hot_water
            || recipe.all_steps().any(|step| {
                let hot = step
                    .temperature
                    .as_ref()
                    .is_some_and(|warm| warm.range.high >= SCALDS);
                step.verb == Verb::Boil || hot && step.verb != Verb::Cool
            })
    }

    pub(super) fn hurts_eyes(&self) -> bool {
        let codes = ["H314", "H315", "H318", "H319"];
        let properties = [
            Property::Alkali,
            Property::Acid,
            Property::Thiosulfate,
            Property::Sulfite,
        ];
        self.states(&codes).or_else(|| self.holds(&properties)).is_some()
    }

    pub(super) fn minors(&self) -> bool {
        let settings = &self.notebook.settings;
        let school = settings
            .premises
            .get()
            .is_some_and(|premises| premises.value == Premises::School.word());
        settings.minors() == Some(true) || school
    }

    /// A bath that comes to hold the silver of the sheets. A fixer does unless all of it is known to dissolve none, water
    /// alone for one.
    pub(super) fn takes_silver(&self) -> bool {
        let dissolves = |dose: &Dose| {
            dose.is(Property::SilverSolvent)
                || dose.is(Property::FolkFixer)
                || !matches!(dose.known, Known::Material { .. } | Known::Formula(_))
        };
        let fixer = self.bath.role() == Some(Role::Fixer);
        self.has(Property::SilverSolvent)
            || fixer && (!self.bath.complete || self.bath.doses.iter().any(dissolves))
    }
}

/// Whether a material carries one of these GHS statements.
fn stated(dose: &Dose, codes: &[&str]) -> bool {
    dose.material().is_some_and(|material| {
        material
            .hazards
            .iter()
            .any(|hazard| codes.iter().any(|code| hazard.starts_with(code)))
    })
}

/// The dry materials that hurt the eyes, by what they are rather than by their form: the packet may be another.
pub(super) fn powders(seen: &Seen<'_>) -> Option<String> {
    let mut names: Vec<&str> = Vec::new();
    let language = seen.notebook.settings.style.language;
    for dose in &seen.bath.doses {
        let Some(material) = dose.material() else { continue };
        let dry = material.form != Some(Form::Liquid)
            && material.density.is_none()
            && dose.amount.dimension != Dimension::VolumeFraction;
        if !dry || !stated(dose, &["H318", "H319"]) {
            continue;
        }
        let family = material
            .of
            .as_deref()
            .and_then(|of| seen.notebook.pantry.family_name_in(of, language));
        // The author's own name is never translated; the pantry's may have a name in the language.
        let own = material.also.get(language.code()).and_then(|names| names.first());
        let name = family
            .or_else(|| own.filter(|_| language != Language::English).map(String::as_str))
            .unwrap_or(&material.name);
        if !names.contains(&name) {
            names.push(name);
        }
    }
    (!names.is_empty()).then(|| listed(&names, seen.words.card.and))
}

/// Whom to ask, where the author does not say where it goes.
pub(super) fn ask(seen: &Seen<'_>) -> Option<String> {
    if !seen.bath.recipe.waste.is_absent() || seen.takes_silver() {
        return None;
    }
    let drain = seen.notebook.settings.drain.get();
    let asked = drain.and_then(|drain| drain.asked.get());
    Some(asked.map_or_else(
        || seen.words.say.authority.to_owned(),
        |asked| asked.value.clone(),
    ))
}

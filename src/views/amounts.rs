//! The amounts of a bath for several volumes: scaled, turned into the form that is on the shelf, rounded to the scale.
//!
//! This is the one place where a weighing is rounded.

use crate::facts::{Bath, Dose, Shelf, Way};
use crate::notebook::{Capacity, Notebook, Step, Verb, Water};
use crate::scale::rounding;
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
    words: &'static Words,
    style: Style,
    step: Option<(f64, &'static Unit)>,
    litres: Option<Range>,
    multiples: Vec<f64>,
    shelf: Shelf<'n>,
    /// For each multiple, what each material is weighed to; none for what is not weighed, or not to the scale's step.
    rounded: Vec<Vec<Option<f64>>>,
}

/// What is weighed of a material for the volume that the recipe makes, g, with the packet's name where that is in
/// another form.
pub(super) struct Weighed {
    pub(super) packet: Option<String>,
    pub(super) grams: Range,
}

impl<'n> Weighing<'n> {
    /// The weighing of a bath: for three volumes where it says what it makes, else as written.
    pub(super) fn of(bath: &Bath, notebook: &'n Notebook, words: &'static Words) -> Self {
        let multiples = match bath.litres() {
            Some(_) => MULTIPLES.to_vec(),
            None => vec![1.0],
        };
        Self::at(bath, notebook, words, multiples)
    }

    /// The weighing of a bath for some multiples of what it makes.
    pub(super) fn at(
        bath: &Bath,
        notebook: &'n Notebook,
        words: &'static Words,
        multiples: Vec<f64>,
    ) -> Self {
        let step = notebook.settings.scale.get();
        let mut weighing = Self {
            words,
            style: notebook.settings.style,
            step: step
                .map(|step| (step.range.best, step.unit))
                .filter(|(step, _)| *step > 0.0),
            litres: bath.litres(),
            multiples,
            shelf: Shelf::of(notebook),
            rounded: Vec::new(),
        };
        weighing.rounded = weighing
            .multiples
            .iter()
            .map(|multiple| weighing.together(bath, *multiple))
            .collect();
        weighing
    }

    /// What each material is weighed to at a multiple: all of them rounded together, so that they stand to each other as
    /// they should. An amount with a range, and one for which the step is too coarse, stays out of it.
    fn together(&self, bath: &Bath, multiple: f64) -> Vec<Option<f64>> {
        let Some((step, _)) = self.step else {
            return vec![None; bath.doses.len()];
        };
        let wanted: Vec<Option<f64>> = bath
            .doses
            .iter()
            .map(|dose| {
                let grams = self.weighed(dose)?.grams.scale(multiple);
                (grams.is_exact() && grams.best > 0.0 && fits(grams.best, step)).then_some(grams.best)
            })
            .collect();
        let rounded = rounding::jointly(&wanted.iter().flatten().copied().collect::<Vec<_>>(), step);
        let mut rounded = rounded.into_iter();
        wanted
            .into_iter()
            .map(|wanted| wanted.and_then(|_| rounded.next()))
            .collect()
    }

    /// What is weighed of a material, where it is weighed at all.
    pub(super) fn weighed(&self, dose: &Dose) -> Option<Weighed> {
        let litres = self.litres;
        if let Way::OtherForm(packet, factor) = self.shelf.way(dose) {
            return Some(Weighed {
                packet: Some(packet.name.to_owned()),
                grams: dose.grams(litres.unwrap_or(Range::exact(1.0)))?.scale(factor),
            });
        }
        let amount = &dose.amount.amount;
        let grams = match amount.dimension {
            Dimension::Mass if amount.each.is_none() => amount.range,
            Dimension::AmountOfSubstance | Dimension::Molarity | Dimension::MassConcentration => {
                dose.grams(litres?)?
            }
            _ => return None,
        };
        Some(Weighed { packet: None, grams })
    }

    /// What a material is called: by its packet, where that is another form or strength.
    pub(super) fn called(&self, dose: &Dose) -> String {
        match self.shelf.way(dose) {
            Way::OtherForm(packet, _) | Way::OtherStrength(packet, _) => packet.name.to_owned(),
            _ => dose.name.value.clone(),
        }
    }

    /// What a material is weighed to at the first multiple; none where it is not weighed to the scale's step.
    pub(super) fn set(&self, index: usize) -> Option<f64> {
        self.rounded.first()?.get(index).copied().flatten()
    }

    /// The scale's step, g.
    pub(super) fn scale_step(&self) -> Option<f64> {
        self.step.map(|(step, _)| step)
    }

    /// The shelf it weighs from.
    pub(super) fn shelf(&self) -> &Shelf<'n> {
        &self.shelf
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

    /// What each volume of the card is good for: whole sheets, since no bath takes half of one, or an area.
    pub(super) fn capacity(&self, capacity: &Capacity) -> Option<AmountRow> {
        let of = if capacity.per_litre {
            self.litres?.best
        } else {
            1.0
        };
        let amount = &capacity.amount;
        if amount.dimension != Dimension::Count {
            return Some(AmountRow {
                material: self.words.card.good_for.to_owned(),
                amounts: self.each(|multiple| amount.scaled(of * multiple).show(self.style)),
            });
        }
        let whole = |multiple: f64| libm::floor(amount.range.best * of * multiple + 1e-9);
        let digits = Digits::Significant(6);
        Some(AmountRow {
            material: self.words.card.good_for_sheets.to_owned(),
            amounts: self.each(|multiple| {
                show(
                    Range::exact(whole(multiple)),
                    Dimension::Number,
                    digits,
                    self.style,
                )
            }),
        })
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

    /// Whether any volume is another than the recipe's own.
    pub(super) fn differs(&self) -> bool {
        self.multiples.iter().any(|multiple| *multiple != 1.0)
    }

    /// The amounts of all parts and of the whole, in order of mixing.
    pub(super) fn groups(&self, bath: &Bath) -> Vec<AmountGroup> {
        let rows = |rows: Vec<Row<'_>>| rows.into_iter().map(|row| self.row(&row)).collect();
        self.grouped(bath)
            .into_iter()
            .map(|(name, of_group)| AmountGroup {
                name,
                rows: rows(of_group),
            })
            .collect()
    }

    /// What is measured out for all parts and for the whole, in order of mixing.
    pub(super) fn grouped<'b>(&self, bath: &'b Bath) -> Vec<(Option<String>, Vec<Row<'b>>)> {
        let recipe = &bath.recipe;
        let mut groups = Vec::new();
        let rows_of = |part: Option<&str>, water: Option<&'b Water>| {
            let of_part = bath.doses.iter().enumerate();
            let of_part = of_part.filter(move |(_, dose)| dose.part.as_deref() == part);
            let doses = of_part.map(|(index, dose)| Row::Dose(index, dose));
            water.map(Row::Water).into_iter().chain(doses).collect::<Vec<_>>()
        };
        let first = rows_of(None, recipe.water.get());
        if !first.is_empty() {
            groups.push((None, first));
        }
        for part in &recipe.parts {
            let name = part.name.get().map(|name| name.value.clone());
            let mut rows = rows_of(name.as_deref(), part.water.get());
            if let Some(makes) = part.makes.get().filter(|_| has_make_up(&part.steps)) {
                rows.push(Row::MakeUp(&makes.amount));
            }
            groups.push((name, rows));
        }
        if let Some(makes) = recipe.makes.get().filter(|_| is_made_up(bath)) {
            let row = Row::MakeUp(&makes.amount);
            let several = groups.iter().any(|(name, _)| name.is_some());
            match groups.last_mut().filter(|_| !several) {
                Some((_, rows)) => rows.push(row),
                None => groups.push((several.then(|| self.words.card.finished.to_owned()), vec![row])),
            }
        }
        groups
    }

    /// A row as a card prints it.
    pub(super) fn row(&self, row: &Row<'_>) -> AmountRow {
        match row {
            Row::Water(water) => self.water(water),
            Row::Dose(index, dose) => self.dose(*index, dose),
            Row::MakeUp(makes) => self.make_up(makes),
        }
    }

    fn make_up(&self, makes: &Amount) -> AmountRow {
        AmountRow {
            material: self.words.card.make_up_row.to_owned(),
            amounts: self.each(|multiple| self.volume(makes.range.scale(multiple))),
        }
    }

    fn water(&self, water: &Water) -> AmountRow {
        let material = match &water.at {
            Some(at) => {
                let at = Words::fill(self.words.card.at, &at.show(self.style));
                format!("{} {at}", self.words.card.water)
            }
            None => self.words.card.water.to_owned(),
        };
        AmountRow {
            material,
            amounts: self.each(|multiple| self.scaled(&water.amount.amount, multiple)),
        }
    }

    fn dose(&self, index: usize, dose: &Dose) -> AmountRow {
        if let Way::OtherStrength(packet, factor) = self.shelf.way(dose) {
            return AmountRow {
                material: packet.name.to_owned(),
                amounts: self.each(|multiple| self.scaled(&dose.amount.amount, multiple * factor)),
            };
        }
        let Some(weighed) = self.weighed(dose) else {
            return AmountRow {
                material: dose.name.value.clone(),
                amounts: self.each(|multiple| self.poured(dose, multiple)),
            };
        };
        let amount = &dose.amount.amount;
        let written = (amount.dimension == Dimension::Mass && weighed.packet.is_none()).then_some(amount);
        let amounts = self
            .multiples
            .iter()
            .zip(&self.rounded)
            .map(|(multiple, rounded)| {
                let set = rounded.get(index).copied().flatten();
                let grams = set.map_or_else(|| weighed.grams.scale(*multiple), Range::exact);
                self.weight(grams, written.map(|amount| amount.scaled(*multiple)).as_ref())
            });
        AmountRow {
            amounts: amounts.collect(),
            material: weighed.packet.unwrap_or_else(|| dose.name.value.clone()),
        }
    }

    /// One amount of a material that is not weighed.
    fn poured(&self, dose: &Dose, multiple: f64) -> String {
        let amount = &dose.amount.amount;
        match (amount.dimension, self.litres) {
            (Dimension::VolumeFraction, Some(litres)) => self.volume((litres * amount.range).scale(multiple)),
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
        match (self.step.filter(|(step, _)| fits(grams.best, *step)), written) {
            (Some((step, unit)), written) => {
                let text = show_in(grams, unit, Digits::Step(step), self.style);
                let about = written.is_some_and(|amount| amount.about);
                if about {
                    Words::fill(self.words.card.about, &text)
                } else {
                    text
                }
            }
            (None, Some(written)) => written.show(self.style),
            (None, None) => show(grams, Dimension::Mass, Digits::Significant(3), self.style),
        }
    }

    fn each(&self, text: impl Fn(f64) -> String) -> Vec<String> {
        self.multiples.iter().map(|multiple| text(*multiple)).collect()
    }
}

/// What is measured out: one row.
#[derive(Clone, Copy)]
pub(super) enum Row<'b> {
    /// Water put in.
    Water(&'b Water),
    /// A material, with its place among the bath's.
    Dose(usize, &'b Dose),
    /// Water up to this volume.
    MakeUp(&'b Amount),
}

/// Whether a scale's step is fine enough for a weight.
pub(super) fn fits(grams: f64, step: f64) -> bool {
    let rounded = (grams / step).round() * step;
    (rounded - grams).abs() <= COARSE * grams
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

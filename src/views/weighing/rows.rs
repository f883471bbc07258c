//! What to measure out, with everything about each material that a person at the scale should know.

use crate::facts::{Bath, Dose, Way, is_liquid};
use crate::notebook::Notebook;
use crate::pantry::{Form, Formula, Material};
use crate::scale::{cross_mixing, forms, rounding, spoons, water};
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::super::amounts::{Row as Measured, Weighing, fits};
use super::super::steps::listed;
use super::super::words::Words;
use super::{Group, Row};

/// An error below this is not worth telling, percent.
const TOLD: f64 = 0.05;

/// What the rows are made from.
pub(super) struct Seen<'a> {
    pub(super) bath: &'a Bath,
    pub(super) notebook: &'a Notebook,
    pub(super) weighing: &'a Weighing<'a>,
    pub(super) multiple: f64,
    pub(super) words: &'static Words,
    pub(super) style: Style,
}

impl Seen<'_> {
    /// The rows of every part.
    pub(super) fn groups(&self) -> Vec<Group> {
        let grouped = self.weighing.grouped(self.bath).into_iter();
        grouped
            .map(|(name, rows)| Group {
                name,
                rows: rows.iter().map(|row| self.row(row)).collect(),
            })
            .collect()
    }

    fn row(&self, measured: &Measured<'_>) -> Row {
        let printed = self.weighing.row(measured);
        let mut row = Row {
            material: printed.material,
            amount: printed.amounts.into_iter().next().unwrap_or_default(),
            grams: None,
            wanted: None,
            off_percent: None,
            off: String::new(),
            notes: Vec::new(),
        };
        if let Measured::Dose(index, dose) = measured {
            if let Some(wanted) = self.wanted(dose).filter(|wanted| wanted.is_exact()) {
                row.wanted = Some(wanted.best);
                row.grams = self.weighing.set(*index);
                row.off_percent = row.grams.map(|grams| 100.0 * (grams / wanted.best - 1.0));
            }
            if let Some(each) = &dose.amount.each
                && let Some(wanted) = self.grams(dose).filter(|_| each.range.best > 0.0)
            {
                // Nobody weighs tablets: whole ones, and how far off that is.
                let whole = (wanted.best / each.range.best).round().max(1.0);
                row.amount = format!("{} × {}", self.number(whole), each.show(self.style));
                row.wanted = Some(wanted.best);
                row.grams = Some(whole * each.range.best);
                row.off_percent = Some(100.0 * (whole * each.range.best / wanted.best - 1.0));
            }
            row.off = self.off(row.off_percent);
            row.notes = self.notes(*index, dose);
        }
        row
    }

    /// Grams of what is written, for this volume.
    fn grams(&self, dose: &Dose) -> Option<Range> {
        let litres = self.bath.litres().unwrap_or(Range::exact(1.0));
        Some(dose.grams(litres)?.scale(self.multiple))
    }

    /// Grams of the packet that the recipe wants for this volume, before any rounding.
    pub(super) fn wanted(&self, dose: &Dose) -> Option<Range> {
        Some(self.weighing.weighed(dose)?.grams.scale(self.multiple))
    }

    /// Grams that are really weighed.
    pub(super) fn weighed(&self, index: usize, dose: &Dose) -> Option<Range> {
        self.weighing
            .set(index)
            .map(Range::exact)
            .or_else(|| self.wanted(dose))
    }

    /// How far the scale puts the materials out of proportion, where it does.
    pub(super) fn rounding(&self) -> Option<String> {
        let step = self.weighing.scale_step()?;
        let pairs = self
            .bath
            .doses
            .iter()
            .enumerate()
            .filter_map(|(index, dose)| Some((self.wanted(dose)?.best, self.weighing.set(index)?)));
        let (wanted, weighed): (Vec<f64>, Vec<f64>) = pairs.unzip();
        if wanted.len() < 2 {
            return None;
        }
        let out = 100.0 * (libm::exp(rounding::spread(&wanted, &weighed)) - 1.0);
        let (step, say) = (self.mass(Range::exact(step)), &self.words.sheet);
        Some(if out < TOLD {
            Words::fill(say.weighed_exactly, &step)
        } else {
            Words::fill_all(say.weighed_together, &[&step, &self.percent(out)])
        })
    }

    fn notes(&self, index: usize, dose: &Dose) -> Vec<String> {
        let mut notes = Vec::new();
        let way = self.weighing.shelf().way(dose);
        let material = match way {
            Way::OtherForm(packet, _) => Some(packet.material),
            _ => dose.material(),
        };
        let grams = self.weighed(index, dose);
        self.other_form(dose, way, &mut notes);
        if let (Some(grams), Some(formula)) = (grams, material.and_then(|material| material.formula.as_ref()))
        {
            let brought = water::of_crystals(grams, formula);
            if brought.best > 0.0 {
                notes.push(Words::fill(self.words.sheet.of_it_water, &self.mass(brought)));
            }
        }
        notes.extend(material.and_then(|material| self.wrong_form(dose, material)));
        self.strengths(dose, way, &mut notes);
        self.tablets(dose, way, &mut notes);
        notes.extend(self.too_coarse(index, dose));
        if let (Some(grams), Some(material)) = (grams, material) {
            notes.extend(self.spoons(grams.best, material));
        }
        notes.extend(self.spooned(dose));
        notes
    }

    /// The packet is another form than the recipe has.
    fn other_form(&self, dose: &Dose, way: Way<'_, '_>, notes: &mut Vec<String>) {
        if let (Way::OtherForm(..), Some(grams)) = (way, self.grams(dose)) {
            let grams = self.mass(grams);
            let say = self.words.sheet.does_the_work;
            notes.push(Words::fill_all(say, &[&grams, &dose.name.value]));
        }
    }

    /// What the number would do, weighed from the form that is furthest from the right one.
    fn wrong_form(&self, dose: &Dose, right: &Material) -> Option<String> {
        let (own, family) = (right.formula.as_ref()?, right.of.as_deref()?);
        let (written, litres) = (dose.material()?, self.bath.litres()?);
        // Where the packet is another form than the recipe's, the slip is to weigh the recipe's number.
        let slip = dose.grams(litres)?.scale(self.multiple);
        if written.id != right.id {
            return self.slip(slip, own, right.form, written.formula.as_ref()?, family);
        }
        let forms = self.notebook.pantry.forms_of(family);
        let furthest = forms
            .iter()
            .filter(|form| form.id != right.id)
            .filter_map(|form| {
                let formula = form.formula.as_ref()?;
                let part = forms::same_substance(Range::exact(1.0), formula, own)?.best;
                Some((libm::fabs(libm::log(part)), *form, formula))
            })
            .filter(|(far, ..)| *far > 0.01)
            .max_by(|a, b| a.0.total_cmp(&b.0))?;
        self.slip(slip, furthest.2, furthest.1.form, own, family)
    }

    /// `18 g of crystals would be 6.67 g of the anhydrous, 37 %`.
    fn slip(
        &self,
        grams: Range,
        weighed: &Formula,
        form: Option<Form>,
        meant: &Formula,
        family: &str,
    ) -> Option<String> {
        let real = forms::same_substance(grams, weighed, meant)?;
        let share = 100.0 * real.best / grams.best;
        let named = self.notebook.pantry.family_name_in(family, self.style.language);
        let meant_form = if meant.water() == 0 {
            Form::Anhydrous
        } else {
            Form::Crystals
        };
        let say = &self.words.sheet;
        Some(Words::fill_all(
            say.wrong_form,
            &[
                &self.mass(grams),
                form.map_or(say.another_form, self.words.form),
                &self.mass(real),
                named.unwrap_or(family),
                (self.words.form)(meant_form),
                &number(Range::exact(share), Digits::Decimals(0), self.style),
            ],
        ))
    }

    /// The bottle is of another strength; or two bottles make what is wanted.
    fn strengths(&self, dose: &Dose, way: Way<'_, '_>, notes: &mut Vec<String>) {
        let Some(wanted) = dose.strength_grams_per_litre().map(|strength| strength.best) else {
            return;
        };
        let percent = |strength: f64| format!("{} %", self.number(strength / 10.0));
        if let Way::OtherStrength(packet, _) = way {
            let amount = dose.amount.amount.scaled(self.multiple).show(self.style);
            let strength = packet.grams_per_litre().map_or(wanted, |strength| strength.best);
            notes.push(Words::fill_all(
                self.words.sheet.other_strength,
                &[&percent(strength), &amount, &percent(wanted)],
            ));
            let there = self.weighing.shelf().strengths(dose);
            let below = there.iter().filter(|(_, strength)| *strength < wanted);
            let above = there.iter().filter(|(_, strength)| *strength > wanted);
            let weaker = below.max_by(|a, b| a.1.total_cmp(&b.1));
            let stronger = above.min_by(|a, b| a.1.total_cmp(&b.1));
            if let (Some((_, weak)), Some((_, strong))) = (weaker, stronger)
                && let Some((of_strong, of_weak)) = cross_mixing::parts_to_one(*strong, *weak, wanted)
            {
                notes.push(Words::fill_all(
                    self.words.sheet.strengths_make,
                    &[
                        &self.number(of_strong),
                        &percent(*strong),
                        &self.number(of_weak),
                        &percent(*weak),
                        &percent(wanted),
                    ],
                ));
            }
        }
    }

    /// Whole tablets, and how far they are off.
    fn tablets(&self, dose: &Dose, way: Way<'_, '_>, notes: &mut Vec<String>) {
        let Some(grams) = self.grams(dose) else {
            return;
        };
        let (amount, say) = (&dose.amount.amount, &self.words.sheet);
        let whole = |count: f64, each: f64| {
            let whole = count.round().max(1.0);
            let off = 100.0 * (whole * each / grams.best - 1.0);
            let off = if off.abs() < TOLD {
                String::new()
            } else {
                format!(", {} %", self.signed(off))
            };
            let say = if whole == 1.0 {
                say.one_tablet
            } else {
                say.tablets_of
            };
            Words::fill_all(say, &[&self.number(whole), &self.mass(Range::exact(each)), &off])
        };
        let each = amount
            .each
            .as_ref()
            .map(|each| each.range.best)
            .filter(|each| *each > 0.0);
        match (way, each) {
            (Way::Tablets(packet, active), None) => {
                let tablets = whole(grams.best / active, active);
                notes.push(Words::fill_all(say.tablets_there, &[packet.name, &tablets]));
            }
            (_, Some(_)) => notes.push(Words::fill(say.plain_powder, &self.mass(grams))),
            _ => {}
        }
    }

    /// The scale's step is too coarse for this weight.
    fn too_coarse(&self, index: usize, dose: &Dose) -> Option<String> {
        let step = self.weighing.scale_step()?;
        let wanted = self.wanted(dose)?.best;
        if self.weighing.set(index).is_some() || wanted <= 0.0 || fits(wanted, step) {
            return None;
        }
        let nearest = (wanted / step).round().max(1.0) * step;
        let off = self.signed(100.0 * (nearest / wanted - 1.0));
        Some(Words::fill_all(
            self.words.sheet.too_fine,
            &[&self.mass(Range::exact(nearest)), &off],
        ))
    }

    /// The same in the spoons at hand, with the grams they hold.
    fn spoons(&self, grams: f64, material: &Material) -> Option<String> {
        let bulk = material.spoon.as_ref()?;
        let bulk = Range::new(bulk.low(), bulk.best(), bulk.high()).scale(0.2);
        let owned = &self.notebook.settings.spoons;
        let millilitres: Vec<f64> = owned
            .iter()
            .map(|spoon| spoon.value.range.best * 1000.0)
            .collect();
        let found = spoons::nearest(grams, bulk, &millilitres)?;
        let told: Vec<String> = found
            .spoons
            .iter()
            .map(|(count, spoon)| {
                let litres = Range::exact(spoon / 1000.0);
                format!(
                    "{count} × {}",
                    show(litres, Dimension::Volume, Digits::Significant(3), self.style)
                )
            })
            .collect();
        let told: Vec<&str> = told.iter().map(String::as_str).collect();
        let grams = show(found.grams, Dimension::Mass, Digits::Significant(2), self.style);
        Some(Words::fill_all(
            self.words.sheet.spoons,
            &[&listed(&told, self.words.card.and), &grams],
        ))
    }

    /// A powder that the recipe itself gives by the spoon.
    fn spooned(&self, dose: &Dose) -> Option<String> {
        let amount = &dose.amount.amount;
        let material = dose.material()?;
        if amount.dimension != Dimension::Volume || material.density.is_some() {
            return None;
        }
        if is_liquid(material) {
            return None;
        }
        Some(match dose.grams(self.bath.litres()?) {
            Some(grams) => Words::fill(
                self.words.sheet.by_the_spoon,
                &show(
                    grams.scale(self.multiple),
                    Dimension::Mass,
                    Digits::Significant(2),
                    self.style,
                ),
            ),
            None => self.words.sheet.spoon_unknown.to_owned(),
        })
    }

    pub(super) fn mass(&self, grams: Range) -> String {
        show(grams, Dimension::Mass, Digits::Significant(3), self.style)
    }

    fn number(&self, value: f64) -> String {
        number(Range::exact(value), Digits::Significant(3), self.style)
    }

    fn percent(&self, value: f64) -> String {
        number(Range::exact(value), Digits::Significant(2), self.style)
    }

    /// An error with its sign, to a tenth of a percent.
    fn off(&self, percent: Option<f64>) -> String {
        let Some(percent) = percent.filter(|percent| percent.abs() >= TOLD) else {
            return String::new();
        };
        let text = number(Range::exact(percent), Digits::Decimals(1), self.style);
        let sign = if percent > 0.0 { "+" } else { "" };
        format!("{sign}{text}\u{a0}%")
    }

    fn signed(&self, value: f64) -> String {
        let text = self.percent(value);
        if value > 0.0 { format!("+{text}") } else { text }
    }
}

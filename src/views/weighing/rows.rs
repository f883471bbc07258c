//! What to measure out, with everything about each material that a person at the scale should know: the numbers of
//! [`scaling`](crate::views::scaling), multiplied, rounded and worded.

use crate::facts::Bath;
use crate::scale::{rounding, spoons};
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::super::amounts::{Row as Measured, Weighing, fits};
use super::super::scaling::{DosePlan, Scaling};
use super::super::steps::listed;
use super::super::words::Words;
use super::{Group, Row};

/// An error below this is not worth telling, percent.
pub(in crate::views) const TOLD: f64 = 0.05;

/// What the rows are made from.
pub(super) struct Seen<'a> {
    pub(super) bath: &'a Bath,
    pub(super) plan: &'a Scaling,
    pub(super) spoons: &'a [f64],
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
        if let Measured::Dose(index, _) = measured
            && let Some(dose) = self.plan.doses.get(*index)
        {
            if let Some(wanted) = self.wanted(dose).filter(|wanted| wanted.is_exact()) {
                row.wanted = Some(wanted.best);
                row.grams = self.weighing.set(*index);
                row.off_percent = row.grams.map(|grams| 100.0 * (grams / wanted.best - 1.0));
            }
            if let (Some(each), Some(wanted)) = (&dose.each, self.grams(dose)) {
                // Nobody weighs tablets: whole ones, and how far off that is.
                let whole = (wanted.best / each.grams).round().max(1.0);
                row.amount = format!("{} × {}", self.number(whole), each.text);
                row.wanted = Some(wanted.best);
                row.grams = Some(whole * each.grams);
                row.off_percent = Some(100.0 * (whole * each.grams / wanted.best - 1.0));
            }
            row.off = self.off(row.off_percent);
            row.notes = self.notes(*index, dose);
        }
        row
    }

    /// Grams of what is written, for this volume.
    fn grams(&self, dose: &DosePlan) -> Option<Range> {
        Some(dose.grams?.scale(self.multiple))
    }

    /// Grams of the packet that the recipe wants for this volume, before any rounding.
    pub(super) fn wanted(&self, dose: &DosePlan) -> Option<Range> {
        Some(dose.weighed?.scale(self.multiple))
    }

    /// Grams that are really weighed.
    pub(super) fn weighed(&self, index: usize, dose: &DosePlan) -> Option<Range> {
        self.weighing
            .set(index)
            .map(Range::exact)
            .or_else(|| self.wanted(dose))
    }

    /// How far the scale puts the materials out of proportion, where it does.
    pub(super) fn rounding(&self) -> Option<String> {
        let step = self.weighing.scale_step()?;
        let pairs = self
            .plan
            .doses
            .iter()
            .enumerate()
            .filter_map(|(index, dose)| Some((self.wanted(dose)?.best, self.weighing.set(index)?)));
        let (wanted, weighed): (Vec<f64>, Vec<f64>) = pairs.unzip();
        if wanted.len() < 2 {
            return None;
        }
        let out = 100.0 * (rounding::spread(&wanted, &weighed) - 1.0);
        let (step, say) = (self.mass(Range::exact(step)), &self.words.sheet);
        Some(if out < TOLD {
            Words::fill(say.weighed_exactly, &step)
        } else {
            Words::fill_all(say.weighed_together, &[&step, &self.percent(out)])
        })
    }

    fn notes(&self, index: usize, dose: &DosePlan) -> Vec<String> {
        let say = &self.words.sheet;
        let mut notes = Vec::new();
        let weighed = self.weighed(index, dose);
        if let Some(grams) = self.grams(dose).filter(|_| dose.other_form) {
            notes.push(Words::fill_all(
                say.does_the_work,
                &[&self.mass(grams), &dose.name],
            ));
        }
        if let (Some(grams), Some(share)) = (weighed, dose.water_share) {
            let brought = grams.scale(share);
            if brought.best > 0.0 {
                notes.push(Words::fill(say.of_it_water, &self.mass(brought)));
            }
        }
        notes.extend(self.slip(dose));
        self.strengths(dose, &mut notes);
        notes.extend(self.tablets(dose));
        notes.extend(self.too_coarse(index, dose));
        notes.extend(weighed.and_then(|grams| self.spoons(grams.best, dose.bulk?)));
        notes.extend(self.spooned(dose));
        notes
    }

    /// `18 g of crystals would be 6.67 g of the anhydrous, 37 %`.
    fn slip(&self, dose: &DosePlan) -> Option<String> {
        let slip = dose.slip.as_ref()?;
        let grams = slip.grams.scale(self.multiple);
        let real = grams.scale(slip.ratio);
        let share = 100.0 * real.best / grams.best;
        Some(Words::fill_all(
            self.words.sheet.wrong_form,
            &[
                &self.mass(grams),
                slip.form,
                &self.mass(real),
                &slip.family,
                slip.meant,
                &number(Range::exact(share), Digits::Decimals(0), self.style),
            ],
        ))
    }

    /// The bottle is of another strength; or two bottles make what is wanted.
    fn strengths(&self, dose: &DosePlan, notes: &mut Vec<String>) {
        let Some(strength) = &dose.strength else {
            return;
        };
        notes.push(Words::fill_all(
            self.words.sheet.other_strength,
            &[
                &strength.there,
                &strength.amount.shown(self.multiple, self.style),
                &strength.wanted,
            ],
        ));
        notes.extend(strength.cross.clone());
    }

    /// Whole tablets, and how far they are off; or the powder instead of them.
    fn tablets(&self, dose: &DosePlan) -> Option<String> {
        let (grams, say) = (self.grams(dose)?, &self.words.sheet);
        if dose.each.is_some() {
            return Some(Words::fill(say.plain_powder, &self.mass(grams)));
        }
        let tablets = dose.tablets.as_ref()?;
        let whole = (grams.best / tablets.active).round().max(1.0);
        let off = 100.0 * (whole * tablets.active / grams.best - 1.0);
        let off = if off.abs() < TOLD {
            String::new()
        } else {
            format!(", {} %", self.signed(off))
        };
        let counted = if whole == 1.0 {
            say.one_tablet
        } else {
            say.tablets_of
        };
        let active = self.mass(Range::exact(tablets.active));
        let counted = Words::fill_all(counted, &[&self.number(whole), &active, &off]);
        Some(Words::fill_all(say.tablets_there, &[&tablets.packet, &counted]))
    }

    /// The scale's step is too coarse for this weight.
    fn too_coarse(&self, index: usize, dose: &DosePlan) -> Option<String> {
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
    fn spoons(&self, grams: f64, bulk: Range) -> Option<String> {
        let found = spoons::nearest(grams, bulk, self.spoons)?;
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
    fn spooned(&self, dose: &DosePlan) -> Option<String> {
        let say = &self.words.sheet;
        Some(match dose.spooned.as_ref()?.grams {
            Some(grams) => Words::fill(
                say.by_the_spoon,
                &show(
                    grams.scale(self.multiple),
                    Dimension::Mass,
                    Digits::Significant(2),
                    self.style,
                ),
            ),
            None => say.spoon_unknown.to_owned(),
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

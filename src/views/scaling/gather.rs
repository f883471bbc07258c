//! From a recipe, the pantry and the shelf to numbers.

use crate::facts::{Bath, Dose, Way, step_times};
use crate::notebook::{Notebook, Verb, Water};
use crate::pantry::{Form, Formula, Material};
use crate::scale::{cross_mixing, forms};
use crate::units::{Digits, Dimension, Range, Style, number};

use super::super::amounts::{Measure, Row, Weighing, is_made_up};
use super::super::cautions::fizzes;
use super::super::steps::Wording;
use super::super::words::Words;
use super::{
    DilutionPlan, DosePlan, EachPlan, GroupPlan, MeasurePlan, Plain, RowPlan, Scaling, SlipPlan, SpoonedPlan,
    StrengthPlan, TabletsPlan, TakesPlan, TimePlan, WaterPlan,
};

/// The numbers of a recipe; nothing where it does not say what it makes.
pub(in crate::views) fn scaling(
    bath: &Bath,
    notebook: &Notebook,
    weighing: &Weighing<'_>,
    words: &'static Words,
) -> Option<Scaling> {
    let makes = bath.litres()?;
    let style = notebook.settings.style;
    let from = Gather {
        bath,
        notebook,
        weighing,
        words,
        style,
        makes,
    };
    let groups = weighing.grouped(bath).into_iter();
    let groups = groups.map(|(name, rows)| GroupPlan {
        name,
        rows: rows.iter().map(|row| from.row(row)).collect(),
    });
    Some(Scaling {
        makes,
        doses: bath.doses.iter().map(|dose| from.dose(dose)).collect(),
        groups: groups.collect(),
        steps: Wording {
            named: true,
            bath,
            weighing,
            words,
            style,
        }
        .plans(),
        waters: from.waters(),
        fizzes: fizzes(bath),
        dilution: bath.recipe.usage.dilution.get().map(|dilution| DilutionPlan {
            text: dilution.show(style),
            water: dilution.range.best,
        }),
        times: from.times(),
    })
}

struct Gather<'a> {
    bath: &'a Bath,
    notebook: &'a Notebook,
    weighing: &'a Weighing<'a>,
    words: &'static Words,
    style: Style,
    makes: Range,
}

impl Gather<'_> {
    fn row(&self, row: &Row<'_>) -> RowPlan {
        match row {
            Row::Water(water) => RowPlan::Water {
                label: self.weighing.water_label(water),
                amount: Box::new(Plain::of(&water.amount.amount, self.style)),
            },
            Row::Dose(at, _) => RowPlan::Dose { at: *at },
            Row::MakeUp(makes) => RowPlan::Up { litres: makes.range },
        }
    }

    fn dose(&self, dose: &Dose) -> DosePlan {
        let way = self.weighing.shelf().way(dose);
        let material = match way {
            Way::OtherForm(packet, _) => Some(packet.material),
            _ => dose.material(),
        };
        let each = dose.amount.each.as_ref().filter(|each| each.range.best > 0.0);
        let (measured, measure) = self.weighing.measure(dose);
        DosePlan {
            name: dose.name.value.clone(),
            called: measured,
            measure: match measure {
                Measure::Scaled(amount, times) => MeasurePlan::Scaled {
                    amount: Plain::of(amount, self.style),
                    times,
                },
                Measure::Weighed(_, written) => MeasurePlan::Weighed {
                    written: written.map(|amount| Plain::of(amount, self.style)),
                },
                Measure::Volume(litres) => MeasurePlan::Volume { litres },
                Measure::Fixed(text) => MeasurePlan::Fixed { text },
            },
            grams: dose.grams(self.makes),
            weighed: self.weighing.weighed(dose).map(|weighed| weighed.grams),
            each: each.map(|each| EachPlan {
                grams: each.range.best,
                text: each.show(self.style),
            }),
            other_form: matches!(way, Way::OtherForm(..)),
            water_share: material
                .and_then(|material| material.formula.as_ref())
                .map(Formula::water_share),
            slip: material.and_then(|material| self.slip(dose, material)),
            strength: self.strength(dose, way),
            tablets: match way {
                Way::Tablets(packet, active) if each.is_none() => Some(TabletsPlan {
                    packet: packet.name.to_owned(),
                    active,
                }),
                _ => None,
            },
            bulk: material
                .and_then(|material| material.spoon.as_ref())
                .map(|bulk| bulk.range().scale(0.2)),
            spooned: self.spooned(dose),
            keeps: dose.keeps_back(self.makes),
            takes: self.takes(dose, way),
        }
    }

    /// What the number would do, weighed from the form that is furthest from the right one.
    fn slip(&self, dose: &Dose, right: &Material) -> Option<SlipPlan> {
        let (own, family) = (right.formula.as_ref()?, right.of.as_deref()?);
        let written = dose.material()?;
        let grams = dose.grams(self.makes)?;
        // Where the packet is another form than the recipe's, the slip is to weigh the recipe's number.
        if written.id != right.id {
            return self.slipped(grams, own, right.form, written.formula.as_ref()?, family);
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
        self.slipped(grams, furthest.2, furthest.1.form, own, family)
    }

    fn slipped(
        &self,
        grams: Range,
        weighed: &Formula,
        form: Option<Form>,
        meant: &Formula,
        family: &str,
    ) -> Option<SlipPlan> {
        let named = self.notebook.pantry.family_name_in(family, self.style.language);
        let meant_form = if meant.water() == 0 {
            Form::Anhydrous
        } else {
            Form::Crystals
        };
        Some(SlipPlan {
            grams,
            ratio: forms::same_substance(Range::exact(1.0), weighed, meant)?.best,
            form: form.map_or(self.words.sheet.another_form, self.words.form),
            family: named.unwrap_or(family).to_owned(),
            meant: (self.words.form)(meant_form),
        })
    }

    /// The bottle is of another strength; or two bottles make what is wanted.
    fn strength(&self, dose: &Dose, way: Way<'_, '_>) -> Option<StrengthPlan> {
        let Way::OtherStrength(packet, _) = way else {
            return None;
        };
        let wanted = dose.strength_grams_per_litre()?.best;
        let figure = |value: f64| number(Range::exact(value), Digits::Significant(3), self.style);
        let percent = |strength: f64| format!("{} %", figure(strength / 10.0));
        let there = self.weighing.shelf().strengths(dose);
        let below = there.iter().filter(|(_, strength)| *strength < wanted);
        let above = there.iter().filter(|(_, strength)| *strength > wanted);
        let weaker = below.max_by(|a, b| a.1.total_cmp(&b.1));
        let stronger = above.min_by(|a, b| a.1.total_cmp(&b.1));
        let cross = weaker.zip(stronger).and_then(|((_, weak), (_, strong))| {
            let (of_strong, of_weak) = cross_mixing::parts_to_one(*strong, *weak, wanted)?;
            let parts = [
                figure(of_strong),
                percent(*strong),
                figure(of_weak),
                percent(*weak),
                percent(wanted),
            ];
            Some(Words::fill_all(
                self.words.sheet.strengths_make,
                &parts.each_ref().map(String::as_str),
            ))
        });
        Some(StrengthPlan {
            there: percent(packet.grams_per_litre().map_or(wanted, |strength| strength.best)),
            amount: Plain::of(&dose.amount.amount, self.style),
            wanted: percent(wanted),
            cross,
        })
    }

    /// A powder that the recipe itself gives by the spoon.
    fn spooned(&self, dose: &Dose) -> Option<SpoonedPlan> {
        dose.material()?;
        (dose.amount.dimension == Dimension::Volume && !dose.known.is_poured()).then(|| SpoonedPlan {
            grams: dose.grams(self.makes),
        })
    }

    fn takes(&self, dose: &Dose, way: Way<'_, '_>) -> Option<TakesPlan> {
        let (range, dimension) = self.weighing.shelf().takes(dose, self.makes)?;
        let packet = way.packet();
        Some(TakesPlan {
            name: packet.map_or_else(|| dose.name.value.clone(), |packet| packet.name.to_owned()),
            range,
            dimension,
            there: packet.and_then(|packet| packet.there_in(dimension)),
            shelved: packet.is_some(),
        })
    }

    fn waters(&self) -> Option<Vec<WaterPlan>> {
        let of_parts = self.bath.recipe.parts.iter().map(|part| &part.water);
        let waters: Vec<&Water> = of_parts
            .chain([&self.bath.recipe.water])
            .filter_map(|water| water.get())
            .collect();
        // A weighed water is the whole of it, and without any stated nothing can be said.
        if waters.is_empty() || !is_made_up(self.bath) {
            return None;
        }
        let plan = |water: &Water| WaterPlan {
            range: water.amount.range,
            litres: water.amount.dimension == Dimension::Volume,
        };
        Some(waters.into_iter().map(plan).collect())
    }

    fn times(&self) -> Vec<Vec<TimePlan>> {
        let say = &self.words.sheet;
        let room = self.notebook.settings.room.get().map(|room| room.range.best);
        let recipe = &self.bath.recipe;
        let of_steps = |name: Option<&str>, steps: &[crate::notebook::Step], water| {
            let timed = steps.iter().zip(step_times(steps, water, room));
            timed
                .map(|(step, time)| {
                    let cools = step.verb == Verb::Cool && step.time.is_none();
                    TimePlan {
                        time: time.ok(),
                        cools: cools.then(|| {
                            name.map_or_else(
                                || say.cooling.to_owned(),
                                |name| Words::fill(say.cooling_part, name),
                            )
                        }),
                    }
                })
                .collect()
        };
        let mut times: Vec<Vec<TimePlan>> = recipe
            .parts
            .iter()
            .map(|part| {
                let name = part.name.get().map(|name| name.value.as_str());
                of_steps(name, &part.steps, part.water.get())
            })
            .collect();
        times.push(of_steps(None, &recipe.steps, recipe.water.get()));
        times
    }
}

//! The steps of mixing in words, numbered in order: part by part, then the whole.

use crate::facts::{Bath, Dose};
use crate::notebook::{Step as Written, Verb};
use crate::units::{Amount, Style};

use super::amounts::{Weighing, has_make_up, is_made_up};
use super::card::Step;
use super::going_in::{going_in, short};
use super::scaling::{FigurePlan, StepPlan};
use super::words::Words;

/// What the steps of one bath are worded with.
pub(super) struct Wording<'a> {
    pub(super) bath: &'a Bath,
    pub(super) weighing: &'a Weighing<'a>,
    pub(super) words: &'static Words,
    pub(super) style: Style,
    /// Whether a step says what goes in at it.
    pub(super) named: bool,
}

impl Wording<'_> {
    /// All steps. Where the author wrote none, those that follow from the amounts alone: water, materials in the order
    /// written, water again to the volume.
    pub(super) fn steps(&self) -> Vec<Step> {
        self.plans().into_iter().map(|plan| self.shown(plan)).collect()
    }

    /// A step with its figures for the volumes of the weighing.
    fn shown(&self, plan: StepPlan) -> Step {
        let weighing = self.weighing;
        let mut figures = plan.figures.into_iter().map(|figure| match figure {
            FigurePlan::Text { text } => text,
            FigurePlan::Volume { litres } => weighing.joined_volume(litres),
            FigurePlan::First { litres } => weighing.roughly(litres),
        });
        let mut notes = plan.notes;
        // A vessel is named for what the recipe makes, and other volumes are mixed too.
        notes.extend(plan.vessel.map(|vessel| match plan.vessel_for {
            Some(volume) if weighing.differs() => format!("{vessel} {volume}"),
            _ => vessel,
        }));
        Step {
            part: plan.part,
            what: plan.what,
            figure: figures.next().unwrap_or_default(),
            second: figures.collect::<Vec<_>>().join(" "),
            note: notes.join(", "),
        }
    }

    /// All steps, with figures that follow the volume still open.
    pub(super) fn plans(&self) -> Vec<StepPlan> {
        let recipe = &self.bath.recipe;
        let mut steps = Vec::new();
        for part in &recipe.parts {
            let name = part.name.get().map(|name| name.value.as_str());
            if part.steps.is_empty() {
                steps.extend(self.stir_in(name));
            }
            let makes = part.makes.get().map(|makes| &makes.amount);
            steps.extend(self.written(name, name, &part.steps, makes));
        }
        if recipe.steps.is_empty() && recipe.parts.is_empty() {
            steps.push(match recipe.water.get() {
                Some(_) => plain(None, self.words.card.begin_with_part_water.to_owned()),
                None => StepPlan {
                    figures: self
                        .weighing
                        .first_water(self.bath)
                        .map(|litres| FigurePlan::First { litres })
                        .into_iter()
                        .collect(),
                    ..plain(None, self.words.card.begin_with_water.to_owned())
                },
            });
            steps.extend(self.stir_in(None));
        }
        // After parts, the whole has a name too: its steps must not be read as the last part's.
        let whole = (!recipe.parts.is_empty()).then_some(self.words.card.finished);
        steps.extend(self.written(None, whole, &recipe.steps, None));
        let diluted = recipe.steps.iter().any(|step| step.verb == Verb::Dilute);
        if let Some(makes) = recipe.makes.get()
            && is_made_up(self.bath)
            && !has_make_up(&recipe.steps)
            && !diluted
        {
            steps.push(StepPlan {
                figures: vec![FigurePlan::Volume { litres: makes.range }],
                ..plain(whole, self.words.card.make_up_to.to_owned())
            });
        }
        steps
    }

    /// `stir in the soda, then the salt`: nothing where there is nothing to stir in.
    fn stir_in(&self, part: Option<&str>) -> Option<StepPlan> {
        let names = self.names(&self.doses(part));
        (!names.is_empty()).then(|| {
            let names = names.join(self.words.card.then);
            plain(part, Words::fill(self.words.card.stir_in, &names))
        })
    }

    /// The materials of a part, or of no part.
    fn doses(&self, part: Option<&str>) -> Vec<&Dose> {
        let doses = self.bath.doses.iter();
        doses.filter(|dose| dose.part.as_deref() == part).collect()
    }

    /// What materials are called in a step.
    fn names(&self, doses: &[&Dose]) -> Vec<String> {
        let called = doses.iter().map(|dose| self.weighing.called(dose));
        called.map(|name| short(&name, self.bath).to_owned()).collect()
    }

    /// The steps of a part, or of the whole, under `head`. `makes` is what the part yields.
    fn written(
        &self,
        part: Option<&str>,
        head: Option<&str>,
        steps: &[Written],
        makes: Option<&Amount>,
    ) -> Vec<StepPlan> {
        let taken = going_in(steps, &self.doses(part));
        let pairs = steps.iter().zip(taken);
        pairs
            .map(|(step, doses)| {
                let names = if self.named {
                    self.names(&doses)
                } else {
                    Vec::new()
                };
                self.step(head, step, &names, makes)
            })
            .collect()
    }

    /// One step, with the names of what goes in at it.
    fn step(&self, part: Option<&str>, step: &Written, names: &[String], makes: Option<&Amount>) -> StepPlan {
        let words = self.words;
        let what = match step.verb {
            verb if !names.is_empty() => self.take_in(verb, names, step.time.is_some()),
            Verb::Heat if step.temperature.is_some() => words.card.warm_to.to_owned(),
            Verb::Cool if step.temperature.is_some() => words.card.cool_to.to_owned(),
            Verb::MakeUp => words.card.make_up_to.to_owned(),
            Verb::Pour => self.pour(step),
            Verb::Combine => format!("{} {}", (words.verb)(step.verb), self.all(step)),
            verb => (words.verb)(verb).to_owned(),
        };
        let shown = |amount: &Amount| amount.show(self.style);
        let at = |amount: &Amount| Words::fill(words.card.at, &shown(amount));
        let reaches = matches!(step.verb, Verb::Heat | Verb::Cool);
        let mut figures: Vec<FigurePlan> = Vec::new();
        let text = |text: String| FigurePlan::Text { text };
        if reaches {
            figures.extend(step.temperature.as_ref().map(shown).map(text));
        }
        figures.extend(step.time.as_ref().map(shown).map(text));
        if !reaches {
            figures.extend(step.temperature.as_ref().map(at).map(text));
        }
        figures.extend(step.dilution.as_ref().map(shown).map(text));
        let whole = self.bath.recipe.makes.get().map(|makes| &makes.amount);
        let volume = match step.verb {
            Verb::MakeUp => step.volume.as_ref().or(makes).or(whole),
            _ => step.volume.as_ref(),
        };
        figures.extend(volume.map(|volume| FigurePlan::Volume { litres: volume.range }));
        figures.extend(step.at.get().map(|figure| text(at(&figure.amount))));
        let vessel = step.vessel.get();
        StepPlan {
            part: part.map(str::to_owned),
            what,
            figures,
            notes: step.words.iter().cloned().collect(),
            vessel: vessel.map(|vessel| (words.in_vessel)(&held_together(vessel.value.trim()))),
            vessel_for: whole
                .map(|makes| Words::fill(words.card.for_volume, &self.weighing.volume(makes.range))),
        }
    }

    /// `pour agent into alkali`: the last part named is the one that is poured into.
    fn pour(&self, step: &Written) -> String {
        let verb = (self.words.verb)(step.verb);
        match step.parts.split_last() {
            Some((into, [])) => format!("{verb} {}", into.value),
            Some((into, poured)) => {
                let poured: Vec<&str> = poured.iter().map(|part| part.value.as_str()).collect();
                format!(
                    "{verb} {} {} {}",
                    listed(&poured, self.words.card.and),
                    self.words.card.into,
                    into.value
                )
            }
            None => verb.to_owned(),
        }
    }

    /// `dissolve the soda and the salt`, with a colon where a figure follows.
    fn take_in(&self, verb: Verb, names: &[String], figure: bool) -> String {
        let words = self.words;
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let names = listed(&names, words.card.and);
        let told = match verb {
            Verb::Stir => Words::fill(words.card.stir_in, &names),
            verb => Words::fill_all(words.card.do_with, &[(words.verb)(verb), &names]),
        };
        if figure { told + ":" } else { told }
    }

    fn all(&self, step: &Written) -> String {
        let parts: Vec<&str> = step.parts.iter().map(|part| part.value.as_str()).collect();
        listed(&parts, self.words.card.and)
    }
}

/// The text with its numbers held to the words after them: `3 l jug` is not broken behind the 3.
fn held_together(text: &str) -> String {
    let mut held = String::with_capacity(text.len());
    let mut last = ' ';
    for letter in text.chars() {
        held.push(if letter == ' ' && last.is_ascii_digit() {
            '\u{a0}'
        } else {
            letter
        });
        last = letter;
    }
    held
}

fn plain(part: Option<&str>, what: String) -> StepPlan {
    StepPlan {
        part: part.map(str::to_owned),
        what,
        figures: Vec::new(),
        notes: Vec::new(),
        vessel: None,
        vessel_for: None,
    }
}

/// `tea`, `tea and alkali`, `tea, alkali and agent`.
pub(super) fn listed(names: &[&str], and: &str) -> String {
    match names.split_last() {
        None => String::new(),
        Some((last, [])) => (*last).to_owned(),
        Some((last, rest)) => format!("{} {and} {last}", rest.join(", ")),
    }
}

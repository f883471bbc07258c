//! The steps of mixing in words, numbered in order: part by part, then the whole.

use crate::facts::Bath;
use crate::notebook::{Step as Written, Verb};
use crate::units::{Amount, Style};

use super::amounts::{Weighing, has_make_up, is_made_up};
use super::card::Step;
use super::words::Words;

/// What the steps of one bath are worded with.
pub(super) struct Wording<'a> {
    pub(super) bath: &'a Bath,
    pub(super) weighing: &'a Weighing<'a>,
    pub(super) words: &'static Words,
    pub(super) style: Style,
}

impl Wording<'_> {
    /// All steps. Where the author wrote none, those that follow from the amounts alone: water, materials in the order
    /// written, water again to the volume.
    pub(super) fn steps(&self) -> Vec<Step> {
        let recipe = &self.bath.recipe;
        let mut steps = Vec::new();
        for part in &recipe.parts {
            let name = part.name.get().map(|name| name.value.as_str());
            if part.steps.is_empty() {
                steps.extend(self.stir_in(name));
            }
            let makes = part.makes.get().map(|makes| &makes.amount);
            steps.extend(part.steps.iter().map(|step| self.step(name, step, makes)));
        }
        if recipe.steps.is_empty() && recipe.parts.is_empty() {
            steps.push(match recipe.water.get() {
                Some(_) => plain(None, self.words.card.begin_with_part_water.to_owned()),
                None => Step {
                    figure: self.weighing.first_water(self.bath),
                    ..plain(None, self.words.card.begin_with_water.to_owned())
                },
            });
            steps.extend(self.stir_in(None));
        }
        // After parts, the whole has a name too: its steps must not be read as the last part's.
        let whole = (!recipe.parts.is_empty()).then_some(self.words.card.finished);
        steps.extend(recipe.steps.iter().map(|step| self.step(whole, step, None)));
        let diluted = recipe.steps.iter().any(|step| step.verb == Verb::Dilute);
        if let Some(makes) = recipe.makes.get()
            && is_made_up(self.bath)
            && !has_make_up(&recipe.steps)
            && !diluted
        {
            steps.push(Step {
                figure: self.weighing.joined_volume(&makes.amount),
                ..plain(whole, self.words.card.make_up_to.to_owned())
            });
        }
        steps
    }

    /// `stir in the soda, then the salt`: nothing where there is nothing to stir in.
    fn stir_in(&self, part: Option<&str>) -> Option<Step> {
        let doses = self.bath.doses.iter().filter(|dose| dose.part.as_deref() == part);
        let names: Vec<String> = doses.map(|dose| self.weighing.called(dose)).collect();
        (!names.is_empty()).then(|| {
            let names = names.join(self.words.card.then);
            plain(part, Words::fill(self.words.card.stir_in, &names))
        })
    }

    /// One step. `makes` is what the part yields.
    fn step(&self, part: Option<&str>, step: &Written, makes: Option<&Amount>) -> Step {
        let words = self.words;
        let what = match step.verb {
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
        let mut figures: Vec<String> = Vec::new();
        if reaches {
            figures.extend(step.temperature.as_ref().map(shown));
        }
        figures.extend(step.time.as_ref().map(shown));
        if !reaches {
            figures.extend(step.temperature.as_ref().map(at));
        }
        figures.extend(step.dilution.as_ref().map(shown));
        let whole = self.bath.recipe.makes.get().map(|makes| &makes.amount);
        let volume = match step.verb {
            Verb::MakeUp => step.volume.as_ref().or(makes).or(whole),
            _ => step.volume.as_ref(),
        };
        figures.extend(volume.map(|volume| self.weighing.joined_volume(volume)));
        figures.extend(step.at.get().map(|figure| at(&figure.amount)));
        let mut notes: Vec<String> = step.words.iter().cloned().collect();
        if let Some(vessel) = step.vessel.get() {
            let vessel = Words::fill(words.card.in_a, &held_together(&vessel.value));
            // A vessel is named for what the recipe makes, and other volumes are mixed too.
            notes.push(match whole.filter(|_| self.weighing.differs()) {
                Some(makes) => {
                    let volume = Words::fill(words.card.for_volume, &self.weighing.volume(makes.range));
                    format!("{vessel} {volume}")
                }
                None => vessel,
            });
        }
        let mut figures = figures.into_iter();
        Step {
            part: part.map(str::to_owned),
            what,
            figure: figures.next().unwrap_or_default(),
            second: figures.collect::<Vec<_>>().join(" "),
            note: notes.join(", "),
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

fn plain(part: Option<&str>, what: String) -> Step {
    Step {
        part: part.map(str::to_owned),
        what,
        figure: String::new(),
        second: String::new(),
        note: String::new(),
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

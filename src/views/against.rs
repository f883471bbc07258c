//! What differs between two recipes, in words: amounts to the litre, forms, parts, steps and times.

use serde::Serialize;

use crate::facts::{Bath, Dose, Known};
use crate::notebook::{Block, Notebook};
use crate::scale::forms;
use crate::units::{Amount, Digits, Dimension, Range, Style, number, show};

use super::amounts::Weighing;
use super::steps::Wording;
use super::words::words_of;

/// Two amounts to the litre count as one within this part of them.
const SAME: f64 = 0.002;

/// Two recipes side by side.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Against {
    /// The first one's id.
    pub one: String,
    /// The other's.
    pub other: String,
    /// What differs, subject by subject. Empty where nothing does.
    pub differences: Vec<Difference>,
    /// What both have alike, in a few words.
    pub alike: Vec<String>,
}

/// One thing that differs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Difference {
    /// What, such as `vitamin C powder` or `time`.
    pub what: String,
    /// As the first has it.
    pub one: String,
    /// As the other has it.
    pub other: String,
    /// What that comes to, where it can be said.
    pub note: String,
}

/// Compares two recipes, each with what it is based on.
pub fn against(notebook: &Notebook, one: (&Block, &Bath), other: (&Block, &Bath)) -> Against {
    let style = notebook.settings.style;
    let mut found = Found {
        style,
        differences: Vec::new(),
        alike: Vec::new(),
    };
    let (a, b) = (one.1, other.1);
    found.word("role", &role(a), &role(b));
    materials(a, b, &mut found);
    let text = |amount: Option<&Amount>| amount.map_or_else(String::new, |amount| amount.show(style));
    found.word("parts", &part_names(a), &part_names(b));
    let (steps_a, steps_b) = (steps(a, notebook), steps(b, notebook));
    let (only_a, only_b) = apart(&steps_a, &steps_b);
    if only_a == only_b && steps_a == steps_b {
        found.word("steps", &steps_a.join("; "), &steps_b.join("; "));
    } else if only_a.is_empty() && only_b.is_empty() {
        found.word("order of steps", &steps_a.join("; "), &steps_b.join("; "));
    } else {
        found.word("steps that only one has", &only_a, &only_b);
    }
    let (use_a, use_b) = (&a.recipe.usage, &b.recipe.usage);
    let time = |usage: &crate::notebook::Usage| text(usage.time.get().map(|figure| &figure.amount));
    found.word("time", &time(use_a), &time(use_b));
    let warm = |usage: &crate::notebook::Usage| text(usage.temperature.get().map(|figure| &figure.amount));
    found.word("temperature", &warm(use_a), &warm(use_b));
    let diluted = |usage: &crate::notebook::Usage| text(usage.dilution.get().map(|figure| &figure.amount));
    found.word("dilution", &diluted(use_a), &diluted(use_b));
    let moved = |usage: &crate::notebook::Usage| {
        usage
            .agitation
            .get()
            .map_or_else(String::new, |text| text.value.clone())
    };
    found.word("agitation", &moved(use_a), &moved(use_b));
    let keeps = |bath: &Bath| text(bath.recipe.keeps.working().map(|figure| &figure.amount));
    found.word("keeps", &keeps(a), &keeps(b));
    Against {
        one: one.0.id.clone(),
        other: other.0.id.clone(),
        differences: found.differences,
        alike: found.alike,
    }
}

struct Found {
    style: Style,
    differences: Vec<Difference>,
    alike: Vec<String>,
}

impl Found {
    /// Told where the two differ; counted as alike where both say the same.
    fn word(&mut self, what: &str, one: &str, other: &str) {
        if one == other {
            if !one.is_empty() {
                self.alike.push(what.to_owned());
            }
            return;
        }
        let said = |text: &str| {
            if text.is_empty() {
                "not said".to_owned()
            } else {
                text.to_owned()
            }
        };
        self.differences.push(Difference {
            what: what.to_owned(),
            one: said(one),
            other: said(other),
            note: String::new(),
        });
    }
}

fn role(bath: &Bath) -> String {
    bath.role()
        .map_or_else(String::new, |role| role.word().to_owned())
}

fn part_names(bath: &Bath) -> String {
    let names = bath.recipe.parts.iter().filter_map(|part| part.name.get());
    names
        .map(|name| name.value.as_str())
        .collect::<Vec<_>>()
        .join(", ")
}

/// The steps of the whole recipe, at the volume that it makes, without their materials, which are set against each other
/// by themselves; none where the author wrote none.
fn steps(bath: &Bath, notebook: &Notebook) -> Vec<String> {
    let of_parts = bath.recipe.parts.iter().map(|part| &part.steps);
    if of_parts.chain([&bath.recipe.steps]).all(Vec::is_empty) {
        return Vec::new();
    }
    let weighing = Weighing::at(bath, notebook, words_of(notebook), vec![1.0]);
    let wording = Wording {
        named: false,
        bath,
        weighing: &weighing,
        words: words_of(notebook),
        style: notebook.settings.style,
    };
    let told = wording.steps().into_iter().map(|step| {
        let words = [step.what, step.figure, step.second];
        let words: Vec<&str> = words
            .iter()
            .map(String::as_str)
            .filter(|word| !word.is_empty())
            .collect();
        words.join(" ")
    });
    told.collect()
}

/// What only the one and only the other has, each taken once.
fn apart(one: &[String], other: &[String]) -> (String, String) {
    let without = |from: &[String], taken: &[String]| {
        let mut taken: Vec<&String> = taken.iter().collect();
        let left = from.iter().filter(|step| {
            let at = taken.iter().position(|held| held == step);
            at.map(|at| taken.remove(at)).is_none()
        });
        left.map(String::as_str).collect::<Vec<_>>().join("; ")
    };
    (without(one, other), without(other, one))
}

/// What a bath holds of one material: in grams to the litre, or in millilitres.
struct Held<'b> {
    dose: &'b Dose,
    per_litre: Option<Range>,
    liquid: bool,
}

fn held(bath: &Bath) -> Vec<Held<'_>> {
    let mut all: Vec<Held<'_>> = Vec::new();
    let litres = bath.litres();
    for dose in &bath.doses {
        let liquid = dose.amount.dimension == Dimension::Volume
            && dose.material().is_some_and(crate::facts::is_liquid);
        let amount = litres.and_then(|litres| {
            let amount = if liquid {
                dose.amount.range.scale(1000.0)
            } else {
                dose.grams(litres)?
            };
            amount.checked_div(litres)
        });
        match all.iter_mut().find(|held| same_material(held.dose, dose)) {
            Some(held) => held.per_litre = held.per_litre.zip(amount).map(|(a, b)| a + b),
            None => all.push(Held {
                dose,
                per_litre: amount,
                liquid,
            }),
        }
    }
    all
}

fn materials(one: &Bath, other: &Bath, found: &mut Found) {
    let (held_one, mut held_other) = (held(one), held(other));
    for a in held_one {
        let same = held_other.iter().position(|b| same_material(a.dose, b.dose));
        let akin = same.or_else(|| {
            held_other
                .iter()
                .position(|b| same_substance(a.dose, b.dose).is_some())
        });
        match akin {
            Some(at) => {
                let b = held_other.remove(at);
                both(&a, &b, found);
            }
            None => found.differences.push(Difference {
                what: a.dose.name.value.clone(),
                one: per_litre(&a, found.style),
                other: "none".to_owned(),
                note: String::new(),
            }),
        }
    }
    for b in held_other {
        found.differences.push(Difference {
            what: b.dose.name.value.clone(),
            one: "none".to_owned(),
            other: per_litre(&b, found.style),
            note: String::new(),
        });
    }
}

fn both(a: &Held<'_>, b: &Held<'_>, found: &mut Found) {
    let style = found.style;
    let form = same_substance(a.dose, b.dose).filter(|_| !same_material(a.dose, b.dose));
    let what = a.dose.name.value.clone();
    // In the first one's form, so that the two can be compared.
    let ratio = a.per_litre.zip(b.per_litre).and_then(|(a, b)| {
        let b = b.scale(form.unwrap_or(1.0));
        (a.best > 0.0).then(|| b.best / a.best)
    });
    let alike = ratio.is_some_and(|ratio| (ratio - 1.0).abs() <= SAME);
    if alike && form.is_none() {
        found.alike.push(what);
        return;
    }
    let (told_a, told_b) = (per_litre(a, style), per_litre(b, style));
    let other = match form {
        Some(_) => format!("{told_b} of {}", b.dose.name.value),
        None => told_b,
    };
    let note = match ratio {
        Some(_) if alike => "another form, as much of the substance".to_owned(),
        Some(ratio) => {
            let times = number(Range::exact(ratio), Digits::Significant(2), style);
            let of = if form.is_some() { " of the substance" } else { "" };
            format!("{times} times as much{of}")
        }
        None if told_a == other => return,
        None => String::new(),
    };
    found.differences.push(Difference {
        what,
        one: told_a,
        other,
        note,
    });
}

fn per_litre(held: &Held<'_>, style: Style) -> String {
    match held.per_litre {
        Some(amount) if held.liquid => format!("{}\u{a0}ml/l", number(amount, Digits::Significant(3), style)),
        Some(amount) => show(
            amount,
            Dimension::MassConcentration,
            Digits::Significant(3),
            style,
        ),
        None => held.dose.amount.show(style),
    }
}

fn same_material(a: &Dose, b: &Dose) -> bool {
    match (&a.known, &b.known) {
        (
            Known::Material {
                material: own,
                strength: s,
            },
            Known::Material {
                material: other,
                strength: t,
            },
        ) => own.id == other.id && s == t,
        (Known::Formula(own), Known::Formula(other)) => own == other,
        _ => a.name.value == b.name.value,
    }
}

/// Grams of the first one's form for a gram of the second's, where they are forms of one substance.
fn same_substance(a: &Dose, b: &Dose) -> Option<f64> {
    let grams = forms::same_substance(Range::exact(1.0), b.formula()?, a.formula()?)?;
    Some(grams.best)
}

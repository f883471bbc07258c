//! How much of a material brings a recipe to a pH, and what the scale makes of that.

use serde::Serialize;

use crate::facts::{Bath, Dosed, Facts, Limit, Missed, Shelf, Solution, Way, widest};
use crate::finding::{Finding, slug};
use crate::notebook::{Block, Notebook};
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::counted::Counted;
use super::what_if::{Said, found, only_in};

/// A material that moves a bath by less than this many pH hardly changes it.
const HARDLY: f64 = 0.1;

/// How much of a material a recipe would need for a pH.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Reach {
    /// The recipe's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The finished volume.
    pub volume: String,
    /// What is added or taken away.
    pub material: String,
    /// The pH that is wanted.
    pub wanted: f64,
    /// The pH as the recipe is written; none where it cannot be computed.
    pub before: Option<Ph>,
    /// The amount; none where the pH cannot be reached.
    pub answer: Option<Answer>,
    /// Why it cannot be reached.
    pub why: Option<String>,
}

/// A pH as it is read, with its numbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Ph {
    /// As it is read.
    pub text: String,
    /// The lowest likely one.
    pub low: f64,
    /// The most likely one.
    pub best: f64,
    /// The highest likely one.
    pub high: f64,
    /// What makes it uncertain, in words; empty where the words about it say so already.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub because: String,
}

/// What to measure out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Answer {
    /// What to do: `add 6.0 g` or `leave out 4 g`.
    pub do_this: String,
    /// All of it that is then in the bath, rounded to what can be measured out.
    pub total: String,
    /// The same as a number.
    pub amount: f64,
    /// Its unit: `g` or `ml`.
    pub unit: &'static str,
    /// How much more than the recipe has, before rounding; below zero where it is less.
    pub change: f64,
    /// The least that it may take, for how little is known.
    pub low: f64,
    /// The most that it may take.
    pub high: f64,
    /// The two, as they are read.
    pub range: String,
    /// The pH of what is measured out.
    pub after: Ph,
    /// What else has to be known, a line each.
    pub notes: Vec<String>,
    /// What would be found of the recipe with that amount, and is not found now.
    pub findings: Vec<Said>,
}

/// What is asked.
#[derive(Debug, Clone, Copy)]
pub struct Wanted<'a> {
    /// The pH.
    pub ph: f64,
    /// The material.
    pub material: &'a str,
    /// The volume in litres.
    pub litres: f64,
}

/// The answer, or why the question makes no sense.
pub fn reach(
    notebook: &Notebook,
    facts: &Facts,
    findings: &[Finding],
    (block, bath): (&Block, &Bath),
    wanted: Wanted<'_>,
) -> Result<Reach, String> {
    let style = notebook.settings.style;
    let made = bath.litres().filter(|made| made.best > 0.0);
    let Some(made) = made else {
        return Err(format!("`{}` does not say what it makes", block.id));
    };
    if !(0.0..=14.0).contains(&wanted.ph) {
        return Err(format!(
            "pH {} is no pH of a bath: it lies between 0 and 14",
            number(Range::exact(wanted.ph), Digits::Significant(3), style)
        ));
    }
    let dosed = Dosed::with(notebook, bath, wanted.material)?;
    let written = facts.chemistry.solution(&bath.id);
    let mut found = Reach {
        id: block.id.clone(),
        title: block.name().to_owned(),
        volume: show(
            Range::exact(wanted.litres),
            Dimension::Volume,
            Digits::Significant(3),
            style,
        ),
        material: wanted.material.to_owned(),
        wanted: wanted.ph,
        before: written
            .ok()
            .filter(|one| !one.is_unbuffered())
            .map(|one| ph(one, style)),
        answer: None,
        why: None,
    };
    let multiple = wanted.litres / made.best;
    match answer(notebook, findings, block, &dosed, wanted, multiple) {
        Ok(answer) => found.answer = Some(answer),
        Err(why) => found.why = Some(why),
    }
    Ok(found)
}

fn answer(
    notebook: &Notebook,
    findings: &[Finding],
    block: &Block,
    dosed: &Dosed,
    wanted: Wanted<'_>,
    multiple: f64,
) -> Result<Answer, String> {
    let style = notebook.settings.style;
    let counted = Counted::of(notebook, dosed.counted());
    let best = dosed
        .reach(notebook, wanted.ph)
        .map_err(|missed| unreached(&missed, wanted, &counted, wanted.litres / multiple, style))?;
    let there = dosed.solution(notebook, Range::exact(best))?;
    if there.is_unbuffered() {
        return Err(format!(
            "at pH {} nothing in the bath would hold it: whatever a print brings decides",
            decimal(wanted.ph, style)
        ));
    }
    let range = dosed.spread(notebook, best, there.ph()).scale(multiple);
    let total = counted.rounded(best * multiple);
    let measured = dosed.solution(notebook, Range::exact(total / multiple))?;
    let had = dosed.written().map_or(0.0, |written| written.best * multiple);
    let change = best * multiple - had;
    let more = counted.exactly(counted.rounded(change.abs()));
    let do_this = match dosed.written() {
        None => format!("add {more}"),
        Some(_) if counted.rounded(change.abs()) == 0.0 => "leave it as it is".to_owned(),
        Some(_) if change > 0.0 => format!("add {more} more"),
        Some(_) => format!("take {more} less"),
    };
    let mut notes = Vec::new();
    if let Some(step) = counted.step() {
        notes.push(format!(
            "Measured to {step} it comes to pH {}.",
            number(Range::exact(measured.band.best), Digits::Decimals(2), style)
        ));
    }
    notes.extend(on_the_shelf(
        notebook,
        dosed,
        total / multiple,
        multiple,
        &counted,
    ));
    notes.push(
        "Put in three quarters of it, stir until it is dissolved, measure, and then the rest as the reading wants it (common practice, no source)."
            .to_owned(),
    );
    if dosed.written().is_some() && change < 0.0 {
        notes.push(
            "What is in the bath already does not come out again: this is for the next batch.".to_owned(),
        );
    }
    let other = Facts::if_bath_were(notebook, dosed.bath(Range::exact(total / multiple)));
    let mut new = only_in(&found(notebook, &other), findings, block);
    // How fine the scale is has been said.
    new.retain(|said| said.rule != slug::BELOW_SCALE.as_str());
    Ok(Answer {
        do_this,
        total: counted.exactly(total),
        amount: counted.in_unit(total),
        unit: counted.unit(),
        change: counted.in_unit(change),
        low: counted.in_unit(range.low),
        high: counted.in_unit(range.high),
        range: counted.text(range),
        after: ph(&measured, style),
        notes,
        findings: new,
    })
}

/// The same of the packet that is there, where that is another form.
fn on_the_shelf(
    notebook: &Notebook,
    dosed: &Dosed,
    total: f64,
    multiple: f64,
    counted: &Counted,
) -> Option<String> {
    let shelf = Shelf::of(notebook);
    let bath = dosed.bath(Range::exact(total));
    let dose = dosed.dose(&bath)?;
    let Way::OtherForm(packet, factor) = shelf.way(dose) else {
        return None;
    };
    let of = |grams: f64| counted.exactly(counted.rounded(grams));
    let added = dosed.written().map_or(total, |written| total - written.best) * multiple;
    Some(format!(
        "Of `{}`, which is on the shelf, that is {}: {} in all.",
        packet.name,
        of(added.abs() * factor),
        of(total * multiple * factor)
    ))
}

/// Why no amount makes it, and what can be had; `made` is what the recipe makes, l.
fn unreached(missed: &Missed, wanted: Wanted<'_>, counted: &Counted, made: f64, style: Style) -> String {
    let name = wanted.material;
    let out = match missed {
        Missed::Unsolved(why) => return why.clone(),
        Missed::OutOfReach(out) => out,
    };
    let asked = decimal(wanted.ph, style);
    let nearest = decimal(out.nearest, style);
    let spread = Range::between(out.lowest, out.highest);
    let reached = number(spread, Digits::Decimals(1), style);
    if out.highest - out.lowest < HARDLY {
        return format!("`{name}` hardly changes it: with little or much the bath is at pH {reached}");
    }
    if out.at == 0.0 {
        return format!(
            "`{name}` takes the bath away from pH {asked}: without any it is at pH {nearest}, and what it can make is pH {reached}"
        );
    }
    let more = match out.limit {
        Some(Limit::Dissolves(celsius)) => {
            let warm = show(
                Range::exact(celsius),
                Dimension::Temperature,
                Digits::Significant(2),
                style,
            );
            format!("more does not dissolve at {warm}")
        }
        Some(Limit::Room) => "more leaves no room for the rest".to_owned(),
        Some(Limit::Tried) => "more was not tried, since hardly anything dissolves better".to_owned(),
        None => "more brings it no further".to_owned(),
    };
    format!(
        "`{name}` brings it no nearer to pH {asked} than pH {nearest}, with {} to the litre: {more}; what it can make is pH {reached}",
        counted.text(Range::exact(out.at / made))
    )
}

/// A solution's pH as it is read.
pub(super) fn ph(solution: &Solution, style: Style) -> Ph {
    let range = solution.ph();
    Ph {
        text: show(range, Dimension::PH, Digits::Decimals(1), style),
        low: range.low,
        best: range.best,
        high: range.high,
        because: widest(solution),
    }
}

fn decimal(ph: f64, style: Style) -> String {
    number(Range::exact(ph), Digits::Decimals(1), style)
}

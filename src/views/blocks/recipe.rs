//! A recipe: its parts with amounts and steps, then how it is used, kept and got rid of.

use crate::facts::{Bath, Dose};
use crate::notebook::{
    Addition, Block, Capacity, Figure, Gas, GasMode, Recipe, SecondPoint, Slot, Step, Water, slug,
};
use crate::units::{Amount, Style};

use super::super::block_view::Desk;
use super::super::going_in::{going_in, short};
use super::super::page::{Layout, Row, Section};
use super::rows::{Rows, evidence, figure_row, row, section};
use super::{Said, steps};

pub(super) fn said(desk: &Desk<'_>, block: &Block, written: &Recipe) -> Said {
    // With what `based on` supplies, where that may be shown.
    let bath = desk.bath(block);
    let recipe = bath.map_or(written, |bath| &bath.recipe);
    let mut sections = Vec::new();
    if recipe.water.get().is_some() || !recipe.add.is_empty() {
        sections.push(Section {
            steps: Vec::new(),
            ..amounts(desk, block, None, &recipe.water, &recipe.add)
        });
    }
    for part in &recipe.parts {
        let name = part.name.get().map_or("a part", |name| name.value.as_str());
        sections.push(Section {
            steps: in_words(&part.steps, (bath, Some(name)), &part.makes, desk.style),
            ..amounts(desk, block, Some(name), &part.water, &part.add)
        });
    }
    let all = in_words(&recipe.steps, (bath, None), &recipe.makes, desk.style);
    match sections.as_mut_slice() {
        // A bath of one part is made in one go.
        [only] if only.heading.is_none() => only.steps = all,
        _ => sections.push(Section {
            steps: all,
            ..section(Some("all together"), Vec::new(), Layout::Figures)
        }),
    }
    sections.push(usage(desk, block, written, recipe));
    Said {
        subtitle: subtitle(recipe, desk.style),
        sections,
        pictures: Vec::new(),
    }
}

fn subtitle(recipe: &Recipe, style: Style) -> String {
    let mut words = Vec::new();
    words.extend(recipe.role.get().map(|role| role.value.to_owned()));
    words.extend(
        recipe
            .makes
            .get()
            .map(|makes| format!("makes {}", makes.show(style))),
    );
    words.join(", ")
}

/// The steps of a part of a bath, or of the whole.
fn in_words(
    steps: &[Step],
    (bath, part): (Option<&Bath>, Option<&str>),
    makes: &Slot<Figure>,
    style: Style,
) -> Vec<String> {
    let doses = bath.iter().flat_map(|bath| &bath.doses);
    let doses: Vec<&Dose> = doses.filter(|dose| dose.part.as_deref() == part).collect();
    let taken = going_in(steps, &doses);
    let name = |dose: &Dose| bath.map(|bath| short(&dose.name.value, bath).to_owned());
    let pairs = steps.iter().zip(taken);
    pairs
        .map(|(step, doses)| {
            let names: Vec<String> = doses.into_iter().filter_map(name).collect();
            steps::words(step, &names, makes, style)
        })
        .collect()
}

/// Water first, then the materials with their strength in the finished bath.
fn amounts(
    desk: &Desk<'_>,
    block: &Block,
    heading: Option<&str>,
    water: &Slot<Water>,
    add: &[Addition],
) -> Section {
    let mut rows = Rows::new(desk, block);
    rows.slot("water", water, |water| figure_row(&water.amount, desk.style));
    let mut section = rows.figures(heading);
    if let (Some(row), Some(at)) = (
        section.rows.first_mut(),
        water.get().and_then(|water| water.at.as_ref()),
    ) {
        row.label = format!("water at {}", at.show(desk.style));
    }
    section
        .rows
        .extend(add.iter().map(|addition| addition_row(desk, block, addition)));
    section
}

fn addition_row(desk: &Desk<'_>, block: &Block, addition: &Addition) -> Row {
    let figure = &addition.amount;
    let strength = desk
        .open_facts(block)
        .into_iter()
        .find(|fact| fact.name.strip_prefix("strength.") == Some(slug(&addition.material.value).as_str()))
        .filter(|fact| fact.value.is_ok())
        .map(|fact| fact.text(desk.style))
        // Of a litre, every amount is its own strength.
        .filter(|strength| *strength != format!("{}/l", figure.show(desk.style)));
    let remarks = [
        addition.remark.clone(),
        strength,
        Some(evidence(figure.evidence, figure.read_from.as_deref())),
    ];
    let remarks: Vec<String> = remarks
        .into_iter()
        .flatten()
        .filter(|remark| !remark.is_empty())
        .collect();
    Row {
        remark: remarks.join(", "),
        ..row(&addition.material.value, figure.show(desk.style))
    }
}

fn usage(desk: &Desk<'_>, block: &Block, written: &Recipe, recipe: &Recipe) -> Section {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    let usage = &recipe.usage;
    rows.reference("based on", &written.based_on);
    rows.word("for", &usage.support);
    rows.figure("dilution", &usage.dilution);
    rows.figure("temperature", &usage.temperature);
    rows.slot("time", &usage.time, |time| {
        let mut row = figure_row(time, style);
        if let Slot::Is(second) = &usage.at {
            row.remark = join(&row.remark, &second_point(&second.value, style));
        }
        row
    });
    if usage.time.is_absent() {
        rows.slot("and also", &usage.at, |second| {
            row("", second_point(&second.value, style))
        });
    }
    rows.text("agitation", &usage.agitation);
    rows.text("until", &usage.see);
    rows.figure("factor", &usage.factor);
    rows.slot("takes", &usage.capacity, |capacity| {
        row("", capacity_text(&capacity.value, style))
    });
    rows.figure("keeps", &recipe.keeps.one);
    rows.figure("keeps in a tray", &recipe.keeps.tray);
    rows.figure("keeps in a bottle", &recipe.keeps.bottle);
    rows.figure("keeps as stock", &recipe.keeps.stock);
    rows.slot("gas", &recipe.gas, |gas| row("", gas_text(&gas.value, style)));
    for (name, amount) in &recipe.expect {
        rows.plain(&format!("{} hoped for", name.value), amount.show(style));
    }
    rows.text("when spent", &recipe.waste);
    rows.text("from", &recipe.from);
    rows.lines(Some("use"))
}

fn join(first: &str, second: &str) -> String {
    if first.is_empty() {
        second.to_owned()
    } else {
        format!("{first}, {second}")
    }
}

fn second_point(second: &SecondPoint, style: Style) -> String {
    match second {
        SecondPoint::Point { time, temperature } => {
            format!("{} at {}", time.show(style), temperature.show(style))
        }
        SecondPoint::Q10(q10) => format!("{} times faster for ten degrees more", q10.show(style)),
    }
}

fn capacity_text(capacity: &Capacity, style: Style) -> String {
    let amount: &Amount = &capacity.amount;
    if capacity.per_litre {
        format!("{} per litre", amount.show(style))
    } else {
        amount.show(style)
    }
}

fn gas_text(gas: &GasMode, style: Style) -> String {
    match (gas.mode, &gas.pressure) {
        (Gas::Held, _) => "held in: nothing is lost".to_owned(),
        (Gas::Fizzed, _) => "fizzed off".to_owned(),
        (Gas::Stood, Some(pressure)) => format!("stood, down to {}", pressure.show(style)),
        (Gas::Stood, None) => "stood".to_owned(),
        (Gas::Aired, _) => "in balance with the air".to_owned(),
    }
}

//! A recipe: its parts with amounts and steps, then how it is used, kept and got rid of.

use crate::facts::{Bath, Dose};
use crate::notebook::{
    Addition, Block, Capacity, Figure, Gas, GasMode, Recipe, Role, SecondPoint, Slot, Step, Support, Water,
    slug,
};
use crate::units::{Amount, Style};

use super::super::block_view::Desk;
use super::super::going_in::{going_in, short};
use super::super::page::{Layout, Row, Section};
use super::super::words::Words;
use super::rows::{Rows, evidence, figure_row, row, section, unlabelled};
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
        let name = part
            .name
            .get()
            .map_or(desk.words.block.value.a_part, |name| name.value.as_str());
        sections.push(Section {
            named: part.name.get().is_some(),
            steps: in_words(desk, &part.steps, (bath, Some(name)), &part.makes),
            ..amounts(desk, block, Some(name), &part.water, &part.add)
        });
    }
    let all = in_words(desk, &recipe.steps, (bath, None), &recipe.makes);
    match sections.as_mut_slice() {
        // A bath of one part is made in one go.
        [only] if only.heading.is_none() => only.steps = all,
        _ => sections.push(Section {
            steps: all,
            ..section(
                Some(desk.words.block.row.all_together),
                Vec::new(),
                Layout::Figures,
            )
        }),
    }
    sections.push(usage(desk, block, written, recipe));
    Said {
        subtitle: subtitle(desk, recipe),
        sections,
        pictures: Vec::new(),
    }
}

fn subtitle(desk: &Desk<'_>, recipe: &Recipe) -> String {
    let mut words = Vec::new();
    words.extend(recipe.role.get().map(|role| {
        let known = Role::from_word(role.value);
        known.map_or(role.value, desk.words.role).to_owned()
    }));
    words.extend(
        recipe
            .makes
            .get()
            .map(|makes| Words::fill(desk.words.block.value.makes, &makes.show(desk.style))),
    );
    words.join(", ")
}

/// The steps of a part of a bath, or of the whole.
fn in_words(
    desk: &Desk<'_>,
    steps: &[Step],
    (bath, part): (Option<&Bath>, Option<&str>),
    makes: &Slot<Figure>,
) -> Vec<String> {
    let doses = bath.iter().flat_map(|bath| &bath.doses);
    let doses: Vec<&Dose> = doses.filter(|dose| dose.part.as_deref() == part).collect();
    let taken = going_in(steps, &doses);
    let name = |dose: &Dose| bath.map(|bath| short(&dose.name.value, bath).to_owned());
    let pairs = steps.iter().zip(taken);
    pairs
        .map(|(step, doses)| {
            let names: Vec<String> = doses.into_iter().filter_map(name).collect();
            steps::worded(step, &names, makes, desk.words, desk.style)
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
    rows.slot(desk.words.block.row.water, water, |water| {
        figure_row(&water.amount, desk)
    });
    let mut section = rows.figures(heading);
    if let (Some(row), Some(at)) = (
        section.rows.first_mut(),
        water.get().and_then(|water| water.at.as_ref()),
    ) {
        row.label = format!(
            "{} {}",
            row.label,
            Words::fill(desk.words.card.at, &at.show(desk.style))
        );
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
        Some(evidence(
            figure.evidence,
            figure.read_from.as_deref(),
            desk.words.block,
        )),
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
    let (style, words, row) = (desk.style, desk.words, &desk.words.block.row);
    let mut rows = Rows::new(desk, block);
    let usage = &recipe.usage;
    rows.reference(row.based_on, &written.based_on);
    rows.word(row.suits, &usage.support, |word| {
        Support::from_word(word).map(words.block.support)
    });
    rows.figure(row.dilution, &usage.dilution);
    rows.figure(row.temperature, &usage.temperature);
    rows.slot(row.time, &usage.time, |time| {
        let mut told = figure_row(time, desk);
        if let Slot::Is(second) = &usage.at {
            told.remark = join(&told.remark, &second_point(&second.value, words, style));
        }
        told
    });
    if usage.time.is_absent() {
        rows.slot(row.and_also, &usage.at, |second| {
            unlabelled(second_point(&second.value, words, style))
        });
    }
    rows.text(row.agitation, &usage.agitation);
    rows.text(row.until, &usage.see);
    rows.figure(row.factor, &usage.factor);
    rows.slot(row.takes, &usage.capacity, |capacity| {
        unlabelled(capacity_text(&capacity.value, words, style))
    });
    rows.figure(row.keeps, &recipe.keeps.one);
    rows.figure(row.keeps_tray, &recipe.keeps.tray);
    rows.figure(row.keeps_bottle, &recipe.keeps.bottle);
    rows.figure(row.keeps_stock, &recipe.keeps.stock);
    rows.slot(row.gas, &recipe.gas, |gas| {
        unlabelled(gas_text(&gas.value, words, style))
    });
    for (name, amount) in &recipe.expect {
        rows.plain(&Words::fill(row.hoped_for, &name.value), amount.show(style));
    }
    rows.text(row.when_spent, &recipe.waste);
    rows.text(row.comes_from, &recipe.from);
    rows.lines(Some(row.usage))
}

fn join(first: &str, second: &str) -> String {
    if first.is_empty() {
        second.to_owned()
    } else {
        format!("{first}, {second}")
    }
}

fn second_point(second: &SecondPoint, words: &Words, style: Style) -> String {
    match second {
        SecondPoint::Point { time, temperature } => Words::fill_all(
            words.block.value.point,
            &[&time.show(style), &temperature.show(style)],
        ),
        SecondPoint::Q10(q10) => Words::fill(words.block.value.ten_degrees, &q10.show(style)),
    }
}

fn capacity_text(capacity: &Capacity, words: &Words, style: Style) -> String {
    let amount: &Amount = &capacity.amount;
    if capacity.per_litre {
        Words::fill_all(words.card.per, &[&amount.show(style), words.card.a_litre])
    } else {
        amount.show(style)
    }
}

fn gas_text(gas: &GasMode, words: &Words, style: Style) -> String {
    let say = &words.block.value;
    match (gas.mode, &gas.pressure) {
        (Gas::Held, _) => say.gas_held.to_owned(),
        (Gas::Fizzed, _) => say.gas_fizzed.to_owned(),
        (Gas::Stood, Some(pressure)) => Words::fill(say.gas_stood_to, &pressure.show(style)),
        (Gas::Stood, None) => say.gas_stood.to_owned(),
        (Gas::Aired, _) => say.gas_aired.to_owned(),
    }
}

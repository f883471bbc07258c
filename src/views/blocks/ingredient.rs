//! A material of the notebook's own.

use crate::notebook::{Block, Ingredient};
use crate::pantry::Form;
use crate::units::{Digits, Range, number};

use super::super::block_view::Desk;
use super::Said;
use super::rows::{Rows, figure_row, unlabelled};
use crate::views::page::Row;

pub(super) fn said(desk: &Desk<'_>, block: &Block, ingredient: &Ingredient) -> Said {
    let row = &desk.words.block.row;
    let mut figures = Rows::new(desk, block);
    for (material, share) in &ingredient.contains {
        let share = figure_row(share, desk);
        figures.push(Row {
            label: material.value.clone(),
            ..share
        });
    }
    figures.figure(row.purity, &ingredient.purity);
    figures.figure(row.density, &ingredient.density);
    figures.figure(row.in_one_tablet, &ingredient.tablet);
    figures.figure(row.dissolves, &ingredient.soluble);
    figures.figure(row.pack, &ingredient.pack);
    figures.slot(row.price, &ingredient.price, |price| {
        let price = &price.value;
        let amount = number(Range::exact(price.amount), Digits::Decimals(2), desk.style);
        unlabelled(format!("{amount} {}", price.currency).trim_end())
    });
    let mut words = Rows::new(desk, block);
    if !ingredient.also.is_empty() {
        words.plain(row.also_called, joined(&ingredient.also));
    }
    words.text(row.form_of, &ingredient.of);
    if !ingredient.hazards.is_empty() {
        words.plain(row.hazard_statements, joined(&ingredient.hazards));
    }
    if let Some(plant) = ingredient.plant.get() {
        words.text(row.plant, &plant.name);
        words.text(row.plant_part, &plant.part);
        words.text(row.family, &plant.family);
        words.when(row.picked, &plant.picked);
        words.text(row.where_picked, &plant.place);
        words.text(row.allowed_by, &plant.allowed_by);
        words.text(row.named_by, &plant.named_by);
    }
    words.text(row.figures_from, &ingredient.source);
    let name = block.name().to_lowercase();
    // `thyme, dried` says it already.
    let form = ingredient.form.get().filter(|form| !name.contains(form.value));
    let subtitle = [
        ingredient.formula.get().map(|formula| formula.value.clone()),
        form.map(|form| {
            let known = Form::from_word(form.value);
            known.map_or(form.value, desk.words.form).to_owned()
        }),
    ];
    Said {
        subtitle: subtitle.into_iter().flatten().collect::<Vec<_>>().join(", "),
        sections: vec![figures.figures(None), words.lines(None)],
        pictures: Vec::new(),
    }
}

fn joined(words: &[crate::source::Spanned<String>]) -> String {
    let words: Vec<&str> = words.iter().map(|word| word.value.as_str()).collect();
    words.join(", ")
}

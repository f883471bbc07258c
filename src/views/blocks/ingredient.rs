//! A material of the notebook's own.

use crate::notebook::{Block, Ingredient};

use super::super::block_view::Desk;
use super::Said;
use super::rows::{Rows, figure_row, row};
use crate::views::page::Row;

pub(super) fn said(desk: &Desk<'_>, block: &Block, ingredient: &Ingredient) -> Said {
    let style = desk.style;
    let mut figures = Rows::new(desk, block);
    for (material, share) in &ingredient.contains {
        let share = figure_row(share, style);
        figures.push(Row {
            label: material.value.clone(),
            ..share
        });
    }
    figures.figure("purity", &ingredient.purity);
    figures.figure("density", &ingredient.density);
    figures.figure("in one tablet", &ingredient.tablet);
    figures.figure("dissolves", &ingredient.soluble);
    figures.figure("pack", &ingredient.pack);
    figures.slot("price of a pack", &ingredient.price, |price| {
        let price = &price.value;
        row("", format!("{:.2} {}", price.amount, price.currency).trim_end())
    });
    let mut words = Rows::new(desk, block);
    if !ingredient.also.is_empty() {
        words.plain("also called", joined(&ingredient.also));
    }
    words.text("a form of", &ingredient.of);
    if !ingredient.hazards.is_empty() {
        words.plain("hazard statements", joined(&ingredient.hazards));
    }
    if let Some(plant) = ingredient.plant.get() {
        words.text("plant", &plant.name);
        words.text("part", &plant.part);
        words.text("family", &plant.family);
        words.when("picked", &plant.picked);
        words.text("where", &plant.place);
        words.text("allowed by", &plant.allowed_by);
        words.text("named by", &plant.named_by);
    }
    words.text("figures from", &ingredient.source);
    let name = block.name().to_lowercase();
    let form = ingredient.form.get().map(|form| form.value.to_owned());
    let subtitle = [
        ingredient.formula.get().map(|formula| formula.value.clone()),
        // `thyme, dried` says it already.
        form.filter(|form| !name.contains(form.as_str())),
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

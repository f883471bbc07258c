//! What a page of the site ships for its recipes: their numbers, the rule of rounding, the words, as one JSON.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::facts::{Bath, Shelf};
use crate::notebook::{Block, Notebook};
use crate::scale::{cooling, fill, rounding, spoons};
use crate::units::{Digits, Dimension, Range, Style, days, show, units};

use super::super::amounts::{COARSE, Weighing};
use super::super::weighing::{MOST, ROOM, ROOM_FOR_GAS, TOLD, capacity_of, dose_of, needs, spoons_of};
use super::super::words::{RefusedWords, ScaleWords, SheetWords, words_of};
use super::amount::PlainUnit;
use super::{Scaling, scaling};

/// Everything that the script of a page works from.
#[derive(Debug, Serialize)]
pub(in crate::views) struct PageScaling {
    decimal: char,
    rule: Rule,
    units: BTreeMap<&'static str, PlainUnit>,
    days: &'static str,
    step: Option<StepOf>,
    spoons: Vec<f64>,
    trays: Vec<Tray>,
    /// Whether there is a shelf.
    shelf: bool,
    words: PageWords,
    recipes: BTreeMap<String, Recipe>,
}

/// The scale's step.
#[derive(Debug, Serialize)]
struct StepOf {
    grams: f64,
    unit: PlainUnit,
}

/// How it is rounded, and what is held to be too much or too little.
#[derive(Debug, Serialize)]
struct Rule {
    same: f64,
    told: f64,
    coarse: f64,
    most_spoons: f64,
    room: f64,
    room_for_gas: f64,
    turns: u32,
    depth: f64,
    least_depth: f64,
    most: f64,
}

/// A tray.
#[derive(Debug, Serialize)]
struct Tray {
    name: String,
    /// Width and height inside, mm, and as written.
    inside: Option<(f64, f64, String)>,
    /// Its rim, mm, and as written.
    rim: Option<(f64, String)>,
}

#[derive(Debug, Serialize)]
struct PageWords {
    sheet: &'static SheetWords,
    about: &'static str,
    and: &'static str,
    up: &'static str,
    refused: &'static RefusedWords,
    form: &'static ScaleWords,
}

/// A recipe of the page.
#[derive(Debug, Serialize)]
struct Recipe {
    #[serde(flatten)]
    scaling: Scaling,
    id: String,
    title: String,
    /// The sheets that what it makes takes.
    capacity: Result<f64, String>,
    limits: Vec<Limit>,
}

/// A material that may run short.
#[derive(Debug, Serialize)]
struct Limit {
    name: String,
    /// Of each measure, what the recipe takes.
    mass: Option<f64>,
    volume: Option<f64>,
    count: Option<f64>,
    /// What the packet holds now, as it would be typed.
    there: Option<String>,
}

/// The data of a page's recipes, each as its block and its bath; nothing where there are none.
pub(in crate::views) fn of_page(notebook: &Notebook, baths: &[(&Block, &Bath)]) -> Option<String> {
    let words = words_of(notebook);
    let style = notebook.settings.style;
    let mut step = None;
    let mut recipes = BTreeMap::new();
    for (block, bath) in baths {
        let weighing = Weighing::at(bath, notebook, words, vec![1.0]);
        let Some(scaling) = scaling(bath, notebook, &weighing, words).filter(|plan| plan.makes.best > 0.0)
        else {
            continue;
        };
        step = weighing.step().map(|(grams, unit)| StepOf {
            grams,
            unit: PlainUnit::of(unit, style),
        });
        recipes.insert(
            block.id.clone(),
            Recipe {
                capacity: capacity_of(bath, scaling.makes, notebook),
                limits: limits(bath, &weighing, notebook),
                id: block.id.clone(),
                title: block.name().to_owned(),
                scaling,
            },
        );
    }
    if recipes.is_empty() {
        return None;
    }
    let shown = ["mg", "g", "kg", "ml", "cl", "dl", "l", "nm", "µm", "mm", "m"];
    let page = PageScaling {
        decimal: style.decimal.mark(),
        rule: RULE,
        units: units()
            .filter(|unit| shown.contains(&unit.symbol))
            .map(|unit| (unit.symbol, PlainUnit::of(unit, style)))
            .collect(),
        days: days(style),
        step,
        spoons: spoons_of(notebook),
        trays: trays(notebook, style),
        shelf: !Shelf::of(notebook).packets().is_empty(),
        words: PageWords {
            sheet: &words.sheet,
            about: words.card.about,
            and: words.card.and,
            up: words.card.make_up_row,
            refused: &words.refused,
            form: &words.site.scale,
        },
        recipes,
    };
    serde_json::to_string(&page).ok()
}

const RULE: Rule = Rule {
    same: rounding::SAME,
    told: TOLD,
    coarse: COARSE,
    most_spoons: spoons::MOST,
    room: ROOM,
    room_for_gas: ROOM_FOR_GAS,
    turns: cooling::TURNS,
    depth: fill::DEPTH.millimetres(),
    least_depth: fill::LEAST_DEPTH.millimetres(),
    most: MOST,
};

fn trays(notebook: &Notebook, style: Style) -> Vec<Tray> {
    let trays = notebook.settings.trays.iter();
    let named = trays.filter_map(|tray| {
        Some(Tray {
            name: tray.name.get()?.value.clone(),
            inside: tray.inside.get().map(|inside| {
                let size = &inside.value;
                (
                    size.width.millimetres(),
                    size.height.millimetres(),
                    size.written.clone(),
                )
            }),
            rim: tray.depth.get().map(|rim| (rim.range.best, rim.show(style))),
        })
    });
    named.collect()
}

/// The materials, and the packets that they are taken from by another name.
fn limits(bath: &Bath, weighing: &Weighing<'_>, notebook: &Notebook) -> Vec<Limit> {
    let style = notebook.settings.style;
    let mut limits: Vec<Limit> = Vec::new();
    for dose in &bath.doses {
        let packet = weighing.shelf().way(dose).packet();
        let called = packet.map_or(dose.name.value.as_str(), |packet| packet.name);
        for name in [dose.name.value.as_str(), called] {
            // A name that would mean another material of the recipe is not offered.
            let meant = dose_of(name, bath, notebook).is_some_and(|other| std::ptr::eq(other, dose));
            if !meant || limits.iter().any(|limit| limit.name == name) {
                continue;
            }
            let needs = |dimension| {
                needs(name, dimension, bath, dose, weighing, notebook).filter(|needs| *needs > 0.0)
            };
            let limit = Limit {
                name: name.to_owned(),
                mass: needs(Dimension::Mass),
                volume: needs(Dimension::Volume),
                count: needs(Dimension::Count),
                there: None,
            };
            let held = |dimension| packet.filter(|packet| packet.name == name)?.there_in(dimension);
            let dimension = match (limit.mass, limit.volume) {
                (_, Some(_)) => Dimension::Volume,
                (Some(_), _) => Dimension::Mass,
                _ => Dimension::Count,
            };
            let there = held(dimension)
                .map(|there| show(Range::exact(there.best), dimension, Digits::Significant(6), style));
            if limit.mass.or(limit.volume).or(limit.count).is_some() {
                limits.push(Limit { there, ..limit });
            }
        }
    }
    limits
}

//! Things that are counted: the unit is the word.

use crate::units::{Dimension, Ratio, Unit, UnitSource};

pub(crate) static PIECE: &Unit = &UNITS[0];

const fn piece(singular: &'static str, plural: &'static str, names: &'static [&'static str]) -> Unit {
    Unit::row(
        singular,
        [singular, plural],
        names,
        Dimension::Count,
        Ratio::ONE,
        UnitSource::Definition,
    )
    .word()
}

pub(super) static UNITS: &[Unit] = &[
    // A bare count.
    Unit::row(
        "",
        ["", ""],
        &[],
        Dimension::Count,
        Ratio::ONE,
        UnitSource::Definition,
    ),
    piece("piece", "pieces", &["pc", "pcs"]),
    piece("tablet", "tablets", &["tab", "tabs", "pill", "pills"]),
    piece("capsule", "capsules", &[]),
    piece(
        "tea bag",
        "tea bags",
        &["teabag", "teabags", "tea-bag", "tea-bags"],
    ),
    piece("bag", "bags", &[]),
    piece("sachet", "sachets", &[]),
    piece("packet", "packets", &["pack", "packs"]),
    piece("bottle", "bottles", &[]),
    piece("tin", "tins", &[]),
    piece("sheet", "sheets", &[]),
    piece("strip", "strips", &[]),
    piece("roll", "rolls", &[]),
    piece("print", "prints", &[]),
    piece("leaf", "leaves", &[]),
    piece("sprig", "sprigs", &[]),
    piece("stalk", "stalks", &[]),
    piece("head", "heads", &[]),
    piece("clove", "cloves", &[]),
    piece("slice", "slices", &[]),
    piece("lemon", "lemons", &[]),
    piece("orange", "oranges", &[]),
    piece("hole", "holes", &[]),
    piece("mirror", "mirrors", &[]),
    piece("change", "changes", &[]),
    piece("person", "persons", &["people"]),
    piece("student", "students", &[]),
    piece("step", "steps", &[]),
    piece("time", "times", &[]),
    piece("part", "parts", &[]),
];

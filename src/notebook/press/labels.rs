//! How labels are made.

use crate::source::Spanned;
use crate::units::Dimension::Length;
use crate::units::Size;

use super::super::camera::size;
use super::super::field::{Field, Shape};
use super::super::keys::Keys;
use super::super::lower::Figure;
use super::super::slot::Slot;

/// How labels are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LabelPress {
    /// Label size; 90 × 65 mm where nothing is said.
    pub size: Slot<Spanned<Size>>,
    /// Sheet size; A4 where nothing is said.
    pub sheet: Slot<Spanned<Size>>,
    /// Labels abreast; as many as go where nothing is said.
    pub columns: Slot<Spanned<u32>>,
    /// Labels below one another; as many as go where nothing is said.
    pub rows: Slot<Spanned<u32>>,
    /// Between two abreast.
    pub column_gap: Slot<Figure>,
    /// Between two below one another.
    pub row_gap: Slot<Figure>,
    /// From the sheet's left edge to the first.
    pub left: Slot<Figure>,
    /// From the sheet's upper edge to the first.
    pub top: Slot<Figure>,
    /// Places of the first sheet that are used up.
    pub used: Slot<Spanned<u32>>,
}

pub(super) const FIELDS: &[Field] = &[
    Field::new("size", Shape::Own("a size, such as 90×65 mm"), "label size"),
    Field::new(
        "sheet",
        Shape::Own("a size or its name, such as A4"),
        "sheet size",
    ),
    Field::new("columns", Shape::Whole, "labels abreast"),
    Field::new("rows", Shape::Whole, "labels below one another"),
    Field::new("column gap", Shape::Amount(&[Length]), "between two abreast"),
    Field::new(
        "row gap",
        Shape::Amount(&[Length]),
        "between two below one another",
    ),
    Field::new(
        "left",
        Shape::Amount(&[Length]),
        "from the left edge of the sheet to the first label",
    ),
    Field::new(
        "top",
        Shape::Amount(&[Length]),
        "from the upper edge of the sheet to the first label",
    ),
    Field::new("used", Shape::Whole, "places of the first sheet that are used up"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> LabelPress {
    LabelPress {
        size: keys.slot("size", size),
        sheet: keys.slot("sheet", size),
        columns: keys.whole("columns"),
        rows: keys.whole("rows"),
        column_gap: keys.figure("column gap"),
        row_gap: keys.figure("row gap"),
        left: keys.figure("left"),
        top: keys.figure("top"),
        used: keys.whole("used"),
    }
}

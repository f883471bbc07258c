//! How the paper beside the work is made: weighing sheets, log slips and the room sheet.

use crate::finding::{Finding, slug};
use crate::source::Spanned;
use crate::units::Dimension::Volume;
use crate::units::{Amount, Size};

use super::super::camera::size;
use super::super::field::{Field, Shape};
use super::super::keys::Keys;
use super::super::slot::Slot;

/// More volumes than this do not stand beside one another on a sheet.
const MOST_VOLUMES: usize = 4;
/// More slips than this nobody writes: a number was mistaken.
const MOST_SLIPS: u32 = 2000;

/// How weighing sheets are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetPress {
    /// Page size; A5 where nothing is said.
    pub size: Slot<Spanned<Size>>,
    /// For which volumes; half, as written and double where nothing is said.
    pub volumes: Vec<Spanned<Amount>>,
}

/// How blank log slips are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SlipPress {
    /// How many.
    pub count: Slot<Spanned<u32>>,
    /// The number of the first.
    pub from: Slot<Spanned<u32>>,
    /// Slip size.
    pub size: Slot<Spanned<Size>>,
    /// Sheet size; A4 where nothing is said.
    pub sheet: Slot<Spanned<Size>>,
}

/// How the room sheet is made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RoomPress {
    /// Page size; A4 where nothing is said.
    pub size: Slot<Spanned<Size>>,
}

pub(super) const SHEETS: &[Field] = &[
    Field::new("size", Shape::Own("a size or its name, such as A5"), "page size"),
    Field::new(
        "volumes",
        Shape::List(&Shape::Amount(&[Volume])),
        "for which volumes; half, as written and double where nothing is said",
    ),
];

pub(super) const SLIPS: &[Field] = &[
    Field::new("count", Shape::Whole, "how many"),
    Field::new("from", Shape::Whole, "the number of the first"),
    Field::new("size", Shape::Own("a size, such as 98×140 mm"), "slip size"),
    Field::new(
        "sheet",
        Shape::Own("a size or its name, such as A4"),
        "sheet size",
    ),
];

pub(super) const ROOM: &[Field] = &[Field::new(
    "size",
    Shape::Own("a size or its name, such as A4"),
    "page size",
)];

pub(super) fn sheets(keys: &mut Keys<'_, '_>) -> SheetPress {
    SheetPress {
        size: keys.slot("size", size),
        volumes: volumes(keys),
    }
}

fn volumes(keys: &mut Keys<'_, '_>) -> Vec<Spanned<Amount>> {
    let Some(node) = keys.node("volumes") else {
        return Vec::new();
    };
    let read: Vec<Spanned<Amount>> = node
        .items()
        .iter()
        .filter_map(|item| keys.lower.amount(item, &[Volume]))
        .collect();
    let none = read.iter().find(|volume| volume.value.range.low <= 0.0);
    if let Some(none) = none {
        keys.lower.report(Finding::fault(
            slug::AMOUNT_OUT_OF_RANGE,
            none.span,
            "a volume to mix is more than nothing",
        ));
    }
    if read.len() > MOST_VOLUMES {
        let message = format!(
            "a weighing sheet has room for {MOST_VOLUMES} volumes, these are {}",
            read.len()
        );
        keys.lower
            .report(Finding::fault(slug::VALUE_SHAPE, node.span, message).help("leave some out"));
    }
    read.into_iter()
        .filter(|volume| volume.value.range.low > 0.0)
        .take(MOST_VOLUMES)
        .collect()
}

pub(super) fn slips(keys: &mut Keys<'_, '_>) -> SlipPress {
    let slips = SlipPress {
        count: keys.whole("count"),
        from: keys.whole("from"),
        size: keys.slot("size", size),
        sheet: keys.slot("sheet", size),
    };
    if let Some(count) = slips.count.get()
        && !(1..=MOST_SLIPS).contains(&count.value)
    {
        let message = format!("between 1 and {MOST_SLIPS} slips are made, not {}", count.value);
        keys.lower
            .report(Finding::fault(slug::AMOUNT_OUT_OF_RANGE, count.span, message));
        return SlipPress {
            count: Slot::Broken,
            ..slips
        };
    }
    slips
}

pub(super) fn room(keys: &mut Keys<'_, '_>) -> RoomPress {
    RoomPress {
        size: keys.slot("size", size),
    }
}

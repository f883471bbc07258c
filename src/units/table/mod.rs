//! The unit table: one row a unit, with the source of its factor.
//!
//! To add a unit, add its row; the index, the suggestions and the tests pick it up. Names are unique within a
//! dimension; a name that several dimensions share (`K`, `g/l`) means the one that is wanted where it stands.

mod german;
mod kitchen;
mod laboratory;
mod light;
mod pieces;
mod si;

use super::{Language, Unit};

/// Every unit, by group.
static GROUPS: [&[Unit]; 5] = [
    si::UNITS,
    kitchen::UNITS,
    laboratory::UNITS,
    light::UNITS,
    pieces::UNITS,
];

/// Every unit of the table, in a fixed order.
pub fn units() -> impl Iterator<Item = &'static Unit> {
    GROUPS.iter().flat_map(|group| group.iter())
}

/// The name of a unit in another language than that of its row, for one or for several.
pub(crate) fn name_in(language: Language, symbol: &str, plural: bool) -> Option<&'static str> {
    let names = match language {
        Language::English => return None,
        Language::German => german::NAMES,
    };
    let (_, one, several) = names.iter().find(|(own, ..)| *own == symbol)?;
    Some(if plural { several } else { one })
}

pub(crate) use kitchen::{AMBIGUOUS, Ambiguous};
pub(crate) use laboratory::{DILUTION, NUMBER, PH};
pub(crate) use light::{EV, F_NUMBER, ISO, SPEED};
pub(crate) use pieces::PIECE;
pub(crate) use si::{DAY, GRAM, HOUR, KILOGRAM, LITRE, MILLIGRAM, MILLILITRE, MINUTE, SECOND};

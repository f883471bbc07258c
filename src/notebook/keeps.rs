//! How long a bath keeps: one time for all, or one for each place.

use crate::syntax::NodeKind;
use crate::units::Dimension::Time;

use super::field::{Field, Shape};
use super::keys::Keys;
use super::lower::Figure;
use super::slot::Slot;

/// How long a bath keeps.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Keeps {
    /// One time for all, where one was given.
    pub one: Slot<Figure>,
    /// In an open tray.
    pub tray: Slot<Figure>,
    /// In a full, closed bottle.
    pub bottle: Slot<Figure>,
    /// As a stock.
    pub stock: Slot<Figure>,
}

impl Keeps {
    /// The working life: in the tray, else the one time given.
    pub fn working(&self) -> Option<&Figure> {
        self.tray.get().or(self.one.get())
    }

    /// Whether nothing at all was said.
    pub fn is_absent(&self) -> bool {
        [&self.one, &self.tray, &self.bottle, &self.stock]
            .iter()
            .all(|slot| slot.is_absent())
    }
}

pub(super) const FIELDS: &[Field] = &[
    Field::new("tray", Shape::Amount(&[Time]), "in an open tray"),
    Field::new("bottle", Shape::Amount(&[Time]), "in a full, closed bottle"),
    Field::new("stock", Shape::Amount(&[Time]), "as a stock"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Keeps {
    let scalar = keys
        .raw("keeps")
        .is_some_and(|node| matches!(node.kind, NodeKind::Scalar { .. }) || node.get("value").is_some());
    if scalar {
        return Keeps {
            one: keys.slot("keeps", |lower, node| lower.figure(node, &[Time])),
            ..Keeps::default()
        };
    }
    let read = keys.map("keeps", |keys| Keeps {
        one: Slot::Absent,
        tray: keys.figure("tray"),
        bottle: keys.figure("bottle"),
        stock: keys.figure("stock"),
    });
    match read {
        Slot::Is(keeps) => keeps,
        Slot::Absent => Keeps::default(),
        Slot::Broken => Keeps {
            one: Slot::Broken,
            ..Keeps::default()
        },
    }
}

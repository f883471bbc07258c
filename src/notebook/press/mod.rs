//! What `press` makes, as the settings ask for it.

mod cards;
mod labels;
mod papers;
mod site;

use crate::source::Spanned;
use crate::syntax::NodeKind;

use super::field::{Field, Shape};
use super::keys::Keys;
use super::slot::Slot;

pub use cards::CardPress;
pub use labels::LabelPress;
pub use papers::{RoomPress, SheetPress, SlipPress};
pub use site::SitePress;

/// What `press` makes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Press {
    /// Cards, where asked for.
    pub cards: Option<CardPress>,
    /// Labels, where asked for.
    pub labels: Option<LabelPress>,
    /// Weighing sheets, where asked for.
    pub sheets: Option<SheetPress>,
    /// Blank log slips, where asked for.
    pub slips: Option<SlipPress>,
    /// The room sheet, where asked for.
    pub room: Option<RoomPress>,
    /// The site, where asked for.
    pub site: Option<SitePress>,
    /// Whether nothing was said at all: then cards and site are made.
    pub unsaid: bool,
    /// Things asked for that this version does not make yet.
    pub not_yet: Vec<Spanned<String>>,
}

pub(super) const FIELDS: &[Field] = &[
    Field::new("cards", Shape::Map(cards::FIELDS), "wall cards"),
    Field::new("labels", Shape::Map(labels::FIELDS), "bottle labels"),
    Field::new("sheets", Shape::Map(papers::SHEETS), "weighing sheets"),
    Field::new("slips", Shape::Map(papers::SLIPS), "blank log slips, numbered"),
    Field::new("room", Shape::Map(papers::ROOM), "the room sheet"),
    Field::new("zine", Shape::Own("settings"), "the zine"),
    Field::new("journal", Shape::Own("settings"), "the journal"),
    Field::new("site", Shape::Map(site::FIELDS), "the site"),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> Press {
    if !keys.has("press") {
        return Press {
            unsaid: true,
            ..Press::default()
        };
    }
    let read = keys.map("press", |keys| {
        let mut made = Press::default();
        if keys.has("cards") {
            made.cards = Some(empty_or(keys, "cards", cards::lower));
        }
        if keys.has("labels") {
            made.labels = Some(empty_or(keys, "labels", labels::lower));
        }
        if keys.has("site") {
            made.site = Some(empty_or(keys, "site", site::lower));
        }
        if keys.has("sheets") {
            made.sheets = Some(empty_or(keys, "sheets", papers::sheets));
        }
        if keys.has("slips") {
            made.slips = Some(empty_or(keys, "slips", papers::slips));
        }
        if keys.has("room") {
            made.room = Some(empty_or(keys, "room", papers::room));
        }
        for later in ["zine", "journal"] {
            if let Some(span) = keys.key_span(later) {
                made.not_yet.push(Spanned::new(later.to_owned(), span));
            }
        }
        made
    });
    read.get().cloned().unwrap_or(Press {
        unsaid: true,
        ..Press::default()
    })
}

/// `cards:` alone asks for cards with the usual settings.
fn empty_or<T: Default>(
    keys: &mut Keys<'_, '_>,
    key: &'static str,
    read: impl FnOnce(&mut Keys<'_, '_>) -> T,
) -> T {
    match keys.raw(key).map(|node| &node.kind) {
        Some(NodeKind::Empty) | None => T::default(),
        _ => match keys.map(key, read) {
            Slot::Is(value) => value,
            _ => T::default(),
        },
    }
}

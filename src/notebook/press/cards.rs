//! How cards are made.

use crate::source::Spanned;
use crate::units::Dimension::Length;
use crate::units::Size;

use super::super::Kind;
use super::super::camera::size;
use super::super::field::{Field, Shape};
use super::super::keys::Keys;
use super::super::lower::Figure;
use super::super::slot::Slot;
use super::super::words::{CardsOf, Flip};

/// How cards are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CardPress {
    /// What gets cards; recipes, processes, cameras and safelights where nothing is said.
    pub of: Slot<Vec<CardsOf>>,
    /// The lines whose work is shared out, a card for each person.
    pub roles: Vec<Spanned<String>>,
    /// Card size; A6 where nothing is said.
    pub size: Slot<Spanned<Size>>,
    /// Sheet size; A4 where nothing is said.
    pub sheet: Slot<Spanned<Size>>,
    /// Clear film round each card; 4 mm where nothing is said.
    pub border: Slot<Figure>,
    /// How far ink runs over the trimmed edge; 3 mm where nothing is said.
    pub bleed: Slot<Figure>,
    /// Sides of a card that are printed, 1 or 2; 2 where nothing is said.
    pub sides: Slot<Spanned<&'static str>>,
    /// How the printer turns a sheet over; where nothing is said it prints one side, and fronts stand beside their backs.
    pub flip: Slot<Spanned<&'static str>>,
    /// From the eye to a card on the wall; 600 mm where nothing is said.
    pub distance: Slot<Figure>,
}

pub(super) const FIELDS: &[Field] = &[
    Field::new("size", Shape::Own("a size or its name, such as A6"), "card size"),
    Field::new(
        "sheet",
        Shape::Own("a size or its name, such as A4"),
        "sheet size",
    ),
    Field::new(
        "of",
        Shape::List(&Shape::Word(CardsOf::WORDS)),
        "what gets cards; all of them where nothing is said",
    ),
    Field::new(
        "roles",
        Shape::List(&Shape::Reference(&[Kind::Process])),
        "lines whose work is shared out among the `people`, a card each",
    ),
    Field::new("border", Shape::Amount(&[Length]), "clear film round each card"),
    Field::new(
        "bleed",
        Shape::Amount(&[Length]),
        "how far ink runs over the trimmed edge",
    ),
    Field::new(
        "sides",
        Shape::Word(&["1", "2"]),
        "sides of a card that are printed",
    ),
    Field::new(
        "flip",
        Shape::Word(Flip::WORDS),
        "on which edge the printer turns a sheet; without it fronts stand beside their backs",
    ),
    Field::new(
        "distance",
        Shape::Amount(&[Length]),
        "from the eye to a card on the wall; type sizes follow from it",
    ),
];

pub(super) fn lower(keys: &mut Keys<'_, '_>) -> CardPress {
    CardPress {
        size: keys.slot("size", size),
        sheet: keys.slot("sheet", size),
        of: cards_of(keys),
        roles: keys.references("roles"),
        border: keys.figure("border"),
        bleed: keys.figure("bleed"),
        sides: keys.word("sides"),
        flip: keys.word("flip"),
        distance: keys.figure("distance"),
    }
}

/// What gets cards. A word that is not known leaves the others standing.
fn cards_of(keys: &mut Keys<'_, '_>) -> Slot<Vec<CardsOf>> {
    let Some(node) = keys.node("of") else {
        return Slot::Absent;
    };
    let words = node.items().iter().filter_map(|item| {
        let word = keys.lower.word(item, CardsOf::WORDS)?;
        CardsOf::from_word(word.value)
    });
    Slot::Is(words.collect())
}

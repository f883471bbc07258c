//! A document that is ready to be set: which template, over what data, and where its words may stand.

use serde::Serialize;

use super::fault::PressFault;
use super::sheet::{self, Leaf, Sheet};
use super::{card, label, world};
use crate::views::card::{Card, SheetLayout};
use crate::views::cutting::Cutting;
use crate::views::label::{Label, LabelGrid};
use crate::views::room_sheet::RoomSheet;
use crate::views::slip::Slips;
use crate::views::weighing::{self, Heads, VolumeSheet};
use crate::views::{MOST_SIDES, refine};

/// One document to be set.
#[derive(Debug, Clone)]
pub struct Job {
    /// The template that is compiled.
    pub(super) main: &'static str,
    /// What it reads.
    pub(super) data: Vec<u8>,
    /// What tells the document from every other.
    pub(super) ident: String,
    /// Where its words may stand.
    pub(super) bounds: Bounds,
    /// The card whose sides are looked at in red light.
    pub(super) red: Option<String>,
    /// The cards it was made from, where it is one of cards.
    deck: Option<Deck>,
}

/// Cards and how they are laid.
#[derive(Debug, Clone)]
struct Deck {
    cards: Vec<Card>,
    layout: SheetLayout,
    /// Whether each side has a page of its own.
    alone: bool,
}

/// Where the words of a document may stand.
#[derive(Debug, Clone)]
pub(super) enum Bounds {
    /// On places of a size, mm, several to a sheet, each with the id of its card or label.
    Places {
        ids: Vec<String>,
        size: (f64, f64),
        sheets: Vec<Sheet>,
    },
    /// Anywhere on the pages of one block.
    Pages { id: String },
}

/// What the template of a weighing sheet reads; lengths in mm.
#[derive(Serialize)]
struct Running<'a, V> {
    language: &'a str,
    width: f64,
    height: f64,
    heads: &'a Heads,
    sheet: &'a V,
}

/// What the template of the room sheet reads; lengths in mm.
#[derive(Serialize)]
struct RoomPage<'a> {
    language: &'a str,
    width: f64,
    height: f64,
    room: &'a RoomSheet,
}

/// What the template of log slips reads; lengths in mm.
#[derive(Serialize)]
struct SlipSheets<'a> {
    title: &'a str,
    language: &'a str,
    slip_width: f64,
    slip_height: f64,
    slips: &'a Slips,
    sheets: &'a [Sheet],
}

impl Job {
    /// Cards several to a sheet; the fault is that one does not go on it.
    pub fn cards(cards: &[Card], layout: &SheetLayout) -> Result<Self, PressFault> {
        Self::of_deck(Deck {
            cards: cards.to_vec(),
            layout: layout.clone(),
            alone: false,
        })
    }

    /// One card alone, and as a safelight shows it.
    pub fn card(card: &Card, layout: &SheetLayout) -> Result<Self, PressFault> {
        Self::of_deck(Deck {
            cards: vec![card.clone()],
            layout: layout.clone(),
            alone: true,
        })
    }

    fn of_deck(mut deck: Deck) -> Result<Self, PressFault> {
        // Sides are numbered here, wherever they come from.
        deck.cards = deck
            .cards
            .iter()
            .filter_map(|card| Card::of_sides(card.sides()))
            .collect();
        let layout = &deck.layout;
        let sides: Vec<Card> = deck.cards.iter().flat_map(Card::sides).collect();
        let sheets = if deck.alone {
            sheet::alone(sides.len(), layout)
        } else {
            sheet::lay(&leaves(&sides, layout), layout)
        }?;
        let ids: Vec<String> = sides.iter().map(|card| card.id.clone()).collect();
        Ok(Self {
            main: world::MAIN,
            data: card::data(&sides, layout, &sheets)?,
            ident: ids.join(" "),
            red: ids.first().cloned().filter(|_| deck.alone),
            bounds: Bounds::Places {
                ids,
                size: (layout.card_width_mm, layout.card_height_mm),
                sheets,
            },
            deck: Some(deck),
        })
    }

    /// The same with something taken off each of the sides that hold too much, which are numbered through all cards; nothing
    /// where there is nothing to take.
    pub(super) fn shared_out(&self, overfull: &[usize]) -> Option<Result<Self, PressFault>> {
        let deck = self.deck.as_ref().filter(|_| !overfull.is_empty())?;
        let mut moved = false;
        let mut before = 0;
        let mut cards = Vec::with_capacity(deck.cards.len());
        for card in &deck.cards {
            let mut sides = card.sides();
            let count = sides.len();
            // From the last, so that those before it keep their numbers.
            for at in (0..count).rev().filter(|at| overfull.contains(&(before + at))) {
                moved |= sides.len() < MOST_SIDES && refine(&mut sides, at);
            }
            before += count;
            cards.extend(Card::of_sides(sides));
        }
        moved.then(|| {
            let again = Self::of_deck(Deck {
                cards,
                layout: deck.layout.clone(),
                alone: deck.alone,
            });
            again.map(|again| Self {
                red: again.red.clone().filter(|_| self.red.is_some()),
                ..again
            })
        })
    }

    /// The sides of its cards, in order; none where it is not one of cards.
    pub(super) fn sides(&self) -> Vec<Card> {
        let deck = self.deck.iter();
        deck.flat_map(|deck| &deck.cards).flat_map(Card::sides).collect()
    }

    /// The cards as they were shared out in the end.
    pub(super) fn into_cards(self) -> Vec<Card> {
        self.deck.map_or_else(Vec::new, |deck| deck.cards)
    }

    /// Labels on the places of their sheets.
    pub fn labels(labels: &[Label], grid: &LabelGrid) -> Result<Self, PressFault> {
        let sheets = label::lay(labels.len(), grid)?;
        let ids: Vec<String> = labels.iter().map(|label| label.id.clone()).collect();
        Ok(Self {
            main: world::LABELS,
            data: label::data(labels, grid, &sheets)?,
            ident: ids.join(" "),
            red: None,
            deck: None,
            bounds: Bounds::Places {
                ids,
                size: (grid.width_mm, grid.height_mm),
                sheets,
            },
        })
    }

    /// A weighing-out sheet for one volume; `size` of its pages in mm.
    pub fn weighing(sheet: &weighing::Sheet, size: (f64, f64)) -> Result<Self, PressFault> {
        let running = Running {
            language: card::language(&sheet.language),
            width: size.0,
            height: size.1,
            heads: &sheet.heads,
            sheet,
        };
        let ident = format!("{} {}", sheet.id, sheet.volume);
        Self::pages(world::WEIGHING, &running, ident, &sheet.id, size)
    }

    /// A weighing sheet for several volumes; `size` of its pages in mm.
    pub fn mixing(sheet: &VolumeSheet, size: (f64, f64)) -> Result<Self, PressFault> {
        let running = Running {
            language: card::language(&sheet.language),
            width: size.0,
            height: size.1,
            heads: &sheet.heads,
            sheet,
        };
        let ident = format!("weighing {}", sheet.id);
        Self::pages(world::MIXING, &running, ident, &sheet.id, size)
    }

    /// The room sheet; `size` of its pages in mm.
    pub fn room(room: &RoomSheet, size: (f64, f64)) -> Result<Self, PressFault> {
        let data = RoomPage {
            language: card::language(&room.language),
            width: size.0,
            height: size.1,
            room,
        };
        Self::pages(world::ROOM, &data, "room".to_owned(), "", size)
    }

    /// A camera's cutting template, on a page of its own size.
    pub fn cutting(cutting: &Cutting) -> Result<Self, PressFault> {
        let ident = format!("template {}", cutting.id);
        let [width, height] = cutting.page;
        Self::pages(world::CAMERA, cutting, ident, &cutting.id, (width, height))
    }

    /// Log slips several to a sheet, to be cut apart.
    pub fn slips(slips: &Slips, layout: &SheetLayout) -> Result<Self, PressFault> {
        let leaves: Vec<Leaf> = (0..slips.numbers.len()).map(Leaf::single).collect();
        let sheets = sheet::lay(&leaves, layout)?;
        let ids: Vec<String> = slips.numbers.iter().map(u32::to_string).collect();
        let data = SlipSheets {
            title: slips.words.get("title").copied().unwrap_or_default(),
            language: card::language(&slips.language),
            slip_width: layout.card_width_mm,
            slip_height: layout.card_height_mm,
            slips,
            sheets: &sheets,
        };
        Ok(Self {
            main: world::SLIPS,
            data: card::bytes(&data)?,
            ident: format!("slips {}", ids.join(" ")),
            red: None,
            deck: None,
            bounds: Bounds::Places {
                ids,
                size: (layout.card_width_mm, layout.card_height_mm),
                sheets,
            },
        })
    }

    /// The template that it is set by, as a path from the notebook folder.
    pub fn template(&self) -> &'static str {
        self.main
    }

    /// What the template reads: JSON.
    pub fn data(&self) -> &[u8] {
        &self.data
    }

    /// The same without a look at it in red light.
    #[must_use]
    pub fn without_red(&self) -> Self {
        Self {
            red: None,
            ..self.clone()
        }
    }

    fn pages(
        main: &'static str,
        data: &impl Serialize,
        ident: String,
        id: &str,
        (width, height): (f64, f64),
    ) -> Result<Self, PressFault> {
        sheet::check(&[("page width", width), ("page height", height)])?;
        Ok(Self {
            main,
            data: card::bytes(data)?,
            ident,
            red: None,
            deck: None,
            bounds: Bounds::Pages { id: id.to_owned() },
        })
    }
}

/// The pieces of card to be cut out: two sides of one card on each, or one where one side is printed on.
fn leaves(sides: &[Card], layout: &SheetLayout) -> Vec<Leaf> {
    let mut leaves: Vec<Leaf> = Vec::new();
    for (at, side) in sides.iter().enumerate() {
        match leaves.last_mut() {
            Some(leaf) if card::is_back(side, layout) => leaf.back = Some(at),
            _ => leaves.push(Leaf::single(at)),
        }
    }
    leaves
}

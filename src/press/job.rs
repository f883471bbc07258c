//! A document that is ready to be set: which template, over what data, and where its words may stand.

use serde::Serialize;

use super::fault::PressFault;
use super::sheet::{self, Sheet};
use super::{card, label, world};
use crate::views::card::{Card, SheetLayout};
use crate::views::cutting::Cutting;
use crate::views::label::{Label, LabelGrid};
use crate::views::room_sheet::RoomSheet;
use crate::views::slip::Slips;
use crate::views::weighing::{self, Heads, VolumeSheet};

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
        let sides: Vec<Card> = cards.iter().flat_map(Card::sides).collect();
        let sheets = sheet::lay(sides.len(), layout)?;
        Self::sides(&sides, layout, sheets)
    }

    /// One card alone, and as a safelight shows it.
    pub fn card(card: &Card, layout: &SheetLayout) -> Result<Self, PressFault> {
        let sides = card.sides();
        let sheets = sheet::alone(sides.len(), layout)?;
        Ok(Self {
            red: Some(card.id.clone()),
            ..Self::sides(&sides, layout, sheets)?
        })
    }

    fn sides(sides: &[Card], layout: &SheetLayout, sheets: Vec<Sheet>) -> Result<Self, PressFault> {
        let ids: Vec<String> = sides.iter().map(|card| card.id.clone()).collect();
        Ok(Self {
            main: world::MAIN,
            data: card::data(sides, layout, &sheets)?,
            ident: ids.join(" "),
            red: None,
            bounds: Bounds::Places {
                ids,
                size: (layout.card_width_mm, layout.card_height_mm),
                sheets,
            },
        })
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
        let sheets = sheet::lay(slips.numbers.len(), layout)?;
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
            bounds: Bounds::Pages { id: id.to_owned() },
        })
    }
}

//! A wall card: what is read with wet hands under a red lamp.

use serde::Serialize;

/// One card, ready to be set: one side, and where that would hold too much a second.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Card {
    /// The block's id, also the stem of the file.
    pub id: String,
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// What kind of card.
    pub kind: CardKind,
    /// The title, as written.
    pub title: String,
    /// What the bath is for, such as `developer`; for a process what it takes, such as `RC paper`.
    pub role: String,
    /// Where the bath stands in the line of trays, from 1, where a process says so; drawn as a corner mark.
    pub tray: Option<Tray>,
    /// The largest things on the card: time and temperature.
    pub key_figures: Vec<Figure>,
    /// Column heads of the amounts: the volumes, such as `0.5 l`, `1 l`, `2 l`. Empty where there are no amounts.
    pub volumes: Vec<String>,
    /// The amounts, in order of mixing.
    pub groups: Vec<AmountGroup>,
    /// What to do, in order. For a process: one entry a step of the line.
    pub steps: Vec<Step>,
    /// Labelled lines below: agitation, what ends the step, capacity.
    pub lines: Vec<Line>,
    /// Boxes to write in with a marker: `mixed at`, `dead by`.
    pub boxes: Vec<String>,
    /// Safety lines, hazards first.
    pub cautions: Vec<Caution>,
    /// Shown as a band across the card where no session has used the recipe with a good result.
    pub untested: Option<String>,
    /// Small print at the foot: notebook, tool and version.
    pub stamp: String,
    /// The other side, with the same id and no back of its own: amounts and steps, where the front is for the dark.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub back: Option<Box<Self>>,
}

impl Card {
    /// The sides, front first.
    pub fn sides(&self) -> Vec<Self> {
        let front = Self {
            back: None,
            ..self.clone()
        };
        std::iter::once(front)
            .chain(self.back.as_deref().cloned())
            .collect()
    }
}

/// What a card describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CardKind {
    /// A bath to mix and use.
    Recipe,
    /// A line of baths.
    Process,
}

/// A bath's place in the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Tray {
    /// From 1.
    pub number: usize,
    /// How many trays the line has.
    pub of: usize,
}

/// A large figure and what it is.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Figure {
    /// Such as `time`.
    pub label: String,
    /// Such as `8–12 min`.
    pub value: String,
}

/// The amounts of one part, or of the whole bath.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AmountGroup {
    /// The part's name; none where the bath has one part.
    pub name: Option<String>,
    /// One row a material, water first.
    pub rows: Vec<AmountRow>,
}

/// One material in the amounts table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AmountRow {
    /// The material, with its form; water with its temperature.
    pub material: String,
    /// One amount a volume, as many as the card has volumes.
    pub amounts: Vec<String>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// The part it belongs to, where the recipe has parts.
    pub part: Option<String>,
    /// What to do: `steep`, `strain`, or the bath of a process.
    pub what: String,
    /// Time, temperature or both, such as `20 min`; empty where there is none.
    pub figure: String,
    /// A second figure, such as the temperature of a process step; empty where there is none.
    pub second: String,
    /// A further word or two: the light of a process step, what to pour where.
    pub note: String,
}

/// A labelled line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Line {
    /// Such as `agitation`.
    pub label: String,
    /// Such as `rock 10 s every minute`.
    pub text: String,
}

/// A safety line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Caution {
    /// Whether it can injure at once: set heavier, with a mark.
    pub hazard: bool,
    /// The line.
    pub text: String,
}

/// How cards are laid on a sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SheetLayout {
    /// Trimmed card width, mm.
    pub card_width_mm: f64,
    /// Trimmed card height, mm.
    pub card_height_mm: f64,
    /// Sheet width, mm.
    pub sheet_width_mm: f64,
    /// Sheet height, mm.
    pub sheet_height_mm: f64,
    /// Clear film round each card, mm: the cards stand at least twice this apart.
    pub lamination_mm: f64,
}

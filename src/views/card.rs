//! A wall card: what is read with wet hands under a red lamp.

use serde::Serialize;

use super::drawing::Drawing;

/// One card, ready to be set: a side, and where that would hold too much further ones.
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
    /// What the bath is for, such as `developer`; for a process what it takes, such as `RC paper`; for a camera, a lamp
    /// and a person what they are and where they belong.
    pub role: String,
    /// Where the bath stands in the line of trays, from 1, where a process says so; drawn as a corner mark.
    pub tray: Option<Tray>,
    /// The largest things on the card: time and temperature.
    pub key_figures: Vec<Figure>,
    /// Column heads of the amounts: the volumes, such as `0.5 l`, `1 l`, `2 l`. Empty where there are no amounts.
    pub volumes: Vec<String>,
    /// The amounts, in order of mixing.
    pub groups: Vec<AmountGroup>,
    /// Times by light and paper, or by line: a camera's exposures, a lamp's budget.
    pub times: Option<Times>,
    /// A drawing to scale, such as a camera with its paper.
    pub drawing: Option<Drawing>,
    /// What to do, in order. For a process, and for a person at its trays: one entry a step of the line.
    pub steps: Vec<Step>,
    /// The number of the first of them: a side may go on where another ended.
    pub steps_from: usize,
    /// Labelled lines below: agitation, what ends the step.
    pub lines: Vec<Line>,
    /// Lines that are wanted beforehand, in the light, rather than at the tray: how long it keeps, how much it is good for.
    pub beforehand: Vec<Line>,
    /// Boxes to write in with a marker: `mixed at`, `dead by`.
    pub boxes: Vec<String>,
    /// Safety lines, hazards first.
    pub cautions: Vec<Caution>,
    /// Shown as a band across the card where no session has used the recipe with a good result.
    pub untested: Option<String>,
    /// Small print at the foot: notebook, tool and version.
    pub stamp: String,
    /// What the drawings say to those who cannot see them.
    pub alt: Alt,
    /// Which side of how many this is; none where there is but one.
    pub side: Option<SideOf>,
    /// The next side, with the same id: amounts and steps, where the front is for the dark. A third side is the front of a
    /// second leaf, and so on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub back: Option<Box<Self>>,
}

impl Card {
    /// The id of the block it was made from: behind a point stands a person's number, which no block's id has.
    pub fn block(&self) -> &str {
        block_of(&self.id)
    }

    /// The sides, front first.
    pub fn sides(&self) -> Vec<Self> {
        let chain = std::iter::successors(Some(self), |side| side.back.as_deref());
        chain
            .map(|side| Self {
                back: None,
                ..side.clone()
            })
            .collect()
    }

    /// A card of these sides, each numbered; nothing where there are none.
    pub fn of_sides(sides: Vec<Self>) -> Option<Self> {
        let of = sides.len();
        let numbered = sides.into_iter().enumerate().map(|(at, side)| Self {
            side: (of > 1).then_some(SideOf { number: at + 1, of }),
            ..side
        });
        numbered.rev().fold(None, |next, side| {
            Some(Self {
                back: next.map(Box::new),
                ..side
            })
        })
    }
}

/// The id of the block behind a card's id.
pub fn block_of(id: &str) -> &str {
    id.split('.').next().unwrap_or(id)
}

/// Which side of a card.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct SideOf {
    /// From 1.
    pub number: usize,
    /// How many there are.
    pub of: usize,
}

/// What a card describes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum CardKind {
    /// A bath to mix and use.
    Recipe,
    /// A line of baths.
    Process,
    /// A camera and its exposure table.
    Camera,
    /// A lamp and how long it is safe.
    Safelight,
    /// What one person does while sheets go through a line.
    Role,
}

/// A bath's place in the line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Tray {
    /// From 1.
    pub number: usize,
    /// How many trays the line has.
    pub of: usize,
}

/// What drawings say in words. A drawing without words is decoration.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize)]
pub struct Alt {
    /// The sign before what can injure.
    pub danger: String,
    /// The line of trays with this one filled.
    pub trays: String,
    /// The notches at the edge.
    pub notches: String,
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

/// A table of times.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Times {
    /// What the rows are, such as `light`.
    pub head: String,
    /// The head of the rows' values, such as `EV`; empty where they have none.
    pub value_head: String,
    /// Column heads: the papers.
    pub columns: Vec<String>,
    /// The rows, brightest light first.
    pub rows: Vec<TimesRow>,
}

/// One light, or one line.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct TimesRow {
    /// Such as `hazy sun`.
    pub name: String,
    /// In smaller type behind it, such as an exposure value; empty where there is nothing.
    pub value: String,
    /// One time a column, or a dash.
    pub times: Vec<String>,
}

/// One thing to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Step {
    /// The part it belongs to, where the recipe has parts; what is in the tray, at a step of a line.
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

impl Line {
    pub(super) fn new(label: &str, text: impl Into<String>) -> Self {
        Self {
            label: label.to_owned(),
            text: text.into(),
        }
    }
}

/// A safety line.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Caution {
    /// Whether it can injure at once: set heavier, with a mark.
    pub hazard: bool,
    /// Whether it speaks of the mixing alone: of powders, hot water and gas, not of what stands in the tray.
    pub mixing: bool,
    /// The line.
    pub text: String,
}

/// How cards are laid on a sheet, and from how far they are read.
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
    /// How far ink that meets the trimmed edge runs on beyond it, mm.
    pub bleed_mm: f64,
    /// Whether both sides of a card are printed on; else each side is a card of its own.
    pub two_sided: bool,
    /// How the printer turns the sheet over; none where it prints one side, and fronts stand beside their backs.
    pub flip: Option<Flip>,
    /// From the eye to a card on the wall, mm.
    pub distance_mm: f64,
}

/// How a printer turns a sheet over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Flip {
    /// On its long edge.
    LongEdge,
    /// On its short edge.
    ShortEdge,
}

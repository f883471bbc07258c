//! The notebook as typed blocks: what the pages say, strictly read, with every place kept.
//!
//! Lowering never stops at a mistake. A value that cannot be read becomes [`Slot::Broken`]; a mistyped key or kind is
//! reported and read as what was meant, so that one slip of the pen gives one finding.

mod again;
mod asked;
mod block_id;
mod camera;
mod date;
mod exposure;
mod fences;
mod field;
mod holes;
mod ids;
mod ingredient;
mod keeps;
mod kept;
mod keys;
mod leaf;
mod light;
mod lower;
mod manner;
mod materials;
mod named;
mod nearest;
mod packets;
mod page;
mod paper;
mod press;
mod process;
mod read;
mod recipe;
mod resolve;
mod safelight;
pub mod schema;
mod session;
mod settings;
mod sheet;
mod slot;
mod step;
mod usage;
mod verdict;
mod wording;
mod words;

use std::collections::BTreeMap;

use crate::pantry::Pantry;
use crate::source::{ByName, FileId, Span, Spanned};

pub use crate::syntax::slug;
pub use again::Changes;
pub use asked::{read_light, read_when};
pub use camera::{Camera, Plane};
pub use date::When;
pub use exposure::{Exposure, Preflash, Print, Receptor, Scan, SeenFrom};
pub use field::{COMMON, Field, Shape};
pub use holes::Holes;
pub use ingredient::{Form, Ingredient, Plant, Price};
pub use keeps::Keeps;
pub use kept::{
    Difference, Earlier, KEPT_BATCHES, KEPT_RECIPES, KeptRecipes, RecipeText, Stands, Tie, ToKeep, What,
    is_kept, kept_hash,
};
pub use light::Light;
pub use lower::Figure;
pub use nearest::{going_on, nearest};
pub use packets::Packets;
pub use page::{Audience, PageHead};
pub use paper::{Paper, Reciprocity};
pub use press::{CardPress, LabelPress, Press, RoomPress, SheetPress, SitePress, SlipPress};
pub use process::{Duration, Process, ProcessStep, StepKind};
pub use read::{Input, read, read_after};
pub use recipe::{Addition, GasMode, Part, Recipe, Water};
pub use safelight::{Fog, FogTest, Safelight};
pub use session::{Batch, Event, Measured, Moment, Session, Swap};
pub use settings::{Drain, Packet, People, Place, Settings, TapWater, TrayOwned};
pub use sheet::Sheets;
pub use slot::Slot;
pub use step::Step;
pub use usage::{Capacity, SecondPoint, Usage};
pub use verdict::{Bracket, Strip, Verdict};
pub use words::{
    Base, CardsOf, Evidence, Flip, Gas, MeasuredWith, Premises, Role, Side, StepLight, Support, Switches,
    Through, Verb,
};

/// The kind of a block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Kind {
    /// A material.
    Ingredient,
    /// A bath.
    Recipe,
    /// A camera.
    Camera,
    /// A paper.
    Paper,
    /// The sequence of baths.
    Process,
    /// A lamp.
    Safelight,
    /// One sheet.
    Exposure,
    /// A contact print.
    Print,
    /// A bath as really mixed.
    Batch,
    /// A developing session.
    Session,
}

impl Kind {
    /// Every kind, in the order of the language's table.
    pub const ALL: [Self; 10] = [
        Self::Ingredient,
        Self::Recipe,
        Self::Camera,
        Self::Paper,
        Self::Process,
        Self::Safelight,
        Self::Exposure,
        Self::Print,
        Self::Batch,
        Self::Session,
    ];

    /// The word that opens such a block.
    pub fn word(self) -> &'static str {
        match self {
            Self::Ingredient => "ingredient",
            Self::Recipe => "recipe",
            Self::Camera => "camera",
            Self::Paper => "paper",
            Self::Process => "process",
            Self::Safelight => "safelight",
            Self::Exposure => "exposure",
            Self::Print => "print",
            Self::Batch => "batch",
            Self::Session => "session",
        }
    }

    /// The word with its article.
    pub fn with_article(self) -> &'static str {
        match self {
            Self::Ingredient => "an ingredient",
            Self::Recipe => "a recipe",
            Self::Camera => "a camera",
            Self::Paper => "a paper",
            Self::Process => "a process",
            Self::Safelight => "a safelight",
            Self::Exposure => "an exposure",
            Self::Print => "a print",
            Self::Batch => "a batch",
            Self::Session => "a session",
        }
    }

    /// The kind of a word.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.word() == word)
    }

    /// The keys that such a block may hold, beside [`COMMON`].
    pub fn fields(self) -> &'static [Field] {
        match self {
            Self::Ingredient => ingredient::FIELDS,
            Self::Recipe => recipe::FIELDS,
            Self::Camera => camera::FIELDS,
            Self::Paper => paper::FIELDS,
            Self::Process => process::FIELDS,
            Self::Safelight => safelight::FIELDS,
            Self::Exposure => exposure::FIELDS,
            Self::Print => exposure::PRINT_FIELDS,
            Self::Batch => session::BATCH_FIELDS,
            Self::Session => session::FIELDS,
        }
    }
}

/// The keys of a page's front matter.
pub fn page_fields() -> &'static [Field] {
    page::FIELDS
}

/// The keys of a step of a recipe.
pub fn step_fields() -> &'static [Field] {
    step::STEP
}

/// The keys of an amount that is given as a map.
pub fn figure_fields() -> &'static [Field] {
    lower::FIGURE
}

/// The keys of `trayside.yaml`.
pub fn settings_fields() -> &'static [Field] {
    settings::FIELDS
}

/// A block of the notebook.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Its name in references. Where it has none of its own, a name made from its place, which no reference can meet.
    pub id: String,
    /// Where the id was written, if it was.
    pub id_span: Option<Span>,
    /// The title, if there is one.
    pub title: Option<Spanned<String>>,
    /// The author's note.
    pub note: Option<Spanned<String>>,
    /// Tags.
    pub tags: Vec<Spanned<String>>,
    /// Rules accepted here, with the reason.
    pub acknowledge: Vec<(Spanned<String>, Spanned<String>)>,
    /// Rules that this block is meant to show.
    pub expects: Vec<Spanned<String>>,
    /// The word that opens it.
    pub head: Span,
    /// The whole fence.
    pub span: Span,
    /// The page it stands on.
    pub page: FileId,
    /// Whether it has a name that references can meet.
    pub named: bool,
    /// Whether a block before it has taken its id: no reference meets this one.
    pub doubled: bool,
    /// Whether parts of it could not be read.
    pub broken: bool,
    /// What it says.
    pub body: Body,
}

impl Block {
    /// Its kind.
    pub fn kind(&self) -> Kind {
        match self.body {
            Body::Ingredient(_) => Kind::Ingredient,
            Body::Recipe(_) => Kind::Recipe,
            Body::Camera(_) => Kind::Camera,
            Body::Paper(_) => Kind::Paper,
            Body::Process(_) => Kind::Process,
            Body::Safelight(_) => Kind::Safelight,
            Body::Exposure(_) => Kind::Exposure,
            Body::Print(_) => Kind::Print,
            Body::Batch(_) => Kind::Batch,
            Body::Session(_) => Kind::Session,
        }
    }

    /// What it is called on paper: its title, else what it is a packet of, else its id.
    pub fn name(&self) -> &str {
        match (&self.title, &self.body) {
            (Some(title), _) => &title.value,
            (None, Body::Ingredient(ingredient)) => {
                let material = ingredient.material.get();
                material.map_or(&self.id, |material| &material.value)
            }
            (None, _) => &self.id,
        }
    }
}

/// What a block says.
#[derive(Debug, Clone, PartialEq)]
#[expect(
    missing_docs,
    reason = "each variant is the block of that kind, documented at its type"
)]
pub enum Body {
    Ingredient(Box<Ingredient>),
    Recipe(Box<Recipe>),
    Camera(Box<Camera>),
    Paper(Box<Paper>),
    Process(Box<Process>),
    Safelight(Box<Safelight>),
    Exposure(Box<Exposure>),
    Print(Box<Print>),
    Batch(Box<Batch>),
    Session(Box<Session>),
}

/// A whole notebook.
#[derive(Debug)]
pub struct Notebook {
    /// What `trayside.yaml` says.
    pub settings: Settings,
    /// The pages' heads, in reading order.
    pub pages: Vec<PageHead>,
    /// The pages as text knows them, in the same order.
    pub texts: Vec<crate::syntax::Page>,
    /// Every block, in reading order.
    pub blocks: Vec<Block>,
    /// The materials: the pantry with the notebook's own laid over it.
    pub pantry: std::sync::Arc<Pantry>,
    /// Holes that were measured on their scans.
    pub holes: Holes,
    /// What `kept/` says of its batches.
    pub kept: KeptRecipes,
    /// The packets and `ingredient` blocks of each material.
    pub packets: Packets,
    /// Whether a page could not be read: then a name that is met nowhere may stand there.
    pub partial: bool,
    index: ByName<String, usize>,
    /// The places of the blocks of each kind.
    kinds: BTreeMap<Kind, Vec<usize>>,
    /// What else the pages gave, in the same order.
    rests: Vec<again::Rest>,
    /// What the pages were read by.
    read_by: (crate::units::Style, Option<jiff::tz::TimeZone>),
}

macro_rules! lookups {
    ($($name:ident, $all:ident: $type:ident, $doc:literal, $all_doc:literal;)*) => {
        impl Notebook {
            $(
                #[doc = $doc]
                pub fn $name(&self, id: &str) -> Option<(&Block, &$type)> {
                    let block = self.block(id)?;
                    match &block.body {
                        Body::$type(body) => Some((block, body)),
                        _ => None,
                    }
                }

                #[doc = $all_doc]
                pub fn $all(&self) -> impl Iterator<Item = (&Block, &$type)> {
                    self.of_kind(Kind::$type).filter_map(|block| match &block.body {
                        Body::$type(body) => Some((block, body.as_ref())),
                        _ => None,
                    })
                }
            )*
        }
    };
}

lookups! {
    ingredient, ingredients: Ingredient, "The material of an id.", "Every material, in reading order.";
    recipe, recipes: Recipe, "The recipe of an id.", "Every recipe, in reading order.";
    camera, cameras: Camera, "The camera of an id.", "Every camera, in reading order.";
    paper, papers: Paper, "The paper of an id.", "Every paper, in reading order.";
    process, processes: Process, "The process of an id.", "Every process, in reading order.";
    safelight, safelights: Safelight, "The safelight of an id.", "Every safelight, in reading order.";
    exposure, exposures: Exposure, "The exposure of an id.", "Every exposure, in reading order.";
    print, prints: Print, "The print of an id.", "Every print, in reading order.";
    batch, batches: Batch, "The batch of an id.", "Every batch, in reading order.";
    session, sessions: Session, "The session of an id.", "Every session, in reading order.";
}

impl Notebook {
    /// The block of an id; the first where a second has taken the same.
    pub fn block(&self, id: &str) -> Option<&Block> {
        self.index.get(id).and_then(|at| self.blocks.get(*at))
    }

    /// Whether references to the id of this block, one of the notebook's, mean this block: the second of two with one id is
    /// met by none.
    pub fn leads_to(&self, block: &Block) -> bool {
        !block.doubled
    }

    /// The blocks of a kind, in reading order.
    pub fn of_kind(&self, kind: Kind) -> impl Iterator<Item = &Block> {
        let places = self.kinds.get(&kind).into_iter().flatten();
        places.filter_map(|at| self.blocks.get(*at))
    }

    /// Whether a block of one of `kinds` may have lost its name to a mistake that is told already.
    pub fn lost_a_name(&self, kinds: &[Kind]) -> bool {
        self.partial
            || kinds
                .iter()
                .any(|kind| self.of_kind(*kind).any(|block| !block.named))
    }

    /// Every id, sorted.
    pub fn ids(&self) -> impl Iterator<Item = &str> {
        self.index.names().map(String::as_str)
    }
}

//! Cards, labels, weighing-out sheets and cutting templates on paper: plain data from [`crate::views`] in, PDF out, set by typst as a library.
//!
//! Templates stand in `templates/press/` and can be replaced by a notebook's own. Values reach them as JSON bytes, never
//! as source text, so nothing written in a notebook can run. Every PDF conforms to PDF/UA-1 and PDF/A-2a and is the same
//! bytes for the same input. What typst does silently, such as running over the edge or missing a glyph, is looked for
//! afterwards and told as a [`PressFault`].

mod cap_heights;
mod card;
mod check;
mod crop;
mod export;
mod fault;
mod fonts;
mod job;
mod label;
mod red;
mod sheet;
mod told;
mod world;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

use typst_layout::PagedDocument;

use crate::source::Fingerprint;
use crate::views::card::{Card, SheetLayout};
use crate::views::cutting::Cutting;
use crate::views::label::{Label, LabelGrid};
use crate::views::room_sheet::RoomSheet;
use crate::views::slip::Slips;
use crate::views::weighing::VolumeSheet;

pub use fault::PressFault;

pub use job::Job;

use fonts::Fonts;
use job::Bounds;
use world::{PressWorld, Templates};

/// What came off the press.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pressed {
    /// The PDF. Empty where nothing could be set: a mistake in a template, or a card larger than its sheet.
    pub pdf: Vec<u8>,
    /// What is wrong with it, in the order of the cards.
    pub faults: Vec<PressFault>,
    /// The cards as they were set: one that its maker hoped to fit on a side may have become two.
    pub cards: Vec<Card>,
    /// A card alone as a safelight shows it, its sides side by side: a PNG of the red light alone. Empty for sheets.
    pub red: Vec<u8>,
}

impl Pressed {
    fn failed(faults: Vec<PressFault>) -> Self {
        Self {
            faults,
            ..Self::default()
        }
    }
}

/// The form of what the press makes: to be raised with each change in how a document is set, checked or written, since that
/// does not show in what it is made from.
const FORM: u32 = 1;

/// A press with its type and templates laid ready. Making one reads the fonts; keep it and share it.
#[derive(Clone)]
pub struct Press {
    fonts: Arc<Fonts>,
    templates: Templates,
    date: (i32, u8, u8),
}

impl Default for Press {
    fn default() -> Self {
        Self::new()
    }
}

impl Press {
    /// A press with the templates that come with the program.
    pub fn new() -> Self {
        Self {
            fonts: Arc::new(Fonts::load()),
            templates: Templates::built_in(),
            date: (2000, 1, 1),
        }
    }

    /// The same press with some templates replaced or added. Keys are paths from the notebook folder, such as
    /// `templates/press/card.typ`; a path that leaves that folder comes back as a fault of every pressing.
    #[must_use]
    pub fn with_templates(mut self, templates: &BTreeMap<String, String>) -> Self {
        self.templates = self.templates.with(templates);
        self
    }

    /// The same press with another date in its documents. PDF/A demands one and the clock is never read, so without
    /// this it is the first of January 2000. A date that does not exist changes nothing.
    #[must_use]
    pub fn dated(mut self, year: i32, month: u8, day: u8) -> Self {
        if typst::foundations::Datetime::from_ymd(year, month, day).is_some() {
            self.date = (year, month, day);
        }
        self
    }

    /// Cards several to a sheet, in the given order, at least two laminating borders apart, with cut marks. Where the
    /// printer turns the sheet over, backs stand behind their fronts; else a card of two sides takes two places, front
    /// first, to be cut and laid back to back. The sheet is turned on its side where that holds more. No cards give an
    /// empty PDF without a fault.
    pub fn cards(&self, cards: &[Card], layout: &SheetLayout) -> Pressed {
        if cards.is_empty() {
            return Pressed::default();
        }
        self.set(Job::cards(cards, layout))
    }

    /// One card alone, each side on a page of exactly its trimmed size with what bleeds over it, without marks, and as a
    /// safelight shows it.
    pub fn card(&self, card: &Card, layout: &SheetLayout) -> Pressed {
        self.set(Job::card(card, layout))
    }

    /// Labels on the places of their sheets, row by row. No labels give an empty PDF without a fault.
    pub fn labels(&self, labels: &[Label], grid: &LabelGrid) -> Pressed {
        if labels.is_empty() {
            return Pressed::default();
        }
        self.set(Job::labels(labels, grid))
    }

    /// A weighing-out sheet on as many pages of a size as it needs, mm; A5 is 148 by 210.
    pub fn weighing(&self, sheet: &crate::views::weighing::Sheet, width_mm: f64, height_mm: f64) -> Pressed {
        self.set(Job::weighing(sheet, (width_mm, height_mm)))
    }

    /// A weighing sheet for several volumes, on as many pages of a size as it needs, mm.
    pub fn mixing(&self, sheet: &VolumeSheet, width_mm: f64, height_mm: f64) -> Pressed {
        self.set(Job::mixing(sheet, (width_mm, height_mm)))
    }

    /// Log slips several to a sheet, to be cut apart. No slips give an empty PDF without a fault.
    pub fn slips(&self, slips: &Slips, layout: &SheetLayout) -> Pressed {
        if slips.numbers.is_empty() {
            return Pressed::default();
        }
        self.set(Job::slips(slips, layout))
    }

    /// The room sheet, on as many pages of a size as it needs, mm.
    pub fn room(&self, room: &RoomSheet, width_mm: f64, height_mm: f64) -> Pressed {
        self.set(Job::room(room, (width_mm, height_mm)))
    }

    /// A camera's cutting template, on a page of its own at the real size.
    pub fn cutting(&self, cutting: &Cutting) -> Pressed {
        self.set(Job::cutting(cutting))
    }

    /// What a job's document follows from: two jobs with the same give the same bytes.
    pub fn fingerprint(&self, job: &Job) -> Fingerprint {
        let (year, month, day) = self.date;
        let date = format!("{FORM} {year}-{month}-{day}");
        let fonts = self.fonts.fingerprint().to_string();
        let own = [export::CREATOR, job.main, job.ident.as_str(), &date, &fonts].map(str::as_bytes);
        let templates = self.templates.texts().flat_map(|(path, text)| [path, text]);
        Fingerprint::of(
            own.into_iter()
                .chain([job.data.as_slice()])
                .chain(templates.map(str::as_bytes)),
        )
    }

    /// Lets go of layouts that the last two calls of this did not use. Call it after each document: typst remembers
    /// everything it has ever set, some forty megabytes a card with its picture, and needs of it only what the next shares.
    pub fn forget_unused() {
        comemo::evict(2);
    }

    /// Sets a document, or says why there is none. Cards with a side that holds too much at the smallest legible sizes are
    /// shared out anew, until all fit or nothing can be cut.
    pub fn set(&self, job: Result<Job, PressFault>) -> Pressed {
        let mut job = match job {
            Ok(job) => job,
            Err(fault) => return Pressed::failed(vec![fault]),
        };
        loop {
            let main = job.main;
            let laid = match guarded(main, || self.lay(&job)) {
                Ok(laid) => laid,
                Err(faults) => return Pressed::failed(faults),
            };
            match job.shared_out(&check::overfull(&laid.document)) {
                Some(Ok(again)) => job = again,
                Some(Err(fault)) => return Pressed::failed(vec![fault]),
                None => {
                    let pressed = guarded(main, || self.finish(&job, &laid)).unwrap_or_else(Pressed::failed);
                    return Pressed {
                        cards: job.into_cards(),
                        ..pressed
                    };
                }
            }
        }
    }

    fn lay(&self, job: &Job) -> Result<Laid, Vec<PressFault>> {
        let unusable = self.templates.faults();
        if !unusable.is_empty() {
            return Err(unusable.to_vec());
        }
        let world = PressWorld::new(
            Arc::clone(&self.fonts),
            self.templates.clone(),
            job.main,
            job.data.clone(),
        )
        .map_err(|fault| vec![fault])?;
        let document = typst::compile::<PagedDocument>(&world)
            .output
            .map_err(|errors| fault::from_typst(&world, &errors))?;
        Ok(Laid { world, document })
    }

    /// Looks through what was set, and writes it.
    fn finish(&self, job: &Job, laid: &Laid) -> Result<Pressed, Vec<PressFault>> {
        let document = &laid.document;
        let mut faults = match &job.bounds {
            Bounds::Places { ids, size, sheets } => {
                check::document(document, (ids, &job.sides()), *size, sheets)
            }
            Bounds::Pages { id } => check::pages(document, id),
        };
        let pdf = export::pdf(&laid.world, document, &job.ident, self.date, &mut faults)?;
        let mut pressed = Pressed {
            pdf,
            faults,
            ..Pressed::default()
        };
        if let Some(card) = &job.red {
            let proof = red::proof(document, card).map_err(|fault| vec![fault])?;
            pressed.faults.extend(proof.fault);
            pressed.red = proof.picture;
        }
        Ok(pressed)
    }
}

/// A panic in a library must not take a whole pressing with it, and nothing of ours is left half changed.
fn guarded<T>(main: &str, set: impl FnOnce() -> Result<T, Vec<PressFault>>) -> Result<T, Vec<PressFault>> {
    catch_unwind(AssertUnwindSafe(set)).unwrap_or_else(|_| {
        let broken = "the typesetter broke down on this template and data";
        Err(vec![PressFault::template(main, broken)])
    })
}

/// A document that was set.
struct Laid {
    world: PressWorld,
    document: PagedDocument,
}

//! Cards, labels, weighing-out sheets and cutting templates on paper: plain data from [`crate::views`] in, PDF out, set by typst as a library.
//!
//! Templates stand in `templates/press/` and can be replaced by a notebook's own. Values reach them as JSON bytes, never
//! as source text, so nothing written in a notebook can run. Every PDF conforms to PDF/UA-1 and PDF/A-2a and is the same
//! bytes for the same input. What typst does silently, such as running over the edge or missing a glyph, is looked for
//! afterwards and told as a [`PressFault`].

mod card;
mod check;
mod export;
mod fault;
mod fonts;
mod label;
mod red;
mod sheet;
mod weighing;
mod world;

use std::collections::BTreeMap;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use typst_layout::PagedDocument;

use crate::source::Digest;
use crate::views::card::{Card, SheetLayout};
use crate::views::cutting::Cutting;
use crate::views::label::{Label, LabelGrid};

pub use fault::PressFault;

use fonts::Fonts;
use sheet::Sheet;
use world::{PressWorld, Templates};

/// Documents without fault, by what they were made from.
pub type Known = BTreeMap<Digest, Pressed>;

/// What came off the press.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pressed {
    /// What tells it from all that is made from anything else: another version of the program counts as that.
    pub made_from: Option<Digest>,
    /// The PDF. Empty where nothing could be set: a mistake in a template, or a card larger than its sheet.
    pub pdf: Vec<u8>,
    /// What is wrong with it, in the order of the cards.
    pub faults: Vec<PressFault>,
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

/// The form of what the press makes: one more after each change in how a document is set, checked or written, since that does
/// not show in what it is made from.
const FORM: u32 = 1;

/// A press with its type and templates laid ready. Making one reads the fonts; keep it and share it.
#[derive(Clone)]
pub struct Press {
    fonts: Arc<Fonts>,
    templates: Templates,
    date: (i32, u8, u8),
    known: Arc<Known>,
    set: Arc<AtomicUsize>,
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
            known: Arc::default(),
            set: Arc::default(),
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

    /// The same press with documents that it need not set again.
    #[must_use]
    pub fn knowing(mut self, known: Arc<Known>) -> Self {
        self.known = known;
        self
    }

    /// How many documents were really set by this press and its copies.
    pub fn count(&self) -> usize {
        self.set.load(Ordering::Relaxed)
    }

    /// Cards several to a sheet, in the given order, at least two laminating borders apart, with cut marks. A card of two
    /// sides takes two places, front first, to be cut and laid back to back. The sheet is turned on its side where that
    /// holds more. No cards give an empty PDF without a fault.
    pub fn cards(&self, cards: &[Card], layout: &SheetLayout) -> Pressed {
        if cards.is_empty() {
            return Pressed::default();
        }
        let sides: Vec<Card> = cards.iter().flat_map(Card::sides).collect();
        self.press_sides(&sides, layout, false, sheet::lay(sides.len(), layout))
    }

    /// One card alone, each side on a page of exactly its trimmed size, without marks, and as a safelight shows it.
    pub fn card(&self, card: &Card, layout: &SheetLayout) -> Pressed {
        let sides = card.sides();
        self.press_sides(&sides, layout, true, sheet::alone(sides.len(), layout))
    }

    /// Labels on the places of their sheets, row by row. No labels give an empty PDF without a fault.
    pub fn labels(&self, labels: &[Label], grid: &LabelGrid) -> Pressed {
        if labels.is_empty() {
            return Pressed::default();
        }
        let job = label::lay(labels.len(), grid).and_then(|sheets| {
            let ids: Vec<&str> = labels.iter().map(|label| label.id.as_str()).collect();
            Ok(Job {
                main: world::LABELS,
                data: label::data(labels, grid, &sheets)?,
                ident: ids.join(" "),
                bounds: Bounds::Places {
                    ids,
                    size: (grid.width_mm, grid.height_mm),
                    sheets,
                },
                red: None,
            })
        });
        self.press(job)
    }

    /// A weighing-out sheet on as many pages of a size as it needs, mm; A5 is 148 by 210.
    pub fn weighing(&self, sheet: &crate::views::weighing::Sheet, width_mm: f64, height_mm: f64) -> Pressed {
        self.press(weighing::data(sheet, width_mm, height_mm).map(|data| Job {
            main: weighing::MAIN,
            data,
            ident: format!("{} {}", sheet.id, sheet.volume),
            bounds: Bounds::Pages { id: &sheet.id },
            red: None,
        }))
    }

    /// A camera's cutting template, on a page of its own at the real size.
    pub fn cutting(&self, cutting: &Cutting) -> Pressed {
        self.press(card::cutting(cutting).map(|data| Job {
            main: world::CAMERA,
            data,
            ident: format!("template {}", cutting.id),
            bounds: Bounds::Pages { id: &cutting.id },
            red: None,
        }))
    }

    /// Lets go of layouts that the last ten calls of this did not use. Call it after each rebuild in a long-running
    /// process: typst remembers everything it has ever set, about half a megabyte an edited card.
    pub fn forget_unused() {
        comemo::evict(10);
    }

    fn press_sides(
        &self,
        sides: &[Card],
        layout: &SheetLayout,
        red: bool,
        sheets: Result<Vec<Sheet>, PressFault>,
    ) -> Pressed {
        let job = sheets.and_then(|sheets| {
            let ids: Vec<&str> = sides.iter().map(|card| card.id.as_str()).collect();
            Ok(Job {
                main: world::MAIN,
                data: card::data(sides, layout, &sheets)?,
                ident: ids.join(" "),
                red: ids.first().copied().filter(|_| red),
                bounds: Bounds::Places {
                    ids,
                    size: (layout.card_width_mm, layout.card_height_mm),
                    sheets,
                },
            })
        });
        self.press(job)
    }

    /// Sets a document; a panic in a library must not take a whole pressing with it, and nothing of ours is left half
    /// changed.
    fn press(&self, job: Result<Job<'_>, PressFault>) -> Pressed {
        let job = match job {
            Ok(job) => job,
            Err(fault) => return Pressed::failed(vec![fault]),
        };
        let made_from = self.digest(&job);
        if let Some(known) = self.known.get(&made_from) {
            return known.clone();
        }
        self.set.fetch_add(1, Ordering::Relaxed);
        let main = job.main;
        let broken = || PressFault::template(main, "the typesetter broke down on this template and data");
        catch_unwind(AssertUnwindSafe(|| self.set(job)))
            .unwrap_or_else(|_| Err(vec![broken()]))
            .map(|pressed| Pressed {
                made_from: Some(made_from),
                ..pressed
            })
            .unwrap_or_else(Pressed::failed)
    }

    /// Tells a document from all others by everything that goes into it.
    fn digest(&self, job: &Job<'_>) -> Digest {
        let (year, month, day) = self.date;
        let words = format!("{FORM} {} {} {year} {month} {day}", env!("CARGO_PKG_VERSION"), job.main);
        Digest::default()
            .and(words.as_bytes())
            .and(self.fonts.digest().to_string().as_bytes())
            .and(self.templates.digest().to_string().as_bytes())
            .and(job.ident.as_bytes())
            .and(job.red.unwrap_or_default().as_bytes())
            .and(format!("{:?}", job.bounds).as_bytes())
            .and(&job.data)
    }

    fn set(&self, job: Job<'_>) -> Result<Pressed, Vec<PressFault>> {
        let unusable = self.templates.faults();
        if !unusable.is_empty() {
            return Err(unusable.to_vec());
        }
        let world = PressWorld::new(
            Arc::clone(&self.fonts),
            self.templates.clone(),
            job.main,
            job.data,
        )
        .map_err(|fault| vec![fault])?;
        let document = typst::compile::<PagedDocument>(&world)
            .output
            .map_err(|errors| fault::from_typst(&world, &errors))?;
        let mut faults = match &job.bounds {
            Bounds::Places { ids, size, sheets } => check::document(&document, ids, *size, sheets),
            Bounds::Pages { id } => check::pages(&document, id),
        };
        let pdf = export::pdf(&world, &document, &job.ident, self.date, &mut faults)?;
        let mut pressed = Pressed {
            pdf,
            faults,
            ..Pressed::default()
        };
        if let Some(card) = job.red {
            let proof = red::proof(&document, card).map_err(|fault| vec![fault])?;
            pressed.faults.extend(proof.fault);
            pressed.red = proof.picture;
        }
        Ok(pressed)
    }
}

/// One document to be set.
struct Job<'a> {
    /// The template that is compiled.
    main: &'static str,
    /// What it reads.
    data: Vec<u8>,
    /// What tells the document from every other.
    ident: String,
    /// Where its words may stand.
    bounds: Bounds<'a>,
    /// The card whose sides are looked at in red light.
    red: Option<&'a str>,
}

/// Where the words of a document may stand.
#[derive(Debug)]
enum Bounds<'a> {
    /// On places of a size, mm, several to a sheet, each with the id of its card or label.
    Places {
        ids: Vec<&'a str>,
        size: (f64, f64),
        sheets: Vec<Sheet>,
    },
    /// Anywhere on the pages of one block.
    Pages { id: &'a str },
}

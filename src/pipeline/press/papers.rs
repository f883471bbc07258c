//! Everything that is set by typst: each document is made, or taken over where it is still true, or is not there.

use std::sync::atomic::{AtomicUsize, Ordering};

use rayon::prelude::*;

use crate::finding::Finding;
use crate::press::{Job, Press, PressFault};
use crate::views::page::CardLink;
use crate::views::{self, LeftOut};

use super::faults::{self, Paper, of_press};
use super::made_from::MadeFrom;
use super::only::Artefact;
use super::{File, Pressing, Proof, Wanted};
use crate::pipeline::Progress;

/// Where a document is written, below the folder of everything pressed.
struct Paths {
    pdf: String,
    /// Its picture in red light.
    red: Option<String>,
}

impl Paths {
    fn one(pdf: impl Into<String>) -> Self {
        Self {
            pdf: pdf.into(),
            red: None,
        }
    }
}

/// What became of a document.
enum Made {
    /// It was set without a fault, or is still true as it was.
    Files(Vec<File>, String),
    /// It has faults, and is not kept.
    Faulty(Vec<PressFault>),
    /// It was not named, and is not there or no longer true.
    Gone,
}

/// The press of one notebook, and what it leaves.
pub(super) struct Papers<'p> {
    pub(super) proof: &'p Proof,
    pub(super) wanted: &'p Wanted<'p>,
    pub(super) progress: &'p dyn Progress,
    pub(super) press: Press,
    pub(super) pressing: &'p mut Pressing,
    pub(super) files: &'p mut Vec<File>,
    pub(super) made_from: MadeFrom,
    /// How many documents were typeset.
    pub(super) typeset: AtomicUsize,
}

impl Papers<'_> {
    /// Everything that is wanted; the cards that the site can link to.
    pub(super) fn all(mut self) -> Vec<CardLink> {
        let links = if self.wanted.concerns(Artefact::Cards) {
            self.cards()
        } else {
            Vec::new()
        };
        if self.wanted.concerns(Artefact::Templates) {
            self.cuttings();
        }
        if self.wanted.concerns(Artefact::Labels) {
            self.labels();
        }
        if self.wanted.concerns(Artefact::Sheets) {
            self.sheets();
        }
        if self.wanted.concerns(Artefact::Slips) {
            self.slips();
        }
        if self.wanted.concerns(Artefact::Room) {
            self.room();
        }
        self.files.extend(self.made_from.file());
        self.pressing.typeset = self.typeset.into_inner();
        links
    }

    /// One document: set, taken over, or gone.
    fn make(&self, artefact: Artefact, id: Option<&str>, job: Result<Job, PressFault>, paths: Paths) -> Made {
        let print = job
            .as_ref()
            .map_or_else(|_| String::new(), |job| self.press.fingerprint(job).to_string());
        let at: Vec<String> = std::iter::once(&paths.pdf).chain(&paths.red).cloned().collect();
        if let Some(files) = self.wanted.still_true(&at, &print) {
            return Made::Files(files, print);
        }
        if !self.wanted.names(artefact, id) {
            return Made::Gone;
        }
        self.typeset.fetch_add(1, Ordering::Relaxed);
        let pressed = self.press.set(job);
        Press::forget_unused();
        // What has a fault does not stay on disk: it would be printed.
        if !pressed.faults.is_empty() {
            return Made::Faulty(pressed.faults);
        }
        let red = paths.red.map(|path| (path, pressed.red.into()));
        let files = std::iter::once((paths.pdf, pressed.pdf.into())).chain(red);
        Made::Files(files.collect(), print)
    }

    /// Takes a document in; whether it is there.
    fn take(&mut self, made: Made, paper: Paper) -> bool {
        match made {
            Made::Files(files, print) => {
                for file in &files {
                    self.made_from.note(file, &print);
                }
                self.files.extend(files);
                true
            }
            Made::Faulty(faults) => {
                self.tell(paper, faults);
                false
            }
            Made::Gone => false,
        }
    }

    /// Faults as findings, each once: a mistake in a template is met by every document.
    fn tell(&mut self, paper: Paper, mut faults: Vec<PressFault>) {
        faults.sort_by_key(|fault| format!("{fault:?}"));
        faults.dedup();
        let told = faults.iter().map(|fault| of_press(self.proof, paper, fault));
        let told: Vec<Finding> = told.collect();
        for finding in told {
            if !self.pressing.findings.contains(&finding) {
                self.pressing.findings.push(finding);
            }
        }
    }

    fn leave_out(&mut self, artefact: Artefact, left: Vec<LeftOut>) {
        let named = |left: &LeftOut| self.wanted.names(artefact, Some(&left.id));
        self.pressing.left_out.extend(left.into_iter().filter(named));
    }

    fn cards(&mut self) -> Vec<CardLink> {
        let proof = self.proof;
        let views = views::cards(&proof.notebook, &proof.facts, &proof.findings);
        let layout = views::layout(&proof.notebook.settings);
        self.leave_out(Artefact::Cards, views.left_out);
        self.progress.phase("setting cards", views.cards.len());
        let this = &*self;
        let made: Vec<Made> = views
            .cards
            .par_iter()
            .map(|card| {
                let paths = Paths {
                    pdf: format!("cards/{}.pdf", card.id),
                    red: Some(format!("cards/{}-red.png", card.id)),
                };
                let job = Job::card(card, &layout);
                this.make(Artefact::Cards, Some(card.block()), job, paths)
            })
            .collect();
        let mut links = Vec::new();
        let mut good = Vec::new();
        let mut faults = Vec::new();
        for (card, made) in views.cards.into_iter().zip(made) {
            match made {
                Made::Faulty(own) => faults.extend(own),
                made => {
                    if self.take(made, faults::CARD) {
                        links.push(CardLink {
                            id: card.id.clone(),
                            title: card.title.clone(),
                            href: format!("../cards/{}.pdf", card.id),
                        });
                        good.push(card);
                    }
                }
            }
        }
        self.tell(faults::CARD, faults);
        self.pressing.cards = good.len();
        if !good.is_empty() {
            let path = Paths::one("cards/sheets.pdf");
            let made = self.make(Artefact::Cards, None, Job::cards(&good, &layout), path);
            self.take(made, faults::CARD);
        }
        links
    }

    fn cuttings(&mut self) {
        let proof = self.proof;
        let cuttings = views::cutting::cuttings(&proof.notebook, &proof.facts, &proof.findings);
        let this = &*self;
        let made: Vec<Made> = cuttings
            .par_iter()
            .map(|cutting| {
                let path = Paths::one(format!("templates/{}.pdf", cutting.id));
                this.make(
                    Artefact::Templates,
                    Some(&cutting.id),
                    Job::cutting(cutting),
                    path,
                )
            })
            .collect();
        for made in made {
            self.take(made, faults::CUTTING);
        }
    }

    fn labels(&mut self) {
        let proof = self.proof;
        let views = views::labels(&proof.notebook, &proof.facts, &proof.findings);
        let grid = views::label_grid(&proof.notebook.settings);
        let mut labels = views.labels;
        // All labels share their sheets: whoever names one of them gets them all.
        let id = labels
            .iter()
            .map(|label| label.id.as_str())
            .find(|id| self.wanted.names(Artefact::Labels, Some(id)))
            .map(str::to_owned);
        self.leave_out(Artefact::Labels, views.left_out);
        self.progress.phase("setting labels", labels.len());
        while !labels.is_empty() {
            let job = Job::labels(&labels, &grid);
            let faults = match self.make(Artefact::Labels, id.as_deref(), job, Paths::one("labels.pdf")) {
                Made::Faulty(faults) => faults,
                made => {
                    if self.take(made, faults::LABEL) {
                        self.pressing.labels = labels.len();
                    }
                    return;
                }
            };
            // A label with a fault does not stay on disk; the others do.
            let at_fault = |id: &str| {
                faults.iter().any(|fault| match fault {
                    PressFault::Overflow { card, .. } | PressFault::MissingGlyph { card, .. } => card == id,
                    _ => false,
                })
            };
            let before = labels.len();
            labels.retain(|label| !at_fault(&label.id));
            let mended = labels.len() < before;
            self.tell(faults::LABEL, faults);
            if !mended {
                return;
            }
        }
    }

    fn sheets(&mut self) {
        let proof = self.proof;
        let views = views::weighing::volume_sheets(&proof.notebook, &proof.facts, &proof.findings);
        let size = views::weighing::volume_sheet_size(&proof.notebook);
        self.leave_out(Artefact::Sheets, views.left_out);
        self.progress.phase("setting weighing sheets", views.sheets.len());
        let this = &*self;
        let made: Vec<Made> = views
            .sheets
            .par_iter()
            .map(|sheet| {
                let path = Paths::one(format!("sheets/{}.pdf", sheet.id));
                this.make(Artefact::Sheets, Some(&sheet.id), Job::mixing(sheet, size), path)
            })
            .collect();
        for made in made {
            self.pressing.sheets += usize::from(self.take(made, faults::SHEET));
        }
    }

    fn slips(&mut self) {
        let notebook = &self.proof.notebook;
        let slips = views::slip::slips(notebook);
        let layout = views::slip::slip_layout(notebook);
        self.progress.phase("setting log slips", slips.numbers.len());
        let path = Paths::one("slips.pdf");
        let made = self.make(Artefact::Slips, None, Job::slips(&slips, &layout), path);
        // They are all alike: what one does not hold, none does.
        let made = match made {
            Made::Faulty(faults) => Made::Faulty(faults.into_iter().take(1).collect()),
            made => made,
        };
        if self.take(made, faults::SLIP) {
            self.pressing.slips = slips.numbers.len();
        }
    }

    fn room(&mut self) {
        let proof = self.proof;
        let room = views::room_sheet::room_sheet(&proof.notebook, &proof.facts, &proof.findings);
        let size = views::room_sheet::room_size(&proof.notebook);
        self.progress.phase("setting the room sheet", 1);
        let path = Paths::one("room.pdf");
        let made = self.make(Artefact::Room, None, Job::room(&room, size), path);
        self.pressing.rooms = usize::from(self.take(made, faults::ROOM));
    }
}

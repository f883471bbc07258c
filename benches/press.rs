//! Two hundred cards, beside a bare typst compile and PDF export of the same templates over the same data: with the checks
//! after layout, and with the red-light proof of every side as well.
#![expect(
    clippy::unwrap_used,
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench measures time and stops where it cannot go on"
)]

#[expect(dead_code, reason = "other benches generate whole notebooks")]
mod support;

use std::fs;
use std::hint::black_box;
use std::path::Path;

use trayside::host::Memory;
use trayside::pipeline::{self, Silent};
use trayside::press::{Job, Press};
use trayside::views;
use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

/// How many cards.
const CARDS: usize = 200;
/// How many where it is only seen that the bench works.
const FEW: usize = 4;
const ROUNDS: usize = 3;

fn main() {
    let notebook = Memory::new()
        .with(
            "trayside.yaml",
            "title: Two hundred\nzone: Europe/London\nscale: 0.1 g\npress:\n  cards: {}\n",
        )
        .with(
            "baths.md",
            (0..if support::in_full() { CARDS } else { FEW })
                .map(support::recipe)
                .collect::<String>(),
        );
    let proof = pipeline::proof(&notebook, &Silent).unwrap();
    let cards = views::cards(&proof.notebook, &proof.facts, &proof.findings).cards;
    let layout = views::layout(&proof.notebook.settings);
    let jobs: Vec<Job> = cards
        .iter()
        .map(|card| Job::card(card, &layout).unwrap())
        .collect();
    println!(
        "{} cards, {} sides",
        cards.len(),
        cards.iter().map(|card| card.sides().len()).sum::<usize>()
    );
    let press = Press::new();
    let bare = Bare::new();
    let floor = || {
        comemo::evict(0);
        for job in &jobs {
            black_box(bare.set(job));
        }
    };
    let work = |jobs: &[Job]| {
        comemo::evict(0);
        for job in jobs {
            let pressed = press.set(Ok(job.clone()));
            assert!(pressed.faults.is_empty(), "{:?}", pressed.faults);
            black_box(pressed);
        }
    };
    let plain: Vec<Job> = jobs.iter().map(Job::without_red).collect();
    support::beside("cards and their checks", ROUNDS, floor, || work(&plain));
    support::beside("with the red-light proof", ROUNDS, floor, || work(&jobs));
    if let Some(megabytes) = support::peak_memory() {
        println!("peak memory so far {megabytes} MB");
    }
}

/// Typst and nothing else.
struct Bare {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
    sources: Vec<(FileId, Source)>,
}

impl Bare {
    fn new() -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
        let own = ["Regular", "Italic", "Bold", "BoldItalic"].map(|face| {
            let path = root.join(format!("fonts/AtkinsonHyperlegible-{face}.ttf"));
            Bytes::new(fs::read(path).unwrap())
        });
        let lent = typst_assets::fonts().map(Bytes::new);
        let fonts: Vec<Font> = own.into_iter().chain(lent).flat_map(Font::iter).collect();
        let sources = fs::read_dir(root.join("press")).unwrap().map(|entry| {
            let path = entry.unwrap().path();
            let name = format!("templates/press/{}", path.file_name().unwrap().to_string_lossy());
            let id = id(&name);
            (id, Source::new(id, fs::read_to_string(&path).unwrap()))
        });
        Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(&fonts)),
            sources: sources.collect(),
            fonts,
        }
    }

    fn set(&self, job: &Job) -> Vec<u8> {
        let world = BareWorld {
            bare: self,
            main: id(job.template()),
            data: Bytes::new(job.data().to_vec()),
        };
        let document = typst::compile::<PagedDocument>(&world).output.unwrap();
        let options = PdfOptions {
            ident: Smart::Custom("bare".to_owned()),
            timestamp: Datetime::from_ymd_hms(2000, 1, 1, 0, 0, 0).map(Timestamp::new_utc),
            standards: PdfStandards::new(&[PdfStandard::Ua_1, PdfStandard::A_2a]).unwrap(),
            ..PdfOptions::default()
        };
        typst_pdf::pdf(&document, &options).unwrap()
    }
}

fn id(path: &str) -> FileId {
    RootedPath::new(VirtualRoot::Project, VirtualPath::new(path).unwrap()).intern()
}

struct BareWorld<'b> {
    bare: &'b Bare,
    main: FileId,
    data: Bytes,
}

impl World for BareWorld<'_> {
    fn library(&self) -> &LazyHash<Library> {
        &self.bare.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.bare.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        let mut sources = self.bare.sources.iter();
        let source = sources
            .find(|(own, _)| *own == id)
            .map(|(_, source)| source.clone());
        source.ok_or_else(|| FileError::NotFound(id.get().vpath().get_without_slash().into()))
    }

    fn file(&self, _: FileId) -> FileResult<Bytes> {
        Ok(self.data.clone())
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.bare.fonts.get(index).cloned()
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

//! The world as the typesetter sees it: our templates, one file of data, our fonts. No disk, no clock, no packages.

use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock};

use typst::diag::{FileError, FileResult};
use typst::foundations::{Bytes, Datetime, Duration};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};

use super::fault::PressFault;
use super::fonts::Fonts;

/// The template of labels.
pub(super) const LABELS: &str = "templates/press/labels.typ";
/// The template of cards.
pub(super) const MAIN: &str = "templates/press/sheet.typ";
/// The template of a camera's cutting template.
pub(super) const CAMERA: &str = "templates/press/camera.typ";
/// The template of a weighing-out sheet for one volume.
pub(super) const WEIGHING: &str = "templates/press/weighing.typ";
/// The template of a weighing sheet for several volumes.
pub(super) const MIXING: &str = "templates/press/mixing.typ";
/// The template of log slips.
pub(super) const SLIPS: &str = "templates/press/slips.typ";
/// The template of the room sheet.
pub(super) const ROOM: &str = "templates/press/room.typ";
/// Where templates find the data.
const DATA: &str = "data.json";

/// A template of ours: its path in the notebook, should one want to replace it, and its text.
macro_rules! template {
    ($name:literal) => {
        (
            concat!("templates/press/", $name),
            include_str!(concat!("../../templates/press/", $name)),
        )
    };
}

const BUILT_IN: [(&str, &str); 17] = [
    template!("sheet.typ"),
    template!("card.typ"),
    template!("camera.typ"),
    template!("drawing.typ"),
    template!("labels.typ"),
    template!("label.typ"),
    template!("signs.typ"),
    template!("sizes.typ"),
    template!("letters.typ"),
    template!("marks.typ"),
    template!("parts.typ"),
    template!("weighing.typ"),
    template!("lists.typ"),
    template!("mixing.typ"),
    template!("slip.typ"),
    template!("slips.typ"),
    template!("room.typ"),
];

static LIBRARY: LazyLock<LazyHash<Library>> = LazyLock::new(|| LazyHash::new(Library::default()));

fn id(path: &str) -> Option<FileId> {
    let path = VirtualPath::new(path).ok()?;
    Some(RootedPath::new(VirtualRoot::Project, path).intern())
}

/// The path of a file of ours; nothing for a file of a package, of which there are none.
fn project_path(id: FileId) -> Option<&'static str> {
    let path = id.get();
    matches!(path.root(), VirtualRoot::Project).then(|| path.vpath().get_without_slash())
}

/// Parsed templates by path, built in or a notebook's own.
#[derive(Clone)]
pub(super) struct Templates {
    sources: Arc<BTreeMap<String, Source>>,
    faults: Arc<[PressFault]>,
}

impl Templates {
    /// Those that come with the program.
    pub(super) fn built_in() -> Self {
        let empty = Self {
            sources: Arc::default(),
            faults: Arc::from([]),
        };
        let texts = BUILT_IN.map(|(path, text)| (path.to_owned(), text.to_owned()));
        empty.with(&BTreeMap::from(texts))
    }

    /// The same with some replaced or added.
    pub(super) fn with(&self, texts: &BTreeMap<String, String>) -> Self {
        let mut sources = BTreeMap::clone(&self.sources);
        let mut faults = self.faults.to_vec();
        for (path, text) in texts {
            match id(path) {
                Some(id) => {
                    let path = id.get().vpath().get_without_slash().to_owned();
                    sources.insert(path, Source::new(id, text.clone()));
                }
                None => faults.push(PressFault::template(path, "this path leaves the notebook folder")),
            }
        }
        Self {
            sources: Arc::new(sources),
            faults: faults.into(),
        }
    }

    /// Templates that could not be taken in.
    pub(super) fn faults(&self) -> &[PressFault] {
        &self.faults
    }

    /// Every template by path.
    pub(super) fn texts(&self) -> impl Iterator<Item = (&str, &str)> {
        self.sources
            .iter()
            .map(|(path, source)| (path.as_str(), source.text()))
    }

    fn get(&self, id: FileId) -> Option<&Source> {
        self.sources.get(project_path(id)?)
    }
}

/// Everything one document is made from.
pub(super) struct PressWorld {
    fonts: Arc<Fonts>,
    templates: Templates,
    main: FileId,
    data: Bytes,
}

impl PressWorld {
    /// A world for one document over `data`, the bytes of a JSON file, from the template at `main`. The fault is that there
    /// is no such template.
    pub(super) fn new(
        fonts: Arc<Fonts>,
        templates: Templates,
        main: &'static str,
        data: Vec<u8>,
    ) -> Result<Self, PressFault> {
        let main = templates
            .sources
            .get(main)
            .map(Source::id)
            .ok_or_else(|| PressFault::template(main, "this template is missing"))?;
        Ok(Self {
            fonts,
            templates,
            main,
            data: Bytes::new(data),
        })
    }
}

impl World for PressWorld {
    fn library(&self) -> &LazyHash<Library> {
        &LIBRARY
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.fonts.book
    }

    fn main(&self) -> FileId {
        self.main
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        self.templates.get(id).cloned().ok_or_else(|| not_found(id))
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        if project_path(id) == Some(DATA) {
            return Ok(self.data.clone());
        }
        self.source(id)
            .map(|source| Bytes::from_string(source.text().to_owned()))
    }

    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.face(index)
    }

    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn not_found(id: FileId) -> FileError {
    FileError::NotFound(id.get().vpath().get_without_slash().into())
}

//! The order of the phases, and nothing else: folder, pages, notebook, facts, rules; then views, cards and site, and the
//! folder that holds them.

mod keeping;
mod press;

use std::collections::BTreeMap;
use std::sync::Arc;

use rayon::prelude::*;

use crate::facts::Facts;
use crate::finding::{Finding, Grade, Summary, slug};
use crate::host::{Host, HostError, Listed, ListedKind};
use crate::notebook::{self, Notebook};
use crate::rules;
use crate::source::{FileId, Sources, Span};
use crate::syntax::PAGE_LIMIT;

pub use keeping::Keeping;
#[cfg(feature = "typst")]
pub use press::latest_date;
pub use press::{
    Artefact, File, Kept, Only, PRESSED, Pictures, Pressing, pages_first, prepared, press, press_after,
    press_only,
};

/// The name of the file that makes a folder a notebook.
pub const SETTINGS: &str = "trayside.yaml";

/// A notebook that was read, computed and checked.
#[derive(Debug)]
pub struct Proof {
    /// Its files.
    pub sources: Sources,
    /// `trayside.yaml`, empty where there is none.
    pub settings: FileId,
    /// Templates of its own, by path.
    pub templates: BTreeMap<String, String>,
    /// What they say.
    pub notebook: Notebook,
    /// What follows.
    pub facts: Facts,
    /// What there is to say about it, in order of place.
    pub findings: Vec<Finding>,
    /// How many pages were read, rather than taken over from an earlier proof.
    pub pages_read: usize,
    /// How many blocks had their facts computed.
    pub blocks_computed: usize,
}

impl Proof {
    /// How many findings of each grade count.
    pub fn summary(&self) -> Summary {
        Summary::of(&self.findings)
    }
}

/// Told how far the work is, so that a person can be told.
pub trait Progress: Sync {
    /// A phase begins, over so many things.
    fn phase(&self, name: &'static str, things: usize);
}

/// Tells nobody.
#[derive(Debug, Clone, Copy)]
pub struct Silent;

impl Progress for Silent {
    fn phase(&self, _: &'static str, _: usize) {}
}

/// Reads, computes and checks a notebook. Fails only where the folder itself cannot be looked at.
pub fn proof(host: &dyn Host, progress: &dyn Progress) -> Result<Proof, HostError> {
    proof_after(host, None, progress)
}

/// As [`proof`] does, with what has not changed since an earlier proof taken over from it. Every page whose text differs is
/// read, every fact that such a page can reach is computed, and every rule looks at everything.
pub fn proof_after(
    host: &dyn Host,
    before: Option<Proof>,
    progress: &dyn Progress,
) -> Result<Proof, HostError> {
    let mut findings = Vec::new();
    let folder = read_folder(host, before.as_ref(), progress, &mut findings)?;
    progress.phase("reading", folder.pages.len());
    let input = notebook::Input {
        sources: &folder.sources,
        settings: folder.settings,
        no_settings: folder.no_settings,
        pages: &folder.pages,
        partial: folder.partial,
    };
    let kept_before = before.as_ref().map(|before| before.notebook.kept.clone());
    let (notebook_before, facts_before) = before.map(|before| (before.notebook, before.facts)).unzip();
    let (mut notebook, mut read, mut changes) = notebook::read_after(&input, notebook_before);
    findings.append(&mut read);
    let kept_before = kept_before.unwrap_or_default();
    findings.extend(notebook.take_kept(&folder.sources, &folder.kept, &kept_before, &mut changes));
    notebook.measure_holes(&|path| host.read_shared(path).ok(), &mut changes);
    progress.phase("computing", notebook.blocks.len());
    let facts_before = facts_before.map(|facts| (facts, &changes));
    let (facts, blocks_computed) = Facts::of_after(&notebook, facts_before);
    progress.phase("checking", notebook.blocks.len());
    findings.extend(rules::check(&notebook, &facts));
    findings.extend(rules::check_prose(&notebook, &facts, &|path| host.exists(path)));
    let findings = rules::settle(&notebook, findings);
    Ok(Proof {
        sources: folder.sources,
        settings: folder.settings,
        templates: folder.templates,
        notebook,
        facts,
        findings,
        pages_read: changes.read.len(),
        blocks_computed,
    })
}

/// A folder's texts.
struct Folder {
    sources: Sources,
    settings: FileId,
    no_settings: bool,
    pages: Vec<FileId>,
    templates: BTreeMap<String, String>,
    /// The files of `kept/`.
    kept: Vec<FileId>,
    partial: bool,
}

fn read_folder(
    host: &dyn Host,
    before: Option<&Proof>,
    progress: &dyn Progress,
    findings: &mut Vec<Finding>,
) -> Result<Folder, HostError> {
    let listed = host.list()?;
    let wanted: Vec<&Listed> = listed.iter().filter(|thing| is_text(&thing.path)).collect();
    progress.phase("opening", wanted.len());
    let known: BTreeMap<&str, &Arc<str>> = before
        .iter()
        .flat_map(|before| before.sources.iter())
        .map(|(_, file)| (file.path(), file.text()))
        .collect();
    let texts: Vec<Result<Text, Unread>> = wanted
        .par_iter()
        .map(|thing| read_text(host, thing, known.get(thing.path.as_str()).copied()))
        .collect();
    let mut sources = Sources::default();
    let mut settings = None;
    let mut pages = Vec::with_capacity(texts.len());
    let mut no_settings = false;
    // Settings first, so that findings about them stand first.
    for first in [true, false] {
        for (thing, text) in wanted.iter().zip(&texts) {
            if (thing.path == SETTINGS) != first {
                continue;
            }
            let held = text.as_ref().map(|text| Arc::clone(&text.text));
            let id = sources.add(thing.path.clone(), held.unwrap_or_default());
            match text {
                Ok(text) => findings.extend(text.finding(id)),
                Err(unread) => {
                    findings.push(unread.finding(id));
                    no_settings |= first;
                }
            }
            if first {
                settings = Some(id);
            } else if text.is_ok() {
                pages.push(id);
            }
        }
        if first && settings.is_none() {
            let id = sources.add(SETTINGS, "");
            settings = Some(id);
            no_settings = true;
            findings.push(
                Finding::fault(
                    slug::NO_SETTINGS,
                    Span::new(id, 0, 0),
                    format!("this folder has no {SETTINGS}"),
                )
                .help("make one with at least `title: ...`, or start with `trayside begin`"),
            );
        }
    }
    for thing in &listed {
        if let Some(finding) = odd_thing(thing, &mut sources) {
            findings.push(finding);
        }
    }
    let templates = templates(host, &listed, &mut sources, findings);
    let kept = keeping::read(host, &known, &mut sources, findings)?;
    let settings = settings.unwrap_or(FileId(0));
    Ok(Folder {
        kept,
        sources,
        settings,
        no_settings,
        pages,
        templates,
        partial: texts.iter().any(Result::is_err),
    })
}

/// The notebook's own templates: `templates/press/card.typ`, `templates/site/page.html`. They stand among the sources, so
/// that a mistake in one has a place.
fn templates(
    host: &dyn Host,
    listed: &[Listed],
    sources: &mut Sources,
    findings: &mut Vec<Finding>,
) -> BTreeMap<String, String> {
    let own = listed.iter().filter(|thing| {
        let ending = thing.path.rsplit_once('.').map_or("", |(_, ending)| ending);
        thing.path.starts_with("templates/")
            && matches!(ending, "typ" | "html" | "css")
            && matches!(thing.kind, ListedKind::File { .. } | ListedKind::LinkOutside)
    });
    let mut templates = BTreeMap::new();
    for thing in own {
        match read_text(host, thing, None) {
            Ok(text) => {
                let id = sources.add(thing.path.clone(), Arc::clone(&text.text));
                findings.extend(text.finding(id));
                let text = sources
                    .get(id)
                    .map_or_else(String::new, |file| file.text().to_string());
                templates.insert(thing.path.clone(), text);
            }
            Err(unread) => {
                let id = sources.add(thing.path.clone(), "");
                findings.push(unread.finding(id));
            }
        }
    }
    templates
}

fn is_text(path: &str) -> bool {
    path == SETTINGS
        || path
            .rsplit('/')
            .next()
            .and_then(|name| name.rsplit_once('.'))
            .is_some_and(|(stem, end)| end.eq_ignore_ascii_case("md") && !stem.is_empty())
}

/// A link or folder that is not read, where no page of that name says so already.
fn odd_thing(thing: &Listed, sources: &mut Sources) -> Option<Finding> {
    if is_text(&thing.path) {
        return None;
    }
    let (rule, grade, message) = match &thing.kind {
        ListedKind::File { .. } | ListedKind::LinkOutside => return None,
        ListedKind::LinkedFolder => (
            slug::LINK_OUTSIDE,
            Grade::Doubt,
            "a linked folder is not read: it may lead round in a circle".to_owned(),
        ),
        ListedKind::Unreadable(why) => (
            slug::FILE_UNREADABLE,
            Grade::Fault,
            format!("it cannot be read: {why}"),
        ),
    };
    let id = sources.add(thing.path.clone(), "");
    Some(Finding::new(rule, grade, Span::new(id, 0, 0), message))
}

/// A file as text, with the place of the first byte that is not.
struct Text {
    text: Arc<str>,
    broken: Option<(usize, &'static str)>,
}

impl Text {
    fn finding(&self, file: FileId) -> Option<Finding> {
        let (at, what) = self.broken?;
        Some(
            Finding::fault(slug::NOT_UTF8, Span::new(file, at, at), what.to_owned())
                .help("save the page as UTF-8 in your editor"),
        )
    }
}

/// Why a file is no text.
enum Unread {
    TooLarge(u64),
    LinkOutside,
    Failed(String),
}

impl Unread {
    fn finding(&self, file: FileId) -> Finding {
        let span = Span::new(file, 0, 0);
        match self {
            Self::TooLarge(bytes) => Finding::fault(
                slug::PAGE_TOO_LARGE,
                span,
                format!(
                    "this page has {} MB, more than the {} that are read",
                    bytes / 1_000_000,
                    PAGE_LIMIT / 1_000_000
                ),
            )
            .help("split it into several pages"),
            Self::LinkOutside => Finding::fault(
                slug::LINK_OUTSIDE,
                span,
                "this link leads out of the notebook folder and is not followed",
            )
            .help("put the page itself into the folder"),
            Self::Failed(why) => {
                Finding::fault(slug::FILE_UNREADABLE, span, format!("it cannot be read: {why}"))
            }
        }
    }
}

fn read_text(host: &dyn Host, thing: &Listed, known: Option<&Arc<str>>) -> Result<Text, Unread> {
    match &thing.kind {
        ListedKind::File { bytes } if *bytes > PAGE_LIMIT => return Err(Unread::TooLarge(*bytes)),
        ListedKind::File { .. } => {}
        ListedKind::LinkOutside => return Err(Unread::LinkOutside),
        ListedKind::LinkedFolder => return Err(Unread::Failed("it is a link to a folder".to_owned())),
        ListedKind::Unreadable(why) => return Err(Unread::Failed(why.clone())),
    }
    let bytes = host
        .read_shared(&thing.path)
        .map_err(|error| Unread::Failed(error.cause.to_string()))?;
    // A text that is kept has no broken bytes, no zeros and no mark: what is equal to it has none either.
    if let Some(known) = known.filter(|known| known.as_bytes() == &bytes[..]) {
        return Ok(Text {
            text: Arc::clone(known),
            broken: None,
        });
    }
    Ok(decode(&bytes))
}

/// Bytes as text. What is not UTF-8 is read as what it most likely is, so that nothing else on the page is lost and one
/// wrong encoding is one finding.
fn decode(bytes: &[u8]) -> Text {
    let two_bytes = match bytes.get(..2) {
        Some([0xff, 0xfe]) => Some(u16::from_le_bytes as fn([u8; 2]) -> u16),
        Some([0xfe, 0xff]) => Some(u16::from_be_bytes as fn([u8; 2]) -> u16),
        _ if !bytes.contains(&0) => None,
        _ => unmarked_two_bytes(bytes),
    };
    if let Some(unit) = two_bytes {
        let units = bytes.chunks_exact(2).map(|pair| match pair {
            [a, b] => unit([*a, *b]),
            _ => 0,
        });
        let text: String = char::decode_utf16(units)
            .map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER))
            .filter(|c| *c != BYTE_ORDER_MARK)
            .collect();
        return Text {
            text: without_zeros(&text),
            broken: Some((0, "this page is UTF-16, not UTF-8")),
        };
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => match text.trim_start_matches(BYTE_ORDER_MARK).find('\0') {
            Some(at) => Text {
                text: without_zeros(text),
                broken: Some((at, "there is a zero byte here: this is no text")),
            },
            None => Text {
                text: text.into(),
                broken: None,
            },
        },
        Err(error) => {
            let mut text = String::with_capacity(bytes.len() + 16);
            for chunk in bytes.utf8_chunks() {
                text.push_str(chunk.valid());
                text.extend(chunk.invalid().iter().map(|byte| western(*byte)));
            }
            let valid = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let zeros = valid.split(|byte| *byte == 0).count() - 1;
            let mark = if text.starts_with(BYTE_ORDER_MARK) {
                BYTE_ORDER_MARK.len_utf8()
            } else {
                0
            };
            Text {
                text: without_zeros(&text),
                broken: Some((valid.len() - zeros - mark, "this is not UTF-8")),
            }
        }
    }
}

/// UTF-16 without its mark: in western text nearly every second byte is zero, and always the same of the two.
fn unmarked_two_bytes(bytes: &[u8]) -> Option<fn([u8; 2]) -> u16> {
    let (mut first, mut second) = (0, 0);
    for pair in bytes.chunks_exact(2) {
        first += usize::from(pair.first() == Some(&0));
        second += usize::from(pair.last() == Some(&0));
    }
    let pairs = bytes.len() / 2;
    let most = |zeros: usize| zeros * 2 > pairs;
    let few = |zeros: usize| zeros * 20 < pairs;
    if most(second) && few(first) {
        return Some(u16::from_le_bytes);
    }
    (most(first) && few(second)).then_some(u16::from_be_bytes as fn([u8; 2]) -> u16)
}

/// Not a character of the text; the sources drop it.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// Zero bytes would each be a mistake of their own wherever they stand.
fn without_zeros(text: &str) -> Arc<str> {
    text.replace('\0', "").into()
}

/// A byte as what western European systems wrote before UTF-8: the index of windows-1252 in the WHATWG Encoding
/// Standard, the five bytes that it leaves to control codes as the mark for an unknown character.
fn western(byte: u8) -> char {
    const HIGH: [char; 32] = [
        '€', '\u{fffd}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{fffd}', 'Ž', '\u{fffd}',
        '\u{fffd}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{fffd}', 'ž', 'Ÿ',
    ];
    byte.checked_sub(0x80)
        .and_then(|at| HIGH.get(usize::from(at)))
        .copied()
        .unwrap_or(char::from(byte))
}

//! From files to a notebook: settings first, then every page by itself, then what ties them together.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;

use crate::finding::{Finding, slug as rule};
use crate::pantry::Pantry;
use crate::source::{ByName, FileId, OffsetMap, Sources, Span};
use crate::syntax::{Document, Fence, Node, NodeKind, read_page, read_yaml};

use super::again::{Before, Changes, Leaf, ReadBy, Rest, State};
use super::holes::Holes;
use super::lower::{Keys, Lower, Pending, list};
use super::settings::{self, Settings};
use super::slot::Slot;
use super::{
    Block, Body, COMMON, KeptRecipes, Kind, Notebook, Packets, camera, exposure, fences, ingredient,
    materials, nearest, page, paper, process, recipe, safelight, session,
};
use crate::syntax::slug;

/// What a notebook is read from.
#[derive(Debug)]
pub struct Input<'s> {
    /// All files.
    pub sources: &'s Sources,
    /// `trayside.yaml`; an empty file of that name where there is none.
    pub settings: FileId,
    /// Whether there is none, which is told already.
    pub no_settings: bool,
    /// The pages, in reading order.
    pub pages: &'s [FileId],
    /// Whether a page could not be read, which is told already.
    pub partial: bool,
}

/// Reads a notebook. Never fails: what is wrong is in the findings.
pub fn read(input: &Input<'_>) -> (Notebook, Vec<Finding>) {
    let (notebook, findings, _) = read_after(input, None);
    (notebook, findings)
}

/// As [`read`] does, with pages that are as they were taken over from an earlier reading; and what differs from that.
pub fn read_after(input: &Input<'_>, before: Option<Notebook>) -> (Notebook, Vec<Finding>, Changes) {
    let (settings, base, unsettled) = read_settings(input);
    let (mut findings, pending) = (base.findings, base.pending);
    let by = (base.style, base.zone);
    let (mut notebook, mut changes, untied) = match before {
        Some(before) if before.is_of(input.sources, input.pages, &by) => {
            read_in_place(input, settings, before)
        }
        before => read_anew(input, settings, by, before),
    };
    tie(
        &mut notebook,
        &pending,
        unsettled,
        untied.others.as_ref(),
        &mut findings,
    );
    changes.end(untied.state, &notebook);
    (notebook, findings, changes)
}

/// What is known of pages that are not yet tied together.
struct Untied {
    /// The pages whose references are to be followed; none where all are, and every id is to be found its block.
    others: Option<BTreeSet<FileId>>,
    state: State,
}

/// Reads the pages again that a notebook was read from.
fn read_in_place(
    input: &Input<'_>,
    settings: Settings,
    mut notebook: Notebook,
) -> (Notebook, Changes, Untied) {
    let mut changes = Changes {
        all: notebook.settings != settings,
        ..Changes::default()
    };
    let state = State::of(&mut notebook);
    let mut same_names = state.is_plain() && notebook.partial == input.partial;
    (notebook.settings, notebook.partial) = (settings, input.partial);
    let read = |at: usize| {
        let file = notebook.pages.get(at)?.file;
        Some((at, leaf_of(input, file, &notebook.read_by)?))
    };
    let others = notebook.other_texts(input.sources);
    let leaves: Vec<(usize, Leaf)> = others.into_par_iter().filter_map(read).collect();
    for (at, leaf) in leaves {
        let before = notebook.leaf(at);
        same_names &= before.is_some_and(|before| before.has_names_of(leaf.view()));
        changes.page(before, leaf.view());
        notebook.put(at, leaf);
    }
    let others = same_names.then(|| changes.read.clone());
    (notebook, changes, Untied { others, state })
}

/// Reads pages, some of which an earlier notebook may have been read from.
fn read_anew(
    input: &Input<'_>,
    settings: Settings,
    by: ReadBy,
    before: Option<Notebook>,
) -> (Notebook, Changes, Untied) {
    let mut before = before.map(|before| Before::of(before, &by)).unwrap_or_default();
    let known = &mut before.leaves;
    let wanted: Vec<(FileId, Option<Leaf>)> = input
        .pages
        .iter()
        .map(|file| (*file, known.remove(file)))
        .collect();
    let mut changes = Changes {
        all: true,
        ..Changes::default()
    };
    let leaves: Vec<(Leaf, bool)> = wanted
        .into_par_iter()
        .filter_map(|(file, leaf)| {
            let source = input.sources.get(file)?;
            let known = leaf.filter(|leaf| leaf.is_of(source.path(), source.text()));
            match known {
                Some(leaf) => Some((leaf, false)),
                None => Some((leaf_of(input, file, &by)?, true)),
            }
        })
        .collect();
    let mut notebook = Notebook {
        settings,
        pages: Vec::with_capacity(leaves.len()),
        texts: Vec::with_capacity(leaves.len()),
        blocks: Vec::new(),
        pantry: Pantry::shared(),
        holes: Holes::default(),
        kept: KeptRecipes::default(),
        packets: Packets::default(),
        partial: input.partial,
        index: ByName::default(),
        kinds: BTreeMap::new(),
        rests: Vec::with_capacity(leaves.len()),
        read_by: by,
    };
    for (leaf, is_read) in leaves {
        if is_read {
            changes.read.insert(leaf.head.file);
        }
        notebook.pages.push(leaf.head);
        notebook.texts.push(leaf.text);
        notebook.blocks.extend(leaf.blocks);
        notebook.rests.push(leaf.rest);
    }
    let state = before.state();
    (notebook, changes, Untied { others: None, state })
}

/// What can only be said once all pages are known; `of_settings` are the references in `trayside.yaml`. Where `others` are
/// given, the references of all other pages meet what they met before.
fn tie(
    notebook: &mut Notebook,
    of_settings: &[Pending],
    unsettled: bool,
    others: Option<&BTreeSet<FileId>>,
    findings: &mut Vec<Finding>,
) {
    let mut rests = std::mem::take(&mut notebook.rests);
    findings.extend(rests.iter().flat_map(|rest| rest.findings.iter().cloned()));
    let zoneless = rests.iter().find_map(|rest| rest.zoneless);
    if let (Some(first), Slot::Absent, false) = (zoneless, &notebook.settings.zone, unsettled) {
        findings.push(
            Finding::new(
                rule::ZONE_MISSING,
                crate::finding::Grade::Doubt,
                first,
                "this date has no zone and `trayside.yaml` names none: it is taken as UTC",
            )
            .help("add `zone: Europe/Lisbon`, or your own, to trayside.yaml"),
        );
    }
    if others.is_none() {
        notebook.find_blocks(findings);
    }
    let misnamed: BTreeSet<String> = rests
        .iter()
        .flat_map(|rest| rest.misnamed.iter().cloned())
        .collect();
    let unmet = |pending: &Pending| {
        let named = !misnamed.contains(&pending.id.value);
        named.then(|| resolve(notebook, pending)).flatten()
    };
    findings.extend(of_settings.iter().filter_map(unmet));
    rests
        .par_iter_mut()
        .zip(&notebook.pages)
        .for_each(|(rest, head)| {
            // What is not met may point at another page, where places are others now.
            let same = |others: &BTreeSet<FileId>| rest.unmet.is_empty() && !others.contains(&head.file);
            if !others.is_some_and(same) {
                rest.unmet = rest.pending.iter().filter_map(unmet).collect();
            }
        });
    findings.extend(rests.iter().flat_map(|rest| rest.unmet.iter().cloned()));
    notebook.rests = rests;
    let own = materials::own(&notebook.blocks, findings);
    notebook.pantry = if own.is_empty() {
        Pantry::shared()
    } else {
        Arc::new(Pantry::standard().with(own))
    };
    notebook.packets = Packets::of(&notebook.pantry, &notebook.settings.shelf, &notebook.blocks);
}

/// The settings, what pages are read by, and whether parts of the settings could not be read.
fn read_settings(input: &Input<'_>) -> (Settings, Lower, bool) {
    let mut findings = Vec::new();
    let text = input
        .sources
        .get(input.settings)
        .map(|file| Arc::clone(file.text()))
        .unwrap_or_default();
    let map = OffsetMap::slice(input.settings, 0, text.len());
    let document = read_yaml(&text, &map, &mut findings);
    let head = Span::new(input.settings, 0, 0);
    let incomplete = document.broken || input.no_settings;
    let (settings, mut lower) = settings::lower(&document.node, head, incomplete);
    // A key that is unknown may be meant to say what seems not to be said, such as `timezone`.
    let unknown = lower
        .findings
        .iter()
        .any(|finding| finding.rule == rule::KEY_UNKNOWN);
    let incomplete = incomplete || unknown;
    findings.append(&mut lower.findings);
    lower.findings = findings;
    (settings, lower, incomplete)
}

fn leaf_of(input: &Input<'_>, file: FileId, by: &ReadBy) -> Option<Leaf> {
    let source = input.sources.get(file)?;
    let (style, zone) = by.clone();
    Some(read_leaf(
        file,
        source.path(),
        source.text(),
        Lower::new(style, zone),
    ))
}

/// One page by itself.
pub(super) fn read_leaf(file: FileId, path: &str, text: &Arc<str>, mut lower: Lower) -> Leaf {
    let page = read_page(file, text);
    let head = page::lower(&mut lower, path, &page);
    let mut blocks = Vec::new();
    for fence in &page.fences {
        for fence in fences::apart(fence, |word| meant(word).is_some()).iter() {
            if let Some(kind) = kind(&mut lower, fence) {
                blocks.extend(block(&mut lower, kind, fence));
            }
        }
    }
    let Lower {
        findings,
        pending,
        zoneless,
        misnamed,
        ..
    } = lower;
    Leaf {
        head,
        text: page,
        blocks,
        rest: Rest {
            source: Arc::clone(text),
            findings,
            pending,
            zoneless,
            misnamed,
            unmet: Vec::new(),
        },
    }
}

/// The kind of a fence; none where it is ordinary code. A mistyped kind is reported and read as what was meant.
fn kind(lower: &mut Lower, fence: &Fence) -> Option<Kind> {
    let info = fence.info.value.as_str();
    let word = info.split_whitespace().next().unwrap_or("");
    let found = Kind::from_word(word);
    let kind = found.or_else(|| near_kind(word))?;
    let span = Span {
        end: fence.info.span.start + word.len() as u32,
        ..fence.info.span
    };
    if found.is_none() {
        lower.report(
            Finding::fault(rule::KIND_UNKNOWN, span, format!("`{word}` is no kind of block"))
                .help(format!("did you mean `{}`?", kind.word()))
                .replace(span, kind.word()),
        );
    } else if info.len() > word.len() {
        let rest = Span {
            start: span.end,
            ..fence.info.span
        };
        lower.report(
            Finding::fault(
                rule::KIND_UNKNOWN,
                rest,
                "nothing may stand after the kind of a block",
            )
            .help("give the block a `title:` or an `id:` instead"),
        );
    }
    if !fence.closed {
        lower.report(
            Finding::fault(
                rule::FENCE_OPEN,
                fence.span.head(),
                format!("this {} is never closed", kind.word()),
            )
            .help("end it with a line of three backticks"),
        );
    }
    Some(kind)
}

/// The kind of a word, mistyped or not.
fn meant(word: &str) -> Option<Kind> {
    Kind::from_word(word).or_else(|| near_kind(word))
}

/// A kind one slip away: languages of ordinary code must not be taken for it, so short words get one slip, long two.
fn near_kind(word: &str) -> Option<Kind> {
    let folded = word.to_lowercase();
    Kind::ALL.into_iter().find(|kind| {
        let allowed = if kind.word().len() > 6 { 2 } else { 1 };
        let distance = strsim::damerau_levenshtein(&folded, kind.word());
        distance <= allowed && folded.len() > 3
    })
}

fn block(lower: &mut Lower, kind: Kind, fence: &Fence) -> Option<Block> {
    let Document { node, broken } = read_yaml(&fence.text, &fence.map, &mut lower.findings);
    let broken = broken || !fence.closed;
    let head = Span {
        end: fence.info.span.start + first_word_length(&fence.info.value),
        ..fence.info.span
    };
    let what = kind.with_article();
    let fields = match kind {
        Kind::Recipe if is_based(&node) => recipe::FIELDS_BASED,
        _ => kind.fields(),
    };
    let mut keys = Keys::open(lower, what, head, &node, fields, COMMON, broken)?;
    let id_slot = keys.text("id");
    let title = keys.text("title");
    let (note, tags) = (keys.text("note"), keys.texts("tags"));
    let acknowledge = acknowledge(&mut keys);
    let expects = keys.texts("expects");
    let body = match kind {
        Kind::Ingredient => Body::Ingredient(Box::new(ingredient::lower(&mut keys))),
        Kind::Recipe => Body::Recipe(Box::new(recipe::lower(&mut keys))),
        Kind::Camera => Body::Camera(Box::new(camera::lower(&mut keys))),
        Kind::Paper => Body::Paper(Box::new(paper::lower(&mut keys))),
        Kind::Process => Body::Process(Box::new(process::lower(&mut keys))),
        Kind::Safelight => Body::Safelight(Box::new(safelight::lower(&mut keys))),
        Kind::Exposure => Body::Exposure(Box::new(exposure::lower(&mut keys))),
        Kind::Print => Body::Print(Box::new(exposure::lower_print(&mut keys))),
        Kind::Batch => Body::Batch(Box::new(session::lower_batch(&mut keys))),
        Kind::Session => Body::Session(Box::new(session::lower(&mut keys))),
    };
    let incomplete = keys.incomplete();
    let named = name(lower, kind, head, &id_slot, &title, &body, incomplete);
    let is_named = named.is_some();
    let id = named.unwrap_or_else(|| format!("{}@{}.{}", kind.word(), fence.span.file.0, fence.span.start));
    let title = title.get().cloned();
    Some(Block {
        id,
        id_span: id_slot.get().map(|id| id.span),
        title,
        note: note.get().cloned(),
        tags,
        acknowledge,
        expects,
        head,
        span: fence.span,
        page: fence.span.file,
        named: is_named,
        doubled: false,
        broken: incomplete,
        body,
    })
}

/// Whether a recipe says what it is based on, mistyped or not.
fn is_based(node: &Node) -> bool {
    let keys = recipe::FIELDS.iter().chain(COMMON).map(|field| field.key);
    node.entries().unwrap_or_default().iter().any(|entry| {
        entry.key.value == "based on" || nearest(&entry.key.value, keys.clone()) == Some("based on")
    })
}

fn first_word_length(info: &str) -> u32 {
    info.split_whitespace().next().map_or(0, str::len) as u32
}

fn acknowledge(
    keys: &mut Keys<'_, '_>,
) -> Vec<(crate::source::Spanned<String>, crate::source::Spanned<String>)> {
    let Some(node) = keys
        .has("acknowledge")
        .then(|| keys.node("acknowledge"))
        .flatten()
    else {
        return Vec::new();
    };
    let Some(entries) = node.entries() else {
        if node.kind == NodeKind::Broken {
            return Vec::new();
        }
        keys.lower.report(
            Finding::fault(
                rule::VALUE_SHAPE,
                node.span,
                "`acknowledge` wants rule names with the reason why",
            )
            .help("write one a line, such as `rinse-missing: the stop is only water`"),
        );
        return Vec::new();
    };
    let mut acknowledged = Vec::new();
    for entry in entries {
        if keys.lower.is_empty(entry, "the reason why") {
            continue;
        }
        if let Some(reason) = super::lower::text(keys.lower, &entry.value) {
            acknowledged.push((entry.key.clone(), reason));
        }
    }
    acknowledged
}

/// The block's id: as written, else from its title, its material, or its kind and date.
fn name(
    lower: &mut Lower,
    kind: Kind,
    head: Span,
    id: &Slot<crate::source::Spanned<String>>,
    title: &Slot<crate::source::Spanned<String>>,
    body: &Body,
    incomplete: bool,
) -> Option<String> {
    if let Some(id) = id.get() {
        let good = !id.value.is_empty()
            && id
                .value
                .chars()
                .all(|c| c.is_alphanumeric() || matches!(c, '-' | '_'));
        if good {
            return Some(id.value.clone());
        }
        let better = slug(&id.value);
        let mut finding = Finding::fault(
            rule::ID_MALFORMED,
            id.span,
            format!("`{}` cannot be an id", id.value),
        );
        finding = if better.is_empty() {
            finding.help("write letters, digits and hyphens")
        } else {
            finding
                .help(format!("write letters, digits and hyphens: `{better}`"))
                .replace(id.span, better.clone())
        };
        lower.report(finding);
        lower.misnamed.push(id.value.clone());
        return (!better.is_empty()).then_some(better);
    }
    let from_title = title
        .get()
        .map(|title| slug(&title.value))
        .filter(|slug| !slug.is_empty());
    let from_body = || match body {
        Body::Ingredient(ingredient) => ingredient.material.get().map(|name| slug(&name.value)),
        Body::Exposure(exposure) => dated(kind, &exposure.when),
        Body::Print(print) => dated(kind, &print.when),
        Body::Batch(batch) => dated(kind, &batch.made),
        Body::Session(session) => dated(kind, &session.when),
        _ => None,
    };
    let named = from_title.or_else(from_body).filter(|name| !name.is_empty());
    let quiet = incomplete || id.is_broken() || title.is_broken() || body_is_broken(body);
    if named.is_none() && !quiet {
        lower.report(
            Finding::fault(
                rule::ID_MISSING,
                head,
                format!("{} needs a name", kind.with_article()),
            )
            .help("add `title: ...`, or `id: ...` to refer to it"),
        );
    }
    named
}

/// Whether what a name would be made from is missing or broken, which has a finding of its own.
fn body_is_broken(body: &Body) -> bool {
    match body {
        Body::Ingredient(ingredient) => ingredient.material.get().is_none(),
        Body::Exposure(exposure) => exposure.when.get().is_none(),
        Body::Print(print) => print.when.get().is_none(),
        Body::Batch(batch) => batch.made.get().is_none(),
        Body::Session(session) => session.when.get().is_none(),
        _ => false,
    }
}

fn dated(kind: Kind, when: &Slot<crate::source::Spanned<super::When>>) -> Option<String> {
    when.get()
        .map(|when| format!("{}-{}", kind.word(), slug(&when.value.written)))
}

/// A reference meets a block of the right kind, or is reported.
fn resolve(notebook: &Notebook, reference: &Pending) -> Option<Finding> {
    let id = &reference.id;
    let Some(block) = notebook.block(&id.value) else {
        let (wanted, one) = match reference.kinds {
            [kind] => (kind.word(), format!("{} block", kind.with_article())),
            _ => ("block", "a block".to_owned()),
        };
        let finding = Finding::fault(
            rule::REFERENCE_UNKNOWN,
            id.span,
            format!("there is no {wanted} `{}`", id.value),
        );
        return match suggestion(notebook, id, reference.kinds) {
            None if notebook.lost_a_name(reference.kinds) => None,
            Some(near) => Some(
                finding
                    .help(format!("did you mean `{near}`?"))
                    .replace(id.span, near),
            ),
            None => Some(finding.help(format!("write the id of {one} of this notebook"))),
        };
    };
    let is_wanted = |block: &Block| reference.kinds.contains(&block.kind());
    // Where the name was taken twice, which is told already, the second block may be meant.
    let mut others = notebook.blocks.iter().filter(|block| block.id == id.value);
    if is_wanted(block) || others.any(is_wanted) {
        return None;
    }
    let wanted: Vec<&str> = reference.kinds.iter().map(|kind| kind.word()).collect();
    let message = format!(
        "`{}` is {}, a reference to {} is wanted here",
        id.value,
        block.kind().with_article(),
        list(&wanted)
    );
    let finding = Finding::fault(rule::REFERENCE_KIND, id.span, message)
        .relate(block.head, format!("`{}` is here", id.value));
    Some(match suggestion(notebook, id, reference.kinds) {
        Some(near) => finding
            .help(format!("did you mean `{near}`?"))
            .replace(id.span, near),
        None => finding,
    })
}

fn suggestion(notebook: &Notebook, id: &str, kinds: &[Kind]) -> Option<String> {
    let ids = notebook.ids().filter(|id| {
        notebook
            .block(id)
            .is_some_and(|block| kinds.contains(&block.kind()))
    });
    nearest(id, ids).map(str::to_owned)
}

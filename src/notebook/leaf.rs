//! One page by itself: its head, its text, and the blocks that stand in its fences.

use std::sync::Arc;

use crate::finding::{Finding, slug as rule};
use crate::source::{FileId, Span, Spanned};
use crate::syntax::{Document, Fence, Node, NodeKind, read_page, read_yaml};

use super::again::{Leaf, Rest};
use super::block_id;
use super::lower::{self, Keys, Lower};
use super::{
    Block, Body, COMMON, Kind, camera, exposure, fences, ingredient, nearest, page, paper, process, recipe,
    safelight, session,
};

/// One page by itself.
pub(super) fn read_leaf(file: FileId, path: &str, text: &Arc<str>, mut lower: Lower) -> Leaf {
    let page = read_page(file, text);
    let head = page::lower(&mut lower, path, &page);
    let mut blocks = Vec::new();
    for fence in &page.fences {
        for fence in fences::apart(fence, |word| meant(word).is_some()).iter() {
            if let Some(kind) = kind(&mut lower, fence) {
                blocks.extend(block(&mut lower, path, kind, fence));
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

fn block(lower: &mut Lower, path: &str, kind: Kind, fence: &Fence) -> Option<Block> {
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
    let named = block_id::name(lower, kind, head, &id_slot, &title, &body, incomplete);
    let is_named = named.is_some();
    let id = named.unwrap_or_else(|| format!("{}@{path}.{}", kind.word(), fence.span.start));
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

fn acknowledge(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<String>, Spanned<String>)> {
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
        if let Some(reason) = lower::text(keys.lower, &entry.value) {
            acknowledged.push((entry.key.clone(), reason));
        }
    }
    acknowledged
}

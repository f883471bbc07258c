//! From files to a notebook: settings first, then every page by itself, then what ties them together.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use rayon::prelude::*;

use crate::finding::{Finding, slug as rule};
use crate::pantry::Pantry;
use crate::source::{ByName, FileId, OffsetMap, Sources, Span};
use crate::syntax::read_yaml;

use super::again::{Before, Changes, Leaf, ReadBy, State};
use super::holes::Holes;
use super::leaf::read_leaf;
use super::lower::{Lower, Pending};
use super::resolve::resolve;
use super::settings::{self, Settings};
use super::slot::Slot;
use super::{KeptRecipes, Notebook, Packets, materials};

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
    let mut changes = Changes {
        all: !before.had(&settings),
        ..Changes::default()
    };
    let known = &mut before.leaves;
    let wanted: Vec<(FileId, Option<Leaf>)> = input
        .pages
        .iter()
        .map(|file| (*file, known.remove(file)))
        .collect();
    // Each page, whether it was read now, and then what an earlier notebook had by its number.
    let leaves: Vec<(Leaf, bool, Option<Leaf>)> = wanted
        .into_par_iter()
        .filter_map(|(file, leaf)| {
            let source = input.sources.get(file)?;
            match leaf {
                Some(leaf) if leaf.is_of(source.path(), source.text()) => Some((leaf, false, None)),
                before => Some((leaf_of(input, file, &by)?, true, before)),
            }
        })
        .collect();
    for gone in known.values() {
        changes.gone(gone.view());
    }
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
    for (leaf, is_read, before) in leaves {
        // A number that is free again may be given to another page.
        let (was, other) = match before {
            Some(before) if before.head.path != leaf.head.path => (None, Some(before)),
            before => (before, None),
        };
        if let Some(other) = other {
            changes.gone(other.view());
        }
        if is_read {
            changes.page(was.as_ref().map(Leaf::view), leaf.view());
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

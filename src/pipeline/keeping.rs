//! `kept/`: read with the notebook, and added to by a press.

use std::sync::Arc;

use rayon::prelude::*;

use crate::finding::Finding;
use crate::host::{Host, HostError, Listed, ListedKind};
use crate::notebook::{KEPT_BATCHES, KEPT_RECIPES, Notebook, Tie, ToKeep, is_kept, kept_hash};
use crate::source::{FileId, Intake};
use crate::views::file_name::safe;

use super::{Text, Unread, odd_thing, read_text};

/// The folder.
const KEPT: &str = "kept";
/// How much of an id stands in a file's name.
const ID: usize = 48;

/// What a press kept.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Keeping {
    /// For each batch: its id, its recipe's, and the file that ties them.
    pub batches: Vec<(String, String, String)>,
    /// Why something could not be kept.
    pub trouble: Option<String>,
}

/// Takes the files of `kept/` into the sources. Others in that folder are not read.
pub(super) fn read(
    host: &dyn Host,
    sources: &mut Intake<'_>,
    findings: &mut Vec<Finding>,
) -> Result<Vec<FileId>, HostError> {
    let listed = host.list_below(KEPT)?;
    let is_kept = |thing: &&Listed| is_kept(&thing.path) && matches!(thing.kind, ListedKind::File { .. });
    let texts: Vec<(&Listed, Result<Text, Unread>)> = listed
        .par_iter()
        .filter(is_kept)
        .map(|thing| (thing, read_text(host, thing, sources.before(&thing.path))))
        .collect();
    let mut kept = Vec::with_capacity(texts.len());
    for (thing, text) in texts {
        let held = text.as_ref().map(|text| Arc::clone(&text.text));
        let id = sources.add(thing.path.clone(), held.unwrap_or_default());
        match text {
            Ok(text) => {
                findings.extend(text.finding(id));
                kept.push(id);
            }
            Err(unread) => findings.push(unread.finding(id)),
        }
    }
    findings.extend(listed.iter().filter_map(|thing| odd_thing(thing, sources)));
    Ok(kept)
}

/// Keeps the recipes' texts of batches that have none yet.
pub(super) fn keep(host: &dyn Host, notebook: &Notebook) -> Keeping {
    let mut keeping = Keeping::default();
    for wanted in notebook.to_keep() {
        match keep_one(host, &wanted) {
            Ok(path) => keeping
                .batches
                .extend(path.map(|path| (wanted.batch, wanted.of, path))),
            Err(why) => {
                keeping.trouble = Some(why);
                break;
            }
        }
    }
    keeping
}

/// First the text, then what names it: what breaks off in between is done by the next press. None where both are there
/// already, which a finding tells of.
fn keep_one(host: &dyn Host, wanted: &ToKeep) -> Result<Option<String>, String> {
    let recipe = name(&[&wanted.of], &wanted.text.text);
    let tie = Tie {
        batch: wanted.batch.clone(),
        made: wanted.made.clone(),
        of: wanted.of.clone(),
        recipe,
        private: wanted.text.private,
    };
    let written = tie.written();
    let path = format!("{KEPT_BATCHES}/{}", name(&[&wanted.batch, &wanted.of], &written));
    let add = |path: &str, text: &str| {
        let added = host.add_file(path, text.as_bytes());
        added.map_err(|error| error.to_string())
    };
    let text_added = add(&format!("{KEPT_RECIPES}/{}", tie.recipe), &wanted.text.text)?;
    let tie_added = add(&path, &written)?;
    Ok((text_added || tie_added).then_some(path))
}

/// The name of a file: ids for people, and the hash of what stands in it.
fn name(ids: &[&str], text: &str) -> String {
    let short = |id: &&str| id.chars().take(ID).collect::<String>();
    let ids: Vec<String> = ids.iter().map(short).collect();
    safe(&format!("{}.{}.txt", ids.join("."), kept_hash(text)))
}

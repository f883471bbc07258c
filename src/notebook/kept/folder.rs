//! The files of `kept/` as they were found: which are sound, and which batch each speaks of.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use crate::finding::{Finding, Grade, slug as rule};
use crate::source::{FileId, Sources, Span};

use super::super::leaf::read_leaf;
use super::super::lower::Lower;
use super::super::{Block, Body, Kind, Notebook};
use super::tie::TieFile;
use super::{Earlier, KEPT_BATCHES, KEPT_RECIPES, KeptRecipes, RecipeText, Tie, differs, text};

/// Whether a path is that of a file as a press keeps it; others in the folder are not read.
pub fn is_kept(path: &str) -> bool {
    path.rsplit_once('/').is_some_and(|(folder, name)| {
        matches!(folder, KEPT_RECIPES | KEPT_BATCHES) && hash_in(name).is_some()
    })
}

/// The hash in the name of a kept file; none where it is no such file.
fn hash_in(name: &str) -> Option<&str> {
    let (_, hash) = name.strip_suffix(".txt")?.rsplit_once('.')?;
    (hash.len() == 16 && hash.bytes().all(|byte| byte.is_ascii_hexdigit())).then_some(hash)
}

/// A finding about a file of `kept/`.
fn broken(span: Span, message: String, help: &str) -> Finding {
    Finding::new(rule::KEPT_BROKEN, Grade::Doubt, span, message).help(help)
}

/// The files of `kept/`, as they were found.
pub(super) struct Folder<'n> {
    notebook: &'n Notebook,
    sources: &'n Sources,
    /// The texts that are as they were kept, by the names of their files.
    texts: BTreeMap<&'n str, FileId>,
    /// Texts that are there and of no use.
    spoilt: BTreeSet<&'n str>,
    ties: Vec<TieFile>,
    /// Batches whose tie is there and of no use.
    spoilt_ties: BTreeSet<String>,
    /// The recipes' texts as they are now.
    now: BTreeMap<&'n str, Option<RecipeText>>,
    /// Earlier texts that were read, by their file, by the recipe that they are compared with, and by whether they were private.
    read: BTreeMap<(FileId, &'n str, bool), Option<Arc<Earlier>>>,
}

impl<'n> Folder<'n> {
    /// Looks through the files.
    pub(super) fn of(
        notebook: &'n Notebook,
        sources: &'n Sources,
        files: &[FileId],
        findings: &mut Vec<Finding>,
    ) -> Self {
        let mut found = Self {
            notebook,
            sources,
            texts: BTreeMap::new(),
            spoilt: BTreeSet::new(),
            ties: Vec::new(),
            spoilt_ties: BTreeSet::new(),
            now: BTreeMap::new(),
            read: BTreeMap::new(),
        };
        for id in files {
            let Some(file) = sources.get(*id) else { continue };
            let Some((folder, name)) = file.path().rsplit_once('/') else {
                continue;
            };
            let sound = hash_in(name) == Some(&text::hash(file.text()));
            if folder == KEPT_RECIPES && sound {
                found.texts.insert(name, *id);
                continue;
            }
            if !sound {
                findings.push(broken(
                    Span::new(*id, 0, 0),
                    "this is not what was kept: it was changed since".to_owned(),
                    "bring the file back as it was, from a copy or another machine; or delete it, and press to keep the recipe \
                     as it is now",
                ));
            }
            if folder == KEPT_RECIPES {
                found.spoilt.insert(name);
                continue;
            }
            match Tie::read(*id, file) {
                Ok(tie) if sound => found.ties.push(tie),
                // Which batch it is of can still be told, mostly: nothing is kept for that anew.
                Ok(tie) => {
                    found.spoilt_ties.insert(tie.tie.batch);
                }
                Err(why) if sound => {
                    findings.push(broken(
                        Span::new(*id, 0, 0),
                        why.to_owned(),
                        "delete the file and press",
                    ));
                }
                Err(_) => {}
            }
        }
        found
    }

    /// Finds for each batch the text that it was mixed by.
    pub(super) fn assigned(mut self, findings: &mut Vec<Finding>) -> KeptRecipes {
        let mut kept = KeptRecipes::default();
        let notebook = self.notebook;
        let ties = std::mem::take(&mut self.ties);
        let by_batch = by(&ties, |tie| &tie.batch);
        let mut made: BTreeMap<&str, Vec<usize>> = by(&ties, |tie| &tie.made);
        // A batch that is still there keeps its own; and what may be there is not known to be gone.
        let (lost_batch, lost_recipe) = (
            notebook.lost_a_name(&[Kind::Batch]),
            notebook.lost_a_name(&[Kind::Recipe]),
        );
        let gone = |at: &usize| {
            let id = ties.get(*at).map_or("", |found| found.tie.batch.as_str());
            !lost_batch && notebook.batch(id).is_none()
        };
        for all in made.values_mut() {
            all.retain(gone);
        }
        for (block, batch) in notebook.mixed() {
            let Some(of) = batch.of.get() else { continue };
            let own = by_batch.get(block.id.as_str());
            let renamed = batch.made.get().and_then(|when| made.get(when.written.as_str()));
            let fits = [own, renamed].into_iter().find_map(|places| {
                let found: Vec<&TieFile> = places?.iter().filter_map(|at| ties.get(*at)).collect();
                of_recipe(notebook, found, &of.value, lost_recipe)
            });
            let Some(fits) = fits else {
                if self.spoilt_ties.contains(&block.id) {
                    kept.tied.insert(block.id.clone());
                }
                continue;
            };
            match self.text_of(&fits, &of.value, findings) {
                Found::Lost => continue,
                Found::Earlier(earlier) => {
                    kept.earlier.insert(block.id.clone(), earlier);
                }
                Found::AsNow => {}
            }
            kept.tied.insert(block.id.clone());
        }
        kept
    }

    /// The text of a batch's ties.
    fn text_of(&mut self, ties: &[&TieFile], of: &'n str, findings: &mut Vec<Finding>) -> Found {
        let Some((first, rest)) = ties.split_first() else {
            return Found::Lost;
        };
        if let Some(other) = rest.iter().find(|other| other.tie.recipe != first.tie.recipe) {
            findings.push(
                broken(
                    other.span,
                    format!("two texts are kept for the batch `{}`", other.tie.batch),
                    "delete the one of the two files by which it was not mixed",
                )
                .relate(first.span, "the other is named here"),
            );
            return Found::AsNow;
        }
        let (notebook, named) = (self.notebook, first.tie.recipe.as_str());
        let now = self.now.entry(of).or_insert_with(|| notebook.recipe_text(of));
        let as_now = now
            .as_ref()
            .is_some_and(|now| hash_in(named) == Some(&now.hash()));
        let (file, spoilt) = (self.texts.get(named).copied(), self.spoilt.contains(named));
        if as_now {
            return if file.is_some() || spoilt {
                Found::AsNow
            } else {
                Found::Lost
            };
        }
        let Some(file) = file else {
            if !spoilt {
                findings.push(broken(
                    first.span,
                    format!("the text `{named}` is not in {KEPT_RECIPES}"),
                    "bring it back from a copy or another machine; or delete this file, and press to keep the recipe as it \
                     is now",
                ));
            }
            return Found::AsNow;
        };
        let now = now.as_ref().map(|now| now.text.as_str());
        let key = (file, of, first.tie.private);
        if !self.read.contains_key(&key) {
            let read = read_earlier(notebook, self.sources, file, now, first.tie.private);
            if read.is_none() {
                findings.push(broken(
                    Span::new(file, 0, 0),
                    "this kept text cannot be read as a recipe any more".to_owned(),
                    "what was mixed by it is taken as mixed by the recipe as it is now",
                ));
            }
            self.read.insert(key, read);
        }
        let read = self.read.get(&key).cloned().flatten();
        read.map_or(Found::AsNow, Found::Earlier)
    }
}

/// What comes of looking for the text of a batch.
enum Found {
    /// The batch is taken as mixed by the recipe as it is now.
    AsNow,
    /// By another.
    Earlier(Arc<Earlier>),
    /// The text is as the recipe is now, and is to be kept again: its file is missing.
    Lost,
}

/// The places of ties by one of their values.
fn by<'t>(ties: &'t [TieFile], value: impl Fn(&'t Tie) -> &'t String) -> BTreeMap<&'t str, Vec<usize>> {
    let mut all: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (at, found) in ties.iter().enumerate() {
        all.entry(value(&found.tie)).or_default().push(at);
    }
    all
}

/// Those that speak of a recipe; else those that speak of one which has another name now.
fn of_recipe<'t>(
    notebook: &Notebook,
    ties: Vec<&'t TieFile>,
    of: &str,
    lost: bool,
) -> Option<Vec<&'t TieFile>> {
    let (own, other): (Vec<_>, Vec<_>) = ties.into_iter().partition(|found| found.tie.of == of);
    if !own.is_empty() {
        return Some(own);
    }
    let gone = |found: &&TieFile| !lost && notebook.recipe(&found.tie.of).is_none();
    let renamed: Vec<_> = other.into_iter().filter(gone).collect();
    (!renamed.is_empty()).then_some(renamed)
}

fn read_earlier(
    notebook: &Notebook,
    sources: &Sources,
    file: FileId,
    now: Option<&str>,
    private: bool,
) -> Option<Arc<Earlier>> {
    let source = sources.get(file)?;
    let (style, zone) = &notebook.read_by;
    let lower = Lower::new(*style, zone.clone());
    let leaf = read_leaf(file, source.path(), source.text(), lower);
    let is_recipe = |block: &Block| matches!(block.body, Body::Recipe(_));
    let blocks: Vec<Block> = leaf.blocks.into_iter().filter(is_recipe).collect();
    let earlier = Earlier {
        path: source.path().to_owned(),
        // Beside a recipe that cannot be read nothing differs that is known.
        differences: now.map_or_else(Vec::new, |now| differs::differences(source.text(), now)),
        private,
        blocks,
    };
    earlier.recipe()?;
    Some(Arc::new(earlier))
}

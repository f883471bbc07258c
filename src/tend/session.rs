//! Looks, and presses where there is reason to.

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::answers::{Answers, Noted, Noting};
use super::ready::Ready;
use crate::host::{Host, HostError, Listed, ListedKind};
use crate::pipeline::{self, File, Kept, Pressing, Progress, Proof};
use crate::views::pictures::PictureNeed;

/// Paths that are said to have changed. It is a hint that a file is to be read even where it looks the same; what nobody
/// named is found by its stamp.
pub type Named = BTreeSet<String>;

/// A press and what led to it.
#[derive(Debug)]
pub struct Round {
    /// The paths that differ from the last round, in order; none in the first.
    pub changed: Vec<String>,
    /// The notebook. Its findings are those of reading, computing and checking alone.
    pub proof: Arc<Proof>,
    /// What was pressed; its findings are those of pressing alone.
    pub pressing: Pressing,
    /// The files that were pressed, by their path in `pressed/`.
    pub files: Vec<File>,
    /// What was worked for it.
    pub worked: Worked,
}

/// What was worked in a round; all else was taken over from the one before.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Worked {
    /// Pages that were read.
    pub pages_read: usize,
    /// Blocks whose facts were computed.
    pub blocks_computed: usize,
    /// Files of the site that were rendered.
    pub files_rendered: usize,
}

/// Told of pages that are ready before all else is.
pub type First<'f> = dyn FnMut(&Proof, Vec<File>) + 'f;

/// Presses a notebook again and again.
///
/// What it guarantees: after [`Session::round`], `pressed/` holds the bytes that a press from scratch would put there.
/// Nothing at all is computed where no answer of the folder would differ: neither its list of files, nor the bytes of a file
/// that was read, nor whether a file is there that was asked for. Where one differs, pages are read again whose text does,
/// facts are computed again that such a page can reach, all rules look at everything, pages of the site are rendered again
/// where anything on them is another, pictures are made ready again where their bytes are, and only files whose bytes differ
/// are written.
pub struct Session<'h> {
    host: &'h dyn Host,
    answers: Answers,
    pictures: Ready,
    kept: Kept,
    /// The proof of the last round.
    last: Option<Arc<Proof>>,
    /// Whether there is work that was not done: the first round, or one that failed.
    owes: bool,
}

impl std::fmt::Debug for Session<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Session")
            .field("owes", &self.owes)
            .finish_non_exhaustive()
    }
}

impl<'h> Session<'h> {
    /// Nothing is pressed yet.
    pub fn new(host: &'h dyn Host) -> Self {
        Self {
            host,
            answers: Answers::default(),
            pictures: Ready::default(),
            kept: Kept::default(),
            last: None,
            owes: true,
        }
    }

    /// Whether another look is wanted even if nobody names a change: a press failed, or a file could not be read, as happens
    /// where a disk is slow or an editor is just replacing it.
    pub fn owes(&self) -> bool {
        self.owes || self.answers.read.values().any(|read| read.hash.is_none())
    }

    /// Looks at the folder and presses it, unless nothing changed since the last round. Fails where the folder cannot be
    /// looked at or written to; the next round then tries again.
    pub fn round(&mut self, named: &Named, progress: &dyn Progress) -> Result<Option<Round>, HostError> {
        self.round_with(named, progress, &mut |_, _| {})
    }

    /// As [`Session::round`] does, and tells `first` of the named pages as soon as they are rendered: before the rest of the
    /// folder is looked at, and before the rest of the site is pressed.
    pub fn round_with(
        &mut self,
        named: &Named,
        progress: &dyn Progress,
        first: &mut First<'_>,
    ) -> Result<Option<Round>, HostError> {
        let mut worked = Worked::default();
        let mut proved = None;
        let (looked_at, mut changed) = if self.owes {
            Default::default()
        } else {
            self.look_at(named)
        };
        if !changed.is_empty() {
            self.owes = true;
            let (proof, noted) = self.prove(&mut worked, progress)?;
            let pages = proof
                .sources
                .iter()
                .filter(|(_, file)| changed.contains(file.path()));
            let pages = pages.map(|(id, _)| id).collect();
            let pages = pipeline::pages_first(&proof, &pages, &mut self.kept);
            if !pages.is_empty() {
                first(&proof, pages);
            }
            proved = Some((proof, noted));
        }
        let more = self.look(named, &looked_at)?;
        if changed.is_empty() && more.is_empty() && !self.owes {
            return Ok(None);
        }
        self.owes = true;
        let (proof, noted) = match proved {
            Some(proved) if more.is_empty() => proved,
            proved => {
                self.last = proved.map(|(proof, _)| Arc::new(proof)).or(self.last.take());
                self.prove(&mut worked, progress)?
            }
        };
        changed.extend(more);
        let noting = Noting::new(self.host, &self.answers);
        let ready = |need: &PictureNeed| self.pictures.take(&noting, need);
        let pressed = pipeline::press_after(&noting, &proof, progress, &ready, &mut self.kept);
        let (noted_pressing, files) = noting.end();
        self.pictures.forget_unused();
        let proof = Arc::new(proof);
        self.last = Some(Arc::clone(&proof));
        let pressing = pressed?;
        self.answers.keep(noted.and(noted_pressing));
        self.owes = false;
        worked.files_rendered += pressing.rendered;
        Ok(Some(Round {
            changed: changed.into_iter().collect(),
            proof,
            pressing,
            files,
            worked,
        }))
    }

    /// Proofs the notebook as it was last looked at, after the proof before it where nobody else holds that.
    fn prove(&mut self, worked: &mut Worked, progress: &dyn Progress) -> Result<(Proof, Noted), HostError> {
        let before = self.last.take().and_then(Arc::into_inner);
        let noting = Noting::new(self.host, &self.answers);
        let proof = pipeline::proof_after(&noting, before, progress)?;
        worked.pages_read += proof.pages_read;
        worked.blocks_computed += proof.blocks_computed;
        Ok((proof, noting.end().0))
    }

    /// Brings the answers about named files up to date, where those were read before and are there; these files, and those of
    /// them that differ.
    fn look_at(&mut self, named: &Named) -> (BTreeSet<String>, BTreeSet<String>) {
        let (mut looked_at, mut changed) = (BTreeSet::new(), BTreeSet::new());
        for path in named {
            // One that is away, as it is while an editor replaces it, is for the look at everything.
            let read = self.answers.read.get_mut(path);
            let Some(read) = read.filter(|_| self.host.exists(path)) else {
                continue;
            };
            let (differs, bytes) = read.again(self.host, path);
            looked_at.insert(path.clone());
            if !differs {
                continue;
            }
            changed.insert(path.clone());
            let listed = self.answers.listed.as_mut();
            if let (Some(listed), Ok(bytes)) = (listed, bytes)
                && let Ok(at) = listed.binary_search_by(|thing| thing.path.as_str().cmp(path))
                && let Some(thing) = listed.get_mut(at)
            {
                thing.kind = ListedKind::File {
                    bytes: bytes.len() as u64,
                };
            }
        }
        (looked_at, changed)
    }

    /// Brings the answers up to date, but for those about files that were just looked at; the paths where one differs.
    fn look(&mut self, named: &Named, looked_at: &BTreeSet<String>) -> Result<BTreeSet<String>, HostError> {
        let host = self.host;
        let listed = host.list()?;
        let folders = self.answers.below.keys().cloned();
        let below = folders.map(|folder| Ok((host.list_below(&folder)?, folder)));
        let below: Vec<(Vec<Listed>, String)> = below.collect::<Result<_, HostError>>()?;
        let mut changed = BTreeSet::new();
        if let Some(before) = self.answers.listed.as_ref().filter(|before| **before != listed) {
            changed.extend(apart(before, &listed));
        }
        self.answers.listed = Some(listed);
        for (now, folder) in below {
            let before = self.answers.below.insert(folder, now.clone());
            changed.extend(apart(&before.unwrap_or_default(), &now));
        }
        let read_again: Vec<Option<String>> = self
            .answers
            .read
            .par_iter_mut()
            .map(|(path, read)| {
                if looked_at.contains(path) || !named.contains(path) && read.holds(host, path) {
                    return None;
                }
                let (differs, _) = read.again(host, path);
                differs.then(|| path.clone())
            })
            .collect();
        changed.extend(read_again.into_iter().flatten());
        let asked_again: Vec<Option<String>> = self
            .answers
            .there
            .par_iter_mut()
            .map(|(path, there)| {
                let now = host.exists(path);
                (std::mem::replace(there, now) != now).then(|| path.clone())
            })
            .collect();
        changed.extend(asked_again.into_iter().flatten());
        // What a failed press leaves owed must not hide what changed in between.
        if !changed.is_empty() {
            self.owes = true;
        }
        Ok(changed)
    }
}

/// The paths of what only one of two lists has, or has otherwise.
fn apart(before: &[Listed], now: &[Listed]) -> BTreeSet<String> {
    let told = |thing: &Listed| (thing.path.clone(), format!("{:?}", thing.kind));
    let before: BTreeSet<_> = before.iter().map(told).collect();
    let now: BTreeSet<_> = now.iter().map(told).collect();
    let differing = before.symmetric_difference(&now);
    differing.map(|(path, _)| path.clone()).collect()
}

//! Looks, and presses where there is reason to.

use std::collections::BTreeSet;

use rayon::prelude::*;

use super::answers::{Answers, Noting, Read};
use super::ready::Ready;
use crate::host::{Host, HostError};
use crate::pipeline::{self, Pressing, Progress, Proof};
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
    pub proof: Proof,
    /// What was pressed; its findings are those of pressing alone.
    pub pressing: Pressing,
    /// The files that were pressed, by their path in `pressed/`.
    pub files: Vec<(String, Vec<u8>)>,
}

/// Presses a notebook again and again.
///
/// What it guarantees: after [`Session::round`], `pressed/` holds the bytes that a press from scratch would put there.
/// Nothing at all is computed where no answer of the folder would differ: neither its list of files, nor the bytes of a file
/// that was read, nor whether a file is there that was asked for. Where one differs, the notebook is computed as a whole,
/// from files that are read again only where they changed; pictures are made ready again only where their bytes did, and
/// cards are set again only where what is on them did; and only files whose bytes differ are written.
pub struct Session<'h> {
    host: &'h dyn Host,
    answers: Answers,
    pictures: Ready,
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
        let changed = self.look(named)?;
        if changed.is_empty() && !self.owes {
            return Ok(None);
        }
        self.owes = true;
        let noting = Noting::new(self.host, &self.answers);
        let worked = pipeline::proof(&noting, progress).and_then(|proof| {
            let ready = |need: &PictureNeed| self.pictures.take(&noting, need);
            let pressing = pipeline::press_with(&noting, &proof, progress, &ready)?;
            Ok((proof, pressing))
        });
        let (answers, files) = noting.end();
        self.pictures.forget_unused();
        let (proof, pressing) = worked?;
        self.answers = answers;
        self.owes = false;
        Ok(Some(Round {
            changed: changed.into_iter().collect(),
            proof,
            pressing,
            files,
        }))
    }

    /// Brings the answers up to date; the paths where one differs.
    fn look(&mut self, named: &Named) -> Result<BTreeSet<String>, HostError> {
        let host = self.host;
        let listed = host.list()?;
        let mut changed = BTreeSet::new();
        if let Some(before) = &self.answers.listed {
            let before: BTreeSet<_> = before
                .iter()
                .map(|thing| (&thing.path, format!("{:?}", thing.kind)))
                .collect();
            let now: BTreeSet<_> = listed
                .iter()
                .map(|thing| (&thing.path, format!("{:?}", thing.kind)))
                .collect();
            changed.extend(before.symmetric_difference(&now).map(|(path, _)| (*path).clone()));
        }
        self.answers.listed = Some(listed);
        let read_again: Vec<Option<String>> = self
            .answers
            .read
            .par_iter_mut()
            .map(|(path, read)| {
                if !named.contains(path) && read.holds(host, path) {
                    return None;
                }
                let (now, _) = Read::now(host, path);
                let differs = now.hash != read.hash;
                *read = now;
                differs.then(|| path.clone())
            })
            .collect();
        changed.extend(read_again.into_iter().flatten());
        for (path, there) in &mut self.answers.there {
            let now = host.exists(path);
            if std::mem::replace(there, now) != now {
                changed.insert(path.clone());
            }
        }
        // What a failed press leaves owed must not hide what changed in between.
        if !changed.is_empty() {
            self.owes = true;
        }
        Ok(changed)
    }
}

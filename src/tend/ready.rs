//! Pictures that were made ready for the site and are so still: to scale a scan takes longer than to press a page.

use std::collections::BTreeMap;
use std::sync::{Mutex, MutexGuard, PoisonError};

use super::answers::Noting;
use crate::host::Bytes;
use crate::pipeline;
use crate::views::pictures::PictureNeed;

/// A picture made ready, or why it cannot be.
#[derive(Debug)]
struct Picture {
    /// The hash of the file that it was made from.
    from: u64,
    made: Result<Bytes, String>,
    used: bool,
}

/// Pictures by what is needed of them.
#[derive(Debug, Default)]
pub(super) struct Ready {
    pictures: Mutex<BTreeMap<PictureNeed, Picture>>,
}

impl Ready {
    /// The picture, made anew where its file is not the one that it was made from.
    pub(super) fn take(&self, host: &Noting<'_>, need: &PictureNeed) -> Result<Bytes, String> {
        if let Some(hash) = host.seen(&need.from)
            && let Some(picture) = self.lock().get_mut(need).filter(|picture| picture.from == hash)
        {
            picture.used = true;
            return picture.made.clone();
        }
        let made = pipeline::prepared(host, need);
        if let Some(from) = host.read_as(&need.from) {
            let picture = Picture {
                from,
                made: made.clone(),
                used: true,
            };
            self.lock().insert(need.clone(), picture);
        }
        made
    }

    /// Drops what no page showed since this was last called.
    pub(super) fn forget_unused(&self) {
        self.lock()
            .retain(|_, picture| std::mem::replace(&mut picture.used, false));
    }

    fn lock(&self) -> MutexGuard<'_, BTreeMap<PictureNeed, Picture>> {
        self.pictures.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

//! What a clock offers to name in the session: sheets that wait to be developed, batches that were not thrown away, lamps.

use std::collections::BTreeSet;

use crate::notebook::{Body, Process};

use super::block_view::Desk;
use super::clock_page::{Mixed, Named};

/// How many undeveloped sheets are offered, the latest first.
const OFFERED: usize = 12;

/// What every clock offers for the session.
pub(super) struct Offers<'a> {
    /// With the base of their paper, where it is known.
    sheets: Vec<(Option<&'a str>, Named)>,
    /// Lamps.
    pub(super) lamps: Vec<Named>,
    batches: Vec<Mixed>,
}

impl<'a> Offers<'a> {
    /// Goes through the notebook once.
    pub(super) fn of(desk: &Desk<'a>) -> Self {
        let mut developed = BTreeSet::new();
        for block in &desk.notebook.blocks {
            if let Body::Session(session) = &block.body {
                developed.extend(session.sheets.iter().map(|sheet| sheet.value.as_str()));
            }
        }
        let (mut sheets, mut lamps, mut batches) = (Vec::new(), Vec::new(), Vec::new());
        for block in &desk.notebook.blocks {
            if !block.named || block.doubled || !desk.places.is_open(&block.id) {
                continue;
            }
            let named = || Named {
                id: block.id.clone(),
                title: block.name().to_owned(),
            };
            let (when, paper) = match &block.body {
                Body::Exposure(exposure) => (exposure.when.get(), exposure.paper.get()),
                Body::Print(print) => (print.when.get(), print.paper.get()),
                Body::Batch(batch) => {
                    if let (Some(of), Some(made), true) =
                        (batch.of.get(), batch.made.get(), batch.discarded.is_absent())
                    {
                        let Named { id, title } = named();
                        let of = of.value.clone();
                        batches.push((made.value.instant(), Mixed { id, title, of }));
                    }
                    continue;
                }
                Body::Safelight(_) => {
                    lamps.push(named());
                    continue;
                }
                _ => continue,
            };
            if let Some(when) = when.filter(|_| !developed.contains(block.id.as_str())) {
                let paper = paper.and_then(|paper| desk.notebook.paper(&paper.value));
                let base = paper.and_then(|(_, paper)| paper.base.get());
                sheets.push((when.value.instant(), (base.map(|base| base.value), named())));
            }
        }
        sheets.sort_by_key(|(when, ..)| std::cmp::Reverse(*when));
        batches.sort_by_key(|(made, _)| std::cmp::Reverse(*made));
        Self {
            sheets: sheets.into_iter().map(|(_, sheet)| sheet).collect(),
            lamps,
            batches: batches.into_iter().map(|(_, batch)| batch).collect(),
        }
    }

    /// The sheets that may go through a line, the latest first: a line for one base takes no other.
    pub(super) fn sheets(&self, process: &Process) -> Vec<Named> {
        let line = process.paper.get().map(|base| base.value);
        let fits = |base: Option<&str>| base.is_none() || line.is_none() || base == line;
        let fitting = self.sheets.iter().filter(|(base, _)| fits(*base));
        fitting.take(OFFERED).map(|(_, sheet)| sheet.clone()).collect()
    }

    /// The batches of the baths of a line, the latest first.
    pub(super) fn batches(&self, process: &Process) -> Vec<Mixed> {
        let used = |batch: &&Mixed| {
            let mut baths = process.steps.iter().filter_map(|step| step.bath.get());
            baths.any(|bath| bath.value == batch.of)
        };
        self.batches.iter().filter(used).cloned().collect()
    }
}

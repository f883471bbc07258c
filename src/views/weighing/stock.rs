//! What the packets hold now, what the mix takes, and what is left.

use serde::Serialize;

use crate::facts::Dose;
use crate::scale::packets;
use crate::units::{Digits, Dimension, Range, show};

use super::rows::Seen;
use crate::views::words::Words;

/// A packet before and after.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Stock {
    /// The packet, or the material where there is none.
    pub material: String,
    /// What the mix takes.
    pub takes: String,
    /// What is in the packet; empty where that is not known.
    pub there: String,
    /// What is left afterwards; empty where that is not known.
    pub left: String,
    /// What is missing, where it does not suffice; worded.
    pub short: Option<String>,
}

/// The packets that the mix takes from, in order of the recipe. Nothing where the notebook has no shelf.
pub(super) fn of(seen: &Seen<'_>, uses: &[Use]) -> Vec<Stock> {
    if seen.weighing.shelf().packets().is_empty() {
        return Vec::new();
    }
    uses.iter().map(|used| stock(seen, used)).collect()
}

/// What the mix takes, packet by packet.
pub(super) fn uses(seen: &Seen<'_>) -> Vec<Use> {
    let mut used: Vec<Use> = Vec::new();
    for (index, dose) in seen.bath.doses.iter().enumerate() {
        let Some(this) = taken(seen, index, dose) else {
            continue;
        };
        let same = used
            .iter_mut()
            .find(|held| held.name == this.name && held.dimension == this.dimension);
        match same {
            Some(held) => held.takes = held.takes + this.takes,
            None => used.push(this),
        }
    }
    used
}

/// What is taken of one packet.
pub(in crate::views) struct Use {
    /// The packet, else the material.
    pub(in crate::views) name: String,
    /// The place of the first dose among the bath's that takes it.
    pub(in crate::views) dose: usize,
    /// How much, in the canonical unit.
    pub(in crate::views) takes: Range,
    /// What it is measured in.
    pub(in crate::views) dimension: Dimension,
    /// What the packet holds now, where that is comparable.
    pub(in crate::views) there: Option<Range>,
    /// Whether the shelf has it at all.
    shelved: bool,
}

/// What a dose takes of its packet, rounded as it is weighed.
fn taken(seen: &Seen<'_>, index: usize, dose: &Dose) -> Option<Use> {
    let shelf = seen.weighing.shelf();
    let (takes, dimension) = shelf.takes(dose, seen.bath.litres()?)?;
    let takes = match dimension {
        Dimension::Mass => seen
            .weighing
            .set(index)
            .map_or_else(|| takes.scale(seen.multiple), Range::exact),
        Dimension::Count => Range::exact((takes.best * seen.multiple).round().max(1.0)),
        _ => takes.scale(seen.multiple),
    };
    let packet = shelf.way(dose).packet();
    let there = packet.and_then(|packet| packet.there_in(dimension));
    Some(Use {
        name: packet.map_or_else(|| dose.name.value.clone(), |packet| packet.name.to_owned()),
        dose: index,
        takes,
        dimension,
        there,
        shelved: packet.is_some(),
    })
}

fn stock(seen: &Seen<'_>, used: &Use) -> Stock {
    let say = &seen.words.sheet;
    let text = |range: Range| match used.dimension {
        Dimension::Count => Words::fill(say.tablets, &range.best.to_string()),
        dimension => show(range, dimension, Digits::Significant(3), seen.style),
    };
    let mut stock = Stock {
        material: used.name.clone(),
        takes: text(used.takes),
        there: String::new(),
        left: String::new(),
        short: None,
    };
    if !used.shelved {
        stock.short = Some(say.not_on_shelf.to_owned());
        return stock;
    }
    let Some(there) = used.there else {
        return stock;
    };
    let after = packets::after(there, used.takes);
    stock.there = text(there);
    stock.left = text(after.left);
    stock.short = (after.missing.best > 0.0)
        .then(|| Words::fill(say.runs_short, &text(after.missing)))
        .or_else(|| (after.left.best <= 0.0).then(|| say.runs_out.to_owned()))
        .or_else(|| {
            let again = after.left.best < used.takes.best;
            again.then(|| say.not_again.to_owned())
        });
    stock
}

//! From a written name to a unit, and from a wrong name to the nearest right one.

use std::sync::LazyLock;

use super::table::{self, AMBIGUOUS, Ambiguous};
use super::{Dimension, Language, System, Unit};

/// What a name stands for.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Named {
    /// One unit.
    Unit(&'static Unit),
    /// Another unit in each system.
    Bare(&'static Ambiguous),
}

/// Every name, sorted; names shared by several dimensions stand beside each other in table order.
static INDEX: LazyLock<Vec<(&'static str, Named)>> = LazyLock::new(|| {
    let mut index = Vec::new();
    for unit in table::units() {
        let first = index.len();
        let own = [unit.symbol, unit.singular, unit.plural];
        let others = Language::ALL
            .into_iter()
            .flat_map(|language| [false, true].map(|plural| table::name_in(language, unit.symbol, plural)));
        let names = own.into_iter().chain(unit.names.iter().copied());
        for name in names.chain(others.flatten()) {
            let own: &[(&str, Named)] = index.get(first..).unwrap_or_default();
            let repeated = own.iter().any(|&(known, _)| known == name);
            if !name.is_empty() && !repeated {
                index.push((name, Named::Unit(unit)));
            }
        }
    }
    for bare in AMBIGUOUS {
        index.extend(bare.names.iter().map(|name| (*name, Named::Bare(bare))));
    }
    index.sort_by_key(|(name, _)| *name);
    index
});

/// Everything that `name` may stand for, in table order.
pub(crate) fn named(name: &str) -> &'static [(&'static str, Named)] {
    let index = &*INDEX;
    let start = index.partition_point(|(known, _)| *known < name);
    let rest = index.get(start..).unwrap_or_default();
    let length = rest.iter().take_while(|(known, _)| *known == name).count();
    rest.get(..length).unwrap_or_default()
}

/// The unit of a dimension with this name (symbol, singular, plural or variant); bare spoons as `system` has them.
pub fn unit_named(name: &str, dimension: Dimension, system: System) -> Option<&'static Unit> {
    named(name)
        .iter()
        .filter_map(|(_, named)| match named {
            Named::Unit(unit) => Some(*unit),
            Named::Bare(bare) => resolve(bare, system),
        })
        .find(|unit| unit.dimension == dimension)
}

/// The unit that a bare spoon or cup means in a system, if it means one.
pub(crate) fn resolve(bare: &Ambiguous, system: System) -> Option<&'static Unit> {
    let symbol = match system {
        System::Metric => bare.metric?,
        System::UsCustomary => bare.us,
    };
    named(symbol).iter().find_map(|(_, named)| match named {
        Named::Unit(unit) => Some(*unit),
        Named::Bare(_) => None,
    })
}

/// The nearest name of an accepted dimension, as it should be written, if one is near enough.
pub(crate) fn nearest(wrong: &str, accepts: &[Dimension]) -> Option<&'static str> {
    let length = wrong.chars().count();
    // One slip in a short word, one in three letters in a long one; a one-letter word is too short to guess from
    // unless only its case is wrong.
    let limit = (length / 3).max(1);
    let lower = wrong.to_lowercase();
    let letters = |word: &str| {
        let mut letters: Vec<char> = word.chars().collect();
        letters.sort_unstable();
        letters
    };
    let own_letters = letters(&lower);
    let mut best: Option<((usize, bool, usize), &'static str)> = None;
    for &(name, named) in INDEX.iter() {
        let (dimension, offer) = match named {
            // A misspelt long name is answered with the symbol unless the word itself is the symbol.
            Named::Unit(unit) => (unit.dimension, if unit.worded { name } else { unit.symbol }),
            Named::Bare(bare) => (Dimension::Volume, bare.names.first().copied().unwrap_or(name)),
        };
        if !accepts.is_empty() && !accepts.contains(&dimension) {
            continue;
        }
        let other_case = lower == name.to_lowercase();
        let distance = if other_case {
            0
        } else {
            strsim::damerau_levenshtein(&lower, &name.to_lowercase())
        };
        let name_length = name.chars().count();
        if !other_case && (distance > limit || distance * 2 > length.min(name_length)) {
            continue;
        }
        // Letters in the wrong order are the likelier slip.
        let rank = (
            distance,
            letters(&name.to_lowercase()) != own_letters,
            name_length.abs_diff(length),
        );
        if best.is_none_or(|(known, _)| rank < known) {
            best = Some((rank, offer));
        }
    }
    best.map(|(_, offer)| offer)
}

//! A figure with its spread, how well it is known, and where it comes from.

use std::fmt;

use crate::units::Range;

/// How a figure came to be known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Status {
    /// Fixed by definition, or counted from a formula.
    Defined,
    /// Measured by the notebook's author.
    Measured,
    /// Read in the source named beside it.
    Read,
    /// Computed from other figures.
    Derived,
    /// Common practice, no source.
    Practice,
    /// From memory, unverified.
    Memory,
    /// Guessed by the notebook's author.
    Guessed,
}

impl Status {
    /// Every status, best founded first.
    pub const ALL: [Self; 7] = [
        Self::Defined,
        Self::Measured,
        Self::Read,
        Self::Derived,
        Self::Practice,
        Self::Memory,
        Self::Guessed,
    ];

    /// The word by which data files and notebooks write it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Defined => "defined",
            Self::Measured => "measured",
            Self::Read => "read",
            Self::Derived => "derived",
            Self::Practice => "practice",
            Self::Memory => "memory",
            Self::Guessed => "guessed",
        }
    }

    /// The status that `word` names, if it names one.
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|status| status.word() == word)
    }
}

impl fmt::Display for Status {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

/// A value with its lowest and highest likely value, in the unit that its owner documents.
///
/// `low <= best <= high`, all finite; [`Figure::new`] is the only way to make one and refuses anything else.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    low: f64,
    best: f64,
    high: f64,
    status: Status,
    source: String,
}

impl Figure {
    /// A figure between `low` and `high`, known as `status` says from the bibliography's `source`.
    ///
    /// `None` if a bound is not finite or the three are out of order.
    pub fn new(low: f64, best: f64, high: f64, status: Status, source: impl Into<String>) -> Option<Self> {
        let ordered = low <= best && best <= high;
        (ordered && low.is_finite() && high.is_finite()).then(|| Self {
            low,
            best,
            high,
            status,
            source: source.into(),
        })
    }

    /// A figure without spread; `None` if it is not finite.
    pub fn exact(value: f64, status: Status, source: impl Into<String>) -> Option<Self> {
        Self::new(value, value, value, status, source)
    }

    /// The lowest likely value.
    pub fn low(&self) -> f64 {
        self.low
    }

    /// The most likely value.
    pub fn best(&self) -> f64 {
        self.best
    }

    /// The highest likely value.
    pub fn high(&self) -> f64 {
        self.high
    }

    /// Its three values.
    pub fn range(&self) -> Range {
        Range::new(self.low, self.best, self.high)
    }

    /// How it is known.
    pub fn status(&self) -> Status {
        self.status
    }

    /// The bibliography key of its source.
    pub fn source(&self) -> &str {
        &self.source
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn disordered_and_infinite_figures_are_refused() {
        assert!(Figure::new(1.0, 2.0, 3.0, Status::Read, "k").is_some());
        assert!(Figure::new(2.0, 1.0, 3.0, Status::Read, "k").is_none());
        assert!(Figure::new(1.0, 4.0, 3.0, Status::Read, "k").is_none());
        assert!(Figure::exact(f64::NAN, Status::Read, "k").is_none());
        assert!(Figure::exact(f64::INFINITY, Status::Read, "k").is_none());
    }

    #[test]
    fn every_status_is_named_by_its_word() {
        for status in Status::ALL {
            assert_eq!(Status::from_word(status.word()), Some(status));
        }
    }
}

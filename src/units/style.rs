//! How a notebook writes its numbers and which kitchen its spoons come from.

/// The decimal mark of a notebook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Decimal {
    /// `1.5`
    #[default]
    Point,
    /// `1,5`
    Comma,
}

impl Decimal {
    /// The mark itself.
    pub fn mark(self) -> char {
        match self {
            Self::Point => '.',
            Self::Comma => ',',
        }
    }

    /// The mark that is not used.
    pub fn other(self) -> char {
        match self {
            Self::Point => ',',
            Self::Comma => '.',
        }
    }
}

/// What a bare `tsp`, `cup` or `pint` means.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum System {
    /// Spoons of 5 ml and 15 ml, cups of 250 ml; a bare pint is ambiguous.
    #[default]
    Metric,
    /// US customary spoons, cups, pints and gallons.
    UsCustomary,
}

/// A notebook's habits of writing: metric with a decimal point unless it says otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Style {
    /// The decimal mark.
    pub decimal: Decimal,
    /// What bare spoons and cups mean.
    pub system: System,
}

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

/// A language that there are fixed words in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Language {
    /// English, the language that everything is written in first.
    #[default]
    English,
    /// German; a translation that nobody has reviewed.
    German,
}

impl Language {
    /// Every language, in the order in which they are offered.
    pub const ALL: [Self; 2] = [Self::English, Self::German];

    /// Its code by ISO 639-1.
    pub fn code(self) -> &'static str {
        match self {
            Self::English => "en",
            Self::German => "de",
        }
    }

    /// The language of a code, whatever country is written behind it: `de` and `de-AT` are one language.
    pub fn from_code(code: &str) -> Option<Self> {
        let (first, _) = code.split_once(['-', '_']).unwrap_or((code, ""));
        let same = |language: &Self| language.code().eq_ignore_ascii_case(first.trim());
        Self::ALL.into_iter().find(same)
    }
}

/// A notebook's habits of writing: metric with a decimal point, and in English, unless it says otherwise.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Style {
    /// The decimal mark.
    pub decimal: Decimal,
    /// What bare spoons and cups mean.
    pub system: System,
    /// The language of the units that are words.
    pub language: Language,
}

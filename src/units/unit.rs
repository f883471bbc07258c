//! One unit: its names, its dimension, its factor, and where the factor comes from.

use super::{Dimension, Range, Ratio, Style, System, table};

/// Where a factor comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum UnitSource {
    /// The unit is the canonical one, or a decimal multiple of it (SI Brochure, 9th edition, tables 7 and 8).
    SiBrochure,
    /// NIST Special Publication 811, 2008 edition, appendix B.8 (factors by name) and B.9 (by quantity).
    NistSp811,
    /// Follows from the definition of the quantity.
    Definition,
    /// Common practice; nothing published is followed.
    CommonPractice,
    /// Remembered by its author and not looked up.
    Memory,
}

impl UnitSource {
    /// The source as it is printed.
    pub fn text(self) -> &'static str {
        match self {
            Self::SiBrochure => "SI Brochure, 9th edition (BIPM, 2019)",
            Self::NistSp811 => "NIST Special Publication 811, 2008 edition, appendix B",
            Self::Definition => "follows from the definition",
            Self::CommonPractice => "common practice, no source",
            Self::Memory => "from memory, unverified",
        }
    }
}

/// Where a unit's symbol stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// After the number and a no-break space: `30 g`.
    Apart,
    /// After the number without a space: `45°`, `7″`.
    Close,
    /// Before the number and a no-break space: `EV 12.5`.
    Before,
    /// Before the number without a space: `f/216`.
    Against,
    /// Before the number, and `1+`: `1+9`.
    Dilution,
}

/// A unit of the table.
#[derive(Debug)]
pub struct Unit {
    /// As it is printed after a number.
    pub symbol: &'static str,
    /// Its name for one: `gram`.
    pub singular: &'static str,
    /// Its name for several: `grams`.
    pub plural: &'static str,
    /// Further names under which it is understood.
    pub names: &'static [&'static str],
    /// What it measures.
    pub dimension: Dimension,
    /// Canonical units in one of it: a value `v` is `(v + offset) × factor` canonical units.
    pub factor: Ratio,
    /// What is added before the factor; zero but for temperatures.
    pub offset: Ratio,
    /// Where the factor comes from.
    pub source: UnitSource,
    /// Where the symbol stands.
    pub place: Place,
    /// Whether the symbol is a word that changes with the number, as in `2 tablets`.
    pub worded: bool,
    /// The system of notebooks in which the part of the symbol before the first space may be left out.
    pub home: Option<System>,
}

/// Two units are the same if their rows are: symbols are unique within a dimension.
impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.dimension == other.dimension && self.symbol == other.symbol
    }
}

impl Eq for Unit {}

impl Unit {
    /// A row with a symbol that stands apart, no offset, and no home system.
    pub(crate) const fn row(
        symbol: &'static str,
        [singular, plural]: [&'static str; 2],
        names: &'static [&'static str],
        dimension: Dimension,
        factor: Ratio,
        source: UnitSource,
    ) -> Self {
        Self {
            symbol,
            singular,
            plural,
            names,
            dimension,
            factor,
            offset: Ratio::whole(0),
            source,
            place: Place::Apart,
            worded: false,
            home: None,
        }
    }

    pub(crate) const fn placed(mut self, place: Place) -> Self {
        self.place = place;
        self
    }

    pub(crate) const fn shifted(mut self, offset: Ratio) -> Self {
        self.offset = offset;
        self
    }

    pub(crate) const fn word(mut self) -> Self {
        self.worded = true;
        self
    }

    pub(crate) const fn at_home(mut self, system: System) -> Self {
        self.home = Some(system);
        self
    }

    /// A value in this unit, in the canonical unit of its dimension.
    pub fn to_canonical(&self, value: f64) -> f64 {
        if self.offset.is_zero() {
            self.factor.apply(value)
        } else {
            self.factor.apply(value + self.offset.to_f64())
        }
    }

    /// An exact value in this unit, in the canonical unit: the nearest double wherever the fraction can be held.
    pub(crate) fn exactly(&self, value: Ratio) -> f64 {
        value
            .checked_add(self.offset)
            .and_then(|shifted| shifted.checked_mul(self.factor))
            .map_or_else(|| self.to_canonical(value.to_f64()), Ratio::to_f64)
    }

    /// A value in the canonical unit of the dimension, in this unit.
    pub fn from_canonical(&self, value: f64) -> f64 {
        let scaled = self.factor.unapply(value);
        if self.offset.is_zero() {
            scaled
        } else {
            scaled - self.offset.to_f64()
        }
    }

    /// A range in the canonical unit, in this unit.
    pub fn range_from_canonical(&self, range: Range) -> Range {
        range.map_monotone(|value| self.from_canonical(value))
    }

    /// The symbol as a notebook of this style prints it: without `metric` or `US` where that goes without saying, and
    /// in the plural if it is a word and the number asks for it.
    pub fn label(&self, style: Style, plural: bool) -> &'static str {
        let full = match table::name_in(style.language, self.symbol, plural) {
            Some(name) => name,
            None if !self.worded => self.symbol,
            None if plural => self.plural,
            None => self.singular,
        };
        if self.home == Some(style.system) {
            full.split_once(' ').map_or(full, |(_, rest)| rest)
        } else {
            full
        }
    }
}

//! An amount as a person wrote it, beside what it comes to.

use super::rounding::{self, Digits};
use super::scalar::Scalar;
use super::show;
use super::{Dimension, Language, Range, Style, Unit};

/// How an amount was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Form {
    /// `24 g`
    Exact,
    /// `30–40 ml`
    Range,
    /// `20 ± 2 °C`
    PlusMinus,
    /// `1 1/2 tsp`
    Fraction,
    /// `1 h 30 min`, `5 ft 3 in`
    Compound,
}

/// How full a spoon is.
///
/// The factors are ranges on purpose: a spoon is not a measure until it has been weighed once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub enum Heap {
    /// Nothing said: taken as level.
    #[default]
    Plain,
    /// `level`: the spoon's own volume.
    Level,
    /// `rounded`: 1.1 to 1.3 times the volume (common practice, no source).
    Rounded,
    /// `heaped`: 1.25 to 1.5 times the volume (from memory, unverified).
    Heaped,
}

impl Heap {
    /// What the spoon's volume is multiplied by.
    pub fn factor(self) -> Range {
        match self {
            Self::Plain | Self::Level => Range::exact(1.0),
            Self::Rounded => Range::between(1.1, 1.3),
            Self::Heaped => Range::between(1.25, 1.5),
        }
    }

    /// The volume of level spoons behind that of these spoons.
    pub(crate) fn spoons(self, volume: Range) -> Range {
        let factor = self.factor();
        Range::new(
            volume.low / factor.low,
            volume.best / factor.best,
            volume.high / factor.high,
        )
    }

    /// Its word, with nothing for a plain spoon.
    pub fn word(self) -> &'static str {
        match self {
            Self::Plain => "",
            Self::Level => "level",
            Self::Rounded => "rounded",
            Self::Heaped => "heaped",
        }
    }

    /// Its word in a language.
    pub(crate) fn word_in(self, language: Language) -> &'static str {
        match (language, self) {
            (Language::English, _) | (_, Self::Plain) => self.word(),
            (Language::German, Self::Level) => "gestrichen",
            (Language::German, Self::Rounded) => "leicht gehäuft",
            (Language::German, Self::Heaped) => "gehäuft",
        }
    }
}

/// The text of an amount and what is remembered of its form.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Written {
    /// The text, without space round it.
    pub text: String,
    /// Digits after the decimal mark, the most of any number in it.
    pub decimals: u8,
    /// Significant digits, the most of any number in it.
    pub significant: u8,
    /// Its form.
    pub form: Form,
    /// Whether a plus sign was written.
    pub signed: bool,
}

/// A quantity with its range, its unit and its text.
#[derive(Debug, Clone, PartialEq)]
pub struct Amount {
    /// What it comes to, in the canonical unit of the dimension (see [`Dimension`]).
    pub range: Range,
    /// What it measures.
    pub dimension: Dimension,
    /// The unit it was written in.
    pub unit: &'static Unit,
    /// The text it was written as.
    pub written: Written,
    /// In `6 × 500 mg`, what each of them is. If the amount itself is a mass it is then the mass of all.
    pub each: Option<Box<Self>>,
    /// Whether `about` stood before it. The range is not widened by that.
    pub about: bool,
    /// How full the spoon was.
    pub heap: Heap,
}

impl Amount {
    /// The best value as a scalar, if that is of this amount's dimension.
    pub fn best<S: Scalar>(&self) -> Option<S> {
        (self.dimension == S::DIMENSION).then(|| S::from_canonical(self.range.best))
    }

    /// The lowest and highest value as scalars, if those are of this amount's dimension.
    pub fn ends<S: Scalar>(&self) -> Option<(S, S)> {
        (self.dimension == S::DIMENSION).then(|| {
            (
                S::from_canonical(self.range.low),
                S::from_canonical(self.range.high),
            )
        })
    }

    /// The amount in its own unit, with the digits that were written, in the typography of print.
    pub fn show(&self, style: Style) -> String {
        show::amount(self, style)
    }

    /// The amount times `factor`, a finite number above zero: in the same unit, or in its neighbour (`g` to `kg`,
    /// `l` to `ml`, seconds to minutes) where the number would grow unwieldy.
    ///
    /// It keeps the significant digits that were written, and three where fewer were: a third of `1000 ml` is
    /// `333 ml`. For a multiple (`6 × 500 mg`) the count changes, not what each is.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        if factor == 1.0 || !factor.is_finite() {
            return self.clone();
        }
        let range = self.range.scale(factor);
        let unit = show::neighbour(self.unit, range);
        let digits = Digits::Significant(self.written.significant.max(3));
        let in_unit = unit.range_from_canonical(self.heap.spoons(range));
        let needed = rounding::decimals_needed(in_unit, digits);
        let kept = if unit == self.unit {
            needed.max(
                self.written
                    .decimals
                    .min(rounding::decimals_allowed(in_unit, digits)),
            )
        } else {
            needed
        };
        let form = match self.written.form {
            // Minutes with a fraction are told in minutes and seconds.
            Form::Exact | Form::Range
                if self.dimension == Dimension::Time
                    && unit.symbol != "s"
                    && (in_unit.low.fract() != 0.0 || in_unit.high.fract() != 0.0) =>
            {
                Form::Compound
            }
            form => form,
        };
        let mut scaled = Self {
            range,
            dimension: self.dimension,
            unit,
            written: Written {
                text: String::new(),
                decimals: kept,
                significant: self.written.significant,
                form,
                signed: self.written.signed,
            },
            each: self.each.clone(),
            about: self.about,
            heap: self.heap,
        };
        scaled.written.text = scaled.show(Style::default());
        scaled
    }
}

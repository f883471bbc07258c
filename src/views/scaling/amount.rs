//! An amount as plain data: its numbers, its unit as a fraction, and how it was written.

use serde::Serialize;

use crate::units::{Amount, Dimension, Form, Place, Range, Style, Unit};

/// An amount.
#[derive(Debug, Clone, Serialize)]
pub(in crate::views) struct Plain {
    #[serde(skip)]
    amount: Amount,
    range: Range,
    unit: PlainUnit,
    /// Whether it is a mass, a volume, a number of things, or else.
    of: &'static str,
    decimals: u8,
    significant: u8,
    form: &'static str,
    signed: bool,
    about: bool,
    /// Level spoons in one of these, lowest, best, highest.
    heap: Range,
    heap_word: &'static str,
    each: Option<Each>,
}

/// What each of several is.
#[derive(Debug, Clone, Serialize)]
struct Each {
    best: f64,
    text: String,
}

/// A unit: `num / den` canonical units in one of it.
#[derive(Debug, Clone, Serialize)]
pub(in crate::views) struct PlainUnit {
    symbol: &'static str,
    /// For one, and for several.
    labels: [&'static str; 2],
    num: f64,
    den: f64,
    place: &'static str,
}

impl PlainUnit {
    pub(in crate::views) fn of(unit: &Unit, style: Style) -> Self {
        Self {
            symbol: unit.symbol,
            labels: [unit.label(style, false), unit.label(style, true)],
            num: unit.factor.numerator() as f64,
            den: unit.factor.denominator() as f64,
            place: match unit.place {
                Place::Apart => "apart",
                Place::Close => "close",
                Place::Before => "before",
                Place::Against | Place::Dilution => "against",
            },
        }
    }
}

impl Plain {
    /// So many times the amount, as it is read.
    pub(in crate::views) fn shown(&self, multiple: f64, style: Style) -> String {
        self.amount.scaled(multiple).show(style)
    }

    pub(in crate::views) fn of(amount: &Amount, style: Style) -> Self {
        Self {
            amount: amount.clone(),
            range: amount.range,
            unit: PlainUnit::of(amount.unit, style),
            of: match amount.dimension {
                Dimension::Mass => "mass",
                Dimension::Volume => "volume",
                Dimension::Count => "count",
                _ => "else",
            },
            decimals: amount.written.decimals,
            significant: amount.written.significant,
            form: match amount.written.form {
                Form::PlusMinus => "plusminus",
                Form::Fraction => "fraction",
                Form::Exact | Form::Range | Form::Compound => "plain",
            },
            signed: amount.written.signed,
            about: amount.about,
            heap: amount.heap.factor(),
            heap_word: amount.heap.word_in(style.language),
            each: amount.each.as_ref().map(|each| Each {
                best: each.range.best,
                text: each.show(style),
            }),
        }
    }
}

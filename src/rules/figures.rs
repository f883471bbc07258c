//! Figures as findings word them.

use crate::units::{self, Digits, Dimension, Range, Style, show};

/// Grams as text.
pub(super) fn grams(value: f64, style: Style) -> String {
    show(
        Range::exact(value),
        Dimension::Mass,
        Digits::Significant(3),
        style,
    )
}

/// A time of so many seconds as text: to the second below ten minutes, to the minute below two days.
pub(super) fn time(seconds: f64, style: Style) -> String {
    let digits = if seconds < 600.0 {
        Digits::Step(1.0)
    } else if seconds < 172_800.0 {
        Digits::Step(60.0)
    } else {
        Digits::Significant(2)
    };
    show(Range::exact(seconds), Dimension::Time, digits, style)
}

/// A volume of so many litres as text.
pub(super) fn volume(litres: f64, style: Style) -> String {
    show(
        Range::exact(litres),
        Dimension::Volume,
        Digits::Significant(3),
        style,
    )
}

/// A plain number as text.
pub(super) fn number(value: f64, digits: u8, style: Style) -> String {
    units::number(Range::exact(value), Digits::Significant(digits), style)
}

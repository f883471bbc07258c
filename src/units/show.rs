//! From numbers to text: the only place where an amount is rounded and written.
//!
//! A no-break space (U+00A0) stands between number and unit, a true minus (U+2212) before negative numbers, and an en
//! dash between the ends of a range. Halves round away from zero. The same number always gives the same text.

use std::fmt::Write as _;

use super::amount::{Amount, Form};
use super::rounding::{Digits, MINUS, fixed, rounded};
use super::show_time;
use super::table::{self, units};
use super::unit::Place;
use super::{Dimension, Language, Range, Style, Unit};

/// The space between a number and its unit.
pub(crate) const NO_BREAK: char = '\u{a0}';
/// What stands between the ends of a range.
const EN_DASH: char = '–';

/// A range of a dimension as text, in the unit that suits its size: `0.5 l` is `500 ml`, `5400 s` is `1 h 30 min`.
///
/// `range` is in the canonical unit. Both ends are printed only if they differ after rounding.
pub fn show(range: Range, dimension: Dimension, digits: Digits, style: Style) -> String {
    if dimension == Dimension::Time {
        return show_time::time(range, digits, style);
    }
    if dimension == Dimension::Share
        && matches!(digits, Digits::Significant(_))
        && let Some(text) = hardly_any(range, digits, style)
    {
        return text;
    }
    show_in(range, suited(dimension, range), digits, style)
}

/// A share of which less than a thousandth is computed: nobody could tell it from nothing, nor measure how much less it is.
fn hardly_any(range: Range, digits: Digits, style: Style) -> Option<String> {
    const LEAST: f64 = 0.001;
    if !(range.low >= 0.0 && range.low < LEAST && range.high > 0.0) {
        return None;
    }
    let percent = |share: f64| {
        let unit = suited(Dimension::Share, Range::exact(share));
        show_in(Range::exact(share), unit, digits, style)
    };
    let (under, up_to) = match style.language {
        Language::English => ("under", "up to"),
        Language::German => ("unter", "bis zu"),
    };
    Some(if range.high < LEAST {
        format!("{under} {}", percent(LEAST))
    } else {
        format!("{up_to} {}", percent(range.high))
    })
}

/// A range as text in a given unit of its dimension.
pub fn show_in(range: Range, unit: &Unit, digits: Digits, style: Style) -> String {
    let inside = unit.range_from_canonical(range);
    let digits = match digits {
        Digits::Step(step) => Digits::Step(unit.factor.unapply(step).abs()),
        other => other,
    };
    let fractions =
        matches!(digits, Digits::Step(_)) && matches!(unit.dimension, Dimension::Stops | Dimension::Count);
    let (text, plural) = numeral(inside, digits, fractions, style);
    placed(&text, unit, plural, style)
}

/// A plain number or range as text, without a unit.
pub fn number(range: Range, digits: Digits, style: Style) -> String {
    numeral(range, digits, false, style).0
}

/// The number alone, and whether a word after it stands in the plural.
fn numeral(range: Range, digits: Digits, fractions: bool, style: Style) -> (String, bool) {
    let one = |value: f64| {
        if fractions && let Some(text) = fraction(rounded(value, digits).0) {
            return text;
        }
        let (value, decimals) = rounded(value, digits);
        fixed(value, decimals, style)
    };
    let best = one(range.best);
    if range.is_exact() {
        let plural = is_plural(&best);
        return (best, plural);
    }
    let (mut low, high) = (one(range.low), one(range.high));
    if low == high {
        let plural = is_plural(&low);
        return (low, plural);
    }
    low.push(EN_DASH);
    low.push_str(&high);
    (low, true)
}

/// Whether a word after this number stands in the plural: not after one, nor after a fraction of one.
fn is_plural(numeral: &str) -> bool {
    let size = numeral.trim_start_matches([MINUS, '+']);
    let fraction_of_one = size.contains('/') && !size.contains(NO_BREAK);
    !(size == "1" || fraction_of_one)
}

/// A number with its unit at its place.
fn placed(numeral: &str, unit: &Unit, plural: bool, style: Style) -> String {
    let label = unit.label(style, plural);
    if label.is_empty() {
        return numeral.to_owned();
    }
    match unit.place {
        Place::Apart => format!("{numeral}{NO_BREAK}{label}"),
        Place::Close => format!("{numeral}{label}"),
        Place::Before => format!("{label}{NO_BREAK}{numeral}"),
        Place::Against | Place::Dilution => format!("{label}{numeral}"),
    }
}

/// The unit in which an amount of this size is best read.
pub(crate) fn suited(dimension: Dimension, range: Range) -> &'static Unit {
    let size = range.low.abs().max(range.high.abs());
    let small = |limit: f64| size < limit && size > 0.0;
    let symbol = match dimension {
        Dimension::Mass if small(0.1) => "mg",
        Dimension::Mass if size >= 1000.0 => "kg",
        Dimension::Mass => "g",
        Dimension::AmountOfSubstance if small(0.1) => "mmol",
        Dimension::AmountOfSubstance => "mol",
        Dimension::Volume if size < 1.0 => "ml",
        Dimension::Volume => "l",
        Dimension::Length if small(0.001) => "nm",
        Dimension::Length if small(0.01) => "µm",
        Dimension::Length if size >= 1000.0 => "m",
        Dimension::Length => "mm",
        Dimension::Area if size < 100.0 => "mm²",
        Dimension::Area if size < 1_000_000.0 => "cm²",
        Dimension::Area => "m²",
        Dimension::Time => "s",
        Dimension::Temperature | Dimension::TemperatureDifference => "°C",
        Dimension::Angle => "°",
        Dimension::MassConcentration if small(0.1) => "mg/l",
        Dimension::MassConcentration => "g/l",
        Dimension::MassFraction => "% w/w",
        Dimension::VolumeFraction => "% v/v",
        Dimension::Share => "%",
        Dimension::Molarity if small(0.01) => "mmol/l",
        Dimension::Molarity => "mol/l",
        Dimension::Molality if small(0.01) => "mmol/kg",
        Dimension::Molality => "mol/kg",
        Dimension::Dilution => "1+",
        Dimension::FNumber => "f/",
        Dimension::ExposureValue => "EV",
        Dimension::Illuminance => "lx",
        Dimension::LuminousExposure => "lx s",
        Dimension::Stops => "stop",
        Dimension::Speed => "EI",
        Dimension::ColourTemperature => "K",
        Dimension::Pressure => "atm",
        Dimension::Density => "g/ml",
        Dimension::MassPerArea => "g/m²",
        Dimension::VolumePerArea => "ml/m²",
        Dimension::PH => "pH",
        Dimension::Resolution => "dpi",
        Dimension::Count | Dimension::Number => "",
    };
    units()
        .find(|unit| unit.dimension == dimension && unit.symbol == symbol)
        .unwrap_or(table::NUMBER)
}

/// The unit to move to when an amount in `unit` has become `range`: its own unless the number is unwieldy.
pub(crate) fn neighbour(unit: &'static Unit, range: Range) -> &'static Unit {
    let size = range.low.abs().max(range.high.abs());
    let metric = match unit.dimension {
        Dimension::Mass => ["mg", "g", "kg"].contains(&unit.symbol),
        Dimension::Volume => ["ml", "cl", "dl", "l"].contains(&unit.symbol),
        Dimension::Time => ["s", "min", "h"].contains(&unit.symbol),
        _ => false,
    };
    if !metric || size == 0.0 {
        return unit;
    }
    match unit.dimension {
        Dimension::Mass if size < 0.1 => table::MILLIGRAM,
        Dimension::Mass if size >= 1000.0 => table::KILOGRAM,
        Dimension::Mass => table::GRAM,
        Dimension::Volume if size < 1.0 => table::MILLILITRE,
        Dimension::Volume => table::LITRE,
        Dimension::Time if size < 60.0 => table::SECOND,
        Dimension::Time if size < 120.0 && unit.symbol == "s" => table::SECOND,
        Dimension::Time if size < 3600.0 => table::MINUTE,
        Dimension::Time if size < 7200.0 && unit.symbol == "min" => table::MINUTE,
        Dimension::Time if size < 172_800.0 => table::HOUR,
        Dimension::Time => table::DAY,
        _ => unit,
    }
}

/// An amount as it was written, tidied.
pub(crate) fn amount(amount: &Amount, style: Style) -> String {
    let about = match (amount.about, style.language) {
        (false, _) => "",
        (true, Language::English) => "about ",
        (true, Language::German) => "etwa ",
    };
    if let Some(each) = &amount.each {
        return multiple(amount, each, about, style);
    }
    let unit = amount.unit;
    if amount.written.form == Form::Compound && amount.dimension == Dimension::Time {
        return format!(
            "{about}{}",
            show_time::time(amount.range, Digits::Step(1.0), style)
        );
    }
    let digits = Digits::Decimals(amount.written.decimals);
    let inside = unit.range_from_canonical(amount.heap.spoons(amount.range));
    let (mut text, plural) = match amount.written.form {
        Form::PlusMinus => {
            let mut text = fixed(inside.best, amount.written.decimals, style);
            let spread = fixed((inside.high - inside.low) / 2.0, amount.written.decimals, style);
            let _ = write!(text, "{NO_BREAK}±{NO_BREAK}{spread}");
            (text, true)
        }
        Form::Fraction => as_fractions(inside, amount.written.decimals, style),
        _ => numeral(inside, digits, false, style),
    };
    if amount.written.signed && inside.best > 0.0 {
        text.insert(0, '+');
    }
    let word = amount.heap.word_in(style.language);
    if !word.is_empty() {
        let _ = write!(text, "{NO_BREAK}{word}");
    }
    format!("{about}{}", placed(&text, unit, plural, style))
}

/// `6 × 500 mg tablets`, or `6 × 500 mg` where the amount is what all of them weigh.
fn multiple(whole: &Amount, each: &Amount, about: &str, style: Style) -> String {
    let counted = whole.dimension == Dimension::Count;
    let count = if counted {
        whole.range.best
    } else {
        whole.range.best / each.range.best
    };
    let (count, decimals) = rounded(count, Digits::Significant(3));
    let text = format!(
        "{about}{}{NO_BREAK}×{NO_BREAK}{}",
        fixed(count, decimals, style),
        amount(each, style)
    );
    let label = if counted {
        whole.unit.label(style, count != 1.0)
    } else {
        ""
    };
    if label.is_empty() {
        text
    } else {
        format!("{text} {label}")
    }
}

/// Kitchen fractions where the numbers are some, decimals otherwise.
fn as_fractions(range: Range, decimals: u8, style: Style) -> (String, bool) {
    let digits = Digits::Significant(decimals.max(3));
    let exact = |value: f64| fraction(value);
    match (exact(range.low), exact(range.high)) {
        (Some(low), Some(high)) if low == high => {
            let plural = is_plural(&low);
            (low, plural)
        }
        (Some(low), Some(high)) => (format!("{low}{EN_DASH}{high}"), true),
        _ => numeral(range, digits, false, style),
    }
}

/// `1 1/2`, for whole numbers, halves, thirds, quarters, fifths, sixths, eighths and shutter speeds `1/60`.
fn fraction(value: f64) -> Option<String> {
    const CLOSE: f64 = 1e-9;
    let size = value.abs();
    if !size.is_finite() || size >= 1e6 {
        return None;
    }
    let sign = if value < 0.0 { "−" } else { "" };
    for den in [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0] {
        let parts = (size * den).round();
        if (size * den - parts).abs() < CLOSE * parts.max(1.0) && (parts > 0.0 || size == 0.0) {
            let (whole, rest) = ((parts / den).floor(), parts % den);
            return Some(if rest == 0.0 {
                format!("{sign}{whole}")
            } else if whole == 0.0 {
                format!("{sign}{rest}/{den}")
            } else {
                format!("{sign}{whole}{NO_BREAK}{rest}/{den}")
            });
        }
    }
    let inverse = (1.0 / size).round();
    (size < 0.2 && (1.0 / size - inverse).abs() < 1e-6 && inverse <= 10_000.0)
        .then(|| format!("{sign}1/{inverse}"))
}

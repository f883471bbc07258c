//! A fact: a value or the reason why there is none, and where it comes from.

use std::borrow::Cow;

use crate::units::{Digits, Dimension, Range, Style, number, show, show_in, unit_named};

/// A computed value of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct Fact {
    /// Its short name, such as `pH` or `tea.duration`.
    pub name: Cow<'static, str>,
    /// What is measured: fixed for each name.
    pub measure: Measure,
    /// The value, or why there is none.
    pub value: Result<Value, String>,
    /// How it comes about, in words.
    pub formula: &'static str,
    /// What it was computed from.
    pub inputs: Vec<Input>,
    /// Where formula and constants come from; empty where it is plain arithmetic on what was written.
    pub sources: Vec<&'static str>,
}

/// Something a fact was computed from.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Input {
    /// What it is, such as `pinhole`; the full name where it is a fact, such as `oat-drum.f-number`.
    pub name: String,
    /// Its value, worded.
    pub value: String,
}

/// A value.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// A number, in the unit of the fact's measure.
    Number(Range),
    /// An instant, as RFC 3339 text.
    Instant(String),
    /// Yes or no.
    Flag(bool),
}

/// What a fact is measured in, and how it is rounded for reading. One for each fact name.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Measure {
    /// An amount of a dimension, in its canonical unit.
    Amount(Dimension, Digits),
    /// An amount whose best value is what counts: it stands first, its interval behind it.
    Estimate(Dimension, Digits),
    /// A plain number with its own unit text, such as `ml/l` or `sheets`.
    Plain(&'static str, Digits),
    /// An instant.
    Instant,
    /// Yes or no, with the two words.
    Flag(&'static str, &'static str),
}

impl Measure {
    /// The unit as text; `1` where there is none.
    pub fn unit(self) -> &'static str {
        match self {
            Self::Amount(dimension, _) | Self::Estimate(dimension, _) => canonical_unit(dimension),
            Self::Plain(unit, _) => unit,
            Self::Instant | Self::Flag(..) => "1",
        }
    }
}

/// The text of a dimension's canonical unit; `1` where it has none.
pub fn canonical_unit(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Mass => "g",
        Dimension::AmountOfSubstance => "mol",
        Dimension::Volume => "l",
        Dimension::Length => "mm",
        Dimension::Area => "mm2",
        Dimension::Time => "s",
        Dimension::Temperature => "degC",
        Dimension::TemperatureDifference | Dimension::ColourTemperature => "K",
        Dimension::Angle => "deg",
        Dimension::MassConcentration => "g/l",
        Dimension::Molarity => "mol/l",
        Dimension::Molality => "mol/kg",
        Dimension::ExposureValue => "EV",
        Dimension::Illuminance => "lx",
        Dimension::LuminousExposure => "lx s",
        Dimension::Stops => "stop",
        Dimension::Pressure => "atm",
        Dimension::Density => "g/ml",
        Dimension::MassPerArea => "g/m2",
        Dimension::VolumePerArea => "ml/m2",
        Dimension::PH => "pH",
        Dimension::Resolution => "dpi",
        Dimension::Count
        | Dimension::MassFraction
        | Dimension::VolumeFraction
        | Dimension::Share
        | Dimension::Dilution
        | Dimension::FNumber
        | Dimension::Speed
        | Dimension::Number => "1",
    }
}

impl Fact {
    /// A fact without inputs yet.
    pub fn new(name: impl Into<Cow<'static, str>>, measure: Measure, formula: &'static str) -> Self {
        Self {
            name: name.into(),
            measure,
            value: Err("not computed".to_owned()),
            formula,
            inputs: Vec::new(),
            sources: Vec::new(),
        }
    }

    /// With a number.
    #[must_use]
    pub fn number(mut self, range: Range) -> Self {
        self.value = if range.is_finite() {
            Ok(Value::Number(range))
        } else {
            Err("the result is no finite number".to_owned())
        };
        self
    }

    /// With a number, or the reason why there is none.
    #[must_use]
    pub fn result(self, range: Result<Range, String>) -> Self {
        match range {
            Ok(range) => self.number(range),
            Err(why) => self.gap(why),
        }
    }

    /// Without a value, and why.
    #[must_use]
    pub fn gap(mut self, why: impl Into<String>) -> Self {
        self.value = Err(why.into());
        self
    }

    /// With an instant.
    #[must_use]
    pub fn instant(mut self, rfc3339: impl Into<String>) -> Self {
        self.value = Ok(Value::Instant(rfc3339.into()));
        self
    }

    /// With yes or no.
    #[must_use]
    pub fn flag(mut self, flag: bool) -> Self {
        self.value = Ok(Value::Flag(flag));
        self
    }

    /// With something it was computed from.
    #[must_use]
    pub fn from(mut self, name: impl Into<String>, value: impl Into<String>) -> Self {
        self.inputs.push(Input {
            name: name.into(),
            value: value.into(),
        });
        self
    }

    /// With a source.
    #[must_use]
    pub fn source(mut self, source: &'static str) -> Self {
        self.sources.push(source);
        self
    }

    /// The number, if there is one.
    pub fn range(&self) -> Option<Range> {
        match &self.value {
            Ok(Value::Number(range)) => Some(*range),
            _ => None,
        }
    }

    /// The value as it is read, with its unit; a dash where there is none.
    pub fn text(&self, style: Style) -> String {
        match (&self.value, self.measure) {
            (Err(_), _) => "—".to_owned(),
            (Ok(Value::Number(range)), Measure::Amount(Dimension::Time, _)) => {
                show(countable(*range), Dimension::Time, Digits::Significant(4), style)
            }
            (Ok(Value::Number(range)), Measure::Amount(dimension, digits)) => {
                show(*range, dimension, digits, style)
            }
            (Ok(Value::Number(range)), Measure::Estimate(dimension, digits)) => {
                let best = show(Range::exact(range.best), dimension, digits, style);
                let whole = show(*range, dimension, digits, style);
                if best == whole {
                    best
                } else {
                    format!("{best} ({whole})")
                }
            }
            (Ok(Value::Number(range)), Measure::Plain(unit, digits)) => {
                // A thing that is counted has its name in every language.
                if let Some(unit) = unit_named(unit, Dimension::Count, style.system) {
                    return show_in(*range, unit, digits, style);
                }
                let text = number(*range, digits, style);
                if unit == "1" {
                    text
                } else {
                    format!("{text}\u{a0}{unit}")
                }
            }
            (Ok(Value::Number(range)), _) => number(*range, Digits::Significant(3), style),
            (Ok(Value::Instant(text)), _) => readable_instant(text),
            (Ok(Value::Flag(flag)), Measure::Flag(yes, no)) => if *flag { yes } else { no }.to_owned(),
            (Ok(Value::Flag(flag)), _) => if *flag { "yes" } else { "no" }.to_owned(),
        }
    }

    /// Where it comes from, in one line; for a gap the reason.
    pub fn how(&self) -> String {
        match &self.value {
            Ok(_) => self.formula.to_owned(),
            Err(why) => why.clone(),
        }
    }
}

/// Times rounded to what one can count beside a camera or a tray: tenths below ten seconds, seconds below a minute, then
/// five and ten seconds, half minutes and minutes. No step is more than a tenth of a stop.
pub fn countable(range: Range) -> Range {
    let round = |seconds: f64| {
        let step = match seconds.abs() {
            s if s < 10.0 => 0.1,
            s if s < 60.0 => 1.0,
            s if s < 300.0 => 5.0,
            s if s < 1800.0 => 10.0,
            s if s < 7200.0 => 30.0,
            s if s < 86_400.0 => 60.0,
            _ => 3600.0,
        };
        libm::round(seconds / step) * step
    };
    Range::new(round(range.low), round(range.best), round(range.high))
}

/// The bibliography keys that facts cite.
pub const CITED: &[&str] = &[
    "iso-517",
    "iso-2720",
    "iso-6846",
    "ansi-ph2-7",
    "schwarzschild-1900",
    "ansi-it2-26",
    "prohaska-2022",
    "mielenz-1999",
    "reda-2004",
    "pitzer-dat",
    "phreeqc-dat",
    "iupac-pka",
    "half-reactions",
];

/// `2031-05-02T19:30:00+02:00` as `2031-05-02 19:30`.
fn readable_instant(text: &str) -> String {
    match (text.get(..10), text.get(11..16)) {
        (Some(day), Some(clock)) => format!("{day} {clock}"),
        _ => text.to_owned(),
    }
}

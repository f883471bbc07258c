//! Axes: from values to a share of their length, and where the ticks stand.

use crate::units::{Digits, Dimension, Range, Style, number, show};

/// An axis as it is asked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Axis {
    /// What is measured along it.
    pub title: String,
    /// As what its values are read.
    pub measure: Measure,
    /// Whether steps or factors are of equal length.
    pub scale: Scale,
    /// Where the ticks stand.
    pub ticks: Ticks,
    /// From where to where it runs, where that is not left to the data.
    pub reach: Option<(f64, f64)>,
}

/// As what the values of an axis are read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Measure {
    /// Numbers with a unit after them; an empty one for plain numbers.
    Unit(String),
    /// pH, to one decimal.
    Ph,
    /// Seconds, told as times.
    Time,
}

/// How values lie along an axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Equal steps are of equal length.
    Linear,
    /// Equal factors are of equal length; values that are not above zero have no place.
    Log,
}

/// Where ticks stand.
#[derive(Debug, Clone, PartialEq)]
pub enum Ticks {
    /// At round numbers.
    Round,
    /// At those of these that lie on the axis, every second or third only where they would stand too close.
    Given(Vec<Tick>),
}

/// A tick with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Tick {
    /// Where it stands.
    pub at: f64,
    /// What stands beside it.
    pub label: String,
}

impl Axis {
    /// A linear axis with round ticks, as long as its data.
    pub fn linear(title: impl Into<String>, measure: Measure) -> Self {
        Self {
            title: title.into(),
            measure,
            scale: Scale::Linear,
            ticks: Ticks::Round,
            reach: None,
        }
    }

    /// A logarithmic axis with ticks at 1, 2, 5 and their tens, as long as its data.
    pub fn log(title: impl Into<String>, measure: Measure) -> Self {
        Self {
            scale: Scale::Log,
            ..Self::linear(title, measure)
        }
    }

    /// A logarithmic axis of seconds, its ticks at the times that photographers double.
    pub fn doubling_times(title: impl Into<String>, style: Style) -> Self {
        Self {
            scale: Scale::Log,
            ticks: Ticks::Given(clock_ticks(style)),
            ..Self::linear(title, Measure::Time)
        }
    }

    /// The title as it stands beside the axis.
    pub(super) fn heading(&self) -> String {
        match &self.measure {
            Measure::Unit(unit) if !unit.is_empty() => format!("{}, {unit}", self.title),
            _ => self.title.clone(),
        }
    }

    /// A value as it is read off the axis.
    pub(super) fn read(&self, value: f64, style: Style) -> String {
        let exact = Range::exact(value);
        match &self.measure {
            Measure::Unit(unit) => {
                let figure = number(exact, Digits::Significant(3), style);
                if unit.is_empty() {
                    figure
                } else {
                    format!("{figure}\u{a0}{unit}")
                }
            }
            Measure::Ph => show(exact, Dimension::PH, Digits::Decimals(1), style),
            Measure::Time => show(exact, Dimension::Time, Digits::Significant(2), style),
        }
    }
}

/// Times that double, as shutters and clocks have them: 1/8 s to 64 h, by way of 15 s, 30 s, 1 min and of 15 min, 30 min, 1 h.
pub fn clock_ticks(style: Style) -> Vec<Tick> {
    const PARTS: [(f64, &str); 3] = [(8.0, "1/8 s"), (4.0, "1/4 s"), (2.0, "1/2 s")];
    let parts = PARTS.into_iter().map(|(part, label)| Tick {
        at: 1.0 / part,
        label: label.replace(' ', "\u{a0}"),
    });
    let steps = [1.0, 2.0, 4.0, 8.0, 15.0, 30.0];
    let seconds = steps.into_iter();
    let minutes = steps.into_iter().map(|step| step * 60.0);
    let hours = [1.0, 2.0, 4.0, 8.0, 16.0, 32.0, 64.0]
        .into_iter()
        .map(|step| step * 3600.0);
    let whole = seconds.chain(minutes).chain(hours).map(|at| Tick {
        at,
        label: show(Range::exact(at), Dimension::Time, Digits::Significant(2), style),
    });
    parts.chain(whole).collect()
}

/// An axis that knows where it begins and ends.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Laid {
    scale: Scale,
    /// In the scale's own measure: the logarithm where it is one.
    low: f64,
    high: f64,
    /// The ticks on it, in order.
    pub(super) ticks: Vec<Tick>,
}

impl Laid {
    /// Lays an axis out for what is to be shown on it; `room` is the number of ticks that fit.
    ///
    /// None where no value has a place on it, or all that was asked for is no length at all.
    pub(super) fn of(axis: &Axis, values: &[f64], room: usize, style: Style) -> Option<Self> {
        let scale = axis.scale;
        let fixed = axis
            .reach
            .and_then(|(a, b)| Some((place(scale, a)?, place(scale, b)?)));
        let (low, high) = match fixed {
            Some((a, b)) => (a.min(b), a.max(b)),
            None => around(scale, values)?,
        };
        if !(high > low && (high - low).is_finite()) {
            return None;
        }
        let mut laid = Self {
            scale,
            low,
            high,
            ticks: Vec::new(),
        };
        laid.ticks = match &axis.ticks {
            Ticks::Round if scale == Scale::Log => laid.round_factors(room, style),
            Ticks::Round => {
                let step = round_step((high - low) / room.max(1) as f64);
                if fixed.is_none() {
                    // An axis that is left to its data begins and ends at a tick.
                    laid.low = libm::floor(low / step + 1e-9) * step;
                    laid.high = libm::ceil(high / step - 1e-9) * step;
                    // Rounded outwards, the largest numbers there are have no end.
                    if !(laid.high - laid.low).is_finite() {
                        return None;
                    }
                }
                laid.round_steps(step, style)
            }
            Ticks::Given(ticks) => laid.thinned(ticks, room),
        };
        Some(laid)
    }

    /// How far along the axis a value lies, 0 to 1 inside it; none where it has no place on this scale.
    pub(super) fn share(&self, value: f64) -> Option<f64> {
        let value = place(self.scale, value)?;
        Some((value - self.low) / (self.high - self.low))
    }

    /// Whether a value lies on the axis.
    pub(super) fn holds(&self, value: f64) -> bool {
        self.share(value)
            .is_some_and(|share| (-1e-9..=1.0 + 1e-9).contains(&share))
    }

    fn round_steps(&self, step: f64, style: Style) -> Vec<Tick> {
        let first = libm::ceil(self.low / step - 1e-9);
        let last = libm::floor(self.high / step + 1e-9);
        let count = (last - first) as usize;
        (0..=count)
            .map(|n| {
                let at = (first + n as f64) * step;
                Tick {
                    at,
                    label: number(Range::exact(at), Digits::Step(step), style),
                }
            })
            .collect()
    }

    fn round_factors(&self, room: usize, style: Style) -> Vec<Tick> {
        let (first, last) = (libm::floor(self.low) as i32, libm::ceil(self.high) as i32);
        let mut ticks = Vec::new();
        for power in first..=last {
            for lead in [1.0, 2.0, 5.0] {
                let at = lead * libm::pow(10.0, f64::from(power));
                ticks.push(Tick {
                    at,
                    label: number(Range::exact(at), Digits::Significant(1), style),
                });
            }
        }
        ticks.retain(|tick| self.holds(tick.at));
        if ticks.len() > room.max(2) {
            let tens: Vec<Tick> = ticks
                .iter()
                .filter(|tick| is_power_of_ten(tick.at))
                .cloned()
                .collect();
            if tens.len() >= 2 {
                return self.thinned(&tens, room);
            }
        }
        ticks
    }

    /// Every second or third, such that no more than `room` are left and each stands as far from the next as may be.
    fn thinned(&self, ticks: &[Tick], room: usize) -> Vec<Tick> {
        let inside: Vec<&Tick> = ticks.iter().filter(|tick| self.holds(tick.at)).collect();
        let each = inside.len().div_ceil(room.max(1)).max(1);
        inside.into_iter().step_by(each).cloned().collect()
    }
}

fn is_power_of_ten(value: f64) -> bool {
    let power = libm::log10(value);
    (power - libm::round(power)).abs() < 1e-9
}

/// A value in the measure of a scale.
fn place(scale: Scale, value: f64) -> Option<f64> {
    match scale {
        Scale::Linear => value.is_finite().then_some(value),
        Scale::Log => (value.is_finite() && value > 0.0).then(|| libm::log10(value)),
    }
}

/// The ends of an axis around its data, with some room where all data are one value.
fn around(scale: Scale, values: &[f64]) -> Option<(f64, f64)> {
    let measured = values.iter().filter_map(|&value| place(scale, value));
    let (low, high) = measured.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
        (low.min(value), high.max(value))
    });
    if low > high {
        return None;
    }
    if scale == Scale::Log {
        let room = ((high - low) * 0.04).max(0.05);
        return Some((low - room, high + room));
    }
    if high - low <= 1e-9 * low.abs().max(1.0) {
        let room = (low.abs() * 0.1).max(0.5);
        return Some((low - room, high + room));
    }
    Some((low, high))
}

/// The round step, 1, 2 or 5 times a power of ten, that is at least as long as `least`.
fn round_step(least: f64) -> f64 {
    let power = libm::pow(10.0, libm::floor(libm::log10(least)));
    [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|lead| lead * power)
        .find(|&step| step >= least * (1.0 - 1e-9))
        .unwrap_or(10.0 * power)
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn labels(laid: &Laid) -> Vec<&str> {
        laid.ticks.iter().map(|tick| tick.label.as_str()).collect()
    }

    #[test]
    fn steps_are_round() {
        let axis = Axis::linear("washing soda", Measure::Unit("g".to_owned()));
        let laid = Laid::of(&axis, &[0.0, 58.0], 6, Style::default()).expect("has a length");
        assert_eq!(labels(&laid), ["0", "10", "20", "30", "40", "50", "60"]);
        let laid = Laid::of(&axis, &[9.83, 10.41], 6, Style::default()).expect("has a length");
        assert_eq!(
            labels(&laid),
            ["9.8", "9.9", "10.0", "10.1", "10.2", "10.3", "10.4", "10.5"]
        );
    }

    #[test]
    fn times_double() {
        let axis = Axis::doubling_times("exposure", Style::default());
        let laid = Laid::of(&axis, &[0.9, 70.0], 12, Style::default()).expect("has a length");
        assert_eq!(
            labels(&laid).join(" ").replace('\u{a0}', " "),
            "1 s 2 s 4 s 8 s 15 s 30 s 1 min"
        );
        let step = laid.share(2.0).expect("on it") - laid.share(1.0).expect("on it");
        assert!((laid.share(8.0).expect("on it") - laid.share(4.0).expect("on it") - step).abs() < 1e-12);
        assert_eq!(laid.share(0.0), None);
    }

    #[test]
    fn many_decades_show_their_tens() {
        let laid = Laid::of(
            &Axis::log("light", Measure::Unit("lx".to_owned())),
            &[1.0, 1e5],
            6,
            Style::default(),
        )
        .expect("has a length");
        assert_eq!(labels(&laid), ["1", "10", "100", "1000", "10000", "100000"]);
        let laid = Laid::of(
            &Axis::log("light", Measure::Unit("lx".to_owned())),
            &[1.0, 30.0],
            6,
            Style::default(),
        )
        .expect("has a length");
        assert_eq!(labels(&laid), ["1", "2", "5", "10", "20"]);
    }

    #[test]
    fn nothing_has_no_axis() {
        assert_eq!(
            Laid::of(&Axis::linear("a", Measure::Ph), &[f64::NAN], 5, Style::default()),
            None
        );
        assert_eq!(
            Laid::of(&Axis::log("a", Measure::Ph), &[-1.0, 0.0], 5, Style::default()),
            None
        );
        assert!(Laid::of(&Axis::linear("a", Measure::Ph), &[3.0], 5, Style::default()).is_some());
    }

    proptest! {
        #[test]
        fn ticks_lie_on_the_axis_in_order(a in -1e6..1e6, width in 1e-6..1e6, room in 2_usize..12) {
            let laid = Laid::of(&Axis::linear("a", Measure::Ph), &[a, a + width], room, Style::default());
            if let Some(laid) = laid {
                prop_assert!(laid.ticks.len() <= room + 2);
                prop_assert!(laid.ticks.iter().all(|tick| laid.holds(tick.at)));
                prop_assert!(laid.ticks.windows(2).all(|pair| pair[0].at < pair[1].at));
                prop_assert!(laid.holds(a) && laid.holds(a + width));
            }
        }
    }
}

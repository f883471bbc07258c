//! Exposure values: from light meters and cameras' meters, and to the time that a camera needs.

use crate::units::Range;
use crate::units::scalar::{ExposureValue, FNumber, Illuminance, Speed, Stops, Time};

/// What a lux meter collects light with, which sets the constant `C` of the incident light equation.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Receptor {
    /// A hemisphere: `C` = 330, inside the range of ISO 2720:1974 (320 to 540 from memory, unverified).
    #[default]
    Hemispherical,
    /// A flat disc: `C` = 250, inside the range of ISO 2720:1974 (240 to 400 from memory, unverified).
    Flat,
    /// A constant that the meter's maker states.
    Constant(f64),
}

impl Receptor {
    /// The constant `C`, in lux seconds at speed 100 over f-number squared.
    pub fn constant(self) -> f64 {
        match self {
            Self::Hemispherical => 330.0,
            Self::Flat => 250.0,
            Self::Constant(c) => c,
        }
    }
}

/// The exposure value at speed 100 of incident light: `log2(100 E/C)`.
///
/// The meter stands at the subject and points at the camera. Light above zero; none gives minus infinity. Source: the
/// incident light equation `N²/t = E S/C` of ISO 2720:1974.
pub fn from_lux(light: Illuminance, receptor: Receptor) -> ExposureValue {
    ExposureValue::new(libm::log2(100.0 * light.lux() / receptor.constant()))
}

/// [`from_lux`] over a range of lux; nothing where the light may be zero.
pub fn from_lux_range(light: Range, receptor: Receptor) -> Option<Range> {
    (light.low > 0.0)
        .then(|| light.map_monotone(|lux| from_lux(Illuminance::from_lux(lux), receptor).value()))
}

/// The incident light that gives an exposure value at speed 100: `C/100 · 2^EV`. Source: ISO 2720:1974.
pub fn to_lux(value: ExposureValue, receptor: Receptor) -> Illuminance {
    Illuminance::from_lux(receptor.constant() / 100.0 * libm::exp2(value.value()))
}

/// `N²/t` at a speed for incident light, in 1/s: `E S/C`. Source: ISO 2720:1974.
pub fn f_number_squared_per_time(light: Illuminance, speed: Speed, receptor: Receptor) -> f64 {
    light.lux() * speed.index() / receptor.constant()
}

/// The luminance in cd/m² that a reflected light meter reads: `K N²/(t S)`.
///
/// `K` is 12.5 or 14 in common use, 10.6 to 13.4 in the standard. Source: ISO 2720:1974.
pub fn luminance(n: FNumber, time: Time, speed: Speed, k: f64) -> f64 {
    k * n.number() * n.number() / (time.seconds() * speed.index())
}

/// The exposure value at speed 100 that a meter's reading stands for: `log2(N²/t) - log2(S/100)`.
///
/// All three above zero. Source: the definition of the exposure value (ISO 2720:1974).
pub fn from_reading(time: Time, n: FNumber, speed: Speed) -> ExposureValue {
    let n2 = n.number() * n.number();
    ExposureValue::new(libm::log2(n2 / time.seconds()) - libm::log2(speed.index() / 100.0))
}

/// [`from_reading`] over ranges of seconds, f-number and speed; nothing where one of them may be zero.
pub fn from_reading_range(time: Range, n: Range, speed: Range) -> Option<Range> {
    if time.low <= 0.0 || n.low <= 0.0 || speed.low <= 0.0 {
        return None;
    }
    let at = |t, n, s| from_reading(Time::from_seconds(t), FNumber::new(n), Speed::new(s)).value();
    Some(Range::new(
        at(time.high, n.low, speed.high),
        at(time.best, n.best, speed.best),
        at(time.low, n.high, speed.low),
    ))
}

/// The exposure value of one light at another speed: `EV_S = EV100 + log2(S/100)`. Source: ISO 2720:1974.
pub fn at_speed(value: ExposureValue, speed: Speed) -> ExposureValue {
    value + Stops::new(libm::log2(speed.index() / 100.0))
}

/// The metered time, before reciprocity: `t = N² · 100/(S · 2^EV)`.
///
/// f-number and speed above zero. Source: the definition of the exposure value (ISO 2720:1974).
pub fn metered_time(value: ExposureValue, n: FNumber, speed: Speed) -> Time {
    let n2 = n.number() * n.number();
    Time::from_seconds(n2 * 100.0 / (speed.index() * libm::exp2(value.value())))
}

/// [`metered_time`] in seconds over ranges; nothing where f-number or speed may be zero.
pub fn metered_time_range(value: Range, n: Range, speed: Range) -> Option<Range> {
    if n.low <= 0.0 || speed.low <= 0.0 {
        return None;
    }
    let at = |ev, n, s| metered_time(ExposureValue::new(ev), FNumber::new(n), Speed::new(s)).seconds();
    Some(Range::new(
        at(value.high, n.low, speed.high),
        at(value.best, n.best, speed.best),
        at(value.low, n.high, speed.low),
    ))
}

/// A metered time with more light, or less where the stops are negative: `t · 2^s`. Source: own arithmetic.
pub fn more_light(time: Time, stops: Stops) -> Time {
    time * stops.factor()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_gives_back_its_own_time() {
        let (t, n, s) = (
            Time::from_seconds(1.0 / 60.0),
            FNumber::new(16.0),
            Speed::new(100.0),
        );
        let ev = from_reading(t, n, s);
        assert!((metered_time(ev, n, s).seconds() - t.seconds()).abs() < 1e-12);
        assert_eq!(at_speed(ev, Speed::new(200.0)) - ev, Stops::new(1.0));
    }

    #[test]
    fn lux_and_exposure_value_are_inverse() {
        for receptor in [Receptor::Hemispherical, Receptor::Flat, Receptor::Constant(300.0)] {
            let lux = to_lux(ExposureValue::new(12.5), receptor);
            assert!((from_lux(lux, receptor).value() - 12.5).abs() < 1e-12);
        }
        assert_eq!(from_lux_range(Range::between(0.0, 10.0), Receptor::Flat), None);
    }

    #[test]
    fn the_range_of_a_time_is_widest_at_its_corners() {
        let range = metered_time_range(
            Range::between(11.0, 12.0),
            Range::between(200.0, 220.0),
            Range::between(4.0, 8.0),
        )
        .unwrap();
        let corner =
            |ev, n, s| metered_time(ExposureValue::new(ev), FNumber::new(n), Speed::new(s)).seconds();
        assert_eq!(range.low, corner(12.0, 200.0, 8.0));
        assert_eq!(range.high, corner(11.0, 220.0, 4.0));
    }
}

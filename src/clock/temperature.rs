//! Development time against temperature.

use crate::units::Range;
use crate::units::scalar::{Temperature, Time};

/// The gas constant in J/(mol K), exact. Source: SI Brochure, 9th edition (2019), from the defining constants.
pub const GAS_CONSTANT: f64 = 8.314_462_618;

/// The temperature quotient of plant developers: 2.0 ± 0.5. Common practice, no source.
///
/// Homogeneous reactions in general double or treble their rate per 10 °C.
pub const PLANT_Q10: Range = Range {
    low: 1.5,
    best: 2.0,
    high: 2.5,
};

/// The temperatures in °C for which a computed time may be shown. Common practice, no source.
pub const TRUSTED: Range = Range {
    low: 15.0,
    best: 20.0,
    high: 30.0,
};

/// Whether a computed time may be trusted at a temperature, see [`TRUSTED`].
pub fn is_trusted(temperature: Temperature) -> bool {
    TRUSTED.contains(temperature.celsius())
}

/// The time at another temperature by the temperature quotient: `t = t_ref · Q10^((T_ref - T)/10)`.
///
/// Assumes one rate-determining reaction; valid where [`is_trusted`], `Q10` above 0. Source: the definition of `Q10`
/// after van 't Hoff (title not given: from memory, unverified).
pub fn q10_time(reference: Time, at: Temperature, temperature: Temperature, q10: f64) -> Time {
    reference * libm::pow(q10, (at - temperature).kelvin() / 10.0)
}

/// [`q10_time`] over ranges of seconds, °C and `Q10`; nothing where `Q10` may be zero.
///
/// The temperature at which the reference time holds is exact.
pub fn q10_time_range(reference: Range, at: Temperature, temperature: Range, q10: Range) -> Option<Range> {
    if q10.low <= 0.0 {
        return None;
    }
    let factor = |celsius: f64, q10: f64| libm::pow(q10, (at.celsius() - celsius) / 10.0);
    let corners = [
        factor(temperature.low, q10.low),
        factor(temperature.low, q10.high),
        factor(temperature.high, q10.low),
        factor(temperature.high, q10.high),
    ];
    let best = factor(temperature.best, q10.best);
    let low = corners.into_iter().fold(best, f64::min);
    let high = corners.into_iter().fold(best, f64::max);
    Some(reference * Range::new(low, best, high))
}

/// The time at another temperature by Arrhenius: `t = t_ref · exp(Ea/R · (1/T - 1/T_ref))`.
///
/// `activation` is the activation energy in J/mol. Assumes one rate-determining reaction; temperatures above absolute
/// zero. Source: Arrhenius equation, IUPAC Gold Book (A00446).
pub fn arrhenius_time(reference: Time, at: Temperature, temperature: Temperature, activation: f64) -> Time {
    let step = 1.0 / temperature.kelvin() - 1.0 / at.kelvin();
    reference * libm::exp(activation / GAS_CONSTANT * step)
}

/// The activation energy in J/mol that equals a temperature quotient between 20 and 30 °C.
///
/// `Ea = R ln Q10 / (1/293.15 - 1/303.15)`; `Q10` above 0. Source: own derivation from the Arrhenius equation.
pub fn activation_of_q10(q10: f64) -> f64 {
    GAS_CONSTANT * libm::log(q10) / (1.0 / 293.15 - 1.0 / 303.15)
}

/// The temperature quotient that equals an activation energy in J/mol between 20 and 30 °C.
///
/// The inverse of [`activation_of_q10`]. Source: own derivation from the Arrhenius equation.
pub fn q10_of_activation(activation: f64) -> f64 {
    libm::exp(activation / GAS_CONSTANT * (1.0 / 293.15 - 1.0 / 303.15))
}

/// The temperature quotient of two times that gave the same density: `(t1/t2)^(10/(T2 - T1))`.
///
/// Nothing where the temperatures are the same or a time is not above zero. Source: the definition of `Q10`.
pub fn q10_from_two(first: (Time, Temperature), second: (Time, Temperature)) -> Option<f64> {
    let step = (second.1 - first.1).kelvin();
    let positive = first.0 > Time::ZERO && second.0 > Time::ZERO;
    (positive && step != 0.0).then(|| libm::pow(first.0 / second.0, 10.0 / step))
}

#[cfg(test)]
mod tests {
    use super::*;

    const C20: Temperature = Temperature::from_celsius(20.0);

    #[test]
    fn two_points_give_back_their_quotient() {
        let t = Time::from_seconds(180.0);
        let warm = Temperature::from_celsius(26.0);
        let faster = q10_time(t, C20, warm, 2.3);
        assert!((q10_from_two((t, C20), (faster, warm)).unwrap() - 2.3).abs() < 1e-12);
        assert_eq!(q10_from_two((t, C20), (t, C20)), None);
    }

    #[test]
    fn the_two_laws_meet_at_thirty_degrees() {
        let t = Time::from_seconds(180.0);
        let warm = Temperature::from_celsius(30.0);
        let a = q10_time(t, C20, warm, 2.0);
        let b = arrhenius_time(t, C20, warm, activation_of_q10(2.0));
        assert!((a / b - 1.0).abs() < 1e-9);
        assert!((q10_of_activation(activation_of_q10(2.7)) - 2.7).abs() < 1e-12);
    }

    #[test]
    fn an_uncertain_quotient_does_not_matter_at_the_reference() {
        let t = Range::exact(180.0);
        let same = q10_time_range(t, C20, Range::exact(20.0), PLANT_Q10).unwrap();
        assert_eq!(same, t);
        let around = q10_time_range(t, C20, Range::between(18.0, 24.0), PLANT_Q10).unwrap();
        assert!(around.contains(180.0) && around.low < 180.0 && around.high > 180.0);
        assert_eq!(q10_time_range(t, C20, t, Range::ZERO), None);
    }
}

//! What a black body sends out, as the eye and a band of the spectrum weigh it.

use crate::units::scalar::{ColourTemperature, Length};

/// The second radiation constant `hc/k`, in nm K. Source: CODATA 2018, 1.438 776 877e-2 m K.
const SECOND_CONSTANT: f64 = 1.438_776_877e7;

/// Where [`EYE`] begins, and its step, in nm.
const FIRST: f64 = 380.0;
/// See [`FIRST`].
const STEP: f64 = 10.0;

/// The luminous efficiency of the eye in daylight, from 380 nm in steps of 10 nm.
///
/// Source: CIE 1924 V(λ), from memory, unverified; what follows of it is compared with values that a colour library
/// computed from its own table, in the tests of [`super::colour`].
const EYE: [f64; 41] = [
    0.000_039, 0.000_12, 0.000_396, 0.001_21, 0.004, 0.011_6, 0.023, 0.038, 0.06, 0.090_98, 0.139_02,
    0.208_02, 0.323, 0.503, 0.71, 0.862, 0.954, 0.994_95, 0.995, 0.952, 0.87, 0.757, 0.631, 0.503, 0.381,
    0.265, 0.175, 0.107, 0.061, 0.032, 0.017, 0.008_21, 0.004_102, 0.002_091, 0.001_047, 0.000_52, 0.000_249,
    0.000_12, 0.000_06, 0.000_03, 0.000_015,
];

/// What a band from 380 nm up to some wavelength gets for what the eye sees, as a ratio without a unit of its own: only
/// ratios of two temperatures mean something.
///
/// Integrals over Planck's law, the band with flat sensitivity by trapezoids of 10 nm. Temperatures above zero, `until` from
/// 390 to 780 nm. Source: Planck's law; own computation.
pub(super) fn band_for_light(until: Length, colour: ColourTemperature) -> f64 {
    let kelvin = colour.kelvin();
    let last = ((until.nanometres() - FIRST) / STEP) as usize;
    let (mut band, mut light) = (0.0, 0.0);
    for (at, eye) in EYE.iter().enumerate() {
        let nanometres = FIRST + STEP * at as f64;
        // Relative to 560 nm, so that nothing grows too large or too small.
        let sent = libm::pow(560.0 / nanometres, 5.0) / libm::expm1(SECOND_CONSTANT / (nanometres * kelvin))
            * libm::exp(SECOND_CONSTANT / (560.0 * kelvin));
        light += eye * sent;
        band += match at {
            at if at > last => 0.0,
            at if at == 0 || at == last => sent / 2.0,
            _ => sent,
        };
    }
    band / light
}

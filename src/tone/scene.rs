//! From the densities of a negative back to the light of the scene.

use super::curve::Curve;

/// The scene's light, relative to the light that gave the highest density that is still read: `10^(log H(D) - log H(Dtop))`.
///
/// Densities are held between the toe and the shoulder of the curve, where it can be read back; nothing where the curve has no
/// toe or shoulder. A paper negative is darkest where the scene was brightest. Source: own derivation, the inverse of the curve.
pub fn relative_light(curve: Curve, density: f64) -> Option<f64> {
    let (toe, shoulder) = (curve.toe()?, curve.shoulder()?);
    let log_h = curve
        .log_exposure(density)
        .unwrap_or(if density >= curve.dmax { shoulder } else { toe });
    Some(libm::exp10(log_h.clamp(toe, shoulder) - shoulder))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stop_of_light_comes_back_as_a_stop() {
        let curve = Curve {
            dmin: 0.1,
            dmax: 1.9,
            k: 3.5,
            x0: 0.2,
        };
        let at = |log_h: f64| relative_light(curve, curve.density(log_h)).unwrap();
        assert!((at(0.4) / at(0.4 - libm::log10(2.0)) - 2.0).abs() < 1e-9);
        assert_eq!(relative_light(curve, 5.0), Some(1.0));
        assert_eq!(
            relative_light(curve, -1.0),
            relative_light(curve, curve.dmin + 0.04)
        );
    }
}

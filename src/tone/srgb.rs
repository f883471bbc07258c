//! The transfer function of sRGB.

/// Encoded 0 to 1 to linear light 0 to 1: below 0.04045 `v/12.92`, else `((v + 0.055)/1.055)^2.4`.
///
/// Source: IEC 61966-2-1:1999.
pub fn to_linear(encoded: f64) -> f64 {
    if encoded <= 0.040_45 {
        encoded / 12.92
    } else {
        libm::pow((encoded + 0.055) / 1.055, 2.4)
    }
}

/// Linear light 0 to 1 to encoded 0 to 1, the inverse of [`to_linear`].
///
/// Source: IEC 61966-2-1:1999.
pub fn to_encoded(linear: f64) -> f64 {
    if linear <= 0.003_130_8 {
        linear * 12.92
    } else {
        1.055 * libm::pow(linear, 1.0 / 2.4) - 0.055
    }
}

/// Linear light of a level from 0 to 255.
pub fn level_to_linear(level: f64) -> f64 {
    to_linear(level / 255.0)
}

/// The level from 0 to 255, unrounded, of linear light.
pub fn linear_to_level(linear: f64) -> f64 {
    to_encoded(linear) * 255.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn levels_survive_the_way_there_and_back() {
        for level in 0..=255 {
            let level = f64::from(level);
            assert!(
                (linear_to_level(level_to_linear(level)) - level).abs() < 1e-2,
                "{level}"
            );
        }
        assert_eq!(to_linear(0.0), 0.0);
        assert_eq!(to_linear(1.0), 1.0);
    }
}

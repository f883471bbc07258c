//! What warm or cold light costs paper that sees no red.

use crate::units::scalar::{ColourTemperature, Stops};

/// What a paper sees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sees {
    /// Blue only, 380 to 490 nm.
    Blue,
    /// Blue and blue-green, 380 to 520 nm.
    BlueGreen,
    /// Green too, 380 to 560 nm: variable contrast.
    GreenToo,
}

impl Sees {
    /// Every word, in the order above.
    pub const WORDS: &'static [&'static str] = &[
        Self::Blue.words(),
        Self::BlueGreen.words(),
        Self::GreenToo.words(),
    ];

    /// The words that a notebook uses.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Blue => "blue",
            Self::BlueGreen => "blue-green",
            Self::GreenToo => "green too",
        }
    }

    /// What a paper sees, from its words.
    pub fn from_words(words: &str) -> Option<Self> {
        [Self::Blue, Self::BlueGreen, Self::GreenToo]
            .into_iter()
            .find(|sees| sees.words() == words)
    }
}

/// Extra stops at equal lux against 5500 K: kelvin, then what [`Sees`] lists.
///
/// Source: own computation for black bodies and a sensitivity that is flat in its band, with the CIE 1924 luminous
/// efficiency function.
pub const TABLE: [(f64, [f64; 3]); 9] = [
    (2000.0, [3.1, 2.5, 1.8]),
    (2700.0, [1.9, 1.6, 1.1]),
    (2856.0, [1.7, 1.4, 1.0]),
    (3200.0, [1.3, 1.1, 0.8]),
    (4000.0, [0.7, 0.6, 0.5]),
    (5500.0, [0.0, 0.0, 0.0]),
    (6500.0, [-0.3, -0.2, -0.2]),
    (7500.0, [-0.5, -0.4, -0.3]),
    (10000.0, [-0.8, -0.7, -0.6]),
];

/// How far off the table is for white LEDs, which are no black bodies: half a stop either way. Source: own estimate.
pub const LED_UNCERTAINTY: Stops = Stops::new(0.5);

/// The extra stops at equal lux that a paper needs in light of some colour against daylight of 5500 K.
///
/// Interpolates [`TABLE`] in mireds, `10⁶/T`. Nothing outside 2000 to 10 000 K.
pub fn correction(sees: Sees, colour: ColourTemperature) -> Option<Stops> {
    let column = match sees {
        Sees::Blue => 0,
        Sees::BlueGreen => 1,
        Sees::GreenToo => 2,
    };
    let kelvin = colour.kelvin();
    TABLE.windows(2).find_map(|pair| match pair {
        [(k0, low), (k1, high)] if *k0 <= kelvin && kelvin <= *k1 => {
            let (a, b) = (low.get(column)?, high.get(column)?);
            let share = (1e6 / kelvin - 1e6 / k0) / (1e6 / k1 - 1e6 / k0);
            Some(Stops::new(a + share * (b - a)))
        }
        _ => None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn warm_light_costs_more() {
        let at = |kelvin| correction(Sees::Blue, ColourTemperature::from_kelvin(kelvin));
        for (kelvin, [blue, ..]) in TABLE {
            assert!((at(kelvin).unwrap().stops() - blue).abs() < 1e-9);
        }
        assert!(at(3000.0) > at(3100.0));
        assert_eq!(at(1500.0), None);
        assert_eq!(Sees::from_words("green too"), Some(Sees::GreenToo));
    }
}

//! How tall the capitals of a card are, by how far away it is read. The template finds the type size: it knows the font.

use serde::Serialize;

use crate::scale::print::{LEAST, TEXT, TIMES, character_height};
use crate::units::scalar::{Angle, Length};

/// A card that is held, or lies beside the scale, is nearer than one on the wall: two thirds of the way. Common practice,
/// no source.
const IN_HAND: f64 = 2.0 / 3.0;

/// Heights of capitals, mm.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub(super) struct CapHeights {
    /// Times and temperatures, on the wall: never smaller.
    pub(super) times: f64,
    /// Words on the wall, as they should be.
    pub(super) wall: f64,
    /// Words on the wall: never smaller.
    pub(super) wall_least: f64,
    /// Amounts and steps in the hand, as they should be.
    pub(super) hand: f64,
    /// Amounts, steps and small print: never smaller.
    pub(super) hand_least: f64,
}

impl CapHeights {
    /// The heights for a card on a wall so far away.
    pub(super) fn at(distance_mm: f64) -> Self {
        let height = |share: f64, angle: Angle| {
            character_height(Length::from_millimetres(distance_mm * share), angle).millimetres()
        };
        Self {
            times: height(1.0, TIMES),
            wall: height(1.0, TEXT),
            wall_least: height(1.0, LEAST),
            hand: height(IN_HAND, TEXT),
            hand_least: height(IN_HAND, LEAST),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arm_s_length_asks_for_these_heights() {
        // ASR A6, section 6.1.3, after DIN EN ISO 9241-303: from 600/155 to 600/110 mm at 600 mm, 3.9 to 5.5.
        let heights = CapHeights::at(600.0);
        assert!((3.8..5.5).contains(&heights.wall), "{heights:?}");
        assert!((3.8..5.5).contains(&heights.times), "{heights:?}");
        // By hand: 2 · 600 · tan(8 minutes) = 2.793 mm.
        assert!((heights.wall_least - 2.793).abs() < 0.001, "{heights:?}");
    }
}

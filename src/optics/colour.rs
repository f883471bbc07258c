//! What warm or cold light costs paper that sees no red.

use crate::units::Range;
use crate::units::scalar::{ColourTemperature, Length, Stops};

use super::planck;

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

    /// All of them, the narrowest band first.
    pub const ALL: [Self; 3] = [Self::Blue, Self::BlueGreen, Self::GreenToo];

    /// The long end of the band; all begin at 380 nm.
    const fn until(self) -> Length {
        Length::from_nanometres(match self {
            Self::Blue => 490.0,
            Self::BlueGreen => 520.0,
            Self::GreenToo => 560.0,
        })
    }

    /// What a paper sees, from its words.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sees| sees.words() == words)
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

/// How far off black bodies are for light that comes of none, such as white LEDs: half a stop either way. Source: own
/// estimate.
pub const NO_BLACK_BODY: Stops = Stops::new(0.5);

/// Below this colour a light is taken for a lamp, and lamps are seldom black bodies. Common practice, no source.
const LAMPLIGHT: f64 = 5000.0;

/// Colours that light for a picture can have, in kelvin: from a glow that hardly shows to the bluest sky. Common practice, no
/// source.
pub const COLOURS: [f64; 2] = [1000.0, 40_000.0];

/// The extra stops at equal lux that a paper needs in light of some colour against daylight of 5500 K.
///
/// Interpolates [`TABLE`] in mireds, `10⁶/T`; beyond its ends Planck's law carries it on, as the table itself was computed.
/// Nothing outside [`COLOURS`].
pub fn correction(sees: Sees, colour: ColourTemperature) -> Option<Stops> {
    let column = match sees {
        Sees::Blue => 0,
        Sees::BlueGreen => 1,
        Sees::GreenToo => 2,
    };
    let kelvin = colour.kelvin();
    let [lowest, highest] = COLOURS;
    if !(lowest..=highest).contains(&kelvin) {
        return None;
    }
    let within = TABLE.windows(2).find_map(|pair| match pair {
        [(k0, low), (k1, high)] if *k0 <= kelvin && kelvin <= *k1 => {
            let (a, b) = (low.get(column)?, high.get(column)?);
            let share = (1e6 / kelvin - 1e6 / k0) / (1e6 / k1 - 1e6 / k0);
            Some(Stops::new(a + share * (b - a)))
        }
        _ => None,
    });
    within.or_else(|| {
        let (first, last) = (TABLE.first()?, TABLE.last()?);
        let (end, row) = if kelvin < first.0 { first } else { last };
        let end = ColourTemperature::from_kelvin(*end);
        let got = |colour| planck::band_for_light(sees.until(), colour);
        Some(Stops::new(*row.get(column)?) + Stops::from_factor(got(end) / got(colour)))
    })
}

/// [`correction`] over a range of kelvin, as stops. Where `sees` is not known the range holds every paper, and the middle
/// one is the best guess.
///
/// Light of lamps, and bluer than the table, is widened by [`NO_BLACK_BODY`]. Nothing where an end is outside [`COLOURS`].
pub fn correction_range(sees: Option<Sees>, kelvin: Range) -> Option<Range> {
    let of = |sees: Sees| {
        let at = |kelvin: f64| correction(sees, ColourTemperature::from_kelvin(kelvin)).map(Stops::stops);
        // Bluer light costs less.
        Some(Range::new(at(kelvin.high)?, at(kelvin.best)?, at(kelvin.low)?))
    };
    let range = if let Some(sees) = sees {
        of(sees)?
    } else {
        let middle = of(Sees::BlueGreen)?;
        let [narrow, wide] = [of(Sees::Blue)?, of(Sees::GreenToo)?];
        Range::new(
            middle.low.min(narrow.low).min(wide.low),
            middle.best,
            middle.high.max(narrow.high).max(wide.high),
        )
    };
    let bluest = TABLE.last().map_or(0.0, |(bluest, _)| *bluest);
    let spread = if (LAMPLIGHT..=bluest).contains(&kelvin.best) {
        0.0
    } else {
        NO_BLACK_BODY.stops()
    };
    Some(range + Range::plus_minus(0.0, spread))
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
        assert_eq!(at(999.0), None);
        assert_eq!(at(40_001.0), None);
        assert_eq!(Sees::from_words("green too"), Some(Sees::GreenToo));
    }
    // The rows are of another program (colour-science 0.4.7, with its own table of CIE 1924 V(λ)), printed to a tenth.
    #[test]
    fn plancks_law_gives_the_rows_of_the_table() {
        let daylight = ColourTemperature::from_kelvin(5500.0);
        for (kelvin, row) in TABLE {
            for (sees, wanted) in Sees::ALL.into_iter().zip(row) {
                let got = |colour| planck::band_for_light(sees.until(), colour);
                let stops = libm::log2(got(daylight) / got(ColourTemperature::from_kelvin(kelvin)));
                assert!((stops - wanted).abs() < 0.07, "{kelvin} {sees:?}: {stops}");
            }
        }
    }

    #[test]
    fn nothing_jumps_at_the_ends_of_the_table() {
        for sees in Sees::ALL {
            let at = |kelvin| {
                correction(sees, ColourTemperature::from_kelvin(kelvin))
                    .unwrap()
                    .stops()
            };
            assert!((at(1999.0) - at(2000.0)).abs() < 0.01);
            assert!((at(10_001.0) - at(10_000.0)).abs() < 0.001);
            let mut before = f64::INFINITY;
            for kelvin in (1000..40_000).step_by(100) {
                assert!(at(f64::from(kelvin)) < before, "{kelvin}");
                before = at(f64::from(kelvin));
            }
        }
    }

    #[test]
    fn paper_that_does_not_say_what_it_sees_may_be_any() {
        let range = correction_range(None, Range::exact(2700.0)).unwrap();
        assert_eq!(range, Range::new(1.1 - 0.5, 1.6, 1.9 + 0.5));
        assert_eq!(
            correction_range(None, Range::exact(5500.0)),
            Some(Range::exact(0.0))
        );
        assert_eq!(correction_range(None, Range::between(900.0, 1100.0)), None);
    }
}

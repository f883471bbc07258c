//! What light a scene has, from its words.

use crate::units::Range;
use crate::units::scalar::{ExposureValue, Stops};

/// How sure a single value of the table is: half of its one-stop steps. Common practice, no source.
const HALF_STEP: f64 = 0.5;

/// A scene of the exposure table.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SceneLight {
    /// Snow or sand in full sun.
    SnowInSun,
    /// A typical scene in full sun.
    Sun,
    /// Hazy sun with soft shadows.
    HazySun,
    /// Bright cloud, no shadows.
    CloudyBright,
    /// Heavy overcast.
    HeavyOvercast,
    /// Open shade in clear weather.
    OpenShade,
    /// Just before sunset.
    BeforeSunset,
    /// At sunset.
    AtSunset,
    /// Just after sunset.
    AfterSunset,
    /// A gallery.
    Gallery,
    /// An office.
    Office,
    /// A room at home.
    HomeInterior,
    /// A lit street at night.
    NightStreet,
}

impl SceneLight {
    /// All scenes, brightest kinds of daylight first.
    pub const ALL: [Self; 13] = [
        Self::SnowInSun,
        Self::Sun,
        Self::HazySun,
        Self::CloudyBright,
        Self::HeavyOvercast,
        Self::OpenShade,
        Self::BeforeSunset,
        Self::AtSunset,
        Self::AfterSunset,
        Self::Gallery,
        Self::Office,
        Self::HomeInterior,
        Self::NightStreet,
    ];

    /// The words that a notebook uses.
    pub const fn words(self) -> &'static str {
        match self {
            Self::SnowInSun => "snow in sun",
            Self::Sun => "sun",
            Self::HazySun => "hazy sun",
            Self::CloudyBright => "cloudy bright",
            Self::HeavyOvercast => "heavy overcast",
            Self::OpenShade => "open shade",
            Self::BeforeSunset => "before sunset",
            Self::AtSunset => "at sunset",
            Self::AfterSunset => "after sunset",
            Self::Gallery => "gallery",
            Self::Office => "office",
            Self::HomeInterior => "home interior",
            Self::NightStreet => "night street",
        }
    }

    /// The scene of some words, exactly as [`SceneLight::words`] gives them.
    pub fn from_words(words: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|scene| scene.words() == words)
    }

    /// The exposure value at speed 100, as a range.
    ///
    /// Values hold from about two hours after sunrise to two before sunset, front lit. Where the table has one value
    /// the range is half a step of the table around it. Source: exposure guides of ANSI PH2.7-1986, as tabulated
    /// elsewhere; the standard itself was not read.
    pub fn exposure_value(self) -> Range {
        match self {
            Self::SnowInSun => around(16.0),
            Self::Sun => around(15.0),
            Self::HazySun => around(14.0),
            Self::CloudyBright => around(13.0),
            Self::HeavyOvercast | Self::OpenShade | Self::AtSunset => around(12.0),
            Self::BeforeSunset => Range::between(12.0, 14.0),
            Self::AfterSunset => Range::between(9.0, 11.0),
            Self::Gallery => Range::between(8.0, 11.0),
            Self::Office | Self::NightStreet => Range::between(7.0, 8.0),
            Self::HomeInterior => Range::between(5.0, 7.0),
        }
    }

    /// The best single exposure value at speed 100.
    pub fn best(self) -> ExposureValue {
        ExposureValue::new(self.exposure_value().best)
    }

    /// Whether the sun shines on it, so that the facing counts.
    pub const fn is_sunlit(self) -> bool {
        matches!(self, Self::SnowInSun | Self::Sun | Self::HazySun)
    }
}

fn around(value: f64) -> Range {
    Range::plus_minus(value, HALF_STEP)
}

/// How the subject stands to the sun.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Facing {
    /// The sun is behind the camera.
    #[default]
    Front,
    /// The sun is to the side.
    Side,
    /// The sun is behind the subject.
    Back,
    /// The subject is in the shade.
    Shade,
}

impl Facing {
    /// Every word, in the order above.
    pub const WORDS: &'static [&'static str] = &[
        Self::Front.word(),
        Self::Side.word(),
        Self::Back.word(),
        Self::Shade.word(),
    ];

    /// The word that a notebook uses.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Side => "side",
            Self::Back => "back",
            Self::Shade => "shade",
        }
    }

    /// The facing of a word.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Front, Self::Side, Self::Back, Self::Shade]
            .into_iter()
            .find(|facing| facing.word() == word)
    }

    /// What a sunlit scene of the table loses by its facing: side 1, back 2, shade 3 stops (sun 15, open shade 12).
    ///
    /// Source: exposure guides of ANSI PH2.7-1986, as tabulated elsewhere.
    pub const fn loss(self) -> Stops {
        Stops::new(match self {
            Self::Front => 0.0,
            Self::Side => 1.0,
            Self::Back => 2.0,
            Self::Shade => 3.0,
        })
    }
}

/// The exposure value at speed 100 of a scene that is lit from some side; the facing counts in sun only.
///
/// Source: exposure guides of ANSI PH2.7-1986, as tabulated elsewhere.
pub fn faced(scene: SceneLight, facing: Facing) -> Range {
    let range = scene.exposure_value();
    if scene.is_sunlit() {
        range - facing.loss().stops()
    } else {
        range
    }
}

/// What a clear sky loses by clouds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Sky {
    /// No cloud before the sun.
    #[default]
    Clear,
    /// Haze, soft shadows.
    Hazy,
    /// Bright cloud, no shadows.
    Cloudy,
    /// Heavy overcast.
    Overcast,
}

impl Sky {
    /// Every word, in the order above.
    pub const WORDS: &'static [&'static str] = &[
        Self::Clear.word(),
        Self::Hazy.word(),
        Self::Cloudy.word(),
        Self::Overcast.word(),
    ];

    /// The word that a notebook uses.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Hazy => "hazy",
            Self::Cloudy => "cloudy",
            Self::Overcast => "overcast",
        }
    }

    /// The sky of a word.
    pub fn from_word(word: &str) -> Option<Self> {
        [Self::Clear, Self::Hazy, Self::Cloudy, Self::Overcast]
            .into_iter()
            .find(|sky| sky.word() == word)
    }

    /// The stops that clouds take: hazy 1, cloudy 2, overcast 3.
    ///
    /// Source: exposure guides of ANSI PH2.7-1986, as tabulated elsewhere.
    pub const fn loss(self) -> Stops {
        Stops::new(match self {
            Self::Clear => 0.0,
            Self::Hazy => 1.0,
            Self::Cloudy => 2.0,
            Self::Overcast => 3.0,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_lead_back_to_their_scene() {
        for scene in SceneLight::ALL {
            assert_eq!(SceneLight::from_words(scene.words()), Some(scene));
            assert!(scene.exposure_value().low < scene.exposure_value().high);
        }
        assert_eq!(SceneLight::from_words("eclipse"), None);
        assert_eq!(Facing::from_word("side"), Some(Facing::Side));
        assert_eq!(Sky::from_word("overcast"), Some(Sky::Overcast));
    }

    #[test]
    fn facing_counts_in_the_sun_only() {
        assert_eq!(
            faced(SceneLight::Sun, Facing::Shade),
            SceneLight::OpenShade.exposure_value()
        );
        assert_eq!(
            faced(SceneLight::Gallery, Facing::Back),
            SceneLight::Gallery.exposure_value()
        );
    }
}

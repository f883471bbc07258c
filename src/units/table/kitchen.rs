//! Spoons, cups, pints and drops: which standard spoon is meant stands in every row.

use crate::units::{Dimension, Ratio, System, Unit, UnitSource};

use Dimension::Volume;
use System::{Metric, UsCustomary};
use UnitSource::{CommonPractice, Memory, NistSp811};

/// The US gallon: 231 cubic inches, 3.785 411 784 l exactly.
const US_GALLON: Ratio = Ratio::new(3_785_411_784, 1_000_000_000);
/// The imperial gallon: 4.546 09 l exactly.
const IMPERIAL_GALLON: Ratio = Ratio::new(454_609, 100_000);

const fn us(part: i128) -> Ratio {
    US_GALLON.over(Ratio::whole(part))
}

const fn imperial(part: i128) -> Ratio {
    IMPERIAL_GALLON.over(Ratio::whole(part))
}

const fn ml(count: i128) -> Ratio {
    Ratio::new(count, 1000)
}

pub(super) static UNITS: &[Unit] = &[
    Unit::row(
        "metric tsp",
        ["metric teaspoon", "metric teaspoons"],
        &[],
        Volume,
        ml(5),
        CommonPractice,
    )
    .at_home(Metric),
    Unit::row(
        "metric tbsp",
        ["metric tablespoon", "metric tablespoons"],
        &[],
        Volume,
        ml(15),
        CommonPractice,
    )
    .at_home(Metric),
    Unit::row(
        "metric cup",
        ["metric cup", "metric cups"],
        &[],
        Volume,
        ml(250),
        CommonPractice,
    )
    .word()
    .at_home(Metric),
    Unit::row(
        "US tsp",
        ["US teaspoon", "US teaspoons"],
        &["US tsps"],
        Volume,
        us(768),
        NistSp811,
    )
    .at_home(UsCustomary),
    Unit::row(
        "US tbsp",
        ["US tablespoon", "US tablespoons"],
        &["US tbsps"],
        Volume,
        us(256),
        NistSp811,
    )
    .at_home(UsCustomary),
    Unit::row("US cup", ["US cup", "US cups"], &[], Volume, us(16), NistSp811)
        .word()
        .at_home(UsCustomary),
    Unit::row(
        "US fl oz",
        ["US fluid ounce", "US fluid ounces"],
        &["US fl. oz.", "US fl oz."],
        Volume,
        us(128),
        NistSp811,
    )
    .at_home(UsCustomary),
    Unit::row(
        "US pint",
        ["US pint", "US pints"],
        &["US pt"],
        Volume,
        us(8),
        NistSp811,
    )
    .word()
    .at_home(UsCustomary),
    Unit::row(
        "US quart",
        ["US quart", "US quarts"],
        &["US qt"],
        Volume,
        us(4),
        NistSp811,
    )
    .word()
    .at_home(UsCustomary),
    Unit::row(
        "US gallon",
        ["US gallon", "US gallons"],
        &["US gal"],
        Volume,
        us(1),
        NistSp811,
    )
    .word()
    .at_home(UsCustomary),
    // The British spoons and cup were never fixed by a standard that is cited here: a tablespoon of an eighth of a gill.
    Unit::row(
        "imperial tsp",
        ["imperial teaspoon", "imperial teaspoons"],
        &["UK tsp", "UK teaspoon", "UK teaspoons"],
        Volume,
        imperial(768),
        Memory,
    ),
    Unit::row(
        "imperial tbsp",
        ["imperial tablespoon", "imperial tablespoons"],
        &["UK tbsp", "UK tablespoon", "UK tablespoons"],
        Volume,
        imperial(256),
        Memory,
    ),
    Unit::row(
        "imperial cup",
        ["imperial cup", "imperial cups"],
        &["UK cup", "UK cups"],
        Volume,
        imperial(16),
        Memory,
    )
    .word(),
    Unit::row(
        "imperial fl oz",
        ["imperial fluid ounce", "imperial fluid ounces"],
        &["UK fl oz", "UK fluid ounce", "UK fluid ounces"],
        Volume,
        imperial(160),
        NistSp811,
    ),
    Unit::row(
        "imperial pint",
        ["imperial pint", "imperial pints"],
        &["UK pint", "UK pints", "imperial pt", "UK pt"],
        Volume,
        imperial(8),
        NistSp811,
    )
    .word(),
    Unit::row(
        "imperial quart",
        ["imperial quart", "imperial quarts"],
        &["UK quart", "UK quarts", "imperial qt", "UK qt"],
        Volume,
        imperial(4),
        NistSp811,
    )
    .word(),
    Unit::row(
        "imperial gallon",
        ["imperial gallon", "imperial gallons"],
        &["UK gallon", "UK gallons", "imperial gal", "UK gal"],
        Volume,
        imperial(1),
        NistSp811,
    )
    .word(),
    // Twenty drops to the millilitre.
    Unit::row(
        "drop",
        ["drop", "drops"],
        &["gtt"],
        Volume,
        Ratio::new(1, 20_000),
        CommonPractice,
    )
    .word(),
];

/// A name that means another unit in each system, or none.
#[derive(Debug)]
pub(crate) struct Ambiguous {
    /// The bare names.
    pub(crate) names: &'static [&'static str],
    /// The symbol of the metric unit, if there is one.
    pub(crate) metric: Option<&'static str>,
    /// The symbol of the US unit.
    pub(crate) us: &'static str,
    /// The symbol of the imperial unit.
    pub(crate) imperial: &'static str,
}

/// The bare names of spoons and cups.
pub(crate) static AMBIGUOUS: &[Ambiguous] = &[
    Ambiguous {
        names: &["tsp", "tsps", "teaspoon", "teaspoons", "Tsp"],
        metric: Some("metric tsp"),
        us: "US tsp",
        imperial: "imperial tsp",
    },
    Ambiguous {
        names: &["tbsp", "tbsps", "tablespoon", "tablespoons", "Tbsp", "Tbs", "tbs"],
        metric: Some("metric tbsp"),
        us: "US tbsp",
        imperial: "imperial tbsp",
    },
    Ambiguous {
        names: &["cup", "cups"],
        metric: Some("metric cup"),
        us: "US cup",
        imperial: "imperial cup",
    },
    Ambiguous {
        names: &[
            "fl oz",
            "fl. oz.",
            "fl.oz.",
            "fl oz.",
            "floz",
            "fluid ounce",
            "fluid ounces",
        ],
        metric: None,
        us: "US fl oz",
        imperial: "imperial fl oz",
    },
    Ambiguous {
        names: &["pint", "pints", "pt"],
        metric: None,
        us: "US pint",
        imperial: "imperial pint",
    },
    Ambiguous {
        names: &["quart", "quarts", "qt"],
        metric: None,
        us: "US quart",
        imperial: "imperial quart",
    },
    Ambiguous {
        names: &["gallon", "gallons", "gal"],
        metric: None,
        us: "US gallon",
        imperial: "imperial gallon",
    },
];

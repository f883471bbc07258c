//! What is refused: the rule, the exact word, and what the help offers.

use trayside::finding::slug::{
    AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE, DIMENSION_WRONG, RATIO_AMBIGUOUS, Slug, UNIT_MISSING, UNIT_UNKNOWN,
};
use trayside::units::{Decimal, Dimension, Language, Mistake, Style, System, parse};

use Dimension::{
    Count, Dilution, ExposureValue, FNumber, Length, Mass, MassConcentration, PH, Speed, Stops, Temperature,
    Time, Volume,
};

fn refuse(text: &str, accepts: &[Dimension], style: Style) -> Mistake {
    parse(text, accepts, style).expect_err(text)
}

/// Text, what is wanted, the rule, the exact word, a part of the message or help.
type Case = (
    &'static str,
    &'static [Dimension],
    Slug,
    &'static str,
    &'static str,
);

const CASES: &[Case] = &[
    // units
    ("30 grm", &[Mass], UNIT_UNKNOWN, "grm", "did you mean `g`?"),
    ("30 gramms", &[Mass], UNIT_UNKNOWN, "gramms", "did you mean `g`?"),
    ("30 gr", &[Mass], UNIT_UNKNOWN, "gr", "write `g`"),
    ("5 tps", &[Volume], UNIT_UNKNOWN, "tps", "did you mean `tsp`?"),
    (
        "5 US tps",
        &[Volume],
        UNIT_UNKNOWN,
        "US tps",
        "did you mean `US tsp`?",
    ),
    ("5 mins.x", &[Time], UNIT_UNKNOWN, "mins.x", "min"),
    (
        "3 tabelts",
        &[Count],
        UNIT_UNKNOWN,
        "tabelts",
        "did you mean `tablets`?",
    ),
    ("3 MG", &[Mass], UNIT_UNKNOWN, "MG", "did you mean `mg`?"),
    (
        "3 zorkmids",
        &[Mass, Volume],
        UNIT_UNKNOWN,
        "zorkmids",
        "`30 g` or `500 ml`",
    ),
    ("1 pinch", &[Mass], UNIT_UNKNOWN, "pinch", "weigh it"),
    (
        "1 pint",
        &[Volume],
        UNIT_UNKNOWN,
        "pint",
        "write `US pint` or `imperial pint`",
    ),
    (
        "2 fl oz",
        &[Volume],
        UNIT_UNKNOWN,
        "fl oz",
        "US 29.57\u{a0}ml, imperial 28.41\u{a0}ml",
    ),
    ("50 ppm", &[MassConcentration], UNIT_UNKNOWN, "ppm", "mg/l"),
    ("30", &[Mass], UNIT_MISSING, "30", "write a mass such as `30 g`"),
    ("30–40", &[Volume], UNIT_MISSING, "30–40", "`30–40 ml`"),
    ("216", &[FNumber], UNIT_MISSING, "216", "f/216"),
    ("12", &[ExposureValue], UNIT_MISSING, "12", "EV 12"),
    ("1 h 30", &[Time], UNIT_MISSING, "30", "write `1 h 30 min`"),
    // kinds
    (
        "30 g",
        &[Time],
        DIMENSION_WRONG,
        "30 g",
        "a time is wanted here, this is a mass",
    ),
    (
        "30 ml",
        &[Mass, Count],
        DIMENSION_WRONG,
        "30 ml",
        "a mass or a count is wanted here, this is a volume",
    ),
    ("5 m", &[Time], DIMENSION_WRONG, "5 m", "write `min`"),
    ("8 oz", &[Volume], DIMENSION_WRONG, "8 oz", "fl oz"),
    ("20°", &[Temperature], DIMENSION_WRONG, "20°", "`°C` or `°F`"),
    ("5 %", &[MassConcentration], DIMENSION_WRONG, "5 %", "`% w/v`"),
    (
        "20 °C ± 2 g",
        &[Temperature],
        DIMENSION_WRONG,
        "g",
        "the tolerance is a mass",
    ),
    (
        "20 g – 30 ml",
        &[Mass],
        DIMENSION_WRONG,
        "ml",
        "one end is a mass, the other a volume",
    ),
    // numbers
    ("", &[Mass], AMOUNT_MALFORMED, "", "a mass is missing here"),
    ("   ", &[Mass], AMOUNT_MALFORMED, "", "a mass is missing here"),
    (
        "1,5 g",
        &[Mass],
        AMOUNT_MALFORMED,
        "1,5",
        "write 1.5 g, or say \"decimal: comma\" in trayside.yaml",
    ),
    (
        "1,000 g",
        &[Mass],
        AMOUNT_MALFORMED,
        "1,000",
        "write 1000 g for a thousand",
    ),
    ("1 000 g", &[Mass], AMOUNT_MALFORMED, "1 000", "write `1000`"),
    ("10 12 g", &[Mass], AMOUNT_MALFORMED, "10 12", "is two numbers"),
    (
        "1.2.3 g",
        &[Mass],
        AMOUNT_MALFORMED,
        "1.2.3",
        "thousands without marks",
    ),
    (
        "half a lemon",
        &[Count],
        AMOUNT_MALFORMED,
        "half",
        "is not a number",
    ),
    (
        "Infinity",
        &[Mass],
        AMOUNT_MALFORMED,
        "Infinity",
        "is not an amount",
    ),
    ("NaN g", &[Mass], AMOUNT_MALFORMED, "NaN", "is not an amount"),
    ("1e400 g", &[Mass], AMOUNT_OUT_OF_RANGE, "1e400", "too large"),
    ("1e-99 g", &[Mass], AMOUNT_OUT_OF_RANGE, "1e-99", "too small"),
    (
        "12345678901234567890 g",
        &[Mass],
        AMOUNT_OUT_OF_RANGE,
        "12345678901234567890",
        "more digits",
    ),
    ("1/0 g", &[Mass], AMOUNT_MALFORMED, "0", "zero below the line"),
    ("g", &[Mass], AMOUNT_MALFORMED, "g", "is not a number"),
    ("up to 30 g", &[Mass], AMOUNT_MALFORMED, "up to", "only one end"),
    ("<5 min", &[Time], AMOUNT_MALFORMED, "<", "only one end"),
    // shape
    (
        "40–30 ml",
        &[Volume],
        AMOUNT_MALFORMED,
        "40–30 ml",
        "write `30–40 ml`",
    ),
    (
        "1-1/2 cups",
        &[Volume],
        AMOUNT_MALFORMED,
        "1-1/2 cups",
        "`1 1/2` for the mixed number",
    ),
    ("30 –", &[Mass], AMOUNT_MALFORMED, " –", "a number is missing"),
    (
        "30 g soda",
        &[Mass],
        AMOUNT_MALFORMED,
        "soda",
        "write `30 g` alone",
    ),
    (
        "30 g, heaped",
        &[Mass],
        AMOUNT_MALFORMED,
        ", heaped",
        "write `30 g` alone",
    ),
    (
        "2 level g",
        &[Mass],
        AMOUNT_MALFORMED,
        "g",
        "only spoons and cups can be level",
    ),
    ("1 min 2 h", &[Time], AMOUNT_MALFORMED, "2 h", "larger unit first"),
    (
        "8:30",
        &[Time],
        AMOUNT_MALFORMED,
        "8:30",
        "write `8 min 30 s` or `8 h 30 min`",
    ),
    (
        "1:9",
        &[Dilution],
        RATIO_AMBIGUOUS,
        "1:9",
        "write `1+9` for 1 to 9 of water, or `1+8` for 1 in 9 of the whole",
    ),
    (
        "1:9",
        &[Mass, Volume, Count],
        AMOUNT_MALFORMED,
        "1:9",
        "a mass, a volume or a count is wanted here, this is a ratio",
    ),
    (
        "1:9",
        &[Mass, Volume],
        AMOUNT_MALFORMED,
        "1:9",
        "is the dilution `1+9` meant? Then write here how much stock that takes, such as `500 ml`",
    ),
    (
        "1:9",
        &[Count],
        AMOUNT_MALFORMED,
        "1:9",
        "write a count such as `6 tablets`",
    ),
    ("1+1+100", &[Dilution], AMOUNT_MALFORMED, "1+1+100", "two parts"),
    ("1.5 × 500 mg", &[Count], AMOUNT_MALFORMED, "1.5", "whole numbers"),
    // limits
    (
        "-5 g",
        &[Mass],
        AMOUNT_OUT_OF_RANGE,
        "-5 g",
        "a mass cannot be below zero",
    ),
    (
        "5 ± 6 ml",
        &[Volume],
        AMOUNT_OUT_OF_RANGE,
        "5 ± 6 ml",
        "a volume cannot be below zero",
    ),
    (
        "-300 °C",
        &[Temperature],
        AMOUNT_OUT_OF_RANGE,
        "-300 °C",
        "below absolute zero",
    ),
    ("pH 95", &[PH], AMOUNT_OUT_OF_RANGE, "pH 95", "lies between"),
    (
        "f/0",
        &[FNumber],
        AMOUNT_OUT_OF_RANGE,
        "f/0",
        "an f-number cannot be zero",
    ),
    (
        "ISO -3",
        &[Speed],
        AMOUNT_OUT_OF_RANGE,
        "ISO -3",
        "a speed cannot be below zero",
    ),
    (
        "120 % w/w",
        &[Dimension::MassFraction],
        AMOUNT_OUT_OF_RANGE,
        "120 % w/w",
        "above 100 %",
    ),
    ("0+9", &[Dilution], AMOUNT_OUT_OF_RANGE, "0", "needs some stock"),
    (
        "5 stopps",
        &[Stops],
        UNIT_UNKNOWN,
        "stopps",
        "did you mean `stops`?",
    ),
    (
        "5 milimetres",
        &[Length],
        UNIT_UNKNOWN,
        "milimetres",
        "did you mean `mm`?",
    ),
];

#[test]
fn the_exact_word_is_named() {
    let mut wrong = Vec::new();
    for &(text, accepts, rule, word, says) in CASES {
        let mistake = refuse(text, accepts, Style::default());
        let told = format!(
            "{}; {}",
            mistake.message,
            mistake.help.clone().unwrap_or_default()
        );
        let at = text.get(mistake.at.clone()).unwrap();
        if (mistake.rule, at.trim()) != (rule, word.trim()) || !told.contains(says) {
            wrong.push(format!("{text:?}: {} at {at:?}: {told}", mistake.rule));
        }
        assert!(!mistake.message.ends_with('.'), "{text}");
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn a_replacement_mends_the_amount() {
    for &(text, accepts, ..) in CASES {
        let mistake = refuse(text, accepts, Style::default());
        if let Some(instead) = mistake.instead {
            let mut mended = text.to_owned();
            mended.replace_range(mistake.at, &instead);
            let again = parse(&mended, accepts, Style::default());
            // What follows the word may still be wrong, but no longer the word itself.
            assert!(
                again
                    .as_ref()
                    .map_or_else(|next| next.rule != mistake.rule, |_| true),
                "{mended}: {again:?}"
            );
        }
    }
}

#[test]
fn a_comma_notebook_refuses_points() {
    let comma = Style {
        decimal: Decimal::Comma,
        system: System::Metric,
        language: Language::English,
    };
    let mistake = refuse("1.5 g", &[Mass], comma);
    assert_eq!(mistake.instead.as_deref(), Some("1,5"));
    assert_eq!(
        mistake.help.as_deref(),
        Some("write 1,5 g, or say \"decimal: point\" in trayside.yaml")
    );
}

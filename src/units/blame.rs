//! What to say about an amount that cannot be read: one function for each mistake, in a photographer's words.

use std::ops::Range as Bytes;

use super::amount::{Amount, Heap};
use super::lookup;
use super::number::{Cursor, Number};
use super::parse::quoted;
use super::show::suited;
use super::table::Ambiguous;
use super::{Dimension, Mistake, Place, Range, Style, Unit};
use crate::finding::slug::{
    AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE, DIMENSION_WRONG, RATIO_AMBIGUOUS, UNIT_MISSING, UNIT_UNKNOWN,
};

/// Names that are refused although they can be guessed, with the reason and the one right text if there is one.
const REFUSED: [(&str, &str, &str, Option<&str>); 9] = [
    (
        "gr",
        "can be a gram or a grain",
        "write `g`, or `grains` if that is meant",
        Some("g"),
    ),
    ("gm", "is not a unit", "write `g`", Some("g")),
    ("gms", "is not a unit", "write `g`", Some("g")),
    (
        "ppm",
        "does not say of what",
        "write `mg/l` in a liquid, `mg/kg` in a solid",
        None,
    ),
    ("pinch", "is not a measure", "weigh it once and write grams", None),
    (
        "pinches",
        "is not a measure",
        "weigh it once and write grams",
        None,
    ),
    (
        "handful",
        "is not a measure",
        "weigh it once and write grams",
        None,
    ),
    (
        "handfuls",
        "is not a measure",
        "weigh it once and write grams",
        None,
    ),
    ("spoon", "does not say which spoon", "write `tsp` or `tbsp`", None),
];

/// First words of names of two, which are no guess at a unit by themselves.
const QUALIFIERS: [&str; 9] = [
    "US", "UK", "imperial", "metric", "fl", "fluid", "sq", "square", "tea",
];

/// The kinds that are wanted, in words: `a mass or a volume`.
fn wanted(accepts: &[Dimension]) -> String {
    match accepts {
        [] => "an amount".to_owned(),
        [one] => one.with_article().to_owned(),
        [one, two] => format!("{} or {}", one.with_article(), two.with_article()),
        [one, two, three] => format!(
            "{}, {} or {}",
            one.with_article(),
            two.with_article(),
            three.with_article()
        ),
        [one, two, three, ..] => format!(
            "{}, {}, {} or the like",
            one.with_article(),
            two.with_article(),
            three.with_article()
        ),
    }
}

/// A help text with examples of what is wanted.
fn examples(accepts: &[Dimension]) -> String {
    match accepts {
        [] => "write an amount such as `30 g`".to_owned(),
        [one] => format!("write {} such as `{}`", one.with_article(), one.example()),
        [one, two, ..] => format!(
            "write an amount such as `{}` or `{}`",
            one.example(),
            two.example()
        ),
    }
}

pub(crate) fn with_example(mistake: Mistake, accepts: &[Dimension]) -> Mistake {
    if mistake.help.is_some() {
        return mistake;
    }
    mistake.help(examples(accepts))
}

pub(crate) fn nothing(at: Bytes<usize>, accepts: &[Dimension]) -> Mistake {
    Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("{} is missing here", wanted(accepts)),
    )
    .help(examples(accepts))
}

/// `up to 30 g`, `< 5 g`: amounts with one end only.
pub(crate) fn one_sided(cursor: Cursor<'_>, accepts: &[Dimension]) -> Option<Mistake> {
    const WORDS: [&str; 13] = [
        "<",
        ">",
        "≤",
        "≥",
        "up to",
        "at least",
        "at most",
        "less than",
        "more than",
        "under",
        "over",
        "max",
        "min",
    ];
    let rest = cursor.rest();
    let word = WORDS.into_iter().find(|word| {
        rest.strip_prefix(word)
            .is_some_and(|after| after.starts_with(|c: char| !c.is_alphanumeric()) || word.len() < 2)
    })?;
    Some(
        Mistake::new(
            AMOUNT_MALFORMED,
            cursor.at..cursor.at + word.len(),
            format!("`{word}` gives an amount only one end"),
        )
        .help(format!(
            "write both ends, such as `0–{}`",
            accepts.first().map_or("30 g", |dimension| dimension.example())
        )),
    )
}

pub(crate) fn left_over(cursor: Cursor<'_>, start: usize) -> Mistake {
    let rest = cursor.rest();
    let good = cursor.text.get(start..cursor.at).unwrap_or_default().trim_end();
    Mistake::new(
        AMOUNT_MALFORMED,
        cursor.at..cursor.text.len(),
        format!("`{}` does not belong to an amount", quoted(rest)),
    )
    .help(format!("write `{}` alone", quoted(good)))
}

pub(crate) fn unit_unknown(text: &str, at: Bytes<usize>, accepts: &[Dimension]) -> Mistake {
    let first = text.get(at.clone()).unwrap_or_default();
    let mut at = at;
    if let Some(&(_, why, help, instead)) = REFUSED.iter().find(|(name, ..)| *name == first) {
        let mistake = Mistake::new(UNIT_UNKNOWN, at, format!("`{first}` {why}")).help(help);
        return match instead {
            Some(instead) if accepts.is_empty() || accepts.contains(&Dimension::Mass) => {
                mistake.instead(instead)
            }
            _ => mistake,
        };
    }
    if QUALIFIERS.contains(&first) {
        let rest = text.get(at.end..).unwrap_or_default();
        let spaces = rest.len() - rest.trim_start().len();
        let word = rest
            .trim_start()
            .split(char::is_whitespace)
            .next()
            .unwrap_or_default();
        at.end += if word.is_empty() { 0 } else { spaces + word.len() };
    }
    let word = text.get(at.clone()).unwrap_or_default();
    let mistake = Mistake::new(UNIT_UNKNOWN, at, format!("unknown unit `{}`", quoted(word)));
    match lookup::nearest(word, accepts) {
        Some(near) => mistake.help(format!("did you mean `{near}`?")).instead(near),
        None => mistake.help(examples(accepts)),
    }
}

pub(crate) fn which_pint(at: Bytes<usize>, written: &str, bare: &Ambiguous) -> Mistake {
    let size = |symbol: &str| {
        lookup::unit_named(symbol, Dimension::Volume, super::System::Metric).map_or_else(
            String::new,
            |unit| {
                let range = Range::exact(unit.to_canonical(1.0));
                super::show(
                    range,
                    Dimension::Volume,
                    super::Digits::Significant(4),
                    Style::default(),
                )
            },
        )
    };
    Mistake::new(
        UNIT_UNKNOWN,
        at,
        format!(
            "`{written}` does not say which: US {}, imperial {}",
            size(bare.us),
            size(bare.imperial)
        ),
    )
    .help(format!("write `{}` or `{}`", bare.us, bare.imperial))
}

pub(crate) fn unit_missing(cursor: Cursor<'_>, start: usize, accepts: &[Dimension]) -> Mistake {
    let text = cursor.text.get(start..cursor.at).unwrap_or_default().trim_end();
    let with_unit = |dimension: Dimension| {
        let unit = match dimension {
            Dimension::Time => "min",
            Dimension::Volume => "ml",
            other => suited(other, Range::exact(1.0)).label(Style::default(), text != "1"),
        };
        match suited(dimension, Range::exact(1.0)).place {
            Place::Apart => format!("{text} {unit}"),
            Place::Close => format!("{text}{unit}"),
            Place::Before => format!("{unit} {text}"),
            Place::Against | Place::Dilution => format!("{unit}{text}"),
        }
    };
    let mistake = Mistake::new(
        UNIT_MISSING,
        start..start + text.len(),
        format!("`{}` has no unit", quoted(text)),
    );
    match accepts {
        [] => mistake,
        [one] => mistake.help(format!(
            "write {} such as `{}`",
            one.with_article(),
            with_unit(*one)
        )),
        [one, two, ..] => mistake.help(format!(
            "write an amount such as `{}` or `{}`",
            with_unit(*one),
            with_unit(*two)
        )),
    }
}

pub(crate) fn dimension_wrong(at: Bytes<usize>, unit: &Unit, accepts: &[Dimension]) -> Mistake {
    let is = unit.dimension;
    let mistake = Mistake::new(
        DIMENSION_WRONG,
        at,
        format!(
            "{} is wanted here, this is {}",
            wanted(accepts),
            is.with_article()
        ),
    );
    let wants = |dimension: Dimension| accepts.contains(&dimension);
    let help = match unit.symbol {
        "m" if wants(Dimension::Time) => "for minutes write `min`",
        "oz" if wants(Dimension::Volume) => "for a volume write `US fl oz` or `imperial fl oz`",
        "°" if wants(Dimension::Temperature) => "say which degrees: `°C` or `°F`",
        "%" if wants(Dimension::MassFraction)
            || wants(Dimension::VolumeFraction)
            || wants(Dimension::MassConcentration) =>
        {
            "say per cent of what: `% w/v`, `% w/w` or `% v/v`"
        }
        "g/kg" | "% w/w" if wants(Dimension::MassConcentration) => "per volume it would be `g/l` or `% w/v`",
        "°C" | "°F" if wants(Dimension::Angle) => "for an angle write `°` alone",
        _ => return mistake.help(examples(accepts)),
    };
    mistake.help(help)
}

pub(crate) fn ratio(at: Bytes<usize>, first: &Number, second: &Number, accepts: &[Dimension]) -> Mistake {
    let wants = |dimension: Dimension| accepts.contains(&dimension);
    let (a, b) = (
        first.value.as_whole().unwrap_or(0),
        second.value.as_whole().unwrap_or(0),
    );
    let text = format!("{a}:{b}");
    if wants(Dimension::Time) && !(wants(Dimension::Dilution) && b < 10) {
        return Mistake::new(
            AMOUNT_MALFORMED,
            at,
            format!("`{a}:{b:02}` can be minutes and seconds or hours and minutes"),
        )
        .help(format!("write `{a} min {b} s` or `{a} h {b} min`"));
    }
    let mistake = Mistake::new(RATIO_AMBIGUOUS, at, format!("`{text}` can be read two ways"));
    if wants(Dimension::Dilution) || accepts.is_empty() {
        if b > a && a > 0 {
            let rest = b - a;
            return mistake.help(format!(
                "write `{a}+{b}` for {a} to {b} of water, or `{a}+{rest}` for {a} in {b} of the whole"
            ));
        }
        return mistake.help(format!(
            "write the parts of stock and of water, such as `{a}+{b}`"
        ));
    }
    Mistake::new(
        AMOUNT_MALFORMED,
        mistake.at,
        format!("`{text}` is a ratio, {} is wanted here", wanted(accepts)),
    )
    .help(examples(accepts))
}

pub(crate) fn not_a_spoon(at: Bytes<usize>, heap: Heap) -> Mistake {
    Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("only spoons and cups can be {}", heap.word()),
    )
    .help(format!("write `2 {} tsp`, or leave the word out", heap.word()))
}

pub(crate) fn part_without_unit(text: &str, at: Bytes<usize>, last: &Unit, start: usize) -> Mistake {
    let number = text.get(at.clone()).unwrap_or_default();
    let before = text.get(start..at.end).unwrap_or_default();
    let next = match last.symbol {
        "day" | "week" | "month" | "year" => "h",
        "h" => "min",
        "min" => "s",
        "lb" => "oz",
        "ft" => "in",
        _ => "",
    };
    let mistake = Mistake::new(UNIT_MISSING, at, format!("`{number}` has no unit"));
    if next.is_empty() {
        mistake
    } else {
        mistake
            .help(format!("write `{before} {next}`"))
            .instead(format!("{number} {next}"))
    }
}

pub(crate) fn part_out_of_order(at: Bytes<usize>, last: &Unit) -> Mistake {
    Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("a smaller unit than `{}` should follow here", last.symbol),
    )
    .help("write the larger unit first, each once: `1 h 30 min`")
}

pub(crate) fn half_a_range(at: Bytes<usize>, sign: &str) -> Mistake {
    let sign = sign.trim();
    Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("a number is missing behind `{sign}`"),
    )
    .help("write both ends, such as `30–40 ml`, or a tolerance, such as `20 ± 2 °C`")
}

pub(crate) fn reversed(
    text: &str,
    at: Bytes<usize>,
    first: &Number,
    second: &Number,
    unit: &Unit,
) -> Mistake {
    let number = |number: &Number| text.get(number.at.clone()).unwrap_or_default();
    let (a, b) = (number(first), number(second));
    let mistake = Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("the range `{a}–{b}` runs backwards"),
    );
    if second.fraction && !first.fraction && second.value.to_f64() < 1.0 {
        return mistake.help(format!("write `{b}–{a}`, or `{a} {b}` for the mixed number"));
    }
    let label = unit.label(Style::default(), true);
    if unit.place == Place::Apart && !label.is_empty() {
        mistake.help(format!("write `{b}–{a} {label}`"))
    } else {
        mistake.help("write the lower end first")
    }
}

pub(crate) fn reversed_dilution(at: Bytes<usize>) -> Mistake {
    Mistake::new(AMOUNT_MALFORMED, at, "this dilution is stronger than the first")
        .help("write the stronger dilution first")
}

pub(crate) fn negative_tolerance(at: Bytes<usize>) -> Mistake {
    Mistake::new(AMOUNT_MALFORMED, at, "a tolerance has no sign").help("write `20 ± 2 °C`")
}

pub(crate) fn tolerance_of_another_kind(at: Bytes<usize>, tolerance: &Unit, unit: &Unit) -> Mistake {
    Mistake::new(
        DIMENSION_WRONG,
        at,
        format!(
            "the tolerance is {}, the amount {}",
            tolerance.dimension.with_article(),
            unit.dimension.with_article()
        ),
    )
    .help(format!("write the tolerance in `{}` or `%`", unit.symbol))
}

pub(crate) fn ends_of_two_kinds(at: Bytes<usize>, other: &Unit, unit: &Unit) -> Mistake {
    Mistake::new(
        DIMENSION_WRONG,
        at,
        format!(
            "one end is {}, the other {}",
            unit.dimension.with_article(),
            other.dimension.with_article()
        ),
    )
    .help(format!("write both ends in `{}`", unit.symbol))
}

pub(crate) fn three_parts(at: Bytes<usize>) -> Mistake {
    Mistake::new(AMOUNT_MALFORMED, at, "a dilution has two parts, stock and water")
        .help("write `1+9`; give two stocks as two parts of the recipe")
}

pub(crate) fn no_stock(at: Bytes<usize>) -> Mistake {
    Mistake::new(AMOUNT_OUT_OF_RANGE, at, "a dilution needs some stock")
        .help("write parts of stock + parts of water: `1+9`")
}

pub(crate) fn not_a_count(at: Bytes<usize>) -> Mistake {
    Mistake::new(
        AMOUNT_MALFORMED,
        at,
        "only whole numbers of things can be counted",
    )
    .help("write `6 × 500 mg`")
}

/// Whether the amount is one that its kind can have.
pub(crate) fn out_of_range(at: Bytes<usize>, text: &str, amount: &Amount) -> Result<(), Mistake> {
    let (least, most) = amount.dimension.limits();
    let range = amount.range;
    let written = text.get(at.clone()).unwrap_or_default();
    let kind = amount.dimension.with_article();
    let message = if !range.is_finite() {
        format!("`{}` is too large for an amount", quoted(written))
    } else if range.low == 0.0 && !amount.dimension.may_be_zero() {
        format!("{kind} cannot be zero")
    } else if range.low < least {
        match amount.dimension {
            Dimension::Temperature => format!("`{}` is below absolute zero", quoted(written)),
            Dimension::PH => "a pH lies between −2 and 16".to_owned(),
            _ => format!("{kind} cannot be below zero"),
        }
    } else if range.high > most {
        match amount.dimension {
            Dimension::PH => "a pH lies between −2 and 16".to_owned(),
            _ => format!("{kind} cannot be above 100 %"),
        }
    } else {
        return Ok(());
    };
    Err(Mistake::new(AMOUNT_OUT_OF_RANGE, at, message).help("check the number and its sign"))
}

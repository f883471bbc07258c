//! Mistakes in units: unknown, missing, or of the wrong kind.

use std::ops::Range as Bytes;

use super::{examples, quoted, wanted};
use crate::finding::slug::{AMOUNT_MALFORMED, DIMENSION_WRONG, UNIT_MISSING, UNIT_UNKNOWN};
use crate::units::amount::Heap;
use crate::units::cursor::Cursor;
use crate::units::show::suited;
use crate::units::table::Ambiguous;
use crate::units::{Digits, Dimension, Mistake, Place, Range, Style, System, Unit, lookup, show};

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
        lookup::unit_named(symbol, Dimension::Volume, System::Metric).map_or_else(String::new, |unit| {
            let range = Range::exact(unit.to_canonical(1.0));
            show(range, Dimension::Volume, Digits::Significant(4), Style::default())
        })
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

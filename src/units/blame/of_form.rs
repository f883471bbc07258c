//! Mistakes in the form of an amount, and amounts that cannot be.

use std::ops::Range as Bytes;

use super::{examples, quoted, wanted};
use crate::finding::slug::{AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE, RATIO_AMBIGUOUS};
use crate::units::amount::Amount;
use crate::units::cursor::Cursor;
use crate::units::number::Number;
use crate::units::{Decimal, Dimension, Mistake, Place, Style, Unit};

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
    let mistake = Mistake::new(
        AMOUNT_MALFORMED,
        mistake.at,
        format!("{} is wanted here, this is a ratio", wanted(accepts)),
    );
    // Where stock can be measured out, a dilution may have been in mind.
    if wants(Dimension::Volume) && a > 0 && b > 0 {
        return mistake.help(format!(
            "is the dilution `{a}+{b}` meant? Then write here how much stock that takes, such as `{}`",
            Dimension::Volume.example()
        ));
    }
    mistake.help(examples(accepts))
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

/// `1 000 g` with an ordinary space, or two numbers that have nothing between them.
pub(crate) fn two_numbers(cursor: Cursor<'_>, start: usize, decimal: Decimal) -> Mistake {
    let rest = cursor.rest();
    let length = rest
        .find(|c: char| !(c.is_ascii_digit() || c == decimal.mark()))
        .unwrap_or(rest.len());
    let second = rest.get(..length).unwrap_or_default();
    let at = start..cursor.at + length.max(rest.chars().next().map_or(0, char::len_utf8));
    let written = cursor.text.get(at.clone()).unwrap_or_default();
    let mistake = Mistake::new(
        AMOUNT_MALFORMED,
        at,
        format!("`{}` is two numbers", quoted(written)),
    );
    let digits = second.split(decimal.mark()).next().unwrap_or_default();
    if digits.len() == 3 {
        let joined: String = written.chars().filter(|c| !c.is_whitespace()).collect();
        return mistake
            .help(format!("write `{joined}`, or a no-break space between thousands"))
            .instead(joined);
    }
    mistake.help("write a range as `30–40 ml`, a fraction as `1 1/2`")
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

//! Numbers as people write them: `24`, `1.5`, `1 1/2`, `½`, `1½`, `−3`, `1 000` with a thin space, `2e-3`.

use std::ops::Range as Bytes;

use super::cursor::{Cursor, vulgar};
use super::{Decimal, Mistake, Ratio};
use crate::finding::slug::{AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE};

/// More digits than any balance shows; also what keeps the exact arithmetic within 128 bits.
const MOST_DIGITS: u32 = 18;
/// Powers of ten beyond this are slips of the pen.
const MOST_EXPONENT: i64 = 18;

/// A number, exactly, and how it was written.
#[derive(Debug, Clone)]
pub(crate) struct Number {
    pub(crate) value: Ratio,
    pub(crate) decimals: u8,
    pub(crate) significant: u8,
    /// Written with a fraction.
    pub(crate) fraction: bool,
    /// Written with a plus.
    pub(crate) signed: bool,
    pub(crate) at: Bytes<usize>,
}

/// Reads a number with an optional sign.
pub(crate) fn number(cursor: &mut Cursor<'_>, decimal: Decimal) -> Result<Number, Mistake> {
    let start = cursor.at;
    let signed = cursor.take('+');
    let negative = !signed && cursor.take_any(&['-', '−']);
    if signed || negative {
        cursor.skip_space();
    }
    if !cursor.at_number() {
        return Err(no_number(*cursor, start));
    }
    let mut number = unsigned(cursor, decimal)?;
    if negative {
        number.value = number.value.negated();
    }
    number.signed = signed;
    number.at = start..cursor.at;
    Ok(number)
}

fn unsigned(cursor: &mut Cursor<'_>, decimal: Decimal) -> Result<Number, Mistake> {
    let start = cursor.at;
    let mut number = Number {
        value: Ratio::whole(0),
        decimals: 0,
        significant: 1,
        fraction: false,
        signed: false,
        at: start..start,
    };
    // A vulgar fraction may stand alone.
    if let Some(value) = take_vulgar(cursor) {
        number.value = value;
        number.fraction = true;
        return Ok(number);
    }
    let mut digits = Digits::default();
    digits.push(cursor.digits());
    let first = digits.count;
    if (1..=3).contains(&first) {
        while let Some(group) = thousands(*cursor) {
            cursor.at = group.start;
            digits.push(cursor.digits());
        }
    }
    if cursor.peek() == Some(decimal.mark()) && followed_by_digit(*cursor) {
        cursor.at += 1;
        digits.point();
        digits.push(cursor.digits());
    }
    // A second mark, or the other one: `1,5` or `1.000.000` or `1,000.5`.
    if let Some('.' | ',') = cursor.peek()
        && followed_by_digit(*cursor)
    {
        return Err(wrong_mark(*cursor, start, decimal));
    }
    let exponent = exponent(cursor);
    let at = start..cursor.at;
    let value = digits.value(exponent).ok_or_else(|| {
        let text = cursor.text.get(at.clone()).unwrap_or_default();
        let message = if digits.count > MOST_DIGITS {
            format!("`{text}` has more digits than an amount can have")
        } else {
            format!("`{text}` is too large or too small for an amount")
        };
        Mistake::new(AMOUNT_OUT_OF_RANGE, at.clone(), message).help("check the number for a slip of the pen")
    })?;
    number.value = value;
    number.decimals = (i64::from(digits.decimals) - exponent).clamp(0, 12) as u8;
    // Zeros at the end of a whole number only hold its place: `1000 ml` says one digit.
    let zeros = if digits.decimals == 0 { digits.zeros } else { 0 };
    number.significant = digits.significant.saturating_sub(zeros).clamp(1, MOST_DIGITS) as u8;
    if digits.decimals == 0 && exponent == 0 {
        add_fraction(cursor, &mut number)?;
    }
    Ok(number)
}

/// Reads `/2`, ` 1/2` or `½` behind a whole number.
fn add_fraction(cursor: &mut Cursor<'_>, number: &mut Number) -> Result<(), Mistake> {
    if let Some(below) = below_line(*cursor) {
        cursor.at = below.end;
        number.value = quotient(cursor.text, number.value, below)?;
        number.fraction = true;
        return Ok(());
    }
    let mut ahead = *cursor;
    let spaced = ahead.skip_space();
    if let Some(part) = take_vulgar(&mut ahead) {
        *cursor = ahead;
        number.value = number.value.checked_add(part).unwrap_or(number.value);
        number.fraction = true;
        return Ok(());
    }
    if !spaced {
        return Ok(());
    }
    let above = ahead.digits();
    if above.is_empty() || above.len() > 6 {
        return Ok(());
    }
    if let Some(below) = below_line(ahead) {
        let mut digits = Digits::default();
        digits.push(above);
        let part = digits.value(0).unwrap_or(Ratio::whole(0));
        let part = quotient(cursor.text, part, below.clone())?;
        cursor.at = below.end;
        number.value = number.value.checked_add(part).unwrap_or(number.value);
        number.fraction = true;
    }
    Ok(())
}

/// The bytes of the digits below the line, if `/` and digits come next.
fn below_line(mut cursor: Cursor<'_>) -> Option<Bytes<usize>> {
    if !cursor.take_any(&['/', '⁄']) {
        return None;
    }
    let start = cursor.at;
    let digits = cursor.digits();
    (!digits.is_empty()).then_some(start..cursor.at)
}

fn quotient(text: &str, above: Ratio, below: Bytes<usize>) -> Result<Ratio, Mistake> {
    let written = text.get(below.clone()).unwrap_or_default();
    match written.parse::<u32>() {
        Ok(0) => Err(Mistake::new(
            AMOUNT_MALFORMED,
            below,
            "a fraction cannot have zero below the line",
        )),
        Ok(den) => Ok(above.checked_mul(Ratio::new(1, i128::from(den))).unwrap_or(above)),
        Err(_) => Err(Mistake::new(
            AMOUNT_OUT_OF_RANGE,
            below,
            format!("`{written}` is too large to stand below the line"),
        )),
    }
}

/// Digits as they are read, before and after the mark.
#[derive(Debug, Default, Clone, Copy)]
struct Digits {
    mantissa: i128,
    count: u32,
    significant: u32,
    decimals: u32,
    /// Zeros since the last other digit.
    zeros: u32,
    after_point: bool,
}

impl Digits {
    fn push(&mut self, digits: &str) {
        for digit in digits.bytes() {
            self.count += 1;
            self.zeros = if digit == b'0' { self.zeros + 1 } else { 0 };
            if self.count <= MOST_DIGITS {
                self.mantissa = self.mantissa * 10 + i128::from(digit - b'0');
            }
            if self.mantissa != 0 {
                self.significant += 1;
            }
            if self.after_point {
                self.decimals += 1;
            }
        }
    }

    fn point(&mut self) {
        self.after_point = true;
    }

    /// The number, unless it has too many digits or too large a power of ten.
    fn value(self, exponent: i64) -> Option<Ratio> {
        if self.count > MOST_DIGITS || exponent.abs() > MOST_EXPONENT {
            return None;
        }
        let power = exponent - i64::from(self.decimals);
        let ten = 10_i128.checked_pow(power.unsigned_abs() as u32)?;
        if power >= 0 {
            Some(Ratio::whole(self.mantissa.checked_mul(ten)?))
        } else {
            Some(Ratio::new(self.mantissa, ten))
        }
    }
}

/// Reads `e-3`; zero where there is none. Saturates.
fn exponent(cursor: &mut Cursor<'_>) -> i64 {
    let mut ahead = *cursor;
    if !ahead.take_any(&['e', 'E']) {
        return 0;
    }
    let negative = ahead.take_any(&['-', '−']);
    if !negative {
        ahead.take('+');
    }
    let digits = ahead.digits();
    if digits.is_empty() {
        return 0;
    }
    *cursor = ahead;
    let size = digits.parse::<i64>().unwrap_or(i64::MAX);
    if negative { -size } else { size }
}

/// The next group of three digits behind a thin or no-break space.
fn thousands(mut cursor: Cursor<'_>) -> Option<Bytes<usize>> {
    if !cursor.take_any(&['\u{2009}', '\u{202f}', '\u{a0}']) {
        return None;
    }
    let start = cursor.at;
    let digits = cursor.digits();
    // `1 125/1000` would be a mixed number.
    (digits.len() == 3 && below_line(cursor).is_none()).then_some(start..cursor.at)
}

fn followed_by_digit(cursor: Cursor<'_>) -> bool {
    cursor.rest().as_bytes().get(1).is_some_and(u8::is_ascii_digit)
}

/// The other decimal mark, or a second one.
fn wrong_mark(cursor: Cursor<'_>, start: usize, decimal: Decimal) -> Mistake {
    let tail = cursor.rest();
    let length = tail
        .bytes()
        .take_while(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b','))
        .count();
    let end = cursor.at
        + tail
            .get(..length)
            .unwrap_or_default()
            .trim_end_matches(['.', ','])
            .len();
    let token = cursor.text.get(start..end).unwrap_or_default();
    let mistake = Mistake::new(
        AMOUNT_MALFORMED,
        start..end,
        format!("`{token}` is not a number in this notebook"),
    );
    let (mark, other) = (decimal.mark(), decimal.other());
    let marks = token.matches(['.', ',']).count();
    let whole = |right: &str| {
        let before = cursor.text.get(..start).unwrap_or_default();
        let after = cursor.text.get(end..).unwrap_or_default();
        format!("{before}{right}{after}").trim().to_owned()
    };
    if marks > 1 {
        return mistake.help(format!(
            "write thousands without marks, and decimals behind `{mark}`"
        ));
    }
    let right = token.replace(other, mark.encode_utf8(&mut [0; 4]));
    let word = match decimal {
        Decimal::Point => "comma",
        Decimal::Comma => "point",
    };
    let (before, after) = token.split_once(other).unwrap_or((token, ""));
    if after.len() == 3 && (1..=3).contains(&before.len()) && before != "0" {
        return mistake.help(format!(
            "write {} for a thousand and more, or {} for a decimal",
            whole(&format!("{before}{after}")),
            whole(&right)
        ));
    }
    mistake
        .help(format!(
            "write {}, or say \"decimal: {word}\" in trayside.yaml",
            whole(&right)
        ))
        .instead(right)
}

/// What stands where a number should.
fn no_number(cursor: Cursor<'_>, start: usize) -> Mistake {
    let rest = cursor.rest();
    let word = rest.split(char::is_whitespace).next().unwrap_or_default();
    if word.is_empty() {
        return Mistake::new(
            AMOUNT_MALFORMED,
            start..cursor.text.len(),
            "a number is missing here",
        );
    }
    let at = start..cursor.at + word.len();
    let token = cursor.text.get(at.clone()).unwrap_or_default();
    let lower = word.to_lowercase();
    if ["inf", "infinity", "nan", "∞", ".inf", ".nan"].contains(&lower.as_str()) {
        return Mistake::new(AMOUNT_MALFORMED, at, format!("`{token}` is not an amount"));
    }
    Mistake::new(AMOUNT_MALFORMED, at, format!("`{token}` is not a number"))
}

fn take_vulgar(cursor: &mut Cursor<'_>) -> Option<Ratio> {
    let c = cursor.peek()?;
    let (above, below) = vulgar(c)?;
    cursor.at += c.len_utf8();
    Some(Ratio::new(above, below))
}

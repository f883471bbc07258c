//! Sizes of sheets.

use trayside::finding::slug::{
    AMOUNT_MALFORMED, AMOUNT_OUT_OF_RANGE, UNIT_MISSING, UNIT_UNKNOWN, WORD_UNKNOWN,
};
use trayside::units::{Style, parse_size};

#[test]
fn sizes_with_one_unit_or_two() {
    for (text, width, height) in [
        ("5×7 in", 127.0, 177.8),
        ("5x7in", 127.0, 177.8),
        ("5 × 7″", 127.0, 177.8),
        ("10 x 12.5 cm", 100.0, 125.0),
        ("100 mm × 125 mm", 100.0, 125.0),
        ("3x5 in", 76.2, 127.0),
        ("3 1/2 x 5 in", 88.9, 127.0),
        ("A6", 105.0, 148.0),
        ("a4", 210.0, 297.0),
        ("ID-1", 85.6, 53.98),
        ("  A7 ", 74.0, 105.0),
    ] {
        let size = parse_size(text, Style::default()).unwrap_or_else(|mistake| panic!("{text}: {mistake:?}"));
        assert_eq!(
            (size.width.millimetres(), size.height.millimetres()),
            (width, height),
            "{text}"
        );
        assert_eq!(size.written, text.trim());
    }
}

#[test]
fn sizes_that_are_none() {
    for (text, rule, word) in [
        ("", AMOUNT_MALFORMED, ""),
        ("5×7", UNIT_MISSING, "5×7"),
        ("5 in", AMOUNT_MALFORMED, "5 in"),
        ("A99", WORD_UNKNOWN, "A99"),
        ("5×7 inchs", UNIT_UNKNOWN, "inchs"),
        ("0×7 in", AMOUNT_OUT_OF_RANGE, "0"),
        ("5×7 in wide", AMOUNT_MALFORMED, "wide"),
    ] {
        let mistake = parse_size(text, Style::default()).expect_err(text);
        assert_eq!((mistake.rule, &text[mistake.at]), (rule, word), "{text}");
    }
}

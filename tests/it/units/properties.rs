//! What holds for every amount.

use proptest::prelude::{ProptestConfig, Strategy, any, prop_assert, prop_assert_eq, prop_oneof, proptest};
use trayside::units::{
    Decimal, Digits, Dimension, Language, Range, Style, System, Unit, parse, parse_size, show, show_in, units,
};

fn dimension() -> impl Strategy<Value = Dimension> {
    (0..Dimension::ALL.len()).prop_map(|index| Dimension::ALL[index])
}

fn unit() -> impl Strategy<Value = &'static Unit> {
    let all: Vec<&'static Unit> = units().collect();
    (0..all.len()).prop_map(move |index| all[index])
}

fn style() -> impl Strategy<Value = Style> {
    (any::<bool>(), any::<bool>()).prop_map(|(comma, us)| Style {
        decimal: if comma { Decimal::Comma } else { Decimal::Point },
        system: if us { System::UsCustomary } else { System::Metric },
        language: Language::English,
    })
}

/// Strings that look like amounts, and strings that do not.
fn text() -> impl Strategy<Value = String> {
    let scrap = prop_oneof![
        "[0-9]{1,4}",
        "[.,:+/*x×±–−-]",
        "[ \u{a0}\u{2009}\u{202f}]{1,2}",
        "(g|ml|tsp|h|min|s|°C|%|w/v|tablets|f/|EV|pH|ISO|stop|level|about|to|of|US|fl oz|½|e|1e9|K|in)",
        ".{0,3}",
    ];
    proptest::collection::vec(scrap, 0..9).prop_map(|scraps| scraps.concat())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2000, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn nothing_panics_and_every_place_is_inside(text in text(), accepts in proptest::collection::vec(dimension(), 0..4), style in style()) {
        match parse(&text, &accepts, style) {
            Ok(amount) => {
                prop_assert!(accepts.is_empty() || accepts.contains(&amount.dimension));
                prop_assert!(amount.range.is_finite());
                prop_assert!(amount.range.low <= amount.range.best && amount.range.best <= amount.range.high);
                prop_assert!(!amount.show(style).is_empty());
                prop_assert!(!amount.scaled(0.37).show(style).is_empty());
            }
            Err(mistake) => {
                prop_assert!(text.get(mistake.at.clone()).is_some(), "{:?} in {:?}", mistake, text);
                prop_assert!(!mistake.message.is_empty());
            }
        }
        if let Err(mistake) = parse_size(&text, style) {
            prop_assert!(text.get(mistake.at).is_some());
        }
    }

    #[test]
    fn what_is_shown_reads_back(dimension in dimension(), thousandths in 1_i64..100_000_000, wide in 0_i64..1000, digits in 1_u8..6, style in style()) {
        let scale = match dimension {
            Dimension::MassFraction | Dimension::VolumeFraction => 2e-9,
            Dimension::PH => 7e-8,
            _ => 1e-3,
        };
        let low = thousandths as f64 * scale;
        let range = Range::between(low, low * (1.0 + wide as f64 / 1000.0));
        let shown = show(range, dimension, Digits::Significant(digits), style);
        let again = parse(&shown, &[dimension], style);
        prop_assert!(again.is_ok(), "{} from {:?}: {:?}", shown, range, again);
        let again = again.unwrap().range;
        // Half a unit in the last digit; times are also rounded to what a clock shows.
        let mut close = 0.5 * libm_pow10(1 - i32::from(digits)) * 1.000_001;
        if dimension == Dimension::Time {
            close += if range.high > 600_000.0 { 0.08 } else { 0.015 };
        }
        for (was, is) in [(range.low, again.low), (range.high, again.high)] {
            prop_assert!((was - is).abs() <= close * was.abs() + 1e-12, "{} from {:?}", shown, range);
        }
    }

    #[test]
    fn what_was_written_reads_back(unit in unit(), hundredths in 1_i64..1_000_000, style in style()) {
        let value = match unit.dimension {
            Dimension::PH | Dimension::MassFraction | Dimension::VolumeFraction => hundredths / 10_000,
            _ => hundredths,
        } as f64 / 100.0;
        let shown = show_in(Range::exact(unit.to_canonical(value)), unit, Digits::Decimals(2), style);
        if unit.symbol.is_empty() || value == 0.0 {
            return Ok(());
        }
        let amount = parse(&shown, &[unit.dimension], style);
        prop_assert!(amount.is_ok(), "{}: {:?}", shown, amount);
        let amount = amount.unwrap();
        prop_assert_eq!(amount.unit.dimension, unit.dimension);
        prop_assert_eq!(amount.unit.factor, unit.factor, "{}", shown);
        let back = amount.unit.from_canonical(amount.range.best);
        prop_assert!((back - value).abs() <= 0.005_000_1 * value.abs().max(1.0), "{}: {}", shown, back);
        // Printing is stable: what was shown and read is shown the same again.
        prop_assert_eq!(amount.show(style), shown);
    }

    #[test]
    fn units_convert_there_and_back(unit in unit(), value in -1e9..1e9_f64) {
        let back = unit.from_canonical(unit.to_canonical(value));
        prop_assert!((back - value).abs() <= 1e-12 * value.abs().max(1000.0));
    }

    #[test]
    fn scaling_goes_there_and_back(unit in unit(), count in 1_u32..10_000, factor in 0.001..1000.0_f64) {
        let text = show_in(Range::exact(unit.to_canonical(f64::from(count))), unit, Digits::Decimals(0), Style::default());
        let Ok(amount) = parse(&text, &[unit.dimension], Style::default()) else {
            return Ok(()); // Shares above one, and the like.
        };
        let back = amount.scaled(factor).scaled(1.0 / factor);
        prop_assert!((back.range.best - amount.range.best).abs() <= 1e-12 * amount.range.best.abs());
    }

    #[test]
    fn a_product_holds_every_product(a in -1e3..1e3_f64, b in -1e3..1e3_f64, c in -1e3..1e3_f64, d in -1e3..1e3_f64, s in 0.0..1.0_f64, t in 0.0..1.0_f64) {
        let (x, y) = (Range::between(a, b), Range::between(c, d));
        let (p, q) = (x.low + s * x.width(), y.low + t * y.width());
        let slack = 1e-9;
        let holds = |range: Range, value: f64| range.low - slack <= value && value <= range.high + slack;
        prop_assert!(holds(x + y, p + q));
        prop_assert!(holds(x - y, p - q));
        prop_assert!(holds(x * y, p * q));
        if let Some(quotient) = x.checked_div(y) {
            prop_assert!(quotient.low <= p / q * (1.0 + slack) + slack || quotient.contains(p / q));
        }
    }
}

fn libm_pow10(power: i32) -> f64 {
    10_f64.powi(power)
}

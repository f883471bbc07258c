//! What numbers look like in print.

use trayside::units::{
    Decimal, Digits, Dimension, Language, Range, Style, System, number, parse, show, show_in, unit_named,
};

use Digits::{Decimals, Significant, Step};
use Dimension::{
    AmountOfSubstance, Angle, Area, Count, Dilution, ExposureValue, FNumber, Length, Mass, MassConcentration,
    MassFraction, Molality, Number, PH, Pressure, Share, Speed, Stops, Temperature, Time, Volume,
};

fn exact(value: f64) -> Range {
    Range::exact(value)
}

fn between(low: f64, high: f64) -> Range {
    Range::between(low, high)
}

#[test]
fn numbers_with_their_units() {
    let mut wrong = Vec::new();
    for (range, dimension, digits, expected) in [
        (exact(24.0), Mass, Significant(3), "24 g"),
        (exact(0.1), Mass, Significant(3), "0.1 g"),
        (exact(0.05), Mass, Significant(3), "50 mg"),
        (exact(1250.0), Mass, Significant(3), "1.25 kg"),
        (exact(29.96), Mass, Step(0.1), "30.0 g"),
        (exact(29.96), Mass, Step(1.0), "30 g"),
        (exact(33.0), Mass, Step(5.0), "35 g"),
        (exact(0.5), Volume, Significant(3), "500 ml"),
        (exact(0.3333), Volume, Step(0.005), "335 ml"),
        (exact(1.5), Volume, Significant(2), "1.5 l"),
        (between(0.03, 0.04), Volume, Significant(2), "30–40 ml"),
        (between(9.8, 10.6), PH, Decimals(1), "pH 9.8–10.6"),
        (exact(10.0), PH, Decimals(1), "pH 10.0"),
        (between(9.96, 10.01), PH, Decimals(1), "pH 10.0"),
        (exact(216.4), FNumber, Significant(3), "f/216"),
        (exact(12.5), ExposureValue, Decimals(1), "EV 12.5"),
        (exact(-2.0), ExposureValue, Decimals(0), "EV −2"),
        (exact(20.0), Temperature, Decimals(0), "20 °C"),
        (between(20.0, 24.0), Temperature, Significant(3), "20–24 °C"),
        (exact(-3.5), Temperature, Significant(2), "−3.5 °C"),
        (exact(0.05), Share, Significant(2), "5 %"),
        (exact(0.05), MassFraction, Significant(2), "5 % w/w"),
        (exact(9.0), Dilution, Significant(2), "1+9"),
        (exact(45.0), Angle, Significant(3), "45°"),
        (exact(0.5), Stops, Step(0.5), "1/2 stop"),
        (exact(1.32), Stops, Step(1.0 / 3.0), "1 1/3 stops"),
        (exact(-1.0), Stops, Step(0.5), "−1 stop"),
        (exact(0.7), Stops, Decimals(1), "0.7 stops"),
        (exact(6.0), Speed, Significant(2), "EI 6"),
        (exact(0.000_55), Length, Significant(3), "550 nm"),
        (exact(0.35), Length, Significant(2), "0.35 mm"),
        (exact(125.0), Length, Significant(3), "125 mm"),
        (exact(2500.0), Length, Significant(3), "2.5 m"),
        (exact(22_580.0), Area, Significant(3), "226 cm²"),
        (exact(0.012), AmountOfSubstance, Significant(2), "12 mmol"),
        (exact(0.5), Molality, Significant(2), "0.5 mol/kg"),
        (exact(30.0), MassConcentration, Significant(3), "30 g/l"),
        (exact(0.000_4), Pressure, Significant(2), "0.0004 atm"),
        (exact(12_345.0), Number, Significant(3), "12300"),
        (exact(9.996), Number, Significant(3), "10"),
        (exact(0.0), Mass, Significant(3), "0 g"),
        (exact(-0.0), Number, Decimals(1), "0.0"),
        (exact(-0.04), Number, Decimals(1), "0.0"),
        (exact(2.675), Number, Decimals(2), "2.68"),
        (exact(0.5), Number, Decimals(0), "1"),
        (exact(-2.5), Number, Decimals(0), "−3"),
        (exact(1.005), Number, Decimals(2), "1.01"),
        (exact(f64::INFINITY), Number, Decimals(2), "∞"),
        (exact(6.0), Count, Significant(3), "6"),
    ] {
        let shown = show(range, dimension, digits, Style::default()).replace('\u{a0}', " ");
        if shown != expected {
            wrong.push(format!("{shown:?} for {expected:?}"));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn times() {
    let mut wrong = Vec::new();
    for (range, digits, expected) in [
        (exact(0.25), Significant(2), "0.25 s"),
        (exact(45.0), Significant(2), "45 s"),
        (exact(59.7), Significant(2), "1 min"),
        (exact(240.0), Significant(2), "4 min"),
        (exact(270.0), Significant(3), "4 min 30 s"),
        (exact(5400.0), Significant(3), "1 h 30 min"),
        (exact(5432.0), Significant(4), "1 h 31 min"),
        (exact(5432.0), Step(1.0), "1 h 30 min 32 s"),
        (exact(3599.9), Step(1.0), "1 h"),
        (exact(259_200.0), Significant(3), "3 days"),
        (exact(187_200.0), Significant(3), "2 days 4 h"),
        (exact(2_592_000.0), Significant(3), "30 days"),
        (exact(86_400.0), Significant(3), "24 h"),
        (between(480.0, 720.0), Significant(2), "8–12 min"),
        (between(30.0, 45.0), Significant(2), "30–45 s"),
        (between(45.0, 90.0), Significant(2), "45–90 s"),
        (between(270.0, 390.0), Significant(3), "4 min 30 s – 6 min 30 s"),
        (between(3600.0, 7200.0), Significant(2), "1–2 h"),
        (between(60.0, 120.0), Significant(2), "1–2 min"),
        (between(259_200.0, 432_000.0), Significant(2), "3–5 days"),
        (between(239.9, 240.1), Significant(3), "4 min"),
        (exact(0.0), Significant(3), "0 s"),
        (exact(-90.0), Step(1.0), "−1 min 30 s"),
    ] {
        let shown = show(range, Time, digits, Style::default()).replace('\u{a0}', " ");
        if shown != expected {
            wrong.push(format!("{shown:?} for {expected:?}"));
        }
    }
    assert!(wrong.is_empty(), "\n{}", wrong.join("\n"));
}

#[test]
fn commas_where_the_notebook_wants_them() {
    let comma = Style {
        decimal: Decimal::Comma,
        system: System::Metric,
        language: Language::English,
    };
    assert_eq!(
        show(between(9.8, 10.6), PH, Decimals(1), comma),
        "pH\u{a0}9,8–10,6"
    );
    assert_eq!(number(exact(1234.5), Decimals(1), comma), "1234,5");
}

#[test]
fn a_unit_can_be_asked_for() {
    let inch = unit_named("inches", Length, System::Metric).unwrap();
    assert_eq!(
        show_in(exact(127.0), inch, Significant(3), Style::default()),
        "5\u{a0}in"
    );
    let fahrenheit = unit_named("°F", Temperature, System::Metric).unwrap();
    assert_eq!(
        show_in(exact(20.0), fahrenheit, Decimals(0), Style::default()),
        "68\u{a0}°F"
    );
}

#[test]
fn amounts_are_printed_as_they_were_written() {
    for (text, dimension, expected) in [
        ("24 g", Mass, "24 g"),
        ("24.0 gram", Mass, "24.0 g"),
        ("0.10 g", Mass, "0.10 g"),
        ("30-40 ml", Volume, "30–40 ml"),
        ("20±2 C", Temperature, "20 ± 2 °C"),
        ("68 ± 5 °F", Temperature, "68 ± 5 °F"),
        ("1½ tsp", Volume, "1 1/2 tsp"),
        ("1/2 - 1 tsp", Volume, "1/2–1 tsp"),
        ("1h30min", Time, "1 h 30 min"),
        ("90 s", Time, "90 s"),
        ("1/60 s", Time, "1/60 s"),
        ("+1/2 stop", Stops, "+1/2 stop"),
        ("-1 stop", Stops, "−1 stop"),
        ("1 tablets", Count, "1 tablet"),
        ("6 tablet", Count, "6 tablets"),
        ("1/2 tablet", Count, "1/2 tablet"),
        ("f216", FNumber, "f/216"),
        ("5 % w/v", MassConcentration, "5 % w/v"),
        ("1+9", Dilution, "1+9"),
        ("2 years", Time, "2 years"),
        ("2 cups", Volume, "2 cups"),
        ("500 mg–1 g", Mass, "500–1000 mg"),
        ("~30 g", Mass, "about 30 g"),
        ("30 g ± 5 %", Mass, "30.0 ± 1.5 g"),
    ] {
        let amount = parse(text, &[dimension], Style::default()).unwrap();
        assert_eq!(
            amount.show(Style::default()).replace('\u{a0}', " "),
            expected,
            "{text}"
        );
    }
}

#[test]
fn scaled_amounts_stay_readable() {
    for (text, dimension, factor, expected) in [
        ("24 g", Mass, 0.5, "12 g"),
        ("24.0 g", Mass, 0.5, "12.0 g"),
        ("5 g", Mass, 0.1, "0.5 g"),
        ("5 g", Mass, 0.25, "1.25 g"),
        ("5 g", Mass, 0.01, "50 mg"),
        ("500 mg", Mass, 6.0, "3 g"),
        ("600 g", Mass, 2.0, "1.2 kg"),
        ("1000 ml", Volume, 1.0 / 3.0, "333 ml"),
        ("1 l", Volume, 0.5, "500 ml"),
        ("500 ml", Volume, 3.0, "1.5 l"),
        ("30–40 ml", Volume, 0.5, "15–20 ml"),
        ("1 1/2 tsp", Volume, 0.5, "3/4 tsp"),
        ("1 tsp", Volume, 3.0, "3 tsp"),
        ("6 × 500 mg tablets", Count, 0.5, "3 × 500 mg tablets"),
        ("6 tablets", Count, 0.5, "3 tablets"),
        ("90 s", Time, 2.0, "3 min"),
        ("90 s", Time, 1.5, "2 min 15 s"),
        ("10 min", Time, 0.05, "30 s"),
        ("20 ± 2 g", Mass, 0.5, "10 ± 1 g"),
        ("5 % w/v", MassConcentration, 0.5, "2.5 % w/v"),
        ("8–12 min", Time, 0.33, "2 min 38 s – 3 min 58 s"),
    ] {
        let amount = parse(text, &[dimension], Style::default())
            .unwrap()
            .scaled(factor);
        let shown = amount.show(Style::default());
        assert_eq!(shown.replace('\u{a0}', " "), expected, "{text} × {factor}");
        assert_eq!(amount.written.text, shown);
    }
}

//! Amounts as people write them, and what they come to in canonical units.

use trayside::units::{Amount, Decimal, Dimension, Form, Heap, Language, Range, Style, System, parse};

use Dimension::{
    Angle, Area, ColourTemperature, Count, Density, Dilution, ExposureValue, FNumber, Illuminance, Length,
    LuminousExposure, Mass, MassConcentration, MassFraction, MassPerArea, Molality, Molarity, Number, PH,
    Pressure, Resolution, Share, Speed, Stops, Temperature, TemperatureDifference, Time, Volume,
    VolumeFraction, VolumePerArea,
};

const METRIC: Style = Style {
    decimal: Decimal::Point,
    system: System::Metric,
    language: Language::English,
};

fn read(text: &str, dimension: Dimension, style: Style) -> Amount {
    parse(text, &[dimension], style).expect(text)
}

fn check(cases: &[(&str, Dimension, f64, f64)]) {
    for &(text, dimension, low, high) in cases {
        let amount = read(text, dimension, METRIC);
        assert_eq!(amount.dimension, dimension, "{text}");
        assert_eq!((amount.range.low, amount.range.high), (low, high), "{text}");
        assert_eq!(amount.written.text, text.trim(), "{text}");
    }
}

#[test]
fn every_dimension_reads_its_example() {
    for dimension in Dimension::ALL {
        assert_eq!(read(dimension.example(), dimension, METRIC).dimension, dimension);
        // Without knowing what is wanted a name that several share may mean another.
        assert!(
            parse(dimension.example(), &[], METRIC).is_ok(),
            "{}",
            dimension.example()
        );
    }
}

#[test]
fn plain_amounts() {
    check(&[
        ("24 g", Mass, 24.0, 24.0),
        ("0.1 g", Mass, 0.1, 0.1),
        ("200ml", Volume, 0.2, 0.2),
        ("  500\u{2009}ml ", Volume, 0.5, 0.5),
        ("500\u{a0}mL", Volume, 0.5, 0.5),
        ("1.5 litres", Volume, 1.5, 1.5),
        ("33 cl", Volume, 0.33, 0.33),
        ("2 dl", Volume, 0.2, 0.2),
        ("100 cm³", Volume, 0.1, 0.1),
        ("100cm3", Volume, 0.1, 0.1),
        ("0.5 mol", Dimension::AmountOfSubstance, 0.5, 0.5),
        ("25 mmol", Dimension::AmountOfSubstance, 0.025, 0.025),
        ("0.35 mm", Length, 0.35, 0.35),
        ("350 µm", Length, 0.35, 0.35),
        ("350 μm", Length, 0.35, 0.35),
        ("550 nm", Length, 0.000_55, 0.000_55),
        ("7″", Length, 177.8, 177.8),
        ("5 in.", Length, 127.0, 127.0),
        ("5 ft 3 in", Length, 1600.2, 1600.2),
        ("320 cm²", Area, 32_000.0, 32_000.0),
        ("20 °C", Temperature, 20.0, 20.0),
        ("20 C", Temperature, 20.0, 20.0),
        ("68 °F", Temperature, 20.0, 20.0),
        ("293.15 K", Temperature, 20.0, 20.0),
        ("−5 °C", Temperature, -5.0, -5.0),
        ("9 °F", TemperatureDifference, 5.0, 5.0),
        ("2 K", TemperatureDifference, 2.0, 2.0),
        ("45°", Angle, 45.0, 45.0),
        ("30 g/l", MassConcentration, 30.0, 30.0),
        ("120 mg/l", MassConcentration, 0.12, 0.12),
        ("5 g/100 ml", MassConcentration, 50.0, 50.0),
        ("5 % w/v", MassConcentration, 50.0, 50.0),
        ("5% w/w", MassFraction, 0.05, 0.05),
        ("20 g/kg", MassFraction, 0.02, 0.02),
        ("5 % v/v", VolumeFraction, 0.05, 0.05),
        ("10 %", Share, 0.1, 0.1),
        ("0.1 mol/l", Molarity, 0.1, 0.1),
        ("2 M", Molarity, 2.0, 2.0),
        ("2.5 mmol/l", Molarity, 0.0025, 0.0025),
        ("0.05 mol/kg", Molality, 0.05, 0.05),
        ("f/216", FNumber, 216.0, 216.0),
        ("f216", FNumber, 216.0, 216.0),
        ("ƒ/5.6", FNumber, 5.6, 5.6),
        ("EV 12.5", ExposureValue, 12.5, 12.5),
        ("EV -2", ExposureValue, -2.0, -2.0),
        ("12.5 EV", ExposureValue, 12.5, 12.5),
        ("8000 lx", Illuminance, 8000.0, 8000.0),
        ("8 klx", Illuminance, 8000.0, 8000.0),
        ("2 lx s", LuminousExposure, 2.0, 2.0),
        ("+1/2 stop", Stops, 0.5, 0.5),
        ("-1 stop", Stops, -1.0, -1.0),
        ("−1 1/3 stops", Stops, -4.0 / 3.0, -4.0 / 3.0),
        ("6", Speed, 6.0, 6.0),
        ("ISO 6", Speed, 6.0, 6.0),
        ("EI 6", Speed, 6.0, 6.0),
        ("ISO P500", Speed, 500.0, 500.0),
        ("2700 K", ColourTemperature, 2700.0, 2700.0),
        ("0.01 atm", Pressure, 0.01, 0.01),
        ("101.325 kPa", Pressure, 1.0, 1.0),
        ("0.9 g/ml", Density, 0.9, 0.9),
        ("1050 g/l", Density, 1.05, 1.05),
        ("1.6 g/m²", MassPerArea, 1.6, 1.6),
        ("30 ml/m2", VolumePerArea, 30.0, 30.0),
        ("2.5", Number, 2.5, 2.5),
        ("pH 9.5", PH, 9.5, 9.5),
        ("9.5", PH, 9.5, 9.5),
        ("600 dpi", Resolution, 600.0, 600.0),
        ("6 tablets", Count, 6.0, 6.0),
        ("2 tea bags", Count, 2.0, 2.0),
        ("12", Count, 12.0, 12.0),
    ]);
}

#[test]
fn numbers_in_every_dress() {
    check(&[
        ("½ g", Mass, 0.5, 0.5),
        ("1½ g", Mass, 1.5, 1.5),
        ("1 ½ g", Mass, 1.5, 1.5),
        ("1/2 g", Mass, 0.5, 0.5),
        ("1 1/2 g", Mass, 1.5, 1.5),
        ("1\u{a0}1/2 g", Mass, 1.5, 1.5),
        ("1 h 30 min", Time, 5400.0, 5400.0),
        ("1/60 s", Time, 1.0 / 60.0, 1.0 / 60.0),
        ("1\u{2009}500 ml", Volume, 1.5, 1.5),
        ("1\u{202f}000\u{202f}000 mg", Mass, 1000.0, 1000.0),
        ("2e-3 mol/l", Molarity, 0.002, 0.002),
        (".5 g", Mass, 0.5, 0.5),
        ("1.20e2 g", Mass, 120.0, 120.0),
    ]);
    let comma = Style {
        decimal: Decimal::Comma,
        ..METRIC
    };
    assert_eq!(read("1,5 g", Mass, comma).range, Range::exact(1.5));
    assert_eq!(read("1,5 g", Mass, comma).show(comma), "1,5\u{a0}g");
}

#[test]
fn ranges_and_tolerances() {
    check(&[
        ("30–40 ml", Volume, 0.03, 0.04),
        ("30-40 ml", Volume, 0.03, 0.04),
        ("30 to 40 ml", Volume, 0.03, 0.04),
        ("24 g–30 g", Mass, 24.0, 30.0),
        ("500 mg – 1 g", Mass, 0.5, 1.0),
        ("20 ± 2 °C", Temperature, 18.0, 22.0),
        ("20 °C ± 2 K", Temperature, 18.0, 22.0),
        ("20 °C +- 2 °C", Temperature, 18.0, 22.0),
        ("68 ± 9 °F", Temperature, 15.0, 25.0),
        ("30 g ± 10 %", Mass, 27.0, 33.0),
        ("−1–+1 stop", Stops, -1.0, 1.0),
        ("8–12 min", Time, 480.0, 720.0),
        ("4 min 30 s – 6 min", Time, 270.0, 360.0),
        ("9.8–10.6", PH, 9.8, 10.6),
        ("f/180–f/220", FNumber, 180.0, 220.0),
        ("f/180–220", FNumber, 180.0, 220.0),
        ("EV 12–13", ExposureValue, 12.0, 13.0),
        ("1–3 % w/w", MassFraction, 0.01, 0.03),
        ("1/2-1 tsp", Volume, 0.0025, 0.005),
        ("1+9–1+14", Dilution, 9.0, 14.0),
        ("20–24 °C", Temperature, 20.0, 24.0),
    ]);
    assert_eq!(
        read("20 ± 2 °C", Temperature, METRIC).written.form,
        Form::PlusMinus
    );
}

#[test]
fn times() {
    check(&[
        ("90 s", Time, 90.0, 90.0),
        ("1h30min", Time, 5400.0, 5400.0),
        ("1 hr 5 mins 3 sec", Time, 3903.0, 3903.0),
        ("2 days", Time, 172_800.0, 172_800.0),
        ("1 day 6 h", Time, 108_000.0, 108_000.0),
        ("3 weeks", Time, 1_814_400.0, 1_814_400.0),
        ("6 months", Time, 15_768_000.0, 15_768_000.0),
        ("1 year", Time, 31_536_000.0, 31_536_000.0),
    ]);
}

#[test]
fn dilutions() {
    check(&[
        ("1+9", Dilution, 9.0, 9.0),
        ("1 + 9", Dilution, 9.0, 9.0),
        ("2+3", Dilution, 1.5, 1.5),
        ("1+0", Dilution, 0.0, 0.0),
    ]);
}

#[test]
fn spoons_are_those_of_the_notebook() {
    let us = Style {
        system: System::UsCustomary,
        ..METRIC
    };
    check(&[
        ("1 tsp", Volume, 0.005, 0.005),
        ("2 tablespoons", Volume, 0.03, 0.03),
        ("1 cup", Volume, 0.25, 0.25),
        ("1 US tsp", Volume, 0.004_928_921_593_75, 0.004_928_921_593_75),
        ("1 UK pint", Volume, 0.568_261_25, 0.568_261_25),
        ("1 US pint", Volume, 0.473_176_473, 0.473_176_473),
        ("20 drops", Volume, 0.001, 0.001),
        ("2 level tsp", Volume, 0.01, 0.01),
    ]);
    assert_eq!(read("1 cup", Volume, us).range.best, 0.236_588_236_5);
    assert_eq!(read("1 fl oz", Volume, us).range.best, 0.029_573_529_562_5);
    assert_eq!(read("1 metric tsp", Volume, us).range.best, 0.005);
    // The table's unit is the same, what it is called depends on the notebook.
    let spoon = read("1 1/2 tsp", Volume, METRIC);
    assert_eq!(spoon.show(METRIC), "1\u{a0}1/2\u{a0}tsp");
    assert_eq!(spoon.show(us), "1\u{a0}1/2\u{a0}metric tsp");
    let heaped = read("2 heaped tsp", Volume, METRIC);
    assert_eq!(heaped.heap, Heap::Heaped);
    assert_eq!((heaped.range.low, heaped.range.high), (0.0125, 0.015));
    assert_eq!(heaped.show(METRIC), "2\u{a0}heaped\u{a0}tsp");
}

#[test]
fn multiples_keep_what_each_is() {
    for text in [
        "6 × 500 mg tablets",
        "6 x 500 mg tablets",
        "6×500mg tablets",
        "6 tablets of 500 mg",
    ] {
        let amount = read(text, Count, METRIC);
        assert_eq!(amount.range, Range::exact(6.0), "{text}");
        assert_eq!(amount.unit.singular, "tablet", "{text}");
        let each = amount.each.as_deref().unwrap();
        assert_eq!((each.dimension, each.range.best), (Mass, 0.5), "{text}");
        assert_eq!(each.written.text.replace(' ', ""), "500mg");
        assert_eq!(amount.show(METRIC), "6\u{a0}×\u{a0}500\u{a0}mg tablets", "{text}");
    }
    let mass = read("6 × 500 mg", Mass, METRIC);
    assert_eq!(mass.range, Range::exact(3.0));
    assert_eq!(mass.show(METRIC), "6\u{a0}×\u{a0}500\u{a0}mg");
    let either = parse("6 × 500 mg", &[Mass, Count], METRIC).unwrap();
    assert_eq!(either.dimension, Count);
    let bracket = read("5 x 2/3 stop", Count, METRIC);
    assert_eq!(bracket.each.unwrap().range.best, 2.0 / 3.0);
}

#[test]
fn about_is_kept() {
    for text in [
        "about 30 g",
        "ca. 30 g",
        "ca 30 g",
        "~30 g",
        "approx. 30 g",
        "circa 30 g",
        "c. 30 g",
    ] {
        let amount = read(text, Mass, METRIC);
        assert!(amount.about, "{text}");
        assert_eq!(amount.range, Range::exact(30.0));
        assert_eq!(amount.show(METRIC), "about 30\u{a0}g");
    }
    assert!(!read("30 g", Mass, METRIC).about);
}

#[test]
fn a_shared_name_means_what_is_wanted() {
    let first = |text: &str, accepts: &[Dimension]| parse(text, accepts, METRIC).unwrap().dimension;
    assert_eq!(
        first("300 K", &[ColourTemperature, Temperature]),
        ColourTemperature
    );
    assert_eq!(first("300 K", &[Temperature, ColourTemperature]), Temperature);
    assert_eq!(first("2 °C", &[TemperatureDifference]), TemperatureDifference);
    assert_eq!(first("900 g/l", &[Density]), Density);
    assert_eq!(first("900 g/l", &[]), MassConcentration);
}

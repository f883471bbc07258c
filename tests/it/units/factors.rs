//! Every factor of the table against a source outside the project.
//!
//! Where the crate `uom` has the unit, its factor is the reference. The others are compared with NIST Special
//! Publication 811 (2008), appendix B, or, where that has none, with the definition that stands beside the number.

use std::collections::BTreeMap;

use trayside::units::{Dimension, System, Unit, unit_named, units};
use uom::si::f64::{
    AmountOfSubstance, Angle, Area, Length, Mass, MassConcentration, MassDensity, Molality,
    MolarConcentration, Pressure, TemperatureInterval, ThermodynamicTemperature, Time, Volume,
};
use uom::si::{
    amount_of_substance as substance, angle, area, length, mass, mass_concentration as concentration,
    mass_density as density, molality, molar_concentration as molar, pressure,
    temperature_interval as interval, thermodynamic_temperature as temperature, time, volume,
};

fn unit(symbol: &str, dimension: Dimension) -> &'static Unit {
    unit_named(symbol, dimension, System::Metric).expect(symbol)
}

/// One of each unit in the canonical unit of its dimension, as `uom` has it.
fn from_uom() -> Vec<(Dimension, &'static str, f64)> {
    macro_rules! rows {
        ($dimension:ident, $quantity:ident, $canonical:path; $($symbol:literal = $unit:path),* $(,)?) => {
            [$((Dimension::$dimension, $symbol, $quantity::new::<$unit>(1.0).get::<$canonical>())),*]
        };
    }
    let mut all = Vec::new();
    all.extend(rows![Mass, Mass, mass::gram;
        "g" = mass::gram, "mg" = mass::milligram, "kg" = mass::kilogram, "µg" = mass::microgram,
        "oz" = mass::ounce, "lb" = mass::pound, "grain" = mass::grain]);
    all.extend(rows![Volume, Volume, volume::liter;
        "l" = volume::liter, "ml" = volume::milliliter, "cl" = volume::centiliter, "dl" = volume::deciliter,
        "µl" = volume::microliter, "m³" = volume::cubic_meter, "US tsp" = volume::teaspoon,
        "US tbsp" = volume::tablespoon, "US cup" = volume::cup, "US fl oz" = volume::fluid_ounce,
        "US pint" = volume::pint_liquid, "US quart" = volume::quart_liquid, "US gallon" = volume::gallon,
        "imperial gallon" = volume::gallon_imperial, "imperial fl oz" = volume::fluid_ounce_imperial]);
    all.extend(rows![Time, Time, time::second;
        "s" = time::second, "ms" = time::millisecond, "min" = time::minute, "h" = time::hour, "day" = time::day,
        "year" = time::year]);
    all.extend(rows![Length, Length, length::millimeter;
        "mm" = length::millimeter, "cm" = length::centimeter, "m" = length::meter, "µm" = length::micrometer,
        "nm" = length::nanometer, "km" = length::kilometer, "in" = length::inch, "ft" = length::foot,
        "yd" = length::yard, "thou" = length::mil]);
    all.extend(rows![Area, Area, area::square_millimeter;
        "mm²" = area::square_millimeter, "cm²" = area::square_centimeter, "m²" = area::square_meter,
        "in²" = area::square_inch]);
    all.extend(rows![Angle, Angle, angle::degree; "°" = angle::degree]);
    all.extend(
        rows![TemperatureDifference, TemperatureInterval, interval::kelvin;
        "K" = interval::kelvin, "°C" = interval::degree_celsius, "°F" = interval::degree_fahrenheit],
    );
    all.extend(
        rows![Temperature, ThermodynamicTemperature, temperature::degree_celsius;
        "K" = temperature::kelvin, "°C" = temperature::degree_celsius, "°F" = temperature::degree_fahrenheit],
    );
    all.extend(rows![AmountOfSubstance, AmountOfSubstance, substance::mole;
        "mol" = substance::mole, "mmol" = substance::millimole, "µmol" = substance::micromole]);
    all.extend(
        rows![MassConcentration, MassConcentration, concentration::gram_per_liter;
        "g/l" = concentration::gram_per_liter, "mg/l" = concentration::milligram_per_liter,
        "g/100 ml" = concentration::gram_per_deciliter],
    );
    all.extend(rows![Density, MassDensity, density::gram_per_cubic_centimeter;
        "g/ml" = density::gram_per_cubic_centimeter, "kg/m³" = density::kilogram_per_cubic_meter]);
    all.extend(rows![Molarity, MolarConcentration, molar::mole_per_liter;
        "mol/l" = molar::mole_per_liter, "mmol/l" = molar::millimole_per_liter]);
    all.extend(rows![Molality, Molality, molality::mole_per_kilogram;
        "mol/kg" = molality::mole_per_kilogram]);
    all.extend(rows![Pressure, Pressure, pressure::atmosphere;
        "atm" = pressure::atmosphere, "kPa" = pressure::kilopascal, "hPa" = pressure::hectopascal,
        "Pa" = pressure::pascal, "bar" = pressure::bar]);
    all
}

/// One of each unit that `uom` does not have, in the canonical unit.
const OTHERS: &[(Dimension, &str, f64, &str)] = &[
    // SP 811 B.8: pint [Canadian and U.K.] 5.682 612 E-04 m³ is from memory, unverified; the gallon, 4.546 09 E-03, is exact.
    (
        Dimension::Volume,
        "imperial pint",
        4.546_09 / 8.0,
        "an eighth of a gallon",
    ),
    (
        Dimension::Volume,
        "imperial quart",
        4.546_09 / 4.0,
        "a quarter of a gallon",
    ),
    (
        Dimension::Volume,
        "imperial cup",
        4.546_09 / 16.0,
        "ten fluid ounces; from memory, unverified",
    ),
    (
        Dimension::Volume,
        "imperial tbsp",
        4.546_09 / 256.0,
        "five eighths of a fluid ounce; from memory, unverified",
    ),
    (
        Dimension::Volume,
        "imperial tsp",
        4.546_09 / 768.0,
        "a third of a tablespoon; from memory, unverified",
    ),
    (
        Dimension::Volume,
        "metric tsp",
        0.005,
        "common practice, no source",
    ),
    (
        Dimension::Volume,
        "metric tbsp",
        0.015,
        "common practice, no source",
    ),
    (
        Dimension::Volume,
        "metric cup",
        0.25,
        "common practice, no source",
    ),
    (Dimension::Volume, "drop", 0.000_05, "common practice, no source"),
    (Dimension::Time, "week", 604_800.0, "seven days"),
    (
        Dimension::Time,
        "month",
        2_628_000.0,
        "a twelfth of a year of 365 days; common practice, no source",
    ),
    // SP 811 B.8: footcandle 1.076 391 E+01 lux (from memory, unverified); exactly one over 0.3048².
    (
        Dimension::Illuminance,
        "fc",
        1.0 / (0.3048 * 0.3048),
        "one lumen on a square foot",
    ),
    (Dimension::Illuminance, "lx", 1.0, "canonical"),
    (Dimension::Illuminance, "klx", 1000.0, "SI prefix"),
    (Dimension::LuminousExposure, "lx s", 1.0, "canonical"),
    (Dimension::MassConcentration, "% w/v", 10.0, "one gram in 100 ml"),
    (Dimension::Molality, "mmol/kg", 0.001, "SI prefix"),
    (Dimension::MassFraction, "% w/w", 0.01, "definition"),
    (Dimension::MassFraction, "g/kg", 0.001, "SI prefix"),
    (Dimension::MassFraction, "mg/kg", 0.000_001, "SI prefix"),
    (Dimension::MassFraction, "mg/g", 0.001, "SI prefix"),
    (Dimension::MassFraction, "g/g", 1.0, "canonical"),
    (Dimension::VolumeFraction, "% v/v", 0.01, "definition"),
    (Dimension::VolumeFraction, "ml/l", 0.001, "SI prefix"),
    (
        Dimension::Molarity,
        "°dH",
        0.01 / 56.077,
        "10 mg of CaO in a litre; molar mass by IUPAC atomic weights",
    ),
    (
        Dimension::Molarity,
        "°fH",
        0.01 / 100.086,
        "10 mg of CaCO3 in a litre; molar mass by IUPAC atomic weights",
    ),
    (Dimension::Share, "%", 0.01, "definition"),
    (Dimension::MassPerArea, "g/m²", 1.0, "canonical"),
    (Dimension::MassPerArea, "mg/m²", 0.001, "SI prefix"),
    (Dimension::VolumePerArea, "ml/m²", 1.0, "canonical"),
];

#[test]
fn every_factor_has_an_outside_reference() {
    let mut known: BTreeMap<(Dimension, &str), f64> = BTreeMap::new();
    for (dimension, symbol, value) in from_uom() {
        known.insert((dimension, symbol), value);
    }
    for &(dimension, symbol, value, _) in OTHERS {
        known.insert((dimension, symbol), value);
    }
    for unit in units() {
        let counted_alone = matches!(
            unit.dimension,
            Dimension::Count
                | Dimension::Number
                | Dimension::PH
                | Dimension::Dilution
                | Dimension::FNumber
                | Dimension::ExposureValue
                | Dimension::Speed
                | Dimension::Stops
                | Dimension::ColourTemperature
                | Dimension::Resolution
        );
        if counted_alone {
            assert_eq!(unit.to_canonical(3.5), 3.5, "{}", unit.symbol);
            continue;
        }
        let expected = known
            .remove(&(unit.dimension, unit.symbol))
            .unwrap_or_else(|| panic!("`{}` has no reference", unit.symbol));
        let own = unit.to_canonical(1.0);
        // `uom` keeps ounces, teaspoons and the like to seven digits or more.
        assert!(
            (own - expected).abs() <= 1e-6 * expected.abs().max(1e-9) + 1e-12,
            "`{}`: {own}, reference {expected}",
            unit.symbol
        );
    }
    assert!(known.is_empty(), "no such unit: {known:?}");
}

/// Figures of NIST Special Publication 811 (2008), appendix B, that are exact there.
#[test]
fn exact_figures_of_sp_811() {
    for (symbol, dimension, exact) in [
        ("in", Dimension::Length, 25.4),
        ("ft", Dimension::Length, 304.8),
        ("yd", Dimension::Length, 914.4),
        ("lb", Dimension::Mass, 453.592_37),
        ("oz", Dimension::Mass, 28.349_523_125),
        ("grain", Dimension::Mass, 0.064_798_91),
        ("imperial gallon", Dimension::Volume, 4.546_09),
        ("US gallon", Dimension::Volume, 3.785_411_784),
        ("min", Dimension::Time, 60.0),
        ("h", Dimension::Time, 3600.0),
        ("day", Dimension::Time, 86_400.0),
        ("in²", Dimension::Area, 645.16),
    ] {
        assert_eq!(unit(symbol, dimension).factor.to_f64(), exact, "{symbol}");
    }
    assert_eq!(unit("Pa", Dimension::Pressure).from_canonical(1.0), 101_325.0);
    assert_eq!(unit("°F", Dimension::Temperature).to_canonical(212.0), 100.0);
    assert_eq!(unit("°F", Dimension::Temperature).to_canonical(-40.0), -40.0);
}

#[test]
fn kitchen_measures_nest() {
    let volume = |symbol: &str| unit(symbol, Dimension::Volume).factor.to_f64();
    for system in ["US", "imperial"] {
        let of = |name: &str| volume(&format!("{system} {name}"));
        assert!((of("tbsp") / of("tsp") - 3.0).abs() < 1e-12);
        assert!((of("gallon") / of("quart") - 4.0).abs() < 1e-12);
        assert!((of("quart") / of("pint") - 2.0).abs() < 1e-12);
    }
    assert!((volume("US cup") / volume("US tbsp") - 16.0).abs() < 1e-12);
    assert!((volume("US pint") / volume("US fl oz") - 16.0).abs() < 1e-12);
    assert!((volume("imperial pint") / volume("imperial fl oz") - 20.0).abs() < 1e-12);
}

#[test]
fn names_are_unique_within_a_dimension() {
    let mut seen: BTreeMap<(Dimension, &str), &str> = BTreeMap::new();
    for unit in units() {
        let mut names = vec![unit.symbol, unit.singular, unit.plural];
        names.extend(unit.names);
        names.sort_unstable();
        names.dedup();
        for name in names.into_iter().filter(|name| !name.is_empty()) {
            if let Some(other) = seen.insert((unit.dimension, name), unit.symbol) {
                panic!("`{name}` is both `{other}` and `{}`", unit.symbol);
            }
        }
        assert!(!unit.factor.is_zero(), "{}", unit.symbol);
    }
}

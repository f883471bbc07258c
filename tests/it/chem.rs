//! The chemistry of baths against published tables and engines, through the library's own interface.
//!
//! Bath numbers without another source come from an independent implementation of the same published equations with the
//! parameters of `src/chem/data/`; what they check is the code, not nature.

use trayside::chem::{
    Bath, BathWithRanges, CannotSolve, Component, GasMode, Input, Warning, agent_shares, amount_to_reach,
    band, buffer_capacity, carry_over_limit, cited, equivalent_amount, sheets_until, solve, titration,
    unbuffered, water_for_volume,
};
use trayside::pantry::{Formula, Pantry};
use trayside::units::Range;
use trayside::units::scalar::{AmountOfSubstance, Mass, Pressure, Temperature, Volume};

pub(crate) fn component(name: &str) -> Component {
    Component::named(name).unwrap_or_else(|error| panic!("{error}"))
}

/// Moles of each in a kilogram of water in all.
pub(crate) fn bath(celsius: f64, terms: &[(&str, f64)]) -> Bath {
    let water = Mass::from_kilograms(1.0);
    let start = Bath::new(Temperature::from_celsius(celsius), water);
    let filled = terms.iter().fold(start, |bath, &(name, moles)| {
        bath.add(&component(name), AmountOfSubstance::from_moles(moles))
    });
    filled.with_water(water)
}

/// Grams of each put into a kilogram of water; crystals bring theirs.
fn weighed(terms: &[(&str, f64)]) -> Bath {
    let start = Bath::new(Temperature::from_celsius(20.0), Mass::from_kilograms(1.0));
    terms.iter().fold(start, |bath, &(name, grams)| {
        let component = component(name);
        let moles = grams / component.molar_mass().unwrap();
        bath.add(&component, AmountOfSubstance::from_moles(moles))
    })
}

fn ph(bath: &Bath, gas: GasMode) -> f64 {
    solve(bath, gas).unwrap_or_else(|error| panic!("{error}")).ph()
}

#[track_caller]
fn close(found: f64, expected: f64, by: f64) {
    assert!(
        (found - expected).abs() <= by,
        "{found} is not {expected} within {by}"
    );
}

/// pH(S) of the primary standards: NBS (1969) and IUPAC; the tetroxalate, tartrate and second phosphate from memory.
#[test]
fn standard_buffers_are_met() {
    close(
        ph(&bath(25.0, &[("tetroxalate", 0.05)]), GasMode::Held),
        1.679,
        0.03,
    );
    close(ph(&bath(25.0, &[("KHTart", 0.0341)]), GasMode::Held), 3.557, 0.03);
    close(
        ph(
            &bath(25.0, &[("KH2PO4", 0.008_695), ("Na2HPO4", 0.030_43)]),
            GasMode::Held,
        ),
        7.413,
        0.03,
    );
    close(ph(&bath(40.0, &[("borax", 0.01)]), GasMode::Held), 9.068, 0.03);
}

/// The wrong soda: 50 g of powder in a kilogram of water at 20 °C, alone and with 16 g of ascorbic acid.
#[test]
fn the_wrong_soda_shows() {
    for (soda, alone, with) in [
        ("Na2CO3", 11.69, 10.26),
        ("Na2CO3·H2O", 11.67, 10.21),
        ("Na2CO3·10H2O", 11.56, 9.80),
    ] {
        close(ph(&weighed(&[(soda, 50.0)]), GasMode::Held), alone, 0.02);
        close(
            ph(&weighed(&[(soda, 50.0), ("H2Asc", 16.0)]), GasMode::Held),
            with,
            0.02,
        );
    }
    let baking = weighed(&[("NaHCO3", 50.0)]);
    close(ph(&baking, GasMode::Held), 7.90, 0.02);
    for (atmospheres, expected) in [(0.1, 8.27), (0.01, 9.13)] {
        close(
            ph(&baking, GasMode::Stood(Pressure::from_atmospheres(atmospheres))),
            expected,
            0.02,
        );
    }
    close(ph(&baking, GasMode::Aired), 10.02, 0.02);
    let mixed = weighed(&[("NaHCO3", 50.0), ("H2Asc", 16.0)]);
    close(ph(&mixed, GasMode::Held), 6.81, 0.02);
    let foamed = solve(&mixed, GasMode::Fizzed).unwrap();
    close(foamed.ph(), 7.22, 0.02);
    close(foamed.gas_volume().litres(), 1.4, 0.06);
    let held = solve(&mixed, GasMode::Held).unwrap();
    assert!(matches!(held.warnings()[..], [Warning::WouldFoam { .. }]));
}

/// Amounts, acids, temperatures, stops and fixers of the same implementation.
#[test]
fn what_if_numbers_are_met() {
    for (grams, expected) in [
        (10.0, 8.56),
        (20.0, 9.85),
        (30.0, 10.07),
        (50.0, 10.26),
        (80.0, 10.39),
    ] {
        close(
            ph(&weighed(&[("Na2CO3", grams), ("H2Asc", 16.0)]), GasMode::Held),
            expected,
            0.03,
        );
    }
    for (grams, expected) in [(2.0, 4.25), (4.0, 10.53), (6.0, 11.63)] {
        close(
            ph(&weighed(&[("NaOH", grams), ("H2Asc", 16.0)]), GasMode::Held),
            expected,
            0.03,
        );
    }
    for (celsius, expected) in [(10.0, 10.41), (20.0, 10.28), (30.0, 10.17), (40.0, 10.07)] {
        close(
            ph(&bath(celsius, &[("Na2CO3", 0.4), ("H2Asc", 0.08)]), GasMode::Held),
            expected,
            0.015,
        );
    }
    close(ph(&weighed(&[("H3Cit", 15.0)]), GasMode::Held), 2.15, 0.02);
    close(ph(&weighed(&[("H3Cit", 10.0)]), GasMode::Held), 2.24, 0.02);
    let hypo = ("Na2S2O3", 1.0);
    for (others, expected) in [
        (&[("Na2SO3", 10.0 / 126.043)][..], 9.55),
        (&[("Na2SO3", 10.0 / 126.043), ("HAc", 0.1)], 5.10),
        (&[("H3Cit", 0.05)], 2.61),
        (&[("Na2CO3", 0.05)], 11.08),
        (&[("HAc", 0.03)], 3.57),
    ] {
        let all: Vec<_> = std::iter::once(hypo).chain(others.iter().copied()).collect();
        close(ph(&bath(20.0, &all), GasMode::Held), expected, 0.05);
    }
}

#[test]
fn plain_hypo_is_unbuffered() {
    assert!(
        unbuffered(&bath(20.0, &[("Na2S2O3", 1.0)]), GasMode::Held)
            .unwrap()
            .is_some()
    );
    assert!(
        unbuffered(&bath(20.0, &[("NaCl", 1.0)]), GasMode::Held)
            .unwrap()
            .is_some()
    );
    assert!(
        unbuffered(&bath(20.0, &[("Na2S2O3", 1.0), ("Na2SO3", 0.08)]), GasMode::Held)
            .unwrap()
            .is_none()
    );
    assert!(
        unbuffered(&bath(20.0, &[("HAc", 0.2)]), GasMode::Held)
            .unwrap()
            .is_none()
    );
}

/// Millilitres of developer for a litre of stop until pH 4.5, 5.0, 5.5 and 6.0 at 20 °C, foamed.
#[test]
fn stops_last_as_long_as_computed_elsewhere() {
    let a = bath(20.0, &[("Na2CO3", 0.4), ("H2Asc", 0.08)]);
    let b = bath(20.0, &[("Na2CO3", 0.25), ("NaAsc", 0.06)]);
    let c = bath(20.0, &[("borax", 0.06), ("NaAsc", 0.05)]);
    for (stop, developer, expected) in [
        (("H3Cit", 10.0), &a, [109.0, 141.0, 176.0, 230.0]),
        (("H3Cit", 15.0), &a, [168.0, 214.0, 263.0, 333.0]),
        (("HAc", 10.0), &a, [91.0, 161.0, 214.0, 262.0]),
        (("HAc", 20.0), &a, [187.0, 323.0, 421.0, 495.0]),
        (("H3Cit", 15.0), &b, [240.0, 307.0, 379.0, 485.0]),
        (("HAc", 20.0), &b, [268.0, 464.0, 608.0, 722.0]),
        (("H3Cit", 15.0), &c, [903.0, 1197.0, 1454.0, 1691.0]),
    ] {
        let stop = weighed(&[stop]);
        for (limit, expected) in [4.5, 5.0, 5.5, 6.0].into_iter().zip(expected) {
            let found = carry_over_limit(&stop, developer, limit, GasMode::Fizzed).unwrap();
            close(1000.0 * found, expected, 1.0 + 0.01 * expected);
        }
    }
    let millilitres = Volume::from_millilitres;
    assert_eq!(
        sheets_until(0.214, millilitres(1000.0), millilitres(1.5)),
        Some(129)
    );
    assert_eq!(
        sheets_until(0.214, millilitres(1000.0), millilitres(7.7)),
        Some(25)
    );
    assert_eq!(sheets_until(0.214, millilitres(1000.0), millilitres(0.0)), None);
}

/// Developer A into citric acid 0.08 mol/kg at 20 °C, foamed.
#[test]
fn a_stop_is_titrated() {
    let stop = bath(20.0, &[("H3Cit", 0.08)]);
    let developer = bath(20.0, &[("Na2CO3", 0.4), ("H2Asc", 0.08)]);
    // Shares of the whole in the table are ratios to the stop here.
    let shares: Vec<f64> = [0.05, 0.1, 0.2, 0.3, 0.4]
        .iter()
        .map(|part| part / (1.0 - part))
        .collect();
    let curve = titration(&stop, &developer, &shares, GasMode::Fizzed).unwrap();
    for ((_, found), expected) in curve.into_iter().zip([3.07, 3.84, 5.32, 6.35, 7.13]) {
        close(found, expected, 0.015);
    }
}

#[test]
fn amounts_are_found_back() {
    let start = bath(20.0, &[("H2Asc", 0.08)]);
    let soda = component("Na2CO3");
    let amount = amount_to_reach(&start, &soda, 10.2, GasMode::Held).unwrap();
    close(ph(&start.add(&soda, amount), GasMode::Held), 10.2, 1e-6);
    assert!(
        amount_to_reach(&start, &soda, 3.0, GasMode::Held).is_ok_and(|_| false)
            || ph(&start, GasMode::Held) < 3.0
    );
    assert!(amount_to_reach(&start, &component("borax"), 12.0, GasMode::Held).is_err());
    // A hydrate is worth as many moles.
    let crystals = equivalent_amount(
        &start,
        &soda,
        AmountOfSubstance::from_moles(0.1),
        &component("K2CO3"),
        GasMode::Held,
    )
    .unwrap();
    close(crystals.moles(), 0.1, 0.01);
    // PHREEQC 3.8.6 with the same parameters, finite difference of 2 mmol.
    let capacity = buffer_capacity(&bath(20.0, &[("Na2CO3", 0.4), ("H2Asc", 0.08)]), GasMode::Held);
    close(capacity.unwrap().moles_per_kilogram(), 0.1796, 0.002);
}

#[test]
fn agents_tell_how_much_of_them_works() {
    let equilibrium = solve(
        &bath(20.0, &[("Na2CO3", 0.45), ("caffeic", 0.02), ("H2Asc", 0.05)]),
        GasMode::Held,
    )
    .unwrap();
    let shares = agent_shares(&equilibrium);
    let names: Vec<_> = shares.iter().map(|share| share.family).collect();
    assert_eq!(names, ["ascorbic", "caffeic"]);
    assert!(shares.iter().all(|share| (0.0..=1.0).contains(&share.ionised)));
    close(
        shares.first().unwrap().ionised,
        equilibrium.share("Asc-2").unwrap(),
        1e-12,
    );
    let all: f64 = equilibrium.shares("caffeic").iter().map(|(_, share)| share).sum();
    close(all, 1.0, 1e-12);
    assert_eq!(equilibrium.share("Cit-3"), None);
}

#[test]
fn bands_are_as_wide_as_their_causes() {
    let exact = Range::exact;
    let range = |low: f64, best: f64, high: f64| Range::new(low, best, high);
    let developer = |soda| {
        BathWithRanges::new(exact(20.0), exact(1.0))
            .add("soda", component("Na2CO3"), soda)
            .add("vitamin C", component("H2Asc"), exact(0.08))
    };
    let sharp = band(&developer(exact(0.4)), GasMode::Held).unwrap();
    // Ionic strength 1.1: at least 0.1 to each side.
    close(sharp.high - sharp.best, 0.1, 1e-9);
    let by_asc = sharp
        .drivers
        .iter()
        .find(|driver| driver.input == Input::Constant("ascorbic".to_owned(), 2))
        .unwrap();
    // ±0.2 in the second constant of ascorbic acid moves this bath by +0.019 and -0.024.
    close(by_asc.raises, 0.019, 0.006);
    close(by_asc.lowers, 0.024, 0.006);
    let shares: f64 = sharp.drivers.iter().map(|driver| driver.share).sum();
    close(shares, 1.0, 1e-9);
    let wide = band(&developer(range(0.1, 0.4, 0.5)), GasMode::Held).unwrap();
    assert_eq!(
        wide.drivers.first().map(|driver| &driver.input),
        Some(&Input::Ingredient("soda".to_owned()))
    );
    assert!(wide.best - wide.low > 0.3 && wide.low < sharp.low);
    let fixer = BathWithRanges::new(exact(20.0), exact(1.0))
        .add("hypo", component("Na2S2O3"), exact(0.4))
        .add("sulfite", component("Na2SO3"), exact(0.05));
    assert!(band(&fixer, GasMode::Held).unwrap().floor >= 0.2);
    let cold = BathWithRanges::new(exact(5.0), exact(1.0)).add("soda", component("Na2CO3"), exact(0.1));
    let cold = band(&cold, GasMode::Held).unwrap();
    assert_eq!(cold.floor, 0.3);
    assert!(matches!(
        cold.equilibrium.warnings()[..],
        [Warning::Temperature { .. }]
    ));
}

#[test]
fn what_cannot_be_solved_says_why() {
    let soda = bath(20.0, &[("Na2CO3", 0.1)]);
    let at = |celsius| soda.at(Temperature::from_celsius(celsius));
    assert!(matches!(
        solve(&at(95.0), GasMode::Held),
        Err(CannotSolve::Temperature { .. })
    ));
    assert!(matches!(
        solve(&at(f64::NAN), GasMode::Held),
        Err(CannotSolve::Temperature { .. })
    ));
    assert_eq!(
        solve(&soda.with_water(Mass::ZERO), GasMode::Held).err(),
        Some(CannotSolve::Water)
    );
    assert_eq!(
        solve(&bath(20.0, &[("Na2CO3", -0.1)]), GasMode::Held).err(),
        Some(CannotSolve::Amount)
    );
    let none = GasMode::Stood(Pressure::from_atmospheres(0.0));
    assert_eq!(solve(&soda, none).err(), Some(CannotSolve::Pressure));
    assert!(matches!(
        solve(&bath(20.0, &[("(NH4)2S2O3", 8.0)]), GasMode::Held),
        Err(CannotSolve::TooStrong { .. })
    ));
    // Water is a bath too.
    close(ph(&bath(25.0, &[]), GasMode::Held), 7.0, 0.01);
}

/// Density of a soda solution of 50 g/l at 20 °C is about 1.050 g/ml, so a litre holds 1.000 kg of water; from memory.
#[test]
fn a_litre_holds_less_water_than_it_weighs() {
    let soda = [(
        Formula::parse("Na2CO3").unwrap(),
        AmountOfSubstance::from_moles(50.0 / 105.988),
    )];
    let litre = Volume::from_litres(1.0);
    let found = water_for_volume(litre, Temperature::from_celsius(20.0), &soda).unwrap();
    close(found.water.kilograms(), 0.998, 0.003);
    assert!(found.assumed.is_empty());
    let crystals = [(
        Formula::parse("Na2S2O3·5H2O").unwrap(),
        AmountOfSubstance::from_moles(1.0),
    )];
    let found = water_for_volume(litre, Temperature::from_celsius(20.0), &crystals).unwrap();
    close(found.water.grams(), 956.0, 3.0);
    close(found.to_add.grams(), 866.0, 3.0);
    let other = [(Formula::parse("KI").unwrap(), AmountOfSubstance::from_moles(0.1))];
    assert_eq!(
        water_for_volume(litre, Temperature::from_celsius(20.0), &other)
            .unwrap()
            .assumed
            .len(),
        1
    );
}

#[test]
fn every_constant_names_a_source_of_the_bibliography() {
    for key in cited() {
        assert!(Pantry::standard().source(key).is_some(), "{key}");
    }
}

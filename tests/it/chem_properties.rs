//! What must hold of every bath, whatever is in it.

use proptest::prelude::*;
use trayside::chem::{Bath, CannotSolve, Component, Equilibrium, GasMode, solve, solve_near};
use trayside::units::scalar::{AmountOfSubstance, Mass, Pressure, Temperature};

use super::chem::component;

const NAMES: [&str; 33] = [
    "Na2CO3",
    "NaHCO3",
    "K2CO3",
    "KHCO3",
    "NaOH",
    "KOH",
    "borax",
    "NaBO2",
    "H3BO3",
    "Na3PO4",
    "Na2HPO4",
    "KH2PO4",
    "H3Cit",
    "Na3Cit",
    "KH2Cit",
    "HAc",
    "NaAc",
    "Na2SO3",
    "NaHSO3",
    "Na2S2O5",
    "NaHSO4",
    "Na2SO4",
    "Na2S2O3",
    "H2Asc",
    "NaAsc",
    "caffeic",
    "chlorogenic",
    "rosmarinic",
    "gallic",
    "HQ",
    "NaCl",
    "KBr",
    "(NH4)2S2O3",
];

fn mixture() -> impl Strategy<Value = (f64, Vec<(usize, f64)>)> {
    let term = (0..NAMES.len(), -3.0_f64..-0.3).prop_map(|(name, log)| (name, libm::pow(10.0, log)));
    (10.0_f64..40.0, prop::collection::vec(term, 1..=4))
}

fn gas() -> impl Strategy<Value = GasMode> {
    prop_oneof![
        Just(GasMode::Held),
        Just(GasMode::Fizzed),
        Just(GasMode::Aired),
        (-4.0_f64..0.5).prop_map(|log| GasMode::Stood(Pressure::from_atmospheres(libm::pow(10.0, log)))),
    ]
}

fn filled(celsius: f64, water: f64, terms: &[(usize, f64)]) -> Bath {
    let start = Bath::new(Temperature::from_celsius(celsius), Mass::from_kilograms(water));
    terms.iter().fold(start, |bath, &(name, moles)| {
        bath.add(
            &component(NAMES[name]),
            AmountOfSubstance::from_moles(moles * water),
        )
    })
}

fn family_totals(equilibrium: &Equilibrium) -> Vec<(&'static str, f64)> {
    let of = |names: &[(&str, f64)]| -> f64 {
        names
            .iter()
            .map(|(name, units)| {
                units
                    * equilibrium
                        .molality(name)
                        .map_or(0.0, trayside::units::scalar::Molality::moles_per_kilogram)
            })
            .sum()
    };
    vec![
        (
            "boric",
            of(&[("B(OH)3", 1.0), ("B(OH)4-", 1.0), ("B3-", 3.0), ("B4-2", 4.0)]),
        ),
        (
            "citric",
            of(&[("H3Cit", 1.0), ("H2Cit-", 1.0), ("HCit-2", 1.0), ("Cit-3", 1.0)]),
        ),
        ("ascorbic", of(&[("H2Asc", 1.0), ("HAsc-", 1.0), ("Asc-2", 1.0)])),
        ("Na+", of(&[("Na+", 1.0)])),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn charge_and_mass_are_kept((celsius, terms) in mixture(), gas in gas()) {
        let bath = filled(celsius, 1.0, &terms);
        let equilibrium = solve(&bath, gas).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert!(equilibrium.charge_residual().abs() < 1e-9, "{}", equilibrium.charge_residual());
        for (name, found) in family_totals(&equilibrium) {
            let expected = bath.concentration(name).moles_per_kilogram();
            prop_assert!((found - expected).abs() < 1e-9, "{}: {} is not {}", name, found, expected);
        }
        let left: f64 = ["CO2", "HCO3-", "CO3-2"]
            .iter()
            .filter_map(|name| equilibrium.molality(name))
            .map(trayside::units::scalar::Molality::moles_per_kilogram)
            .sum();
        let carbon = left + equilibrium.co2_released().moles_per_kilogram();
        prop_assert!((carbon - bath.concentration("carbonic").moles_per_kilogram()).abs() < 1e-9);
        prop_assert!(equilibrium.sit_ph().is_ok());
    }

    #[test]
    fn strong_acid_never_raises_the_ph((celsius, terms) in mixture(), more in 1e-4_f64..0.3) {
        let bath = filled(celsius, 1.0, &terms);
        let acid = bath.add(&component("HCl"), AmountOfSubstance::from_moles(more));
        let (before, after) = (solve(&bath, GasMode::Held), solve(&acid, GasMode::Held));
        if let (Ok(before), Ok(after)) = (before, after) {
            prop_assert!(after.ph() <= before.ph() + 1e-7, "{} to {}", before.ph(), after.ph());
        }
    }

    #[test]
    fn size_and_order_do_not_matter((celsius, terms) in mixture(), gas in gas(), water in 0.01_f64..50.0) {
        let one = solve(&filled(celsius, 1.0, &terms), gas).map(|found| found.ph());
        let scaled = solve(&filled(celsius, water, &terms), gas).map(|found| found.ph());
        let turned: Vec<_> = terms.iter().rev().copied().collect();
        let turned = solve(&filled(celsius, 1.0, &turned), gas).map(|found| found.ph());
        if let (Ok(one), Ok(scaled), Ok(turned)) = (one, scaled, turned) {
            prop_assert!((one - scaled).abs() < 1e-6 && (one - turned).abs() < 1e-6, "{} {} {}", one, scaled, turned);
        }
    }

    #[test]
    fn a_neighbour_leads_to_the_same_answer((celsius, terms) in mixture(), (_, others) in mixture(), gas in gas()) {
        let bath = filled(celsius, 1.0, &terms);
        let near = solve(&filled(celsius, 1.0, &others), gas);
        if let (Ok(near), Ok(cold)) = (near, solve(&bath, gas)) {
            let warm = solve_near(&bath, gas, &near).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert!((warm.ph() - cold.ph()).abs() < 1e-6, "{} {}", warm.ph(), cold.ph());
        }
    }

    #[test]
    fn nothing_panics(
        celsius in -50.0_f64..150.0,
        terms in prop::collection::vec((0..NAMES.len(), -2.0_f64..20.0), 0..8),
        water in prop_oneof![Just(0.0), Just(-1.0), Just(f64::NAN), 1e-6_f64..1e3],
        gas in gas(),
    ) {
        if let Ok(found) = solve(&filled(celsius, water, &terms), gas) {
            prop_assert!(found.ph().is_finite());
            let _ = (found.warnings(), found.sit_ph(), found.assumed_pairs());
        }
    }

    #[test]
    fn no_name_panics(name in "\\PC{0,30}") {
        let _ = Component::named(&name);
        let _ = trayside::chem::formula_of_name(&name);
    }
}

/// Far too strong mixtures end in a reason, never in a search without end.
#[test]
fn strong_mixtures_are_refused_or_solved() {
    for name in NAMES {
        for moles in [1.0, 3.0, 10.0, 40.0] {
            let bath = filled(
                20.0,
                1.0,
                &[(NAMES.iter().position(|one| *one == name).unwrap(), moles)],
            );
            match solve(&bath, GasMode::Held) {
                Ok(found) => assert!((-2.0..=16.0).contains(&found.ph()), "{name} {moles}"),
                Err(CannotSolve::TooStrong { .. } | CannotSolve::OutOfScale) => {}
                Err(error) => panic!("{moles} mol/kg of {name}: {error}"),
            }
        }
    }
}

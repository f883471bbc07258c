//! Equilibria a second: from scratch, and from a neighbouring solution.

use divan::counter::ItemsCount;
use trayside::chem::{Bath, Component, GasMode, solve, solve_near};
use trayside::units::scalar::{AmountOfSubstance, Mass, Temperature};

fn main() {
    divan::main();
}

const COMPOSITIONS: [&[(&str, f64)]; 4] = [
    &[("Na2CO3", 0.4), ("H2Asc", 0.08)],
    &[("H3Cit", 0.064), ("Na2CO3", 0.08), ("H2Asc", 0.016)],
    &[("borax", 0.06), ("NaAsc", 0.05)],
    &[("HQ", 0.05), ("Na2CO3", 0.4), ("Na2SO3", 0.3), ("KBr", 0.02)],
];

fn bath(terms: &[(&str, f64)], factor: f64) -> Bath {
    let start = Bath::new(Temperature::from_celsius(20.0), Mass::from_kilograms(1.0));
    terms.iter().fold(start, |bath, (name, moles)| {
        let component = Component::named(name).expect("the names stand above");
        bath.add(&component, AmountOfSubstance::from_moles(moles * factor))
    })
}

#[divan::bench(args = [0, 1, 2, 3])]
fn from_scratch(bencher: divan::Bencher<'_, '_>, which: usize) {
    let bath = bath(COMPOSITIONS[which], 1.0);
    bencher
        .counter(ItemsCount::new(1_usize))
        .bench(|| solve(divan::black_box(&bath), GasMode::Held).map(|found| found.ph()));
}

/// A hundred baths, each 0.1 % stronger than the one before, one after another.
#[divan::bench(args = [0, 1, 2, 3])]
fn from_a_neighbour(bencher: divan::Bencher<'_, '_>, which: usize) {
    let baths: Vec<Bath> = (0..100)
        .map(|step| bath(COMPOSITIONS[which], 1.0 + 0.001 * f64::from(step)))
        .collect();
    let first = solve(&baths[0], GasMode::Held).expect("it solves");
    bencher.counter(ItemsCount::new(baths.len())).bench_local(|| {
        let mut last = first.clone();
        for bath in &baths {
            last = solve_near(divan::black_box(bath), GasMode::Held, &last).expect("it solves");
        }
        last.ph()
    });
}

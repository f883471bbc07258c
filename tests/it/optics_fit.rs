//! The log fit against simulated logs of papers that are known.

use proptest::prelude::*;
use trayside::optics::fit::{EIGHTY_PERCENT, Entry, Fit, Prior, fit};

/// A small random generator (`SplitMix64`; Steele, Lea and Flood 2014, Fast splittable pseudorandom number generators), so that
/// the simulation is the same everywhere.
struct Random(u64);

impl Random {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    fn uniform(&mut self) -> f64 {
        ((self.next() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.uniform()
    }

    /// Standard normal, by Box and Muller.
    fn normal(&mut self) -> f64 {
        let radius = libm::sqrt(-2.0 * libm::log(self.uniform()));
        radius * libm::cos(std::f64::consts::TAU * self.uniform())
    }
}

/// A paper as it truly is.
struct Paper {
    exponent: f64,
    log2_speed: f64,
}

impl Paper {
    fn drawn(random: &mut Random, prior: &Prior) -> Self {
        loop {
            let paper = Self {
                exponent: prior.exponent + prior.exponent_sd * random.normal(),
                log2_speed: prior.log2_speed + prior.log2_speed_sd * random.normal(),
            };
            // Paper that needs less than the meter says does not exist.
            if paper.exponent >= 1.0 {
                return paper;
            }
        }
    }

    /// A judged exposure in a light of `x` stops, with the noise of a judgement.
    fn exposed(&self, x: f64, noise: f64, random: &mut Random) -> Entry {
        Entry {
            x,
            y: self.exponent * (x - self.log2_speed) + noise * random.normal(),
            camera: 0,
        }
    }
}

/// How often the next right time lies in the 80 % interval, in 1000 logs with lights drawn from a span.
fn coverage(entries: usize, lights: (f64, f64), seed: u64) -> f64 {
    let prior = Prior::paper();
    let mut random = Random(seed);
    let mut inside = 0;
    for _ in 0..1000 {
        let paper = Paper::drawn(&mut random, &prior);
        let draw = |random: &mut Random| {
            let x = random.between(lights.0, lights.1);
            paper.exposed(x, prior.noise, random)
        };
        let log: Vec<Entry> = (0..entries).map(|_| draw(&mut random)).collect();
        let next = draw(&mut random);
        let interval = fit(&log, &prior)
            .predict_at(next.x, Some(0))
            .interval(EIGHTY_PERCENT);
        inside += u32::from(interval.contains(libm::exp2(next.y)));
    }
    f64::from(inside) / 1000.0
}

#[test]
fn the_interval_holds_what_it_says() {
    // f/150 to f/250 in exposure values 7 to 15 is 7 to 15 stops at index 1.
    for (entries, seed) in [(1, 11), (3, 12), (6, 13), (20, 14)] {
        let share = coverage(entries, (7.0, 15.0), seed);
        println!("{entries} entries: {:.1} % inside", 100.0 * share);
        assert!((0.75..=0.85).contains(&share), "{entries} entries: {share}");
    }
}

#[test]
fn the_interval_holds_in_one_kind_of_light() {
    for (entries, seed) in [(3, 21), (6, 22), (20, 23)] {
        let share = coverage(entries, (10.0, 12.5), seed);
        println!("{entries} entries in one light: {:.1} % inside", 100.0 * share);
        assert!((0.75..=0.87).contains(&share), "{entries} entries: {share}");
    }
}

#[test]
fn a_longer_log_tells_more() {
    let prior = Prior::paper();
    let mut random = Random(5);
    let paper = Paper {
        exponent: 1.3,
        log2_speed: 2.0,
    };
    let log: Vec<Entry> = (0..40)
        .map(|_| {
            let x = random.between(7.0, 15.0);
            paper.exposed(x, prior.noise, &mut random)
        })
        .collect();
    let width = |n: usize| fit(&log[..n], &prior).predict_at(11.0, None).sd;
    assert!(width(40) < width(10) && width(10) < width(0));
    let all = fit(&log, &prior);
    assert!((all.posterior.line.exponent - 1.3).abs() < 2.0 * all.posterior.exponent_sd());
    assert!((all.posterior.line.log2_speed - 2.0).abs() < 2.0 * all.posterior.log2_speed_sd());
}

#[test]
fn thin_sheets_lower_the_speed() {
    let prior = Prior::paper();
    let log = |needs: f64| -> Vec<Entry> {
        (0..8)
            .map(|i| {
                let x = 7.0 + f64::from(i);
                Entry {
                    x: x - needs,
                    y: 1.2 * (x - 2.6),
                    camera: 0,
                }
            })
            .collect()
    };
    let speed = |needs| fit(&log(needs), &prior).posterior.line.log2_speed;
    assert!(speed(1.0) < speed(0.0) - 0.5);
    assert!(speed(-1.0) > speed(0.0) + 0.5);
}

fn predicted(fit: &Fit, x: f64) -> (f64, f64) {
    let next = fit.predict_at(x, None);
    (next.log2_time, EIGHTY_PERCENT * next.sd)
}

/// One exposure that is wildly off moves the next time by less than the interval that is stated for it.
#[test]
fn one_wild_outlier_is_survived() {
    let prior = Prior::paper();
    let mut random = Random(31);
    let mut near = 0;
    for round in 0..1000 {
        let paper = Paper::drawn(&mut random, &prior);
        let entries = 3 + round % 20;
        let mut log: Vec<Entry> = (0..entries)
            .map(|_| {
                let x = random.between(7.0, 15.0);
                paper.exposed(x, prior.noise, &mut random)
            })
            .collect();
        let at = random.between(8.0, 14.0);
        let (before, _) = predicted(&fit(&log, &prior), at);
        let wild = random.between(4.0, 12.0);
        let which = (random.next() % entries as u64) as usize;
        log[which].y += if random.uniform() < 0.5 { wild } else { -wild };
        let (after, half) = predicted(&fit(&log, &prior), at);
        let moved = (after - before).abs();
        assert!(
            moved <= 2.0 * half,
            "round {round}: moved {moved}, interval {half} either way"
        );
        near += u32::from(moved <= half);
    }
    // Half the interval, to either side of the best time, is enough nearly always.
    assert!(near >= 990, "{near} of 1000");
}

proptest! {
    /// A dimmer scene never gets a shorter time.
    #[test]
    fn less_light_takes_longer(seed in any::<u64>(), entries in 0_usize..12, x in 3.0_f64..14.0, step in 0.01_f64..3.0) {
        let prior = Prior::paper();
        let mut random = Random(seed);
        let paper = Paper::drawn(&mut random, &prior);
        let log: Vec<Entry> = (0..entries)
            .map(|_| {
                let x = random.between(7.0, 15.0);
                paper.exposed(x, prior.noise, &mut random)
            })
            .collect();
        let fitted = fit(&log, &prior);
        prop_assert!(fitted.predict_at(x + step, None).time() > fitted.predict_at(x, None).time());
    }
}

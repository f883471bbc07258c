//! Long exposures while the light changes.

use crate::units::scalar::{Illuminance, Stops, Time};

/// The step of the sums. Source: own choice.
pub const STEP: Time = Time::from_seconds(60.0);

/// Over this many full exposures the sheet prints out and is no negative to develop. Source: own choice.
pub const PRINTS_OUT: f64 = 16.0;

/// What a sheet gathers while it is open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gathered {
    /// The light summed over time, in lux hours.
    pub lux_hours: f64,
    /// How many full exposures it amounts to, with reciprocity.
    pub fraction: f64,
}

impl Gathered {
    /// The stops over one full exposure: `log2` of the fraction.
    pub fn stops_over(self) -> Stops {
        Stops::from_factor(self.fraction)
    }

    /// Whether the sheet prints out, see [`PRINTS_OUT`].
    pub fn prints_out(self) -> bool {
        self.fraction > PRINTS_OUT
    }
}

/// What a sheet gathers in some time: `∫ E dt` and the fraction `∫ dt/t_need(E(t))`.
///
/// `light` tells the light at a time after the opening, `needed` the corrected time at a constant light (infinite for
/// none). Trapezoids of one minute, the last one shorter. The fraction is exact for constant light and where reciprocity
/// holds; else it is a modelling choice. Source: own derivation.
pub fn gather(
    open: Time,
    light: impl Fn(Time) -> Illuminance,
    needed: impl Fn(Illuminance) -> Time,
) -> Gathered {
    let mut sum = Gathered {
        lux_hours: 0.0,
        fraction: 0.0,
    };
    let at = |time: Time| {
        let light = light(time);
        (light.lux(), 1.0 / needed(light).seconds())
    };
    walk(open, at, |step| {
        sum.lux_hours += step.lux_hours;
        sum.fraction += step.fraction;
        true
    });
    sum
}

/// How long to stay open until the fraction of [`gather`] reaches 1; nothing if it does not within `longest`.
///
/// `needed` tells the corrected time at a constant light such as that of a time after the opening.
pub fn time_for_one(longest: Time, needed: impl Fn(Time) -> Time) -> Option<Time> {
    let mut fraction = 0.0;
    let mut done = None;
    walk(
        longest,
        |time| (0.0, 1.0 / needed(time).seconds()),
        |step| {
            if fraction + step.fraction >= 1.0 {
                let share = (1.0 - fraction) / step.fraction;
                done = Some(step.from + step.length * share);
            }
            fraction += step.fraction;
            done.is_none()
        },
    );
    done
}

struct Step {
    from: Time,
    length: Time,
    lux_hours: f64,
    fraction: f64,
}

/// Goes in steps up to `open`; `at` tells lux and full exposures a second at a time after the opening.
fn walk(open: Time, at: impl Fn(Time) -> (f64, f64), mut each: impl FnMut(Step) -> bool) {
    let mut from = Time::ZERO;
    let mut before = at(from);
    while from < open {
        let to = (from + STEP).min(open);
        let after = at(to);
        let length = to - from;
        let go_on = each(Step {
            from,
            length,
            lux_hours: f64::midpoint(before.0, after.0) * length.hours(),
            fraction: f64::midpoint(before.1, after.1) * length.seconds(),
        });
        if !go_on {
            return;
        }
        (from, before) = (to, after);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn constant_light_takes_its_constant_time() {
        let light = |_| Illuminance::from_lux(1000.0);
        let needed = |_| Time::from_seconds(150.0);
        let half = gather(Time::from_seconds(75.0), light, needed);
        assert!((half.fraction - 0.5).abs() < 1e-12);
        assert!((half.lux_hours - 1000.0 * 75.0 / 3600.0).abs() < 1e-9);
        let whole = time_for_one(Time::from_hours(1.0), |time| needed(light(time))).unwrap();
        assert!((whole.seconds() - 150.0).abs() < 1e-9);
        assert_eq!(
            time_for_one(Time::from_seconds(100.0), |time| needed(light(time))),
            None
        );
    }

    #[test]
    fn fading_light_takes_longer() {
        let light = |t: Time| Illuminance::from_lux(1000.0 - t.minutes() * 50.0);
        let needed = |e: Illuminance| Time::from_seconds(300_000.0 / e.lux());
        let time = time_for_one(Time::from_minutes(15.0), |time| needed(light(time))).unwrap();
        // Without reciprocity the integral of E is 300 000 lx s: 60 000 m - 1500 m² = 300 000.
        let exact = 20.0 - libm::sqrt(400.0 - 200.0);
        assert!((time.minutes() - exact).abs() < 0.01, "{}", time.minutes());
    }
}

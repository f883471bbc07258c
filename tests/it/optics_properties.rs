//! What must hold for every camera, light and paper.

use jiff::Timestamp;
use proptest::prelude::*;
use trayside::optics::falloff::{self, Sheet};
use trayside::optics::sun::{Place, position};
use trayside::optics::{
    Criterion, Facing, Plane, Reciprocity, ReciprocityTable, Sky, ev, f_number, facing, pinhole, reciprocity,
    sky, view,
};
use trayside::units::Range;
use trayside::units::scalar::{Angle, ExposureValue, FNumber, Length, Speed, Time};

fn mm(value: f64) -> Length {
    Length::from_millimetres(value)
}

fn law() -> impl Strategy<Value = Reciprocity> {
    prop_oneof![
        Just(Reciprocity::Holds),
        (1.0_f64..1.8, 0.1_f64..5.0)
            .prop_map(|(p, t0)| Reciprocity::power(p, Time::from_seconds(t0)).unwrap()),
        (0.01_f64..0.5, 1.0_f64..1.9).prop_map(|(a, exponent)| Reciprocity::Additive {
            factor: Time::from_seconds(a),
            exponent,
        }),
        prop::collection::vec((1.5_f64..20.0, 1.0_f64..1.8), 2..6).prop_map(|steps| {
            let mut pairs = Vec::new();
            let (mut metered, mut corrected) = (1.0, 1.5);
            for (factor, p) in steps {
                pairs.push((Time::from_seconds(metered), Time::from_seconds(corrected)));
                metered *= factor;
                corrected *= libm::pow(factor, p);
            }
            Reciprocity::Table(ReciprocityTable::new(pairs).unwrap())
        }),
    ]
}

fn plane() -> impl Strategy<Value = Plane> {
    let length = || (20.0_f64..200.0).prop_map(mm);
    prop_oneof![
        length().prop_map(|distance| Plane::Flat { distance }),
        length().prop_map(|radius| Plane::Wall { radius }),
        length().prop_map(|radius| Plane::Axis { radius }),
        (length(), length()).prop_map(|(radius, height)| Plane::Lid { radius, height }),
    ]
}

fn scaled(plane: Plane, by: f64) -> Plane {
    match plane {
        Plane::Flat { distance } => Plane::Flat {
            distance: distance * by,
        },
        Plane::Wall { radius } => Plane::Wall { radius: radius * by },
        Plane::Axis { radius } => Plane::Axis { radius: radius * by },
        Plane::Lid { radius, height } => Plane::Lid {
            radius: radius * by,
            height: height * by,
        },
    }
}

proptest! {
    #[test]
    fn more_light_never_needs_more_time(law in law(), value in -4.0_f64..16.0, more in 0.0_f64..8.0, n in 60.0_f64..500.0, speed in 0.5_f64..50.0) {
        let time = |value| law.corrected(ev::metered_time(ExposureValue::new(value), FNumber::new(n), Speed::new(speed)));
        prop_assert!(time(value + more) <= time(value) * (1.0 + 1e-12));
    }

    #[test]
    fn a_correction_never_shortens(law in law(), seconds in 0.001_f64..1e6) {
        let metered = Time::from_seconds(seconds);
        prop_assert!(law.corrected(metered) >= metered);
        prop_assert!(law.extra_stops(metered).stops() >= 0.0);
    }

    #[test]
    fn ranges_hold_what_their_values_give(
        ev_low in 0.0_f64..15.0, ev_width in 0.0_f64..3.0, n in 80.0_f64..400.0, n_width in 0.0_f64..40.0,
        p in 1.0_f64..1.5, share in 0.0_f64..1.0, other in 0.0_f64..1.0,
    ) {
        let value = Range::between(ev_low, ev_low + ev_width);
        let f = Range::between(n, n + n_width);
        let metered = ev::metered_time_range(value, f, Range::between(4.0, 8.0)).unwrap();
        let exponent = Range::between(p, p + 0.2);
        let time = reciprocity::power_range(metered, exponent, reciprocity::DEFAULT_THRESHOLD);
        let one = ev::metered_time(
            ExposureValue::new(ev_low + share * ev_width),
            FNumber::new(n + other * n_width),
            Speed::new(4.0 + 4.0 * share),
        );
        let law = Reciprocity::power(p + 0.2 * other, reciprocity::DEFAULT_THRESHOLD).unwrap();
        let seconds = law.corrected(one).seconds();
        prop_assert!(time.low <= seconds * (1.0 + 1e-9) && seconds <= time.high * (1.0 + 1e-9));
    }

    #[test]
    fn twice_the_f_number_is_two_stops(n in 50.0_f64..400.0, value in 0.0_f64..16.0) {
        let (f, twice) = (FNumber::new(n), FNumber::new(2.0 * n));
        prop_assert!((f_number::stops_between(f, twice).stops() - 2.0).abs() < 1e-12);
        let time = |f| ev::metered_time(ExposureValue::new(value), f, Speed::new(6.0));
        prop_assert!((time(twice) / time(f) - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_camera_twice_as_large_draws_twice_as_large(plane in plane(), by in 0.3_f64..4.0, x in -0.5_f64..0.5, y in -0.5_f64..0.5) {
        let sheet = |by: f64| Sheet {
            plane: scaled(plane, by),
            width: mm(60.0 * by),
            height: mm(20.0 * by),
            offset: mm(3.0 * by),
            foil: Some((mm(0.3 * by), mm(0.05 * by))),
        };
        let (small, large) = (sheet(1.0), sheet(by));
        let share = |sheet: &Sheet| sheet.share_at(sheet.width * x, sheet.height * y);
        prop_assert!((share(&small) - share(&large)).abs() < 1e-9);
        let (f, g) = (plane.effective_distance(), scaled(plane, by).effective_distance());
        prop_assert!((g / f / by - 1.0).abs() < 1e-9);
        prop_assert!((view::flat(small.width, f) - view::flat(large.width, g)).degrees().abs() < 1e-9);
        // The best hole grows with the square root only: a larger camera is sharper for its size.
        let hole = |f| pinhole::best_hole(Criterion::Airy, f, pinhole::PAPER_WAVELENGTH);
        prop_assert!((hole(g) / hole(f) - libm::sqrt(by)).abs() < 1e-9);
    }

    #[test]
    fn no_place_is_brighter_than_the_brightest(plane in plane(), x in -0.5_f64..0.5, y in -0.5_f64..0.5) {
        let sheet = Sheet { plane, width: mm(30.0), height: mm(15.0), offset: mm(0.0), foil: None };
        let share = sheet.share_at(sheet.width * x, sheet.height * y);
        prop_assert!((0.0..=1.0 + 1e-12).contains(&share));
        prop_assert!(sheet.unevenness().stops() >= 0.0);
    }

    #[test]
    fn the_lid_is_brightest_where_it_says(radius in 20.0_f64..100.0, depth in 1.0_f64..300.0) {
        let brightest = falloff::lid(mm(radius), f_number::brightest_depth(mm(radius)));
        let here = falloff::lid(mm(radius), mm(depth));
        prop_assert!(here.share <= brightest.share + 1e-12);
        prop_assert!(here.focal_length.millimetres() >= brightest.focal_length.millimetres() - 1e-9);
    }

    #[test]
    fn everywhere_the_sun_is_somewhere(latitude in -90.0_f64..=90.0, longitude in -180.0_f64..=180.0, seconds in 0_i64..4_000_000_000) {
        let place = Place { latitude: Angle::from_degrees(latitude), longitude: Angle::from_degrees(longitude) };
        let sun = position(place, Timestamp::from_second(seconds).unwrap()).unwrap();
        prop_assert!((-90.0..=90.0).contains(&sun.altitude.degrees()));
        prop_assert!((0.0..=360.0).contains(&sun.azimuth.degrees()));
        // Nowhere does it stand higher than the latitude's distance from the tropic allows.
        let highest = 90.0 - (latitude.abs() - 23.45).max(0.0);
        prop_assert!(sun.altitude.degrees() <= highest + 0.02);
        prop_assert!(sky::clear(sun.altitude) >= sky::NIGHT);
    }

    #[test]
    fn the_antipodes_see_the_sun_below_by_as_much(latitude in -89.0_f64..89.0, longitude in -180.0_f64..0.0, seconds in 0_i64..4_000_000_000) {
        let instant = Timestamp::from_second(seconds).unwrap();
        let altitude = |latitude, longitude| {
            let place = Place { latitude: Angle::from_degrees(latitude), longitude: Angle::from_degrees(longitude) };
            position(place, instant).unwrap().altitude.degrees()
        };
        let sum = altitude(latitude, longitude) + altitude(-latitude, longitude + 180.0);
        // The sun's parallax is 8.8 seconds of arc, and refraction is left out.
        prop_assert!(sum.abs() < 2.0 * 8.8 / 3600.0 + 1e-4, "{sum}");
    }

    #[test]
    fn clouds_and_a_lower_sun_never_brighten(h in -6.0_f64..29.0, step in 0.0_f64..1.0) {
        for way in [Facing::Front, Facing::Side, Facing::Back, Facing::Shade] {
            let value = |h, sky| facing::exposure_value(Angle::from_degrees(h), way, sky).best;
            prop_assert!(value(h, Sky::Clear) <= value(h + step, Sky::Clear) + 0.03);
        }
        let front = |sky| facing::exposure_value(Angle::from_degrees(h), Facing::Front, sky).best;
        prop_assert!(front(Sky::Clear) > front(Sky::Hazy) && front(Sky::Hazy) > front(Sky::Cloudy));
        prop_assert!(front(Sky::Cloudy) > front(Sky::Overcast));
    }
}

//! Exposure as the product tells it: the questions of beginners recomputed, what the log teaches, and the table.

use std::fmt::Write as _;

use proptest::prelude::*;
use trayside::facts::full_exposures;
use trayside::finding::Grade;
use trayside::host::Memory;
use trayside::notebook::{Body, read_light, read_when};
use trayside::optics::scene::{Facing, Sky};
use trayside::optics::{facing, sun};
use trayside::pipeline::{Proof, Silent, proof};
use trayside::units::scalar::Angle;
use trayside::views::exposure_table::{Cell, ExposureTable, Question, TimeCell, exposure_table};

use crate::support::{USUAL, number, proofed_page, seen};

const CAMERA: &str = "\
```camera
id: tin
pinhole: 0.4 mm
distance: 100 mm
format: 100×125 mm
```
";

fn paper(speed: &str, reciprocity: &str) -> String {
    format!("```paper\nid: rc\nbase: RC\nspeed: {speed}\nreciprocity: {reciprocity}\nsees: blue-green\n```\n")
}

fn exposure(id: &str, when: &str, rest: &str) -> String {
    format!("```exposure\nid: {id}\nwhen: {when}\ncamera: tin\npaper: rc\n{rest}\n```\n")
}

fn best(proof: &Proof, name: &str) -> f64 {
    number(proof, name).1
}

fn near(found: f64, wanted: f64, relative: f64) {
    assert!(
        (found - wanted).abs() <= relative * wanted.abs(),
        "{found} is not {wanted}"
    );
}

fn inputs(proof: &Proof, name: &str) -> String {
    let fact = proof.facts.named(name).unwrap();
    let told: Vec<String> = fact
        .inputs
        .iter()
        .map(|input| format!("{}: {}", input.name, input.value))
        .collect();
    told.join("\n")
}

fn table(proof: &Proof, light: Option<&str>, at: Option<&str>) -> ExposureTable {
    let settings = &proof.notebook.settings;
    let lights: Vec<_> = light
        .into_iter()
        .map(|words| (words.to_owned(), read_light(words, settings).unwrap()))
        .collect();
    let at = at.map(|words| read_when(words, settings).unwrap());
    let question = Question {
        camera: "tin",
        papers: &["rc"],
        lights: &lights,
        at: at.as_ref(),
    };
    exposure_table(&question, &proof.notebook, &proof.facts).unwrap()
}

fn time(cell: &Cell) -> &TimeCell {
    match cell {
        Cell::Time(time) => time,
        Cell::Gap { why } => panic!("no time: {why}"),
    }
}

// "Ten-centimetre tin: how big a hole?" Airy's criterion, sqrt(2.44 λ f), at 460 nm and 100 mm: 0.335 mm.
#[test]
fn a_ten_centimetre_tin_wants_a_third_of_a_millimetre() {
    let page = CAMERA.replace("0.4 mm", "0.33 mm");
    let proof = proofed_page(&page);
    near(
        best(&proof, "tin.best-pinhole"),
        (2.44_f64 * 460e-6 * 100.0).sqrt(),
        1e-9,
    );
    near(best(&proof, "tin.best-pinhole"), 0.33, 0.02);
    near(best(&proof, "tin.f-number"), 303.0, 1e-3);
    assert!(seen(&proof).is_empty(), "{:?}", seen(&proof));
}

// The row c = 2.00 and 2.20 of the contrast table, MTF20 0.642 and 0.551, read at the three holes by hand: 0.2145 mm over
// 0.640, 0.597 and 0.556.
#[test]
fn a_hole_within_a_range_draws_within_a_range() {
    let proof = proofed_page(&CAMERA.replace("0.4 mm", "0.45 ± 0.02 mm"));
    let (low, middle, high) = number(&proof, "tin.resolution");
    near(low, 0.335, 0.003);
    near(middle, 0.359, 0.003);
    near(high, 0.386, 0.003);
    let (few, _, many) = number(&proof, "tin.finest-scan");
    near(few, 6.0 * 25.4 / high, 1e-9);
    near(many, 6.0 * 25.4 / low, 1e-9);
    let beyond = proofed_page(&CAMERA.replace("0.4 mm", "0.27 ± 0.02 mm"));
    assert!(inputs(&beyond, "tin.resolution").contains("may be beyond"));
}

proptest! {
    // What has no resolution because the hole is too far off is found, and nothing else is.
    #[test]
    fn a_hole_too_far_off_is_found_where_its_fact_is_a_gap(hole in 0.1..0.9_f64, distance in 30.0..200.0_f64) {
        let camera = CAMERA
            .replace("0.4 mm", &format!("{hole:.3} mm"))
            .replace("distance: 100 mm", &format!("distance: {distance:.1} mm"));
        let proof = proofed_page(&camera);
        let found = proof.findings.iter().any(|finding| finding.rule.as_str() == "hole-far-off");
        prop_assert_eq!(found, proof.facts.named("tin.resolution").unwrap().value.is_err());
    }
}

#[test]
fn a_table_carried_on_far_is_not_exact() {
    let paper =
        "```paper\nid: rc\nbase: RC\nspeed: 6\ntimes:\n  1 s: 1 s\n  10 s: 15 s\n  100 s: 4 min\n```\n";
    let at = |value: &str| {
        let sheet = exposure("sheet", "2031-05-02 11:20", &format!("light: EV {value}"));
        number(&proofed_page(&format!("{CAMERA}{paper}{sheet}")), "sheet.time")
    };
    let (low, middle, high) = at("15");
    assert!(low == middle && middle == high, "{low} {middle} {high}");
    let (low, middle, high) = at("8");
    assert!(low < middle / 1.5 && high > middle * 1.5, "{low} {middle} {high}");
}

// "How long in sun? Under trees?" The sunny rule, 1/S at f/16: speed 6 and f/250 give (250/16)²/6 s, three stops less
// light eight times that; with q 0.9 the times grow by the power 1/0.9.
#[test]
fn sun_and_trees_follow_the_sunny_rule() {
    let sunny = "light: 1/100 s at f/16, ISO 100";
    let when = "2031-05-02 11:20";
    let page = format!(
        "{CAMERA}{}{}{}",
        paper("6", "1"),
        exposure("open", when, sunny),
        exposure("trees", when, &format!("{sunny}\nfilter: 3 stops"))
    );
    let proof = proofed_page(&page);
    let open = (250.0_f64 / 16.0).powi(2) / 6.0;
    near(best(&proof, "open.time"), open, 1e-9);
    near(best(&proof, "open.time"), 41.0, 0.01);
    near(best(&proof, "trees.time"), 326.0, 0.01);
    let tired = proofed_page(&page.replace("reciprocity: 1\n", "reciprocity: q 0.9\n"));
    near(best(&tired, "open.time"), 62.0, 0.01);
    near(best(&tired, "trees.time"), 620.0, 0.01);
    let asked = table(&tired, Some("1/100 s at f/16, ISO 100"), None);
    let cell = time(&asked.rows[0].times[0]);
    assert_eq!(cell.seconds, 60.0);
    assert_eq!(cell.strip.totals, "20/40/80/160\u{a0}s");
    assert_eq!(cell.strip.additional, "20/20/40/80\u{a0}s");
    assert_eq!(cell.strip.written, "4 x 1 stop from 20 s");
}

// "40 seconds came out pale grey. How much more?" If 80 s are right, the speed is half of what was written.
#[test]
fn a_pale_sheet_halves_the_speed() {
    let log = |rest: &str| {
        let mut page = format!("{CAMERA}{}", paper("6", "1"));
        for day in 2..5 {
            let when = format!("2031-05-0{day} 11:20");
            page.push_str(&exposure(
                &format!("sheet-{day}"),
                &when,
                &format!("light: 1/100 s at f/16, ISO 100\n{rest}"),
            ));
        }
        page.push_str(&exposure(
            "next",
            "2031-05-09 11:20",
            "light: 1/100 s at f/16, ISO 100",
        ));
        proofed_page(&page)
    };
    let pale = log("time: 40 s\nresult: needs +1 stop");
    let right = log("time: 80 s\nresult: right");
    for proof in [&pale, &right] {
        near(best(proof, "rc.from-log"), 3.0, 0.06);
        near(best(proof, "next.time"), 80.0, 0.06);
        // What was written stays as written.
        assert_eq!(number(proof, "rc.speed"), (6.0, 6.0, 6.0));
        assert!(inputs(proof, "rc.from-log").contains("p held at 1"));
    }
    assert!(inputs(&pale, "next.time").contains("judged exposures: 3: sheet-2, sheet-3, sheet-4"));
}

#[test]
fn fewer_than_three_exposures_teach_nothing_and_it_is_said() {
    let mut page = format!("{CAMERA}{}", paper("6", "1.2"));
    page.push_str(&exposure(
        "one",
        "2031-05-02 11:20",
        "light: EV 14\ntime: 60 s\nresult: right",
    ));
    page.push_str(&exposure(
        "strip",
        "2031-05-03 11:20",
        "light: EV 12\nstrip: 4 x 1 stop from 60 s\nresult: right at step 3",
    ));
    // Computed, and so no evidence of its own.
    page.push_str(&exposure(
        "own",
        "2031-05-04 11:20",
        "light: EV 12\nresult: right",
    ));
    page.push_str(&exposure(
        "spoilt",
        "2031-05-05 11:20",
        "light: EV 12\ntime: 9 min\nresult: leak",
    ));
    page.push_str(&exposure("next", "2031-05-09 11:20", "light: EV 11"));
    let proof = proofed_page(&page);
    let fact = proof.facts.named("rc.from-log").unwrap();
    let why = fact.value.as_ref().unwrap_err();
    assert!(why.contains("two of the three"), "{why}");
    assert!(why.contains("`own` is not counted"), "{why}");
    assert!(inputs(&proof, "next.time").contains("2 judged exposures before this one and three are needed"));
}

#[test]
fn a_strip_counts_with_the_time_of_its_right_step() {
    let log = |rest: [&str; 3]| {
        let mut page = format!("{CAMERA}{}", paper("6", "1.2"));
        for (day, rest) in (2..).zip(rest) {
            page.push_str(&exposure(
                &format!("e-{day}"),
                &format!("2031-05-0{day} 11:20"),
                rest,
            ));
        }
        best(&proofed_page(&page), "rc.from-log")
    };
    let plain = log([
        "light: EV 14\ntime: 80 s\nresult: right",
        "light: EV 12\ntime: 400 s\nresult: right",
        "light: EV 10\ntime: 40 min\nresult: right",
    ]);
    let strips = log([
        "light: EV 14\nstrip: 5 x 1 stop from 20 s\nresult: right at step 3",
        "light: EV 12\ntime: 400 s\nbracket: 3 x 1 stop\nresult: right at step 2",
        "light: EV 10\ntime: 40 min\nresult: right",
    ]);
    near(strips, plain, 1e-12);
}

#[test]
fn only_what_came_before_teaches() {
    let mut page = format!("{CAMERA}{}", paper("6", "1.2"));
    page.push_str(&exposure("first", "2031-05-01 11:20", "light: EV 14"));
    for day in 2..6 {
        page.push_str(&exposure(
            &format!("e-{day}"),
            &format!("2031-05-0{day} 11:20"),
            "light: EV 14\ntime: 5 min\nresult: right",
        ));
    }
    page.push_str(&exposure("last", "2031-05-08 11:20", "light: EV 14"));
    let proof = proofed_page(&page);
    assert!(best(&proof, "first.time") < 200.0);
    near(best(&proof, "last.time"), 300.0, 0.1);
    // The command sees what the log knew by then, and all of it where no date is given.
    let by = |at| time(&table(&proof, Some("EV 14"), at).rows[0].times[0]).seconds;
    near(by(Some("2031-05-01 11:20")), best(&proof, "first.time"), 0.01);
    near(by(None), best(&proof, "last.time"), 0.01);
}

/// A log about a paper of EI 5 with p 1.2, with little noise.
fn good_log(wild: Option<f64>) -> Proof {
    proofed_page(&good_page(wild))
}

fn good_page(wild: Option<f64>) -> String {
    let mut page = format!("{CAMERA}{}", paper("6", "1.2"));
    for (at, off) in [0.05, -0.1, 0.12, -0.04, 0.08, -0.12, 0.02, 0.1]
        .into_iter()
        .enumerate()
    {
        let value = 9.0 + at as f64 * 0.8;
        let metered = (250.0_f64 * 250.0 * 100.0 / value.exp2() / 5.0).log2();
        let mut log2 = 1.2 * metered + off;
        if at == 5 {
            log2 += wild.unwrap_or(0.0);
        }
        let when = format!("2031-05-0{} 11:20", at + 1);
        let rest = format!("light: EV {value:.1}\ntime: {:.1} s\nresult: right", log2.exp2());
        page.push_str(&exposure(&format!("e-{at}"), &when, &rest));
    }
    page.push_str(&exposure("next", "2031-05-20 11:20", "light: EV 12.5"));
    page
}

#[test]
fn one_wild_time_moves_the_next_by_less_than_it_is_unsure() {
    let (low, clean, high) = number(&good_log(None), "next.time");
    let half = (high.log2() - low.log2()) / 2.0;
    for wild in [-5.0, -3.0, -2.0, -1.0, 1.0, 2.0, 3.0, 5.0, 7.0] {
        let proof = good_log(Some(wild));
        let moved = (best(&proof, "next.time") / clean).log2().abs();
        assert!(moved < half, "{wild}: moved {moved} of {half}");
        if wild.abs() >= 3.0 {
            assert!(inputs(&proof, "rc.from-log").contains("set aside: e-5"), "{wild}");
        }
    }
}

#[test]
fn what_the_log_tells_is_near_the_truth() {
    let proof = good_log(None);
    let (low, _, high) = number(&proof, "rc.from-log");
    assert!(low < 5.0 && 5.0 < high);
    let metered = 250.0_f64 * 250.0 * 100.0 / 12.5_f64.exp2() / 5.0;
    let (low, _, high) = number(&proof, "next.time");
    let truth = metered.powf(1.2);
    assert!(low < truth && truth < high, "{low} {truth} {high}");
    assert!(inputs(&proof, "rc.from-log").contains("tells most: a strip in"));
}

fn entries() -> impl Strategy<Value = Vec<(f64, f64, i32)>> {
    prop::collection::vec((6.0..16.0_f64, 2.0..2000.0_f64, -4..5_i32), 0..9)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn more_light_never_needs_more_time(log in entries(), speed in 1.0..24.0_f64, p in 1.0..1.5_f64) {
        let mut page = format!("{CAMERA}{}", paper(&format!("{speed:.1}"), &format!("{p:.2}")));
        for (at, (value, seconds, needs)) in log.iter().enumerate() {
            let verdict = if *needs == 0 { "right".to_owned() } else { format!("needs {needs:+}/2 stop") };
            let rest = format!("light: EV {value:.1}\ntime: {seconds:.0} s\nresult: {verdict}");
            page.push_str(&exposure(&format!("e-{at}"), &format!("2031-05-0{} 11:20", at + 1), &rest));
        }
        let proof = proofed_page(&page);
        let mut before = f64::INFINITY;
        for half in 4..34 {
            let light = format!("EV {:.1}", f64::from(half) / 2.0);
            let now = table(&proof, Some(&light), None);
            let now = match &now.rows[0].times[0] {
                Cell::Time(time) => time,
                // Over a year is told as no time, and only at the dark end.
                Cell::Gap { why } => {
                    prop_assert!(before == f64::INFINITY && why.contains("over a year"), "{light}: {why}");
                    continue;
                }
            };
            prop_assert!(now.seconds <= before, "{light}: {} after {before}", now.seconds);
            prop_assert!(now.low <= now.high && now.low > 0.0);
            before = now.seconds;
        }
    }

    #[test]
    fn twice_the_f_number_needs_two_stops(hole in 0.1..0.6_f64, value in 4.0..16.0_f64) {
        let page = |hole: f64| {
            let camera = CAMERA.replace("0.4 mm", &format!("{hole:.4} mm"));
            format!("{camera}{}{}", paper("6", "1.2"), exposure("e", "2031-05-02 11:20", &format!("light: EV {value:.2}")))
        };
        let hole = (hole * 1000.0).round() / 1000.0;
        let (wide, narrow) = (proofed_page(&page(hole)), proofed_page(&page(hole / 2.0)));
        near(best(&narrow, "e.time-metered") / best(&wide, "e.time-metered"), 4.0, 1e-9);
    }
}

#[test]
fn the_table_follows_the_scenes() {
    let proof = proofed_page(&format!("{CAMERA}{}", paper("6", "1.2")));
    let table = table(&proof, None, None);
    assert_eq!(table.rows.len(), 13);
    let seconds = |light: &str| {
        let row = table.rows.iter().find(|row| row.light == light).unwrap();
        time(&row.times[0]).seconds
    };
    let order = [
        "snow in sun",
        "sun",
        "hazy sun",
        "cloudy bright",
        "open shade",
        "after sunset",
        "home interior",
    ];
    for pair in order.windows(2) {
        assert!(seconds(pair[0]) < seconds(pair[1]), "{pair:?}");
    }
    for row in &table.rows {
        assert!(time(&row.times[0]).rounding.abs() < 0.1, "{row:?}");
    }
    assert!(
        table.papers[0].from.contains("no judged exposure"),
        "{:?}",
        table.papers
    );
}

// The middles of ANSI PH2.7's scenes are whole or half: after sunset 9 to 11, a gallery 8 to 11.
#[test]
fn no_exposure_value_of_a_card_stands_beside_two_times() {
    let proof = proofed_page(&format!("{CAMERA}{}", paper("6", "1.2")));
    let cards = trayside::views::cards(&proof.notebook, &proof.facts, &proof.findings);
    let card = cards.cards.iter().find(|card| card.id == "tin").unwrap();
    let rows = &card.times.as_ref().unwrap().rows;
    let row = |name: &str| rows.iter().find(|row| row.name == name).unwrap();
    assert_eq!(row("after sunset").value, "10");
    assert_eq!(row("gallery").value, "9.5");
    for a in rows {
        for b in rows {
            assert_eq!(
                a.value == b.value,
                a.times == b.times,
                "{} and {}",
                a.name,
                b.name
            );
        }
    }
    // Beside two stops either way, what rounding makes is not worth a wet reader's time.
    let said = &card.beforehand.first().unwrap().text;
    assert!(
        said.contains("2 stops either way") && !said.contains("rounded"),
        "{said}"
    );
}

#[test]
fn what_cannot_be_asked_is_refused_in_words() {
    let proof = proofed_page(&format!("{CAMERA}{}", paper("6", "1.2")));
    let settings = &proof.notebook.settings;
    let why = read_light("cloudy brite", settings).unwrap_err();
    assert!(why.contains("did you mean `cloudy bright`"), "{why}");
    assert!(read_light("12 ml", settings).is_err());
    assert!(read_when("yesterday", settings).is_err());
    let question = Question {
        camera: "no-such-box",
        papers: &["rc"],
        lights: &[],
        at: None,
    };
    assert!(exposure_table(&question, &proof.notebook, &proof.facts).is_err());
}

// The sun's place by Reda and Andreas, then the table of upright subjects.
#[test]
fn sunlight_is_computed_from_place_and_hour() {
    let page = format!(
        "{CAMERA}{}{}",
        paper("6", "1.2"),
        exposure("wall", "2031-05-02 18:30", "light: sun\nsky: hazy\nfacing: side")
    );
    let proof = proofed_page(&page);
    let place = sun::Place {
        latitude: Angle::from_degrees(38.7),
        longitude: Angle::from_degrees(-9.1),
    };
    let position = sun::position(place, "2031-05-02T17:30:00Z".parse().unwrap()).unwrap();
    let wanted = facing::exposure_value(position.altitude, Facing::Side, Sky::Hazy);
    near(best(&proof, "wall.light"), wanted.best, 1e-9);
    near(number(&proof, "wall.light").0, wanted.low, 1e-9);
    // Without a place the exposure table speaks: 15, less a stop for haze and one for the side.
    let elsewhere = Memory::new()
        .with("trayside.yaml", "title: T\nzone: Europe/Lisbon\n")
        .with("page.md", &*page);
    let proof = proof_of(&elsewhere);
    near(best(&proof, "wall.light"), 13.0, 1e-9);
}

fn proof_of(folder: &Memory) -> Proof {
    proof(folder, &Silent).unwrap()
}

#[test]
fn a_low_sun_says_that_the_table_disagrees() {
    let page = format!(
        "{CAMERA}{}{}",
        paper("6", "1.2"),
        exposure("late", "2031-05-02 20:05", "light: sun\ntime: 5 min")
    );
    let told = inputs(&proofed_page(&page), "late.light");
    assert!(told.contains("exposure table: EV 15.0"), "{told}");
}

#[test]
fn a_long_exposure_follows_the_sun_until_it_is_full() {
    let page = |time: &str| {
        let light = format!("light: sun\nfilter: 3 stops\n{time}");
        format!(
            "{CAMERA}{}{}",
            paper("3", "1.2"),
            exposure("slow", "2031-05-02 17:40", &light)
        )
    };
    let open = proofed_page(&page(""));
    let needed = best(&open, "slow.time");
    assert!(needed > 1800.0, "{needed}");
    assert!(inputs(&open, "slow.time").contains("followed over the sky"));
    let given = proofed_page(&page(&format!("time: {needed:.0} s")));
    let Body::Exposure(exposure) = &given.notebook.block("slow").unwrap().body else {
        panic!("no exposure");
    };
    let full = full_exposures(exposure, &given.notebook, &given.facts).unwrap();
    near(full, 1.0, 0.01);
}

/// The solstice in Lisbon, where the sun goes down at 21:05: a sheet in the sun, on paper of index 6.
fn solstice(hour: &str, p: &str, rest: &str) -> Proof {
    let sheet = exposure(
        "sheet",
        &format!("2031-06-21 {hour}"),
        &format!("light: sun\n{rest}"),
    );
    proofed_page(&format!("{CAMERA}{}{sheet}", paper("6", p)))
}

#[test]
fn no_exposure_goes_on_through_the_night() {
    for hour in ["20:50", "20:55", "21:00"] {
        let proof = solstice(hour, "1.2", "");
        let time = proof.facts.named("sheet.time").unwrap();
        let why = time.value.as_ref().unwrap_err();
        assert_eq!(why, "the light goes before the sheet has enough", "{hour}");
        let asked = table(&proof, Some("sun"), Some(&format!("2031-06-21 {hour}")));
        assert!(matches!(&asked.rows[0].times[0], Cell::Gap { why: told } if told == why));
    }
}

/// How many full exposures a sheet gathers where reciprocity holds, summed by about ten seconds at f/250 and index 6; `end` takes
/// one value of the light's range.
fn summed(from: &str, facing: Facing, seconds: f64, end: fn(trayside::units::Range) -> f64) -> f64 {
    let place = sun::Place {
        latitude: Angle::from_degrees(38.7),
        longitude: Angle::from_degrees(-9.1),
    };
    let opened: jiff::Timestamp = from.parse().unwrap();
    let steps = (seconds / 10.0).ceil();
    let length = seconds / steps;
    let each = |step: i32| {
        let after = (f64::from(step) + 0.5) * length;
        let at = opened + jiff::SignedDuration::try_from_secs_f64(after).unwrap();
        let altitude = sun::position(place, at).unwrap().altitude;
        let value = end(facing::exposure_value(altitude, facing, Sky::Clear));
        length * 6.0 * value.exp2() / (250.0 * 250.0 * 100.0)
    };
    (0..steps as i32).map(each).sum()
}

// The fraction rule with p 1 is the integral of the light, taken here by another sum over the sun's places.
#[test]
fn the_sun_is_followed_for_each_end_of_the_interval() {
    for (hour, utc, facing) in [
        ("06:30", "2031-06-21T05:30:00Z", Facing::Back),
        ("06:20", "2031-06-21T05:20:00Z", Facing::Front),
        ("20:10", "2031-06-21T19:10:00Z", Facing::Front),
    ] {
        let proof = solstice(hour, "1", &format!("facing: {}", facing.word()));
        let (low, middle, high) = number(&proof, "sheet.time");
        near(summed(utc, facing, low, |light| light.high), 1.0, 0.02);
        near(summed(utc, facing, middle, |light| light.best), 1.0, 0.02);
        let told = inputs(&proof, "sheet.time");
        if told.contains("sunset") {
            assert!(summed(utc, facing, high, |light| light.low) < 1.0);
        } else {
            // How unsure the light is jumps by a stop at 5°, within a step of a minute.
            near(summed(utc, facing, high, |light| light.low), 1.0, 0.05);
        }
        // What the meter says holds for the light at the opening, and it is said by how much the time differs.
        assert!(
            told.contains("in its light at the opening it would be"),
            "{hour}: {told}"
        );
        let by = (middle / best(&proof, "sheet.time-metered")).log2();
        let told = inputs(&proof, "sheet.time-metered");
        assert!(
            told.contains(&format!("{:.1}", by.abs())),
            "{hour}: {by} in {told}"
        );
        near(best(&proof, "sheet.stops-lost") + 1.0, 1.0, 1e-9);
        assert!(inputs(&proof, "sheet.stops-lost").contains("the time follows it"));
    }
}

// By definition the time is the metered time with the stops that reciprocity takes.
#[test]
fn facts_of_one_exposure_agree_where_the_log_tells() {
    let proof = proofed_page(&format!(
        "{}{}",
        good_page(None),
        exposure("next", "2031-08-02 11:00", "light: EV 11")
    ));
    assert!(inputs(&proof, "next.time").contains("judged exposures"));
    let sum = best(&proof, "next.time-metered").log2() + best(&proof, "next.stops-lost");
    near(best(&proof, "next.time"), sum.exp2(), 1e-9);
    let (low, middle, high) = number(&proof, "next.stops-lost");
    assert!(low < middle && middle < high);
}

// At 2856 K paper that sees blue and blue-green needs 1.4 stops more at equal lux than in daylight of 5500 K.
#[test]
fn warm_light_costs_what_the_paper_does_not_see() {
    let page = |colour: &str| {
        let rest = format!("light: 1000 lx\n{colour}");
        format!(
            "{CAMERA}{}{}",
            paper("6", "1"),
            exposure("room", "2031-05-02 18:30", &rest)
        )
    };
    let (day, lamp) = (
        proofed_page(&page("colour: 5500 K")),
        proofed_page(&page("colour: 2856 K")),
    );
    near(
        best(&day, "room.time"),
        best(&proofed_page(&page("")), "room.time"),
        1e-9,
    );
    near(
        best(&lamp, "room.time") / best(&day, "room.time"),
        1.4_f64.exp2(),
        1e-6,
    );
    assert!(inputs(&lamp, "room.time-metered").contains("colour: 2856"));
}

fn lit(paper: &str, light: &str) -> Proof {
    let when = "2031-05-02 18:30";
    proofed_page(&format!("{CAMERA}{paper}{}", exposure("room", when, light)))
}

// Planck's law, with the band 380 to 490 nm over CIE 1924 V(λ): a candle of 1850 K costs 0.39 stops more than 2000 K, and
// 15 000 K is 0.30 cheaper than 10 000 K.
#[test]
fn a_colour_beyond_the_table_is_computed() {
    let blue = paper("6", "1").replace("blue-green", "blue");
    let stops = |kelvin: &str| {
        let proof = lit(&blue, &format!("light: EV 8\ncolour: {kelvin} K"));
        assert_eq!(seen(&proof), [], "{kelvin}");
        best(&proof, "room.time").log2()
    };
    near(stops("1850") - stops("2000"), 0.39, 0.02);
    near(stops("10000") - stops("15000"), 0.30, 0.02);
    near(stops("1999"), stops("2000"), 1e-3);
    near(stops("10001"), stops("10000"), 1e-3);
    let proof = lit(&blue, "light: EV 8\ncolour: 10001 K");
    let (low, middle, high) = number(&proof, "room.time");
    assert!(low < middle && middle < high);
    let slip = lit(&blue, "light: EV 8\ncolour: 270 K");
    assert!(slip.facts.named("room.time").unwrap().value.is_err());
    assert_eq!(seen(&slip).len(), 1, "{:?}", seen(&slip));
}

// At 2700 K the three kinds of paper need 1.9, 1.6 and 1.1 stops more, and a lamp is half a stop off a black body.
#[test]
fn lamplight_on_paper_that_does_not_say_what_it_sees_is_a_range() {
    let silent = paper("6", "1").replace("sees: blue-green\n", "");
    let lamp = lit(&silent, "light: EV 12\ncolour: 2700 K");
    let day = best(&lit(&silent, "light: EV 12"), "room.time");
    let (low, middle, high) = number(&lamp, "room.time");
    near((low / day).log2(), 0.6, 1e-6);
    near((middle / day).log2(), 1.6, 1e-6);
    near((high / day).log2(), 2.4, 1e-6);
    assert!(
        lamp.findings
            .iter()
            .any(|finding| finding.rule.as_str() == "sees-missing")
    );
}

#[test]
fn strips_and_preflash_stand_with_the_time() {
    let page = format!(
        "{CAMERA}{}{}",
        paper("6", "1.2"),
        exposure(
            "e",
            "2031-05-02 11:20",
            "light: EV 14\nstrip: 4 x 1 stop from 20 s\npreflash:\n  lamp: bulb\n  time: 2 s"
        )
    );
    let told = inputs(&proofed_page(&page), "e.time").replace('\u{a0}', " ");
    assert!(
        told.contains("one after the other, covering: 20 s, 20 s, 40 s, 1 min 20 s"),
        "{told}"
    );
    assert!(told.contains("preflash: bulb"), "{told}");
}

#[test]
fn a_scan_is_worth_what_the_hole_drew() {
    let page = |dpi: &str| {
        let rest = format!("light: EV 14\ntime: 30 s\nscan:\n  file: pier.png\n  dpi: {dpi}");
        format!(
            "{CAMERA}{}{}",
            paper("6", "1.2"),
            exposure("e", "2031-05-02 11:20", &rest)
        )
    };
    let told = |dpi: &str| {
        let folder = Memory::new()
            .with("trayside.yaml", USUAL)
            .with("pier.png", "not looked at")
            .with("page.md", &*page(dpi));
        let proof = proof_of(&folder);
        proof
            .findings
            .iter()
            .any(|finding| finding.rule.as_str() == "scan-resolution-off")
    };
    assert!(told("2400") && told("100"));
    assert!(!told("600"));
}

#[test]
fn paper_round_a_tin_is_graded_by_how_far_it_goes() {
    let graded = |format: &str| {
        let page = CAMERA
            .replace("distance: 100 mm", "plane: wall, radius 50 mm")
            .replace("100×125 mm", format);
        let proof = proofed_page(&page);
        let found = proof
            .findings
            .iter()
            .find(|finding| finding.rule.as_str() == "paper-wraps-far");
        found.map(|finding| finding.grade)
    };
    assert_eq!(graded("100×125 mm"), None);
    assert_eq!(graded("100×180 mm"), Some(Grade::Hint));
    assert_eq!(graded("100×240 mm"), Some(Grade::Doubt));
    assert_eq!(graded("100×300 mm"), Some(Grade::Fault));
}

/// Every second one judged, every second one asking for its time: each asks the log as it was before it.
#[test]
fn thirty_thousand_exposures_are_computed_in_one_pass() {
    const PAGES: u32 = 60;
    const EACH: u32 = 500;
    let mut folder = Memory::new()
        .with("trayside.yaml", USUAL)
        .with("start.md", &*format!("{CAMERA}{}", paper("6", "1.2")));
    for page in 0..PAGES {
        let mut text = String::new();
        for at in 0..EACH {
            let number = page * EACH + at;
            let (day, minute) = (number / 600, number % 600);
            let when = format!(
                "2031-{:02}-{:02} {:02}:{:02}",
                1 + day / 28,
                1 + day % 28,
                8 + minute / 60,
                minute % 60
            );
            let light = 9 + number % 7;
            let rest = if number.is_multiple_of(2) {
                format!(
                    "light: EV {light}\ntime: {} s\nresult: right",
                    900 >> (number % 5)
                )
            } else {
                format!("light: EV {light}")
            };
            let _ = write!(text, "{}", exposure(&format!("e-{number}"), &when, &rest));
        }
        folder = folder.with(&format!("log-{page:02}.md"), &*text);
    }
    let proof = proof_of(&folder);
    let timed = (0..PAGES * EACH).filter(|number| {
        let fact = proof.facts.get(&format!("e-{number}"), "time");
        fact.is_some_and(|fact| fact.range().is_some())
    });
    assert_eq!(timed.count(), (PAGES * EACH) as usize);
    assert!(inputs(&proof, "rc.from-log").contains("the latest of"));
}

/// Cutting templates, read back from the PDF.
#[cfg(feature = "typst")]
mod cutting {
    use trayside::press::Press;
    use trayside::views::cutting::cuttings;

    use super::{CAMERA, proofed_page};
    use crate::press::read::{close, poppler, sizes, sound, text, words};

    fn pressed(page: &str) -> Vec<Vec<u8>> {
        let proof = proofed_page(page);
        let press = Press::new();
        cuttings(&proof.notebook, &proof.facts, &proof.findings)
            .iter()
            .map(|cutting| sound(press.cutting(cutting)))
            .collect()
    }

    #[test]
    fn a_template_says_where_paper_and_hole_go() {
        let tin = CAMERA
            .replace("id: tin", "id: round-tin")
            .replace("distance: 100 mm", "plane: wall, radius 50 mm");
        let pdfs = pressed(&format!("{CAMERA}{tin}"));
        assert_eq!(pdfs.len(), 2);
        for pdf in &pdfs {
            // A4 by ISO 216.
            assert!(close(sizes(pdf)[0], (210.0, 297.0)));
        }
        if let Some(read) = text(&pdfs[1], &[]) {
            let read = words(&read);
            assert!(
                read.contains("the hole looks here") && read.contains("157 mm along the wall"),
                "{read}"
            );
            assert!(read.to_lowercase().contains("shiny side here"), "{read}");
        }
    }

    /// Centres of words on the page in mm, as poppler sees them.
    fn centre(boxes: &str, word: &str) -> Option<f64> {
        let line = boxes
            .lines()
            .find(|line| line.contains(&format!(">{word}</word>")))?;
        let number = |name: &str| -> Option<f64> {
            let from = line.split_once(&format!("{name}=\""))?.1;
            from.split_once('"')?.0.parse().ok()
        };
        Some(f64::midpoint(number("xMin")?, number("xMax")?) * 25.4 / 72.0)
    }

    #[test]
    fn the_ruler_is_a_hundred_millimetres() {
        let pdf = pressed(CAMERA).remove(0);
        let Some(boxes) = poppler("pdftotext", &["-bbox", "-", "-"], &pdf) else {
            return;
        };
        let boxes = String::from_utf8(boxes).unwrap();
        let (zero, ninety) = (centre(&boxes, "0").unwrap(), centre(&boxes, "90").unwrap());
        assert!((ninety - zero - 90.0).abs() < 0.3, "{zero} {ninety}");
    }

    #[test]
    fn a_camera_that_cannot_be_built_gets_no_template() {
        let page = CAMERA.replace("distance: 100 mm", "plane: lid, radius 50 mm, height 90 mm");
        assert!(pressed(&page).is_empty());
    }

    #[test]
    fn a_large_sheet_gets_a_page_of_its_own() {
        let pdf = pressed(&CAMERA.replace("100×125 mm", "300×400 mm")).remove(0);
        let (width, height) = sizes(&pdf)[0];
        assert!(width > 400.0 && height > 300.0);
    }
}

/// One camera with some holes, and the metered time of a sheet in it.
fn metered_with_holes(holes: &str) -> (f64, String) {
    let page = format!(
        "{}{}{}",
        CAMERA.replace("format:", &format!("{holes}format:")),
        paper("6", "1.2"),
        exposure("sheet", "2031-05-02 11:00", "light: EV 12")
    );
    let proof = proofed_page(&page);
    let fact = proof.facts.named("sheet.time-metered").unwrap();
    let inputs: Vec<String> = fact.inputs.iter().map(|input| input.value.clone()).collect();
    (number(&proof, "sheet.time-metered").1, inputs.join("; "))
}

#[test]
fn holes_whose_images_lie_over_each_other_share_the_work() {
    let (one, _) = metered_with_holes("");
    let (two, said) = metered_with_holes("holes:\n  count: 2\n  spacing: 5 mm\n");
    assert!(
        (one / two - 2.0).abs() < 1e-9,
        "exposures add: half the time for each of two"
    );
    assert!(said.contains("96\u{a0}%") || said.contains("96 %"), "{said}");
    let (apart, said) = metered_with_holes("holes:\n  count: 2\n  spacing: 90 mm\n");
    assert!((one - apart).abs() < 1e-9, "{said}");
    assert!(said.contains("lie apart"), "{said}");
    let (unknown, said) = metered_with_holes("holes: 2\n");
    assert!((one - unknown).abs() < 1e-9, "{said}");
    assert!(said.contains("not known"), "{said}");
}

#[test]
fn holes_in_a_row_are_read_from_one_line() {
    let (map, said) = metered_with_holes("holes:\n  count: 3\n  spacing: 20 mm\n");
    for line in [
        "holes: 3, 20 mm apart\n",
        "holes: 3, 20 mm\n",
        "holes: 3, 2 cm apart\n",
    ] {
        assert_eq!(metered_with_holes(line), (map, said.clone()), "{line}");
    }
    for (wrong, rule) in [
        ("holes: three of them\n", "value-shape"),
        ("holes: 3, 20 mm, 5 mm\n", "value-shape"),
        ("holes: 3, 20 g apart\n", "dimension-wrong"),
    ] {
        let proof = proofed_page(&CAMERA.replace("format:", &format!("{wrong}format:")));
        let found: Vec<&str> = proof
            .findings
            .iter()
            .map(|finding| finding.rule.as_str())
            .collect();
        assert!(found.contains(&rule), "{wrong}: {found:?}");
    }
}

#[test]
fn a_flash_says_what_it_takes_from_the_scene() {
    let page = format!(
        "{CAMERA}{}{}",
        paper("6", "1.2"),
        exposure(
            "sheet",
            "2031-05-02 11:00",
            "light: EV 12\ntime: 2 min\npreflash: 0.2 lx s"
        )
    );
    let proof = proofed_page(&page);
    let fact = proof.facts.named("sheet.time").unwrap();
    let said = fact.inputs.iter().find(|input| input.name == "preflash").unwrap();
    // The middle is 8/6 = 1.333 lx s, the darkest an eighth of it, the brightest eight times it:
    // 6 - log2((10.67 + 0.2)/(0.1667 + 0.2)) = 1.11 stops.
    assert!(said.value.contains("1.1"), "{}", said.value);
}

/// The plot of the paper `rc` as it stands on the page `index.html` of the site.
fn plotted(folder: &Memory) -> Option<String> {
    let proof = proof(folder, &Silent).unwrap();
    trayside::pipeline::press(folder, &proof, &Silent).unwrap();
    let pages = folder.files();
    let page = pages
        .iter()
        .filter(|(path, _)| path.rsplit_once('.').is_some_and(|(_, ending)| ending == "html"))
        .map(|(_, bytes)| String::from_utf8(bytes.clone()).unwrap())
        .find(|page| page.contains("What the log says"));
    let page = page?;
    let from = page.find("What the log says").unwrap();
    let until = page[from..].find("</figure>").unwrap();
    Some(page[from..from + until].to_owned())
}

#[test]
fn the_log_is_plotted_with_its_outliers_by_name() {
    let page = |wild| {
        Memory::new()
            .with("trayside.yaml", USUAL)
            .with("page.md", good_page(wild))
    };
    let calm = plotted(&page(None)).unwrap();
    assert!(calm.contains("Judged exposures: 8."), "{calm}");
    assert!(!calm.contains("set aside"), "{calm}");
    let wild = plotted(&page(Some(5.0))).unwrap();
    assert!(wild.contains("Judged exposures: 7."), "{wild}");
    assert!(wild.contains(">e-5<"), "{wild}");
}

#[test]
fn a_log_with_a_sheet_of_a_private_page_is_not_plotted() {
    let page = good_page(Some(5.0));
    let at = page.find("```exposure\nid: e-5").unwrap();
    let (public, rest) = page.split_at(at);
    let (own, rest) = rest.split_at(rest.find("```exposure\nid: e-6").unwrap());
    let with = |audience: &str| {
        Memory::new()
            .with("trayside.yaml", USUAL)
            .with("page.md", format!("{public}{rest}"))
            .with("own.md", format!("---\naudience: {audience}\n---\n{own}"))
    };
    assert!(plotted(&with("public")).unwrap().contains("e-5"));
    assert_eq!(plotted(&with("private")), None);
}

#[test]
fn a_printing_speed_gives_an_estimate_and_says_so() {
    for written in ["500", "P 500", "P500", "ISO P 500"] {
        let page = format!(
            "{CAMERA}```paper\nid: rc\nbase: RC\nbox speed: {written}\nreciprocity: 1.2\n```\n{}",
            exposure("sheet", "2031-05-02 11:00", "light: EV 12")
        );
        let proof = proofed_page(&page);
        assert_eq!(seen(&proof), [], "{written}");
        // EI = 0.008 P, and meters that aim at 8/S lx s; the spread is a stop and a half either way.
        let (low, best, high) = number(&proof, "rc.speed");
        near(best, 4.0, 1e-9);
        near((high / best).log2(), 1.5, 1e-9);
        near((best / low).log2(), 1.5, 1e-9);
        let (low, best, high) = number(&proof, "sheet.time");
        assert!(low < best / 2.5 && high > best * 2.5, "{low} {best} {high}");
    }
}

#[test]
fn a_time_of_more_than_a_year_is_no_time() {
    let page = format!(
        "{CAMERA}{}{}",
        paper("6", "1.2"),
        exposure("sheet", "2031-05-02 22:00", "light: EV -20\nnote: a cellar")
    );
    let proof = proofed_page(&page);
    let fact = proof.facts.named("sheet.time").unwrap();
    assert!(fact.value.is_err(), "{:?}", fact.value);
}

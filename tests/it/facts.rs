//! Facts against published examples and their own properties.

use trayside::facts::{CITED, Value};
use trayside::host::Memory;
use trayside::pipeline::{Proof, Silent, proof};

use crate::support::number;

fn notebook(page: &str) -> Proof {
    let host = Memory::new()
        .with("trayside.yaml", "title: T\nzone: Europe/Lisbon\n")
        .with("page.md", page);
    proof(&host, &Silent).unwrap()
}

fn near(found: f64, wanted: f64, relative: f64) {
    assert!(
        (found - wanted).abs() <= relative * wanted.abs(),
        "{found} is not {wanted}"
    );
}

const CAMERA: &str = "\
```camera
id: box
pinhole: 0.4 mm
distance: 100 mm
format: 4×5 in
```
```paper
id: p
base: RC
speed: 6
reciprocity: 1
```
";

// EV 15 at speed 100 is one second at f/181: N² = 2^15 (definition of the exposure value, ISO 2720:1974).
#[test]
fn a_metered_time_follows_the_definition_of_the_exposure_value() {
    let page = format!(
        "{CAMERA}\n```exposure\nid: e\nwhen: 2031-05-02 11:00\ncamera: box\npaper: p\nlight: EV 15\n```\n"
    );
    let proof = notebook(&page);
    assert_eq!(proof.findings, []);
    near(number(&proof, "box.f-number").1, 250.0, 1e-12);
    let metered = 250.0 * 250.0 / 32768.0 * 100.0 / 6.0;
    near(number(&proof, "e.time-metered").1, metered, 1e-12);
    near(number(&proof, "e.time").1, metered, 1e-12);
}

// A reading of 1/125 s at f/16 and ISO 100 is EV 15 within the rounding of the marked series: 16² · 125 = 32000
// against 2^15 = 32768 (ISO 2720:1974 defines EV by N²/t).
#[test]
fn a_meter_reading_is_an_exposure_value() {
    let page = format!(
        "{CAMERA}\n```exposure\nid: e\nwhen: 2031-05-02 11:00\ncamera: box\npaper: p\nlight: 1/125 s at f/16, ISO 100\n```\n"
    );
    near(number(&notebook(&page), "e.light").1, 32000f64.log2(), 1e-12);
}

#[test]
fn reciprocity_lengthens_beyond_the_threshold_alone() {
    let page = CAMERA.replace("reciprocity: 1\n", "reciprocity: q 0.8\n");
    let page = format!(
        "{page}\n```exposure\nid: e\nwhen: 2031-05-02 11:00\ncamera: box\npaper: p\nlight: EV 15\n```\n"
    );
    let proof = notebook(&page);
    let metered = number(&proof, "e.time-metered").1;
    near(number(&proof, "e.time").1, metered.powf(1.25), 1e-12);
    near(
        number(&proof, "e.stops-lost").1,
        (metered.powf(1.25) / metered).log2(),
        1e-9,
    );
}

// A guess of p is as wide as what is known of paper in general: 0.15 either way. t^p beyond one second is Schwarzschild's law
// in the form of log-log straight lines.
#[test]
fn a_guessed_reciprocity_is_wider_than_a_stated_one() {
    let page = |p: &str| {
        let camera = CAMERA.replace("reciprocity: 1\n", &format!("reciprocity: {p}\n"));
        format!(
            "{camera}\n```exposure\nid: e\nwhen: 2031-05-02 11:20\ncamera: box\npaper: p\nlight: EV 12\n```\n"
        )
    };
    let stated = notebook(&page("1.2"));
    let (metered, (low, best, high)) = (number(&stated, "e.time-metered").1, number(&stated, "e.time"));
    near(best, metered.powf(1.2), 1e-9);
    let guessed = notebook(&page("{value: 1.2, evidence: guessed}"));
    let (wide_low, wide_best, wide_high) = number(&guessed, "e.time");
    near(wide_best, best, 1e-9);
    near(wide_low / low, metered.powf(-0.15), 1e-6);
    near(wide_high / high, metered.powf(0.15), 1e-6);
}

// Q10 of 2 doubles the speed for ten degrees: 8 min at 20 °C are 4 min at 30 °C (the definition of Q10).
#[test]
fn development_follows_the_temperature() {
    let page = "\
```recipe
id: d
role: developer
makes: 1 l
add:
  Na2CO3: 30 g
use:
  time: 8 min
  temperature: 20 °C
  at: Q10 2
keeps: 1 h
```
```process
id: line
steps:
  - bath: d
    light: red
```
```session
id: s
when: 2031-05-02 19:00
process: line
temperature: 30 °C
sheets: []
```
";
    let proof = notebook(page);
    near(number(&proof, "s.develop-time").1, 240.0, 1e-9);
    near(number(&proof, "s.under-lamp").1, 240.0, 1e-9);
    near(number(&proof, "d.strength.na2co3").1, 30.0, 1e-12);
    // Molar mass 105.988 g/mol from IUPAC standard atomic weights (Prohaska et al. 2022).
    near(number(&proof, "d.molar.na2co3").1, 30.0 / 105.988, 1e-5);
}

#[test]
fn a_gap_says_why() {
    let page = format!("{CAMERA}\n```exposure\nid: e\nwhen: 2031-05-02 11:00\ncamera: box\npaper: p\n```\n");
    let proof = notebook(&page);
    let fact = proof.facts.named("e.time").unwrap();
    assert_eq!(fact.value, Err("the light was not noted".to_owned()));
}

#[test]
fn every_source_that_a_fact_names_is_declared() {
    let host = trayside::host::Disk::open(std::path::Path::new("recipes")).unwrap();
    let proof = proof(&host, &Silent).unwrap();
    let mut seen = 0;
    for (id, facts) in proof.facts.iter() {
        for fact in facts {
            for source in &fact.sources {
                assert!(CITED.contains(source), "{id}.{} cites {source}", fact.name);
                seen += 1;
            }
        }
    }
    assert!(seen > 20);
}

#[test]
fn a_bottle_alone_says_when_a_batch_dies_and_a_capacity_bounds_the_sheets() {
    let page = "
```recipe
id: fix
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
use:
  capacity: 0.25 m2
keeps:
  bottle: 3 days
```
```batch
id: may
of: fix
made: 2031-05-02 19:00
volume: 0.5 l
```
```paper
id: pearl
base: RC
size: 100 x 125 mm
```
```process
id: line
paper: RC
steps:
  - bath: fix
    time: 2 min
```
";
    let proof = notebook(page);
    // 0.25 m² are twenty sheets of 0.0125 m², and half of it in half a litre; by area alone it would be a hundred.
    let twenty = number(&proof, "fix.sheets-until-spent");
    assert!(twenty.0 == 20.0 && twenty.2 == 20.0, "{twenty:?}");
    near(number(&proof, "may.sheets-left").1, 10.0, 1e-12);
    let dead = &proof.facts.named("may.dead-by").unwrap().value;
    assert!(
        matches!(dead, Ok(Value::Instant(end)) if end.starts_with("2031-05-05T19:00")),
        "{dead:?}"
    );
}

/// W3C XML Schema Part 2, appendix E: a month from 30 January 2000 is 29 February, one from 31 March is 30 April; a month
/// and what is less than one, in that order.
#[test]
fn months_that_a_bath_keeps_are_those_of_the_calendar() {
    for (made, keeps, end) in [
        ("2000-01-30 19:00", "1 month", "2000-02-29T19:00"),
        ("2000-03-31 19:00", "1 month", "2000-04-30T19:00"),
        ("2031-07-05 19:00", "2 months", "2031-09-05T19:00"),
        ("2031-07-05 19:00", "3–4 months", "2031-10-05T19:00"),
        ("2031-02-28 19:00", "1 year", "2032-02-28T19:00"),
        ("2032-02-29 19:00", "1/2 year", "2032-08-29T19:00"),
        // A fortnight is one, whatever the month.
        ("2031-02-20 19:00", "2 weeks", "2031-03-06T19:00"),
    ] {
        let page = format!(
            "```recipe\nid: fix\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nkeeps: {keeps}\nwaste: ask\n```\n```batch\nid: b\nof: fix\nmade: {made}\nvolume: 1 l\n```\n"
        );
        let dead = notebook(&page).facts.named("b.dead-by").unwrap().value.clone();
        assert!(
            matches!(&dead, Ok(Value::Instant(found)) if found.starts_with(end)),
            "{made} and {keeps}: {dead:?}"
        );
    }
}

/// By the calendar two months from 1 July end on 1 September, 62 days later; two times 30.4 days would end on 30 August.
#[test]
fn a_bath_is_used_after_its_calendar_months() {
    let told = |when: &str| {
        let page = format!(
            "```recipe\nid: fix\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nkeeps: 2 months\nwaste: ask\n```\n```batch\nid: b\nof: fix\nmade: 2031-07-01 19:00\nvolume: 1 l\n```\n```process\nid: line\nsteps:\n  - bath: fix\n    time: 2 min\n```\n```session\nid: s\nwhen: {when}\nprocess: line\nbaths:\n  fix: b\nsheets: []\n```\n"
        );
        let findings = notebook(&page).findings;
        let mut over = findings
            .iter()
            .filter(|finding| finding.rule.as_str() == "working-life-over");
        over.next()
            .map(|finding| finding.help.clone().unwrap_or_default())
    };
    assert_eq!(told("2031-08-31 20:00"), None);
    assert!(told("2031-09-01 20:00").unwrap().contains("2\u{a0}months before"));
}

//! What a session's facts count: sheets as large as the camera takes them, planned ones, and the times that were noted.

use trayside::pipeline::Proof;

use crate::support::{number, proofed_page};

fn best(proof: &Proof, name: &str) -> f64 {
    number(proof, name).1
}

fn near(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() <= 1e-9 * wanted.abs(),
        "{found} is not {wanted}"
    );
}

/// A line, a batch of fixer, two sheets from one camera, and their session.
fn evening(format: &str, rest: &str) -> String {
    format!(
        "```recipe\nid: dev\nrole: developer\nmakes: 1 l\nadd:\n  Na2CO3: 30 g\n  vitamin C powder: 10 g\nuse:\n  time: 3 min\n  \
         temperature: 20 °C\n  factor: 6\nkeeps: 1 h\n```\n\n\
         ```recipe\nid: fix\nrole: fixer\nmakes: 0.5 l\nadd:\n  hypo, crystals: 100 g\nkeeps: 12 weeks\nwaste: ask\n```\n\n\
         ```batch\nid: hypo\nof: fix\nmade: 2031-05-02 16:00\nvolume: 0.5 l\n```\n\n\
         ```process\nid: line\npaper: RC\nsteps:\n  - bath: dev\n    time: 3 min\n    light: red\n  - rinse: tap water\n    time: 70 s\n    \
         light: red\n    tray: bowl\n  - bath: fix\n    time: 2 min\n    light: red\n  - wash: tap water\n    time: 4 min\n    light: room\n```\n\n\
         ```camera\nid: tin\npinhole: 0.35 mm\ndistance: 75 mm\nformat: {format}\n```\n\n\
         ```paper\nid: pearl\nbase: RC\nsize: 100×125 mm\nspeed: 5\nreciprocity: 1.15\nsilver: 1.3 g/m²\n```\n\n\
         ```exposure\nid: one\nwhen: 2031-05-02 11:20\ncamera: tin\npaper: pearl\nlight: EV 14\n```\n\n\
         ```exposure\nid: two\nwhen: 2031-05-02 11:30\ncamera: tin\npaper: pearl\nlight: EV 14\n```\n\n\
         ```safelight\nid: lamp\nlamp: red\ncolour: red\ndistance: 1.3 m\ntested:\n  paper: pearl\n  bare: 20 min\n  pre-exposed: 20 min\n```\n\n\
         ```session\nid: evening\nwhen: 2031-05-02 19:40\nprocess: line\nbaths:\n  fix: hypo\nsafelight: lamp\ntemperature: 22 °C\n\
         sheets: [one, two]\n{rest}\n```\n"
    )
}

/// 1.3 g/m² on two halves of a 100×125 mm sheet, which is one sheet: 0.0125 m² hold 16.25 mg. And on two sheets of 8×10 in, which
/// is 0.0516 m² each, 134 mg.
#[test]
fn a_sheet_is_as_large_as_the_camera_takes_it() {
    let whole = proofed_page(&evening("100×125 mm", ""));
    let half = proofed_page(&evening("50×125 mm", ""));
    near(best(&whole, "evening.silver"), 2.0 * 0.016_25);
    near(best(&half, "evening.silver"), 0.016_25);
    let large = proofed_page(&evening("8×10 in", ""));
    near(best(&large, "evening.silver"), 2.0 * 1.3 * 0.2032 * 0.254);
    // Half a litre takes 0.625 m², fifty sheets of the packet; two of them are used, or two halves.
    for name in ["evening.sheets-left.fix", "hypo.sheets-left"] {
        near(best(&whole, name), 48.0);
        near(best(&half, name), 49.0);
    }
}

#[test]
fn planned_sheets_count_in_every_fact_of_the_session() {
    let proof = proofed_page(&evening("100×125 mm", "people: 4\neach: 10\nspare: 10 %"));
    near(best(&proof, "evening.silver"), 44.0 * 0.016_25);
    near(best(&proof, "evening.sheets-left.fix"), 6.0);
    near(best(&proof, "hypo.sheets-left"), 6.0);
    // More than it takes: the session says how many too many, the batch that none is left.
    let proof = proofed_page(&evening("100×125 mm", "people: 60\neach: 5"));
    near(best(&proof, "evening.silver"), 300.0 * 0.016_25);
    near(best(&proof, "evening.sheets-left.fix"), -250.0);
    near(best(&proof, "hypo.sheets-left"), 0.0);
    // Planned sheets are as large as those that are listed.
    let proof = proofed_page(&evening("50×125 mm", "people: 4\neach: 10"));
    near(best(&proof, "evening.silver"), 20.0 * 0.016_25);
    near(best(&proof, "hypo.sheets-left"), 30.0);
}

/// Total time is the time of first appearance times the factor (Watkins's rule): 40 s times 6 are 4 min, whatever the
/// thermometer says.
#[test]
fn a_factor_goes_by_the_first_appearance() {
    let event = |seen: &str, step: &str| {
        format!("events:\n  - at: 19:41\n    sheet: one\n    step: {step}\n    appeared: {seen}")
    };
    let proof = proofed_page(&evening("100×125 mm", &event("40 s", "dev")));
    near(best(&proof, "evening.develop-time"), 240.0);
    near(best(&proof, "evening.under-lamp"), 240.0 + 70.0);
    let two = "events:\n  - at: 19:41\n    appeared: 50 s\n  - at: 19:42\n    appeared: 30 s";
    let (low, _, high) = number(&proofed_page(&evening("100×125 mm", two)), "evening.develop-time");
    assert_eq!((low, high), (180.0, 300.0));
    // By the eye alone it ends when that time is over, too.
    let by_eye = evening("100×125 mm", &event("40 s", "dev")).replacen(
        "dev\n    time: 3 min",
        "dev\n    time: by inspection",
        1,
    );
    near(best(&proofed_page(&by_eye), "evening.develop-time"), 240.0);
    // What shows in another bath is none of the developer's: 3 min at 20 °C are 157 s at 22 °C by a Q10 of 2.
    let other = proofed_page(&evening("100×125 mm", &event("40 s", "fix")));
    near(best(&other, "evening.develop-time"), 180.0 * 2f64.powf(-0.2));
}

#[test]
fn real_times_count_under_the_lamp() {
    let has_over = |proof: &Proof| {
        let over = |rule: &str| rule == "lamp-time-over";
        proof.findings.iter().any(|finding| over(finding.rule.as_str()))
    };
    let planned = proofed_page(&evening("100×125 mm", ""));
    assert!(!has_over(&planned), "{:?}", planned.findings);
    // 20 min of development, and 70 s of rinsing by the line: the lamp is safe for ten minutes.
    let real = proofed_page(&evening("100×125 mm", "times:\n  dev: 20 min"));
    near(best(&real, "evening.under-lamp"), 1200.0 + 70.0);
    assert!(has_over(&real), "{:?}", real.findings);
    // A tray's name stands for what has no recipe. The fixer's time is not counted, as in the line.
    let all = "times:\n  dev: 2 – 4 min\n  bowl: 30 s\n  fix: 9 min";
    let (low, middle, high) = number(&proofed_page(&evening("100×125 mm", all)), "evening.under-lamp");
    assert_eq!((low, middle, high), (150.0, 210.0, 270.0));
}

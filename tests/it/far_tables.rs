//! Figures that are carried far beyond what somebody tried.

use crate::support::{proofed_page, seen};

fn told(page: &str, rule: &str) -> Option<String> {
    let seen = seen(&proofed_page(page));
    seen.into_iter().find(|one| one.rule == rule).map(|one| one.text)
}

/// ISO 2720: t = N² / 2^EV x 100 / S, here 250² x 20 / 2^EV. Four times 100 s are reached at EV 11.61, a quarter of 10 s at
/// EV 18.9; that two stops are far is common practice, no source.
#[test]
fn a_table_of_times_is_carried_on_for_two_stops() {
    let page = |light: &str| {
        format!(
            "```camera\nid: box\npinhole: 0.3 mm\ndistance: 75 mm\nformat: 100×125 mm\n```\n\
             ```paper\nid: grade-2\nbase: RC\nspeed: 5\ntimes:\n  10 s: 15 s\n  100 s: 4 min\n```\n\
             ```exposure\nid: pier\nwhen: 2031-05-02 11:20\ncamera: box\npaper: grade-2\nlight: {light}\n```\n"
        )
    };
    let rule = "times-beyond-table";
    assert_eq!(told(&page("EV 11.6"), rule).as_deref(), Some("grade-2"));
    assert_eq!(told(&page("EV 11.7"), rule), None);
    assert_eq!(told(&page("EV 18.8"), rule), None);
    assert!(told(&page("EV 19"), rule).is_some());
    // What was given is not drawn from the table.
    let given = page("EV 6").replace("light: EV 6\n", "light: EV 6\ntime: 3 h\n");
    assert_eq!(told(&given, rule), None);
}

/// 15 to 30 °C are common practice, no source; what the recipe names widens them.
#[test]
fn a_time_is_followed_to_where_it_was_tried() {
    let page = |usage: &str, real: &str| {
        format!(
            "```recipe\nid: d\nrole: developer\nmakes: 1 l\nadd:\n  Na2CO3: 36 g\n  ascorbic acid: 12 g\nuse:\n  time: 4 min\n{usage}keeps: 1 h\n```\n\
             ```process\nid: p\npaper: RC\nsteps:\n  - bath: d\n    time: 4 min\n```\n\
             ```session\nid: s\nwhen: 2031-05-02 19:40\nprocess: p\ntemperature: {real}\nsheets: []\n```\n"
        )
    };
    let rule = "temperature-far";
    let plain = "  temperature: 20 °C\n";
    assert_eq!(told(&page(plain, "9 °C"), rule).as_deref(), Some("9 °C"));
    assert_eq!(told(&page(plain, "16 °C"), rule), None);
    assert!(told(&page(plain, "34 °C"), rule).is_some());
    let warm = "  temperature: 20 °C\n  at: 2 min at 36 °C\n";
    assert_eq!(told(&page(warm, "34 °C"), rule), None);
}

//! What findings tell a reader to do, with the arithmetic beside it.

use crate::support::proofed_page;

/// The message and the help of each finding of a rule.
fn words(page: &str, rule: &str) -> Vec<(String, String)> {
    let proof = proofed_page(page);
    let findings = proof
        .findings
        .iter()
        .filter(|finding| finding.rule.as_str() == rule);
    let words = findings.map(|finding| {
        let plain = |text: &str| text.replace('\u{a0}', " ");
        (
            plain(&finding.message),
            plain(finding.help.as_deref().unwrap_or_default()),
        )
    });
    words.collect()
}

/// 220 mm x 270 mm x 12 mm = 712 800 mm³, that is 713 ml; at 1+3 a quarter of that, 178 ml, is what was mixed. 12 mm are
/// common practice, no source.
#[test]
fn a_shallow_tray_says_how_much_to_pour() {
    let page = |makes: &str, usage: &str| {
        format!(
            "title: T\nzone: Europe/London\ntrays:\n  - name: white\n    inside: 220×270 mm\n---8<---\n```recipe\nid: stop\nrole: stop\nmakes: {makes}\nadd:\n  citric acid, anhydrous: 15 g/l\n{usage}keeps: 1 day\n```\n```process\nid: line\npaper: RC\nsteps:\n  - bath: stop\n    time: 30 s\n    tray: white\n```\n"
        )
    };
    let plain = words(&page("600 ml", ""), "tray-shallow");
    assert_eq!(
        plain,
        [(
            "600 ml of `stop` stand 10 mm deep in the tray".to_owned(),
            "pour 713 ml for 12 mm of depth, or take a smaller tray".to_owned()
        )]
    );
    let thin = words(&page("150 ml", "use:\n  dilution: 1+3\n"), "tray-shallow");
    assert_eq!(
        thin.first().map(|(_, help)| help.as_str()),
        Some(
            "pour 713 ml (178 ml as it is mixed, the rest water) for 12 mm of depth, or take a smaller tray"
        )
    );
}

/// By the definition of arc, half of a cylinder of 60 mm is π x 60 mm = 188.5 mm; a plate lights nothing behind itself.
#[test]
fn paper_lies_on_half_a_cylinder_at_most() {
    let told = |long: &str| {
        let camera = format!(
            "```camera\nid: half\npinhole: 0.3 mm\nplane: axis, radius 60 mm\nformat: 100×{long} mm\n```\n"
        );
        words(&camera, "paper-wraps-far")
            .pop()
            .map(|(message, _)| message)
    };
    assert_eq!(told("188"), None);
    assert_eq!(
        told("200").as_deref(),
        Some("this paper goes 191° round the cylinder: what is beyond half of it gets no light")
    );
}

/// What is poured has no grains (common practice, no source).
#[test]
fn grains_are_told_of_powders_only() {
    let told = |soda: &str, acid: &str| {
        let page = format!(
            "```recipe\nid: d\nrole: developer\nmakes: 1 l\nwater: 500 ml\nadd:\n  {soda}\n  {acid}\nkeeps: 1 h\n```\n"
        );
        let words = words(&page, "mixed-together");
        words
            .first()
            .map(|(message, _)| message.clone())
            .expect("a finding")
    };
    let (powder, acid) = ("Na2CO3: 36 g", "ascorbic acid: 12 g");
    let (solution, sour) = ("Na2CO3 10 % w/v: 300 ml", "ascorbic acid 10 % w/v: 100 ml");
    assert!(told(powder, acid).ends_with("and grains stay"));
    assert!(told(powder, sour).ends_with("grains of the soda stay"));
    assert!(told(solution, acid).ends_with("grains of the vitamin C stay"));
    assert!(!told(solution, sour).contains("grain"));
}

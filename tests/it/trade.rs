//! The trade's rules against whole small notebooks.

use trayside::finding::{Finding, Grade};
use trayside::host::Memory;
use trayside::pipeline::{Silent, proof};
use trayside::rules::{Group, catalogue};

/// The settings of an example that brings none.
const USUAL: &str = "title: A test\nzone: Europe/London\n";

#[expect(clippy::unwrap_used, reason = "a notebook in memory can always be looked at")]
fn findings(settings: &str, page: &str) -> Vec<Finding> {
    let host = Memory::new()
        .with("trayside.yaml", settings)
        .with("page.md", page);
    proof(&host, &Silent).unwrap().findings
}

fn example(page: &str) -> Vec<Finding> {
    match page.split_once("---8<---") {
        Some((settings, page)) => findings(settings.trim_start(), page),
        None => findings(USUAL, page),
    }
}

fn grave(findings: &[Finding]) -> Vec<String> {
    findings
        .iter()
        .filter(|finding| finding.counts() && finding.grade < Grade::Hint)
        .map(|finding| format!("{}[{}]: {}", finding.grade, finding.rule, finding.message))
        .collect()
}

#[test]
fn every_example_shows_its_rule_and_nothing_graver_beside() {
    let mut wrong = Vec::new();
    let ours = [Group::Materials, Group::Baths, Group::Line, Group::Room];
    for rule in catalogue().filter(|rule| ours.contains(&rule.group)) {
        assert!(
            rule.examples.iter().any(|example| example.reported),
            "{}",
            rule.name
        );
        assert!(
            rule.examples.iter().any(|example| !example.reported),
            "{}",
            rule.name
        );
        for (at, one) in rule.examples.iter().enumerate() {
            let found = example(one.page);
            let shown = found.iter().any(|finding| finding.rule == rule.name);
            let mut others = grave(&found);
            others.retain(|other| !other.contains(&format!("[{}]", rule.name)));
            if shown != one.reported || !others.is_empty() {
                wrong.push(format!(
                    "{} example {at}: shown {shown}, others {others:#?}",
                    rule.name
                ));
            }
            for finding in found.iter().filter(|finding| finding.rule == rule.name) {
                assert!(finding.help.is_some(), "{} gives no help", rule.name);
                assert!(!finding.message.ends_with('.'), "{}", finding.message);
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn a_packet_of_a_stated_strength_does_not_answer_for_the_bare_name() {
    let page = "
```ingredient
material: vinegar 8 %
of: vinegar
form: liquid
contains:
  acetic acid: 8 % w/v
```

```recipe
id: some-vinegar
role: stop
makes: 1 l
add:
  vinegar: 100 ml
keeps: 12 h
```
";
    let found = findings(USUAL, page);
    assert!(
        found
            .iter()
            .any(|finding| finding.rule.as_str() == "vinegar-strength-missing")
    );
}

fn has(found: &[Finding], rule: &str) -> bool {
    found.iter().any(|finding| finding.rule.as_str() == rule)
}

/// A recipe of one part.
fn bath(role: &str, add: &[&str]) -> String {
    format!(
        "```recipe\nid: bath\nrole: {role}\nmakes: 1 l\nwater: 800 ml\nadd:\n  {}\nkeeps: 1 h\nwaste: ask\n```\n",
        add.join("\n  ")
    )
}

#[test]
fn a_renamed_packet_and_a_formula_trigger_what_the_name_does() {
    let renamed = "```ingredient\nmaterial: the blue tin\nformula: NaHCO3\n```\n\n\
                   ```ingredient\nmaterial: grandmother's crystals\nformula: Na2S2O3·5H2O\n```\n\n\
                   ```ingredient\nmaterial: sour powder\nformula: C6H8O7\n```\n\n\
                   ```ingredient\nmaterial: pool tablets\nformula: Ca(ClO)2\n```\n\n";
    for (rule, role, names) in [
        (
            "baking-soda-alone",
            "developer",
            ["the blue tin: 36 g", "caffeic acid: 5 g"],
        ),
        (
            "baking-soda-alone",
            "developer",
            ["NaHCO3: 36 g", "caffeic acid: 5 g"],
        ),
        (
            "baking-soda-alone",
            "developer",
            ["sodium bicarbonate: 36 g", "caffeic acid: 5 g"],
        ),
        (
            "acid-into-hypo",
            "fixer",
            ["grandmother's crystals: 200 g", "sour powder: 10 g"],
        ),
        ("acid-into-hypo", "fixer", ["Na2S2O3·5H2O: 200 g", "C6H8O7: 10 g"]),
        (
            "acid-into-hypo",
            "fixer",
            ["ammonium thiosulfate: 100 g", "lemon juice: 50 ml"],
        ),
        (
            "hypochlorite-with-acid",
            "bleach",
            ["pool tablets: 5 g", "sour powder: 10 g"],
        ),
        (
            "hypochlorite-with-acid",
            "bleach",
            ["bleach: 50 ml", "vinegar 5 %: 50 ml"],
        ),
        (
            "hypochlorite-with-acid",
            "bleach",
            ["Ca(ClO)2: 5 g", "vitamin C powder: 10 g"],
        ),
        ("folk-fixer", "fixer", ["NaCl: 300 g", "water: 100 g"]),
    ] {
        let found = findings(USUAL, &format!("{renamed}{}", bath(role, &names)));
        assert!(has(&found, rule), "{rule} for {names:?}: {:?}", grave(&found));
    }
}

#[test]
fn a_hazard_cannot_be_turned_off_but_acknowledged() {
    let sour = bath(
        "fixer",
        &["hypo, crystals: 200 g", "citric acid, anhydrous: 10 g"],
    );
    for grade in ["off", "hint"] {
        let found = findings(&format!("{USUAL}rules:\n  acid-into-hypo: {grade}\n"), &sour);
        assert!(has(&found, "grade-fixed"));
        let hazard = found
            .iter()
            .find(|finding| finding.rule.as_str() == "acid-into-hypo")
            .unwrap();
        assert_eq!((hazard.grade, hazard.counts()), (Grade::Hazard, true));
    }
    let reason = "acknowledge:\n  acid-into-hypo: shown behind glass, never mixed\nkeeps: 1 h";
    let found = findings(USUAL, &sour.replace("keeps: 1 h", reason));
    let hazard = found
        .iter()
        .find(|finding| finding.rule.as_str() == "acid-into-hypo")
        .unwrap();
    assert_eq!((hazard.grade, hazard.counts()), (Grade::Hazard, false));
    assert_eq!(grave(&found), Vec::<String>::new());
}

#[test]
fn a_grade_can_be_set_and_a_doubt_turned_off() {
    let stop = "```recipe\nid: stop\nrole: stop\nmakes: 1 l\nadd:\n  citric acid, anhydrous: 50 g\nkeeps: 1 h\n```\n";
    assert!(has(&findings(USUAL, stop), "stop-strength"));
    assert!(!has(
        &findings(&format!("{USUAL}rules:\n  stop-strength: off\n"), stop),
        "stop-strength"
    ));
}

#[test]
fn nothing_is_concluded_from_what_could_not_be_read() {
    // The alkali's amount is broken, so it cannot be said that baking soda is the only one.
    let page = bath(
        "developer",
        &[
            "baking soda: 36 g",
            "washing soda, anhydrous: 36 gr\u{fc}n",
            "caffeic acid: 5 g",
        ],
    );
    let found = findings(USUAL, &page);
    assert!(!has(&found, "baking-soda-alone"), "{:?}", grave(&found));
    // The fixer's name is misspelt: that is the one thing to say.
    let page = format!(
        "{}\n```process\nid: line\nsteps:\n  - bath: bath\n    time: 2 min\n  - bath: plain-hipo\n    time: 2 min\n```\n",
        bath(
            "developer",
            &["washing soda, anhydrous: 30 g", "caffeic acid: 5 g"]
        )
    );
    let found = findings(USUAL, &page);
    assert!(has(&found, "reference-unknown"));
    assert!(!has(&found, "fixer-missing"), "{:?}", grave(&found));
}

#[test]
fn what_a_base_says_is_not_said_again() {
    let base = "```recipe\nid: weak\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 120 g\nkeeps: 1 h\nwaste: ask\n```\n\n\
                ```recipe\nid: second\nbased on: weak\n```\n";
    let found = findings(USUAL, base);
    let weak = found
        .iter()
        .filter(|finding| finding.rule.as_str() == "hypo-strength");
    assert_eq!(weak.count(), 1);
    // But a hazard is said of every bath that has it.
    let sour = base.replace(
        "hypo, crystals: 120 g",
        "hypo, crystals: 200 g\n  citric acid, anhydrous: 10 g",
    );
    let found = findings(USUAL, &sour);
    let hazards = found.iter().filter(|finding| finding.grade == Grade::Hazard);
    assert_eq!(hazards.count(), 2);
}

#[test]
fn what_a_batch_took_instead_counts() {
    let page = "```recipe\nid: hypo\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nkeeps: 1 d\nwaste: ask\n```\n\n\
                ```batch\nid: sour\nof: hypo\nmade: 2031-05-02 19:00\nvolume: 1 l\nswaps:\n  vinegar 8 %: 50 ml\n```\n";
    let found = findings(USUAL, page);
    assert!(has(&found, "acid-into-hypo"), "{:?}", grave(&found));
}

#[test]
fn help_reckons_with_this_recipe() {
    let page = bath("developer", &["washing soda: 18 g", "caffeic acid: 5 g"]);
    let found = findings(USUAL, &page);
    let form = found
        .iter()
        .find(|finding| finding.rule.as_str() == "soda-form-missing")
        .unwrap();
    let help = form.help.as_deref().unwrap().replace('\u{a0}', " ");
    assert!(
        help.contains("18 g anhydrous is 21.1 g monohydrate or 48.6 g crystals"),
        "{help}"
    );
}

/// A developer of soda and vitamin C, each in its own part.
fn developer(soda: &str, agent: &str, rest: &str) -> String {
    format!(
        "```recipe\nid: rosemary\nrole: developer\nmakes: 1 l\nparts:\n  - name: alkali\n    water: 400 ml at 24 °C\n    add:\n      {soda}\n    \
         steps:\n      - dissolve: 5 min\n  - name: agent\n    water: 200 ml at 24 °C\n    add:\n      {agent}\n    steps:\n      - dissolve: 2 min\n\
         steps:\n  - pour: [agent, into alkali]\n  - make up\n{rest}\n```\n"
    )
}

/// A line of hypo and a wash.
fn hypo_line(paper: &str, fix: &str, wash: &str) -> String {
    format!(
        "```recipe\nid: hypo\nrole: fixer\nmakes: 1 l\nadd:\n  hypo, crystals: 200 g\nkeeps: 1 d\nwaste: ask\n```\n\n\
         ```process\nid: line\npaper: {paper}\nsteps:\n  - bath: hypo\n    time: {fix}\n    light: red\n  - wash: tap water\n    time: {wash}\n    light: room\n```\n"
    )
}

#[test]
fn thresholds_of_two_steps_grade_by_how_far_one_is_past() {
    let soda = "washing soda, anhydrous: 36 g";
    let agent = "vitamin C powder: 12 g";
    let minors = format!("{USUAL}people:\n  count: 6\n  minors: yes\n");
    for (rule, grade, settings, page) in [
        (
            "vitamin-c-over-soda",
            Grade::Doubt,
            USUAL,
            developer("washing soda, anhydrous: 24 g", agent, "keeps: 1 h"),
        ),
        (
            "vitamin-c-over-soda",
            Grade::Doubt,
            USUAL,
            developer("washing soda, anhydrous: 12 g", agent, "keeps: 1 h"),
        ),
        (
            "vitamin-c-over-soda",
            Grade::Fault,
            USUAL,
            developer("washing soda, crystals: 20 g", agent, "keeps: 1 h"),
        ),
        (
            "working-life-long",
            Grade::Doubt,
            USUAL,
            developer(soda, agent, "keeps: 2 h"),
        ),
        (
            "working-life-long",
            Grade::Fault,
            USUAL,
            developer(soda, agent, "keeps: 1 d"),
        ),
        (
            "caustic-present",
            Grade::Doubt,
            USUAL,
            developer("NaOH: 6 g", agent, "keeps: 1 h"),
        ),
        (
            "caustic-present",
            Grade::Hazard,
            &minors,
            developer("NaOH: 6 g", agent, "keeps: 1 h"),
        ),
        (
            "effervescent-tablets",
            Grade::Doubt,
            USUAL,
            developer(
                soda,
                "chewable vitamin C tablets: 24 × 500 mg tablets",
                "keeps: 1 h",
            ),
        ),
        (
            "hypo-strength",
            Grade::Fault,
            USUAL,
            bath("fixer", &["hypo, crystals: 80 g"]),
        ),
        (
            "hypo-strength",
            Grade::Hint,
            USUAL,
            bath("fixer", &["hypo, anhydrous: 300 g"]),
        ),
        (
            "water-over-makes",
            Grade::Fault,
            USUAL,
            bath("fixer", &["hypo, crystals: 200 g"]).replace("800 ml", "1.2 l"),
        ),
        ("fix-time", Grade::Hint, USUAL, hypo_line("RC", "6 min", "4 min")),
        (
            "fix-time",
            Grade::Doubt,
            USUAL,
            hypo_line("fibre", "2 min", "60 min"),
        ),
        (
            "fix-below-clearing",
            Grade::Fault,
            USUAL,
            hypo_line("RC", "2 min\n    clears: [25 s, 50 s]", "4 min"),
        ),
        (
            "acid-into-sulfite",
            Grade::Doubt,
            USUAL,
            bath(
                "wash aid",
                &["sodium sulfite: 10 g", "citric acid, anhydrous: 30 g"],
            ),
        ),
    ] {
        let found = findings(settings, &page);
        let own: Vec<Grade> = found
            .iter()
            .filter(|finding| finding.rule.as_str() == rule)
            .map(|finding| finding.grade)
            .collect();
        assert_eq!(own, [grade], "{rule}: {:?}", grave(&found));
    }
}

/// A line, its baths, a sheet, and a batch mixed at half past eleven at night.
fn late_night(event: &str) -> String {
    format!(
        "{}\n{}\n\
         ```camera\nid: drum\npinhole: 0.35 mm\ndistance: 75 mm\nformat: 100×125 mm\n```\n\n\
         ```paper\nid: grade-2\nbase: RC\nsize: 100×125 mm\nspeed: 5\nreciprocity: 1.15\n```\n\n\
         ```exposure\nid: pier\nwhen: 2031-05-02 11:20\ncamera: drum\npaper: grade-2\nlight: EV 14\nresult: right\nby: MT\n```\n\n\
         ```batch\nid: mix\nof: rosemary\nmade: 2031-05-02 23:30\nvolume: 0.3 l\n```\n\n\
         ```process\nid: evening\nsteps:\n  - bath: rosemary\n    light: red\n    tray: white\n    time: 4 min\n  - rinse: 30 s\n  - bath: hypo\n    \
         time: 2 min\n  - wash: 4 min\n```\n\n\
         ```session\nid: night\nwhen: 2031-05-02 23:40\nprocess: evening\nbaths:\n  rosemary: mix\nsheets: [pier]\nevents:\n  - at: {event}\n    \
         sheet: pier\n    step: rosemary\n```\n",
        developer(
            "washing soda, anhydrous: 36 g",
            "vitamin C powder: 12 g",
            "keeps: 1 h"
        ),
        hypo_line("RC", "2 min", "4 min")
    )
}

#[test]
fn a_bath_is_as_old_as_when_the_sheet_went_in() {
    // Midnight lies between; the last is told from the beginning of the session.
    for (event, over) in [
        ("2031-05-03 00:29", false),
        ("2031-05-03 00:31", true),
        ("00:29", false),
        ("00:31", true),
        ("49 min", false),
        ("51 min", true),
    ] {
        let found = findings(USUAL, &late_night(event));
        assert_eq!(
            has(&found, "working-life-over"),
            over,
            "{event}: {:?}",
            grave(&found)
        );
    }
}

#[test]
fn a_small_batch_in_a_wide_tray_is_shallow() {
    let tray = format!("{USUAL}trays:\n  - name: white\n    inside: 160×210 mm\n    depth: 45 mm\n");
    let found = findings(&tray, &late_night("00:10"));
    let shallow: Vec<_> = found
        .iter()
        .filter(|finding| finding.rule.as_str() == "tray-shallow")
        .collect();
    assert_eq!(shallow.len(), 1, "{:?}", grave(&found));
}

#[test]
fn baked_soda_is_no_baking_soda() {
    let page = developer("baking soda: 57 g", "vitamin C powder: 12 g", "keeps: 1 h")
        .replace("400 ml", "800 ml")
        .replace(
            "      - dissolve: 5 min",
            "      - bake: 2 h at 160 °C\n      - dissolve: 5 min",
        );
    let found = findings(USUAL, &page);
    assert!(
        !has(&found, "baking-soda-alone") && has(&found, "baked-unweighed"),
        "{:?}",
        grave(&found)
    );
}

#[test]
fn the_demo_notebook_has_nothing_that_counts() {
    let host = trayside::host::Disk::open(std::path::Path::new("recipes")).unwrap();
    let found = proof(&host, &Silent).unwrap().findings;
    assert_eq!(grave(&found), Vec::<String>::new());
}

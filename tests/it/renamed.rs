//! Rules read what a material is, never what it is called: another name, another language, its formula or a packet of the
//! notebook's own changes no finding.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use proptest::prelude::*;
use trayside::finding::Grade;
use trayside::host::Memory;
use trayside::pipeline::SETTINGS;

use crate::support::{USUAL, proofed};

/// A material by its usual name, in German, in French, and by its formula.
const MATERIALS: [[&str; 4]; 13] = [
    [
        "washing soda, anhydrous",
        "Waschsoda, wasserfrei",
        "carbonate de sodium anhydre",
        "Na2CO3",
    ],
    [
        "washing soda, crystals",
        "Kristallsoda",
        "cristaux de soude",
        "Na2CO3·10H2O",
    ],
    ["baking soda", "Natron", "bicarbonate de soude", "NaHCO3"],
    ["caustic soda", "Ätznatron", "soude caustique", "NaOH"],
    ["vitamin C powder", "Ascorbinsäure", "acide ascorbique", "C6H8O6"],
    [
        "sodium ascorbate",
        "Natriumascorbat",
        "ascorbate de sodium",
        "NaC6H7O6",
    ],
    [
        "hypo, crystals",
        "Fixiernatron, Kristalle",
        "thiosulfate de sodium, cristaux",
        "Na2S2O3·5H2O",
    ],
    [
        "hypo, anhydrous",
        "Fixiernatron, wasserfrei",
        "thiosulfate de sodium anhydre",
        "Na2S2O3",
    ],
    ["citric acid", "Zitronensäure", "acide citrique", "C6H8O7"],
    ["table salt", "Kochsalz", "sel de cuisine", "NaCl"],
    ["borax", "Borax", "borax", "Na2B4O7·10H2O"],
    ["potassium bromide", "Kaliumbromid", "bromure de potassium", "KBr"],
    ["sodium sulfite", "Natriumsulfit", "sulfite de sodium", "Na2SO3"],
];

/// How the material is called.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Called {
    /// As in that column.
    Column(usize),
    /// By a name of the notebook's own, with its formula.
    Own,
    /// By a name of the notebook's own that is another's alias.
    Alias,
}

fn called() -> impl Strategy<Value = Called> {
    prop_oneof![
        (1..4_usize).prop_map(Called::Column),
        Just(Called::Own),
        Just(Called::Alias)
    ]
}

fn name(material: usize, called: Called) -> String {
    match called {
        Called::Column(column) => MATERIALS[material][column].to_owned(),
        Called::Own => format!("packet number {material}"),
        Called::Alias => format!("nickname {material}"),
    }
}

/// What the two parts, the stop or the fixer hold: a material and grams.
type Adds = Vec<(usize, f64)>;

fn page(role: &str, first: &Adds, second: &Adds, minutes: u32, called: &dyn Fn(usize) -> Called) -> String {
    let part = |name_of_part: &str, adds: &Adds| {
        // A material may stand in a part once.
        let adds: BTreeMap<usize, f64> = adds.iter().copied().collect();
        let mut lines = String::new();
        for (material, grams) in adds {
            let _ = writeln!(lines, "      {}: {grams:.1} g", name(material, called(material)));
        }
        format!(
            "  - name: {name_of_part}\n    water: 300 ml at 24 °C\n    add:\n{lines}    steps:\n      - dissolve: 5 min\n"
        )
    };
    format!(
        "```recipe\nid: bath\nrole: {role}\nmakes: 1 l\nparts:\n{}{}steps:\n  - pour: [b, into a]\n  - make up\nuse:\n  time: {minutes} min\n  \
         temperature: 20 °C\nkeeps: 1 h\nwaste: ask\n```\n\n```process\nid: line\nsteps:\n  - bath: bath\n    time: {minutes} min\n    light: red\n  \
         - wash: tap water\n    time: 5 min\n    light: room\n```\n",
        part("a", first),
        part("b", second)
    )
}

fn packets() -> String {
    let mut blocks = String::new();
    for (at, names) in MATERIALS.iter().enumerate() {
        let _ = write!(
            blocks,
            "```ingredient\nmaterial: packet number {at}\nalso: nickname {at}\nformula: {}\nsource: its label\n```\n\n",
            names[3]
        );
    }
    blocks
}

/// The findings as place, rule and grade: what they call the material differs.
fn findings(page: &str) -> Vec<(usize, &'static str, Grade)> {
    found(page).0
}

/// The findings, and whether the bath's pH is known.
fn found(page: &str) -> (Vec<(usize, &'static str, Grade)>, bool) {
    let host = Memory::new()
        .with(SETTINGS, USUAL)
        .with("bath.md", page)
        .with("packets.md", packets());
    let proof = proofed(&host);
    let mut found: Vec<_> = proof
        .findings
        .iter()
        .map(|finding| {
            let place = proof.sources.position(finding.span);
            (place.line, finding.rule.as_str(), finding.grade)
        })
        .collect();
    found.sort();
    let known = proof
        .facts
        .get("bath", "pH")
        .is_some_and(|fact| fact.value.is_ok());
    (found, known)
}

fn adds() -> impl Strategy<Value = Adds> {
    prop::collection::vec((0..MATERIALS.len(), 1.0..220.0_f64), 1..4)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn a_renamed_packet_changes_no_finding(
        role in prop::sample::select(vec!["developer", "stop", "fixer", "wash aid", "stock"]),
        first in adds(),
        second in adds(),
        minutes in 1..8_u32,
        renamed in prop::collection::vec(called(), MATERIALS.len()),
    ) {
        let usual = page(role, &first, &second, minutes, &|_| Called::Column(0));
        let other = page(role, &first, &second, minutes, &|material| renamed[material]);
        let ((usual, is_known), (found, is_known_too)) = (found(&usual), found(&other));
        // A packet of the pantry is not quite pure, one with a formula alone is: at the very end of the model's range that
        // decides whether a pH is computed at all.
        prop_assume!(is_known == is_known_too);
        prop_assert_eq!(usual, found, "{}", other);
    }
}

/// The property says something: such baths draw many different findings.
#[test]
fn such_baths_draw_findings() {
    let mut rules = std::collections::BTreeSet::new();
    for role in ["developer", "stop", "fixer"] {
        for first in 0..MATERIALS.len() {
            for second in [2, 4, 6, 8] {
                let page = page(role, &vec![(first, 40.0)], &vec![(second, 90.0)], 5, &|_| {
                    Called::Own
                });
                rules.extend(findings(&page).into_iter().map(|(_, rule, _)| rule));
            }
        }
    }
    assert!(rules.len() >= 15, "{rules:?}");
}

//! The catalogue: complete, consistent, and true to its own examples.

use std::collections::BTreeSet;

use trayside::finding::{Grade, slug};
use trayside::rules::{Group, Rule, Sureness, catalogue, explain, find};

use crate::support::{check_spans, proofed_page, see, seen};

/// Rules about files, pictures and what is pressed, which no page can show. Each has a test of its own elsewhere.
const NOT_SHOWN_BY_A_PAGE: &[&str] = &[
    "not-utf8",
    "file-unreadable",
    "page-too-large",
    "no-settings",
    "kept-broken",
    "picture-unreadable",
    "fact-private",
    "scan-resolution-off",
    "hole-unmeasured",
    "card-overflow",
    "glyph-missing",
    "template-broken",
    "card-too-large",
    "red-contrast",
    "label-overflow",
    "sheet-overflow",
];

fn names() -> BTreeSet<&'static str> {
    catalogue().map(|rule| rule.name.as_str()).collect()
}

#[test]
fn every_name_has_one_entry_and_every_entry_a_name() {
    let known: BTreeSet<&str> = slug::ALL.iter().map(|name| name.as_str()).collect();
    let missing: Vec<_> = known.difference(&names()).copied().collect();
    assert!(missing.is_empty(), "not in the catalogue: {missing:?}");
    let unnamed: Vec<_> = names().difference(&known).copied().collect();
    assert!(unnamed.is_empty(), "not among the names: {unnamed:?}");
    assert_eq!(catalogue().count(), names().len(), "a rule is listed twice");
    assert_eq!(slug::ALL.len(), known.len(), "a name is given twice");
}

#[test]
fn names_are_kebab_case() {
    for name in slug::ALL {
        let name = name.as_str();
        let words = || name.split('-');
        assert!(
            words().count() > 1 && words().all(|word| !word.is_empty()),
            "{name}"
        );
        assert!(
            name.chars()
                .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
            "{name}"
        );
        assert!(find(name).is_none_or(|rule| rule.name.as_str() == name));
    }
    assert!(find("no-such-rule").is_none());
}

/// A whole text of sentences: begins with a capital, a figure or a quotation, ends with a full stop, and is one line.
fn is_prose(text: &str) -> bool {
    let begins = text
        .chars()
        .next()
        .is_some_and(|c| c.is_uppercase() || c.is_ascii_digit() || c == '`');
    let even = text.matches('`').count().is_multiple_of(2);
    begins && text.ends_with('.') && even && !text.contains('\n') && !text.contains("  ")
}

#[test]
fn every_rule_gives_its_reasons() {
    for rule in catalogue() {
        let name = rule.name;
        for text in [rule.looks_for, rule.why, rule.instead] {
            assert!(is_prose(text), "{name}: {text:?}");
        }
        if let Some(threshold) = rule.threshold {
            assert!(!threshold.trim().is_empty(), "{name}");
        }
        let sourced = !rule.sources.is_empty();
        assert!(
            sourced || rule.sureness != Sureness::Published,
            "{name} is published nowhere"
        );
        for source in rule.sources {
            assert!(source.len() > 8 && source.trim() == *source, "{name}: {source:?}");
        }
    }
}

#[test]
fn rules_that_only_reading_sees_have_no_check() {
    for rule in catalogue().filter(|rule| rule.group == Group::Reading) {
        // Whether a number alone counts tablets is known only when its material is.
        let seen_later = rule.name.as_str() == "unit-missing";
        assert_eq!(rule.check.is_some(), seen_later, "{}", rule.name);
    }
}

#[test]
fn every_rule_has_an_example_of_both_kinds() {
    for rule in catalogue() {
        let name = rule.name.as_str();
        let excused = NOT_SHOWN_BY_A_PAGE.contains(&name);
        let reported = rule.examples.iter().filter(|example| example.reported).count();
        if excused {
            assert!(rule.examples.is_empty(), "{name} has examples after all");
        } else {
            assert!(reported > 0, "{name} has no example that is reported");
            assert!(
                reported < rule.examples.len(),
                "{name} has no example that is not"
            );
        }
    }
    for name in NOT_SHOWN_BY_A_PAGE {
        assert!(find(name).is_some(), "{name} is excused and does not exist");
    }
}

/// What is wrong with a rule's examples, in words.
fn untrue(rule: &Rule) -> Vec<String> {
    let mut wrong = Vec::new();
    for (at, example) in rule.examples.iter().enumerate() {
        let proof = proofed_page(example.page);
        check_spans(&proof);
        let told = || format!("{} example {at}: {:#?}", rule.name, seen(&proof));
        let own = proof
            .findings
            .iter()
            .filter(|finding| finding.counts() && finding.rule == rule.name);
        let placed = own.clone().all(|finding| {
            let seen = see(&proof, finding);
            seen.path == "page.md" || seen.path == "trayside.yaml"
        });
        let others = proof
            .findings
            .iter()
            .any(|finding| finding.counts() && finding.rule != rule.name && finding.grade != Grade::Hint);
        if (own.count() > 0) != example.reported || others || !placed {
            wrong.push(told());
        }
    }
    wrong
}

#[test]
fn every_example_is_true() {
    let wrong: Vec<String> = catalogue().flat_map(untrue).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn grades_are_those_of_the_catalogue() {
    for rule in catalogue() {
        for example in rule.examples.iter().filter(|example| example.reported) {
            let proof = proofed_page(example.page);
            let own = || proof.findings.iter().filter(|finding| finding.rule == rule.name);
            assert!(
                own().any(|finding| finding.grade == rule.grade),
                "{} is graded otherwise in its own example",
                rule.name
            );
        }
    }
}

#[test]
fn every_rule_is_explained() {
    for rule in catalogue() {
        let text = explain(rule);
        assert!(text.starts_with(&format!("# {}\n", rule.name)));
        assert!(text.contains(rule.why) && text.contains(rule.instead));
        assert!(text.ends_with('\n') && !text.ends_with("\n\n"));
        for line in text.lines().filter(|line| line.starts_with("    ")) {
            assert!(line.chars().count() <= 124, "{}: {line}", rule.name);
        }
        // Examples hold fences; indented, they cannot end what holds them.
        assert!(!text.lines().any(|line| line.starts_with("```")), "{}", rule.name);
    }
}

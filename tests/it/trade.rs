//! The trade's rules against whole small notebooks.

use trayside::finding::{Finding, Grade};
use trayside::host::Memory;
use trayside::pipeline::{Silent, proof};
use trayside::rules::{Group, catalogue};

/// The settings of an example that brings none.
const USUAL: &str = "title: A test\nzone: Europe/London\n";

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

#[test]
fn the_demo_notebook_has_nothing_that_counts() {
    let host = trayside::host::Disk::open(std::path::Path::new("recipes")).unwrap();
    let found = proof(&host, &Silent).unwrap().findings;
    assert_eq!(grave(&found), Vec::<String>::new());
}

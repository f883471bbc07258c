//! The last word on findings: grades that the notebook sets, what blocks acknowledge and what they expect.

use std::collections::{BTreeMap, BTreeSet};

use crate::finding::{Finding, Grade, Standing, slug};
use crate::notebook::{Block, Notebook, nearest};
use crate::source::{FileId, Span, Spanned};

use super::catalogue::{catalogue, find};
use super::rule::{Group, Rule};

/// Applies the notebook's own word to its findings, adds those about that word itself, and puts all in order of place.
pub fn settle(notebook: &Notebook, mut findings: Vec<Finding>) -> Vec<Finding> {
    let grades = grades(notebook, &mut findings);
    regrade(&grades, &mut findings);
    let places = Places::of(notebook);
    let mut met: Vec<(usize, &str)> = Vec::new();
    let mut unread: BTreeSet<usize> = BTreeSet::new();
    for finding in &mut findings {
        let Some(at) = places.block_at(finding.span) else {
            continue;
        };
        let Some(block) = notebook.blocks.get(at) else {
            continue;
        };
        let name = finding.rule.as_str();
        let expected = block.expects.iter().any(|word| means(&word.value, name));
        let acknowledged = block
            .acknowledge
            .iter()
            .find(|(rule, _)| means(&rule.value, name));
        if expected {
            finding.standing = Standing::Expected;
        } else if let Some((_, reason)) = acknowledged.filter(|_| may_acknowledge(name)) {
            finding.standing = Standing::Acknowledged(reason.value.clone());
        } else {
            if is_unread(name) {
                unread.insert(at);
            }
            continue;
        }
        met.push((at, name));
    }
    let mut more = Vec::new();
    for (at, block) in notebook.blocks.iter().enumerate() {
        // What could not be read may be what would have shown it.
        let whole = !block.broken && !unread.contains(&at);
        own_words(at, block, &met, whole, &mut more);
    }
    regrade(&grades, &mut more);
    findings.append(&mut more);
    findings.sort_by(|a, b| {
        let key = |finding: &Finding| (finding.span.file, finding.span.start, finding.grade, finding.rule);
        key(a).cmp(&key(b))
    });
    findings
}

/// Gives findings the grades that the notebook sets, and drops those it has put off.
fn regrade(grades: &BTreeMap<&'static str, Option<Grade>>, findings: &mut Vec<Finding>) {
    findings.retain_mut(|finding| match grades.get(finding.rule.as_str()) {
        _ if finding.grade == Grade::Hazard => true,
        Some(Some(grade)) => {
            finding.grade = *grade;
            true
        }
        Some(None) => false,
        None => true,
    });
}

/// Grades by rule name; none for `off`.
fn grades(notebook: &Notebook, findings: &mut Vec<Finding>) -> BTreeMap<&'static str, Option<Grade>> {
    let mut grades = BTreeMap::new();
    for (name, grade) in &notebook.settings.rules {
        let Some(rule) = known(name, findings) else {
            continue;
        };
        if rule.grade == Grade::Hazard {
            findings.push(
                Finding::fault(
                    slug::GRADE_FIXED,
                    name.span,
                    format!("`{}` is a hazard: its grade cannot be changed", rule.name),
                )
                .help("where it is really safe, say why with `acknowledge` in the block itself"),
            );
            continue;
        }
        if rule.group == Group::Reading && rule.grade == Grade::Fault {
            findings.push(
                Finding::fault(
                    slug::GRADE_FIXED,
                    name.span,
                    format!(
                        "`{}` says that something cannot be read: its grade cannot be changed",
                        rule.name
                    ),
                )
                .help("mend what it points at"),
            );
            continue;
        }
        grades.insert(rule.name.as_str(), *grade);
    }
    grades
}

/// Whether a block may take a finding of this rule on itself: what cannot be read cannot be accepted.
fn may_acknowledge(name: &str) -> bool {
    find(name).is_some() && !is_unread(name)
}

/// Whether a rule says that something cannot be read.
fn is_unread(name: &str) -> bool {
    find(name).is_some_and(|rule| rule.group == Group::Reading && rule.grade == Grade::Fault)
}

/// What a block expects and does not show, what it acknowledges without need, and names of no rule.
fn own_words(at: usize, block: &Block, met: &[(usize, &str)], whole: bool, findings: &mut Vec<Finding>) {
    let shown = |name: &str| met.iter().any(|(block, rule)| *block == at && *rule == name);
    for word in &block.expects {
        if known(word, findings).is_some() && whole && !shown(&word.value) {
            findings.push(
                Finding::fault(
                    slug::EXPECTED_MISSING,
                    word.span,
                    format!("`{}` is expected here and does not occur", word.value),
                )
                .help("take the word out, or put the mistake back in"),
            );
        }
    }
    for (name, _) in &block.acknowledge {
        let Some(rule) = known(name, findings) else {
            continue;
        };
        if !may_acknowledge(rule.name.as_str()) {
            findings.push(Finding::fault(
                slug::GRADE_FIXED,
                name.span,
                format!(
                    "`{}` cannot be acknowledged: what cannot be read must be mended",
                    rule.name
                ),
            ));
        } else if whole && !shown(&name.value) {
            findings.push(
                Finding::new(
                    slug::ACKNOWLEDGED_IDLE,
                    Grade::Hint,
                    name.span,
                    format!("`{}` is acknowledged here and does not occur", name.value),
                )
                .help("take it out, so that it does not hide a later one"),
            );
        }
    }
}

/// Whether a block's word is the name of this rule, mistyped or not: the slip is reported, and is one finding.
fn means(word: &str, name: &str) -> bool {
    word == name
        || find(word).is_none() && nearest(word, catalogue().map(|rule| rule.name.as_str())) == Some(name)
}

fn known(name: &Spanned<String>, findings: &mut Vec<Finding>) -> Option<&'static Rule> {
    let rule = find(&name.value);
    if rule.is_none() {
        let mut finding = Finding::fault(
            slug::RULE_UNKNOWN,
            name.span,
            format!("there is no rule `{}`", name.value),
        );
        finding = match nearest(&name.value, catalogue().map(|rule| rule.name.as_str())) {
            Some(near) => finding
                .help(format!("did you mean `{near}`?"))
                .replace(name.span, near),
            None => finding.help("`trayside why --list` names every rule"),
        };
        findings.push(finding);
    }
    rule
}

/// Blocks by their place, so that a finding's block is found without a search over all.
struct Places {
    by_file: BTreeMap<FileId, Vec<(u32, u32, usize)>>,
}

impl Places {
    fn of(notebook: &Notebook) -> Self {
        let mut by_file: BTreeMap<FileId, Vec<(u32, u32, usize)>> = BTreeMap::new();
        for (at, block) in notebook.blocks.iter().enumerate() {
            by_file
                .entry(block.page)
                .or_default()
                .push((block.span.start, block.span.end, at));
        }
        Self { by_file }
    }

    fn block_at(&self, span: Span) -> Option<usize> {
        let blocks = self.by_file.get(&span.file)?;
        let after = blocks.partition_point(|(start, _, _)| *start <= span.start);
        let (_, end, at) = blocks.get(after.checked_sub(1)?)?;
        (span.start < *end).then_some(*at)
    }
}

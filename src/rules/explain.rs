//! A rule explained: what `trayside why` prints and the book's rule pages are made from.

use std::fmt::Write as _;

use super::rule::Rule;

/// The whole explanation as Markdown.
pub fn explain(rule: &Rule) -> String {
    let mut out = format!("# {}\n\n{} ({})\n\n", rule.name, rule.looks_for, rule.grade);
    let mut section = |heading: &str, text: &str| {
        let _ = write!(out, "## {heading}\n\n{text}\n\n");
    };
    section("Why it matters", rule.why);
    if let Some(threshold) = rule.threshold {
        section("From where on", threshold);
    }
    section("What to do", rule.instead);
    let mut sure = rule.sureness.words().to_owned();
    for source in rule.sources {
        let _ = write!(sure, "\n- {source}");
    }
    section("How sure we are", &sure);
    for example in rule.examples {
        let heading = if example.reported {
            "An example that is reported"
        } else {
            "An example that is not"
        };
        section(heading, &indented(example.page));
    }
    out.truncate(out.trim_end().len());
    out.push('\n');
    out
}

/// A page as a code block, so that its own fences do not end it.
fn indented(page: &str) -> String {
    let lines: Vec<String> = page
        .trim_matches('\n')
        .lines()
        .map(|line| {
            if line.is_empty() {
                String::new()
            } else {
                format!("    {line}")
            }
        })
        .collect();
    lines.join("\n")
}

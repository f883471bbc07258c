//! `trayside why`: explain a rule.

use std::fmt::Write as _;

use crate::notebook::nearest;
use crate::rules::{self, Rule};

use super::arguments::Why;
use super::wrap::{Shown, wrapped};
use super::{Outcome, Stop, terminal};

pub(crate) fn run(arguments: &Why) -> Result<Outcome, Stop> {
    if arguments.list {
        terminal::show(&list());
        return Ok(Outcome::Clean);
    }
    let name = arguments.rule.as_deref().unwrap_or_default();
    match rules::find(name) {
        Some(rule) => {
            let style = terminal::text_style();
            let shown = Shown {
                width: style.width,
                bold: style.colours,
            };
            terminal::show(&wrapped(&rules::explain(rule), shown));
            Ok(Outcome::Clean)
        }
        None => Err(Stop(
            match nearest(name, rules::catalogue().map(|rule| rule.name.as_str())) {
                Some(near) => format!("there is no rule `{name}`; did you mean `{near}`?"),
                None => format!("there is no rule `{name}`; `trayside why --list` shows them all"),
            },
        )),
    }
}

fn list() -> String {
    let width = rules::catalogue()
        .map(|rule: &Rule| rule.name.as_str().len())
        .max()
        .unwrap_or(0);
    let mut out = String::new();
    let mut heading = "";
    for rule in rules::catalogue() {
        if rule.group.heading() != heading {
            heading = rule.group.heading();
            if !out.is_empty() {
                out.push('\n');
            }
            out.push_str(heading);
            out.push('\n');
        }
        let (name, grade) = (rule.name.as_str(), rule.grade.word());
        let _ = writeln!(out, "  {name:width$}  {grade:6}  {}", rule.looks_for);
    }
    out
}

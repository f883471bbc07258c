//! How the notebook writes: the style of its numbers and the zone of its dates, which everything else is read by.
//!
//! Both are read before the other settings, and a mistyped key or word as what was meant: one slip here must not make
//! every amount and date a mistake.

use jiff::tz::TimeZone;

use crate::finding::{Finding, slug};
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::{Decimal, Language, Style, System};

use super::lower::Lower;
use super::nearest;
use super::settings;

/// The words for the units that amounts are printed in where nothing was written.
pub(super) const UNITS: &[&str] = &["metric", "US"];

/// The words for the decimal mark.
pub(super) const DECIMALS: &[&str] = &["point", "comma"];

pub(super) fn style(node: &Node) -> Style {
    let word = |key: &str, words: &[&'static str]| {
        let text = meant(node, key).and_then(Node::text)?.trim();
        nearest(text, words.iter().copied())
    };
    Style {
        decimal: if word("decimal", DECIMALS) == Some("comma") {
            Decimal::Comma
        } else {
            Decimal::Point
        },
        system: if word("units", UNITS) == Some("US") {
            System::UsCustomary
        } else {
            System::Metric
        },
        language: meant(node, "language")
            .and_then(Node::text)
            .and_then(Language::from_code)
            .unwrap_or_default(),
    }
}

pub(super) fn zone(node: &Node, lower: &mut Lower) -> Option<TimeZone> {
    let value =
        meant(node, "zone").filter(|value| !matches!(value.kind, NodeKind::Empty | NodeKind::Broken))?;
    let name = lower.scalar(value, "a zone")?.trim();
    if let Ok(zone) = TimeZone::get(name) {
        return Some(zone);
    }
    let known: Vec<String> = jiff::tz::db().available().map(|name| name.to_string()).collect();
    let near = nearest(name, known.iter().map(String::as_str)).map(str::to_owned);
    let mut finding = Finding::fault(
        slug::WORD_UNKNOWN,
        value.span,
        format!("`{name}` is no zone of the IANA table"),
    );
    finding = match near {
        Some(near) => finding
            .help(format!("did you mean `{near}`?"))
            .replace(value.span, near),
        None => finding.help("write a region and a city, such as `Europe/Lisbon`"),
    };
    lower.report(finding);
    None
}

/// The value of a key, mistyped or not.
fn meant<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    let near = |entry: &&Entry| {
        nearest(&entry.key.value, settings::FIELDS.iter().map(|field| field.key)) == Some(key)
    };
    let found = || node.entries()?.iter().find(near).map(|entry| &entry.value);
    node.get(key).or_else(found)
}

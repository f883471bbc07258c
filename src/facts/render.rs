//! Facts as text, JSON and CSV, and one fact with where it comes from.

use std::fmt::Write as _;

use rayon::prelude::*;
use serde_json::{Map, Value as Json, json};

use crate::notebook::{Block, Notebook};
use crate::pantry::Pantry;
use crate::source::Sources;
use crate::units::Style;

use super::Facts;
use super::fact::{Fact, Value};
use super::kept_back::KeptBack;

/// How many blocks are written one after another, side by side with others.
const BLOCKS_AT_ONCE: usize = 256;

/// All facts for reading, block by block in reading order.
pub fn text(notebook: &Notebook, facts: &Facts) -> String {
    let style = notebook.settings.style;
    let mut out = String::new();
    for block in &notebook.blocks {
        let of_block = facts.of_block(&block.id);
        if of_block.is_empty() {
            continue;
        }
        let _ = writeln!(out, "{} ({})", block.id, block.kind().word());
        let width = of_block
            .iter()
            .map(|fact| fact.name.chars().count())
            .max()
            .unwrap_or(0);
        for fact in of_block {
            let pad = " ".repeat(width - fact.name.chars().count());
            let value = fact.text(style);
            let why = fact
                .value
                .as_ref()
                .err()
                .map_or_else(String::new, |why| format!("  {why}"));
            let _ = writeln!(out, "  {}{pad}  {value}{why}", fact.name);
        }
        out.push('\n');
    }
    out
}

/// All facts as one JSON object, of the blocks that `shown` picks by id, but for what was learnt from others.
pub fn json(notebook: &Notebook, facts: &Facts, sources: &Sources, shown: &dyn Fn(&str) -> bool) -> String {
    let blocks: Vec<&Block> = notebook
        .blocks
        .iter()
        .filter(|block| !block.doubled && !block.id.contains('@') && shown(&block.id))
        .collect();
    let kept_back = KeptBack::of(&facts.learned, shown);
    let entry = |block: &&Block| {
        let of_block = facts.by_block.get(&block.id);
        let some = of_block.filter(|own| own.facts.iter().any(|fact| kept_back.holds(block, &fact.name)));
        let some = some.map(|own| {
            let left = own
                .facts
                .iter()
                .filter(|fact| !kept_back.holds(block, &fact.name));
            object(left)
        });
        format!(
            "\n    {}: {{\n      \"kind\": \"{}\",\n      \"page\": {},\n      \"facts\": {}\n    }}",
            Json::from(block.id.as_str()),
            block.kind().word(),
            Json::from(sources.path(block.page)),
            some.as_deref()
                .or(of_block.map(|own| own.json.get_or_init(|| object(own.facts.iter())).as_str()))
                .unwrap_or("{}"),
        )
    };
    let entries: Vec<String> = blocks
        .par_chunks(BLOCKS_AT_ONCE)
        .map(|blocks| blocks.iter().map(entry).collect::<Vec<_>>().join(","))
        .collect();
    let close = if entries.is_empty() { "" } else { "\n  " };
    // Of thousands of blocks it is a large text, which grows to its length at once.
    ["{\n  \"blocks\": {", &entries.join(","), close, "}\n}\n"].concat()
}

/// The facts of one block as an object, set in as deep as it stands.
fn object<'f>(facts: impl Iterator<Item = &'f Fact>) -> String {
    let object: Map<String, Json> = facts.map(|fact| (fact.name.to_string(), json_of(fact))).collect();
    let text = serde_json::to_string_pretty(&object).unwrap_or_default();
    text.replace('\n', "\n      ")
}

fn json_of(fact: &Fact) -> Json {
    let unit = fact.measure.unit();
    match &fact.value {
        Ok(Value::Number(range)) => {
            json!({"value": tidy(range.best), "low": tidy(range.low), "high": tidy(range.high), "unit": unit})
        }
        Ok(Value::Instant(text)) => json!({"value": text, "low": text, "high": text, "unit": unit}),
        Ok(Value::Flag(flag)) => json!({"value": flag, "low": flag, "high": flag, "unit": unit}),
        Err(why) => json!({"value": null, "why": why}),
    }
}

/// A number without the last bits that arithmetic leaves behind: ten significant digits.
fn tidy(value: f64) -> Json {
    let text = format!("{value:.9e}");
    let tidied: f64 = text.parse().unwrap_or(value);
    if tidied.fract() == 0.0 && tidied.abs() < 1e15 {
        json!(tidied as i64)
    } else {
        json!(tidied)
    }
}

/// All facts as comma-separated values, with a head, of the blocks that `shown` picks by id, but for what was learnt from
/// others.
pub fn csv(notebook: &Notebook, facts: &Facts, sources: &Sources, shown: &dyn Fn(&str) -> bool) -> String {
    let mut out = String::from("block,kind,page,fact,value,low,high,unit,why\n");
    let blocks = notebook.blocks.iter();
    let kept_back = KeptBack::of(&facts.learned, shown);
    for block in blocks.filter(|block| notebook.leads_to(block) && shown(&block.id)) {
        let Some(of_block) = facts.by_block.get(&block.id) else {
            continue;
        };
        let head = row(&[&block.id, block.kind().word(), sources.path(block.page)]);
        let rows = of_block
            .csv
            .get_or_init(|| of_block.facts.iter().map(csv_of).collect());
        let pairs = of_block.facts.iter().zip(rows);
        for (_, row) in pairs.filter(|(fact, _)| !kept_back.holds(block, &fact.name)) {
            out.extend([head.as_str(), ",", row.as_str(), "\n"]);
        }
    }
    out
}

/// What a row tells of a fact.
fn csv_of(fact: &Fact) -> String {
    let (value, low, high, why) = match &fact.value {
        Ok(Value::Number(range)) => (
            tidy(range.best).to_string(),
            tidy(range.low).to_string(),
            tidy(range.high).to_string(),
            "",
        ),
        Ok(Value::Instant(text)) => (text.clone(), text.clone(), text.clone(), ""),
        Ok(Value::Flag(flag)) => (flag.to_string(), flag.to_string(), flag.to_string(), ""),
        Err(why) => (String::new(), String::new(), String::new(), why.as_str()),
    };
    row(&[&fact.name, &value, &low, &high, fact.measure.unit(), why])
}

fn row(cells: &[&str]) -> String {
    let cells: Vec<String> = cells.iter().map(|cell| csv_cell(cell)).collect();
    cells.join(",")
}

/// A cell as RFC 4180 wants it.
fn csv_cell(text: &str) -> String {
    if text.contains([',', '"', '\n', '\r']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_owned()
    }
}

/// One fact with its inputs, formula and sources, and the facts among its inputs below it.
pub fn why(name: &str, fact: &Fact, facts: &Facts, style: Style) -> String {
    let mut out = String::new();
    let mut seen = Vec::new();
    chain(name, fact, facts, style, 0, &mut seen, &mut out);
    out
}

fn chain(
    name: &str,
    fact: &Fact,
    facts: &Facts,
    style: Style,
    depth: usize,
    seen: &mut Vec<String>,
    out: &mut String,
) {
    if seen.iter().any(|held| held == name) || depth > 8 {
        return;
    }
    seen.push(name.to_owned());
    let indent = "  ".repeat(depth);
    let _ = writeln!(out, "{indent}{name} = {}", fact.text(style));
    if let Err(why) = &fact.value {
        let _ = writeln!(out, "{indent}  no value: {why}");
    }
    let _ = writeln!(out, "{indent}  {}", fact.formula);
    for input in &fact.inputs {
        let _ = writeln!(out, "{indent}  from {}: {}", input.name, input.value);
    }
    for key in &fact.sources {
        let title = Pantry::standard()
            .source(key)
            .map_or_else(|| (*key).to_owned(), ToString::to_string);
        let _ = writeln!(out, "{indent}  source: {title}");
    }
    let id = name.split_once('.').map_or("", |(id, _)| id);
    for input in &fact.inputs {
        let own = format!("{id}.{}", input.name);
        let (full, below) = match (facts.named(&input.name), facts.named(&own)) {
            (Some(below), _) => (input.name.clone(), below),
            (None, Some(below)) => (own, below),
            (None, None) => continue,
        };
        chain(&full, below, facts, style, depth + 1, seen, out);
    }
}

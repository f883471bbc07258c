//! The book's reference pages, made from the code: keys, rules, facts, units and commands as they are.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use clap::CommandFactory;

use crate::facts::{Fact, Measure, canonical_unit};
use crate::notebook::{
    Block, COMMON, Field, Kind, Shape, figure_fields, page_fields, settings_fields, slug, step_fields,
};
use crate::pantry::Pantry;
use crate::pipeline::Proof;
use crate::rules::{self, Rule};
use crate::units::{Dimension, units};
use crate::views::shape::SHAPES;

use super::arguments::Arguments;

/// Every reference page: its path from the book's folder, and its text. The names of facts are those that `sample`
/// has: a notebook with blocks of every kind.
pub fn pages(sample: &Proof) -> Vec<(&'static str, String)> {
    vec![
        ("reference/blocks.md", blocks()),
        ("reference/rules.md", rules_page()),
        ("reference/facts.md", facts(sample)),
        ("reference/units.md", units_page()),
        ("reference/commands.md", commands()),
        ("reference/templates.md", templates()),
    ]
}

fn head(title: &str, lead: &str) -> String {
    format!("---\ntitle: {title}\ntags: [reference]\n---\n\n# {title}\n\n{lead}\n\n")
}

/// A cell of a table: a bar would end it.
fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}

fn row(out: &mut String, cells: &[&str]) {
    let cells: Vec<String> = cells.iter().map(|text| cell(text)).collect();
    let _ = writeln!(out, "| {} |", cells.join(" | "));
}

fn table(out: &mut String, heads: &[&str]) {
    row(out, heads);
    row(out, &vec!["---"; heads.len()]);
}

fn blocks() -> String {
    let mut out = head(
        "Blocks",
        "Every kind of block with every key that it may hold.\nA key with a star has to be there.\n\
         Where a list is wanted, one value may stand for a list of one.",
    );
    for kind in Kind::ALL {
        let lead = match kind {
            Kind::Recipe => {
                "Where `based on` names another recipe, no key has to be there: what is left out is taken from that one."
            }
            _ => "",
        };
        keys(&mut out, 2, kind.word(), lead, kind.fields());
        if kind == Kind::Recipe {
            let lead = "A step is one verb with its value, or the bare verb. The other keys stand beside it.";
            keys(&mut out, 3, "a step of a recipe", lead, step_fields());
        }
    }
    keys(
        &mut out,
        2,
        "any block",
        "These may stand in every block.",
        COMMON,
    );
    let lead = "Wherever an amount is wanted, a map with these keys may stand instead.";
    keys(&mut out, 2, "an amount with its evidence", lead, figure_fields());
    keys(&mut out, 2, "a page's front matter", "", page_fields());
    keys(&mut out, 2, "trayside.yaml", "", settings_fields());
    trimmed(out)
}

/// A table of keys, and below it one for each key that has keys of its own.
fn keys(out: &mut String, level: usize, title: &str, lead: &str, fields: &[Field]) {
    let _ = write!(out, "{} {title}\n\n", "#".repeat(level));
    if !lead.is_empty() {
        let _ = write!(out, "{lead}\n\n");
    }
    table(out, &["key", "what to write", "meaning"]);
    let mut within = Vec::new();
    for field in fields {
        let star = if field.required { "\\*" } else { "" };
        row(
            out,
            &[
                &format!("`{}`{star}", field.key),
                &field.shape.words(),
                field.meaning,
            ],
        );
        match field.shape {
            Shape::Map(inner) | Shape::List(&Shape::Map(inner)) => within.push((field.key, inner)),
            _ => {}
        }
    }
    out.push('\n');
    for (key, inner) in within {
        keys(out, level + 1, &format!("`{key}` of {title}"), "", inner);
    }
}

fn rules_page() -> String {
    let mut out = head(
        "Rules",
        "Every rule that `trayside proof` knows, by the name that a finding bears.\n\
         `trayside why` prints the same in a terminal.\nThe examples are checked: each does what its heading says.",
    );
    table(&mut out, &["rule", "grade", "looks for"]);
    for rule in rules::catalogue() {
        row(
            &mut out,
            &[
                &format!("[{0}](#{0})", rule.name),
                rule.grade.word(),
                rule.looks_for,
            ],
        );
    }
    out.push('\n');
    let mut heading = "";
    for rule in rules::catalogue() {
        if rule.group.heading() != heading {
            heading = rule.group.heading();
            let _ = write!(out, "## {heading}\n\n");
        }
        out.push_str(&rule_section(rule));
        out.push('\n');
    }
    trimmed(out)
}

/// A rule's explanation under its own heading; the headings within become bold lines, which need no names of their own.
fn rule_section(rule: &Rule) -> String {
    let mut out = String::new();
    for line in rules::explain(rule).lines() {
        if let Some(inner) = line.strip_prefix("## ") {
            let _ = writeln!(out, "**{inner}**");
        } else if let Some(name) = line.strip_prefix("# ") {
            let _ = writeln!(out, "### {name}");
        } else {
            let _ = writeln!(out, "{line}");
        }
    }
    out
}

fn facts(sample: &Proof) -> String {
    let mut out = head(
        "Facts",
        "Everything that is computed, by kind of block.\n\
         Write a fact into a sentence as two braces, the block's id, a point, the fact's name and two braces.\n\
         What stands in angle brackets is a name of your own: `<material>` and `<part>` as in the recipe, `<bath>` \
         the id of a recipe.\n\
         The unit is that of `trayside facts --json`; prose shows what reads best.\n\
         `trayside facts --why` tells where one value comes from.",
    );
    let names = Names::of(sample);
    for kind in Kind::ALL {
        let mut rows: BTreeMap<String, &Fact> = BTreeMap::new();
        for block in sample.notebook.blocks.iter().filter(|block| block.kind() == kind) {
            for fact in sample.facts.of_block(&block.id) {
                let told = rows.entry(names.general(block, &fact.name)).or_insert(fact);
                if told.value.is_err() && fact.value.is_ok() {
                    *told = fact;
                }
            }
        }
        let _ = write!(out, "## {}\n\n", kind.word());
        if rows.is_empty() {
            let _ = write!(out, "Nothing is computed for {} itself.\n\n", kind.with_article());
            continue;
        }
        table(&mut out, &["fact", "unit", "how", "from"]);
        for (name, fact) in rows {
            row(
                &mut out,
                &[
                    &format!("`{name}`"),
                    &unit(fact.measure),
                    fact.formula,
                    &sources(fact),
                ],
            );
        }
        out.push('\n');
    }
    trimmed(out)
}

/// The unit of a fact, or what stands in its place.
fn unit(measure: Measure) -> String {
    match measure {
        Measure::Instant => "a date and time".to_owned(),
        Measure::Flag(yes, no) => format!("{yes} or {no}"),
        Measure::Amount(..) | Measure::Estimate(..) | Measure::Plain(..) => measure.unit().to_owned(),
    }
}

fn sources(fact: &Fact) -> String {
    let titles: Vec<String> = fact
        .sources
        .iter()
        .map(|key| {
            Pantry::standard()
                .source(key)
                .map_or_else(|| (*key).to_owned(), ToString::to_string)
        })
        .collect();
    titles.join("; ")
}

/// The names that a notebook gives its own things, which occur in names of facts.
struct Names<'p> {
    sample: &'p Proof,
    materials: BTreeSet<String>,
}

impl<'p> Names<'p> {
    fn of(sample: &'p Proof) -> Self {
        let doses = sample.facts.baths.iter().flat_map(|bath| &bath.doses);
        Self {
            sample,
            materials: doses.map(|dose| slug(&dose.name.value)).collect(),
        }
    }

    /// A fact's name with the notebook's own names taken out.
    fn general(&self, block: &Block, name: &str) -> String {
        let parts: Vec<String> = self
            .sample
            .facts
            .baths
            .get(&block.id)
            .map_or_else(Vec::new, |bath| {
                let names = bath.recipe.parts.iter().filter_map(|part| part.name.get());
                names.map(|name| slug(&name.value)).collect()
            });
        let pieces = name.split('.').enumerate().map(|(at, piece)| {
            if at == 0 && parts.iter().any(|part| part == piece) {
                "<part>"
            } else if at > 0 && self.sample.notebook.recipe(piece).is_some() {
                "<bath>"
            } else if at > 0 && self.materials.contains(piece) {
                "<material>"
            } else {
                piece
            }
        });
        pieces.collect::<Vec<_>>().join(".")
    }
}

fn units_page() -> String {
    let mut out = head(
        "Units",
        "Every unit that an amount may be written in, with what one of it is in the unit that is counted in, and where \
         that figure comes from.\nSpaces, plurals and the usual ways of writing are understood.",
    );
    for dimension in Dimension::ALL {
        let mut of = units().filter(|unit| unit.dimension == dimension).peekable();
        if of.peek().is_none() {
            continue;
        }
        let counted = canonical_unit(dimension);
        let _ = write!(
            out,
            "## {}\n\nSuch as `{}`.",
            capital(dimension.word()),
            dimension.example()
        );
        if counted != "1" {
            let _ = write!(out, " Counted in `{counted}`.");
        }
        out.push_str("\n\n");
        table(&mut out, &["unit", "also", "one is", "from"]);
        for unit in of {
            let mut also: Vec<&str> = vec![unit.singular, unit.plural];
            also.extend(unit.names);
            let mut seen: Vec<&str> = Vec::new();
            for name in also {
                if !name.is_empty() && name != unit.symbol && !seen.contains(&name) {
                    seen.push(name);
                }
            }
            let also: Vec<String> = seen.iter().map(|name| format!("`{name}`")).collect();
            let symbol = if unit.symbol.is_empty() {
                String::new()
            } else {
                format!("`{}`", unit.symbol)
            };
            let mut one = unit.factor.to_f64().to_string();
            if !unit.offset.is_zero() {
                one = format!("add {}, times {one}", unit.offset.to_f64());
            }
            row(&mut out, &[&symbol, &also.join(", "), &one, unit.source.text()]);
        }
        out.push('\n');
    }
    trimmed(out)
}

fn capital(word: &str) -> String {
    let mut letters = word.chars();
    match letters.next() {
        Some(first) if !word.starts_with("pH") => first.to_uppercase().chain(letters).collect(),
        _ => word.to_owned(),
    }
}

fn templates() -> String {
    let mut out = head(
        "Templates",
        "What each template of print reads from `/data.json`.\nA notebook's own stands at the same path in its folder and is used \
         in the place of the built-in one.\n`cards[].title` is the title of each of the `cards`; `words.*` is every word by its name.\n\
         Numbers are rounded and words chosen already: a template only sets them.",
    );
    for shape in SHAPES {
        let _ = writeln!(out, "## {}\n\n`{}`\n", shape.name, shape.entry);
        for (path, gives) in shape.parts {
            let _ = writeln!(out, "- `{path}`: {gives}");
        }
        if !shape.parts.is_empty() {
            out.push('\n');
        }
        table(&mut out, &["field", "what it is"]);
        for field in shape.fields {
            row(&mut out, &[&format!("`{}`", field.path), field.what]);
        }
        out.push('\n');
    }
    trimmed(out)
}

fn commands() -> String {
    let mut out = head(
        "Commands",
        "What `trayside --help` says, of each command.\n\
         Everything ends with 0 when the notebook is clean, with 1 when it has faults or hazards that nobody \
         acknowledged, and with 2 when the command could not run.",
    );
    let mut root = Arguments::command().term_width(WIDTH);
    root.build();
    let names: Vec<String> = root
        .get_subcommands()
        .map(|command| command.get_name().to_owned())
        .filter(|name| name != "help")
        .collect();
    help(&mut out, "trayside", &mut root);
    for name in names {
        if let Some(command) = root.find_subcommand_mut(&name) {
            let mut command = std::mem::take(command).term_width(WIDTH);
            help(&mut out, &format!("trayside {name}"), &mut command);
        }
    }
    trimmed(out)
}

/// As wide as help is shown here, whatever terminal this runs in.
const WIDTH: usize = 84;

fn help(out: &mut String, title: &str, command: &mut clap::Command) {
    let _ = write!(out, "## {title}\n\n");
    for line in command.render_long_help().to_string().lines() {
        let indented = format!("    {line}");
        let _ = writeln!(out, "{}", indented.trim_end());
    }
    out.push('\n');
}

fn trimmed(mut text: String) -> String {
    text.truncate(text.trim_end().len());
    text.push('\n');
    text
}

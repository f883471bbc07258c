//! A notebook's own templates: the data they are promised is the data they get, and a mistake in one has its place.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::sync::LazyLock;

use serde_json::Value;
use trayside::finding::slug;
use trayside::host::{Host, Memory};
use trayside::pipeline::{Proof, Silent, press, proof};
use trayside::press::{Job, Press};
use trayside::views::shape::{SHAPES, Shape};
use trayside::views::weighing::{Source, Target, litres_of, sheet};
use trayside::views::{self};

use super::languages::demo;
use super::read::{sound, text, words};

static DEMO: LazyLock<Proof> = LazyLock::new(|| demo("en"));

/// Every document of the demo.
pub(super) fn jobs() -> Vec<Job> {
    let Proof {
        notebook,
        facts,
        findings,
        ..
    } = &*DEMO;
    let source = Source {
        notebook,
        facts,
        findings,
    };
    let cards = views::cards(notebook, facts, findings).cards;
    let layout = views::layout(&notebook.settings);
    let labels = views::labels(notebook, facts, findings).labels;
    let mut jobs = vec![
        Job::cards(&cards, &layout),
        Job::labels(&labels, &views::label_grid(&notebook.settings)),
        Job::slips(&views::slip::slips(notebook), &views::slip::slip_layout(notebook)),
        Job::room(
            &views::room_sheet::room_sheet(notebook, facts, findings),
            (210.0, 297.0),
        ),
    ];
    let sheets = views::weighing::volume_sheets(notebook, facts, findings).sheets;
    jobs.extend(sheets.iter().map(|sheet| Job::mixing(sheet, (148.0, 210.0))));
    let cuttings = views::cutting::cuttings(notebook, facts, findings);
    jobs.extend(cuttings.iter().map(Job::cutting));
    for bath in facts.baths.iter() {
        let block = notebook.block(&bath.id).expect("a block");
        let Ok((litres, because)) = litres_of(&Target::AsWritten, bath, notebook) else {
            continue;
        };
        let sheet = sheet(source, block, bath, litres, because).expect("a sheet");
        jobs.push(Job::weighing(&sheet, (148.0, 210.0)));
    }
    jobs.into_iter().map(|job| job.expect("fits")).collect()
}

/// The paths of a value: `a.b[].c`. What is none is marked.
fn paths(value: &Value, at: &str, found: &mut BTreeSet<(String, bool)>) {
    match value {
        Value::Object(fields) => {
            for (name, field) in fields {
                let worded = at.rsplit('.').next() == Some("words");
                let name = if worded { "*" } else { name };
                let path = if at.is_empty() {
                    name.to_owned()
                } else {
                    format!("{at}.{name}")
                };
                paths(field, &path, found);
            }
        }
        Value::Array(items) => items
            .iter()
            .for_each(|item| paths(item, &format!("{at}[]"), found)),
        leaf => {
            found.insert((at.to_owned(), leaf.is_null()));
        }
    }
}

fn shape(job: &Job) -> &'static Shape {
    SHAPES
        .iter()
        .find(|shape| shape.entry == job.template())
        .expect("documented")
}

#[test]
fn what_is_documented_is_what_templates_get() {
    let mut real: BTreeMap<&str, BTreeSet<(String, bool)>> = BTreeMap::new();
    for job in jobs() {
        let value: Value = serde_json::from_slice(job.data()).expect("JSON");
        paths(&value, "", real.entry(shape(&job).entry).or_default());
    }
    for shape in SHAPES {
        let documented: BTreeSet<&str> = shape.fields.iter().map(|field| field.path).collect();
        assert_eq!(documented.len(), shape.fields.len(), "{}: twice", shape.name);
        let real = real
            .get(shape.entry)
            .unwrap_or_else(|| panic!("no {}", shape.name));
        for path in &documented {
            assert!(
                real.iter().any(|(own, _)| own == path),
                "{}: no data has `{path}`",
                shape.name
            );
        }
        for (path, none) in real {
            let known = documented.contains(path.as_str())
                || *none
                    && documented
                        .iter()
                        .any(|known| known.starts_with(&format!("{path}.")));
            assert!(
                known || *none && documented.iter().any(|known| known.starts_with(path)),
                "{}: `{path}` is not documented",
                shape.name
            );
        }
    }
}

/// A tree of documented paths.
#[derive(Default)]
struct Tree(BTreeMap<String, Self>);

/// Typst that goes to every documented field, and prints what is no list and no map.
fn visit(tree: &Tree, value: &str, depth: usize, out: &mut String) {
    for (name, below) in &tree.0 {
        let item = format!("v{depth}");
        match name.as_str() {
            "[]" => {
                let _ = write!(out, "for {item} in {value} {{ ");
                visit_or_print(below, &item, depth + 1, out);
                out.push_str("}\n");
            }
            "*" => {
                let _ = writeln!(out, "for ({item}, k{depth}) in {value} {{ [#k{depth} ] }}");
            }
            name => {
                let _ = write!(out, "let {item} = {value}.{name}; if {item} != none {{ ");
                visit_or_print(below, &item, depth + 1, out);
                out.push_str("}\n");
            }
        }
    }
}

fn visit_or_print(tree: &Tree, value: &str, depth: usize, out: &mut String) {
    if tree.0.is_empty() {
        let _ = write!(out, "[#{value} ] ");
    } else {
        visit(tree, value, depth, out);
    }
}

#[test]
fn a_template_can_read_every_documented_field() {
    let own: BTreeMap<String, String> = SHAPES
        .iter()
        .map(|shape| {
            let mut tree = Tree::default();
            for field in shape.fields {
                let steps = field.path.replace("[]", ".[]");
                let mut at = &mut tree;
                for step in steps.split('.').filter(|step| !step.is_empty()) {
                    at = at.0.entry(step.to_owned()).or_default();
                }
            }
            let mut body = String::new();
            visit(&tree, "data", 0, &mut body);
            let text = format!(
                "#let data = json(\"/data.json\")\n#set document(title: \"own\")\n\
                 #set text(font: \"Atkinson Hyperlegible\", lang: data.language, size: 6pt)\n#{{ {body} }}\n"
            );
            (shape.entry.to_owned(), text)
        })
        .collect();
    let press = Press::new().with_templates(&own);
    let mut seen = BTreeSet::new();
    for job in jobs() {
        if !seen.insert(job.template()) {
            continue;
        }
        let value: Value = serde_json::from_slice(job.data()).expect("JSON");
        let pdf = sound(press.set(Ok(job.clone())));
        let Some(text) = text(&pdf, &["-raw"]) else { return };
        let text = words(&text.replace('\u{a0}', " "));
        let stamp = value
            .pointer("/stamp")
            .or_else(|| value.pointer("/sheet/stamp"))
            .or_else(|| value.pointer("/cards/0/stamp"))
            .or_else(|| value.pointer("/labels/0/stamp"))
            .or_else(|| value.pointer("/slips/stamp"))
            .or_else(|| value.pointer("/room/stamp"));
        let stamp = stamp
            .and_then(Value::as_str)
            .expect("every paper has small print");
        assert!(text.contains(stamp), "{}: {stamp} in {text}", job.template());
    }
    assert_eq!(seen.len(), SHAPES.len());
}

const NOTEBOOK: &str = "# Baths

```recipe
id: salt-bath
title: Salt bath
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
use:
  time: 3 min
keeps:
  bottle: 2 weeks
waste: To the collection point.
```

```camera
id: biscuit-tin
title: Biscuit tin
pinhole: 0.4 mm
distance: 90 mm
format: 9×13 cm
```
";

fn folder() -> Memory {
    let settings = "title: One bath\nzone: Europe/Lisbon\nscale: 0.5 g\npress:\n  cards: {}\n  labels: {}\n  sheets: {}\n  \
                    slips: {}\n  room: {}\n";
    Memory::new()
        .with("trayside.yaml", settings)
        .with("page.md", NOTEBOOK)
}

/// A wrong field name, in the template of every kind that `press` sets.
#[test]
fn a_wrong_field_is_a_finding_in_the_template() {
    let pressed = |host: &Memory| {
        let proof = proof(host, &Silent).unwrap();
        let pressing = press(host, &proof, &Silent).unwrap();
        (proof, pressing)
    };
    let whole = folder();
    let (_, pressing) = pressed(&whole);
    assert_eq!(pressing.findings, []);
    let made = [
        ("templates/press/sheet.typ", "pressed/cards/salt-bath.pdf"),
        ("templates/press/labels.typ", "pressed/labels.pdf"),
        ("templates/press/mixing.typ", "pressed/sheets/salt-bath.pdf"),
        ("templates/press/slips.typ", "pressed/slips.pdf"),
        ("templates/press/room.typ", "pressed/room.pdf"),
        ("templates/press/camera.typ", "pressed/templates/biscuit-tin.pdf"),
    ];
    for (template, paper) in made {
        assert!(whole.exists(paper), "{paper}");
        let text =
            "// Our own.\n#let data = json(\"/data.json\")\n\n#set document(title: \"x\")\né #data.nothing\n";
        let host = folder().with(template, text);
        // What was pressed before goes: it was set by another template.
        for (path, bytes) in whole
            .files()
            .into_iter()
            .filter(|(path, _)| path.starts_with("pressed/"))
        {
            host.put(&path, bytes);
        }
        let (proof, pressing) = pressed(&host);
        assert_eq!(pressing.findings.len(), 1, "{template}: {:?}", pressing.findings);
        let finding = &pressing.findings[0];
        assert_eq!(finding.rule, slug::TEMPLATE_BROKEN);
        assert_eq!(proof.sources.path(finding.span.file), template);
        let place = proof.sources.position(finding.span);
        assert_eq!(
            (place.line, place.column),
            (5, 9),
            "{template}: {}",
            finding.message
        );
        assert!(finding.message.contains("nothing"), "{}", finding.message);
        assert!(
            !host.exists(paper),
            "{paper} was set by a template that is no longer there"
        );
    }
}

#[test]
fn a_template_that_is_no_text_is_told() {
    let host = folder().with("templates/press/card.typ", vec![0xff, 0xfe, 0xc3]);
    let proof = proof(&host, &Silent).unwrap();
    let told: Vec<_> = proof.findings.iter().map(|finding| finding.rule).collect();
    assert_eq!(told, [slug::NOT_UTF8]);
}

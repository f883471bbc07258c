//! What trayside says to other programs: SARIF, completions, JSON Schema.

use std::process::{Command, Output};

use serde_json::{Value, json};
use trayside::finding::{Finding, Grade, Standing, sarif, slug};
use trayside::host::{Disk, Host};
use trayside::notebook::{Kind, schema};
use trayside::source::{FileId, OffsetMap, Sources, Span};
use trayside::syntax::{Node, NodeKind, read_page, read_yaml};

fn trayside(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_trayside"))
        .args(arguments)
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .output()
        .unwrap()
}

fn printed(arguments: &[&str]) -> String {
    String::from_utf8(trayside(arguments).stdout).unwrap()
}

/// The properties that SARIF 2.1.0 requires of the objects used here, and the values that it allows. The numbers of
/// sections are from memory; object by object they are those of the standard's chapter 3.
mod required {
    use super::Value;

    fn object<'v>(value: &'v Value, keys: &[&str], known: &[&str]) -> &'v serde_json::Map<String, Value> {
        let map = value.as_object().unwrap_or_else(|| panic!("no object: {value}"));
        for key in keys {
            assert!(map.contains_key(*key), "`{key}` is missing: {value}");
        }
        for key in map.keys() {
            assert!(
                keys.contains(&key.as_str()) || known.contains(&key.as_str()),
                "`{key}` is no property of this object: {value}"
            );
        }
        map
    }

    fn items(value: &Value) -> &[Value] {
        value.as_array().unwrap_or_else(|| panic!("no array: {value}"))
    }

    /// 3.13, sarifLog object: `version` and `runs`.
    pub(super) fn log(value: &Value) {
        object(value, &["version", "runs"], &["$schema"]);
        assert_eq!(value["version"], "2.1.0");
        items(&value["runs"]).iter().for_each(run);
    }

    /// 3.14, run object: `tool`; `results` where the run looked for any.
    fn run(value: &Value) {
        object(value, &["tool", "results"], &["columnKind", "originalUriBaseIds"]);
        assert!(["utf16CodeUnits", "unicodeCodePoints"].contains(&value["columnKind"].as_str().unwrap()));
        // 3.18, tool object: `driver`. 3.19, toolComponent object: `name`.
        object(&value["tool"], &["driver"], &[]);
        let driver = &value["tool"]["driver"];
        object(driver, &["name"], &["version", "semanticVersion", "rules"]);
        let rules = items(&driver["rules"]);
        rules.iter().for_each(rule);
        for result in items(&value["results"]) {
            self::result(result);
            // 3.27.6: ruleIndex points at the rule of ruleId.
            let index = usize::try_from(result["ruleIndex"].as_u64().unwrap()).unwrap();
            assert_eq!(rules[index]["id"], result["ruleId"]);
        }
    }

    /// 3.49, reportingDescriptor object: `id`; 3.12, multiformatMessageString object: `text`.
    fn rule(value: &Value) {
        object(
            value,
            &["id"],
            &[
                "shortDescription",
                "fullDescription",
                "help",
                "defaultConfiguration",
                "properties",
            ],
        );
        for key in ["shortDescription", "fullDescription", "help"] {
            object(&value[key], &["text"], &["markdown"]);
        }
        object(&value["defaultConfiguration"], &[], &["level"]);
        level(&value["defaultConfiguration"]["level"]);
    }

    /// 3.27, result object: `message`; 3.27.10: the levels.
    fn result(value: &Value) {
        object(
            value,
            &["message"],
            &[
                "ruleId",
                "ruleIndex",
                "level",
                "locations",
                "relatedLocations",
                "fixes",
                "suppressions",
                "properties",
            ],
        );
        level(&value["level"]);
        message(&value["message"]);
        items(&value["locations"]).iter().for_each(location);
        for key in ["relatedLocations", "fixes", "suppressions"] {
            if let Some(list) = value.get(key) {
                for item in items(list) {
                    match key {
                        "relatedLocations" => location(item),
                        "fixes" => fix(item),
                        _ => suppression(item),
                    }
                }
            }
        }
    }

    fn level(value: &Value) {
        assert!(["none", "note", "warning", "error"].contains(&value.as_str().unwrap()));
    }

    /// 3.11, message object: `text` or `id`.
    fn message(value: &Value) {
        object(value, &["text"], &[]);
        assert!(!value["text"].as_str().unwrap().is_empty());
    }

    /// 3.28, location object; 3.29, physicalLocation object: `artifactLocation` or `address`.
    fn location(value: &Value) {
        object(value, &[], &["physicalLocation", "message"]);
        let physical = &value["physicalLocation"];
        object(physical, &["artifactLocation"], &["region"]);
        artifact(&physical["artifactLocation"]);
        region(&physical["region"]);
    }

    /// 3.4, artifactLocation object: a relative reference, so without a scheme and without a leading slash.
    fn artifact(value: &Value) {
        object(value, &["uri"], &["uriBaseId"]);
        let uri = value["uri"].as_str().unwrap();
        assert!(
            !uri.starts_with('/') && !uri.contains([':', ' ', '\\', '#', '?']),
            "{uri}"
        );
    }

    /// 3.30, region object: lines and columns from 1, the end not before the start.
    fn region(value: &Value) {
        object(value, &["startLine"], &["startColumn", "endLine", "endColumn"]);
        let number = |key: &str| value[key].as_u64().unwrap();
        let (start, end) = (
            (number("startLine"), number("startColumn")),
            (number("endLine"), number("endColumn")),
        );
        assert!(
            start >= (1, 1) && start.1 >= 1 && end.1 >= 1 && end >= start,
            "{value}"
        );
    }

    /// 3.55, fix object: `artifactChanges`; 3.56, artifactChange object: `artifactLocation` and `replacements`;
    /// 3.57, replacement object: `deletedRegion`.
    fn fix(value: &Value) {
        object(value, &["artifactChanges"], &["description"]);
        for change in items(&value["artifactChanges"]) {
            object(change, &["artifactLocation", "replacements"], &[]);
            artifact(&change["artifactLocation"]);
            for replacement in items(&change["replacements"]) {
                object(replacement, &["deletedRegion"], &["insertedContent"]);
                region(&replacement["deletedRegion"]);
            }
        }
    }

    /// 3.35, suppression object: `kind`, either `inSource` or `external`.
    fn suppression(value: &Value) {
        object(value, &["kind"], &["justification"]);
        assert!(["inSource", "external"].contains(&value["kind"].as_str().unwrap()));
    }
}

fn described() -> Vec<sarif::Described> {
    trayside::rules::catalogue()
        .map(|rule| sarif::Described {
            name: rule.name,
            grade: rule.grade,
            short: rule.looks_for.to_owned(),
            full: rule.why.to_owned(),
            help: rule.instead.to_owned(),
            markdown: trayside::rules::explain(rule),
        })
        .collect()
}

#[test]
fn sarif_of_the_demo_has_what_the_standard_requires() {
    let log: Value = serde_json::from_str(&printed(&["proof", "recipes", "--format", "sarif"])).unwrap();
    required::log(&log);
    let json = printed(&["proof", "recipes", "--format", "json"]);
    let results = log["runs"][0]["results"].as_array().unwrap();
    assert_eq!(results.len(), json.lines().count() - 1, "a result a finding");
    for (result, line) in results.iter().zip(json.lines()) {
        let line: Value = serde_json::from_str(line).unwrap();
        let place = &result["locations"][0]["physicalLocation"];
        assert_eq!(result["ruleId"], line["rule"]);
        assert_eq!(result["properties"]["grade"], line["grade"]);
        assert_eq!(place["region"]["startLine"], line["line"]);
        assert_eq!(place["region"]["startColumn"], line["column"]);
        assert_eq!(place["region"]["endColumn"], line["end_column"]);
        assert_eq!(
            result.get("suppressions").is_some(),
            line.get("standing").is_some()
        );
    }
}

#[test]
fn sarif_tells_grade_place_fix_and_standing() {
    let mut sources = Sources::default();
    let page = sources.add("baths/thé noir.md", "a {{ b }} [c]\né: 12 gg\n");
    let unit = Span::new(page, 21, 23);
    let mut findings = vec![
        Finding::fault(slug::UNIT_UNKNOWN, unit, "`gg` in {{ b }}")
            .help("write `g`")
            .replace(unit, "g")
            .relate(Span::new(page, 0, 1), "here"),
        Finding::new(slug::ACID_INTO_HYPO, Grade::Hazard, unit, "a"),
        Finding::new(slug::RINSE_MISSING, Grade::Doubt, unit, "b"),
        Finding::new(slug::ACKNOWLEDGED_IDLE, Grade::Hint, unit, "c"),
    ];
    findings[1].standing = Standing::Acknowledged("outdoors".to_owned());
    findings[2].standing = Standing::Expected;
    let log: Value = serde_json::from_str(&sarif::log(&findings, &described(), &sources)).unwrap();
    required::log(&log);
    let results = &log["runs"][0]["results"];
    let levels: Vec<&str> = (0..4).map(|at| results[at]["level"].as_str().unwrap()).collect();
    assert_eq!(levels, ["error", "error", "warning", "note"]);
    let place = &results[0]["locations"][0]["physicalLocation"];
    assert_eq!(place["artifactLocation"]["uri"], "baths/th%C3%A9%20noir.md");
    assert_eq!(
        place["region"],
        json!({"startLine": 2, "startColumn": 7, "endLine": 2, "endColumn": 9})
    );
    // 3.11.5: braces of a message string are doubled; inserted content is no message.
    assert_eq!(results[0]["message"]["text"], "`gg` in {{{{ b }}}}; write `g`");
    assert_eq!(
        results[0]["fixes"][0]["artifactChanges"][0]["replacements"][0]["insertedContent"]["text"],
        "g"
    );
    assert_eq!(results[0]["relatedLocations"][0]["message"]["text"], "here");
    assert_eq!(
        results[1]["suppressions"],
        json!([{"kind": "inSource", "justification": "outdoors"}])
    );
    assert_eq!(results[2]["suppressions"][0]["kind"], "inSource");
    assert!(results[3].get("suppressions").is_none());
}

#[test]
fn every_shell_is_completed() {
    for shell in ["bash", "zsh", "fish", "elvish", "powershell"] {
        let script = printed(&["completions", shell]);
        for command in [
            "begin",
            "proof",
            "press",
            "mix",
            "facts",
            "why",
            "schema",
            "completions",
        ] {
            assert!(script.contains(command), "{shell} does not know {command}");
        }
        // Values of options are offered by these three; the other two know the options alone.
        let values = ["bash", "zsh", "fish"].contains(&shell);
        assert!(script.contains("format"), "{shell}");
        assert!(!values || script.contains("sarif"), "{shell}");
    }
    assert_eq!(trayside(&["completions", "abacus"]).status.code(), Some(2));
}

#[test]
fn a_rule_is_explained_within_eighty_columns() {
    let text = printed(&["why", "acid-into-hypo"]);
    assert!(!text.contains('\u{1b}'), "colours in a pipe");
    for line in text.lines().filter(|line| !line.starts_with("    ")) {
        assert!(line.chars().count() <= 80, "{line}");
    }
    let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
    let rule = trayside::rules::find("acid-into-hypo").unwrap();
    assert_eq!(words(&text), words(&trayside::rules::explain(rule)));
}

/// A YAML value as JSON by YAML 1.2's core schema, as an editor reads it.
fn as_json(node: &Node, text: &str) -> Value {
    match &node.kind {
        NodeKind::Scalar { text: said, .. } => {
            let before = text.get(..node.span.start as usize).unwrap_or("");
            let quoted = before.ends_with(['"', '\'']) || said.contains('\n');
            match said.parse::<f64>() {
                _ if quoted => json!(said),
                Ok(_) if said.chars().all(|c| c.is_ascii_digit()) && said.len() < 16 => {
                    json!(said.parse::<i64>().unwrap())
                }
                Ok(number) if said.starts_with(|c: char| c.is_ascii_digit() || c == '-') => json!(number),
                _ if said == "true" || said == "false" => json!(said == "true"),
                _ => json!(said),
            }
        }
        NodeKind::Map(entries) => Value::Object(
            entries
                .iter()
                .map(|entry| (entry.key.value.clone(), as_json(&entry.value, text)))
                .collect(),
        ),
        NodeKind::List(items) => Value::Array(items.iter().map(|item| as_json(item, text)).collect()),
        NodeKind::Empty | NodeKind::Broken => Value::Null,
    }
}

/// What is wrong with a value by a schema; only the keywords that the schema uses are known, and any other fails.
fn wrong(value: &Value, schema: &Value, root: &Value, at: &str) -> Option<String> {
    let keywords = schema.as_object().expect("a schema is an object here");
    for (keyword, said) in keywords {
        let found = match keyword.as_str() {
            "$schema" | "$defs" | "title" | "description" | "examples" => None,
            "properties" => said.as_object().unwrap().iter().find_map(|(key, inner)| {
                value
                    .get(key)
                    .and_then(|value| wrong(value, inner, root, &format!("{at}.{key}")))
            }),
            "additionalProperties" => extra(value, schema, said, root, at),
            "required" => said
                .as_array()
                .unwrap()
                .iter()
                .filter_map(Value::as_str)
                .find(|key| value.as_object().is_some_and(|map| !map.contains_key(*key)))
                .map(|key| format!("{at}: `{key}` is missing")),
            "items" => value.as_array().and_then(|items| {
                items
                    .iter()
                    .enumerate()
                    .find_map(|(n, item)| wrong(item, said, root, &format!("{at}[{n}]")))
            }),
            "type" => (!is_of(value, said)).then(|| format!("{at}: {value} is not {said}")),
            "enum" => (!said.as_array().unwrap().contains(value))
                .then(|| format!("{at}: {value} is none of {said}")),
            "minimum" => (value.as_f64() < said.as_f64()).then(|| format!("{at}: {value} is too small")),
            "$ref" => {
                let pointer = said.as_str().unwrap().trim_start_matches('#');
                let inner = root
                    .pointer(pointer)
                    .unwrap_or_else(|| panic!("{pointer} leads nowhere"));
                wrong(value, inner, root, at)
            }
            "anyOf" | "oneOf" => {
                let all: Vec<Option<String>> = said
                    .as_array()
                    .unwrap()
                    .iter()
                    .map(|inner| wrong(value, inner, root, at))
                    .collect();
                let good = all.iter().filter(|found| found.is_none()).count();
                let enough = good == 1 || (keyword == "anyOf" && good > 1);
                (!enough).then(|| format!("{at}: {good} of {keyword} hold: {all:?}"))
            }
            other => panic!("the schema uses `{other}`, which this checker does not know"),
        };
        if found.is_some() {
            return found;
        }
    }
    None
}

fn extra(value: &Value, schema: &Value, said: &Value, root: &Value, at: &str) -> Option<String> {
    let known = schema.get("properties").and_then(Value::as_object);
    let mut others = value
        .as_object()?
        .iter()
        .filter(|(key, _)| !known.is_some_and(|known| known.contains_key(*key)));
    if said == &Value::Bool(false) {
        return others.next().map(|(key, _)| format!("{at}: `{key}` is unknown"));
    }
    others.find_map(|(key, value)| wrong(value, said, root, &format!("{at}.{key}")))
}

fn is_of(value: &Value, said: &Value) -> bool {
    let one = |name: &Value| match name.as_str().unwrap() {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("`{other}` is no type"),
    };
    said.as_array()
        .map_or_else(|| one(said), |names| names.iter().any(one))
}

fn yaml(text: &str) -> Value {
    let map = OffsetMap::slice(FileId(0), 0, text.len());
    let document = read_yaml(text, &map, &mut Vec::new());
    assert!(!document.broken, "{text}");
    as_json(&document.node, text)
}

/// Every block of a folder's pages: its place, its kind, its value.
fn blocks_of(folder: &str) -> Vec<(String, Kind, Value)> {
    let mut blocks = Vec::new();
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join(folder);
    let disk = Disk::open(&folder).unwrap();
    for listed in disk.list().unwrap() {
        let path = listed.path;
        if std::path::Path::new(&path)
            .extension()
            .is_none_or(|end| end != "md")
        {
            continue;
        }
        let text = String::from_utf8(disk.read(&path).unwrap()).unwrap();
        for fence in read_page(FileId(0), &text).fences {
            if let Some(kind) = Kind::from_word(fence.info.value.trim()) {
                let line = text[..fence.span.start as usize].lines().count() + 1;
                blocks.push((format!("{path}:{line}"), kind, yaml(&fence.text)));
            }
        }
    }
    blocks
}

#[test]
fn every_block_of_the_demo_conforms_to_the_schema() {
    let mut checked = 0;
    for folder in ["recipes", "templates/begin", "book"] {
        for (place, kind, block) in blocks_of(folder) {
            let schema = schema::of(kind.word()).unwrap();
            assert_eq!(wrong(&block, &schema, &schema, kind.word()), None, "{place}");
            let all = schema::all();
            assert_eq!(wrong(&block, &all, &all, "block"), None, "{place}");
            checked += 1;
        }
        let settings = format!("{}/{folder}/trayside.yaml", env!("CARGO_MANIFEST_DIR"));
        let settings = yaml(&std::fs::read_to_string(settings).unwrap());
        let schema = schema::of("trayside.yaml").unwrap();
        assert_eq!(wrong(&settings, &schema, &schema, "settings"), None, "{folder}");
    }
    assert!(checked > 40, "only {checked} blocks were found");
}

#[test]
fn what_does_not_conform_is_refused() {
    for (kind, block, wanted) in [
        ("recipe", "role: developper\nmakes: 1 l", "none of"),
        ("recipe", "role: developer", "`makes` is missing"),
        (
            "recipe",
            "role: stop\nmakes: 1 l\nsteps:\n  - boil: 3 min\n    stir: 2 min",
            "hold",
        ),
        (
            "camera",
            "title: A\nformat: 4×5 in\npinhoel: 0.3 mm",
            "`pinhoel` is unknown",
        ),
        ("camera", "format: 4×5 in\npinhole: 0.3", "is not"),
        (
            "session",
            "when: 2031-05-02\nprocess: a\nsheets: [b]\npeople: two",
            "is not",
        ),
        ("trayside.yaml", "by: me", "`title` is missing"),
        (
            "trayside.yaml",
            "title: A\nrules:\n  stop-spent: hazard",
            "none of",
        ),
    ] {
        let schema = schema::of(kind).unwrap();
        let found = wrong(&yaml(block), &schema, &schema, kind).unwrap_or_else(|| panic!("{block} conforms"));
        assert!(found.contains(wanted), "{block}: {found}");
    }
    for (kind, block) in [
        ("recipe", "based on: tea\nkeeps: 1 h"),
        (
            "recipe",
            "role: stop\nmakes: 1 l\nsteps:\n  - strain\n  - strain:\n  - pour: [a, into b]",
        ),
        ("process", "steps:\n  - bath: a\n  - rinse\n  - dry:"),
        (
            "paper",
            "base: RC\nspeed:\n  value: 6\n  evidence: guessed\ngrade: 2",
        ),
        (
            "trayside.yaml",
            "title: A\npress:\n  cards:\n  site:\n    base: https://example.org",
        ),
    ] {
        let schema = schema::of(kind).unwrap();
        assert_eq!(wrong(&yaml(block), &schema, &schema, kind), None, "{block}");
    }
}

#[test]
fn the_schema_is_printed_for_each_kind() {
    for name in schema::names() {
        let schema: Value = serde_json::from_str(&printed(&["schema", name])).unwrap();
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        assert_eq!(schema["$ref"], format!("#/$defs/{name}"));
    }
    let all: Value = serde_json::from_str(&printed(&["schema"])).unwrap();
    for name in schema::names() {
        let known = all["$defs"][name]["properties"].as_object().unwrap();
        for (key, property) in known {
            assert!(
                !property["description"].as_str().unwrap_or("").is_empty(),
                "{name}.{key}"
            );
        }
    }
    let lost = trayside(&["schema", "recipie"]);
    assert_eq!(lost.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&lost.stderr).contains("did you mean `recipe`?"));
}

//! The layers of the code, as DEVELOPERS.md tables them: a module uses those above it in the table and, within its own
//! row, those to its left.

use std::collections::BTreeMap;
use std::path::Path;

use crate::walk::rust_files;

/// The table of DEVELOPERS.md: module to its place, by row and by place in the row.
fn table() -> BTreeMap<String, (u32, usize)> {
    let text = include_str!("../../DEVELOPERS.md");
    let after = text
        .split("## Layers")
        .nth(1)
        .expect("DEVELOPERS.md has a section `Layers`");
    let section = after.split("\n## ").next().unwrap_or(after);
    let mut layers = BTreeMap::new();
    for row in section.lines().filter(|line| line.starts_with("| ")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let [layer, modules, ..] = cells[..] else { continue };
        let Ok(layer) = layer.parse::<u32>() else { continue };
        for (place, module) in modules.split(',').enumerate() {
            layers.insert(module.trim().trim_matches('`').to_owned(), (layer, place));
        }
    }
    layers
}

/// The modules of this crate that a file names, by `crate::module`.
fn uses(text: &str) -> Vec<String> {
    let mut found = Vec::new();
    for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
        let mut rest = line;
        while let Some(at) = rest.find("crate::") {
            rest = &rest[at + "crate::".len()..];
            if let Some(group) = rest.strip_prefix('{') {
                let names = group
                    .split(['}', ','])
                    .map(|name| name.split("::").next().unwrap_or("").trim());
                found.extend(names.filter(|name| !name.is_empty()).map(str::to_owned));
            } else {
                let name: String = rest
                    .chars()
                    .take_while(|c| c.is_alphanumeric() || *c == '_')
                    .collect();
                found.push(name);
            }
        }
    }
    found
}

#[test]
fn modules_use_lower_layers_only() {
    let layers = table();
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut wrong = Vec::new();
    for file in rust_files(&source) {
        let relative = file.strip_prefix(&source).unwrap().to_string_lossy().into_owned();
        let module = relative
            .split('/')
            .next()
            .unwrap()
            .trim_end_matches(".rs")
            .to_owned();
        if matches!(module.as_str(), "lib" | "main") {
            continue;
        }
        let Some(own) = layers.get(&module) else {
            wrong.push(format!(
                "{relative}: module `{module}` has no row in DEVELOPERS.md"
            ));
            continue;
        };
        // Tests at a file's foot may reach up: they look at the module from outside.
        let text = std::fs::read_to_string(&file).unwrap();
        let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or(&text);
        for used in uses(code) {
            match layers.get(&used) {
                Some(other) if used != module && other >= own => {
                    wrong.push(format!(
                        "{relative}: layer {} uses `{used}` of layer {}",
                        own.0, other.0
                    ));
                }
                _ => {}
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_disk_the_clock_and_the_environment_are_reached_through_host_alone() {
    let source = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for file in rust_files(&source) {
        let relative = file.strip_prefix(&source).unwrap().to_string_lossy().into_owned();
        if relative.starts_with("host/") || relative == "main.rs" {
            continue;
        }
        let text = std::fs::read_to_string(&file).unwrap();
        let code = text.split("#[cfg(test)]").next().unwrap_or(&text);
        for banned in [
            "std::fs",
            "std::env",
            "SystemTime::now",
            "Instant::now",
            "std::net",
            "std::process::Command",
        ] {
            assert!(!code.contains(banned), "{relative} reaches for `{banned}`");
        }
    }
}

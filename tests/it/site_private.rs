//! `audience: private` never leaks: words that stand nowhere else are planted in every field of a private page, and every
//! byte that is pressed into the site is searched for them.

#![expect(
    clippy::unwrap_used,
    reason = "a helper that fails fails the test that called it"
)]

use trayside::host::{Host, Memory};
use trayside::pipeline::{PRESSED, Silent, press, proof};

/// Public, private and in between: each word with `zq` in it is told by the private page alone.
const PRIVATE: &str = "---
title: Zqtitle plans
date: 2031-11-23 04:56
tags: [zqtag, river]
audience: private
---

# Zqheading one

Zqprose about [zqlinktext](../a.md) and ![zqalt](zqpicture.png). {{ zqbox.f-number }} <b title=\"zqattribute\">zqhtml</b>
<!-- zqcomment -->

[zqreference]: ../a.md \"zqlinktitle\"

```camera
id: zqbox
title: Zqcamera title
pinhole: 0.4 mm
distance: 131 mm
format: 10×15 cm
scan: zqhole.png
note: zqcameranote
```

```ingredient
id: zqherb
title: Zqherb dried
material: zqherb
contains:
  ascorbic acid: 17.3 %
price: 98.76 EUR
pack: 100 g
note: zqherbnote
```

```recipe
id: zqtea
title: Zqtea title
role: developer
makes: 1 l
parts:
  - name: zqpart
    water: 500 ml at 90 °C
    add:
      zqherb: 17.31 g
    steps:
      - zqstep
cautions: [zqcaution]
```

```exposure
id: zqsheet
title: Zqsheet title
when: 2031-11-23 05:06
camera: crate
paper: plain
light: EV 12
result: right
by: Zqperson
scan: zqscan.png
next: zqnext
```

```print
id: zqprint
title: Zqprint title
of: weir-1
paper: plain
lamp: zqlamp
scan: zqprintscan.png
```

```batch
id: zqbatch
title: Zqbatch title
of: public-tea
made: 2031-11-23 06:07
volume: 987 ml
bottle: zqbottle
```

```session
id: zqsession
title: Zqsession title
when: 2031-11-23 07:08
process: line
baths:
  public-tea: zqbatch
sheets: [weir-1, zqsheet]
events:
  - note: zqevent
```

```camera
id: crate
title: Zqsecond of one id
pinhole: 0.7 mm
```

```recipe
zqbroken: [
```

```rust
let zqcode = 1;
```
";

const PUBLIC: &str = "---
title: Weir
date: 2031-05-01
tags: [river]
---

# Weir

See [the drawings](secret/zqpath.md), [more](secret/zqpath.md#zqheading-one), [the box](#zqbox), ![](secret/zqpicture.png) and
{{ zqbox.f-number }}, {{ zqtea.pH }}, {{ zqsheet.time }}.

```camera
id: crate
title: Fish crate
pinhole: 0.4 mm
distance: 100 mm
format: 10×15 cm
```

```paper
id: plain
title: Plain paper
base: RC
speed: 3
```

```recipe
id: public-tea
title: Public tea
role: developer
makes: 1 l
add:
  washing soda, crystals: 50 g
```

```recipe
id: derived
title: Derived tea
role: developer
based on: zqtea
add:
  washing soda, crystals: 50 g
```

```recipe
id: with-herb
title: Tea with the herb
role: developer
makes: 1 l
add:
  zqherb: 5 g
  washing soda, crystals: 50 g
```

```process
id: line
title: The line
steps:
  - bath: public-tea
    time: 4 min
    light: red
```

```exposure
id: weir-1
title: Weir, first
when: 2031-05-01 10:00
camera: crate
paper: plain
light: EV 12
result: right
```

```exposure
id: weir-2
title: Weir, second
when: 2031-05-01 11:00
camera: zqbox
paper: plain
light: EV 12
```
";

fn pressed() -> Memory {
    let host = Memory::new()
        .with(
            "trayside.yaml",
            "title: Weir notebook\nzone: Europe/Oslo\npress:\n  site:\n    base address: https://weir.example/notes\n",
        )
        .with("a.md", PUBLIC)
        .with("secret/zqpath.md", PRIVATE);
    for picture in ["zqpicture", "zqhole", "zqscan", "zqprintscan"] {
        host.put(&format!("secret/{picture}.png"), format!("{picture} zqpixels"));
    }
    let proof = proof(&host, &Silent).unwrap();
    press(&host, &proof, &Silent).unwrap();
    host
}

#[test]
fn no_pressed_byte_tells_of_a_private_page() {
    let host = pressed();
    let files: Vec<(String, Vec<u8>)> = host
        .files()
        .into_iter()
        .filter(|(path, _)| path.starts_with(&format!("{PRESSED}/site/")))
        .collect();
    assert!(files.len() > 40, "{}", files.len());
    // What the public page itself writes of the private one stays there: ids in references.
    let written_here = ["zqbox", "zqtea", "zqherb", "zqsheet", "zqpicture", "zqheading"];
    let mut found = Vec::new();
    for (path, bytes) in &files {
        if path.contains("/fonts/") {
            continue;
        }
        let text = String::from_utf8_lossy(bytes).to_lowercase();
        for (at, _) in text.match_indices("zq").chain(path.match_indices("zq")) {
            let word: String = text
                .get(at..)
                .unwrap_or("")
                .chars()
                .take_while(|c| c.is_alphanumeric())
                .collect();
            if !written_here.contains(&word.as_str()) {
                found.push(format!("{path}: {word}"));
            }
        }
        // Figures that the private page alone has: a distance, amounts, times, a volume, a price, and what follows.
        for figure in [
            "131 mm",
            "131\u{a0}mm",
            "17.3",
            "98.76",
            "987 ml",
            "987\u{a0}ml",
            "2031-11-23",
            "f/328",
            "f/327",
        ] {
            if text.contains(figure) {
                found.push(format!("{path}: {figure}"));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

#[test]
fn the_authors_own_facts_hold_private_ones() {
    let host = pressed();
    let own = String::from_utf8(host.read(&format!("{PRESSED}/facts.json")).unwrap()).unwrap();
    assert!(own.contains("zqbox") && own.contains("secret/zqpath.md"));
}

#[test]
fn what_follows_from_a_private_block_is_not_shown() {
    let host = pressed();
    let site = |path: &str| String::from_utf8(host.read(&format!("{PRESSED}/site/{path}")).unwrap()).unwrap();
    let facts: serde_json::Value = serde_json::from_str(&site("facts.json")).unwrap();
    let shown: Vec<&str> = facts["blocks"]
        .as_object()
        .unwrap()
        .keys()
        .map(String::as_str)
        .collect();
    assert_eq!(shown, ["crate", "plain", "public-tea", "line", "weir-1"]);
    let csv = site("facts.csv");
    assert!(
        csv.lines()
            .any(|line| line.starts_with("crate,camera,a.md,f-number,250")),
        "{csv}"
    );
    assert!(!csv.contains("weir-2"));
}

/// A camera and a paper on a public page, with sheets of which some were judged on another one.
fn log(audience: &str, minutes: [u32; 4]) -> Memory {
    let page = "# Weir\n\n{{ plain.from-log }} and {{ plain.speed }} and {{ open.time }}.\n\n\
        ```camera\nid: crate\npinhole: 0.4 mm\ndistance: 100 mm\nformat: 10×15 cm\n```\n\n\
        ```paper\nid: plain\nbase: RC\nspeed: 3\n```\n\n\
        ```exposure\nid: open\nwhen: 2031-06-01 10:00\ncamera: crate\npaper: plain\nlight: EV 12\n```\n\n\
        ```exposure\nid: given\nwhen: 2031-06-02 10:00\ncamera: crate\npaper: plain\nlight: EV 12\ntime: 5 min\nresult: right\n```\n";
    let mut sheets = format!("---\naudience: {audience}\n---\n\n# Others\n\n");
    for (at, minutes) in minutes.iter().enumerate() {
        sheets.push_str(&format!(
            "```exposure\nid: zqsheet-{at}\nwhen: 2031-05-0{} 11:00\ncamera: crate\npaper: plain\nlight: EV 1{at}\ntime: {minutes} min\nresult: right\n```\n\n",
            at + 1
        ));
    }
    sheets.push_str("```exposure\nid: zqmute\nwhen: 2031-05-09\ncamera: crate\npaper: plain\nlight: EV 12\nresult: right\n```\n");
    let host = Memory::new()
        .with(
            "trayside.yaml",
            "title: Weir\nzone: Europe/Oslo\npress:\n  site: {}\n",
        )
        .with("a.md", page)
        .with("others.md", sheets);
    let proof = proof(&host, &Silent).unwrap();
    press(&host, &proof, &Silent).unwrap();
    host
}

fn site(host: &Memory) -> Vec<(String, Vec<u8>)> {
    let folder = format!("{PRESSED}/site/");
    let files = host.files().into_iter();
    files.filter(|(path, _)| path.starts_with(&folder)).collect()
}

#[test]
fn no_pressed_byte_follows_from_what_private_sheets_taught() {
    let (one, other) = (log("private", [64, 32, 16, 8]), log("private", [8, 9, 1, 3]));
    // The author's own facts have learnt from them.
    let own =
        |host: &Memory| String::from_utf8(host.read(&format!("{PRESSED}/facts.json")).unwrap()).unwrap();
    assert!(own(&one) != own(&other) && own(&one).contains("from-log"));
    assert!(site(&one) == site(&other));
    for (path, bytes) in site(&one) {
        let text = String::from_utf8_lossy(&bytes);
        assert!(!text.contains("zqsheet") && !text.contains("zqmute"), "{path}");
    }
    let facts: serde_json::Value =
        serde_json::from_slice(&one.read(&format!("{PRESSED}/site/facts.json")).unwrap()).unwrap();
    let names = |id: &str| -> Vec<&str> {
        let facts = facts["blocks"][id]["facts"].as_object().unwrap();
        facts.keys().map(String::as_str).collect()
    };
    assert_eq!(names("plain"), ["speed", "reciprocity"]);
    assert!(!names("open").contains(&"time") && names("given").contains(&"time"));
    // Where nothing is private, all of it is there.
    let all = log("public", [64, 32, 16, 8]);
    let facts: serde_json::Value =
        serde_json::from_slice(&all.read(&format!("{PRESSED}/site/facts.json")).unwrap()).unwrap();
    assert!(facts["blocks"]["plain"]["facts"]["from-log"]["value"].is_number());
    assert!(facts["blocks"]["open"]["facts"]["time"]["value"].is_number());
}

#[test]
fn too_few_private_sheets_are_not_named_either() {
    let host = log("private", [64, 32, 16, 8]);
    let few = Memory::new();
    for (path, bytes) in host.files() {
        if !path.starts_with(PRESSED) {
            few.put(&path, bytes);
        }
    }
    few.put("others.md", "---\naudience: private\n---\n\n```exposure\nid: zqmute\nwhen: 2031-05-09\ncamera: crate\npaper: plain\nlight: EV 12\nresult: right\n```\n");
    let proof = proof(&few, &Silent).unwrap();
    press(&few, &proof, &Silent).unwrap();
    for (path, bytes) in site(&few) {
        assert!(!String::from_utf8_lossy(&bytes).contains("zqmute"), "{path}");
    }
}

/// By the language: what a private page tells is on no public one, and the author is told where it is missing.
#[test]
fn a_private_figure_in_public_words_is_told_where_it_stands() {
    let camera =
        |id: &str| format!("```camera\nid: {id}\npinhole: 0.4 mm\ndistance: 100 mm\nformat: 10×15 cm\n```\n");
    let sheet = "```paper\nid: plain\nbase: RC\nspeed: 5\nreciprocity: 1.2\n```\n```exposure\nid: weir\nwhen: 2031-05-02 11:00\ncamera: hidden\npaper: plain\nlight: EV 12\n```\n";
    let words = "Box {{ hidden.f-number }}, crate {{ crate.f-number }}, sheet {{ weir.time }}.\n";
    let host = Memory::new()
        .with(
            "trayside.yaml",
            "title: T\nzone: Europe/Lisbon\npress:\n  site: {}\n",
        )
        .with(
            "secret.md",
            &*format!("---\naudience: private\n---\n\n{}\n{words}", camera("hidden")),
        )
        .with("a.md", &*format!("{}{sheet}{words}", camera("crate")));
    let proof = proof(&host, &Silent).unwrap();
    let told: Vec<(&str, &str, String)> = proof
        .findings
        .iter()
        .filter(|finding| finding.rule.as_str() == "fact-private")
        .map(|finding| {
            let path = proof.sources.path(finding.span.file);
            (path, proof.sources.slice(finding.span), finding.message.clone())
        })
        .collect();
    let stands = "`hidden` stands on a private page: the site leaves this figure out".to_owned();
    let computed =
        "`weir` is computed from what stands on a private page: the site leaves this figure out".to_owned();
    assert_eq!(
        told,
        [
            ("a.md", "hidden.f-number", stands),
            ("a.md", "weir.time", computed)
        ]
    );
}

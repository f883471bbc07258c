//! The contact sheet: every sheet is on it, with what made it, and nothing private; and the ways from a sheet to its recipe
//! and back.

#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a helper that fails fails the test that called it"
)]

use std::collections::BTreeMap;

use trayside::host::{Host, Memory};
use trayside::pipeline::{Silent, proof};
use trayside::site::{self, SiteFile, Templates};
use trayside::views::site_view;

use crate::site::reader::{check_page, values};

fn render(host: &dyn Host) -> Vec<SiteFile> {
    let proof = proof(host, &Silent).unwrap();
    let view = site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0.0.0",
    );
    site::render(&view, &Templates::new(&BTreeMap::new()).unwrap()).unwrap()
}

fn text<'f>(files: &'f [SiteFile], path: &str) -> &'f str {
    let file = files.iter().find(|file| file.path == path);
    let file = file.unwrap_or_else(|| panic!("{path} is not written"));
    std::str::from_utf8(&file.bytes).unwrap()
}

const THINGS: &str = "# Things

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
id: dock-tea
title: Dock leaf tea
role: developer
makes: 1 l
add:
  washing soda, crystals: 50 g
```

```process
id: line
steps:
  - bath: dock-tea
    time: 4 min
    light: red
```
";

const LOG: &str = "# Log

```exposure
id: weir-1
title: Weir, first
when: 2031-05-02 10:00
camera: crate
paper: plain
light: EV 12
time: 2 min
result: needs +1 stop
scan: scans/weir-1.png
```

```exposure
id: weir-2
title: Weir, second
when: 2031-05-02 10:30
camera: crate
paper: plain
light: EV 12
time: 4 min
result: right
scan: scans/none.png
```

```exposure
id: undated
title: From the drawer
camera: lost-camera
paper: plain
```

```print
id: weir-2-print
title: Weir, printed
of: weir-2
when: 2031-05-09
paper: plain
time: 8 s
```

```batch
id: tea-2-may
title: Tea of 2 May
of: dock-tea
made: 2031-05-02 18:00
volume: 1 l
```

```session
id: evening
title: Friday evening
when: 2031-05-02 19:00
process: line
baths:
  dock-tea: tea-2-may
temperature: 22 °C
sheets: [weir-1, weir-2]
```
";

fn notebook() -> Memory {
    Memory::new()
        .with("trayside.yaml", "title: Weir notebook\nzone: Europe/Oslo\n")
        .with("things.md", THINGS)
        .with("log.md", LOG)
        .with("scans/weir-1.png", "x")
}

#[test]
fn every_sheet_lies_there_with_what_made_it() {
    let files = render(&notebook());
    let sheet = text(&files, "contact.html");
    check_page("contact.html", sheet);
    let order = ["Weir, first", "Weir, second", "Weir, printed", "From the drawer"]
        .map(|title| sheet.find(title).unwrap_or_else(|| panic!("{title}")));
    // The newest day stands first; a sheet without a date belongs to none of them, and a print lies by its negative.
    assert!(
        order[3] < order[0] && order[0] < order[1] && order[1] < order[2],
        "{order:?}"
    );
    for part in [
        "<img src=\"pictures/scans/weir-1.png\" alt=\"Scan of Weir, first\" loading=\"lazy\"",
        "the scan is missing",
        "not scanned",
        "<h2 id=\"day.2031-05-02\">2031-05-02</h2>",
        "Without a date",
        "<p>print of <a href=\"log.html#weir-2\">Weir, second</a></p>",
        "<dd><a href=\"log.html#evening\">Friday evening</a></dd>",
        "<a href=\"things.html#dock-tea\">Dock leaf tea</a>, <a href=\"log.html#tea-2-may\">Tea of 2 May</a>",
        "<dd>lost-camera</dd>",
        "value=\"dock-tea\"> <span>Dock leaf tea</span>",
        "value=\"needs-more\"> <span>needs more</span>",
    ] {
        assert!(sheet.contains(part), "{part} is not in {sheet}");
    }
    assert_eq!(values(sheet, &["data-verdict"]).len(), 4);
    assert_eq!(
        values(sheet, &["data-developer"]),
        ["", "dock-tea", "dock-tea", ""]
    );
}

#[test]
fn a_sheet_leads_to_its_recipe_and_a_recipe_to_its_sheets() {
    let files = render(&notebook());
    let block = |page: &str, id: &str| {
        let (_, after) = text(&files, page).split_once(&format!("id=\"{id}\"")).unwrap();
        after.split("</section>").next().unwrap().to_owned()
    };
    let sheet = block("log.html", "weir-1");
    for way in ["#evening", "#tea-2-may", "things.html#dock-tea"] {
        assert!(sheet.contains(&format!("href=\"{way}\"")), "{way}: {sheet}");
    }
    let recipe = block("things.html", "dock-tea");
    for way in ["log.html#tea-2-may", "log.html#weir-1", "log.html#weir-2"] {
        assert!(recipe.contains(&format!("href=\"{way}\"")), "{way}: {recipe}");
    }
    let batch = block("log.html", "tea-2-may");
    for way in ["things.html#dock-tea", "#evening", "#weir-1"] {
        assert!(batch.contains(&format!("href=\"{way}\"")), "{way}: {batch}");
    }
}

#[test]
fn private_sheets_do_not_lie_there() {
    let host = notebook().with(
        "private.md",
        "---\naudience: private\n---\n\n# Mine\n\n```exposure\nid: owl\ntitle: Owl at the sluice\nwhen: 2031-05-03\ncamera: crate\npaper: plain\n```\n\n```print\nid: owl-print\ntitle: Owl, printed\nof: weir-1\npaper: plain\n```\n",
    );
    let files = render(&host);
    assert!(!text(&files, "contact.html").contains("Owl"));
    assert!(!text(&files, "things.html").contains("Owl"));
}

#[test]
fn a_notebook_without_sheets_has_no_contact_sheet() {
    let host = Memory::new()
        .with("trayside.yaml", "title: Weir notebook\n")
        .with("a.md", "# A\n");
    let files = render(&host);
    assert!(!files.iter().any(|file| file.path.starts_with("contact.html")));
    assert!(!text(&files, "a.html").contains("contact.html"));
}

#[test]
fn many_sheets_lie_in_parts_and_a_new_one_changes_the_last() {
    let of = |days: u32| {
        let host = notebook();
        for day in 0..days {
            let at = format!(
                "{}-{:02}-{:02}",
                2032 + day / 336,
                1 + day / 28 % 12,
                1 + day % 28
            );
            host.put(
                &format!("days/{day:03}.md"),
                format!("# Day {day}\n\n```exposure\nid: sheet-{day}\nwhen: {at}\ncamera: crate\npaper: plain\nresult: right\n```\n"),
            );
        }
        render(&host)
    };
    let (before, after) = (of(400), of(401));
    for path in ["contact-1.html", "contact-2.html", "contact.html"] {
        check_page(path, text(&before, path));
    }
    assert!(text(&before, "contact-1.html").contains("href=\"contact-2.html\""));
    assert_eq!(text(&before, "contact-1.html"), text(&after, "contact-1.html"));
    let counts = text(&before, "contact-counts.js");
    let data = counts
        .strip_prefix("traysideContact(")
        .and_then(|rest| rest.strip_suffix(");\n"));
    let data: serde_json::Value = serde_json::from_str(data.unwrap()).unwrap();
    let all = data
        .as_array()
        .unwrap()
        .iter()
        .flat_map(|part| part[1].as_array().unwrap());
    assert_eq!(all.map(|one| one[1].as_u64().unwrap()).sum::<u64>(), 404);
}

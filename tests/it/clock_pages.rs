//! The clocks of processes: which lines have one, what they run, and what no browser may run.

use std::collections::BTreeMap;

use serde_json::Value;
use trayside::clock::schedule::{Stage, TrayLine};
use trayside::facts::{line_trays, move_seconds};
use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS};
use trayside::site::{self, Templates};
use trayside::units::scalar::Time;
use trayside::views;

use crate::support::{USUAL, proofed};

const RECIPES: &str = "```recipe
id: tea
title: Tea
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 30 g
  vitamin C powder: 10 g
use:
  time: 4–6 min
  agitation: rock 10 s every minute
keeps: 1 h
```

```recipe
id: plain-hypo
title: Plain hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
waste: Labelled can, to the collection point.
```
";

const LINE: &str = "```process
id: the-line
title: The </script><script>alert(1)</script> line
paper: RC
hands: 1
move: 5 s
steps:
  - bath: tea
    light: red
    drain: 10 s
    places: 2
    tray: developer
  - rinse: tap water
    time: 15 s
    places: 2
  - bath: plain-hypo
    time: 2 min
    places: 2
    drain: 10 s
  - wash: tap water
    time: 4 min
    light: room
    places: 8
  - dry: string
    time: 2 h
```
";

fn rendered(proof: &Proof) -> BTreeMap<String, String> {
    let view = views::site_view::site(
        &proof.notebook,
        &proof.facts,
        &proof.findings,
        &proof.sources,
        &[],
        "0",
    );
    let templates = Templates::new(&BTreeMap::new()).unwrap();
    let files = site::render(&view, &templates).unwrap();
    files
        .into_iter()
        .filter_map(|file| Some((file.path, String::from_utf8(file.bytes.to_vec()).ok()?)))
        .collect()
}

fn notebook(pages: &[(&str, &str)]) -> Proof {
    let folder = Memory::new().with(SETTINGS, USUAL);
    proofed(
        &pages
            .iter()
            .fold(folder, |folder, (path, text)| folder.with(path, *text)),
    )
}

/// The data that the page's script runs.
fn run(page: &str) -> Value {
    let data = page.split("id=\"clock-run\">").nth(1).unwrap();
    serde_json::from_str(data.split("</script>").next().unwrap()).unwrap()
}

#[test]
fn a_line_has_a_clock_that_its_block_leads_to() {
    let files = rendered(&notebook(&[("line.md", &format!("{RECIPES}\n{LINE}"))]));
    let page = &files["clock/the-line.html"];
    assert!(files["line.html"].contains("href=\"clock/the-line.html\""));
    assert!(page.contains("<a href=\"../line.html#the-line\">the process</a>"));
    // Two trays' worth of notches for the second tray, as on a card.
    assert!(page.contains(
        "<i></i><i></i></span><span class=\"bed\"></span><span class=\"name\"><b>2</b> rinse</span>"
    ));
    // The title stands in the page and in the data, and is inert in both.
    assert!(!page.contains("<script>alert"));
    assert_eq!(run(page)["title"], "The </script><script>alert(1)</script> line");
    // One sheet alone: in after 5 s, five minutes in the middle of its range, then the drip and the way.
    assert!(page.contains("<td>0:05–5:05</td>"));
    assert!(page.contains("<td>5:20–5:35</td>"));
}

#[test]
fn a_tray_is_called_the_same_on_the_page_of_its_process_and_on_the_clock() {
    let line = LINE
        .replace("    tray: developer\n", "    tray: the big white one\n")
        .replace("    time: 15 s\n", "    time: 15 s\n    tray: by the tap\n")
        .replace("    time: 2 min\n", "    time: 2 min\n    tray: fix one\n");
    let files = rendered(&notebook(&[("line.md", &format!("{RECIPES}\n{line}"))]));
    let page = &files["line.html"];
    for remark in [
        "tray the big white one",
        "tap water, tray by the tap",
        "tray fix one",
    ] {
        assert!(
            page.contains(&format!("<span class=\"remark\">{remark}</span>")),
            "{remark}"
        );
    }
    let clock = &files["clock/the-line.html"];
    // The step, where neither the name of the tray nor that of its bath says it.
    for row in [
        "1&nbsp;the big white one <small>developer, Tea</small>",
        "2&nbsp;by the tap <small>rinse, tap water</small>",
        "3&nbsp;fix one <small>Plain hypo</small>",
        "4&nbsp;wash <small>tap water</small>",
    ] {
        assert!(
            clock.contains(&format!("<th scope=\"row\"><div>{row}</div></th>")),
            "{row}"
        );
    }
    // The timetable numbers its trays as the line does.
    assert!(clock.contains("<th scope=\"row\"><div>2&nbsp;by the tap</div></th><td>5:20–5:35</td>"));
}

#[test]
fn every_plan_keeps_the_rules_of_the_line() {
    let proof = notebook(&[("line.md", &format!("{RECIPES}\n{LINE}"))]);
    let files = rendered(&proof);
    let run = run(&files["clock/the-line.html"]);
    let (_, process) = proof.notebook.process("the-line").unwrap();
    let trays = line_trays(process, &proof.facts.baths).unwrap();
    assert_eq!(trays.len(), 4, "drying is no tray");
    let stages = trays.iter().map(|tray| Stage {
        stay: Time::from_seconds(tray.stay.unwrap().best),
        slack: tray.slack.map(Time::from_seconds),
        places: tray.places,
        drain: Time::from_seconds(tray.drain),
    });
    let stages: Vec<Stage> = stages.collect();
    let plans = run["plans"].as_array().unwrap();
    assert_eq!(plans.len(), 6);
    for (at, plan) in plans.iter().enumerate() {
        let moves: Vec<Vec<Time>> = plan["starts"]
            .as_array()
            .unwrap()
            .iter()
            .map(|sheet| {
                let starts = sheet.as_array().unwrap().iter();
                starts
                    .map(|start| Time::from_seconds(start.as_f64().unwrap()))
                    .collect()
            })
            .collect();
        let line = TrayLine {
            sheets: u32::try_from(at + 1).unwrap(),
            move_time: Time::from_seconds(move_seconds(process)),
            hands: 1,
            stages: stages.clone(),
        };
        assert_eq!(moves.len(), at + 1);
        assert!(line.holds(&moves), "{} sheets", at + 1);
    }
    let tea = &run["trays"][0];
    assert_eq!((&tea["stay"], &tea["slack"]), (&300.0.into(), &60.0.into()));
    assert_eq!(
        (&tea["agitation"]["every"], &tea["agitation"]["lasts"]),
        (&60.0.into(), &10.0.into())
    );
    assert_eq!(run["dry"], serde_json::json!([7200.0, 7200.0]));
}

#[test]
fn what_is_not_to_be_followed_has_no_clock() {
    let line = |edit: &dyn Fn(&str) -> String| {
        let files = rendered(&notebook(&[("line.md", &format!("{RECIPES}\n{}", edit(LINE)))]));
        files.keys().any(|path| path.starts_with("clock/"))
    };
    assert!(line(&|line| line.to_owned()));
    // A time that cannot be read, and a line that is kept to teach a mistake.
    assert!(!line(&|line| line.replace("time: 15 s", "time: 15 parsecs")));
    assert!(!line(
        &|line| line.replace("paper: RC\n", "paper: RC\nexpects: stop-missing\n")
    ));
    // On a private page, or with times from one.
    assert!(!line(&|line| line.replace("```process", "```text")));
    let private = "---\naudience: private\n---\n";
    let hidden = rendered(&notebook(&[("line.md", &format!("{private}{RECIPES}\n{LINE}"))]));
    assert!(!hidden.keys().any(|path| path.starts_with("clock/")));
    let baths = rendered(&notebook(&[
        ("a.md", &format!("{private}{RECIPES}")),
        ("b.md", LINE),
    ]));
    assert!(!baths.keys().any(|path| path.starts_with("clock/")));
}

#[test]
fn a_tray_that_the_eye_ends_runs_one_sheet_and_says_why_not_more() {
    let line = LINE.replace("time: 15 s", "time: by inspection");
    let files = rendered(&notebook(&[("line.md", &format!("{RECIPES}\n{line}"))]));
    let page = &files["clock/the-line.html"];
    assert_eq!(run(page)["plans"].as_array().unwrap().len(), 1);
    assert_eq!(run(page)["trays"][1]["stay"], Value::Null);
    assert!(page.contains("only the eye can end <code>step 2</code>"));
    // One bowl at two steps cannot hold more sheets than it has room for.
    let twice = LINE
        .replace(
            "    time: 15 s\n    places: 2\n",
            "    time: 15 s\n    places: 2\n    tray: bowl\n",
        )
        .replace("    places: 8\n", "    places: 2\n    tray: bowl\n");
    let files = rendered(&notebook(&[("line.md", &format!("{RECIPES}\n{twice}"))]));
    let page = &files["clock/the-line.html"];
    assert_eq!(run(page)["plans"].as_array().unwrap().len(), 2);
    assert!(page.contains("<code>bowl</code> serves two steps"));
}

#[test]
fn what_the_line_leaves_to_the_eye_takes_no_time_from_the_recipe() {
    // The recipe says 4 to 6 min.
    let line = LINE.replace("    light: red\n", "    light: red\n    time: by inspection\n");
    let session = "```exposure
id: pier
when: 2031-05-02 11:20
camera: box
paper: rc
```

```session
id: evening
when: 2031-05-03 19:00
process: the-line
temperature: 21 °C
sheets: [pier]
```
";
    let recipes = RECIPES.replace(
        "  time: 4–6 min\n",
        "  time: 4–6 min\n  temperature: 20 °C\n  factor: 6\n",
    );
    let proof = notebook(&[("line.md", &format!("{recipes}\n{line}\n{session}"))]);
    let cards = views::cards(&proof.notebook, &proof.facts, &proof.findings).cards;
    let card = cards.iter().find(|card| card.id == "the-line").unwrap();
    assert_eq!(card.steps[0].figure, "by eye");
    let files = rendered(&proof);
    let page = &files["clock/the-line.html"];
    assert_eq!(run(page)["trays"][0]["stay"], Value::Null);
    assert!(page.contains("<td>by eye</td>"));
    assert!(!page.contains("until it hangs"), "no end can be told");
    for name in [
        "the-line.duration",
        "the-line.under-lamp",
        "evening.develop-time",
        "evening.under-lamp",
    ] {
        let fact = proof.facts.named(name).unwrap();
        assert_eq!(
            fact.value.as_ref().unwrap_err(),
            "only the eye can end `tea`",
            "{name}"
        );
    }
    // Where nothing is written at all the eye is not named either.
    let silent = notebook(&[(
        "line.md",
        &format!("{}\n{LINE}", RECIPES.replace("  time: 4–6 min\n", "")),
    )]);
    let page = &rendered(&silent)["clock/the-line.html"];
    assert!(!page.contains("by eye"));
    assert!(page.contains("<code>developer</code> does not say how long"));
}

#[test]
fn a_page_of_the_notebook_keeps_its_name() {
    let own = [
        ("line.md", format!("{RECIPES}\n{LINE}")),
        ("clock/the-line.md", "# Mine\n".to_owned()),
    ];
    let own: Vec<(&str, &str)> = own.iter().map(|(path, text)| (*path, text.as_str())).collect();
    let files = rendered(&notebook(&own));
    assert!(
        files["clock/the-line.html"].contains("<h1>Mine</h1>")
            || files["clock/the-line.html"].contains(">Mine</h1>")
    );
    assert!(files["clock/the-line-2.html"].contains("id=\"clock-run\""));
}

//! An invented notebook: nettle tea, a tin camera, a quarry lake.

use pulldown_cmark::{CodeBlockKind, CowStr, Event, Options, Parser, Tag, TagEnd};
use trayside::finding::Grade;
use trayside::units::Language;
use trayside::views::Speech;
use trayside::views::contact::{Frame, Lie, Named, Shown, Sifted};
use trayside::views::page::{
    BlockView, CardLink, CautionView, FactView, FindingView, Layout, PageView, Piece, Row, Section, SiteView,
};

/// Text that would run, call out or break the page if it were written as it stands.
const HOSTILE: &str =
    "\"><script>alert(1)</script><img src=x onerror='alert(1)'>{{ 7 * 7 }}{% raw %}</title>";

/// The notebook, with a page of hostile text and one of hostile HTML.
pub(super) fn sample() -> SiteView<'static> {
    let mut developers = page("developers.html", "", "Developers from the hedge", DEVELOPERS);
    developers.date = Some("2031-04-18".to_owned());
    developers.day.clone_from(&developers.date);
    developers.moment = Some("2031-04-17T22:00:00Z".to_owned());
    developers.stamp = Some("2031-04-18T00:00:00+02:00".to_owned());
    developers.tags = vec!["kitchen".to_owned(), "developer".to_owned()];
    developers.findings = block("nettle-tea").findings;
    developers.findings.push(finding(
        Grade::Doubt,
        "strength-guessed",
        "the strength of `dried nettle` is a guess, so the band of `nettle-tea.pH` is wide",
        ("developers.md", 9, 20),
    ));
    let mut quarry = page("class/quarry.html", "../", "A tin at the quarry lake", QUARRY);
    quarry.date = Some("2031-05-02".to_owned());
    quarry.tags = vec!["quarry".to_owned(), "class of eight".to_owned()];
    let mut line = page(
        "class/the line & the string.html",
        "../",
        "The line and the string",
        LINE,
    );
    line.date = Some("2031-05-03".to_owned());
    let mut hostile = page("hostile.html", "", HOSTILE, HOSTILE_PAGE);
    hostile.date = Some(HOSTILE.to_owned());
    hostile.day = Some(HOSTILE.to_owned());
    hostile.moment = Some(HOSTILE.to_owned());
    hostile.stamp = Some(HOSTILE.to_owned());
    hostile.timed = true;
    hostile.tags = vec![HOSTILE.to_owned()];
    hostile.findings = block("hostile").findings;
    let raw = page("hostile-raw.html", "", "Raw", HOSTILE_RAW);
    let mut findings = developers.findings.clone();
    findings.extend(hostile.findings.clone());
    findings.push(finding(
        Grade::Hint,
        "shelf-empty",
        "the shelf lists no packets",
        ("trayside.yaml", 4, 1),
    ));
    SiteView {
        title: format!("Quarry notebook {HOSTILE}"),
        by: Some("Ilse Brandt".to_owned()),
        language: "en".to_owned(),
        base: None,
        pages: vec![developers, quarry, line, hostile, raw],
        frames: vec![
            frame("quarry-3", "2031-06-12"),
            Frame {
                picture: Shown::Lost,
                result: None,
                ..frame("quarry-4", HOSTILE)
            },
        ],
        frame_count: 2,
        findings,
        summary: "1 hazard, 2 doubts, 1 hint".to_owned(),
        clocks: Vec::new(),
        cards: vec![CardLink {
            id: "nettle-tea".to_owned(),
            title: "Nettle tea developer".to_owned(),
            href: "../cards/nettle-tea.pdf".to_owned(),
        }],
        words: Speech::of(Language::English),
        pictures: Vec::new(),
        version: "0.1.0".to_owned(),
    }
}

fn frame(id: &str, title: &str) -> Frame {
    let named = |id: &str, title: &str| Named {
        id: id.to_owned(),
        title: title.to_owned(),
        href: Some("class/quarry.html#quarry-3".to_owned()),
    };
    Frame {
        block: named(id, title),
        kind: "exposure",
        when: title.to_owned(),
        day: title.to_owned(),
        picture: Shown::Unscanned,
        lie: Lie::Wide,
        negative: None,
        camera: Some(named(HOSTILE, HOSTILE)),
        paper: None,
        light: Some(HOSTILE.to_owned()),
        time: None,
        result: Some(HOSTILE.to_owned()),
        verdict: Sifted {
            id: "right",
            title: "right",
        },
        session: None,
        developer: None,
    }
}

const DEVELOPERS: &str = "# Developers from the hedge

Young nettles, cut before they flower, steep to a dark tea that reduces silver about as well as weak coffee does. Alone it
does nothing: the tea is barely acid, and the phenols in it need an alkaline bath. With washing soda and a little vitamin C
the bath comes out at pH {{nettle-tea.pH}}, in the range where both develop together, and one litre carries
{{nettle-tea.capacity}} before the tone weakens. *Warm is not strong*: a tea at forty degrees without soda is a warm tea.

The packet decides. What the shop sells as washing soda may be dry powder or crystals that are mostly water, and
{{nettle-tea.crystals}} of crystals stand for the thirty grams below.

```block nettle-tea
```

## What went wrong before

1. The first batch was mixed cold and all at once. The vitamin C fizzed in the soda, and the band of pH was
   {{first-batch.pH}}, too low for the tea to work.

2. The second stood overnight.

   ```block second
   ```

3. The third is the one above.

> Her grandmother said to pick them in the rain. The rain makes no difference to the pH, {{nettle-tea.pH}} either way, but
> the sting is less.

### How the teas compare

| tea | steeped | pH with soda | first grey |
| --- | ---: | ---: | --- |
| nettle | 20 min | {{nettle-tea.pH}} | 45 s |
| oak bark | 40 min | 9.4 | 90 s[^bark] |
| spent hops | 30 min | 9.8 | 70 s |

[^bark]: With a brown stain that does not wash out.

Read on at [the quarry lake](class/quarry.html) or straight at [the tin](class/quarry.html#slate-tin). A test sheet lives in
`scans/`, and the sums are in [a public table](https://example.org/tables).
";

const QUARRY: &str = "Eight people, eight tins, one lake. The water throws so much sky back that a meter pointed across it reads
a stop too high.

```block slate-tin
```

## The sheets

At this distance the hole gives {{slate-tin.f-number}}, so the table on the lid of the tin is good for the quarry as it
stands. The long sheet came without a time, because {{quarry-4.time}} is all that can be said of it yet.

```block quarry-3
```

```block quarry-4
```

```block evening
```
";

const LINE: &str = "Four trays in the bath tub, on a board, from the tap end. The string runs above.

```block tub
```

- [x] board scrubbed
- [ ] string changed
";

const HOSTILE_PAGE: &str = "A [link](javascript:alert(1)), [one](JAVASCRIPT:alert(1)), [two](data:text/html;base64,PHNjcmlwdD4=),
[three](//example.org/x), [four](/etc/passwd), <javascript:alert(1)>, [five](vbscript:x \"on\\\"click=\"),
![a picture](javascript:alert(1)), ![of another host](https://example.org/p.png), ![](https://example.org/q.png),
[![linked](https://example.org/p.png)](https://example.org), ![alt {{nettle-tea.pH}} \"onload=\"](style.css).

# A heading {#x onclick=alert(1) .slip}

##### Deep {{hostile.x}}

```js\" onmouseover=\"alert(1)
</code><script>alert(1)</script>
```

- item

  > quote
  >
  > ```block hostile
  > ```
  >
  > after

{{hostile.x}}
";

const HOSTILE_RAW: &str =
    "<p onclick=\"alert(1)\" style=\"background:url(//example.org)\">Raw <b>bold {{nettle-tea.pH}}

<script>alert(1)</script>
<img src=style.css onerror=alert(1)>
<div class=\"slip\" id=\"nettle-tea\">spoof

- in a list <i>open

  ```block second
  ```

| a | b |
| :-- | --: |
| {{nettle-tea.capacity}} | <kbd>1</kbd> |

<iframe src=\"https://example.org\"></iframe> <a href=\"java&#10;script:alert(1)\">x</a> <style>p{}</style>

<details><summary>more</summary>

hidden **text** {{nettle-tea.pH}}

<math><mtext><table><mglyph><style><!--</style><img title=\"--&gt;&lt;img src=1 onerror=alert(1)&gt;\">
";

/// A page whose body is Markdown with `{{id}}` for facts and `block id` fences for blocks.
pub(super) fn page(path: &str, root: &str, title: &str, source: &str) -> PageView<'static> {
    PageView {
        scaling: None,
        path: path.to_owned(),
        root: root.to_owned(),
        title: title.to_owned(),
        date: None,
        day: None,
        moment: None,
        stamp: None,
        timed: false,
        tags: Vec::new(),
        body: pieces(source),
        findings: Vec::new(),
    }
}

pub(super) fn pieces(source: &str) -> Vec<Piece<'static>> {
    let mut pieces = Vec::new();
    let mut in_block = false;
    // Brackets of a fact would be taken for text in several events.
    let source = source.replace("{{", "\u{e000}").replace("}}", "\u{e001}");
    for event in Parser::new_ext(&source, Options::all()) {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) if info.starts_with("block ") => {
                in_block = true;
                pieces.push(Piece::Block(Box::new(block(info.trim_start_matches("block ")))));
            }
            Event::End(TagEnd::CodeBlock) if in_block => in_block = false,
            Event::Text(_) if in_block => {}
            Event::Text(text) if text.contains('\u{e000}') => {
                let mut parts = text.split('\u{e000}');
                let before = parts.next().unwrap().to_owned();
                pieces.push(Piece::Markdown(Event::Text(before.into())));
                for part in parts {
                    let (id, after) = part.split_once('\u{e001}').unwrap();
                    pieces.push(Piece::Fact(fact(id)));
                    pieces.push(Piece::Markdown(Event::Text(CowStr::from(after.to_owned()))));
                }
            }
            event => pieces.push(Piece::Markdown(event.into_static())),
        }
    }
    pieces
}

fn fact(id: &str) -> FactView {
    let (label, text, how) = match id {
        "nettle-tea.pH" => (
            "pH",
            "9.6–10.1",
            "equilibrium of carbonate and ascorbate at 22 °C",
        ),
        "nettle-tea.capacity" => (
            "capacity",
            "18–26 sheets",
            "electrons of the vitamin C against the silver of 5×7 in sheets",
        ),
        "nettle-tea.crystals" => (
            "washing soda, crystals",
            "81 g",
            "molar mass of the decahydrate over that of the dry salt",
        ),
        "nettle-tea.top-up" => (
            "top up with water",
            "60–140 ml",
            "what the plant keeps back, 2–4 ml for a gram",
        ),
        "nettle-tea.gas" => (
            "carbon dioxide",
            "0.4–0.6 l",
            "vitamin C against carbonate; do not cap the bottle",
        ),
        "first-batch.pH" => ("pH", "8.1–8.6", "equilibrium, gas let off"),
        "second.age" => ("age at use", "14 h", "from `mixed` to the start of the session"),
        "slate-tin.f-number" => ("f-number", "f/357", "distance over hole"),
        "slate-tin.best-hole" => (
            "best hole",
            "0.42 mm",
            "1.9 times the root of wavelength and distance, at 550 nm",
        ),
        "slate-tin.angle" => ("angle of view", "82° × 58°", "flat plane"),
        "slate-tin.falloff" => (
            "fall-off in the corners",
            "2.1 stops",
            "fourth power of the cosine, flat plane",
        ),
        "quarry-3.time" => ("time", "2 min 10 s", "EV 13 at ISO 6, with reciprocity"),
        "quarry-4.time" => (
            "time",
            "—",
            "the paper states no reciprocity, and 40 min is past its table",
        ),
        "hostile.x" => (HOSTILE, HOSTILE, HOSTILE),
        other => panic!("no fact {other}"),
    };
    FactView {
        id: id.to_owned(),
        label: label.to_owned(),
        text: text.to_owned(),
        how: how.to_owned(),
        gap: text == "—",
        margin: true,
        href: None,
    }
}

fn finding(grade: Grade, rule: &str, message: &str, place: (&str, usize, usize)) -> FindingView {
    FindingView {
        grade,
        grade_word: grade.word(),
        rule: rule.to_owned(),
        message: message.to_owned(),
        help: None,
        path: place.0.to_owned(),
        line: place.1,
        column: place.2,
        href: None,
        standing: None,
    }
}

fn row(label: &str, value: &str, remark: &str) -> Row {
    Row {
        label: label.to_owned(),
        ours: false,
        value: value.to_owned(),
        remark: remark.to_owned(),
        href: None,
        blank: false,
    }
}

fn linked(label: &str, value: &str, href: &str) -> Row {
    Row {
        href: Some(href.to_owned()),
        ..row(label, value, "")
    }
}

fn section(heading: &str, rows: Vec<Row>, steps: &[&str]) -> Section {
    Section {
        heading: (!heading.is_empty()).then(|| heading.to_owned()),
        named: false,
        rows,
        steps: steps.iter().map(|&step| step.to_owned()).collect(),
        layout: Layout::Figures,
    }
}

fn block(id: &str) -> BlockView {
    let empty = BlockView {
        scales: false,
        kind: "exposure".to_owned(),
        kind_word: "exposure",
        id: id.to_owned(),
        lasting: id == "nettle-tea",
        title: id.to_owned(),
        subtitle: String::new(),
        evidence: None,
        sections: Vec::new(),
        facts: Vec::new(),
        cautions: Vec::new(),
        findings: Vec::new(),
        card: None,
        note: None,
        pictures: Vec::new(),
        clock: None,
        drawing: None,
        plots: Vec::new(),
        source: None,
    };
    let facts = |ids: &[&str]| ids.iter().map(|id| fact(id)).collect();
    match id {
        "nettle-tea" => {
            let mut hazard = finding(
                Grade::Hazard,
                "acid-into-carbonate",
                "the `stop bath` follows without a rinse: acid and soda give off gas in a closed drum",
                ("developers.md", 31, 3),
            );
            hazard.href = Some("developers.html#nettle-tea".to_owned());
            hazard.help = Some("add a `rinse` before it, or leave the lid off".to_owned());
            let mut doubt = finding(
                Grade::Doubt,
                "vitamin-c-short",
                "`vitamin C` lasts for 18 sheets at the lower end, and the class brings 24",
                ("developers.md", 24, 20),
            );
            doubt.standing = Some("expected here".to_owned());
            let mut second = doubt.clone();
            "steep-too-hot".clone_into(&mut second.rule);
            "`95 °C` breaks down part of what the tea is for".clone_into(&mut second.message);
            second.line = 15;
            second.standing = None;
            BlockView {
                kind: "recipe".to_owned(),
                kind_word: "recipe",
                title: "Nettle tea developer".to_owned(),
                subtitle: "developer, makes 1 l".to_owned(),
                evidence: Some("untested".to_owned()),
                sections: vec![
                    section(
                        "Tea",
                        vec![
                            row("water", "600 ml", "at 95 °C"),
                            row("dried nettle", "35 g", "guessed"),
                        ],
                        &[
                            "Steep 20 min, covered.",
                            "Strain through cloth and press.",
                            "Cool to 24 °C.",
                        ],
                    ),
                    section(
                        "Alkali",
                        vec![
                            row("water", "400 ml", "at 24 °C"),
                            row("washing soda, anhydrous", "30 g", "30 g/l"),
                            row("vitamin C powder", "12 g", "12 g/l"),
                        ],
                        &[
                            "Dissolve the soda first, 3 min.",
                            "Add the vitamin C slowly: it fizzes.",
                        ],
                    ),
                    section(
                        "In use",
                        vec![
                            row("temperature", "20–24 °C", ""),
                            row("time", "8–12 min", ""),
                            row("agitation", "rock 10 s every minute", ""),
                            row("keeps", "1 h", ""),
                        ],
                        &["Pour the tea into the alkali and top up to 1 l."],
                    ),
                ],
                facts: facts(&[
                    "nettle-tea.pH",
                    "nettle-tea.capacity",
                    "nettle-tea.crystals",
                    "nettle-tea.top-up",
                    "nettle-tea.gas",
                ]),
                cautions: vec![
                    CautionView {
                        hazard: true,
                        ours: true,
                        text: "Vinegar and soda give off gas: never cap a bottle of the mixed bath."
                            .to_owned(),
                    },
                    CautionView {
                        hazard: false,
                        ours: true,
                        text: "Washing soda is harsh on skin: gloves.".to_owned(),
                    },
                ],
                findings: vec![hazard, doubt, second],
                card: Some("../cards/nettle-tea.pdf".to_owned()),
                note: Some("Smells of wet hay.\nThe smell goes in the wash.".to_owned()),
                ..empty
            }
        }
        "second" => BlockView {
            kind: "batch".to_owned(),
            kind_word: "batch",
            title: "Second batch, 11 April".to_owned(),
            sections: vec![section(
                "",
                vec![
                    linked("recipe", "Nettle tea developer", "#nettle-tea"),
                    row("mixed", "2031-04-11 19:30", ""),
                    row("made", "500 ml", ""),
                    row("pH", "8.9", "measured, strip"),
                ],
                &[],
            )],
            facts: facts(&["second.age"]),
            ..empty
        },
        "slate-tin" => BlockView {
            kind: "camera".to_owned(),
            kind_word: "camera",
            title: "Slate tin".to_owned(),
            subtitle: "tea tin, flat back".to_owned(),
            sections: vec![section(
                "",
                vec![
                    row("pinhole", "0.28 mm", "measured"),
                    row("distance", "100 mm", ""),
                    row("plane", "flat", ""),
                    row("format", "5×7 in", ""),
                ],
                &[],
            )],
            facts: facts(&[
                "slate-tin.f-number",
                "slate-tin.best-hole",
                "slate-tin.angle",
                "slate-tin.falloff",
            ]),
            ..empty
        },
        "quarry-3" => BlockView {
            title: "Quarry 3".to_owned(),
            subtitle: "crane and its reflection".to_owned(),
            sections: vec![section(
                "",
                vec![
                    row("when", "2031-05-02 11:20", ""),
                    linked("camera", "Slate tin", "#slate-tin"),
                    row("paper", "grade 3 RC", ""),
                    row("light", "EV 13", "read"),
                    row("result", "needs +1/2 stop", ""),
                    row("scan", "not noted", ""),
                ],
                &[],
            )],
            facts: facts(&["quarry-3.time"]),
            ..empty
        },
        "quarry-4" => BlockView {
            title: "Quarry 4".to_owned(),
            sections: vec![section(
                "",
                vec![
                    row("when", "2031-05-02 12:05", ""),
                    linked("camera", "Slate tin", "#slate-tin"),
                    row("paper", "old bromide", ""),
                ],
                &[],
            )],
            facts: facts(&["quarry-4.time"]),
            ..empty
        },
        "evening" => BlockView {
            kind: "session".to_owned(),
            kind_word: "session",
            title: "Evening in the bath tub".to_owned(),
            sections: vec![section(
                "",
                vec![
                    linked("process", "Tub line", "the%20line%20%26%20the%20string.html#tub"),
                    row("temperature", "21.5 °C", "measured"),
                    row("sheets", "quarry-3, quarry-4", ""),
                ],
                &[],
            )],
            note: Some("The red lamp was nearer than it should be.".to_owned()),
            ..empty
        },
        "tub" => BlockView {
            kind: "process".to_owned(),
            kind_word: "process",
            title: "Tub line".to_owned(),
            subtitle: "RC paper, red light".to_owned(),
            sections: vec![
                section(
                    "",
                    vec![
                        Row {
                            remark: "22 °C".to_owned(),
                            ..linked(
                                "Nettle tea developer",
                                "8–12 min",
                                "../developers.html#nettle-tea",
                            )
                        },
                        row("rinse", "30 s", ""),
                        row("citrus stop", "1 min", "20 °C"),
                        row("fixer", "5 min", "20 °C"),
                        row("wash", "10 min", "running"),
                        row("string", "overnight", ""),
                    ],
                    &[],
                ),
                section(
                    "Light",
                    vec![row("red lamp", "1.5 m away", "fog test 8 min")],
                    &[],
                ),
            ],
            ..empty
        },
        "hostile" => BlockView {
            kind: "recipe".to_owned(),
            kind_word: "recipe",
            title: HOSTILE.to_owned(),
            subtitle: HOSTILE.to_owned(),
            evidence: Some(HOSTILE.to_owned()),
            sections: vec![section(
                HOSTILE,
                vec![
                    row(HOSTILE, HOSTILE, HOSTILE),
                    linked("a", HOSTILE, "javascript:alert(1)"),
                    linked("b", HOSTILE, " java\tscript:alert(1)"),
                ],
                &[HOSTILE],
            )],
            facts: facts(&["hostile.x"]),
            cautions: vec![CautionView {
                hazard: true,
                ours: true,
                text: HOSTILE.to_owned(),
            }],
            findings: vec![finding(
                Grade::Fault,
                "unknown-key",
                HOSTILE,
                ("hostile.md", 3, 1),
            )],
            card: Some("javascript:alert(1)".to_owned()),
            note: Some(HOSTILE.to_owned()),
            ..empty
        },
        other => panic!("no block {other}"),
    }
}

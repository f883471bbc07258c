//! Cards to press.

use trayside::views::card::{
    Alt, AmountGroup, AmountRow, Card, CardKind, Caution, Figure, Line, SheetLayout, Step, Times, TimesRow,
    Tray,
};
use trayside::views::drawing::{Drawing, Stroke};

/// A6 on A4, ISO 216.
pub(super) const A6: SheetLayout = SheetLayout {
    card_width_mm: 105.0,
    card_height_mm: 148.0,
    sheet_width_mm: 210.0,
    sheet_height_mm: 297.0,
    lamination_mm: 4.0,
    bleed_mm: 0.0,
    two_sided: true,
    flip: None,
    distance_mm: 600.0,
};

pub(super) fn row(material: &str, amounts: &[&str]) -> AmountRow {
    AmountRow {
        material: material.to_owned(),
        amounts: amounts.iter().map(|&a| a.to_owned()).collect(),
    }
}

pub(super) fn group(name: Option<&str>, rows: Vec<AmountRow>) -> AmountGroup {
    AmountGroup {
        name: name.map(str::to_owned),
        rows,
    }
}

pub(super) fn step(part: Option<&str>, words: [&str; 4]) -> Step {
    let [what, figure, second, note] = words.map(str::to_owned);
    Step {
        part: part.map(str::to_owned),
        what,
        figure,
        second,
        note,
    }
}

pub(super) fn line(label: &str, text: &str) -> Line {
    Line {
        label: label.to_owned(),
        text: text.to_owned(),
    }
}

pub(super) fn figure(label: &str, value: &str) -> Figure {
    Figure {
        label: label.to_owned(),
        value: value.to_owned(),
    }
}

pub(super) fn caution(hazard: bool, text: &str) -> Caution {
    Caution {
        hazard,
        mixing: false,
        text: text.to_owned(),
    }
}

pub(super) fn empty(id: &str, kind: CardKind) -> Card {
    Card {
        id: id.to_owned(),
        language: "en".to_owned(),
        kind,
        title: "Untitled".to_owned(),
        role: String::new(),
        tray: None,
        key_figures: vec![],
        volumes: vec![],
        groups: vec![],
        times: None,
        drawing: None,
        steps: vec![],
        steps_from: 1,
        lines: vec![],
        beforehand: vec![],
        boxes: vec![],
        cautions: vec![],
        untested: None,
        stamp: "Attic bathroom · trayside".to_owned(),
        alt: Alt {
            danger: "Danger".to_owned(),
            trays: "Tray by number".to_owned(),
            notches: "Corner mark".to_owned(),
        },
        side: None,
        back: None,
    }
}

pub(super) fn nettle() -> Card {
    Card {
        title: "Nettle and soda".to_owned(),
        role: "developer".to_owned(),
        tray: Some(Tray { number: 1, of: 4 }),
        key_figures: vec![figure("time", "8–12 min"), figure("temperature", "20–24 °C")],
        volumes: ["0.5 l", "1 l", "2 l"].map(str::to_owned).to_vec(),
        groups: vec![
            group(
                Some("tea"),
                vec![
                    row("water at 90 °C", &["250 ml", "500 ml", "1000 ml"]),
                    row("nettle, dried", &["17.5 g", "35 g", "70 g"]),
                ],
            ),
            group(
                Some("alkali"),
                vec![
                    row("water at 24 °C", &["200 ml", "400 ml", "800 ml"]),
                    row("washing soda, anhydrous", &["15 g", "30 g", "60 g"]),
                    row("ascorbic acid powder", &["6.25 g", "12.5 g", "25 g"]),
                ],
            ),
        ],
        steps: vec![
            step(Some("tea"), ["steep", "20 min", "", ""]),
            step(Some("tea"), ["strain", "", "", "press the leaves"]),
            step(Some("tea"), ["cool to", "24 °C", "", ""]),
            step(
                Some("alkali"),
                ["dissolve the soda, then the acid", "3 min", "", ""],
            ),
            step(None, ["combine tea and alkali", "", "", "top up with water"]),
        ],
        lines: vec![
            line("agitation", "rock 10 s every minute"),
            line("good for", "12 sheets a litre"),
        ],
        boxes: vec!["mixed at".to_owned(), "dead by".to_owned()],
        cautions: vec![
            caution(true, "Soda dust stings eyes badly: goggles."),
            caution(false, "Never cap: it fizzes."),
        ],
        ..empty("nettle", CardKind::Recipe)
    }
}

pub(super) fn vinegar() -> Card {
    Card {
        title: "Vinegar stop".to_owned(),
        role: "stop".to_owned(),
        tray: Some(Tray { number: 2, of: 4 }),
        key_figures: vec![figure("time", "30 s"), figure("temperature", "18–24 °C")],
        volumes: vec!["1 l".to_owned()],
        groups: vec![group(
            None,
            vec![row("water", &["700 ml"]), row("white vinegar, 5 %", &["300 ml"])],
        )],
        steps: vec![step(None, ["pour the vinegar into the water", "", "", ""])],
        lines: vec![
            line("agitation", "rock all the time"),
            line("good for", "20 sheets a litre"),
        ],
        boxes: vec!["mixed at".to_owned(), "dead by".to_owned()],
        cautions: vec![caution(false, "Eye irritant when strong.")],
        untested: Some("untested".to_owned()),
        ..empty("vinegar", CardKind::Recipe)
    }
}

pub(super) fn evening() -> Card {
    Card {
        title: "Evening line".to_owned(),
        role: "RC paper".to_owned(),
        steps: vec![
            step(None, ["developer", "8–12 min", "22 °C", "red light"]),
            step(None, ["stop", "30 s", "20 °C", "red light"]),
            step(None, ["plain hypo", "5 min", "20 °C", "red light for 2 min"]),
            step(None, ["wash", "4 min", "18 °C", "room light, running water"]),
            step(None, ["hang", "1 h 30 min", "", "face out"]),
        ],
        lines: vec![line("never", "no fixer hands in the developer")],
        boxes: vec!["started at".to_owned()],
        cautions: vec![caution(
            true,
            "Used hypo holds silver: collect it, never the sink.",
        )],
        ..empty("evening", CardKind::Process)
    }
}

pub(super) fn tin() -> Card {
    let row = |name: &str, value: &str, times: [&str; 2]| TimesRow {
        name: name.to_owned(),
        value: value.to_owned(),
        times: times.map(str::to_owned).to_vec(),
    };
    Card {
        title: "Biscuit tin".to_owned(),
        role: "camera, 5×7 in".to_owned(),
        key_figures: vec![figure("f-number", "f/210")],
        times: Some(Times {
            head: "light".to_owned(),
            value_head: "EV".to_owned(),
            columns: ["Grade 2", "Old fibre"].map(str::to_owned).to_vec(),
            rows: vec![
                row("sun", "15", ["40 s", "1 min 30 s"]),
                row("open shade", "12", ["6 min", "15 min"]),
            ],
        }),
        drawing: Some(Drawing {
            view_box: "-30 -60 140 120".to_owned(),
            title: "Biscuit tin, to scale".to_owned(),
            words: "Seen from above.".to_owned(),
            paths: vec![
                Stroke {
                    class: "box",
                    d: "M0 -50H100V50H0Z".to_owned(),
                },
                Stroke {
                    class: "paper",
                    d: "M100 -50V50".to_owned(),
                },
                Stroke {
                    class: "ray",
                    d: "M-28 14L100 -50".to_owned(),
                },
                Stroke {
                    class: "hole",
                    d: "M-1 0A1 1 0 1 0 1 0A1 1 0 1 0 -1 0Z".to_owned(),
                },
            ],
        }),
        lines: vec![line("shutter", "Card before the hole, lid off, count.")],
        ..empty("tin", CardKind::Camera)
    }
}

pub(super) fn lamp() -> Card {
    Card {
        title: "Lamp on the shelf".to_owned(),
        role: "red".to_owned(),
        key_figures: vec![figure("safe for", "12 min"), figure("no nearer than", "1.3 m")],
        beforehand: vec![line("tested", "2031-04-02, Grade 2")],
        cautions: vec![caution(false, "Phones off.")],
        ..empty("lamp", CardKind::Safelight)
    }
}

pub(super) fn person() -> Card {
    Card {
        title: "stop and rinse".to_owned(),
        role: "Evening line, 2 of 4".to_owned(),
        steps: vec![step(Some("Vinegar stop"), ["stop", "30 s", "20 °C", "red"])],
        steps_from: 2,
        lines: vec![line("hands on to", "plain hypo")],
        boxes: vec!["name".to_owned()],
        ..empty("evening.2", CardKind::Role)
    }
}

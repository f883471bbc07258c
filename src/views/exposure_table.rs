//! The exposure table of a camera: lights against papers, each time rounded to what one can count.

use serde::Serialize;

use crate::facts::{BY_LOG, Fact, Facts};
use crate::notebook::{Exposure, Light, Notebook, Slot, When};
use crate::optics::{SceneLight, strip};
use crate::source::{FileId, Span, Spanned};
use crate::units::scalar::{Stops, Time};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::clocks::clock;

/// What is asked of a camera.
#[derive(Debug, Clone)]
pub struct Question<'q> {
    /// The camera's id.
    pub camera: &'q str,
    /// The papers' ids.
    pub papers: &'q [&'q str],
    /// The lights, with what each is called; the exposure table's scenes where it is empty.
    pub lights: &'q [(String, Light)],
    /// When the hole will be opened: for the sun's place, and what the log knew by then.
    pub at: Option<&'q When>,
}

/// A camera's exposure table.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ExposureTable {
    /// The camera's id.
    pub camera: String,
    /// The camera's name.
    pub name: String,
    /// Its f-number, worded.
    pub f_number: String,
    /// The moment that was asked for, as written.
    pub at: Option<String>,
    /// The papers, in the order of the times of each row.
    pub papers: Vec<PaperHead>,
    /// One row a light.
    pub rows: Vec<Row>,
}

/// A paper of the table.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PaperHead {
    /// Its id.
    pub id: String,
    /// Its name.
    pub name: String,
    /// Where its times come from, in words.
    pub from: String,
    /// Whether the log tells them.
    pub by_log: bool,
}

/// One light.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Row {
    /// What it is called.
    pub light: String,
    /// Its exposure value at speed 100, worded.
    pub value: String,
    /// The middle of it.
    #[serde(skip)]
    pub middle: Option<f64>,
    /// A time for each paper, or why there is none.
    pub times: Vec<Cell>,
}

/// A time, or why there is none.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Cell {
    /// A time.
    Time(TimeCell),
    /// Why there is none.
    Gap {
        /// In words.
        why: String,
    },
}

/// A time to give.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TimeCell {
    /// In seconds, rounded to what one can count.
    pub seconds: f64,
    /// The same, worded.
    pub text: String,
    /// The interval that holds the right time four times out of five, in seconds; what was written where that is a range.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
    /// The interval, in a few characters.
    pub interval: String,
    /// The interval's ends in words.
    pub ends: [String; 2],
    /// Stops from the time down to the lower end, and up to the upper one.
    pub stops: [f64; 2],
    /// What the rounding adds or takes, in stops.
    pub rounding: f64,
    /// The strip to make first.
    pub strip: StripView,
}

/// A test strip about a time.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StripView {
    /// As a notebook writes it.
    pub written: String,
    /// The steps' times, in one line.
    pub totals: String,
    /// The exposures to give one after the other while covering, in one line.
    pub additional: String,
}

/// Makes the table. The camera's f-number must be known, else why it is not.
pub fn exposure_table(
    question: &Question<'_>,
    notebook: &Notebook,
    facts: &Facts,
) -> Result<ExposureTable, String> {
    let style = notebook.settings.style;
    let f_number = facts
        .get(question.camera, "f-number")
        .ok_or_else(|| format!("`{}` is no camera of this notebook", question.camera))?;
    if f_number.range().is_none() {
        return Err(format!(
            "the f-number of `{}` is not known: {}",
            question.camera,
            f_number.how()
        ));
    }
    let scenes: Vec<(String, Light)>;
    let lights = if question.lights.is_empty() {
        scenes = SceneLight::ALL
            .into_iter()
            .map(|scene| (scene.words().to_owned(), Light::Scene(scene)))
            .collect();
        &scenes
    } else {
        question.lights
    };
    let mut heads: Vec<Option<(String, bool)>> = vec![None; question.papers.len()];
    let mut rows = Vec::with_capacity(lights.len());
    for (name, light) in lights {
        let mut row = Row {
            light: name.clone(),
            value: "—".to_owned(),
            middle: None,
            times: Vec::with_capacity(question.papers.len()),
        };
        for (paper, head) in question.papers.iter().zip(&mut heads) {
            let answer = facts.of_exposure(&asked(question, paper, light), notebook);
            let fact = |name: &str| answer.iter().find(|fact| fact.name == name);
            if let Some(light) = fact("light") {
                row.value = light.text(style);
                row.middle = light.range().map(|light| light.best);
            }
            let cell = match fact("time") {
                Some(time) => {
                    if head.is_none() && time.range().is_some() {
                        *head = Some((from(time), time.formula == BY_LOG));
                    }
                    cell(time, style)
                }
                None => Cell::Gap {
                    why: "no time".to_owned(),
                },
            };
            row.times.push(cell);
        }
        rows.push(row);
    }
    let heads = heads
        .into_iter()
        .map(|head| head.unwrap_or_else(|| ("no time can be computed".to_owned(), false)));
    let papers = question
        .papers
        .iter()
        .zip(heads)
        .map(|(id, (from, by_log))| PaperHead {
            id: (*id).to_owned(),
            name: notebook.block(id).map_or(*id, |block| block.name()).to_owned(),
            from,
            by_log,
        });
    Ok(ExposureTable {
        camera: question.camera.to_owned(),
        name: notebook
            .block(question.camera)
            .map_or(question.camera, |block| block.name())
            .to_owned(),
        f_number: f_number.text(style),
        at: question.at.map(|when| when.written.clone()),
        papers: papers.collect(),
        rows,
    })
}

/// An exposure that stands in no notebook.
fn asked(question: &Question<'_>, paper: &str, light: &Light) -> Exposure {
    let nowhere = Span::new(FileId(0), 0, 0);
    Exposure {
        when: question
            .at
            .map_or(Slot::Absent, |when| Slot::Is(Spanned::new(when.clone(), nowhere))),
        camera: Slot::Is(Spanned::new(question.camera.to_owned(), nowhere)),
        paper: Slot::Is(Spanned::new(paper.to_owned(), nowhere)),
        light: Slot::Is(Spanned::new(light.clone(), nowhere)),
        ..Exposure::default()
    }
}

/// Where a time comes from, in a few words.
fn from(time: &Fact) -> String {
    let input = |name: &str| time.inputs.iter().find(|input| input.name == name);
    if time.formula == BY_LOG {
        let judged = input("judged exposures").map_or("", |input| input.value.as_str());
        let count = judged.split(':').next().unwrap_or(judged);
        let aside = time
            .inputs
            .iter()
            .filter(|input| input.name == "set aside")
            .count();
        let strange = match aside {
            0 => String::new(),
            aside => format!(", {aside} more set aside as strange"),
        };
        return format!("from the log: {count} judged exposures{strange}");
    }
    let why = input("log").map_or("", |input| input.value.as_str());
    format!("by the paper's own figures: the log {why}")
        .replace(" before this one", "")
        .replace(", so the paper's figures count", "")
}

fn cell(time: &Fact, style: Style) -> Cell {
    let Some(range) = time.range().filter(|range| range.low > 0.0) else {
        return Cell::Gap { why: time.how() };
    };
    let rounded = countable(Time::from_seconds(range.best));
    let exact = Time::from_seconds(range.best);
    let words = |seconds: f64| {
        show(
            Range::exact(seconds),
            Dimension::Time,
            Digits::Significant(2),
            style,
        )
    };
    Cell::Time(TimeCell {
        seconds: rounded.seconds(),
        text: show(
            Range::exact(rounded.seconds()),
            Dimension::Time,
            Digits::Significant(3),
            style,
        ),
        low: range.low,
        high: range.high,
        interval: interval(range, style),
        ends: [words(range.low), words(range.high)],
        stops: [
            Stops::from_factor(range.best / range.low).stops(),
            Stops::from_factor(range.high / range.best).stops(),
        ],
        rounding: strip::rounding_error(exact, rounded).stops(),
        strip: strip_view(range.best, style),
    })
}

/// What one can count beside a camera.
fn countable(time: Time) -> Time {
    Time::from_seconds(crate::facts::countable(Range::exact(time.seconds())).best)
}

/// `17–45 s`, `1:18–3:18`, `50–130 min`: as short as a column wants it.
fn interval(range: Range, style: Style) -> String {
    let plain = |value: f64| {
        show(
            Range::exact(value),
            Dimension::Number,
            Digits::Significant(2),
            style,
        )
    };
    if range.high < 100.0 {
        format!("{}–{} s", plain(range.low), plain(range.high))
    } else if range.high < 3600.0 {
        format!("{}–{}", clock(range.low), clock(range.high))
    } else if range.high < 36_000.0 {
        format!(
            "{}–{} min",
            plain(libm::round(range.low / 60.0)),
            libm::round(range.high / 60.0)
        )
    } else {
        format!("{}–{} h", plain(range.low / 3600.0), plain(range.high / 3600.0))
    }
}

/// First times that are easily counted, in seconds.
const FIRST: [f64; 28] = [
    1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 45.0, 60.0, 90.0,
    120.0, 180.0, 240.0, 300.0, 420.0, 600.0, 900.0, 1200.0, 1800.0,
];

/// Four steps of a stop with the time in the middle: the way to find it where it is not sure.
fn strip_view(seconds: f64, style: Style) -> StripView {
    const STEPS: u32 = 4;
    let wanted = seconds / Stops::new(1.5).factor();
    let off = |first: &f64| libm::fabs(libm::log2(first / wanted));
    let first = FIRST
        .into_iter()
        .min_by(|a, b| off(a).total_cmp(&off(b)))
        .unwrap_or(wanted);
    let totals = strip::totals(Time::from_seconds(first), Stops::new(1.0), STEPS);
    let from = show(
        Range::exact(first),
        Dimension::Time,
        Digits::Significant(3),
        style,
    );
    StripView {
        written: format!("{STEPS} x 1 stop from {}", from.replace('\u{a0}', " ")),
        additional: line(&strip::additional(&totals), style),
        totals: line(&totals, style),
    }
}

/// `20/40/80/160 s`, `2/4/8/16 min`, with one unit for all.
fn line(times: &[Time], style: Style) -> String {
    let minutes = times.iter().all(|time| time.seconds() >= 60.0);
    let (unit, word) = if minutes { (60.0, "min") } else { (1.0, "s") };
    let numbers: Vec<String> = times
        .iter()
        .map(|time| {
            let value = time.seconds() / unit;
            show(
                Range::exact(value),
                Dimension::Number,
                Digits::Significant(4),
                style,
            )
        })
        .collect();
    format!("{}\u{a0}{word}", numbers.join("/"))
}

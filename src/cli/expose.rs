//! `trayside expose`: the exposure table of a camera, or one time with the strip to make first.

use std::fmt::Write as _;

use crate::notebook::{Body, Light, Notebook, When, nearest, read_light, read_when};
use crate::optics::{SceneLight, strip};
use crate::pipeline;
use crate::units::{Digits, Dimension, Range, Style, show};
use crate::views::exposure_table::{Cell, ExposureTable, PaperHead, Question, Row, TimeCell, exposure_table};

use super::arguments::{Expose, ExposeFormat};
use super::progress::Line;
use super::wrap::{Shown, wrapped};
use super::{Outcome, Stop, nearest_notebook, terminal};

pub(crate) fn run(arguments: &Expose) -> Result<Outcome, Stop> {
    let host = nearest_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let proof = pipeline::proof(&host, &progress)?;
    progress.done();
    let notebook = &proof.notebook;
    known(notebook, &arguments.camera, "camera", |body| {
        matches!(body, Body::Camera(_))
    })?;
    let papers = papers(notebook, arguments.paper.as_deref())?;
    let lights = lights(notebook, &arguments.light)?;
    let at = at(notebook, &arguments.at)?;
    let question = Question {
        camera: &arguments.camera,
        papers: &papers,
        lights: &lights,
        at: at.as_ref(),
    };
    let table = exposure_table(&question, notebook, &proof.facts).map_err(Stop)?;
    let style = notebook.settings.style;
    let width = terminal::text_style().width;
    terminal::show(&match arguments.format {
        ExposeFormat::Json => json(&table),
        ExposeFormat::Text if lights.is_empty() => text(&table, style, width),
        ExposeFormat::Text => one(&table, style, width),
    });
    let answered = table
        .rows
        .iter()
        .flat_map(|row| &row.times)
        .any(|cell| matches!(cell, Cell::Time(_)));
    Ok(if answered {
        Outcome::Clean
    } else {
        Outcome::Refused
    })
}

fn known(notebook: &Notebook, id: &str, what: &str, fits: impl Fn(&Body) -> bool) -> Result<(), Stop> {
    if notebook.block(id).is_some_and(|block| fits(&block.body)) {
        return Ok(());
    }
    let all = notebook
        .blocks
        .iter()
        .filter(|block| block.named && fits(&block.body));
    let near = nearest(id, all.map(|block| block.id.as_str()));
    Err(Stop(match near {
        Some(near) => format!("there is no {what} `{id}`; did you mean `{near}`?"),
        None => format!("there is no {what} `{id}` in this notebook"),
    }))
}

/// The paper that was asked for, else all of them.
fn papers<'n>(notebook: &'n Notebook, asked: Option<&'n str>) -> Result<Vec<&'n str>, Stop> {
    if let Some(id) = asked {
        known(notebook, id, "paper", |body| matches!(body, Body::Paper(_)))?;
        return Ok(vec![id]);
    }
    let papers: Vec<&str> = notebook
        .blocks
        .iter()
        .filter(|block| matches!(block.body, Body::Paper(_)) && !block.doubled)
        .map(|block| block.id.as_str())
        .collect();
    if papers.is_empty() {
        return Err(Stop(
            "the notebook has no paper: write a `paper` block with its speed".to_owned(),
        ));
    }
    Ok(papers)
}

fn lights(notebook: &Notebook, words: &[String]) -> Result<Vec<(String, Light)>, Stop> {
    if words.is_empty() {
        return Ok(Vec::new());
    }
    let text = words.join(" ");
    let light = read_light(&text, &notebook.settings).map_err(Stop)?;
    Ok(vec![(text, light)])
}

fn at(notebook: &Notebook, words: &[String]) -> Result<Option<When>, Stop> {
    if words.is_empty() {
        return Ok(None);
    }
    read_when(&words.join(" "), &notebook.settings)
        .map(Some)
        .map_err(Stop)
}

fn json(table: &ExposureTable) -> String {
    let mut out = serde_json::to_string_pretty(table).unwrap_or_default();
    out.push('\n');
    out
}

/// Columns of the light, its value, a time and its interval: two papers stand side by side in 80.
const LIGHT: usize = 15;
const VALUE: usize = 9;
const TIME: usize = 11;
const INTERVAL: usize = 11;

/// The whole table, as many papers side by side as the width allows.
fn text(table: &ExposureTable, style: Style, width: usize) -> String {
    let mut out = head(table, &table.name);
    let each = 2 + TIME + 2 + INTERVAL;
    let beside = (width.saturating_sub(LIGHT + VALUE) / each).max(1);
    let places: Vec<usize> = (0..table.papers.len()).collect();
    for group in places.chunks(beside) {
        let mut first = pad("", LIGHT + VALUE);
        let mut second = format!("{}{}", pad("light", LIGHT), pad("EV", VALUE));
        for paper in group.iter().filter_map(|at| table.papers.get(*at)) {
            let _ = write!(first, "  {}", lead(&cut(&paper.name, each - 2), each - 2));
            let _ = write!(second, "  {}  {}", lead("time", TIME), pad("within", INTERVAL));
        }
        let _ = write!(out, "\n{}\n{}\n", first.trim_end(), second.trim_end());
        let _ = writeln!(
            out,
            "{}",
            "─".repeat((LIGHT + VALUE + each * group.len()).min(width))
        );
        for row in &table.rows {
            let _ = writeln!(out, "{}", line(row, group).trim_end());
        }
    }
    out.push('\n');
    for paper in &table.papers {
        fill(&mut out, &format!("{}: {}.", paper.name, paper.from), width);
    }
    for note in notes(table, style) {
        fill(&mut out, &note, width);
    }
    out
}

fn head(table: &ExposureTable, name: &str) -> String {
    let at = table.at.as_ref().map_or_else(String::new, |at| format!(", {at}"));
    format!("{name} at {}{at}\n", table.f_number)
}

fn line(row: &Row, group: &[usize]) -> String {
    let value = row.value.trim_start_matches("EV").trim().replace('\u{a0}', " ");
    let mut out = format!("{}{}", pad(&row.light, LIGHT), pad(&value, VALUE));
    for cell in group.iter().filter_map(|at| row.times.get(*at)) {
        let (time, interval) = match cell {
            Cell::Time(time) => (time.text.as_str(), time.interval.as_str()),
            Cell::Gap { .. } => ("—", ""),
        };
        let _ = write!(out, "  {}  {}", lead(time, TIME), pad(interval, INTERVAL));
    }
    out
}

/// What stands below the table.
fn notes(table: &ExposureTable, style: Style) -> Vec<String> {
    let cells = || table.rows.iter().flat_map(|row| &row.times);
    let mut notes = Vec::new();
    let most = cells()
        .filter_map(|cell| match cell {
            Cell::Time(time) => Some(libm::fabs(time.rounding)),
            Cell::Gap { .. } => None,
        })
        .fold(0.0, f64::max);
    notes.push(format!(
        "Times are rounded to what a watch shows; that takes or adds {} at most.",
        stops(most, 2, style)
    ));
    if table.papers.iter().any(|paper| paper.by_log) {
        notes.push(
            "`within` holds the right time four times out of five where it comes from the log.".to_owned(),
        );
    }
    if table.at.is_none() && table.rows.iter().any(|row| row.light == SceneLight::Sun.words()) {
        notes.push(
            "`sun` holds from two hours after sunrise to two before sunset; --at computes it.".to_owned(),
        );
    }
    let mut gaps: Vec<&str> = cells()
        .filter_map(|cell| match cell {
            Cell::Gap { why } => Some(why.as_str()),
            Cell::Time(_) => None,
        })
        .collect();
    gaps.sort_unstable();
    gaps.dedup();
    notes.extend(gaps.into_iter().map(|why| format!("—: {why}.")));
    notes
}

/// One light: a time for each paper, and the strip to make first.
fn one(table: &ExposureTable, style: Style, width: usize) -> String {
    let mut out = String::new();
    for row in &table.rows {
        let value = row.value.replace('\u{a0}', " ");
        let said = if value == row.light || value == "—" {
            row.light.clone()
        } else {
            format!("{}, {value}", row.light)
        };
        out.push_str(&head(table, &format!("{}, {said},", table.name)).replace(", at ", " at "));
        for (paper, cell) in table.papers.iter().zip(&row.times) {
            out.push('\n');
            match cell {
                Cell::Time(time) => answer(&mut out, paper, time, style, width),
                Cell::Gap { why } => fill(&mut out, &format!("{}: no time, {why}.", paper.name), width),
            }
        }
    }
    out
}

fn answer(out: &mut String, paper: &PaperHead, time: &TimeCell, style: Style, width: usize) {
    let _ = writeln!(out, "{}: {}", paper.name, time.text);
    let [less, more] = time.stops;
    if less > 0.005 || more > 0.005 {
        let [low, high] = &time.ends;
        indented(
            out,
            &format!(
                "{} between {low} and {high}: {} less to {} more.",
                if paper.by_log {
                    "Four times out of five"
                } else {
                    "Somewhere"
                },
                stops(less, 1, style),
                stops(more, 1, style)
            ),
            width,
        );
    }
    indented(out, &format!("It comes {}.", paper.from), width);
    if libm::fabs(time.rounding) >= 0.005 {
        indented(
            out,
            &format!("Rounding makes it {} off.", stops(time.rounding, 2, style)),
            width,
        );
    }
    let shortest = strip::SHORTEST.seconds();
    if time.seconds > shortest {
        indented(
            out,
            &format!(
                "First make a strip: {}, one after the other {}. In the log: `strip: {}`.",
                time.strip.totals, time.strip.additional, time.strip.written
            ),
            width,
        );
    }
}

fn stops(stops: f64, decimals: u8, style: Style) -> String {
    show(
        Range::exact(stops),
        Dimension::Stops,
        Digits::Decimals(decimals),
        style,
    )
}

fn fill(out: &mut String, text: &str, width: usize) {
    let plain = Shown { width, bold: false };
    out.push_str(&wrapped(text, plain));
}

fn indented(out: &mut String, text: &str, width: usize) {
    let plain = Shown {
        width: width.saturating_sub(2),
        bold: false,
    };
    for line in wrapped(text, plain).lines() {
        let _ = writeln!(out, "  {line}");
    }
}

fn pad(text: &str, width: usize) -> String {
    let gap = width.saturating_sub(text.chars().count());
    format!("{text}{}", " ".repeat(gap))
}

fn lead(text: &str, width: usize) -> String {
    let gap = width.saturating_sub(text.chars().count());
    format!("{}{text}", " ".repeat(gap))
}

fn cut(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let kept: String = text.chars().take(width.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

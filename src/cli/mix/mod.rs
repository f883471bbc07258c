//! `trayside mix`: the weighing-out sheet of a recipe.

mod against;
mod baked;
mod class;
mod reach;
mod swap;
mod text;

use crate::facts::Bath;
use crate::notebook::{Block, nearest};
use crate::pipeline::{self, Proof};
use crate::units::{Amount, Dimension, parse};
use crate::views;
use crate::views::weighing::{self, Source, Target};

use super::arguments::{Mix, MixFormat};
use super::progress::Line;
use super::{Outcome, Stop, nearest_notebook, terminal};

pub(crate) fn run(arguments: &Mix) -> Result<Outcome, Stop> {
    let host = nearest_notebook(arguments.notebook.as_ref())?;
    let progress = Line::new();
    let proof = pipeline::proof(&host, &progress)?;
    progress.done();
    let (block, bath) = recipe(&proof, &arguments.recipe)?;
    if let Some(other) = &arguments.against {
        let other = recipe(&proof, other)?;
        let found = views::against::against(&proof.notebook, (block, bath), other);
        terminal::show(&match arguments.format {
            MixFormat::Json => json(&found)?,
            MixFormat::Text => against::text(&found, terminal::text_style()),
        });
        return Ok(Outcome::Clean);
    }
    // What is only asked is answered of a recipe with a fault as well: that may be why it is asked.
    let asks = !arguments.reach.is_empty() || !arguments.swap.is_empty() || arguments.baked.is_some();
    if let Some(why) = refused(&proof, &block.id).filter(|_| !asks) {
        terminal::complain(&format!("`{}` is not mixed: {why}", block.id));
        return Ok(Outcome::Refused);
    }
    let target = target(arguments, &proof)?;
    let (litres, because) = weighing::litres_of(&target, bath, &proof.notebook).map_err(Stop)?;
    if let Some(outcome) = asked(arguments, &proof, (block, bath), litres)? {
        return Ok(outcome);
    }
    if arguments.class {
        let class = class::read(arguments, &proof)?;
        let found =
            views::class::class(source(&proof), block, bath, class, (litres, because)).map_err(Stop)?;
        terminal::show(&match arguments.format {
            MixFormat::Json => json(&found)?,
            MixFormat::Text => class::text(&found, terminal::text_style()),
        });
        return Ok(Outcome::Clean);
    }
    let sheet = weighing::sheet(source(&proof), block, bath, litres, because)
        .ok_or_else(|| Stop(format!("`{}` does not say what it makes", block.id)))?;
    if let Some(file) = &arguments.pdf {
        pdf(&proof, &sheet, file)?;
        return Ok(Outcome::Clean);
    }
    match arguments.format {
        MixFormat::Json => terminal::show(&json(&sheet)?),
        MixFormat::Text => terminal::show(&text::sheet(&sheet, terminal::text_style())),
    }
    Ok(Outcome::Clean)
}

/// The answer, where something is asked and nothing mixed.
fn asked(
    arguments: &Mix,
    proof: &Proof,
    (block, bath): (&Block, &Bath),
    litres: f64,
) -> Result<Option<Outcome>, Stop> {
    if !arguments.reach.is_empty() {
        let material = &arguments.with.join(" ");
        let ph = acidity(proof, &arguments.reach.join(" "))?;
        let wanted = views::reach::Wanted { ph, material, litres };
        let found = views::reach::reach(
            &proof.notebook,
            &proof.facts,
            &proof.findings,
            (block, bath),
            wanted,
        )
        .map_err(Stop)?;
        let text = || reach::text(&found, terminal::text_style());
        return answered(arguments.format, &found, text, found.answer.is_some()).map(Some);
    }
    if !arguments.swap.is_empty() {
        let words = arguments.swap.join(" ");
        let (from, to) = pair(&words)?;
        let found = views::swap::swap(source(proof), (block, bath), (from, to), litres).map_err(Stop)?;
        let text = || swap::text(&found, terminal::text_style());
        return answered(arguments.format, &found, text, found.worth.is_some()).map(Some);
    }
    if let Some(words) = &arguments.baked {
        let (before, after) = two_masses(proof, words)?;
        let found = views::baked::baked(
            &proof.notebook,
            &proof.facts,
            (block, bath),
            (before, after),
            litres,
        )
        .map_err(Stop)?;
        let text = || baked::text(&found, terminal::text_style());
        return answered(arguments.format, &found, text, found.amount.is_some()).map(Some);
    }
    Ok(None)
}

/// Shows an answer; one that says why there is none is shown as well, and refused.
fn answered(
    format: MixFormat,
    found: &impl serde::Serialize,
    text: impl Fn() -> String,
    is_answer: bool,
) -> Result<Outcome, Stop> {
    terminal::show(&match format {
        MixFormat::Json => json(found)?,
        MixFormat::Text => text(),
    });
    Ok(if is_answer {
        Outcome::Clean
    } else {
        Outcome::Refused
    })
}

/// The pH that is wanted: `pH 10.2`, or the number alone.
fn acidity(proof: &Proof, words: &str) -> Result<f64, Stop> {
    let style = proof.notebook.settings.style;
    let whole = if words.to_ascii_lowercase().starts_with("ph") {
        words.to_owned()
    } else {
        format!("pH {words}")
    };
    parse(&whole, &[Dimension::PH], style)
        .map(|amount| amount.range.best)
        .map_err(|mistake| Stop(format!("--reach `{words}`: {}", mistake.message)))
}

/// `100 g: 64 g`, in grams.
fn two_masses(proof: &Proof, words: &str) -> Result<(f64, f64), Stop> {
    let Some((before, after)) = words.split_once(':') else {
        return Err(Stop(format!(
            "--baked `{words}` wants what it weighed before and after, such as \"100 g: 64 g\""
        )));
    };
    let grams = |words: &str| {
        amount(proof, "baked", words.trim(), &[Dimension::Mass]).map(|amount| amount.range.best)
    };
    Ok((grams(before)?, grams(after)?))
}

/// `citric acid: lemon juice`.
fn pair(words: &str) -> Result<(&str, &str), Stop> {
    let pair = words.split_once(':').map(|(from, to)| (from.trim(), to.trim()));
    match pair {
        Some((from, to)) if !from.is_empty() && !to.is_empty() => Ok((from, to)),
        _ => Err(Stop(format!(
            "--swap `{words}` wants two materials, such as \"citric acid: lemon juice\""
        ))),
    }
}

fn source(proof: &Proof) -> Source<'_> {
    Source {
        notebook: &proof.notebook,
        facts: &proof.facts,
        findings: &proof.findings,
    }
}

/// The recipe of an id, with everything that it is based on.
fn recipe<'p>(proof: &'p Proof, id: &str) -> Result<(&'p Block, &'p Bath), Stop> {
    let block = proof.notebook.recipe(id).map(|(block, _)| block);
    if let Some(found) = block.zip(proof.facts.baths.get(id)) {
        return Ok(found);
    }
    if let Some(other) = proof.notebook.block(id) {
        return Err(Stop(format!(
            "`{id}` is {}, not a recipe",
            other.kind().with_article()
        )));
    }
    let ids: Vec<&str> = proof.facts.baths.iter().map(|bath| bath.id.as_str()).collect();
    Err(Stop(match nearest(id, ids.iter().copied()) {
        Some(near) => format!("there is no recipe `{id}`; did you mean `{near}`?"),
        None if ids.is_empty() => "the notebook has no recipes".to_owned(),
        None => format!("there is no recipe `{id}`; there are {}", ids.join(", ")),
    }))
}

/// Why a recipe gets no sheet, for the same reasons that it gets no card.
fn refused(proof: &Proof, id: &str) -> Option<String> {
    let cards = views::cards(&proof.notebook, &proof.facts, &proof.findings);
    cards
        .left_out
        .into_iter()
        .find(|left| left.id == id)
        .map(|left| left.why)
}

fn target(arguments: &Mix, proof: &Proof) -> Result<Target, Stop> {
    let read = |option: &str, words: &str, accepts: &[Dimension]| amount(proof, option, words, accepts);
    if !arguments.volume.is_empty() {
        let volume = read("volume", &arguments.volume.join(" "), &[Dimension::Volume])?;
        return Ok(Target::Volume(volume));
    }
    if let Some(name) = &arguments.tray {
        let depth = (!arguments.depth.is_empty())
            .then(|| read("depth", &arguments.depth.join(" "), &[Dimension::Length]));
        return Ok(Target::Tray {
            name: name.clone(),
            depth: depth.transpose()?,
        });
    }
    if let Some(sheets) = arguments.sheets {
        return Ok(Target::Sheets(sheets));
    }
    let Some(limit) = &arguments.limit else {
        return Ok(Target::AsWritten);
    };
    let (material, words) = limit.rsplit_once(':').ok_or_else(|| {
        Stop(format!(
            "--limit `{limit}` wants a material and an amount, such as \"washing soda: 90 g\""
        ))
    })?;
    let accepts = [Dimension::Mass, Dimension::Volume, Dimension::Count];
    Ok(Target::Limit {
        material: material.trim().to_owned(),
        amount: read("limit", words.trim(), &accepts)?,
    })
}

/// An amount from the command line, read as a notebook would read it.
fn amount(proof: &Proof, option: &str, words: &str, accepts: &[Dimension]) -> Result<Amount, Stop> {
    let amount = parse(words, accepts, proof.notebook.settings.style).map_err(|mistake| {
        let help = mistake.help.map_or_else(String::new, |help| format!("; {help}"));
        Stop(format!("--{option} `{words}`: {}{help}", mistake.message))
    })?;
    if amount.range.low > 0.0 && amount.range.is_finite() {
        Ok(amount)
    } else {
        Err(Stop(format!(
            "--{option} `{words}`: it must be more than nothing"
        )))
    }
}

fn json(value: &impl serde::Serialize) -> Result<String, Stop> {
    serde_json::to_string_pretty(value)
        .map(|text| text + "\n")
        .map_err(|error| Stop(format!("the sheet cannot be written as JSON: {error}")))
}

/// Writes the sheet as a PDF. One with a fault is not written: it would be followed.
#[cfg(feature = "typst")]
fn pdf(proof: &Proof, sheet: &weighing::Sheet, file: &std::path::Path) -> Result<(), Stop> {
    use crate::press::Press;

    const A5_MM: (f64, f64) = (148.0, 210.0);
    let mut press = Press::new().with_templates(&proof.templates);
    if let Some((year, month, day)) = pipeline::latest_date(proof) {
        press = press.dated(year, month, day);
    }
    let pressed = press.weighing(sheet, A5_MM.0, A5_MM.1);
    if let Some(fault) = pressed.faults.first() {
        return Err(Stop(format!("the sheet cannot be pressed: {fault}")));
    }
    crate::host::Disk::write_file(file, &pressed.pdf)?;
    terminal::remark(&format!(
        "{} for {} is in {}",
        sheet.title,
        sheet.volume,
        file.display()
    ));
    Ok(())
}

#[cfg(not(feature = "typst"))]
fn pdf(_: &Proof, _: &weighing::Sheet, _: &std::path::Path) -> Result<(), Stop> {
    Err(Stop(
        "this trayside was built without typst and makes no PDF".to_owned(),
    ))
}

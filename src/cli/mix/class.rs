//! `mix --class`: what a class needs of one bath.

use crate::cli::Stop;
use crate::cli::arguments::Mix;
use crate::finding::render::TextStyle;
use crate::pipeline::Proof;
use crate::units::Dimension;
use crate::units::scalar::Time;
use crate::views::class::{Class, ClassSheet, Purchase};

use super::amount;
use super::text::{Page, amounts, columns, flush, padded};

/// Sheets for each where nobody says: a negative and its print. Common practice, no source.
const EACH: u32 = 2;

/// The class as the arguments and the settings have it.
pub(super) fn read(arguments: &Mix, proof: &Proof) -> Result<Class, Stop> {
    let settings = &proof.notebook.settings;
    let noted = settings.people.get().and_then(|people| people.count.get());
    let people = arguments
        .people
        .or_else(|| noted.map(|count| count.value))
        .ok_or_else(|| {
            Stop("how many people come? say `--people`, or give `people: count` in trayside.yaml".to_owned())
        })?;
    let spare = arguments.spare.join(" ");
    let spare_percent = match spare.trim().trim_end_matches('%').trim() {
        "" => 0.0,
        number => number
            .parse::<f64>()
            .ok()
            .filter(|percent| (0.0..=1000.0).contains(percent))
            .ok_or_else(|| Stop(format!("--spare `{spare}`: wants a percentage, such as 10")))?,
    };
    let lasts = (!arguments.lasts.is_empty())
        .then(|| amount(proof, "lasts", &arguments.lasts.join(" "), &[Dimension::Time]))
        .transpose()?;
    Ok(Class {
        people,
        each: arguments.each.unwrap_or(EACH),
        spare_percent,
        load: arguments.load,
        trays: arguments.trays.unwrap_or(1),
        lasts: lasts.map(|time| Time::from_seconds(time.range.high)),
    })
}

/// The class in a terminal.
pub(super) fn text(class: &ClassSheet, style: TextStyle) -> String {
    let mut page = Page::new(style);
    let fills = if class.fills == 1 { "fill" } else { "fills" };
    page.ends(
        &format!("{} for a class", class.title),
        &format!("{} {fills} of {} = {}", class.fills, class.fill, class.volume),
    );
    page.line("");
    for line in &class.reckoning {
        page.hung(0, "", line);
    }
    page.heading("Weigh for each fill");
    amounts(&mut page, &class.sheet);
    shopping(&mut page, &class.shopping);
    if !class.cost.is_empty() {
        page.heading("Cost");
        for line in &class.cost {
            page.hung(0, "", line);
        }
    }
    page.line("");
    page.hung(
        0,
        "",
        &format!(
            "Steps and cautions: trayside mix {} --volume {}",
            class.id, class.fill
        ),
    );
    page.out
}

fn shopping(page: &mut Page, list: &[Purchase]) {
    page.heading("For all fills");
    let wide = |text: fn(&Purchase) -> &str| list.iter().map(|line| columns(text(line))).max().unwrap_or(0);
    let (names, needs, there) = (
        wide(|line| &line.material).min(28),
        wide(|line| &line.needs),
        wide(|line| &line.there),
    );
    for line in list {
        let has = if line.there.is_empty() {
            padded("", there + 4)
        } else {
            format!("has {}", flush(&line.there, there))
        };
        let buy = if line.packs == Some(0) {
            line.buy.clone()
        } else {
            page.bold(&line.buy)
        };
        page.line(&format!(
            "[ ] {}  {}  {has}  {buy}",
            padded(&line.material, names),
            flush(&line.needs, needs),
        ));
    }
}

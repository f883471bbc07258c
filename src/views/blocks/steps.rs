//! Steps of mixing, in words.

use crate::notebook::{Figure, Slot, Step, Verb};
use crate::units::Style;

use super::super::steps::listed;

/// A step as a line such as `dissolve washing soda: 5 min` or `cool to 24 °C (60 °C after 20 min)`; `names` is what goes in.
pub(super) fn words(step: &Step, names: &[String], makes: &Slot<Figure>, style: Style) -> String {
    let show = |amount: &Option<crate::units::Amount>| amount.as_ref().map(|amount| amount.show(style));
    let mut line = step.verb.word().to_owned();
    let parts: Vec<&str> = step.parts.iter().map(|part| part.value.as_str()).collect();
    match (step.verb, parts.split_last()) {
        (Verb::Pour, Some((into, from))) if !from.is_empty() => {
            line = format!("pour {} into {into}", listed(from, "and"));
        }
        (_, Some(_)) => line = format!("{line} {}", listed(&parts, "and")),
        (_, None) => {}
    }
    if !names.is_empty() {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let into = if step.verb == Verb::Stir { " in" } else { "" };
        let colon = if step.time.is_some() { ":" } else { "" };
        line = format!("{line}{into} {}{colon}", listed(&names, "and"));
    }
    if let Some(words) = &step.words {
        line = format!("{line} {words}");
    }
    if let Some(time) = show(&step.time) {
        line = format!("{line} {time}");
    }
    match (show(&step.temperature), step.verb) {
        (Some(temperature), Verb::Bake) => line = format!("{line} at {temperature}"),
        (Some(temperature), _) => line = format!("{line} to {temperature}"),
        (None, _) => {}
    }
    match (&step.volume, step.verb) {
        (Some(volume), _) => line = format!("{line} to {}", volume.show(style)),
        (None, Verb::MakeUp) => match makes.get() {
            Some(makes) => line = format!("{line} to {}", makes.show(style)),
            None => line = format!("{line} to the mark"),
        },
        (None, _) => {}
    }
    if let Some(dilution) = show(&step.dilution) {
        line = format!("{line} {dilution}");
    }
    if let Slot::Is(at) = &step.at {
        line = format!("{line}, at {}", at.show(style));
    }
    if let Slot::Is(vessel) = &step.vessel {
        line = format!("{line}, in a {}", article_free(&vessel.value));
    }
    if let Slot::Is((temperature, after)) = &step.reading {
        line = format!("{line} ({} after {})", temperature.show(style), after.show(style));
    }
    line
}

/// A vessel without the article that its writer may have given it.
fn article_free(vessel: &str) -> &str {
    let vessel = vessel.trim();
    ["a ", "an ", "the "]
        .into_iter()
        .find_map(|article| vessel.strip_prefix(article))
        .unwrap_or(vessel)
}

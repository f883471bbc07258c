//! Steps of mixing, in words.

use crate::notebook::{Figure, Slot, Step, Verb};
use crate::units::Style;

use super::super::steps::listed;
use super::super::words::Words;

/// A step as a line such as `dissolve washing soda: 5 min` or `cool to 24 °C (60 °C after 20 min)`; `names` is what goes in.
pub(super) fn worded(
    step: &Step,
    names: &[String],
    makes: &Slot<Figure>,
    words: &Words,
    style: Style,
) -> String {
    let (card, say) = (&words.card, &words.block.value);
    let show = |amount: &Option<crate::units::Amount>| amount.as_ref().map(|amount| amount.show(style));
    let verb = (words.verb)(step.verb);
    let mut line = verb.to_owned();
    let parts: Vec<&str> = step.parts.iter().map(|part| part.value.as_str()).collect();
    match (step.verb, parts.split_last()) {
        (Verb::Pour, Some((into, from))) if !from.is_empty() => {
            line = Words::fill_all(say.pour, &[&listed(from, card.and), into]);
        }
        (_, Some(_)) => line = format!("{line} {}", listed(&parts, card.and)),
        (_, None) => {}
    }
    if !names.is_empty() {
        let names: Vec<&str> = names.iter().map(String::as_str).collect();
        let names = listed(&names, card.and);
        line = match step.verb {
            Verb::Stir if parts.is_empty() => Words::fill(card.stir_in, &names),
            _ => Words::fill_all(card.do_with, &[&line, &names]),
        };
        if step.time.is_some() {
            line.push(':');
        }
    }
    if let Some(own) = &step.words {
        line = format!("{line} {own}");
    }
    if let Some(time) = show(&step.time) {
        line = format!("{line} {time}");
    }
    match (show(&step.temperature), step.verb) {
        (Some(temperature), Verb::Bake) => line = format!("{line} {}", Words::fill(card.at, &temperature)),
        (Some(temperature), _) => line = format!("{line} {}", Words::fill(say.to, &temperature)),
        (None, _) => {}
    }
    match (&step.volume, step.verb) {
        (Some(volume), _) => line = format!("{line} {}", Words::fill(say.to, &volume.show(style))),
        (None, Verb::MakeUp) => match makes.get() {
            Some(makes) => line = format!("{line} {}", Words::fill(say.to, &makes.show(style))),
            None => line = format!("{line} {}", say.to_the_mark),
        },
        (None, _) => {}
    }
    if let Some(dilution) = show(&step.dilution) {
        line = format!("{line} {dilution}");
    }
    if let Slot::Is(at) = &step.at {
        line = format!("{line}, {}", Words::fill(card.at, &at.show(style)));
    }
    if let Slot::Is(vessel) = &step.vessel {
        line = format!("{line}, {}", (words.in_vessel)(vessel.value.trim()));
    }
    if let Slot::Is((temperature, after)) = &step.reading {
        let read = Words::fill_all(say.reading, &[&temperature.show(style), &after.show(style)]);
        line = format!("{line} {read}");
    }
    line
}

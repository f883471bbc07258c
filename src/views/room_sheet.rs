//! The room sheet: what to be careful of with what is mixed from this notebook, who is in the room, and lines for what only
//! a person on the spot can know. Nothing of that is ever guessed.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::facts::{Bath, Facts};
use crate::finding::Finding;
use crate::notebook::{Block, Notebook, Premises};

use super::card::Line;
use super::cards::{blocks, left_out};
use super::cautions::cautions;
use super::common::stamp;
use super::words::{Group as _, Words, words_of};

/// A sheet for the wall beside the door.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RoomSheet {
    /// The language of the fixed words, as an ISO 639-1 code.
    pub language: String,
    /// The notebook's title; empty where it has none.
    pub notebook: String,
    /// The baths that may be mixed.
    pub baths: Vec<RoomBath>,
    /// Who is in the room and where, as the settings say.
    pub who: Vec<String>,
    /// Safety lines, hazards first, each once.
    pub cautions: Vec<RoomCaution>,
    /// What the authority was asked and answered; an empty text is a line to write on.
    pub waste: Vec<Line>,
    /// Where each kind of spent bath goes, for a person to fill in: labels alone.
    pub disposal: Vec<String>,
    /// What else a person fills in: labels alone.
    pub fields: Vec<String>,
    /// The heads, by name.
    pub words: BTreeMap<&'static str, &'static str>,
    /// Small print at the foot.
    pub stamp: String,
}

/// A bath that is mixed in the room.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RoomBath {
    /// Its title.
    pub title: String,
    /// What it is for.
    pub role: String,
}

/// A safety line and what it is said of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RoomCaution {
    /// Whether it can injure at once.
    pub hazard: bool,
    /// The line.
    pub text: String,
    /// The titles of the baths that it holds for; empty where it holds for all of them.
    pub of: Vec<String>,
}

/// The room sheet of a notebook. Baths that may not be followed are not on it: they are not mixed.
pub fn room_sheet(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> RoomSheet {
    let words = words_of(notebook);
    let left = left_out(notebook, facts, findings);
    let mixed: Vec<(&Block, &Bath)> = blocks(notebook)
        .filter(|block| !left.contains_key(block.id.as_str()))
        .filter_map(|block| Some((block, facts.baths.get(&block.id)?)))
        .collect();
    let title = notebook.settings.title.get();
    let say = &words.room;
    RoomSheet {
        language: words.code.to_owned(),
        notebook: title.map_or_else(String::new, |title| title.value.clone()),
        baths: mixed
            .iter()
            .map(|(block, bath)| RoomBath {
                title: block.name().to_owned(),
                role: bath.role().map_or("", |role| (words.role)(role)).to_owned(),
            })
            .collect(),
        who: who(notebook, words),
        cautions: lines(&mixed, notebook, findings),
        waste: waste(notebook, words),
        disposal: [say.developer_goes, say.stop_goes, say.fixer_goes, say.septic]
            .map(str::to_owned)
            .into(),
        fields: [
            say.emergency,
            say.poison,
            say.first_aid,
            say.eyewash,
            say.first_aider,
            say.responsible,
            say.caretaker,
            say.checked,
        ]
        .map(str::to_owned)
        .into(),
        words: say.all().into_iter().collect(),
        stamp: stamp(notebook, words, None),
    }
}

fn who(notebook: &Notebook, words: &Words) -> Vec<String> {
    let (settings, say) = (&notebook.settings, &words.room);
    let people = settings.people.get();
    let mut who = Vec::new();
    if let Some(count) = people.and_then(|people| people.count.get()) {
        who.push(Words::fill(say.people, &count.value.to_string()));
    }
    who.push(
        match settings.minors() {
            Some(true) => say.minors,
            Some(false) => say.adults,
            None => say.minors_unknown,
        }
        .to_owned(),
    );
    let premises = settings
        .premises
        .get()
        .and_then(|word| Premises::from_word(word.value));
    who.extend(premises.map(|premises| Words::fill(say.premises, (words.premises)(premises))));
    who
}

/// Every safety line of every bath, each once, hazards first; with the baths that it holds for.
fn lines(mixed: &[(&Block, &Bath)], notebook: &Notebook, findings: &[Finding]) -> Vec<RoomCaution> {
    let mut lines: Vec<RoomCaution> = Vec::new();
    for (block, bath) in mixed {
        for caution in cautions(bath, notebook, findings) {
            let title = block.name().to_owned();
            match lines.iter_mut().find(|line| line.text == caution.text) {
                Some(line) => {
                    line.hazard |= caution.hazard;
                    line.of.push(title);
                }
                None => lines.push(RoomCaution {
                    hazard: caution.hazard,
                    text: caution.text,
                    of: vec![title],
                }),
            }
        }
    }
    for line in lines.iter_mut().filter(|line| line.of.len() == mixed.len()) {
        line.of.clear();
    }
    lines.sort_by_key(|line| !line.hazard);
    lines
}

/// What was asked and answered; lines to write on where nobody asked.
fn waste(notebook: &Notebook, words: &Words) -> Vec<Line> {
    let (drain, say) = (notebook.settings.drain.get(), &words.room);
    let text = |text: Option<&String>| text.cloned().unwrap_or_default();
    vec![
        Line::new(
            say.asked,
            text(
                drain
                    .and_then(|drain| drain.asked.get())
                    .map(|asked| &asked.value),
            ),
        ),
        Line::new(
            say.on,
            text(drain.and_then(|drain| drain.on.get()).map(|on| &on.value.written)),
        ),
        Line::new(
            say.answer,
            text(
                drain
                    .and_then(|drain| drain.answer.get())
                    .map(|answer| &answer.value),
            ),
        ),
    ]
}

/// How large a notebook wants its room sheet, mm: A4 (ISO 216) where it says nothing.
pub fn room_size(notebook: &Notebook) -> (f64, f64) {
    let asked = notebook.settings.press.room.as_ref();
    let size = asked.and_then(|room| room.size.get());
    size.map_or((210.0, 297.0), |size| {
        (size.value.width.millimetres(), size.value.height.millimetres())
    })
}

//! Safety lines, chosen by what a bath holds and who is in the room. Cards, labels and pages all take them from here.
//!
//! They are reminders and defer to local rules, safety sheets and the people who are licensed to say. What the author
//! wrote is always printed as written; where it says what a line of ours says, the author's words stand for both.

use crate::facts::Bath;
use crate::finding::{Finding, Grade};
use crate::notebook::{Block, Notebook};
use crate::pantry::Property;
use crate::units::Language;

use super::card::Caution;
use super::caution_case::{Seen, ask, powders};
use super::words::{Sayings, Words, capital, words, words_of};

/// Carbonate from here on makes a solution an irritant, mol/l: CLEAPSS student safety sheet 33.
const IRRITANT_CARBONATE: f64 = 0.8;
/// The part of a line's longer words that an author's line must have to stand for it. Common practice, no source.
const SAME: f64 = 0.6;

const PRACTICE: &str = "common practice, no source";
const MEMORY: &str = "GHS classification, from memory, unverified";

/// A safety line: whether it can injure at once, what it says, when, and on what ground.
#[derive(Clone, Copy)]
struct Row {
    hazard: bool,
    say: fn(&Sayings) -> &'static str,
    /// What stands in the line's place; empty where it has none.
    when: fn(&Seen<'_>) -> Option<String>,
    basis: &'static str,
    /// Whether it speaks of the mixing alone, and no longer of what is in the bottle.
    mixing: bool,
}

const fn row(
    hazard: bool,
    say: fn(&Sayings) -> &'static str,
    when: fn(&Seen<'_>) -> Option<String>,
    basis: &'static str,
) -> Row {
    Row {
        hazard,
        say,
        when,
        basis,
        mixing: false,
    }
}

const fn mixing(row: Row) -> Row {
    Row { mixing: true, ..row }
}

/// Every line, in the order in which they are printed.
static ROWS: &[Row] = &[
    row(
        true,
        |say| say.acid_into_hypo,
        |seen| seen.holds(&[Property::Thiosulfate]),
        PRACTICE,
    ),
    row(
        true,
        |say| say.acid_into_sulphite,
        |seen| {
            seen.holds(&[Property::Sulfite])
                .filter(|_| !seen.has(Property::Thiosulfate))
        },
        PRACTICE,
    ),
    row(
        true,
        |say| say.caustic,
        |seen| seen.holds(&[Property::Caustic]),
        "GHS H314",
    ),
    row(
        true,
        |say| say.strong_acid,
        |seen| (seen.has(Property::ConcentratedAcid) || seen.acid_burns()).then(String::new),
        "GHS H314; the limit from memory, unverified",
    ),
    row(
        true,
        |say| say.bleach,
        |seen| seen.holds(&[Property::Hypochlorite]),
        PRACTICE,
    ),
    row(
        true,
        |say| say.ammonia,
        |seen| seen.holds(&[Property::Ammonia]),
        MEMORY,
    ),
    row(
        true,
        |say| say.dichromate,
        |seen| seen.holds(&[Property::Dichromate]),
        "GHS H350",
    ),
    row(
        true,
        |say| say.sulphide,
        |seen| seen.holds(&[Property::Sulfide]),
        MEMORY,
    ),
    row(
        true,
        |say| say.ferricyanide,
        |seen| seen.holds(&[Property::Ferricyanide]),
        PRACTICE,
    ),
    row(
        true,
        |say| say.oxidiser,
        |seen| seen.holds(&[Property::Permanganate, Property::Peroxide, Property::Oxidiser]),
        "GHS H272",
    ),
    row(
        true,
        |say| say.silver_salt,
        |seen| seen.holds(&[Property::SilverSalt]),
        "GHS H314",
    ),
    row(
        true,
        |say| say.borate,
        |seen| seen.holds(&[Property::Borate]),
        "GHS H360FD, as borax and boric acid are classed in the European Union (from memory, unverified)",
    ),
    row(
        true,
        |say| say.poison,
        |seen| seen.states(&["H301", "H311", "H330", "H331", "H372"]),
        "the safety statements of its materials",
    ),
    row(
        true,
        |say| say.flammable,
        |seen| {
            seen.holds(&[Property::Flammable])
                .or_else(|| seen.states(&["H225", "H226"]))
        },
        "GHS H225 and H226",
    ),
    mixing(row(
        true,
        |say| say.dry_powder,
        powders,
        "GHS H318 and H319; for washing soda CLEAPSS student safety sheet 33",
    )),
    row(
        true,
        |say| say.strong_carbonate,
        |seen| {
            seen.carbonate()
                .filter(|molar| *molar >= IRRITANT_CARBONATE)
                .map(|_| String::new())
        },
        "CLEAPSS student safety sheet 33: an irritant from 0.8 mol/l on",
    ),
    mixing(row(
        true,
        |say| say.fizz,
        |seen| fizzes(seen.bath).then(String::new),
        PRACTICE,
    )),
    mixing(row(
        true,
        |say| say.hot_water,
        |seen| seen.scalds().then(String::new),
        PRACTICE,
    )),
    row(
        false,
        |say| say.alkaline,
        |seen| seen.holds(&[Property::Alkali]),
        PRACTICE,
    ),
    row(
        false,
        |say| say.acid,
        |seen| {
            let burns = seen.has(Property::ConcentratedAcid) || seen.acid_burns();
            (seen.bath.acid().is_some() && !burns).then(String::new)
        },
        "GHS H319; the order of pouring is common practice, no source",
    ),
    row(
        false,
        |say| say.irritant,
        |seen| {
            seen.holds(&[Property::Thiosulfate, Property::Sulfite])
                .filter(|_| !seen.has(Property::Alkali) && seen.bath.acid().is_none())
        },
        "safety sheets disagree; common practice, no source",
    ),
    row(
        false,
        |say| say.eyes,
        |seen| seen.hurts_eyes().then(String::new),
        "GHS P305+P351+P338, in our words",
    ),
    row(
        false,
        |say| say.plants,
        |seen| seen.holds(&[Property::Plant]),
        PRACTICE,
    ),
    row(
        false,
        |say| say.minors,
        |seen| seen.minors().then(String::new),
        PRACTICE,
    ),
    row(
        false,
        |say| say.silver,
        |seen| seen.takes_silver().then(String::new),
        "EPA 530-K-99-002, on photo processing waste, which speaks for one country only",
    ),
    row(false, |say| say.ask_first, ask, PRACTICE),
    row(false, |say| say.kitchen, |_| Some(String::new()), PRACTICE),
];

/// Every safety line and the ground for it, in the order in which they are printed.
pub fn caution_bases() -> impl Iterator<Item = (&'static str, &'static str)> {
    let say = &words(Language::English).say;
    ROWS.iter().map(move |row| ((row.say)(say), row.basis))
}

/// The safety lines of a bath, hazards first: hazards found in its block, also where they were acknowledged; then those
/// that follow from what it holds and who is in the room; then the author's own words and where it goes when it is spent.
pub fn cautions(bath: &Bath, notebook: &Notebook, findings: &[Finding]) -> Vec<Caution> {
    lines(bath, notebook, findings, &|_| true)
}

/// The heavy safety lines of what is in a bottle: without those that speak of the mixing.
pub(super) fn bottle_warnings(bath: &Bath, notebook: &Notebook, findings: &[Finding]) -> Vec<String> {
    let lines = lines(bath, notebook, findings, &|row| !row.mixing);
    lines
        .into_iter()
        .filter(|line| line.hazard)
        .map(|line| line.text)
        .collect()
}

/// Where a bath goes when it is spent: as its author says, as the authority answered, or whom to ask.
pub(super) fn waste(bath: &Bath, notebook: &Notebook) -> String {
    if let Some(waste) = bath.recipe.waste.get() {
        return waste.value.clone();
    }
    let drain = notebook.settings.drain.get();
    if let Some(answer) = drain.and_then(|drain| drain.answer.get()) {
        return answer.value.clone();
    }
    let seen = Seen {
        bath,
        notebook,
        words: words_of(notebook),
    };
    match ask(&seen) {
        Some(whom) => Words::fill(seen.words.say.ask_first, &whom),
        None => seen.words.say.silver.to_owned(),
    }
}

fn lines(
    bath: &Bath,
    notebook: &Notebook,
    findings: &[Finding],
    wanted: &dyn Fn(&Row) -> bool,
) -> Vec<Caution> {
    let seen = Seen {
        bath,
        notebook,
        words: words_of(notebook),
    };
    let mut lines = notebook
        .block(&bath.id)
        .map_or_else(Vec::new, |block| found(block, findings, seen.words));
    let mut own: Vec<Caution> = bath
        .recipe
        .cautions
        .iter()
        .map(|line| plain(&line.value))
        .collect();
    own.extend(bath.recipe.waste.get().map(|waste| plain(&waste.value)));
    for row in ROWS.iter().filter(|row| wanted(row)) {
        let Some(fill) = (row.when)(&seen) else { continue };
        let text = capital(&Words::fill((row.say)(&seen.words.say), &fill));
        match own.iter_mut().find(|line| says(&line.text, &text)) {
            Some(line) => {
                line.hazard |= row.hazard;
                line.mixing |= row.mixing;
            }
            None => lines.push(Caution {
                hazard: row.hazard,
                mixing: row.mixing,
                text,
            }),
        }
    }
    // The author's words before ours: hazards of both, then the rest of both.
    own.append(&mut lines);
    own.sort_by_key(|line| !line.hazard);
    own
}

/// Whether gas comes off while it is mixed.
pub(super) fn fizzes(bath: &Bath) -> bool {
    let has = |property| bath.first(property).is_some();
    let carbonate = has(Property::Carbonate) || has(Property::Bicarbonate);
    let acid = has(Property::Acid) || has(Property::ConcentratedAcid);
    carbonate && acid || has(Property::Effervescent)
}

/// Hazards found in a block. Whoever acknowledged one still has it on the wall.
pub(super) fn found(block: &Block, findings: &[Finding], words: &Words) -> Vec<Caution> {
    let mut lines: Vec<Caution> = Vec::new();
    for finding in findings.iter().filter(|finding| finding.grade == Grade::Hazard) {
        if !block.span.holds(finding.span) {
            continue;
        }
        let text = words.hazard(finding);
        if lines.iter().all(|line| line.text != text) {
            lines.push(Caution {
                hazard: true,
                mixing: false,
                text,
            });
        }
    }
    lines
}

pub(super) fn plain(text: &str) -> Caution {
    Caution {
        hazard: false,
        mixing: false,
        text: text.to_owned(),
    }
}

/// Whether the author's line has most of the longer words of ours.
fn says(author: &str, ours: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        text.split(|c: char| !c.is_alphanumeric())
            .filter(|word| word.chars().count() > 3 || *word == "jug" || *word == "lid")
            .map(str::to_lowercase)
            .collect()
    };
    let (author, ours) = (words(author), words(ours));
    let shared = ours.iter().filter(|word| author.contains(word)).count();
    !ours.is_empty() && shared as f64 >= SAME * ours.len() as f64
}

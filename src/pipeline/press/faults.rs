//! What goes wrong at the press, as findings at the place that can mend it.

use crate::finding::{Finding, Slug, slug};
use crate::press::PressFault;
use crate::source::Span;
use crate::views::card::block_of;

use super::Proof;
use super::template_fault::of_template;

/// How a paper is called, and what helps where it does not hold what is on it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Paper {
    pub(super) rule: Slug,
    pub(super) name: &'static str,
    pub(super) help: &'static str,
    /// Where its measures stand.
    pub(super) settings: &'static str,
}

pub(super) const CARD: Paper = Paper {
    rule: slug::CARD_OVERFLOW,
    name: "the card does not hold what is on it",
    help: "cut words, or choose a larger card under `press: cards: size:`",
    settings: "choose sizes under `press: cards:` that fit each other",
};

pub(super) const CUTTING: Paper = Paper {
    rule: slug::SHEET_OVERFLOW,
    name: "the cutting template does not hold what is on it",
    help: "shorten the camera's title",
    settings: "shorten the camera's title",
};

pub(super) const LABEL: Paper = Paper {
    rule: slug::LABEL_OVERFLOW,
    name: "the label does not hold what the bottle has to say",
    help: "choose a larger label under `press: labels: size:`, or shorten the title and the waste line",
    settings: "measure the sheet and write its grid under `press: labels:`",
};

pub(super) const SHEET: Paper = Paper {
    rule: slug::SHEET_OVERFLOW,
    name: "the weighing sheet does not hold what is on it",
    help: "choose a larger page under `press: sheets: size:`, or fewer `volumes`",
    settings: "choose a page under `press: sheets: size:` that a printer has",
};

pub(super) const SLIP: Paper = Paper {
    rule: slug::SHEET_OVERFLOW,
    name: "the log slip does not hold what an entry has to say",
    help: "choose a larger slip under `press: slips: size:`",
    settings: "choose sizes under `press: slips:` that fit each other",
};

pub(super) const ROOM: Paper = Paper {
    rule: slug::SHEET_OVERFLOW,
    name: "the room sheet does not hold what is on it",
    help: "choose a larger page under `press: room: size:`",
    settings: "choose a page under `press: room: size:` that a printer has",
};

/// How much too much there is, and in which words.
fn too_much((what, by_mm): (&str, f64), words: &str, letters: usize) -> String {
    match what {
        _ if words.is_empty() => format!("{what} runs {by_mm:.1} mm over"),
        "width" => format!("`{words}` runs {by_mm:.1} mm past its side"),
        "height" => format!("`{words}` runs {by_mm:.1} mm past its foot"),
        "overlap" => format!("`{words}` stand over one another, by {by_mm:.1} mm"),
        what => format!(
            "{by_mm:.1} mm or about {letters} letters too much; most room is taken by its {what}, the longest of them `{words}`"
        ),
    }
}

/// A fault of the press as a finding: at the block, in the template, or at the settings.
pub(super) fn of_press(proof: &Proof, paper: Paper, fault: &PressFault) -> Finding {
    use crate::tone::red_light::ENOUGH;
    let settings = Span::new(proof.settings, 0, 0);
    // A slip's number is no id, even where a block is called by one.
    let block = |id: &str| {
        let block = proof
            .notebook
            .block(block_of(id))
            .filter(|_| paper.name != SLIP.name);
        block.map_or(settings, |block| block.head)
    };
    match fault {
        PressFault::Overflow {
            card,
            by_mm,
            what,
            words,
            letters,
        } => Finding::fault(
            paper.rule,
            block(card),
            format!("{}: {}", paper.name, too_much((what, *by_mm), words, *letters)),
        )
        .help(paper.help),
        PressFault::MissingGlyph { card, character } => Finding::fault(
            slug::GLYPH_MISSING,
            block(card),
            format!("no font of the press has the character `{character}`"),
        )
        .help("write it in other letters"),
        PressFault::RedContrast {
            card,
            element,
            contrast,
            others,
        } => Finding::fault(
            slug::RED_CONTRAST,
            block(card),
            format!(
                "under a red lamp `{element}` on the card `{card}` has a contrast of {contrast:.1}, less than {ENOUGH}{}",
                match others {
                    0 => String::new(),
                    others => format!(", and so have {others} more"),
                }
            ),
        )
        .help("set it in black on white: under a red lamp red ink vanishes and grey drowns"),
        PressFault::Template {
            file,
            line,
            column,
            message,
        } => of_template(proof, file, (*line, *column), message),
        PressFault::Layout { message } => {
            Finding::fault(slug::CARD_TOO_LARGE, settings, message.clone()).help(paper.settings)
        }
    }
}

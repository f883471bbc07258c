//! A recipe with another material in the place of one of its own: how much of it, what stays and what changes.

use serde::Serialize;

use crate::facts::{Bath, Dosed, Fact, Facts, Kept, NotSwapped, Swapped, swap as worth};
use crate::notebook::{Block, Notebook};
use crate::units::{Digits, Dimension, Language, Range, Style, number, show};

use super::cards;
use super::counted::Counted;
use super::fact_view;
use super::reach::ph as ph_of;
use super::weighing::{self, Sheet, Source};
use super::what_if::{Said, found, only_in};
use super::words::words;

/// A change that is not worth a line, as a share.
const SMALL: f64 = 0.02;

/// A recipe with another material.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Swap {
    /// The recipe's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The finished volume.
    pub volume: String,
    /// The material that goes.
    pub from: String,
    /// The one that comes.
    pub to: String,
    /// What it is worth; none where nothing of it is.
    pub worth: Option<Worth>,
    /// Why nothing of it is worth the other.
    pub why: Option<String>,
    /// What else helps then, a line each.
    pub instead: Vec<String>,
}

/// What one material is worth in another.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Worth {
    /// How much there was of the old one.
    pub was: String,
    /// How much of the new one, rounded to what can be measured out.
    pub amount: String,
    /// The same as a number.
    pub number: f64,
    /// Its unit: `g` or `ml`.
    pub unit: &'static str,
    /// The least that it may take.
    pub low: f64,
    /// The most that it may take.
    pub high: f64,
    /// The two, as they are read; empty where they are one.
    pub range: String,
    /// What stays the same, in words.
    pub kept: String,
    /// What changes.
    pub changes: Vec<Change>,
    /// What has to be known, a line each.
    pub notes: Vec<String>,
    /// What is found of the recipe then, and not as it is written.
    pub findings: Vec<Said>,
    /// What is no longer found.
    pub gone: Vec<Said>,
    /// The whole weighing-out sheet with it; none where it has a fault.
    pub sheet: Option<Sheet>,
    /// Why there is no sheet.
    pub no_sheet: Option<String>,
}

/// A fact that comes out otherwise.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Change {
    /// What.
    pub what: String,
    /// The fact's name.
    pub fact: String,
    /// As the recipe is written.
    pub before: String,
    /// With the other material.
    pub after: String,
}

/// The recipe with `to` in the place of `from`, for a volume in litres.
pub fn swap(
    source: Source<'_>,
    (block, bath): (&Block, &Bath),
    (from, to): (&str, &str),
    litres: f64,
) -> Result<Swap, String> {
    let Source { notebook, facts, .. } = source;
    let made = bath.litres().filter(|made| made.best > 0.0);
    let Some(made) = made else {
        return Err(format!("`{}` does not say what it makes", block.id));
    };
    // Names that mean nothing are no answer, but a question to be put again.
    Dosed::instead(notebook, bath, from, to)?;
    let style = notebook.settings.style;
    let volume = show(
        Range::exact(litres),
        Dimension::Volume,
        Digits::Significant(3),
        style,
    );
    let unsolved = Err("its recipe is not known".to_owned());
    let solved = facts.chemistry.get(&bath.id).unwrap_or(&unsolved);
    let multiple = litres / made.best;
    let mut swap = Swap {
        id: block.id.clone(),
        title: block.name().to_owned(),
        volume,
        from: from.to_owned(),
        to: to.to_owned(),
        worth: None,
        why: None,
        instead: Vec::new(),
    };
    match worth(notebook, bath, solved, from, to) {
        Ok(swapped) => swap.worth = Some(told(source, block, &swapped, (from, to), litres, multiple)),
        Err(not) => {
            swap.instead = instead(notebook, &not, (from, to), multiple);
            swap.why = Some(not.why);
        }
    }
    Ok(swap)
}

fn told(
    source: Source<'_>,
    block: &Block,
    swapped: &Swapped,
    (from, to): (&str, &str),
    litres: f64,
    multiple: f64,
) -> Worth {
    let Source {
        notebook,
        facts,
        findings,
    } = source;
    let style = notebook.settings.style;
    let (old, new) = (
        Counted::of(notebook, swapped.written_in),
        Counted::of(notebook, swapped.dosed.counted()),
    );
    let range = swapped.total.scale(multiple);
    let amount = new.rounded(range.best);
    let bath = swapped.dosed.bath(Range::exact(amount / multiple));
    let other = Facts::if_bath_were(notebook, bath);
    let others = found(notebook, &other);
    let mut notes = Vec::new();
    if let Some(acid) = swapped.as_much_acid {
        let acid = acid.scale(multiple);
        if (acid.best / range.best - 1.0).abs() > SMALL {
            notes.push(format!(
                "{} of `{to}` hold as much acid as the `{from}` did: a stop lasts by its acid, and the pH tells only how it begins.",
                new.text(Range::new(
                    new.rounded(acid.low),
                    new.rounded(acid.best),
                    new.rounded(acid.high)
                ))
            ));
        }
    }
    let left_out = cards(notebook, &other, &others).left_out;
    let no_sheet = left_out
        .into_iter()
        .find(|left| left.id == block.id)
        .map(|left| left.why);
    let bath = other.baths.get(&block.id).filter(|_| no_sheet.is_none());
    let sheet = bath.and_then(|bath| {
        let source = Source {
            notebook,
            facts: &other,
            findings: &others,
        };
        let because = format!("with `{to}` in the place of `{from}`");
        let mut sheet = weighing::sheet(source, block, bath, litres, because)?;
        // Whatever the log says, it says of the recipe as it is written.
        sheet.untested = Some("untested".to_owned());
        Some(sheet)
    });
    Worth {
        was: old.text(swapped.written.scale(multiple)),
        amount: new.exactly(amount),
        number: new.in_unit(amount),
        unit: new.unit(),
        low: new.in_unit(range.low),
        high: new.in_unit(range.high),
        range: if new.text(range) == new.text(Range::exact(range.best)) || range.is_exact() {
            String::new()
        } else {
            new.text(range)
        },
        kept: match swapped.kept {
            Kept::Salt => "the same salt in another form, mole for mole".to_owned(),
            Kept::Electrons => "the same for silver: as many electrons".to_owned(),
            Kept::Acid => {
                "as much acid: no amount of it makes the same pH, but a stop lasts by its acid".to_owned()
            }
            Kept::Ph(ph) => format!(
                "the same pH, {}",
                number(Range::exact(ph), Digits::Decimals(1), style)
            ),
        },
        changes: changes(block, facts, &other, style),
        notes,
        findings: only_in(&others, findings, block),
        gone: only_in(findings, &others, block),
        sheet,
        no_sheet,
    }
}

/// The facts that come out otherwise, but for the amounts themselves.
fn changes(block: &Block, facts: &Facts, other: &Facts, style: Style) -> Vec<Change> {
    let (own, bath) = (facts.of_block(&block.id), facts.baths.get(&block.id));
    let amounts = |name: &str| name.starts_with("strength.") || name.starts_with("molar.");
    own.iter()
        .filter(|fact| !amounts(&fact.name))
        .filter_map(|fact| {
            let after = other.get(&block.id, &fact.name);
            let after_text = after.map_or_else(|| "none".to_owned(), |after| after.text(style));
            let before = fact.text(style);
            // Of a pH a tenth is much, of anything else a fiftieth is little.
            let close = match (fact.range(), after.and_then(Fact::range)) {
                (Some(one), Some(two)) => (two.best - one.best).abs() <= SMALL * one.best.abs(),
                _ => false,
            };
            let alike = before == after_text || (close && !fact.name.ends_with("pH"));
            (!alike).then(|| Change {
                what: fact_view::view(block, fact, bath, words(Language::English), style).label,
                fact: fact.name.to_string(),
                before,
                after: after_text,
            })
        })
        .collect()
}

/// What else may be done where nothing of the other material is worth the first.
fn instead(notebook: &Notebook, not: &NotSwapped, (from, to): (&str, &str), multiple: f64) -> Vec<String> {
    let style = notebook.settings.style;
    let mut lines = Vec::new();
    if let Some(same) = &not.same_weight {
        lines.push(format!(
            "The same weight of `{to}` would make {}: the two are not worth the same, however they are weighed.",
            ph_of(same, style).text
        ));
    }
    if let Some((raw, baked)) = not.bake {
        let counted = Counted::of(notebook, Dimension::Mass);
        lines.push(format!(
            "Bake it: {} of `{to}`, spread thin in the oven at 160 °C until it gets no lighter, become {} of anhydrous washing soda, which is what `{from}` stands for here. An adult's job; let it cool before it is opened.",
            counted.exactly(counted.rounded(raw.best * multiple)),
            counted.exactly(counted.rounded(baked.best * multiple)),
        ));
        lines.push(
            "Only the balance shows when it is done: it loses 36.9 % of its weight. At half of that, half of it is still baking soda."
                .to_owned(),
        );
    }
    lines
}

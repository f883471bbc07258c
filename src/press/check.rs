//! Looks through laid-out pages for what the typesetter passes over in silence: cards that run over, words past the edge
//! or over one another, characters that no font has.

use std::collections::BTreeSet;

use typst::foundations::{Label, Selector, Value};
use typst::introspection::{Introspector, MetadataElem, Tag};
use typst::layout::{Frame, FrameItem, Point, Transform};
use typst::text::TextItem;
use typst::utils::PicoStr;
use typst_layout::PagedDocument;

use super::fault::PressFault;
use super::sheet::{Sheet, Spot};
use super::told;
use crate::views::card::Card;

/// Left by the card template: how the ladder of sizes ended.
const FIT: &str = "press-fit";
/// Left before each card: its number.
const CARD: &str = "press-card";
/// Words nearer to the trimmed edge than this may be cut off, mm.
const EDGE_MM: f64 = 2.0;
/// Two words may touch by this much before it counts, mm.
const TOUCH_MM: f64 = 0.3;
/// Height of a lower-case letter in ems, for words over one another.
const LOWER_EM: f64 = 0.45;

/// One run of text on a page, mm.
#[derive(Clone)]
struct Words {
    card: Option<usize>,
    text: String,
    left: f64,
    right: f64,
    baseline: f64,
    size: f64,
}

impl Words {
    /// The same words on a card turned back onto its feet.
    fn turned(&self, spot: &Spot, size: (f64, f64)) -> Self {
        let (across, down) = (2.0 * spot.x + size.0, 2.0 * spot.y + size.1);
        Self {
            left: across - self.left,
            right: across - self.right,
            baseline: down - self.baseline,
            ..self.clone()
        }
    }
}

/// All faults of a document, in the order of its cards or labels, which are given by their ids, cards also as they are on
/// each side; `size` in mm.
pub(super) fn document(
    document: &PagedDocument,
    (cards, sides): (&[String], &[Card]),
    size: (f64, f64),
    sheets: &[Sheet],
) -> Vec<PressFault> {
    let mut faults = too_tall(document, sides);
    for (page, sheet) in document.pages().iter().zip(sheets) {
        let mut walk = Walk::default();
        walk.frame(&page.frame, Transform::identity());
        for spot in &sheet.spots {
            let Some(card) = cards.get(spot.card) else {
                continue;
            };
            let told = faults
                .iter()
                .any(|f| matches!(f, PressFault::Overflow { card: id, .. } if id == card));
            if told {
                continue;
            }
            let words: Vec<Words> = walk
                .words
                .iter()
                .filter(|w| w.card == Some(spot.card))
                .map(|w| {
                    if spot.turned {
                        w.turned(spot, size)
                    } else {
                        w.clone()
                    }
                })
                .collect();
            let (right, bottom) = (spot.x + size.0, spot.y + size.1);
            let past_side = past(&words, |w| {
                (w.right - (right - EDGE_MM)).max(spot.x + EDGE_MM - w.left)
            });
            let past_foot = past(&words, |w| w.baseline - (bottom - EDGE_MM));
            let over_others = overlap(&words);
            for (what, (by_mm, words)) in [
                ("width", past_side),
                ("height", past_foot),
                ("overlap", over_others),
            ] {
                if by_mm > TOUCH_MM {
                    faults.push(PressFault::Overflow {
                        card: card.clone(),
                        by_mm,
                        what: what.to_owned(),
                        words,
                        letters: 0,
                    });
                    break;
                }
            }
        }
        for (card, character) in walk.missing {
            faults.push(PressFault::MissingGlyph {
                card: card
                    .and_then(|card| cards.get(card))
                    .map_or_else(String::new, Clone::clone),
                character,
            });
        }
    }
    faults
}

/// What is wrong with a document of running pages: words past the side or over the foot, characters that no font has.
pub(super) fn pages(document: &PagedDocument, id: &str) -> Vec<PressFault> {
    let mut faults = Vec::new();
    for page in document.pages() {
        let mut walk = Walk::default();
        walk.frame(&page.frame, Transform::identity());
        let (width, height) = (page.frame.width().to_mm(), page.frame.height().to_mm());
        let past_side = past(&walk.words, |w| w.right - (width - EDGE_MM));
        let past_foot = past(&walk.words, |w| w.baseline - (height - EDGE_MM));
        for (what, (by_mm, words)) in [("width", past_side), ("height", past_foot)] {
            if by_mm > TOUCH_MM {
                faults.push(PressFault::Overflow {
                    card: id.to_owned(),
                    by_mm,
                    what: what.to_owned(),
                    words,
                    letters: 0,
                });
            }
        }
        faults.extend(
            walk.missing
                .into_iter()
                .map(|(_, character)| PressFault::MissingGlyph {
                    card: id.to_owned(),
                    character,
                }),
        );
    }
    faults
}

/// Sides that even the smallest sizes did not bring within their height, by their number among all.
pub(super) fn overfull(document: &PagedDocument) -> Vec<usize> {
    let full = fits(document).into_iter().filter(|fit| fit.over_mm > 0.0);
    full.filter_map(|fit| fit.side).collect()
}

/// The same, as faults.
fn too_tall(document: &PagedDocument, sides: &[Card]) -> Vec<PressFault> {
    let full = fits(document).into_iter().filter(|fit| fit.over_mm > 0.0);
    full.map(|fit| {
        let side = fit.side.and_then(|at| sides.get(at));
        let texts = side.map_or_else(Vec::new, |side| told::texts(side, &fit.what));
        let (words, letters) = told::longest(&texts, fit.over_mm / fit.tall_mm.max(1.0));
        PressFault::Overflow {
            card: fit.card,
            by_mm: fit.over_mm,
            what: fit.what,
            words,
            letters,
        }
    })
    .collect()
}

/// How the ladder of sizes ended for one side, by the template's own measure.
struct Fit {
    card: String,
    side: Option<usize>,
    over_mm: f64,
    /// What takes most of the room, and how much, mm.
    what: String,
    tall_mm: f64,
}

fn fits(document: &PagedDocument) -> Vec<Fit> {
    let Some(label) = Label::new(PicoStr::intern(FIT)) else {
        return Vec::new();
    };
    let found = document.introspector().query(&Selector::Label(label));
    let dicts = found
        .iter()
        .filter_map(|content| match &content.to_packed::<MetadataElem>()?.value {
            Value::Dict(dict) => Some(dict),
            _ => None,
        });
    let fits = dicts.map(|dict| {
        let text = |key| match dict.get(key) {
            Ok(Value::Str(text)) => text.to_string(),
            _ => String::new(),
        };
        let number = |key| match dict.get(key) {
            Ok(Value::Float(number)) => *number,
            _ => 0.0,
        };
        Fit {
            card: text("card"),
            side: match dict.get("side") {
                Ok(Value::Int(side)) => usize::try_from(*side).ok(),
                _ => None,
            },
            over_mm: number("over"),
            what: text("what"),
            tall_mm: number("tall"),
        }
    });
    fits.collect()
}

/// How far the run that is furthest out stands out, mm, and its words.
fn past(words: &[Words], by: impl Fn(&Words) -> f64) -> (f64, String) {
    let out = words.iter().map(|w| (by(w), w));
    let furthest = out.max_by(|one, other| one.0.total_cmp(&other.0));
    furthest
        .filter(|(by_mm, _)| *by_mm > 0.0)
        .map_or((0.0, String::new()), |(by_mm, w)| (by_mm, told::quoted(&w.text)))
}

/// The widest stretch that two runs of text share, mm, and their words.
fn overlap(words: &[Words]) -> (f64, String) {
    let mut widest = (0.0, String::new());
    for (at, a) in words.iter().enumerate() {
        for b in words.iter().skip(at + 1) {
            let lower = a.baseline.min(b.baseline);
            let upper = (a.baseline - LOWER_EM * a.size).max(b.baseline - LOWER_EM * b.size);
            let shared = a.right.min(b.right) - a.left.max(b.left);
            if lower - upper > TOUCH_MM && shared > widest.0 {
                let both = [a, b].map(|w| told::quoted(&w.text));
                widest = (shared, both.join("` and `"));
            }
        }
    }
    widest
}

/// A walk through a page in the order in which it was set.
#[derive(Default)]
struct Walk {
    card: Option<usize>,
    words: Vec<Words>,
    missing: BTreeSet<(Option<usize>, char)>,
}

impl Walk {
    fn frame(&mut self, frame: &Frame, placed: Transform) {
        for (at, item) in frame.items() {
            match item {
                FrameItem::Group(group) => {
                    let inner = placed
                        .pre_concat(Transform::translate(at.x, at.y))
                        .pre_concat(group.transform);
                    self.frame(&group.frame, inner);
                }
                FrameItem::Text(text) => self.text(text, *at, placed),
                FrameItem::Tag(tag) => self.tag(tag),
                FrameItem::Shape(..) | FrameItem::Image(..) | FrameItem::Link(..) => {}
            }
        }
    }

    fn tag(&mut self, tag: &Tag) {
        let Tag::Start(content, _) = tag else { return };
        let ours = content
            .label()
            .is_some_and(|label| label.resolve().as_str() == CARD);
        if !ours {
            return;
        }
        self.card = match content.to_packed::<MetadataElem>().map(|elem| &elem.value) {
            Some(Value::Int(number)) => usize::try_from(*number).ok(),
            _ => None,
        };
    }

    fn text(&mut self, text: &TextItem, at: Point, placed: Transform) {
        for glyph in text.glyphs.iter().filter(|glyph| glyph.id == 0) {
            for character in text.text.get(glyph.range()).unwrap_or_default().chars() {
                self.missing.insert((self.card, character));
            }
        }
        let start = at.transform(placed);
        let end = Point::new(at.x + text.width(), at.y).transform(placed);
        self.words.push(Words {
            card: self.card,
            text: text.text.to_string(),
            left: start.x.to_mm(),
            right: end.x.to_mm(),
            baseline: start.y.to_mm(),
            size: text.size.to_mm(),
        });
    }
}

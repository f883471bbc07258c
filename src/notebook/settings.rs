//! `trayside.yaml`: the notebook itself.

use jiff::tz::TimeZone;

use crate::finding::{Finding, Grade, slug};
use crate::source::{Span, Spanned};
use crate::syntax::Node;
use crate::units::Dimension::{
    Angle, Count, Length, Mass, MassConcentration, MassFraction, Molarity, Number, PH, Share, Temperature,
    Volume, VolumeFraction,
};
use crate::units::{Amount, Language, Size, Style};

use super::camera::size;
use super::date::When;
use super::field::{Field, Shape};
use super::ingredient::{Price, pack, price};
use super::keys::Keys;
use super::lower::{Figure, Lower};
use super::manner;
use super::press::{self, Press};
use super::slot::Slot;
use super::words::Premises;

/// What `trayside.yaml` says.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Settings {
    /// The notebook's title.
    pub title: Slot<Spanned<String>>,
    /// The author line.
    pub by: Slot<Spanned<String>>,
    /// Language of the fixed words, ISO 639-1.
    pub language: Slot<Spanned<String>>,
    /// How numbers are written.
    pub style: Style,
    /// Where it is.
    pub place: Slot<Place>,
    /// The zone its dates are in.
    pub zone: Slot<TimeZone>,
    /// Weighing step of the scale.
    pub scale: Slot<Figure>,
    /// Spoons owned.
    pub spoons: Vec<Spanned<Amount>>,
    /// Trays owned.
    pub trays: Vec<TrayOwned>,
    /// The tap's water.
    pub water: Slot<TapWater>,
    /// The room's temperature.
    pub room: Slot<Figure>,
    /// Materials at hand.
    pub shelf: Vec<Packet>,
    /// Who is in the room.
    pub people: Slot<People>,
    /// Where the work is done.
    pub premises: Slot<Spanned<&'static str>>,
    /// What the local authority answered.
    pub drain: Slot<Drain>,
    /// Grades that the notebook sets.
    pub rules: Vec<(Spanned<String>, Option<Grade>)>,
    /// What is pressed.
    pub press: Press,
}

impl Settings {
    /// Whether minors are in the room; none where nobody said.
    pub fn minors(&self) -> Option<bool> {
        let minors = self.people.get()?.minors.get()?;
        Some(minors.value)
    }
}

/// Where a notebook is kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Place {
    /// North positive.
    pub latitude: Slot<Figure>,
    /// East positive.
    pub longitude: Slot<Figure>,
    /// Its name.
    pub name: Slot<Spanned<String>>,
}

/// A tray owned.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TrayOwned {
    /// Its name.
    pub name: Slot<Spanned<String>>,
    /// Inside measures.
    pub inside: Slot<Spanned<Size>>,
    /// Depth.
    pub depth: Slot<Figure>,
}

/// The tap's water.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TapWater {
    /// Calcium and magnesium.
    pub hardness: Slot<Figure>,
    /// Hydrogen carbonate.
    pub alkalinity: Slot<Figure>,
    /// pH.
    pub ph: Slot<Figure>,
}

/// A material at hand.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Packet {
    /// Its name.
    pub material: Slot<Spanned<String>>,
    /// What a pack holds.
    pub pack: Slot<Figure>,
    /// What is left of it.
    pub left: Slot<Figure>,
    /// What a pack costs.
    pub price: Slot<Spanned<Price>>,
    /// Its strength.
    pub strength: Slot<Figure>,
    /// When it was opened.
    pub opened: Slot<Spanned<When>>,
}

/// Who is in the room.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct People {
    /// How many.
    pub count: Slot<Spanned<u32>>,
    /// Whether any is a minor.
    pub minors: Slot<Spanned<bool>>,
}

/// What the water or waste authority said. Only a person can know; nothing here is assumed.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Drain {
    /// Who was asked.
    pub asked: Slot<Spanned<String>>,
    /// When.
    pub on: Slot<Spanned<When>>,
    /// What they answered.
    pub answer: Slot<Spanned<String>>,
}

const PLACE: &[Field] = &[
    Field::required(
        "latitude",
        Shape::Amount(&[Number, Angle]),
        "degrees, north positive",
    ),
    Field::required(
        "longitude",
        Shape::Amount(&[Number, Angle]),
        "degrees, east positive",
    ),
    Field::new("name", Shape::Text, "its name"),
];

const TRAY: &[Field] = &[
    Field::required("name", Shape::Text, "its name"),
    Field::required(
        "inside",
        Shape::Own("a size, such as 200×250 mm"),
        "inside measures",
    ),
    Field::new("depth", Shape::Amount(&[Length]), "depth"),
];

const WATER: &[Field] = &[
    Field::new(
        "hardness",
        Shape::Amount(&[Molarity, MassConcentration]),
        "calcium and magnesium",
    ),
    Field::new(
        "alkalinity",
        Shape::Amount(&[Molarity, MassConcentration]),
        "hydrogen carbonate, which takes acid away",
    ),
    Field::new("pH", Shape::Amount(&[PH]), "pH, for the record"),
];

const SHELF: &[Field] = &[
    Field::required("material", Shape::Text, "its name, with its form"),
    Field::new("pack", Shape::Amount(&[Mass, Volume, Count]), "what a pack holds"),
    Field::new(
        "left",
        Shape::Amount(&[Mass, Volume, Count]),
        "what is left of it",
    ),
    Field::new(
        "price",
        Shape::Own("a number, with the currency after it"),
        "what a pack costs",
    ),
    Field::new(
        "strength",
        Shape::Amount(&[MassConcentration, MassFraction, VolumeFraction, Share, Molarity]),
        "its strength",
    ),
    Field::new("opened", Shape::Date, "when it was opened"),
];

const PEOPLE: &[Field] = &[
    Field::new("count", Shape::Whole, "how many"),
    Field::new("minors", Shape::YesNo, "whether any is a minor"),
];

const DRAIN: &[Field] = &[
    Field::new("asked", Shape::Text, "which authority was asked"),
    Field::new("on", Shape::Date, "when"),
    Field::new("answer", Shape::Text, "what they answered"),
];

/// The keys of `trayside.yaml`.
pub(super) const FIELDS: &[Field] = &[
    Field::new("format", Shape::Whole, "1"),
    Field::required("title", Shape::Text, "the notebook's title"),
    Field::new("by", Shape::Text, "the author line"),
    Field::new("language", Shape::Text, "language of the fixed words: en or de"),
    Field::new("units", Shape::Word(manner::UNITS), "metric or US"),
    Field::new("decimal", Shape::Word(manner::DECIMALS), "point or comma"),
    Field::new("place", Shape::Map(PLACE), "where the sun is computed for"),
    Field::new(
        "zone",
        Shape::Own("an IANA name, such as Europe/Lisbon"),
        "the zone of its dates",
    ),
    Field::new("scale", Shape::Amount(&[Mass]), "weighing step of the scale"),
    Field::new("spoons", Shape::List(&Shape::Amount(&[Volume])), "spoons owned"),
    Field::new("trays", Shape::List(&Shape::Map(TRAY)), "trays owned"),
    Field::new("water", Shape::Map(WATER), "the tap's water"),
    Field::new("room", Shape::Amount(&[Temperature]), "the room's temperature"),
    Field::new("shelf", Shape::List(&Shape::Map(SHELF)), "materials at hand"),
    Field::new("people", Shape::Map(PEOPLE), "who is in the room"),
    Field::new(
        "premises",
        Shape::Word(Premises::WORDS),
        "home, school, club or business",
    ),
    Field::new("drain", Shape::Map(DRAIN), "what the local authority answered"),
    Field::new(
        "rules",
        Shape::Each(&Shape::Word(&["fault", "doubt", "hint", "off"])),
        "rule names to grades",
    ),
    Field::new("press", Shape::Map(press::FIELDS), "what is pressed"),
];

/// Reads the settings, after style and zone.
pub(super) fn lower(node: &Node, head: Span, incomplete: bool) -> (Settings, Lower) {
    let mut lower = Lower::new(manner::style(node), None);
    lower.zone = manner::zone(node, &mut lower);
    let settings = Keys::open(&mut lower, "`trayside.yaml`", head, node, FIELDS, &[], incomplete)
        .map(|mut keys| read(&mut keys))
        .unwrap_or_default();
    lower.zoneless = None;
    (settings, lower)
}

fn read(keys: &mut Keys<'_, '_>) -> Settings {
    format(keys);
    keys.word("units");
    keys.word("decimal");
    Settings {
        title: keys.text("title"),
        by: keys.text("by"),
        language: language(keys),
        style: keys.lower.style,
        place: keys.map("place", place),
        zone: zone_slot(keys),
        scale: keys.figure("scale"),
        spoons: spoons(keys),
        trays: keys.maps("trays", |keys| TrayOwned {
            name: keys.text("name"),
            inside: keys.slot("inside", size),
            depth: keys.figure("depth"),
        }),
        water: keys.map("water", |keys| TapWater {
            hardness: keys.figure("hardness"),
            alkalinity: keys.figure("alkalinity"),
            ph: keys.figure("pH"),
        }),
        room: keys.figure("room"),
        shelf: keys.maps("shelf", |keys| Packet {
            material: keys.text("material"),
            pack: pack(keys),
            left: keys.figure("left"),
            price: keys.slot("price", price),
            strength: keys.figure("strength"),
            opened: keys.when("opened"),
        }),
        people: keys.map("people", |keys| People {
            count: keys.whole("count"),
            minors: keys.yes_no("minors"),
        }),
        premises: keys.word("premises"),
        drain: keys.map("drain", |keys| Drain {
            asked: keys.text("asked"),
            on: keys.when("on"),
            answer: keys.text("answer"),
        }),
        rules: rules(keys),
        press: press::lower(keys),
    }
}

fn format(keys: &mut Keys<'_, '_>) {
    if let Slot::Is(format) = keys.whole("format")
        && format.value != 1
    {
        let message = format!("this version reads format 1, the notebook says {}", format.value);
        keys.lower
            .report(Finding::fault(slug::WORD_UNKNOWN, format.span, message).help("write `format: 1`"));
    }
}

/// The language; one that there are no fixed words in is told.
fn language(keys: &mut Keys<'_, '_>) -> Slot<Spanned<String>> {
    let language = keys.text("language");
    if let Some(code) = language.get()
        && Language::from_code(&code.value).is_none()
    {
        let known: Vec<&str> = Language::ALL.iter().map(|language| language.code()).collect();
        let finding = Finding::new(
            slug::LANGUAGE_UNKNOWN,
            Grade::Doubt,
            code.span,
            format!(
                "there are no fixed words in `{}`: what is printed has English ones",
                code.value
            ),
        );
        keys.lower
            .report(finding.help(format!("write one of {}", known.join(", "))));
    }
    language
}

fn zone_slot(keys: &mut Keys<'_, '_>) -> Slot<TimeZone> {
    if !keys.has("zone") {
        return Slot::Absent;
    }
    keys.node("zone");
    keys.lower.zone.clone().map_or(Slot::Broken, Slot::Is)
}

fn place(keys: &mut Keys<'_, '_>) -> Place {
    let place = Place {
        latitude: keys.figure("latitude"),
        longitude: keys.figure("longitude"),
        name: keys.text("name"),
    };
    for (slot, limit, word) in [
        (&place.latitude, 90.0, "latitude"),
        (&place.longitude, 180.0, "longitude"),
    ] {
        if let Some(figure) = slot.get()
            && (figure.range.low < -limit || figure.range.high > limit)
        {
            let message = format!("a {word} lies between -{limit} and {limit} degrees");
            keys.lower
                .report(Finding::fault(slug::AMOUNT_OUT_OF_RANGE, figure.span, message));
        }
    }
    place
}

fn spoons(keys: &mut Keys<'_, '_>) -> Vec<Spanned<Amount>> {
    keys.items("spoons", |lower, item| lower.amount(item, &[Volume]))
}

/// Rule names and grades; the names are checked where the catalogue is known.
fn rules(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<String>, Option<Grade>)> {
    const GRADES: &[&str] = &["fault", "doubt", "hint", "off"];
    let mut rules = Vec::new();
    for entry in keys.free("rules", "rule names with grades", "zone-missing: off") {
        if keys.lower.is_empty(entry, "`fault`, `doubt`, `hint` or `off`") {
            continue;
        }
        let Some(word) = keys.lower.word(&entry.value, GRADES) else {
            continue;
        };
        let grade = Grade::ALL.into_iter().find(|grade| grade.word() == word.value);
        rules.push((entry.key.clone(), grade));
    }
    rules
}

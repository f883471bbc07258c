//! `trayside.yaml`: the notebook itself.

use jiff::tz::TimeZone;

use crate::finding::{Finding, Grade, slug};
use crate::source::{Span, Spanned};
use crate::syntax::{Entry, Node, NodeKind};
use crate::units::Dimension::{
    Angle, Count, Length, Mass, MassConcentration, MassFraction, Molarity, Number, PH, Share, Temperature,
    Volume, VolumeFraction,
};
use crate::units::{Amount, Decimal, Language, Size, Style, System};

use super::Kind;
use super::camera::size;
use super::date::When;
use super::field::{Field, Shape};
use super::ingredient::{Price, pack, price};
use super::keys::Keys;
use super::lower::{Figure, Lower, text};
use super::press::{self, RoomPress, SheetPress, SlipPress};
use super::slot::Slot;
use super::words::{CardsOf, Flip, Premises};

/// The words for the units that amounts are printed in where nothing was written.
const UNITS: &[&str] = &["metric", "US"];

/// The words for the decimal mark.
const DECIMALS: &[&str] = &["point", "comma"];

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

/// What `press` makes.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Press {
    /// Cards, where asked for.
    pub cards: Option<CardPress>,
    /// Labels, where asked for.
    pub labels: Option<LabelPress>,
    /// Weighing sheets, where asked for.
    pub sheets: Option<SheetPress>,
    /// Blank log slips, where asked for.
    pub slips: Option<SlipPress>,
    /// The room sheet, where asked for.
    pub room: Option<RoomPress>,
    /// The site, where asked for.
    pub site: Option<SitePress>,
    /// Whether nothing was said at all: then cards and site are made.
    pub unsaid: bool,
    /// Things asked for that this version does not make yet.
    pub not_yet: Vec<Spanned<String>>,
}

/// How cards are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CardPress {
    /// What gets cards; recipes, processes, cameras and safelights where nothing is said.
    pub of: Slot<Vec<CardsOf>>,
    /// The lines whose work is shared out, a card for each person.
    pub roles: Vec<Spanned<String>>,
    /// Card size; A6 where nothing is said.
    pub size: Slot<Spanned<Size>>,
    /// Sheet size; A4 where nothing is said.
    pub sheet: Slot<Spanned<Size>>,
    /// Clear film round each card; 4 mm where nothing is said.
    pub border: Slot<Figure>,
    /// How far ink runs over the trimmed edge; 3 mm where nothing is said.
    pub bleed: Slot<Figure>,
    /// Sides of a card that are printed, 1 or 2; 2 where nothing is said.
    pub sides: Slot<Spanned<&'static str>>,
    /// How the printer turns a sheet over; where nothing is said it prints one side, and fronts stand beside their backs.
    pub flip: Slot<Spanned<&'static str>>,
    /// From the eye to a card on the wall; 600 mm where nothing is said.
    pub distance: Slot<Figure>,
}

/// How labels are made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LabelPress {
    /// Label size; 90 × 65 mm where nothing is said.
    pub size: Slot<Spanned<Size>>,
    /// Sheet size; A4 where nothing is said.
    pub sheet: Slot<Spanned<Size>>,
    /// Labels abreast; as many as go where nothing is said.
    pub columns: Slot<Spanned<u32>>,
    /// Labels below one another; as many as go where nothing is said.
    pub rows: Slot<Spanned<u32>>,
    /// Between two abreast.
    pub column_gap: Slot<Figure>,
    /// Between two below one another.
    pub row_gap: Slot<Figure>,
    /// From the sheet's left edge to the first.
    pub left: Slot<Figure>,
    /// From the sheet's upper edge to the first.
    pub top: Slot<Figure>,
    /// Places of the first sheet that are used up.
    pub used: Slot<Spanned<u32>>,
}

/// How the site is made.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SitePress {
    /// Address it will be found at: `http` or `https`, and a stroke at its end.
    pub base: Slot<Spanned<String>>,
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
        "hydrogen carbonate",
    ),
    Field::new("pH", Shape::Amount(&[PH]), "pH"),
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

const CARDS: &[Field] = &[
    Field::new("size", Shape::Own("a size or its name, such as A6"), "card size"),
    Field::new(
        "sheet",
        Shape::Own("a size or its name, such as A4"),
        "sheet size",
    ),
    Field::new(
        "of",
        Shape::List(&Shape::Word(CardsOf::WORDS)),
        "what gets cards; all of them where nothing is said",
    ),
    Field::new(
        "roles",
        Shape::List(&Shape::Reference(&[Kind::Process])),
        "lines whose work is shared out among the `people`, a card each",
    ),
    Field::new("border", Shape::Amount(&[Length]), "clear film round each card"),
    Field::new(
        "bleed",
        Shape::Amount(&[Length]),
        "how far ink runs over the trimmed edge",
    ),
    Field::new(
        "sides",
        Shape::Word(&["1", "2"]),
        "sides of a card that are printed",
    ),
    Field::new(
        "flip",
        Shape::Word(Flip::WORDS),
        "on which edge the printer turns a sheet; without it fronts stand beside their backs",
    ),
    Field::new(
        "distance",
        Shape::Amount(&[Length]),
        "from the eye to a card on the wall; type sizes follow from it",
    ),
];

const LABELS: &[Field] = &[
    Field::new("size", Shape::Own("a size, such as 90×65 mm"), "label size"),
    Field::new(
        "sheet",
        Shape::Own("a size or its name, such as A4"),
        "sheet size",
    ),
    Field::new("columns", Shape::Whole, "labels abreast"),
    Field::new("rows", Shape::Whole, "labels below one another"),
    Field::new("column gap", Shape::Amount(&[Length]), "between two abreast"),
    Field::new(
        "row gap",
        Shape::Amount(&[Length]),
        "between two below one another",
    ),
    Field::new(
        "left",
        Shape::Amount(&[Length]),
        "from the left edge of the sheet to the first label",
    ),
    Field::new(
        "top",
        Shape::Amount(&[Length]),
        "from the upper edge of the sheet to the first label",
    ),
    Field::new("used", Shape::Whole, "places of the first sheet that are used up"),
];

const SITE: &[Field] = &[
    Field::new("base address", Shape::Text, "the address it will be found at"),
    Field::new("base", Shape::Text, "the same, in short"),
];

const PRESS: &[Field] = &[
    Field::new("cards", Shape::Map(CARDS), "wall cards"),
    Field::new("labels", Shape::Map(LABELS), "bottle labels"),
    Field::new("sheets", Shape::Map(press::SHEETS), "weighing sheets"),
    Field::new("slips", Shape::Map(press::SLIPS), "blank log slips, numbered"),
    Field::new("room", Shape::Map(press::ROOM), "the room sheet"),
    Field::new("zine", Shape::Own("settings"), "the zine"),
    Field::new("journal", Shape::Own("settings"), "the journal"),
    Field::new("site", Shape::Map(SITE), "the site"),
];

/// The keys of `trayside.yaml`.
pub(super) const FIELDS: &[Field] = &[
    Field::new("format", Shape::Whole, "1"),
    Field::required("title", Shape::Text, "the notebook's title"),
    Field::new("by", Shape::Text, "the author line"),
    Field::new("language", Shape::Text, "language of the fixed words: en or de"),
    Field::new("units", Shape::Word(UNITS), "metric or US"),
    Field::new("decimal", Shape::Word(DECIMALS), "point or comma"),
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
    Field::new("press", Shape::Map(PRESS), "what is pressed"),
];

/// Reads the settings. The style and zone are read first: everything else is read by them.
pub(super) fn lower(node: &Node, head: Span, incomplete: bool) -> (Settings, Lower) {
    let mut lower = Lower::new(style(node), None);
    lower.zone = zone(node, &mut lower);
    let settings = Keys::open(&mut lower, "`trayside.yaml`", head, node, FIELDS, &[], incomplete)
        .map(|mut keys| read(&mut keys))
        .unwrap_or_default();
    lower.zoneless = None;
    (settings, lower)
}

/// The value of a key, mistyped or not: everything else is read by these.
fn meant<'n>(node: &'n Node, key: &str) -> Option<&'n Node> {
    let near = |entry: &&Entry| {
        super::nearest::nearest(&entry.key.value, FIELDS.iter().map(|field| field.key)) == Some(key)
    };
    let found = || node.entries()?.iter().find(near).map(|entry| &entry.value);
    node.get(key).or_else(found)
}

fn style(node: &Node) -> Style {
    // A mistyped word is read as what was meant: one slip here must not make every amount a mistake.
    let word = |key: &str, words: &[&'static str]| {
        let text = meant(node, key).and_then(Node::text)?.trim();
        super::nearest::nearest(text, words.iter().copied())
    };
    Style {
        decimal: if word("decimal", DECIMALS) == Some("comma") {
            Decimal::Comma
        } else {
            Decimal::Point
        },
        system: if word("units", UNITS) == Some("US") {
            System::UsCustomary
        } else {
            System::Metric
        },
        language: meant(node, "language")
            .and_then(Node::text)
            .and_then(Language::from_code)
            .unwrap_or_default(),
    }
}

fn zone(node: &Node, lower: &mut Lower) -> Option<TimeZone> {
    let value =
        meant(node, "zone").filter(|value| !matches!(value.kind, NodeKind::Empty | NodeKind::Broken))?;
    let name = lower.scalar(value, "a zone")?.trim();
    if let Ok(zone) = TimeZone::get(name) {
        return Some(zone);
    }
    let known: Vec<String> = jiff::tz::db().available().map(|name| name.to_string()).collect();
    let near = super::nearest::nearest(name, known.iter().map(String::as_str)).map(str::to_owned);
    let mut finding = Finding::fault(
        slug::WORD_UNKNOWN,
        value.span,
        format!("`{name}` is no zone of the IANA table"),
    );
    finding = match near {
        Some(near) => finding
            .help(format!("did you mean `{near}`?"))
            .replace(value.span, near),
        None => finding.help("write a region and a city, such as `Europe/Lisbon`"),
    };
    lower.report(finding);
    None
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
        press: pressed(keys),
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

/// The address of a site, with a stroke at its end.
fn address(lower: &mut Lower, node: &Node) -> Option<Spanned<String>> {
    let written = text(lower, node)?;
    let trimmed = written.value.trim();
    let small = trimmed.to_ascii_lowercase();
    let rest = small
        .strip_prefix("https://")
        .or_else(|| small.strip_prefix("http://"));
    let whole = rest.is_some_and(|rest| {
        let host = rest.split(['/', ':']).next().unwrap_or("");
        !host.is_empty() && !rest.contains(['?', '#', '"', '<', '>', '\\', '@'])
    });
    if !whole || trimmed.chars().any(|c| c.is_whitespace() || c.is_control()) {
        lower.report(
            Finding::fault(
                slug::VALUE_SHAPE,
                written.span,
                format!("`{trimmed}` is not the address of a site"),
            )
            .help("write it whole, such as `https://example.org/notebook/`"),
        );
        return None;
    }
    Some(Spanned::new(
        format!("{}/", trimmed.trim_end_matches('/')),
        written.span,
    ))
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
    let Some(node) = keys.has("spoons").then(|| keys.node("spoons")).flatten() else {
        return Vec::new();
    };
    node.items()
        .iter()
        .filter_map(|item| keys.lower.amount(item, &[Volume]))
        .collect()
}

/// Rule names and grades; the names are checked where the catalogue is known.
fn rules(keys: &mut Keys<'_, '_>) -> Vec<(Spanned<String>, Option<Grade>)> {
    const GRADES: &[&str] = &["fault", "doubt", "hint", "off"];
    let Some(node) = keys.has("rules").then(|| keys.node("rules")).flatten() else {
        return Vec::new();
    };
    let Some(entries) = node.entries() else {
        if node.kind != NodeKind::Broken {
            keys.lower.report(
                Finding::fault(
                    slug::VALUE_SHAPE,
                    node.span,
                    format!("`rules` wants rule names with grades, this is {}", node.shape()),
                )
                .help("write one a line, such as `zone-missing: off`"),
            );
        }
        return Vec::new();
    };
    let mut rules = Vec::new();
    for entry in entries {
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

fn pressed(keys: &mut Keys<'_, '_>) -> Press {
    if !keys.has("press") {
        return Press {
            unsaid: true,
            ..Press::default()
        };
    }
    let read = keys.map("press", |keys| {
        let mut made = Press::default();
        if keys.has("cards") {
            made.cards = Some(empty_or(keys, "cards", |keys| CardPress {
                size: keys.slot("size", size),
                sheet: keys.slot("sheet", size),
                of: cards_of(keys),
                roles: keys.references("roles"),
                border: keys.figure("border"),
                bleed: keys.figure("bleed"),
                sides: keys.word("sides"),
                flip: keys.word("flip"),
                distance: keys.figure("distance"),
            }));
        }
        if keys.has("labels") {
            made.labels = Some(empty_or(keys, "labels", |keys| LabelPress {
                size: keys.slot("size", size),
                sheet: keys.slot("sheet", size),
                columns: keys.whole("columns"),
                rows: keys.whole("rows"),
                column_gap: keys.figure("column gap"),
                row_gap: keys.figure("row gap"),
                left: keys.figure("left"),
                top: keys.figure("top"),
                used: keys.whole("used"),
            }));
        }
        if keys.has("site") {
            made.site = Some(empty_or(keys, "site", |keys| SitePress {
                base: match keys.slot("base address", address) {
                    Slot::Absent => keys.slot("base", address),
                    base => base,
                },
            }));
        }
        if keys.has("sheets") {
            made.sheets = Some(empty_or(keys, "sheets", press::sheets));
        }
        if keys.has("slips") {
            made.slips = Some(empty_or(keys, "slips", press::slips));
        }
        if keys.has("room") {
            made.room = Some(empty_or(keys, "room", press::room));
        }
        for later in ["zine", "journal"] {
            if let Some(span) = keys.key_span(later) {
                made.not_yet.push(Spanned::new(later.to_owned(), span));
            }
        }
        made
    });
    read.get().cloned().unwrap_or(Press {
        unsaid: true,
        ..Press::default()
    })
}

/// What gets cards. A word that is not known leaves the others standing.
fn cards_of(keys: &mut Keys<'_, '_>) -> Slot<Vec<CardsOf>> {
    let Some(node) = keys.has("of").then(|| keys.node("of")).flatten() else {
        return Slot::Absent;
    };
    let words = node.items().iter().filter_map(|item| {
        let word = keys.lower.word(item, CardsOf::WORDS)?;
        CardsOf::from_word(word.value)
    });
    Slot::Is(words.collect())
}

/// `cards:` alone asks for cards with the usual settings.
fn empty_or<T: Default>(
    keys: &mut Keys<'_, '_>,
    key: &'static str,
    read: impl FnOnce(&mut Keys<'_, '_>) -> T,
) -> T {
    match keys.raw(key).map(|node| &node.kind) {
        Some(NodeKind::Empty) | None => T::default(),
        _ => match keys.map(key, read) {
            Slot::Is(value) => value,
            _ => T::default(),
        },
    }
}

//! What sheets carry from bath to bath, and the place of a bath in its line.

use std::collections::BTreeMap;

use jiff::Timestamp;

use crate::chem::silver_electrons;
use crate::facts::baths::Baths;
use crate::notebook::{Base, Body, Notebook, Paper, Role, Session, StepKind};
use crate::units::scalar::{AmountOfSubstance, Area, MassPerArea};
use crate::units::{Dimension, Range, Size};

/// Bath that a drained resin-coated sheet carries, in ml/m² (from memory, unverified).
const RESIN_COATED: Range = Range {
    low: 15.0,
    best: 30.0,
    high: 40.0,
};
/// The same of a fibre sheet, which soaks it up (from memory, unverified).
const FIBRE: Range = Range {
    low: 80.0,
    best: 150.0,
    high: 200.0,
};
/// Silver in black-and-white paper, in g/m² (from memory, unverified).
const SILVER: Range = Range {
    low: 0.54,
    best: 1.6,
    high: 3.2,
};
/// The part of a sheet's silver that is developed (assumed: half of it).
pub(super) const DEVELOPED: f64 = 0.5;

/// Where a bath stands in a line.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// The line.
    pub process: String,
    /// The developer that comes before it.
    pub developer: Option<String>,
    /// Whether water comes between the two.
    pub rinsed: bool,
    /// The base of the paper that the line is for.
    pub base: Option<Base>,
}

/// What a sheet is and carries.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// Square metres.
    pub area: f64,
    /// Millilitres that it carries along.
    pub carries: Option<Range>,
    /// Where that figure is from.
    pub because: String,
    /// Grams of silver in a square metre.
    pub silver: Range,
    /// Whether the paper itself says how much silver.
    pub silver_said: bool,
}

impl Sheet {
    /// A sheet of a paper, of this size.
    pub fn of(id: &str, paper: &Paper, size: &Size) -> Self {
        let area = size.area().square_metres();
        let (each, because) = match (paper.carries.get(), paper.known_base()) {
            (Some(carries), _) => (Some(carries.range), format!("`carries` of `{id}`")),
            (None, Some(Base::Rc)) => (
                Some(RESIN_COATED),
                "resin-coated, from memory, unverified".to_owned(),
            ),
            (None, Some(Base::Fibre)) => (Some(FIBRE), "fibre, from memory, unverified".to_owned()),
            (None, None) => (None, "its base is not known".to_owned()),
        };
        Self {
            area,
            carries: each.map(|each| each.scale(area)),
            because,
            silver: paper.silver.get().map_or(SILVER, |silver| silver.range),
            silver_said: paper.silver.get().is_some(),
        }
    }

    /// A sheet of the same paper that covers so many square metres.
    fn cut(&self, area: f64) -> Self {
        let share = if self.area > 0.0 { area / self.area } else { 0.0 };
        Self {
            area,
            carries: self.carries.map(|carries| carries.scale(share)),
            ..self.clone()
        }
    }

    /// Electrons that developing it takes, in moles.
    pub fn electrons(&self) -> Range {
        self.silver.map_monotone(|silver| {
            let silver = MassPerArea::from_grams_per_square_metre(silver);
            let needed: AmountOfSubstance =
                silver_electrons(silver, Area::from_square_metres(self.area), DEVELOPED);
            needed.moles()
        })
    }
}

/// Lines, papers and sessions looked up once.
#[derive(Debug, Default)]
pub struct Lines {
    places: BTreeMap<String, Place>,
    papers: Vec<(String, Option<Base>, Sheet)>,
    /// When sessions used a batch, and what had gone through it once they had.
    used: BTreeMap<String, Vec<(Timestamp, Gone)>>,
}

impl Lines {
    /// Reads every process and paper.
    pub fn of(notebook: &Notebook, baths: &Baths) -> Self {
        let mut lines = Self::default();
        for block in &notebook.blocks {
            match &block.body {
                Body::Process(process) => {
                    let base = process.base();
                    let (mut developer, mut rinsed) = (None, false);
                    for step in &process.steps {
                        let id = step.bath.get().map(|bath| bath.value.clone());
                        let Some(id) = id.filter(|_| step.kind == StepKind::Bath) else {
                            rinsed |= matches!(step.kind, StepKind::Rinse | StepKind::Wash);
                            continue;
                        };
                        let role = baths.get(&id).and_then(crate::facts::Bath::role);
                        lines.places.entry(id.clone()).or_insert_with(|| Place {
                            process: block.id.clone(),
                            developer: developer.clone(),
                            rinsed,
                            base,
                        });
                        if role == Some(Role::Developer) {
                            (developer, rinsed) = (Some(id), false);
                        }
                    }
                }
                Body::Paper(paper) => {
                    if let Some(size) = paper.size.get() {
                        let sheet = Sheet::of(&block.id, paper, &size.value);
                        lines.papers.push((block.id.clone(), paper.known_base(), sheet));
                    }
                }
                Body::Session(session) => {
                    let Some(when) = session.when.get() else { continue };
                    let gone = load(notebook, session).gone;
                    for (_, batch) in &session.baths {
                        let uses = lines.used.entry(batch.value.clone()).or_default();
                        uses.push((when.value.at.timestamp(), gone));
                    }
                }
                _ => {}
            }
        }
        for uses in lines.used.values_mut() {
            uses.sort_by_key(|(when, _)| *when);
            let mut sum = Gone::NOTHING;
            for (_, gone) in uses {
                sum = sum.and(*gone);
                *gone = sum;
            }
        }
        lines
    }

    /// What had gone through a batch before an instant.
    pub fn used_before(&self, batch: &str, when: Timestamp) -> Gone {
        let uses = self.used.get(batch).map_or(&[][..], Vec::as_slice);
        let before = uses.partition_point(|(other, _)| *other < when);
        before
            .checked_sub(1)
            .and_then(|last| uses.get(last))
            .map_or(Gone::NOTHING, |(_, sum)| *sum)
    }

    /// The first line that uses a recipe, and its place there.
    pub fn place(&self, recipe: &str) -> Option<&Place> {
        self.places.get(recipe)
    }

    /// The first paper of a base that says its size.
    pub fn sheet(&self, base: Option<Base>) -> Option<(&str, &Sheet)> {
        self.papers
            .iter()
            .find(|(_, own, _)| base.is_none() || own.is_none() || *own == base)
            .map(|(id, _, sheet)| (id.as_str(), sheet))
    }
}

/// What has gone through a bath, or is to go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gone {
    /// How many sheets.
    pub sheets: u32,
    /// Their area in m²; none where the size of one is not known.
    pub area: Option<f64>,
}

impl Gone {
    /// None at all.
    pub const NOTHING: Self = Self {
        sheets: 0,
        area: Some(0.0),
    };

    /// This and more.
    #[must_use]
    pub fn and(self, more: Self) -> Self {
        Self {
            sheets: self.sheets.saturating_add(more.sheets),
            area: self.area.zip(more.area).map(|(one, other)| one + other),
        }
    }

    /// As how many sheets of one size it counts: what uses a bath up goes by area. Each is one where a size is not known.
    pub fn counted_in(self, sheet: Option<&Sheet>) -> f64 {
        match (self.area, sheet) {
            (Some(area), Some(sheet)) if sheet.area > 0.0 => area / sheet.area,
            _ => f64::from(self.sheets),
        }
    }
}

/// The sheets of a session.
#[derive(Debug, Clone, PartialEq)]
pub struct Load {
    /// How many are listed, each of a bracket counted.
    pub listed: u32,
    /// All of them: those that are listed, or as many as were planned for with spares, where that is more. Planned ones are as
    /// large as the first listed.
    pub gone: Gone,
    /// Grams of silver in all of them; none where the size of one is not known.
    pub silver: Option<Range>,
    /// The first listed, as it comes from the packet: a camera may take a part of it. The pattern that sheets are counted in.
    pub one: Option<Sheet>,
}

/// What a session brings.
pub fn load(notebook: &Notebook, session: &Session) -> Load {
    let mut gone = Gone::NOTHING;
    let mut silver = Some(Range::ZERO);
    let (mut one, mut first) = (None, None);
    for listed in &session.sheets {
        let sheets = notebook.sheets(&listed.value);
        let sheet = sheets
            .paper
            .zip(sheets.size)
            .map(|((block, paper), size)| Sheet::of(&block.id, paper, size));
        let (more, more_silver) = several(sheet.as_ref(), sheets.count);
        gone = gone.and(more);
        silver = silver.zip(more_silver).map(|(sum, more)| sum + more);
        if first.is_none() {
            let packet = sheets.paper.and_then(|(_, paper)| paper.size.get());
            let whole = packet.map(|size| size.value.area().square_metres());
            one = sheet
                .as_ref()
                .map(|sheet| whole.map_or_else(|| sheet.clone(), |whole| sheet.cut(whole)));
            first = sheet;
        }
    }
    if let (Some(one), Some(first), Some(carried)) = (&mut one, &mut first, session.carried.get()) {
        // A weighed sheet: a gram of bath is a millilitre; a volume is counted in litres.
        let millilitres = match carried.dimension {
            Dimension::Volume => carried.range.scale(1000.0),
            _ => carried.range,
        };
        first.carries = Some(millilitres);
        "weighed in this session".clone_into(&mut first.because);
        *one = first.cut(one.area);
    }
    let people = session.people.get().zip(session.each.get());
    let planned = people.map_or(0.0, |(people, each)| {
        let spare = session.spare.get().map_or(0.0, |spare| spare.range.best);
        libm::ceil(f64::from(people.value) * f64::from(each.value) * (1.0 + spare))
    });
    let listed = gone.sheets;
    let unlisted = (planned.clamp(0.0, 1e6) as u32).saturating_sub(listed);
    let (more, more_silver) = several(first.as_ref(), unlisted);
    Load {
        listed,
        gone: gone.and(more),
        silver: silver.zip(more_silver).map(|(sum, more)| sum + more),
        one,
    }
}

/// So many sheets alike, and the silver in them.
fn several(sheet: Option<&Sheet>, count: u32) -> (Gone, Option<Range>) {
    if count == 0 {
        return (Gone::NOTHING, Some(Range::ZERO));
    }
    let area = sheet.map(|sheet| sheet.area * f64::from(count));
    let silver = sheet.zip(area).map(|(sheet, area)| sheet.silver.scale(area));
    (Gone { sheets: count, area }, silver)
}

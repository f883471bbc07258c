//! What sheets carry from bath to bath, and the place of a bath in its line.

use std::collections::BTreeMap;

use jiff::Timestamp;

use crate::chem::silver_electrons;
use crate::facts::baths::Baths;
use crate::notebook::{Base, Body, Notebook, Paper, Role, Session, StepKind};
use crate::units::scalar::{AmountOfSubstance, Area, MassPerArea};
use crate::units::{Dimension, Range};

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
    /// A sheet of a paper, in a line for `base` where the paper does not say its own.
    pub fn of(id: &str, paper: &Paper, base: Option<Base>) -> Option<Self> {
        let area = paper.size.get()?.value.area().square_metres();
        let own = paper.base.get().and_then(|base| Base::from_word(base.value));
        let (each, because) = match (paper.carries.get(), own.or(base)) {
            (Some(carries), _) => (Some(carries.range), format!("`carries` of `{id}`")),
            (None, Some(Base::Rc)) => (
                Some(RESIN_COATED),
                "resin-coated, from memory, unverified".to_owned(),
            ),
            (None, Some(Base::Fibre)) => (Some(FIBRE), "fibre, from memory, unverified".to_owned()),
            (None, None) => (None, "its base is not known".to_owned()),
        };
        Some(Self {
            area,
            carries: each.map(|each| each.scale(area)),
            because,
            silver: paper.silver.get().map_or(SILVER, |silver| silver.range),
            silver_said: paper.silver.get().is_some(),
        })
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
    /// When sessions used a batch, and how many sheets had gone through it once they had.
    used: BTreeMap<String, Vec<(Timestamp, u32)>>,
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
                    if let Some(sheet) = Sheet::of(&block.id, paper, None) {
                        let base = paper.base.get().and_then(|base| Base::from_word(base.value));
                        lines.papers.push((block.id.clone(), base, sheet));
                    }
                }
                Body::Session(session) => {
                    let Some(when) = session.when.get() else { continue };
                    let sheets = load(notebook, session).sheets;
                    for (_, batch) in &session.baths {
                        let uses = lines.used.entry(batch.value.clone()).or_default();
                        uses.push((when.value.at.timestamp(), sheets));
                    }
                }
                _ => {}
            }
        }
        for uses in lines.used.values_mut() {
            uses.sort_by_key(|(when, _)| *when);
            let mut sum = 0_u32;
            for (_, sheets) in uses {
                sum = sum.saturating_add(*sheets);
                *sheets = sum;
            }
        }
        lines
    }

    /// Sheets that had gone through a batch before an instant.
    pub fn used_before(&self, batch: &str, when: Timestamp) -> u32 {
        let uses = self.used.get(batch).map_or(&[][..], Vec::as_slice);
        let before = uses.partition_point(|(other, _)| *other < when);
        before
            .checked_sub(1)
            .and_then(|last| uses.get(last))
            .map_or(0, |(_, sum)| *sum)
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

/// The sheets of a session.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Load {
    /// How many, each of a bracket counted.
    pub sheets: u32,
    /// How many were planned for, with spares.
    pub planned: u32,
    /// Their area in m²; none where the size of one is not known.
    pub area: Option<f64>,
    /// Grams of silver in them.
    pub silver: Option<Range>,
    /// One of them, as the pattern of all.
    pub one: Option<Sheet>,
}

/// What a session brings.
pub fn load(notebook: &Notebook, session: &Session) -> Load {
    let mut load = Load {
        area: Some(0.0),
        silver: Some(Range::ZERO),
        ..Load::default()
    };
    for sheet in &session.sheets {
        let (count, paper) = match notebook.block(&sheet.value).map(|block| &block.body) {
            Some(Body::Exposure(exposure)) => (
                exposure.bracket.get().map_or(1, |bracket| bracket.value.count),
                exposure.paper.get(),
            ),
            Some(Body::Print(print)) => (1, print.paper.get()),
            _ => (1, None),
        };
        load.sheets = load.sheets.saturating_add(count);
        let paper = paper.and_then(|paper| notebook.paper(&paper.value));
        let one = paper.and_then(|(block, paper)| Sheet::of(&block.id, paper, None));
        let count = f64::from(count);
        load.area = load.area.and_then(|area| Some(area + one.as_ref()?.area * count));
        load.silver = load.silver.and_then(|silver| {
            let one = one.as_ref()?;
            Some(silver + one.silver.scale(one.area * count))
        });
        if load.one.is_none() {
            load.one = one;
        }
    }
    if let (Some(one), Some(carried)) = (&mut load.one, session.carried.get()) {
        // A weighed sheet: a gram of bath is a millilitre; a volume is counted in litres.
        let millilitres = match carried.dimension {
            Dimension::Volume => carried.range.scale(1000.0),
            _ => carried.range,
        };
        one.carries = Some(millilitres);
        "weighed in this session".clone_into(&mut one.because);
    }
    let people = session.people.get().zip(session.each.get());
    let planned = people.map_or(0.0, |(people, each)| {
        let spare = session.spare.get().map_or(0.0, |spare| spare.range.best);
        libm::ceil(f64::from(people.value) * f64::from(each.value) * (1.0 + spare))
    });
    load.planned = load.sheets.max(planned.clamp(0.0, 1e6) as u32);
    load
}

//! Everything that follows from the notebook, computed once: each fact a value or the reason why there is none, with its
//! inputs, formula and sources.

mod again;
mod based_on;
mod bath;
mod baths;
mod camera;
mod chemistry;
mod cost;
mod density;
mod dose;
mod earlier;
mod end_of_life;
mod exposure;
mod fact;
mod follow;
mod holes;
mod kept_back;
mod learn;
mod light;
mod line;
mod log;
mod metered;
mod mixing;
mod need;
mod openness;
mod paper;
mod recipe;
pub mod render;
mod session;
mod shelf;
mod stock;
mod sun;
mod swapped;
mod to_give;
mod tray_line;

pub use bath::Bath;
pub use baths::Baths;
pub use camera::hole_constant;
pub use chemistry::{
    Along, Baked, Chemistry, Composition, Curve, Dosed, Gone, Held, Kept, Limit, Lines, Load, Missed,
    NotSwapped, OutOfReach, Place, STOP_SPENT, Sheet, Solution, Solved, Swapped, Widest, baked, load,
    ph_curve, solve_bath, stop_curve, swap, widest,
};
pub use cost::{NoPrice, PackPrice, paper_price, paper_there, price_of};
pub use dose::{Dose, Known, known};
pub use end_of_life::end_of_life;
pub use exposure::{BY_LOG, full_exposures};
pub use fact::{CITED, Fact, Input, Measure, Value, canonical_unit, countable};
pub use kept_back::KeptBack;
pub use learn::{LATEST, Learned, Lesson, Noted};
pub use light::Sunlight;
pub use line::stated_time;
pub use log::Log;
pub use mixing::step_times;
pub use openness::{Open, tells_of_private};
pub use recipe::strengths;
pub use shelf::{Shelf, Shelved, Way, is_liquid};
pub use swapped::swapped;
pub use tray_line::{LineTray, drying, line_trays, move_seconds, tray_times};

use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock, PoisonError};

use rayon::prelude::*;

use crate::notebook::{Block, Body, Changes, Exposure, Notebook};
use crate::source::ByName;
use crate::units::Range;

use again::Reach;

/// The names of what may be computed of a recipe, or the first half of such a name: no part may bear one.
pub const RECIPE_FACTS: &[&str] = &[
    "pH",
    "ionic-strength",
    "buffer-capacity",
    "gas",
    "electrons",
    "ionised",
    "strength",
    "molar",
    "soda-to-vitamin-c",
    "sheets-until-spent",
    "volume",
    "hands-on",
    "duration",
    "cost",
    "dead-by",
    "tested",
];

/// All facts of a notebook.
#[derive(Debug, Default)]
pub struct Facts {
    /// What each recipe really holds.
    pub baths: Baths,
    /// What the log teaches about each paper.
    pub learned: Learned,
    /// The equilibrium of each.
    pub chemistry: Chemistry,
    /// The curves of each that were asked for, as long as its chemistry is.
    curves: Mutex<BTreeMap<String, Curves>>,
    by_block: ByName<String, OfBlock>,
}

/// A bath's pH against more or less of its soda or acid, and a stop's against the sheets through it.
pub type Curves = (Option<Curve>, Option<Curve>);

/// The facts of a block, and their JSON and CSV once somebody asked for it.
#[derive(Debug)]
struct OfBlock {
    facts: Vec<Fact>,
    json: OnceLock<String>,
    csv: OnceLock<Vec<String>>,
}

impl OfBlock {
    fn new(facts: Vec<Fact>) -> Self {
        Self {
            facts,
            json: OnceLock::new(),
            csv: OnceLock::new(),
        }
    }
}

impl Facts {
    /// Computes them all.
    pub fn of(notebook: &Notebook) -> Self {
        Self::of_after(notebook, None).0
    }

    /// What they would be, were one bath another than its recipe says.
    pub fn if_bath_were(notebook: &Notebook, bath: Bath) -> Self {
        let mut baths = Baths::of(notebook);
        baths.put(bath);
        let before = Self {
            chemistry: Chemistry::of(notebook, &baths),
            baths,
            ..Self::default()
        };
        before.brought_up(notebook, Reach::everything()).0
    }

    /// As [`Facts::of`] does, with what `changes` cannot have reached taken over from the facts before them; and how many
    /// blocks were computed.
    pub fn of_after(notebook: &Notebook, before: Option<(Self, &Changes)>) -> (Self, usize) {
        let (mut facts, reach) = Reach::of(notebook, before);
        if !reach.keeps_baths() {
            facts.curves = Mutex::default();
            facts.baths = Baths::of(notebook);
            facts.chemistry = Chemistry::of(notebook, &facts.baths);
        }
        facts.brought_up(notebook, reach)
    }

    /// Computes what a change reaches, by the baths and chemistry that are there: first what others need, then what needs it,
    /// blocks side by side.
    fn brought_up(mut self, notebook: &Notebook, mut reach: Reach<'_>) -> (Self, usize) {
        if reach.is_nothing() {
            return (self, 0);
        }
        let log = Log::of(notebook);
        let shelf = Shelf::of(notebook);
        reach.drop_from(&mut self.by_block);
        let mut computed = 0;
        for needs_learning in [false, true] {
            if needs_learning {
                let mut before = std::mem::take(&mut self.learned);
                self.learned = Learned::of(notebook, &self, &mut before, reach.other_exposures());
                reach.learn(before, &self.learned);
            }
            let blocks = notebook.blocks.par_iter().filter(|block| {
                let late = matches!(block.body, Body::Exposure(_) | Body::Paper(_));
                late == needs_learning && !block.doubled && reach.reaches(block, &self.learned)
            });
            let new: Vec<(String, Vec<Fact>)> = blocks
                .map(|block| (block.id.clone(), self.compute(notebook, &shelf, &log, block)))
                .collect();
            computed += new.len();
            let new = new.into_iter().map(|(id, facts)| (id, OfBlock::new(facts)));
            self.by_block.extend(new);
        }
        (self, computed)
    }

    fn compute(&self, notebook: &Notebook, shelf: &Shelf<'_>, log: &Log<'_>, block: &Block) -> Vec<Fact> {
        let style = notebook.settings.style;
        match &block.body {
            Body::Recipe(_) => self.baths.get(&block.id).map_or_else(Vec::new, |bath| {
                recipe::facts(bath, notebook, shelf, log, &self.chemistry, style)
            }),
            Body::Camera(camera) => camera::facts(camera, notebook, style),
            Body::Paper(paper) => paper::facts(paper, &block.id, &self.learned, style),
            Body::Process(process) => line::process_facts(process, &self.baths, style),
            Body::Safelight(safelight) => line::safelight_facts(safelight, style),
            Body::Exposure(exposure) => exposure::facts(exposure, notebook, self, style),
            Body::Batch(batch) => {
                let mut facts = line::batch_facts(batch, &block.id, log, &self.baths, style);
                let chemistry = &self.chemistry;
                chemistry::batch_facts(
                    batch,
                    &block.id,
                    notebook,
                    log,
                    &self.baths,
                    chemistry,
                    &mut facts,
                );
                facts.push(earlier::recipe_changed(batch, &block.id, notebook));
                facts
            }
            Body::Session(session) => {
                let baths = self.baths.in_session(session);
                let mut facts = session::facts(session, notebook, &baths, style);
                chemistry::session_facts(session, notebook, &baths, &self.chemistry, &mut facts);
                facts
            }
            Body::Ingredient(_) | Body::Print(_) => Vec::new(),
        }
    }

    /// The curves of a recipe's bath, drawn once.
    pub fn curves(&self, notebook: &Notebook, bath: &Bath) -> Curves {
        let draw = || {
            (
                ph_curve(notebook, bath, &self.chemistry),
                stop_curve(bath, &self.chemistry),
            )
        };
        // Another bath may go by the name of this notebook's own.
        if !self
            .baths
            .get(&bath.id)
            .is_some_and(|own| std::ptr::eq(own, bath))
        {
            return draw();
        }
        let known = || self.curves.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(curves) = known().get(&bath.id) {
            return curves.clone();
        }
        let curves = draw();
        known().insert(bath.id.clone(), curves.clone());
        curves
    }

    /// The facts of an exposure that stands in no notebook: one that is only asked about.
    pub fn of_exposure(&self, exposure: &Exposure, notebook: &Notebook) -> Vec<Fact> {
        exposure::facts(exposure, notebook, self, notebook.settings.style)
    }

    /// The facts of a block, in the order of the language's table.
    pub fn of_block(&self, id: &str) -> &[Fact] {
        self.by_block.get(id).map_or(&[], |block| block.facts.as_slice())
    }

    /// The fact of a full name's two halves.
    pub fn get(&self, id: &str, name: &str) -> Option<&Fact> {
        self.of_block(id).iter().find(|fact| fact.name == name)
    }

    /// The value of such a fact, where it is a number that is known.
    pub fn range(&self, id: &str, name: &str) -> Option<Range> {
        self.get(id, name).and_then(Fact::range)
    }

    /// The fact of a full name such as `rosemary-soda.tea.volume`.
    pub fn named(&self, full: &str) -> Option<&Fact> {
        let (id, name) = full.split_once('.')?;
        self.get(id, name)
    }

    /// Every block that has facts, in order of id.
    pub fn iter(&self) -> impl Iterator<Item = (&str, &[Fact])> {
        self.by_block
            .iter()
            .map(|(id, block)| (id.as_str(), block.facts.as_slice()))
    }
}

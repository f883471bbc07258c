//! Which bottles get labels, and what stands on them.

use std::borrow::Cow;

use crate::facts::{Dose, Fact, Facts, Known, known, strengths};
use crate::finding::Finding;
use crate::notebook::{Batch, Block, LabelPress, Notebook, Role, Settings, Swap, slug};
use crate::pantry::{Material, Pantry};
use crate::units::{Digits, Dimension, Range, show};

use super::card::Line;
use super::cards::{LeftOut, blocks, left_out, own_fault};
use super::cautions::{bottle_warnings, waste};
use super::common::Common;
use super::ghs::{self, Signal};
use super::label::{Content, Label, LabelGrid};
use super::words::{Words, capital};

/// The labels of a notebook.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Labels {
    /// Batches first, then recipes to be filled in, each in reading order.
    pub labels: Vec<Label>,
    /// Batches and recipes without a label: on a bottle it would be believed.
    pub left_out: Vec<LeftOut>,
}

/// A label for every batch that was not thrown away, and one to fill in for every recipe that is kept in a bottle: of
/// the role stock, or with a time that it keeps in a bottle or as a stock. What gets no card gets no label either.
pub fn labels(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> Labels {
    let left = left_out(notebook, facts, findings);
    let common = Common::of(notebook, facts, findings);
    let mut made = Labels::default();
    for (block, batch) in notebook.batches() {
        let (Some(of), true) = (batch.of.get(), batch.discarded.is_absent()) else {
            continue;
        };
        if !notebook.leads_to(block) {
            continue;
        }
        let recipe = of.value.as_str();
        let why = own_fault(block, findings).or_else(|| {
            let recipe = left.get(recipe)?;
            Some(format!("its recipe `{}` may not be followed: {recipe}", of.value))
        });
        match (why, notebook.block(recipe)) {
            (Some(why), _) => made.left_out.push(LeftOut {
                id: block.id.clone(),
                title: block.name().to_owned(),
                what: "label",
                why,
            }),
            (None, Some(of)) => made.labels.extend(common.label(block, of, Some(batch))),
            (None, None) => {}
        }
    }
    for block in blocks(notebook).filter(|block| !left.contains_key(block.id.as_str())) {
        let kept = facts.baths.get(&block.id).is_some_and(|bath| {
            let keeps = &bath.recipe.keeps;
            bath.role() == Some(Role::Stock) || keeps.bottle.get().or(keeps.stock.get()).is_some()
        });
        if kept {
            made.labels.extend(common.label(block, block, None));
        }
    }
    made
}

impl Common<'_> {
    fn label(&self, block: &Block, recipe: &Block, batch: Option<&Batch>) -> Option<Label> {
        let baths = &self.facts.baths;
        let now = baths.get(&recipe.id)?;
        // What is in the bottle is what the recipe said then; what is to be done with it is what it says now.
        let bath = batch.map_or(Some(now), |batch| baths.of_batch(&block.id, batch))?;
        let strengths = if baths.is_earlier(&block.id) {
            let solution = self.facts.chemistry.of_batch(&block.id, &recipe.id).ok();
            Cow::Owned(strengths(bath, solution, self.style))
        } else {
            Cow::Borrowed(self.facts.of_block(&recipe.id))
        };
        let words = self.words;
        let held: Vec<Held> = bath
            .doses
            .iter()
            .enumerate()
            .filter(|(at, dose)| {
                // A material that goes into two parts is one.
                let same = |other: &Dose| slug(&other.name.value) == slug(&dose.name.value);
                !bath.doses.iter().take(*at).any(same)
            })
            .map(|(_, dose)| self.held(&strengths, dose, batch))
            .collect();
        let stated = held.iter().flat_map(|held| {
            let codes = held
                .material
                .as_ref()
                .map_or(&[][..], |material| &material.hazards);
            codes.iter().map(|code| (code.as_str(), held.part))
        });
        let statements = ghs::of(stated);
        let pantry = &self.notebook.pantry;
        Some(Label {
            id: block.id.clone(),
            language: words.code.to_owned(),
            title: recipe.name().to_owned(),
            role: bath.role().map_or("", |role| (words.role)(role)).to_owned(),
            lines: self.label_lines(block, batch),
            signal: match statements.signal {
                Some(Signal::Danger) => words.label.danger.to_owned(),
                Some(Signal::Warning) => words.label.warning.to_owned(),
                None => String::new(),
            },
            pictograms: statements.pictograms,
            hazards: statements
                .codes
                .iter()
                .map(|code| words.statement(code, pantry))
                .collect(),
            contents: held.into_iter().map(|held| held.content).collect(),
            warnings: bottle_warnings(bath, self.notebook, self.findings),
            not_food: words.label.not_food.to_owned(),
            waste: capital(&waste(now, self.notebook)),
            stamp: self.stamp(block),
        })
    }

    fn label_lines(&self, block: &Block, batch: Option<&Batch>) -> Vec<Line> {
        let words = self.words;
        let text = |of: &dyn Fn(&Batch) -> Option<String>| batch.and_then(of).unwrap_or_default();
        let dead = self.facts.get(&block.id, "dead-by");
        [
            (
                words.card.mixed_at,
                text(&|batch| Some(batch.made.get()?.written.clone())),
            ),
            (
                words.label.by_whom,
                text(&|batch| Some(batch.by.get()?.value.clone())),
            ),
            (
                words.card.dead_by,
                dead.filter(|dead| dead.value.is_ok())
                    .map_or_else(String::new, |dead| dead.text(self.style)),
            ),
            (
                words.label.volume,
                text(&|batch| Some(batch.volume.get()?.show(self.style))),
            ),
        ]
        .map(|(label, text)| Line::new(label, text))
        .into()
    }

    /// A material as it is in the bottle: as the recipe has it, or as the batch says that it was taken.
    fn held(&self, strengths: &[Fact], dose: &Dose, batch: Option<&Batch>) -> Held {
        let own = slug(&dose.name.value);
        let swaps = batch.map_or(&[][..], |batch| &batch.swaps);
        let swap = swaps.iter().find(|swap| match swap {
            Swap::Amount(addition) => slug(&addition.material.value) == own,
            Swap::Material { from, .. } => slug(&from.value) == own,
        });
        let (name, material, strength) = match swap {
            // How much of the other material was taken is not written; its strength stays open.
            Some(Swap::Material { to, .. }) => {
                let material = match known(self.notebook, &to.value) {
                    Known::Material { material, .. } => Some(*material),
                    _ => None,
                };
                (to.value.as_str(), material, None)
            }
            Some(Swap::Amount(addition)) => {
                let taken = Dose {
                    amount: addition.amount.clone(),
                    ..dose.clone()
                };
                let strength = batch
                    .and_then(|batch| batch.volume.get())
                    .and_then(|litres| taken.grams(litres.range)?.checked_div(litres.range))
                    .map(|strength| (strength, false));
                (dose.name.value.as_str(), dose.material().cloned(), strength)
            }
            None => {
                let by_volume = dose.amount.dimension == Dimension::Volume && dose.known.solution().is_none();
                let full = format!("strength.{own}");
                let fact = strengths.iter().find(|fact| fact.name == full);
                // What could not be read may be this material's swap.
                let sure = batch.is_none_or(|batch| !batch.incomplete);
                let strength = fact
                    .filter(|_| sure)
                    .and_then(|fact| Some((fact.range()?, by_volume)));
                (dose.name.value.as_str(), dose.material().cloned(), strength)
            }
        };
        let formula = material.as_ref().map_or_else(
            || dose.formula().filter(|_| swap.is_none()),
            |material| material.formula.as_ref(),
        );
        Held {
            content: Content {
                name: name.to_owned(),
                chemical: material
                    .as_ref()
                    .and_then(|material| chemical_name(material, self.words))
                    .unwrap_or_default(),
                formula: formula.map_or_else(String::new, |formula| formula.as_str().to_owned()),
                strength: strength.map_or_else(String::new, |strength| self.strength(strength)),
            },
            part: strength.map(|(strength, _)| strength.high / 1000.0),
            material,
        }
    }

    fn strength(&self, (strength, by_volume): (Range, bool)) -> String {
        if by_volume {
            let number = crate::units::number(strength, Digits::Significant(3), self.style);
            return format!("{number}\u{a0}ml/l");
        }
        show(
            strength,
            Dimension::MassConcentration,
            Digits::Significant(3),
            self.style,
        )
    }
}

/// A material in a bottle, and the most of the bottle that it can be.
struct Held {
    content: Content,
    material: Option<Material>,
    part: Option<f64>,
}

/// The first of the chemical names that the pantry has for a material's formula in the language, where its own is none.
fn chemical_name(material: &Material, words: &Words) -> Option<String> {
    let chemical = words.is_chemical;
    let own = material.name.split(',').next().unwrap_or_default();
    if chemical(own) {
        return None;
    }
    let known = Pantry::standard().with_formula(material.formula.as_ref()?);
    let theirs = known.iter().filter_map(|known| known.also.get(words.code));
    let names: Vec<&String> = theirs.flatten().filter(|name| chemical(name)).collect();
    let hydrate = names.iter().find(|name| name.to_lowercase().contains("hydrat"));
    hydrate.or(names.first()).map(|name| (*name).clone())
}

/// How the notebook wants its labels laid: 90 × 65 mm on A4 (ISO 216), in the middle, where it says nothing.
pub fn label_grid(settings: &Settings) -> LabelGrid {
    let usual = LabelPress::default();
    let labels = settings.press.labels.as_ref().unwrap_or(&usual);
    let size = labels.size.get().map(|size| &size.value);
    let sheet = labels.sheet.get().map(|size| &size.value);
    let (width_mm, height_mm) = size.map_or((90.0, 65.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let (sheet_width_mm, sheet_height_mm) = sheet.map_or((210.0, 297.0), |size| {
        (size.width.millimetres(), size.height.millimetres())
    });
    let count = |slot: &crate::notebook::Slot<crate::source::Spanned<u32>>| {
        slot.get().map(|count| count.value as usize)
    };
    let length =
        |slot: &crate::notebook::Slot<crate::notebook::Figure>| slot.get().map(|length| length.range.best);
    let (columns, rows) = (count(&labels.columns), count(&labels.rows));
    let (left_mm, top_mm) = (length(&labels.left), length(&labels.top));
    LabelGrid {
        width_mm,
        height_mm,
        sheet_width_mm,
        sheet_height_mm,
        columns,
        rows,
        column_gap_mm: length(&labels.column_gap).unwrap_or(0.0),
        row_gap_mm: length(&labels.row_gap).unwrap_or(0.0),
        left_mm,
        top_mm,
        used: count(&labels.used).unwrap_or(0),
        // A sheet whose grid is given is cut already.
        outlined: columns.is_none() && rows.is_none() && left_mm.is_none() && top_mm.is_none(),
    }
}

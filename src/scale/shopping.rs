//! What a class needs bought, and what it costs.

use crate::units::scalar::{Mass, Volume};

/// What is to be made, for how many.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// People.
    pub people: u32,
    /// Sheets for each.
    pub sheets_each: u32,
    /// Spare sheets, in percent.
    pub spare_percent: f64,
}

impl Class {
    /// The sheets: people times sheets, with the spare ones, rounded up.
    ///
    /// The spare part is rounded to a millionth of a sheet first, so that 10 % of 100 is 10 and not 11. Source: own
    /// arithmetic.
    pub fn sheets(self) -> u64 {
        let wanted = u64::from(self.people) * u64::from(self.sheets_each);
        let spare = wanted as f64 * self.spare_percent.max(0.0) / 100.0;
        wanted + whole_up(spare)
    }
}

/// A paper as it is sold.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Paper {
    /// Sheets in a pack, at least 1.
    pub pack: u32,
    /// What a pack costs.
    pub cost: f64,
}

/// A bath.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bath {
    /// What one batch makes.
    pub batch: Volume,
    /// How many sheets a litre takes.
    pub sheets_per_litre: f64,
}

/// A material as it is used and sold.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// Its name.
    pub name: String,
    /// Grams to the litre of bath.
    pub per_litre: f64,
    /// What a pack holds.
    pub pack: Mass,
    /// What a pack costs.
    pub cost: f64,
}

/// A line of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// The material's name.
    pub name: String,
    /// How much is used.
    pub mass: Mass,
    /// How many packs to buy.
    pub packs: u64,
    /// What they cost.
    pub buy: f64,
    /// What the used part costs.
    pub used: f64,
}

/// A shopping list.
#[derive(Debug, Clone, PartialEq)]
pub struct List {
    /// Sheets of paper.
    pub sheets: u64,
    /// Packs of paper.
    pub paper_packs: u64,
    /// The bath that the sheets need.
    pub needed: Volume,
    /// Whole batches of it.
    pub batches: u64,
    /// What they make.
    pub made: Volume,
    /// The materials.
    pub lines: Vec<Line>,
    /// Everything bought, in whole packs.
    pub buy_total: f64,
    /// Everything used, at the price of its part of a pack.
    pub used_total: f64,
}

impl List {
    /// What one sheet costs at the price of what is used; nothing without sheets.
    ///
    /// Not the same as what is paid at the till over the number of sheets: both are worth printing.
    pub fn used_per_sheet(&self) -> Option<f64> {
        (self.sheets > 0).then(|| self.used_total / self.sheets as f64)
    }
}

/// Counts what to buy: sheets and packs rounded up, whole batches, whole packs of each material.
///
/// Nothing where a pack, a batch or a capacity is not above zero. Source: own arithmetic.
pub fn list(class: Class, paper: Paper, bath: Bath, materials: &[Material]) -> Option<List> {
    let sellable = materials
        .iter()
        .all(|m| m.pack > Mass::ZERO && m.per_litre >= 0.0);
    if paper.pack == 0 || bath.batch <= Volume::ZERO || bath.sheets_per_litre <= 0.0 || !sellable {
        return None;
    }
    let sheets = class.sheets();
    let paper_packs = sheets.div_ceil(u64::from(paper.pack));
    let needed = Volume::from_litres(sheets as f64 / bath.sheets_per_litre);
    let batches = whole_up(needed / bath.batch);
    let made = bath.batch * batches as f64;
    let lines: Vec<Line> = materials
        .iter()
        .map(|material| {
            let mass = Mass::from_grams(material.per_litre * made.litres());
            let share = mass / material.pack;
            let packs = whole_up(share);
            Line {
                name: material.name.clone(),
                mass,
                packs,
                buy: packs as f64 * material.cost,
                used: share * material.cost,
            }
        })
        .collect();
    let buy_paper = paper_packs as f64 * paper.cost;
    let used_paper = sheets as f64 / f64::from(paper.pack) * paper.cost;
    Some(List {
        sheets,
        paper_packs,
        needed,
        batches,
        made,
        buy_total: buy_paper + lines.iter().map(|line| line.buy).sum::<f64>(),
        used_total: used_paper + lines.iter().map(|line| line.used).sum::<f64>(),
        lines,
    })
}

/// Rounds up, but not for a millionth too much that binary fractions add.
pub(super) fn whole_up(value: f64) -> u64 {
    let nearest = value.round();
    if (value - nearest).abs() < 1e-6 {
        nearest.max(0.0) as u64
    } else {
        value.ceil().max(0.0) as u64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ten_percent_of_a_hundred_is_ten() {
        let class = |people, sheets_each, spare_percent| {
            Class {
                people,
                sheets_each,
                spare_percent,
            }
            .sheets()
        };
        assert_eq!(class(50, 2, 10.0), 110);
        assert_eq!(class(12, 4, 10.0), 53);
        assert_eq!(class(10, 3, 0.0), 30);
    }

    #[test]
    fn packs_are_whole() {
        let paper = Paper { pack: 25, cost: 10.0 };
        let bath = Bath {
            batch: Volume::from_litres(0.6),
            sheets_per_litre: 10.0,
        };
        let class = Class {
            people: 6,
            sheets_each: 4,
            spare_percent: 0.0,
        };
        let soda = Material {
            name: "soda".to_owned(),
            per_litre: 50.0,
            pack: Mass::from_grams(100.0),
            cost: 3.0,
        };
        let list = list(class, paper, bath, &[soda]).unwrap();
        assert_eq!((list.sheets, list.paper_packs, list.batches), (24, 1, 4));
        assert_eq!(list.lines[0].packs, 2);
        assert_eq!(list.buy_total, 16.0);
        let other = super::list(class, Paper { pack: 0, cost: 1.0 }, bath, &[]);
        assert_eq!(other, None);
    }
}

//! A class: how many sheets, loads, fills and litres, what to weigh for each fill, what to buy, and what a sheet costs.

use serde::Serialize;

use crate::facts::{Bath, NoPrice, PackPrice, paper_price, price_of};
use crate::notebook::{Block, Body};
use crate::scale::class::{HANDLING, Turns, fills, fills_by_capacity};
use crate::scale::{packets, shopping};
use crate::units::scalar::Time;
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::not_counted::not_counted;
use super::weighing::{Plan, Sheet, Source, capacity_of, plan};

/// Who comes, and what they do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Class {
    /// How many people.
    pub people: u32,
    /// Sheets for each.
    pub each: u32,
    /// Spare sheets, percent.
    pub spare_percent: f64,
    /// Sheets in a tray at once; as the notebook's line has it where nothing is said.
    pub load: Option<u32>,
    /// Trays of this bath side by side.
    pub trays: u32,
    /// How long the trays have to be ready; as long as the loads take where nothing is said.
    pub lasts: Option<Time>,
}

/// What a class needs of one bath.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClassSheet {
    /// The recipe's id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// Sheets in all, spare ones included.
    pub sheets: u64,
    /// How they come about, and how they go through the trays, a line each.
    pub reckoning: Vec<String>,
    /// Fills of all trays together.
    pub fills: u64,
    /// One fill, as it is read.
    pub fill: String,
    /// Everything together, as it is read.
    pub volume: String,
    /// Everything together, litres.
    pub litres: f64,
    /// What to weigh for one fill.
    pub sheet: Sheet,
    /// What to buy.
    pub shopping: Vec<Purchase>,
    /// What it costs, a line each; in the last, what could not be counted and why.
    pub cost: Vec<String>,
    /// Cost of a sheet at the price of what is used; none where a price is missing.
    pub used_per_sheet: Option<f64>,
    /// Cost of a sheet at the price of the whole packs that have to be bought; none where a price is missing.
    pub bought_per_sheet: Option<f64>,
}

/// A line of the shopping list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Purchase {
    /// What.
    pub material: String,
    /// How much all fills take.
    pub needs: String,
    /// How much is there; empty where that is not known.
    pub there: String,
    /// What to buy, worded.
    pub buy: String,
    /// Packs to buy; none where the pack is not known.
    pub packs: Option<u64>,
    /// What the used part costs.
    pub used: Option<f64>,
    /// What the packs to buy cost.
    pub bought: Option<f64>,
}

/// Reckons a class with one fill as large as `litres`; what is wrong, in a sentence, where it cannot be done.
pub fn class(
    source: Source<'_>,
    block: &Block,
    bath: &Bath,
    class: Class,
    fill: (f64, String),
) -> Result<ClassSheet, String> {
    let style = source.notebook.settings.style;
    let (litres, because) = fill;
    let sheets = shopping::Class {
        people: class.people,
        sheets_each: class.each,
        spare_percent: class.spare_percent,
    }
    .sheets();
    if sheets == 0 {
        return Err("a class of no sheets needs nothing".to_owned());
    }
    let mut reckoning = vec![who(class, sheets, style)];
    let count = fills_needed(source, bath, class, sheets, litres, &mut reckoning)?;
    let Some(Plan { sheet, uses, .. }) = plan(source, block, bath, litres, because) else {
        return Err(format!("`{}` does not say what it makes", bath.id));
    };
    let all = count as f64;
    let shop = Shop {
        source,
        bath,
        style,
        all,
    };
    let mut shopping: Vec<Purchase> = Vec::new();
    let mut gaps: Vec<NoPrice> = Vec::new();
    for used in &uses {
        let purchase = shop.material(used, &mut gaps);
        shopping.push(purchase);
    }
    let total = |lines: &[Purchase]| {
        let sum = |cost: fn(&Purchase) -> Option<f64>| lines.iter().map(cost).sum::<Option<f64>>();
        (sum(|line| line.used), sum(|line| line.bought))
    };
    let without_paper = total(&shopping);
    shopping.push(shop.paper(sheets, &mut gaps));
    let (used, bought) = total(&shopping);
    let money = |value: f64| number(Range::exact(value), Digits::Decimals(2), style);
    let told = |what: &str, used: f64, bought: f64| {
        format!(
            "{what}: used {} in all, {} a sheet; to buy in whole packs {} in all, {} a sheet.",
            money(used),
            money(used / sheets as f64),
            money(bought),
            money(bought / sheets as f64)
        )
    };
    let mut cost = Vec::new();
    if let (Some(used), Some(bought)) = without_paper {
        cost.push(told("This bath", used, bought));
    }
    if let (Some(used), Some(bought)) = (used, bought) {
        cost.push(told("With paper", used, bought));
    } else {
        let priced: Vec<(f64, f64)> = shopping
            .iter()
            .filter_map(|line| line.used.zip(line.bought))
            .collect();
        let (used, bought) = priced.iter().fold((0.0, 0.0), |(used, bought), line| {
            (used + line.0, bought + line.1)
        });
        if !priced.is_empty() && without_paper.0.is_none() {
            cost.push(told("What has a price", used, bought));
        }
    }
    cost.extend(not_counted(&gaps));
    Ok(ClassSheet {
        id: block.id.clone(),
        title: block.name().to_owned(),
        sheets,
        reckoning,
        fills: count,
        fill: sheet.volume.clone(),
        volume: show(
            Range::exact(litres * all),
            Dimension::Volume,
            Digits::Significant(3),
            style,
        ),
        litres: litres * all,
        sheet,
        shopping,
        cost,
        used_per_sheet: used.map(|used| used / sheets as f64),
        bought_per_sheet: bought.map(|bought| bought / sheets as f64),
    })
}

fn who(class: Class, sheets: u64, style: Style) -> String {
    let spare = if class.spare_percent > 0.0 {
        let percent = number(Range::exact(class.spare_percent), Digits::Significant(3), style);
        format!(" and {percent} % spare")
    } else {
        String::new()
    };
    let people = if class.people == 1 { "person" } else { "people" };
    format!(
        "{} {people}, {} sheets each{spare}: {sheets} sheets.",
        class.people, class.each
    )
}

/// Fills by what the bath takes and by how long it lives, whichever is more, and how that came about.
fn fills_needed(
    source: Source<'_>,
    bath: &Bath,
    class: Class,
    sheets: u64,
    litres: f64,
    reckoning: &mut Vec<String>,
) -> Result<u64, String> {
    let style = source.notebook.settings.style;
    let makes = bath
        .litres()
        .ok_or_else(|| format!("`{}` does not say what it makes", bath.id))?;
    let shown = |time: Time| {
        show(
            Range::exact(time.seconds()),
            Dimension::Time,
            Digits::Significant(3),
            style,
        )
    };
    let mut count = u64::from(class.trays);
    match capacity_of(bath, makes, source.notebook) {
        Ok(capacity) => {
            let per_fill = capacity * litres / makes.best;
            let by_capacity = fills_by_capacity(sheets, per_fill)
                .ok_or_else(|| format!("`{}` takes no sheets", bath.id))?;
            reckoning.push(format!(
                "A fill takes {} sheets by its capacity: {by_capacity} {}.",
                number(Range::exact(per_fill), Digits::Significant(3), style),
                noun(by_capacity)
            ));
            count = count.max(by_capacity);
        }
        Err(why) => reckoning.push(format!("Not by capacity: {why}.")),
    }
    let Some(time) = bath.recipe.usage.time.get() else {
        reckoning
            .push("Not by working life: the recipe does not say how long a sheet lies in it.".to_owned());
        return Ok(count);
    };
    let per_load = class.load.or_else(|| places(source, &bath.id)).unwrap_or(1);
    let turns = Turns {
        sheets,
        per_load,
        trays: class.trays,
        each: Time::from_seconds(time.range.high) + HANDLING,
    };
    let trays = if class.trays == 1 { "tray" } else { "trays" };
    reckoning.push(format!(
        "{} loads of {per_load}, {} each with {} for handling: {} in {} {trays}.",
        turns.loads(),
        shown(turns.each),
        shown(HANDLING),
        shown(turns.per_tray()),
        class.trays
    ));
    let Some(life) = bath.recipe.keeps.working() else {
        reckoning.push("Not by working life: the recipe does not say how long it keeps.".to_owned());
        return Ok(count);
    };
    let in_use = class.lasts.unwrap_or_else(|| turns.per_tray());
    if in_use < turns.per_tray() {
        return Err(format!(
            "the loads take {} in the fullest tray, and the trays are ready for {} only: more trays, or larger loads",
            shown(turns.per_tray()),
            shown(in_use)
        ));
    }
    let life = Time::from_seconds(life.range.low);
    let of_tray = fills(in_use, life).ok_or_else(|| format!("`{}` keeps no time at all", bath.id))?;
    reckoning.push(format!(
        "In use for {}, poured away after {}: {of_tray} {} of each tray.",
        shown(in_use),
        shown(life),
        noun(of_tray)
    ));
    Ok(count.max(of_tray * u64::from(class.trays)))
}

fn noun(count: u64) -> &'static str {
    if count == 1 { "fill" } else { "fills" }
}

/// Sheets that lie in this bath at once in the first line that says so.
fn places(source: Source<'_>, bath: &str) -> Option<u32> {
    source.notebook.blocks.iter().find_map(|block| {
        let Body::Process(process) = &block.body else {
            return None;
        };
        let step = process
            .steps
            .iter()
            .find(|step| step.bath.get().is_some_and(|id| id.value == bath))?;
        step.places
            .get()
            .map(|places| places.value)
            .filter(|places| *places > 0)
    })
}

struct Shop<'n> {
    source: Source<'n>,
    bath: &'n Bath,
    style: Style,
    all: f64,
}

impl Shop<'_> {
    fn text(&self, amount: f64, dimension: Dimension, noun: &str) -> String {
        match dimension {
            Dimension::Count => {
                let count = number(Range::exact(amount), Digits::Significant(6), self.style);
                format!("{count} {noun}")
            }
            dimension => show(
                Range::exact(amount),
                dimension,
                Digits::Significant(4),
                self.style,
            ),
        }
    }

    fn material(&self, used: &super::weighing::Use, gaps: &mut Vec<NoPrice>) -> Purchase {
        let needs = used.takes.best * self.all;
        let dose = self.bath.doses.get(used.dose);
        let shelf = crate::facts::Shelf::of(self.source.notebook);
        let price = dose.map(|dose| price_of(dose, used.dimension, &shelf, self.source.notebook));
        let price = match price {
            Some(Ok(price)) => Some(price),
            Some(Err(why)) => {
                gaps.push(why);
                None
            }
            None => None,
        };
        self.purchase(
            used.name.clone(),
            needs,
            used.there.map(|there| there.best),
            used.dimension,
            price,
            "tablets",
        )
    }

    fn paper(&self, sheets: u64, gaps: &mut Vec<NoPrice>) -> Purchase {
        let price = paper_price(self.source.notebook)
            .map_err(|why| gaps.push(why))
            .ok();
        let there = crate::facts::paper_there(self.source.notebook);
        self.purchase(
            "paper".to_owned(),
            sheets as f64,
            there,
            Dimension::Count,
            price,
            "sheets",
        )
    }

    fn purchase(
        &self,
        material: String,
        needs: f64,
        there: Option<f64>,
        dimension: Dimension,
        price: Option<PackPrice>,
        noun: &str,
    ) -> Purchase {
        let missing = packets::after(Range::exact(there.unwrap_or(0.0)), Range::exact(needs))
            .missing
            .best;
        let packs = if missing <= 0.0 {
            Some(0)
        } else {
            price
                .as_ref()
                .filter(|price| price.price > 0.0 || price.pack != 1.0)
                .and_then(|price| packets::whole(missing, price.pack))
        };
        let free = price.as_ref().is_some_and(|price| price.price == 0.0);
        let buy = match (packs, &price) {
            (Some(0), _) => "enough is there".to_owned(),
            (Some(packs), Some(price)) => {
                let noun_of_pack = if packs == 1 { "pack" } else { "packs" };
                format!(
                    "buy {packs} {noun_of_pack} of {}",
                    self.text(price.pack, dimension, noun)
                )
            }
            _ if free => format!("gather {}", self.text(missing, dimension, noun)),
            _ => format!("buy {}", self.text(missing, dimension, noun)),
        };
        Purchase {
            material,
            needs: self.text(needs, dimension, noun),
            there: there.map_or_else(String::new, |there| self.text(there, dimension, noun)),
            buy,
            packs,
            used: price
                .as_ref()
                .and_then(|price| packets::used_cost(Range::exact(needs), price.pack, price.price))
                .map(|cost| cost.best),
            bought: if free {
                Some(0.0)
            } else {
                price.zip(packs).map(|(price, packs)| price.price * packs as f64)
            },
        }
    }
}

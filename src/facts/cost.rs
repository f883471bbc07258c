//! What a bath and a sheet cost: the used part of each pack at the notebook's own prices.

use crate::notebook::{Body, Notebook, Packet, Price, Process, Session};
use crate::scale::packets;
use crate::units::{Digits, Dimension, Range, Style};

use super::bath::Bath;
use super::baths::Baths;
use super::chemistry::load;
use super::dose::Dose;
use super::fact::{Fact, Measure};
use super::shelf::{Shelf, counted_in};

const MONEY: Measure = Measure::Plain("1", Digits::Decimals(2));

/// What a pack holds and costs.
#[derive(Debug, Clone, PartialEq)]
pub struct PackPrice {
    /// What it holds, in the canonical unit of `dimension`.
    pub pack: f64,
    /// What that is measured in.
    pub dimension: Dimension,
    /// What it costs.
    pub price: f64,
    /// The currency as written; empty where none was.
    pub currency: String,
}

/// Why something has no price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoPrice {
    /// Nobody wrote what this costs.
    Unpriced(String),
    /// It has a price, but what a pack of it holds is not known.
    NoPack(String),
    /// Anything else, in words.
    Because(&'static str),
}

impl std::fmt::Display for NoPrice {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Unpriced(name) => write!(f, "`{name}` has no price: give its packet `pack` and `price`"),
            Self::NoPack(name) => write!(f, "what a pack of `{name}` holds is not known"),
            Self::Because(why) => f.write_str(why),
        }
    }
}

/// The price of what a dose takes from the shelf, by its packet, else by the notebook's `ingredient` block; the reason
/// where there is none. The pack is counted in `dimension`.
pub fn price_of(
    dose: &Dose,
    dimension: Dimension,
    shelf: &Shelf<'_>,
    notebook: &Notebook,
) -> Result<PackPrice, NoPrice> {
    let name = &dose.name.value;
    let whole = |pack: Option<Range>, price: &Price| match pack {
        Some(pack) if pack.best > 0.0 => Ok(PackPrice {
            pack: pack.best,
            dimension,
            price: price.amount,
            currency: price.currency.clone(),
        }),
        // What is free costs nothing in any pack.
        _ if price.amount == 0.0 => Ok(PackPrice {
            pack: 1.0,
            dimension,
            price: 0.0,
            currency: price.currency.clone(),
        }),
        _ => Err(NoPrice::NoPack(name.clone())),
    };
    if let Some(packet) = shelf.way(dose).packet()
        && let Some(price) = packet.packet.price.get()
    {
        return whole(packet.pack_in(dimension), &price.value);
    }
    let wanted = match shelf.way(dose).packet() {
        Some(packet) => packet.material.id.clone(),
        None => match dose.material() {
            Some(material) => material.id.clone(),
            None => return Err(NoPrice::Unpriced(name.clone())),
        },
    };
    for at in notebook.packets.blocks(&wanted) {
        if let Some(Body::Ingredient(ingredient)) = notebook.blocks.get(*at).map(|block| &block.body)
            && let Some(price) = ingredient.price.get()
            && let Some(material) = notebook.pantry.get(&wanted)
        {
            let pack = ingredient.pack.get();
            let pack = pack.and_then(|pack| counted_in(material, pack.range, pack.dimension, dimension));
            return whole(pack, &price.value);
        }
    }
    Err(NoPrice::Unpriced(name.clone()))
}

/// The packets that are counted in sheets: paper, by whatever name.
fn papers(notebook: &Notebook) -> impl Iterator<Item = &Packet> {
    notebook.settings.shelf.iter().filter(|packet| {
        packet
            .pack
            .get()
            .is_some_and(|pack| pack.dimension == Dimension::Count && pack.unit.singular == "sheet")
    })
}

/// Sheets of paper on the shelf, where it has one paper.
pub fn paper_there(notebook: &Notebook) -> Option<f64> {
    let mut papers = papers(notebook);
    let paper = papers.next()?;
    let left = paper.left.get().or(paper.pack.get())?;
    (papers.next().is_none() && left.dimension == Dimension::Count).then_some(left.range.best)
}

/// The price of a sheet of paper: of the one packet on the shelf that is counted in sheets; the reason where there is
/// none.
pub fn paper_price(notebook: &Notebook) -> Result<PackPrice, NoPrice> {
    let mut papers = papers(notebook);
    let missing =
        || NoPrice::Because("the paper has no price: put it on the shelf with `pack: 25 sheets` and `price`");
    let paper = papers.next().ok_or_else(missing)?;
    if papers.next().is_some() {
        return Err(NoPrice::Because(
            "the shelf has several papers, and which is used is not known",
        ));
    }
    let (pack, price) = paper.pack.get().zip(paper.price.get()).ok_or_else(missing)?;
    if pack.range.best <= 0.0 {
        return Err(NoPrice::Because("a pack of paper without sheets has no price"));
    }
    Ok(PackPrice {
        pack: pack.range.best,
        dimension: Dimension::Count,
        price: price.value.amount,
        currency: price.value.currency.clone(),
    })
}

/// The used cost of what a recipe makes, with its currency; the first reason why there is none.
fn bath_cost(bath: &Bath, shelf: &Shelf<'_>, notebook: &Notebook) -> Result<(Range, Vec<String>), String> {
    let litres = bath.litres().ok_or("the finished volume cannot be read")?;
    if !bath.complete {
        return Err("part of the recipe cannot be read".to_owned());
    }
    let mut total = Range::ZERO;
    let mut currencies: Vec<String> = Vec::new();
    for dose in &bath.doses {
        let name = &dose.name.value;
        let (takes, dimension) = shelf
            .takes(dose, litres)
            .ok_or_else(|| format!("how much of `{name}` is used cannot be told in grams"))?;
        let price = price_of(dose, dimension, shelf, notebook).map_err(|why| why.to_string())?;
        let cost = packets::used_cost(takes, price.pack, price.price)
            .ok_or_else(|| format!("what a pack of `{name}` holds is not known"))?;
        total = total + cost;
        currencies.push(price.currency);
    }
    one_currency(&mut currencies)?;
    Ok((total, currencies))
}

/// Prices in two currencies cannot be added. A price of which nothing is said is in the one that the others name.
fn one_currency(currencies: &mut Vec<String>) -> Result<(), String> {
    currencies.retain(|currency| !currency.is_empty());
    currencies.sort();
    currencies.dedup();
    match currencies.as_slice() {
        [] | [_] => Ok(()),
        [one, other, ..] => Err(format!("prices are in {one} and in {other}")),
    }
}

/// `cost`: what the recipe's volume costs.
pub(super) fn recipe_fact(bath: &Bath, shelf: &Shelf<'_>, notebook: &Notebook, style: Style) -> Fact {
    let mut fact = Fact::new(
        "cost",
        MONEY,
        "the used part of each pack at its price; water is not counted",
    );
    for dose in &bath.doses {
        fact = fact.from(dose.name.value.clone(), dose.amount.show(style));
    }
    if bath.doses.is_empty() {
        return fact.gap("it holds nothing that is bought");
    }
    match bath_cost(bath, shelf, notebook) {
        Ok((cost, currencies)) => {
            if let Some(currency) = currencies.first() {
                fact = fact.from("currency", currency.clone());
            }
            fact.number(cost)
        }
        Err(why) => fact.gap(why),
    }
}

/// `cost-per-sheet`: the line's baths, each mixed once, shared by the session's sheets, and a sheet of paper.
pub(super) fn session_fact(
    session: &Session,
    process: Option<&Process>,
    notebook: &Notebook,
    baths: &Baths,
) -> Fact {
    let fact = Fact::new(
        "cost-per-sheet",
        MONEY,
        "used cost of the line's recipes, each once, over the sheets, and the paper at its pack's price",
    );
    let sheets = load(notebook, session).gone.sheets;
    if sheets == 0 {
        return fact.gap("how many sheets it had is not noted");
    }
    let fact = fact.from("sheets", sheets.to_string());
    let Some(process) = process else {
        return fact.gap("the process is not known");
    };
    let shelf = Shelf::of(notebook);
    let mut used: Vec<&Bath> = process
        .steps
        .iter()
        .filter_map(|step| baths.get(&step.bath.get()?.value))
        .collect();
    used.sort_by(|a, b| a.id.cmp(&b.id));
    used.dedup_by(|a, b| a.id == b.id);
    let mut total = Range::ZERO;
    let mut all = Vec::new();
    let mut fact = fact;
    for bath in used {
        match bath_cost(bath, &shelf, notebook) {
            Ok((cost, mut currencies)) => {
                fact = fact.from(format!("{}.cost", bath.id), format!("{:.2}", cost.best));
                total = total + cost;
                all.append(&mut currencies);
            }
            Err(why) => return fact.gap(format!("`{}`: {why}", bath.id)),
        }
    }
    let paper = match paper_price(notebook) {
        Ok(paper) => paper,
        Err(why) => return fact.gap(why.to_string()),
    };
    all.push(paper.currency.clone());
    if let Err(why) = one_currency(&mut all) {
        return fact.gap(why);
    }
    let sheet = paper.price / paper.pack;
    fact.from("paper", format!("{sheet:.2} a sheet"))
        .number(total.scale(1.0 / f64::from(sheets)) + Range::exact(sheet))
}

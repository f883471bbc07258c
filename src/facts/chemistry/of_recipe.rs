//! The facts of a recipe that follow from its equilibrium, for the whole and for each part.

use crate::chem::{Input, agent_shares, electrons, ideal_gas_volume};
use crate::facts::bath::Bath;
use crate::facts::fact::{Fact, Measure};
use crate::notebook::{Gas, slug};
use crate::pantry::Property;
use crate::units::scalar::{AmountOfSubstance, Temperature};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::composition::Composition;
use super::solution::{Chemistry, Solution, Solved};

const PH: Measure = Measure::Amount(Dimension::PH, Digits::Decimals(1));
const MOLAL: Measure = Measure::Amount(Dimension::Molality, Digits::Significant(2));
const BUFFER: Measure = Measure::Plain("mol/kg per pH", Digits::Significant(2));
const GAS: Measure = Measure::Plain("ml", Digits::Significant(2));
const ELECTRONS: Measure = Measure::Plain("mmol/l", Digits::Significant(2));
const SHARE: Measure = Measure::Amount(Dimension::Share, Digits::Significant(2));
const RATIO: Measure = Measure::Plain("mol/mol", Digits::Significant(2));

const OF_PH: &str = "balance of charge at equilibrium, with Pitzer's activity coefficients, on the scale of the standard buffers";
const OF_GAS: &str =
    "what leaves the mixed bath; at the high end what is set free when the soda is poured into all the rest";
const OF_IONISED: &str =
    "the part of it that is ionised far enough to reduce silver, between the ends of the pH";

/// Why what hangs on a soda from the oven has no value.
pub(super) const NOT_WEIGHED: &str =
    "how far the baking soda turns in the oven is not known: weigh it before and after";

/// How far the last constant of an agent may be off: 0.2 was read for ascorbic acid and stands in for the others.
const AGENT_CONSTANT: f64 = 0.2;

/// Facts of the whole bath, then of each part.
pub(in crate::facts) fn facts(bath: &Bath, chemistry: &Chemistry, style: Style, facts: &mut Vec<Fact>) {
    if let Some(solved) = chemistry.get(&bath.id) {
        of_one(bath, None, solved, style, facts);
        spent(bath, chemistry, style, facts);
    }
    for part in &bath.recipe.parts {
        let Some(name) = part.name.get() else { continue };
        if let Some(solved) = chemistry.part(&bath.id, &name.value) {
            of_one(bath, Some(&name.value), solved, style, facts);
        }
    }
}

fn of_one(bath: &Bath, part: Option<&str>, solved: &Solved, style: Style, facts: &mut Vec<Fact>) {
    let named = |name: &str| match part {
        Some(part) => format!("{}.{name}", slug(part)),
        None => name.to_owned(),
    };
    let solution = match solved {
        Ok(solution) => solution,
        Err(why) => {
            let gap =
                |name: &str, measure, formula| Fact::new(named(name), measure, formula).gap(why.clone());
            facts.push(gap("pH", PH, OF_PH));
            if part.is_none() {
                facts.push(gap(
                    "ionic-strength",
                    MOLAL,
                    "half of the sum of molality times charge squared",
                ));
                facts.push(gap("buffer-capacity", BUFFER, "strong base for each unit of pH"));
                facts.push(gap("gas", GAS, OF_GAS));
                facts.push(gap(
                    "electrons",
                    ELECTRONS,
                    "electrons of all agents over the volume",
                ));
            }
            return;
        }
    };
    facts.push(ph_fact(named("pH"), bath, part, solution, style));
    let result = |fact: Fact, range: Range| {
        if solution.composition.baked.is_empty() {
            fact.number(range)
        } else {
            fact.gap(NOT_WEIGHED)
        }
    };
    let fact = Fact::new(
        named("ionic-strength"),
        MOLAL,
        "half of the sum of molality times charge squared",
    );
    facts.push(result(fact, solution.ionic));
    let fact = Fact::new(
        named("buffer-capacity"),
        BUFFER,
        "strong base for each unit of pH",
    );
    facts.push(result(fact, solution.buffer));
    facts.push(gas_fact(named("gas"), solution, style));
    facts.push(electrons_fact(named("electrons"), solution, style));
    let ph = solution.ph();
    for agent in agent_shares(&solution.band.equilibrium) {
        let fact = Fact::new(named(&format!("ionised.{}", slug(agent.name))), SHARE, OF_IONISED)
            .from("pH", show(ph, Dimension::PH, Digits::Decimals(1), style))
            .source("iupac-pka");
        facts.push(fact.number(ionised(agent.ionised, ph)));
    }
    if part.is_none() {
        ratio(solution, facts);
    }
}

/// How many sheets it takes, where its role tells how it is used up.
fn spent(bath: &Bath, chemistry: &Chemistry, style: Style, facts: &mut Vec<Fact>) {
    facts.extend(super::capacity::sheets_until_spent(bath, chemistry, style));
}

/// The share between the ends of the pH: its odds grow tenfold with each unit.
fn ionised(share: f64, ph: Range) -> Range {
    let moved = |by: f64| {
        let odds = share / (1.0 - share) * libm::pow(10.0, by);
        if odds.is_finite() {
            odds / (1.0 + odds)
        } else {
            1.0
        }
    };
    Range::new(
        moved(-libm::hypot(ph.best - ph.low, AGENT_CONSTANT)),
        share,
        moved(libm::hypot(ph.high - ph.best, AGENT_CONSTANT)),
    )
}

pub(super) fn ph_fact(
    name: String,
    bath: &Bath,
    part: Option<&str>,
    solution: &Solution,
    style: Style,
) -> Fact {
    let composition = &solution.composition;
    let mut fact = Fact::new(name, PH, OF_PH)
        .source("pitzer-dat")
        .source("phreeqc-dat")
        .source("iupac-pka");
    for dose in &bath.doses {
        if part.is_none() || dose.part.as_deref() == part {
            fact = fact.from(dose.name.value.clone(), dose.amount.show(style));
        }
    }
    let grams = composition.kilograms.scale(1000.0);
    let water = show(grams, Dimension::Mass, Digits::Significant(3), style);
    fact = fact.from(
        "water",
        if composition.weighed {
            water
        } else {
            format!("{water}, what the volume has room for")
        },
    );
    fact = fact.from(
        "alkalinity of the water",
        composition.tap.map_or_else(
            || "none, assumed".to_owned(),
            |tap| show(tap, Dimension::Molarity, Digits::Significant(2), style),
        ),
    );
    if let Some(dilution) = bath.recipe.usage.dilution.get().filter(|_| part.is_none()) {
        fact = fact.from("dilution", format!("{}, as it is used", dilution.show(style)));
    }
    let celsius = show(
        Range::exact(composition.celsius),
        Dimension::Temperature,
        Digits::Significant(3),
        style,
    );
    let assumed = if composition.temperature_assumed {
        ", assumed"
    } else {
        ""
    };
    fact = fact.from("temperature", format!("{celsius}{assumed}"));
    let gas = bath
        .recipe
        .gas
        .get()
        .map_or("fizzed, assumed", |gas| match gas.value.mode {
            Gas::Held => "held",
            Gas::Fizzed => "fizzed",
            Gas::Stood => "stood",
            Gas::Aired => "aired",
        });
    fact = fact.from("carbon dioxide", gas);
    if let Some(kept) = composition.kept_back {
        let kept = show(kept, Dimension::Volume, Digits::Significant(2), style);
        fact = fact.from(
            "kept back by the plants",
            format!("{kept}, with what is dissolved in it"),
        );
    }
    for left_out in &composition.left_out {
        fact = fact.from("left out", left_out.clone());
    }
    for held in composition
        .baked
        .iter()
        .filter_map(|&at| composition.held.get(at))
    {
        fact = fact.from(
            "baked",
            format!("from none of `{}` to all of it, not weighed", held.name),
        );
    }
    fact = fact.from("uncertain", widest(solution));
    if only_plants(bath, part) {
        return fact.gap("the acids and salts that plants bring are not known: measure it");
    }
    if solution.is_unbuffered() {
        return fact.gap(if bath.first(Property::Thiosulfate).is_some() {
            "plain hypo holds no buffer: what the print brings decides"
        } else {
            "nothing in it holds a pH: whatever comes in decides"
        });
    }
    fact.number(solution.ph())
}

/// Whether nothing but plants is in it, whose own acids and salts nobody has tabled; of juices the acid is known.
fn only_plants(bath: &Bath, part: Option<&str>) -> bool {
    let mut doses = bath
        .doses
        .iter()
        .filter(|dose| part.is_none() || dose.part.as_deref() == part)
        .peekable();
    doses.peek().is_some() && doses.all(|dose| dose.is(Property::Plant) && !dose.is(Property::Acid))
}

/// What widens the band of a pH most.
#[derive(Debug, Clone, PartialEq)]
pub struct Widest<'s> {
    /// The cause, and its part of the variance from 0 to 1; none where it is mostly the model itself.
    pub cause: Option<(&'s Input, f64)>,
    /// Whether the solution is so strong that the model was never tried on its like.
    pub strong: bool,
}

impl<'s> Widest<'s> {
    /// Of a solution.
    pub fn of(solution: &'s Solution) -> Self {
        let band = &solution.band;
        let least = band.floor.max(band.models_differ.unwrap_or(0.0));
        let half = (band.high - band.best).max(band.best - band.low);
        let first = band.drivers.first().filter(|_| half > least + 1e-9);
        Self {
            cause: first.map(|first| (&first.input, first.share)),
            strong: band.equilibrium.ionic_strength().moles_per_kilogram() > 3.0,
        }
    }
}

/// What widens the band most, in words.
pub fn widest(solution: &Solution) -> String {
    let Widest { cause, strong } = Widest::of(solution);
    let strong = if strong {
        ", because so strong a solution was never tried"
    } else {
        ""
    };
    let Some((input, share)) = cause else {
        return format!("mostly the model itself{strong}");
    };
    let what = match input {
        Input::Ingredient(name) => format!("the amount or strength of `{name}`"),
        Input::Water => "the amount of water".to_owned(),
        Input::Temperature => "the temperature".to_owned(),
        Input::Constant(family, step) => format!("constant {step} of the {family} family"),
        Input::Pair(one, other) => format!("how {one} and {other} act on each other"),
    };
    format!("mostly {what}, {:.0} % of it{strong}", share * 100.0)
}

fn gas_fact(name: String, solution: &Solution, style: Style) -> Fact {
    let celsius = solution.composition.celsius;
    let millilitres = |amount: AmountOfSubstance| {
        ideal_gas_volume(amount, Temperature::from_celsius(celsius)).millilitres()
    };
    let (gas, worst) = (millilitres(solution.gas), millilitres(solution.gas_at_worst));
    Fact::new(name, GAS, OF_GAS)
        .from(
            "temperature",
            show(
                Range::exact(celsius),
                Dimension::Temperature,
                Digits::Significant(3),
                style,
            ),
        )
        .source("phreeqc-dat")
        .number(Range::new(gas, gas, worst))
}

fn electrons_fact(name: String, solution: &Solution, style: Style) -> Fact {
    let composition = &solution.composition;
    let fact = Fact::new(name, ELECTRONS, "electrons of all agents over the volume").source("half-reactions");
    let litres = composition.litres.unwrap_or(composition.kilograms);
    let of = |value: fn(Range) -> f64| electrons(&composition.at(value)).moles() * 1000.0;
    let fact = fact.from(
        "volume",
        show(litres, Dimension::Volume, Digits::Significant(3), style),
    );
    let all = Range::new(
        of(|range| range.low),
        of(|range| range.best),
        of(|range| range.high),
    );
    match all.checked_div(litres) {
        Some(all) => fact.number(all),
        None => fact.gap("the finished volume is nothing"),
    }
}

/// Moles of soda for each of vitamin C, where both are in it.
fn ratio(solution: &Solution, facts: &mut Vec<Fact>) {
    let composition = &solution.composition;
    let total = |family: &str| {
        let of =
            |composition: &Composition, value: fn(Range) -> f64| composition.at(value).total(family).moles();
        // Baked through, soda has lost half of its carbonate.
        Range::new(
            of(&composition.turned(1.0), |range| range.low),
            of(composition, |range| range.best),
            of(&composition.turned(0.0), |range| range.high),
        )
    };
    let (soda, acid) = (total("carbonic"), total("ascorbic"));
    if soda.best <= 0.0 || acid.best <= 0.0 {
        return;
    }
    let fact = Fact::new(
        "soda-to-vitamin-c",
        RATIO,
        "moles of carbonate, in all its forms, over moles of vitamin C, in all its forms",
    );
    facts.push(match soda.checked_div(acid) {
        Some(ratio) => fact.number(ratio),
        None => fact.gap("the vitamin C may be none at all"),
    });
}

//! How many sheets a bath takes: a stop until it is no longer acid enough, a fixer by area, a developer by what its
//! agent gives and what its buffer bears.

use crate::chem::{NotReached, carry_over_limit, electrons, sheets_until};
use crate::facts::bath::Bath;
use crate::facts::fact::{Fact, Measure};
use crate::notebook::Role;
use crate::units::scalar::Volume;
use crate::units::{Digits, Dimension, Range, Style, show};

use super::carry::Sheet;
use super::of_recipe::NOT_WEIGHED;
use super::solution::{Chemistry, Solution};

/// Where a stop counts as spent (common practice, no source).
pub const STOP_SPENT: f64 = 5.0;
/// Square metres that a litre of fixer takes: 25 000 cm², published for another bath, and for plain hypo half of it
/// (common practice, no source).
const FIXER: Range = Range {
    low: 1.25,
    best: 1.25,
    high: 2.5,
};
/// How often a developer's electrons should cover its sheets (rule of thumb, no source).
const TIMES: f64 = 10.0;
/// How far a developer's pH may fall by the acid that developing frees (rule of thumb, no source).
const FALL: f64 = 0.2;

pub(super) const SHEETS: Measure = Measure::Plain("sheets", Digits::Significant(2));
pub(super) const OF_SHEETS: &str = "a stop to pH 5 by what each sheet carries in and out; a fixer by area; a developer by a tenth of its electrons or until the freed acid lowers it by 0.2; at most the recipe's capacity";

/// The sheets that so much of a bath takes, with the fact's inputs.
pub(super) struct Taken {
    pub(super) sheets: Result<Range, String>,
    pub(super) inputs: Vec<(String, String)>,
}

/// `sheets-until-spent` of a recipe, for what it makes.
pub(super) fn sheets_until_spent(bath: &Bath, chemistry: &Chemistry, style: Style) -> Option<Fact> {
    let role = bath.role()?;
    if !matches!(role, Role::Stop | Role::Fixer | Role::Developer) {
        return None;
    }
    let fact = Fact::new("sheets-until-spent", SHEETS, OF_SHEETS);
    let Some(place) = chemistry.lines.place(&bath.id) else {
        return Some(fact.gap("no line uses it, so what a sheet brings is not known"));
    };
    let Some((paper, sheet)) = chemistry.lines.sheet(place.base) else {
        return Some(fact.gap("no paper of the line says its size"));
    };
    let Some(litres) = bath.working_litres() else {
        return Some(fact.gap("the finished volume cannot be read"));
    };
    let fact = fact.from("line", place.process.clone()).from("paper", paper);
    let taken = taken(
        bath,
        chemistry.solution(&bath.id),
        litres,
        sheet,
        chemistry,
        style,
    );
    let fact = taken
        .inputs
        .into_iter()
        .fold(fact, |fact, (name, value)| fact.from(name, value));
    Some(fact.result(taken.sheets))
}

/// How many sheets `litres` of a bath take, as it stands in the tray.
pub(super) fn taken(
    bath: &Bath,
    solution: Result<&Solution, &str>,
    litres: Range,
    sheet: &Sheet,
    chemistry: &Chemistry,
    style: Style,
) -> Taken {
    let mut inputs = vec![(
        "volume".to_owned(),
        show(litres, Dimension::Volume, Digits::Significant(2), style),
    )];
    if let Some(dilution) = bath.recipe.usage.dilution.get() {
        inputs.push((
            "dilution".to_owned(),
            format!("{}, in the volume", dilution.show(style)),
        ));
    }
    let sheets = match bath.role() {
        Some(Role::Stop) => stop(bath, solution, litres, sheet, chemistry, &mut inputs, style),
        Some(Role::Fixer) => {
            inputs.push((
                "area of a litre".to_owned(),
                "12 500 to 25 000 cm², common practice, no source".to_owned(),
            ));
            if sheet.area > 0.0 {
                Ok((litres * FIXER).scale(1.0 / sheet.area))
            } else {
                Err("the paper has no area".to_owned())
            }
        }
        Some(Role::Developer) => developer(solution, litres, sheet, &mut inputs, style),
        _ => Err("nothing is known of how such a bath is used up".to_owned()),
    };
    let sheets = match said(bath, litres, sheet) {
        Some(said) => {
            inputs.push(("capacity".to_owned(), "as the recipe says, at most".to_owned()));
            sheets.map_or(Ok(said), |found| Ok(least(found, said)))
        }
        None => sheets,
    };
    let sheets = sheets.map(|sheets| Range::new(whole(sheets.low), whole(sheets.best), whole(sheets.high)));
    Taken { sheets, inputs }
}

/// Whole sheets; what lacks a rounding error to the next is the next.
pub(super) fn whole(sheets: f64) -> f64 {
    libm::floor(sheets + sheets.abs() * 1e-9)
}

/// The sheets that `litres` take by the recipe's `capacity`.
fn said(bath: &Bath, litres: Range, sheet: &Sheet) -> Option<Range> {
    let capacity = &bath.recipe.usage.capacity.get()?.value;
    let share = if capacity.per_litre {
        litres
    } else {
        litres.checked_div(bath.litres()?)?
    };
    let sheets = match capacity.amount.dimension {
        Dimension::Count => capacity.amount.range,
        // An area is counted in mm², a sheet in m².
        _ if sheet.area > 0.0 => capacity.amount.range.scale(1e-6 / sheet.area),
        _ => return None,
    };
    Some(sheets * share)
}

/// The smaller of two at either end and in the middle.
fn least(one: Range, other: Range) -> Range {
    Range::new(
        one.low.min(other.low),
        one.best.min(other.best),
        one.high.min(other.high),
    )
}

fn stop(
    bath: &Bath,
    solution: Result<&Solution, &str>,
    litres: Range,
    sheet: &Sheet,
    chemistry: &Chemistry,
    inputs: &mut Vec<(String, String)>,
    style: Style,
) -> Result<Range, String> {
    let place = chemistry.lines.place(&bath.id);
    let Some(developer) = place.and_then(|place| place.developer.as_deref()) else {
        return Err("no developer comes before it, so what a sheet brings is not known".to_owned());
    };
    let own = solution?;
    let other = chemistry
        .solution(developer)
        .map_err(|why| format!("`{developer}`: {why}"))?;
    let limit = chemistry.carry_limit(bath, own, developer, other)?;
    let Some(carries) = sheet.carries else {
        return Err(format!("what a sheet carries is not known: {}", sheet.because));
    };
    inputs.push(("developer".to_owned(), developer.to_owned()));
    inputs.push((
        "developer for each litre of stop, to pH 5".to_owned(),
        show(
            Range::exact(limit),
            Dimension::Volume,
            Digits::Significant(2),
            style,
        ),
    ));
    inputs.push((
        "carried by a sheet".to_owned(),
        format!(
            "{}, {}",
            show(
                carries.scale(1e-3),
                Dimension::Volume,
                Digits::Significant(2),
                style
            ),
            sheet.because
        ),
    ));
    if place.is_some_and(|place| place.rinsed) {
        inputs.push(("rinse before it".to_owned(), "not counted".to_owned()));
    }
    let count = |litres: f64, millilitres: f64| {
        sheets_until(
            limit,
            Volume::from_litres(litres),
            Volume::from_millilitres(millilitres),
        )
        .map(f64::from)
        .ok_or_else(|| "the volumes make no sense: a sheet carries as much as the tray holds".to_owned())
    };
    Ok(Range::new(
        count(litres.low, carries.high)?,
        count(litres.best, carries.best)?,
        count(litres.high, carries.low)?,
    ))
}

/// Litres of developer for each litre of stop that bring the stop to where it is spent.
pub(super) fn limit(stop: &Solution, developer: &Solution) -> Result<f64, String> {
    let stop_bath = stop.composition.with_ranges().best();
    let developer_bath = developer.composition.with_ranges().best();
    carry_over_limit(&stop_bath, &developer_bath, STOP_SPENT, stop.composition.gas).map_err(|error| {
        match error {
            NotReached::Already { ph } => format!("at pH {ph:.1} it is spent before the first sheet"),
            NotReached::OutOfReach { .. } => "what the sheets bring never takes it to pH 5".to_owned(),
            NotReached::Unsolved(error) => error.to_string(),
        }
    })
}

fn developer(
    solution: Result<&Solution, &str>,
    litres: Range,
    sheet: &Sheet,
    inputs: &mut Vec<(String, String)>,
    style: Style,
) -> Result<Range, String> {
    let solution = solution?;
    let composition = &solution.composition;
    if !composition.baked.is_empty() {
        return Err(NOT_WEIGHED.to_owned());
    }
    let made = composition.litres.unwrap_or(composition.kilograms);
    let of = |value: fn(Range) -> f64| electrons(&composition.at(value)).moles();
    let held = Range::new(
        of(|range| range.low),
        of(|range| range.best),
        of(|range| range.high),
    );
    let share = litres
        .checked_div(Range::exact(made.best))
        .ok_or_else(|| "the finished volume is nothing".to_owned())?;
    let each = sheet.electrons();
    let by_agent = (held * share)
        .checked_div(each.scale(TIMES))
        .ok_or_else(|| "the paper holds no silver".to_owned())?;
    // Each silver atom that is reduced frees about one hydrogen ion.
    let borne = solution.buffer.best * FALL * composition.kilograms.best;
    let by_buffer = share
        .scale(borne)
        .checked_div(each)
        .ok_or_else(|| "the paper holds no silver".to_owned())?;
    inputs.push((
        "silver of the paper".to_owned(),
        format!(
            "{}{}",
            show(
                sheet.silver,
                Dimension::MassPerArea,
                Digits::Significant(2),
                style
            ),
            if sheet.silver_said {
                ""
            } else {
                ", from memory, unverified"
            }
        ),
    ));
    inputs.push(("of it developed".to_owned(), "half, assumed".to_owned()));
    inputs.push((
        "not counted".to_owned(),
        "air, which ends most developers sooner: see its working life".to_owned(),
    ));
    Ok(Range::new(
        by_agent.low.min(by_buffer.low),
        by_agent.best.min(by_buffer.best),
        by_agent.high.min(by_buffer.high),
    ))
}

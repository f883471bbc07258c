//! Exposure values, times, reciprocity, strips.

use serde_json::{Map, Value};

use trayside::optics::ev::{self, Receptor};
use trayside::optics::{Reciprocity, ReciprocityTable, f_number, paper_speed, preflash, reciprocity, strip};
use trayside::units::scalar::{ExposureValue, FNumber, Illuminance, LuminousExposure, Speed, Stops, Time};

use super::inputs::{Inputs, pair};
use super::{Fields, number, numbers};

fn seconds(inputs: &Inputs<'_>, names: &[&str]) -> Result<Time, String> {
    inputs.number(names).map(Time::from_seconds)
}

/// The speed of a row.
pub(super) fn speed(inputs: &Inputs<'_>) -> Result<Speed, String> {
    inputs
        .number_or(&["EI", "S", "ISO", "speed"], 100.0)
        .map(Speed::new)
}

/// The receptor of a row: a constant or a word.
pub(super) fn receptor(inputs: &Inputs<'_>) -> Result<Receptor, String> {
    if inputs.value(&["C"]).is_some() {
        return inputs.number(&["C"]).map(Receptor::Constant);
    }
    match inputs.text_or(&["receptor"], "dome")? {
        "flat" => Ok(Receptor::Flat),
        "dome" | "hemispherical" => Ok(Receptor::Hemispherical),
        other => Err(format!("no receptor `{other}`")),
    }
}

fn time_from_ev100(inputs: &Inputs<'_>) -> Fields {
    let value = ExposureValue::new(inputs.number(&["EV100", "EV"])?);
    let n = FNumber::new(inputs.number(&["f_number", "N"])?);
    let t = ev::metered_time(value, n, speed(inputs)?);
    Ok(numbers([("t_s", t.seconds())]))
}

fn lux_to_ev(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let light = Illuminance::from_lux(inputs.number(&["E_lux", "lux"])?);
    let (speed, receptor) = (speed(inputs)?, receptor(inputs)?);
    let value = ev::from_lux(light, receptor);
    let mut fields = numbers([
        ("EV100", value.value()),
        ("N2_over_t", ev::f_number_squared_per_time(light, speed, receptor)),
    ]);
    for field in expected.keys() {
        let n = field
            .strip_prefix("t_at_f")
            .and_then(|rest| rest.strip_suffix("_s"));
        if let Some(n) = n.and_then(|n| n.parse().ok()) {
            let t = ev::metered_time(value, FNumber::new(n), speed);
            fields.insert(field.clone(), number(t.seconds()));
        }
    }
    Ok(fields)
}

fn sunny(inputs: &Inputs<'_>) -> Fields {
    let luminance = ev::luminance(
        FNumber::new(inputs.number(&["f_number", "N"])?),
        seconds(inputs, &["t_s"])?,
        speed(inputs)?,
        inputs.number_or(&["K"], 12.5)?,
    );
    Ok(numbers([("L_cd_m2", luminance)]))
}

fn f_number_conversion(inputs: &Inputs<'_>) -> Fields {
    let (from, to) = (
        FNumber::new(inputs.number(&["N0"])?),
        FNumber::new(inputs.number(&["N"])?),
    );
    let t = f_number::time_at(seconds(inputs, &["t0_s"])?, from, to);
    Ok(numbers([
        ("t_s", t.seconds()),
        ("stops", f_number::stops_between(from, to).stops()),
    ]))
}

fn apply_stops(inputs: &Inputs<'_>) -> Fields {
    let stops = Stops::new(inputs.number(&["stops_more", "stops"])?);
    let t = ev::more_light(seconds(inputs, &["t_s"])?, stops);
    Ok(numbers([("t_s", t.seconds())]))
}

fn preflashed(inputs: &Inputs<'_>) -> Fields {
    let darkest = LuminousExposure::from_lux_seconds(inputs.number(&["darkest_exposure"])?);
    let flash = LuminousExposure::from_lux_seconds(inputs.number(&["flash_exposure"])?);
    let range = Stops::new(inputs.number(&["scene_range_stops"])?);
    Ok(numbers([
        (
            "new_range_stops",
            preflash::range_after(darkest, range, flash).stops(),
        ),
        (
            "compression_stops",
            preflash::compression(darkest, range, flash).stops(),
        ),
    ]))
}

fn corrected(law: &Reciprocity, metered: Time) -> Map<String, Value> {
    numbers([
        ("t_corrected_s", law.corrected(metered).seconds()),
        ("extra_stops", law.extra_stops(metered).stops()),
    ])
}

fn power(inputs: &Inputs<'_>) -> Fields {
    let p = match inputs.value(&["q"]) {
        Some(_) => {
            reciprocity::exponent_from_q(inputs.number(&["q"])?).ok_or("q is not above 0 and up to 1")?
        }
        None => inputs.number(&["p", "exponent"])?,
    };
    let threshold = Time::from_seconds(inputs.number_or(&["threshold_s", "t0_s"], 1.0)?);
    let law = Reciprocity::power(p, threshold).map_err(|error| error.to_string())?;
    Ok(corrected(&law, seconds(inputs, &["t_metered_s"])?))
}

fn additive(inputs: &Inputs<'_>) -> Fields {
    let law = Reciprocity::Additive {
        factor: seconds(inputs, &["a_s", "a"])?,
        exponent: inputs.number_or(&["exponent"], 1.62)?,
    };
    Ok(corrected(&law, seconds(inputs, &["t_metered_s"])?))
}

fn table(inputs: &Inputs<'_>) -> Fields {
    let pairs = inputs
        .list(&["pairs"])?
        .iter()
        .map(pair)
        .collect::<Result<Vec<_>, _>>()?;
    let times = pairs
        .iter()
        .map(|(a, b)| (Time::from_seconds(*a), Time::from_seconds(*b)));
    let table = ReciprocityTable::new(times.collect()).map_err(|error| error.to_string())?;
    let mut fields = Map::new();
    for (ends, exponent) in pairs.windows(2).zip(table.exponents()) {
        if let [(a, _), (b, _)] = ends {
            fields.insert(format!("p_between_{a}_and_{b}"), number(exponent));
        }
    }
    if inputs.value(&["t_metered_s"]).is_some() {
        fields.extend(corrected(
            &Reciprocity::Table(table),
            seconds(inputs, &["t_metered_s"])?,
        ));
    }
    Ok(fields)
}

fn times(all: &[Time]) -> Value {
    Value::Array(all.iter().map(|time| number(time.seconds())).collect())
}

fn geometric_strip(inputs: &Inputs<'_>) -> Fields {
    let step = Stops::new(inputs.number(&["step_stops"])?);
    let totals = strip::totals(
        seconds(inputs, &["base_s"])?,
        step,
        inputs.count(&["strips", "steps"])?,
    );
    let mut fields = Map::new();
    fields.insert(
        "incremental_exposures_s".to_owned(),
        times(&strip::additional(&totals)),
    );
    fields.insert("total_times_s".to_owned(), times(&totals));
    Ok(fields)
}

fn published(inputs: &Inputs<'_>) -> Fields {
    let mut fields = Map::new();
    if inputs.value(&["stops"]).is_some() {
        let stops = Stops::new(inputs.number(&["stops"])?);
        fields.insert("multiplier".to_owned(), number(stops.factor()));
    }
    for (input, field, time) in [
        ("dodge_stops", "dodge_s", strip::dodge as fn(Time, Stops) -> Time),
        ("burn_stops", "burn_s", strip::burn),
    ] {
        if inputs.value(&[input]).is_some() {
            let stops = Stops::new(inputs.number(&[input])?);
            let t = time(seconds(inputs, &["base_s"])?, stops);
            fields.insert(field.to_owned(), number(t.seconds()));
        }
    }
    Ok(fields)
}

fn bracket(inputs: &Inputs<'_>) -> Fields {
    let all = strip::bracket(
        seconds(inputs, &["centre_s", "center_s"])?,
        Stops::new(inputs.number(&["step_stops"])?),
        inputs.count(&["frames"])?,
    );
    Ok(Map::from_iter([("times_s".to_owned(), times(&all))]))
}

fn paper(inputs: &Inputs<'_>) -> Fields {
    let p = inputs.number(&["paper_speed_P", "P"])?;
    Ok(numbers([
        ("Hm_lux_s", paper_speed::speed_exposure(p).lux_seconds()),
        ("EI", paper_speed::estimated_index(p).index()),
    ]))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "time_from_ev100" => time_from_ev100(inputs),
        "lux_to_ev" => lux_to_ev(inputs, expected),
        "published_sunny16" => sunny(inputs),
        "f_number_conversion" => f_number_conversion(inputs),
        "apply_stops" => apply_stops(inputs),
        "preflash" => preflashed(inputs),
        "schwarzschild_power" => power(inputs),
        "additive_power" => additive(inputs),
        "classic_table_exponent" => table(inputs),
        "geometric_strip" => geometric_strip(inputs),
        "published" => published(inputs),
        "bracket" => bracket(inputs),
        "paper_speed_to_ei_estimate" => paper(inputs),
        _ => return None,
    })
}

//! Development, fixing, cooling, safelights.

use serde_json::{Map, Value};

use trayside::clock::cooling::{self, Standing};
use trayside::clock::{development, fixing, temperature};
use trayside::optics::safelight;
use trayside::units::scalar::{Area, Length, Mass, Temperature, Time, Volume};

use super::inputs::{Inputs, pair};
use super::{Fields, number, numbers};

fn seconds(inputs: &Inputs<'_>, names: &[&str]) -> Result<Time, String> {
    inputs.number(names).map(Time::from_seconds)
}

fn celsius(inputs: &Inputs<'_>, names: &[&str]) -> Result<Temperature, String> {
    inputs.number(names).map(Temperature::from_celsius)
}

fn temperature_q10(inputs: &Inputs<'_>) -> Fields {
    let q10 = inputs.number_or(&["Q10"], temperature::PLANT_Q10.best)?;
    let (at, now) = (celsius(inputs, &["T_ref_C"])?, celsius(inputs, &["T_C"])?);
    let t = temperature::q10_time(seconds(inputs, &["t_ref_s"])?, at, now, q10);
    Ok(numbers([
        ("t_s", t.seconds()),
        (
            "equivalent_Ea_kJ_mol",
            temperature::activation_of_q10(q10) / 1000.0,
        ),
    ]))
}

fn temperature_arrhenius(inputs: &Inputs<'_>) -> Fields {
    let activation = inputs.number(&["Ea_kJ_mol"])? * 1000.0;
    let (at, now) = (celsius(inputs, &["T_ref_C"])?, celsius(inputs, &["T_C"])?);
    let t = temperature::arrhenius_time(seconds(inputs, &["t_ref_s"])?, at, now, activation);
    Ok(numbers([
        ("t_s", t.seconds()),
        ("equivalent_Q10", temperature::q10_of_activation(activation)),
    ]))
}

fn two_points(inputs: &Inputs<'_>) -> Fields {
    let first = (seconds(inputs, &["t1_s"])?, celsius(inputs, &["T1_C"])?);
    let second = (seconds(inputs, &["t2_s"])?, celsius(inputs, &["T2_C"])?);
    let q10 = temperature::q10_from_two(first, second).ok_or("the two points do not differ")?;
    Ok(numbers([("Q10", q10)]))
}

fn factorial(inputs: &Inputs<'_>) -> Fields {
    let total = development::factorial(seconds(inputs, &["appearance_s"])?, inputs.number(&["factor"])?);
    Ok(numbers([("total_s", total.seconds())]))
}

fn mixed(inputs: &Inputs<'_>) -> Fields {
    let parts = inputs
        .list(&["parts"])?
        .iter()
        .map(pair)
        .collect::<Result<Vec<_>, _>>()?;
    let factor = development::mixed_factor(&parts).ok_or("no parts")?;
    Ok(numbers([("factor", factor)]))
}

fn fixer_capacity(inputs: &Inputs<'_>) -> Fields {
    let area = |name: &str| inputs.number(&[name]).map(Area::from_square_millimetres);
    let volume = Volume::from_litres(inputs.number(&["volume_l"])?);
    let per_litre = inputs.number(&["capacity_sheets_per_l"])?;
    let capacity = fixing::sheets(
        fixing::capacity(volume, per_litre, area("ref_sheet_mm2")?),
        area("sheet_mm2")?,
    );
    let used = inputs.number_or(&["used_sheets"], 0.0)?;
    Ok(numbers([
        ("capacity_sheets", capacity),
        ("used_percent", 100.0 * used / capacity),
        ("sheets_left", capacity - used),
    ]))
}

fn clearing(inputs: &Inputs<'_>) -> Fields {
    let now = seconds(inputs, &["now_clear_s"])?;
    let mut fields = numbers([("min_fix_s", fixing::shortest(now).seconds())]);
    if inputs.value(&["fresh_clear_s"]).is_some() {
        let spent = fixing::is_spent(seconds(inputs, &["fresh_clear_s"])?, now);
        fields.insert("discard".to_owned(), Value::Bool(spent));
    }
    Ok(fields)
}

fn inverse_square(inputs: &Inputs<'_>) -> Fields {
    let cm = |name: &str| inputs.number(&[name]).map(Length::from_centimetres);
    let safe = Time::from_minutes(inputs.number(&["safe_min"])?);
    let new = safelight::at_distance(safe, cm("r1_cm")?, cm("r2_cm")?);
    Ok(numbers([("safe_min_new", new.minutes())]))
}

fn standing(inputs: &Inputs<'_>, expected: &Map<String, Value>, pot: Standing) -> Fields {
    let mut fields = numbers([("k_per_min", pot.per_minute)]);
    for field in expected.keys() {
        let minutes = field
            .strip_prefix("T_after_")
            .and_then(|rest| rest.strip_suffix("min_C"));
        if let Some(minutes) = minutes.and_then(|minutes| minutes.parse().ok()) {
            let later = pot.after(Time::from_minutes(minutes));
            fields.insert(field.clone(), number(later.celsius()));
        }
    }
    if inputs.value(&["target_C"]).is_some() {
        let until = pot
            .until(celsius(inputs, &["target_C"])?)
            .map_err(|error| error.to_string())?;
        fields.insert("minutes".to_owned(), number(until.minutes()));
        fields.insert("minutes_total".to_owned(), number(until.minutes()));
    }
    Ok(fields)
}

fn newton_cooling(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let pot = Standing {
        start: celsius(inputs, &["T0_C"])?,
        room: celsius(inputs, &["ambient_C", "room_C"])?,
        per_minute: inputs.number(&["k_per_min"])?,
    };
    standing(inputs, expected, pot)
}

fn from_reading(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let pot = Standing::from_reading(
        celsius(inputs, &["T0_C"])?,
        celsius(inputs, &["ambient_C", "room_C"])?,
        Time::from_minutes(inputs.number(&["minutes"])?),
        celsius(inputs, &["T_reading_C"])?,
    )
    .map_err(|error| error.to_string())?;
    standing(inputs, expected, pot)
}

fn mix(inputs: &Inputs<'_>) -> Fields {
    let (hot, cold) = cooling::mix(
        celsius(inputs, &["hot_C"])?,
        celsius(inputs, &["cold_C"])?,
        Volume::from_millilitres(inputs.number(&["total_ml"])?),
        celsius(inputs, &["target_C"])?,
    )
    .map_err(|error| error.to_string())?;
    Ok(numbers([
        ("hot_ml", hot.millilitres()),
        ("cold_ml", cold.millilitres()),
    ]))
}

fn ice(inputs: &Inputs<'_>) -> Fields {
    let ice = cooling::ice(
        Mass::from_grams(inputs.number(&["mass_g"])?),
        celsius(inputs, &["T_C"])?,
        celsius(inputs, &["target_C"])?,
        Temperature::from_celsius(inputs.number_or(&["ice_C"], 0.0)?),
    )
    .map_err(|error| error.to_string())?;
    Ok(numbers([("ice_g", ice.grams())]))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "temperature_q10" => temperature_q10(inputs),
        "temperature_arrhenius" => temperature_arrhenius(inputs),
        "fit_q10_two_points" => two_points(inputs),
        "published_factorial" => factorial(inputs),
        "published_factorial_mix" => mixed(inputs),
        "fixer_capacity" => fixer_capacity(inputs),
        "clearing_time_rule" => clearing(inputs),
        "inverse_square_safe_time" => inverse_square(inputs),
        "newton_cooling" => newton_cooling(inputs, expected),
        "fit_k_from_reading" => from_reading(inputs, expected),
        "mix_hot_cold" => mix(inputs),
        "ice_cooling" => ice(inputs),
        _ => return None,
    })
}

//! Fits of a log.

use serde_json::{Map, Value};

use trayside::optics::fit::{Entry, Estimates, Prior};
use trayside::units::scalar::{ExposureValue, FNumber, Stops, Time};

use super::inputs::Inputs;
use super::{Fields, numbers};

fn fit_exposure_log(inputs: &Inputs<'_>) -> Fields {
    let entries = inputs
        .list(&["data"])?
        .iter()
        .map(entry)
        .collect::<Result<Vec<_>, _>>()?;
    let all = Estimates::of(&entries, &Prior::paper()).ok_or("no line through the log")?;
    let mut fields = numbers([
        ("ols_p", all.ordinary.line.exponent),
        ("ols_EI", all.ordinary.line.speed()),
        ("ols_se_p", all.ordinary.exponent_error),
        ("ols_se_log2EI", all.ordinary.log2_speed_error),
        ("ols_resid_sd_stops", all.ordinary.residual),
        ("huber_p", all.huber.exponent),
        ("huber_EI", all.huber.speed()),
        ("softl1_p", all.soft_l1.exponent),
        ("softl1_EI", all.soft_l1.speed()),
        ("map_p", all.posterior.line.exponent),
        ("map_EI", all.posterior.line.speed()),
        ("map_sd_p", all.posterior.exponent_sd()),
        ("map_sd_log2EI", all.posterior.log2_speed_sd()),
    ]);
    let strange = all.exponent_is_strange();
    fields.insert("warn_p_outside_1_to_2".to_owned(), Value::Bool(strange));
    Ok(fields)
}

fn entry(value: &Value) -> Result<Entry, String> {
    let row = Inputs::new(value)?;
    Entry::new(
        ExposureValue::new(row.number(&["EV100", "EV"])?),
        FNumber::new(row.number(&["N", "f_number"])?),
        Time::from_seconds(row.number(&["t_s", "t"])?),
        Stops::new(row.number_or(&["needs_stops", "stops_needed", "stops"], 0.0)?),
        0,
    )
    .ok_or_else(|| format!("outside the model: {value}"))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, _expected: &Map<String, Value>) -> Option<Fields> {
    (topic == "fit_exposure_log").then(|| fit_exposure_log(inputs))
}

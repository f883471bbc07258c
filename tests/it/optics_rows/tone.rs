//! Scans, curves, mirrors, red light.

use serde_json::{Map, Value, json};

use trayside::tone::flip::{Way, needs_flip};
use trayside::tone::{curve, density, red_light, srgb};

use super::inputs::{Inputs, one};
use super::{Fields, numbers};

fn scan_density(inputs: &Inputs<'_>) -> Fields {
    let level = inputs.number(&["srgb"])?;
    let white = inputs.number_or(&["paper_white_srgb", "white_srgb"], 255.0)?;
    let linear = srgb::level_to_linear(level);
    let mut fields = numbers([
        ("linear", linear),
        (
            "density_above_white",
            density::above_white(linear, srgb::level_to_linear(white)),
        ),
        ("naive_invert_srgb", density::invert_plainly(level)),
    ]);
    if inputs.value(&["black_srgb"]).is_some() {
        let inverted = density::invert_level(level, white, inputs.number(&["black_srgb"])?);
        fields.extend(numbers([("density_invert_srgb", inverted)]));
    }
    Ok(fields)
}

fn characteristic_curve(inputs: &Inputs<'_>) -> Fields {
    let exposures = inputs.numbers(&["log10_H", "logH"])?;
    let densities = inputs.numbers(&["D"])?;
    if exposures.len() != densities.len() {
        return Err("as many densities as exposures are needed".to_owned());
    }
    let steps: Vec<(f64, f64)> = exposures.into_iter().zip(densities).collect();
    let curve = curve::fit(&steps).ok_or("no curve through the steps")?;
    let point = |value: Option<f64>| value.unwrap_or(f64::NAN);
    let range = point(curve.range());
    Ok(numbers([
        ("dmin", curve.dmin),
        ("dmax", curve.dmax),
        ("k", curve.k),
        ("x0", curve.x0),
        ("logH_T", point(curve.toe())),
        ("logH_S", point(curve.shoulder())),
        ("logH_060", point(curve.speed_point())),
        ("ISO_range", range),
        ("ISO_range_rounded", curve::rounded_range(range)),
        ("paper_speed", point(curve.speed())),
        ("mid_slope", curve.middle_slope()),
    ]))
}

fn red_of(inputs: &Inputs<'_>, names: &[&str]) -> Result<f64, String> {
    match inputs.list(names)? {
        [red, ..] => one(red),
        [] => Err("a colour has no red".to_owned()),
    }
}

fn red_light_contrast(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let (front, back) = (
        red_of(inputs, &["fg_srgb", "fg"])?,
        red_of(inputs, &["bg_srgb", "bg"])?,
    );
    let contrast = red_light::contrast(front, back);
    let mut fields = numbers([("red_channel_contrast", contrast)]);
    for field in expected.keys() {
        if let Some(limit) = field
            .strip_prefix("pass_at_")
            .and_then(|limit| limit.replace('_', ".").parse::<f64>().ok())
        {
            fields.insert(field.clone(), json!(contrast >= limit));
        }
    }
    fields.insert("pass".to_owned(), json!(red_light::is_readable(front, back)));
    Ok(fields)
}

fn lateral_reversal(inputs: &Inputs<'_>) -> Fields {
    let view = inputs.text_or(&["view"], "emulsion")?.to_lowercase();
    // Whatever the shape of the paper.
    let _ = inputs.value(&["surface"]);
    let _ = inputs.value(&["rotated_180"]);
    let contact = view.contains("contact");
    let base = view.contains("base");
    let known = contact
        || base
        || view.contains("emulsion")
        || view.contains("face_down")
        || view.contains("flatbed");
    if !known {
        return Err(format!("no view `{view}`"));
    }
    let prints = inputs.number_or(
        &["contact_prints", "face_to_face_prints"],
        f64::from(u8::from(contact && !base)),
    )?;
    let loading = inputs.text_or(&["loading", "paper_loaded", "loaded"], "emulsion to hole")?;
    let way = Way {
        // A print through the base shows its own emulsion.
        from_emulsion: contact || !base,
        mirrors: super::inputs::whole(inputs.number_or(&["mirrors_in_camera", "mirrors"], 0.0)?)?,
        capture_mirrors: inputs.flag_or(
            &[
                "capture_mirrors",
                "device_mirrors",
                "capture_device_mirrors",
                "capture_already_mirrors",
                "scanner_mirrors",
            ],
            false,
        )?,
        reversed: inputs.flag_or(&["reversed", "loaded_reversed", "emulsion_away_from_hole"], false)?
            || loading.contains("away")
            || loading.contains("reversed"),
        face_to_face: super::inputs::whole(prints)?,
    };
    Ok(Map::from_iter([(
        "mirror_flip_needed".to_owned(),
        json!(needs_flip(way)),
    )]))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "scan_density" => scan_density(inputs),
        "characteristic_curve_fit" => characteristic_curve(inputs),
        "red_light_contrast" => red_light_contrast(inputs, expected),
        "lateral_reversal" => lateral_reversal(inputs),
        _ => return None,
    })
}

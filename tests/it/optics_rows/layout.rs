//! Sizes and orders of printed things.

use serde_json::{Map, Value, json};

use trayside::scale::print;
use trayside::units::scalar::{Angle, Length};

use super::inputs::{Inputs, one, whole};
use super::{Fields, number, numbers};

fn mm(inputs: &Inputs<'_>, names: &[&str]) -> Result<Length, String> {
    inputs.number(names).map(Length::from_millimetres)
}

fn character_height(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let angle = Angle::from_degrees(inputs.number(&["arcmin"])? / 60.0);
    let height = print::character_height(mm(inputs, &["distance_mm"])?, angle);
    let mut fields = numbers([("height_mm", height.millimetres())]);
    for field in expected.keys() {
        let ratio = field
            .strip_prefix("cap_pt_if_cap_ratio_")
            .or_else(|| field.strip_prefix("x_pt_if_x_ratio_"));
        if let Some(ratio) = ratio.and_then(|ratio| ratio.replace('_', ".").parse().ok()) {
            fields.insert(field.clone(), number(print::type_size(height, ratio)));
        }
    }
    for (field, ratio) in [("cap_pt", print::CAP_RATIO), ("x_pt", print::X_RATIO)] {
        fields.insert(field.to_owned(), number(print::type_size(height, ratio)));
    }
    Ok(fields)
}

fn limits(inputs: &Inputs<'_>) -> Fields {
    let (low, high) = print::height_limits(mm(inputs, &["distance_mm"])?);
    Ok(numbers([
        ("min_mm", low.millimetres()),
        ("max_mm", high.millimetres()),
    ]))
}

fn saddle_stitch(inputs: &Inputs<'_>) -> Fields {
    let sheets = print::saddle_stitch(inputs.count(&["pages"])?);
    let all: Vec<Value> = sheets
        .iter()
        .map(|sheet| json!({"front": [sheet.front.0, sheet.front.1], "back": [sheet.back.0, sheet.back.1]}))
        .collect();
    Ok(Map::from_iter([("sheets".to_owned(), Value::Array(all))]))
}

fn creep(inputs: &Inputs<'_>) -> Fields {
    let sheets = print::saddle_stitch(inputs.count(&["pages"])?).len() as u32;
    let paper = mm(inputs, &["paper_mm"])?;
    Ok(numbers([
        ("sheets", f64::from(sheets)),
        ("innermost_pushout_mm", print::creep(sheets, paper).millimetres()),
        ("simple_rule_mm", print::creep_simple(sheets, paper).millimetres()),
    ]))
}

/// A page's number, with or without the mark of an upside-down page.
fn page(value: &Value) -> Result<u32, String> {
    match value.as_str() {
        Some(text) => text
            .trim_matches(|c: char| !c.is_ascii_digit())
            .parse()
            .map_err(|_| format!("no page: {value}")),
        None => whole(one(value)?),
    }
}

fn pages(list: &[Value]) -> Result<Vec<u32>, String> {
    list.iter().map(page).collect()
}

fn pairs(inputs: &Inputs<'_>) -> Fields {
    let rows = inputs
        .list(&["rows"])?
        .iter()
        .map(|row| pages(row.as_array().ok_or("a row is no list")?))
        .collect::<Result<Vec<_>, String>>()?;
    let sum = print::pairs_sum(&rows);
    Ok(Map::from_iter([("pairs_sum".to_owned(), json!(sum))]))
}

fn folded(inputs: &Inputs<'_>) -> Fields {
    let row = |names: &[&str]| -> Result<[u32; 4], String> {
        pages(inputs.list(names)?)?
            .try_into()
            .map_err(|_| "a row has four panels".to_owned())
    };
    let (top, bottom) = (
        row(&["top_row_upside_down", "top"])?,
        row(&["bottom_row_upright", "bottom"])?,
    );
    let cycle = print::fold_cycle(top, bottom);
    Ok(Map::from_iter([
        ("cycle_left_bottom_then_right_top".to_owned(), json!(cycle)),
        ("consecutive_mod_8".to_owned(), json!(print::runs_upwards(cycle))),
        ("valid".to_owned(), json!(print::folds_in_order(top, bottom))),
    ]))
}

fn card_format(inputs: &Inputs<'_>) -> Fields {
    let name = inputs.text(&["name"])?;
    let format = print::card_format(name).ok_or_else(|| format!("no format `{name}`"))?;
    let mut fields = numbers([
        ("w_mm", format.width.millimetres()),
        ("h_mm", format.height.millimetres()),
    ]);
    if let Some(thickness) = format.thickness {
        fields.insert("thickness_mm".to_owned(), number(thickness.millimetres()));
    }
    if let Some((low, high)) = format.corner_radius {
        let radius = json!([low.millimetres(), high.millimetres()]);
        fields.insert("corner_radius_mm".to_owned(), radius);
    }
    Ok(fields)
}

fn lamination(inputs: &Inputs<'_>) -> Fields {
    let named = match inputs.value(&["card"]) {
        Some(name) => name.as_str().and_then(print::card_format),
        None => None,
    };
    let side = |names: &[&str], of: fn(print::CardFormat) -> Length| match (inputs.value(names), named) {
        (None, Some(format)) => Ok(of(format)),
        _ => mm(inputs, names),
    };
    let width = side(&["w_mm"], |format| format.width)?;
    let height = side(&["h_mm"], |format| format.height)?;
    let margin = inputs.number_or(
        &["sealed_margin_mm", "margin_mm"],
        print::SEALED_MARGIN.millimetres(),
    )?;
    let (w, h) = print::film(width, height, Length::from_millimetres(margin));
    Ok(numbers([
        ("film_w_mm", w.millimetres()),
        ("film_h_mm", h.millimetres()),
    ]))
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "character_height" => character_height(inputs, expected),
        "published_character_height" => limits(inputs),
        "saddle_stitch" => saddle_stitch(inputs),
        "creep" => creep(inputs),
        "published_16pp_triple_fold" => pairs(inputs),
        "eight_page_folded_sheet" => folded(inputs),
        "card_format" => card_format(inputs),
        "lamination" => lamination(inputs),
        _ => return None,
    })
}

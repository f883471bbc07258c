//! Dilutions, percentages, shopping.

use serde_json::{Map, Value, json};

use trayside::scale::dilution::{Dilution, DilutionError, weaken};
use trayside::scale::shopping::{Bath, Class, Material, Paper, list};
use trayside::scale::{cross_mixing, percent};
use trayside::units::scalar::{Mass, Volume};

use super::inputs::{Inputs, as_number};
use super::{Fields, number, numbers};

fn dilute_percent(inputs: &Inputs<'_>) -> Fields {
    // Ounces as well as millilitres: the unit stays what it was.
    let total =
        Volume::from_millilitres(inputs.number(&["final_ml_or_oz", "final_ml", "final_oz", "total_ml"])?);
    let found = weaken(
        inputs.number(&["stock_pct"])?,
        inputs.number(&["final_pct", "target_pct"])?,
        total,
    );
    let (stock, water) = found.ok_or("the stock is too weak")?;
    Ok(numbers([
        ("stock", stock.millilitres()),
        ("water", water.millilitres()),
        ("stock_ml", stock.millilitres()),
        ("water_ml", water.millilitres()),
    ]))
}

fn pearson(inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Fields {
    let (a, b) = (inputs.number(&["a_pct"])?, inputs.number_or(&["b_pct"], 0.0)?);
    let parts = cross_mixing::parts(a, b, inputs.number(&["target_pct"])?);
    let (of_a, of_b) = parts.ok_or("the target does not lie between the two")?;
    // Parts are a ratio: they are stated on the row's own scale.
    let stated = expected
        .get("parts_a")
        .and_then(as_number)
        .filter(|parts| *parts > 0.0);
    let scale = match stated {
        Some(stated) if of_a > 0.0 => stated / of_a,
        _ => 1.0,
    };
    let mut fields = numbers([("parts_a", of_a * scale), ("parts_b", of_b * scale)]);
    if inputs.value(&["total_ml", "total"]).is_some() {
        let total = inputs.number(&["total_ml", "total"])?;
        fields.extend(numbers([
            ("a_ml", total * of_a / (of_a + of_b)),
            ("b_ml", total * of_b / (of_a + of_b)),
        ]));
    }
    Ok(fields)
}

fn stock_dilution(inputs: &Inputs<'_>) -> Fields {
    let notation = inputs.text(&["notation"])?;
    let total = Volume::from_millilitres(inputs.number(&["total_ml"])?);
    let dilution = match Dilution::read(notation) {
        Ok(dilution) => dilution,
        Err(DilutionError::Ambiguous {
            part_of_total,
            part_to_part,
        }) => {
            let ((of_total, _), (to_part, _)) = (part_of_total.make(total), part_to_part.make(total));
            let mut fields = numbers([
                (
                    "part_of_total_reading_of_1_colon_n_stock_ml",
                    of_total.millilitres(),
                ),
                (
                    "part_to_part_reading_of_1_colon_n_stock_ml",
                    to_part.millilitres(),
                ),
            ]);
            fields.insert("ambiguous".to_owned(), json!(true));
            return Ok(fields);
        }
        Err(error) => return Err(error.to_string()),
    };
    let (stock, water) = dilution.make(total);
    let mut fields = numbers([
        ("stock_ml", stock.millilitres()),
        ("water_ml", water.millilitres()),
    ]);
    // What the same figures would mean with a colon.
    if let Err(DilutionError::Ambiguous { part_of_total, .. }) = Dilution::read(&notation.replace('+', ":")) {
        let (other, _) = part_of_total.make(total);
        fields.extend(numbers([(
            "part_of_total_reading_of_1_colon_n_stock_ml",
            other.millilitres(),
        )]));
    }
    Ok(fields)
}

fn percent_w_v(inputs: &Inputs<'_>) -> Fields {
    let volume = Volume::from_millilitres(inputs.number(&["volume_ml"])?);
    let mass = percent::mass_in(inputs.number(&["percent_w_v", "percent"])?, volume);
    Ok(numbers([("grams", mass.grams())]))
}

fn shopping(inputs: &Inputs<'_>) -> Fields {
    let class = Class {
        people: inputs.count(&["people"])?,
        sheets_each: inputs.count(&["sheets_each"])?,
        spare_percent: inputs.number_or(&["spare_percent"], 0.0)?,
    };
    let paper = Paper {
        pack: inputs.count(&["pack"])?,
        cost: inputs.number_or(&["pack_cost"], 0.0)?,
    };
    let bath = Bath {
        batch: Volume::from_litres(inputs.number(&["recipe_l", "batch_l"])?),
        sheets_per_litre: inputs.number(&["sheets_per_l"])?,
    };
    let materials = inputs
        .list_or_empty(&["ingredients"])?
        .iter()
        .map(|value| {
            let row = Inputs::new(value)?;
            Ok(Material {
                name: row.text_or(&["name"], "")?.to_owned(),
                per_litre: row.number(&["g_per_l"])?,
                pack: Mass::from_grams(row.number(&["pack_g"])?),
                cost: row.number_or(&["cost"], 0.0)?,
            })
        })
        .collect::<Result<Vec<_>, String>>()?;
    let list = list(class, paper, bath, &materials).ok_or("a pack or a batch is empty")?;
    let lines: Vec<Value> = list
        .lines
        .iter()
        .map(|line| {
            json!({
                "name": line.name,
                "g": line.mass.grams(),
                "packs": line.packs,
                "buy_cost": line.buy,
                "used_cost": line.used,
            })
        })
        .collect();
    let mut fields = numbers([
        ("sheets", list.sheets as f64),
        ("paper_packs", list.paper_packs as f64),
        ("litres_needed", list.needed.litres()),
        ("batches", list.batches as f64),
        ("litres_made", list.made.litres()),
        ("buy_total", list.buy_total),
        ("used_total", list.used_total),
    ]);
    fields.insert(
        "used_cost_per_sheet".to_owned(),
        list.used_per_sheet().map_or(Value::Null, number),
    );
    fields.insert("ingredients".to_owned(), Value::Array(lines));
    Ok(fields)
}

/// The topics of this file.
pub(crate) fn fields(topic: &str, inputs: &Inputs<'_>, expected: &Map<String, Value>) -> Option<Fields> {
    Some(match topic {
        "published_dilute_percent" => dilute_percent(inputs),
        "published_pearson" | "pearson_by_weight" => pearson(inputs, expected),
        "stock_dilution" => stock_dilution(inputs),
        "percent_w_v" => percent_w_v(inputs),
        "shopping_list" => shopping(inputs),
        _ => return None,
    })
}

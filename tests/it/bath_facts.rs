//! The chemistry of baths through notebooks: the published tables, what-ifs, and slips of the pen.

use trayside::facts::Value;

use crate::support::proofed_page;

/// A laboratory solution: so much in so much water, without leave to make up.
fn solution(add: &str, more: &str) -> String {
    format!(
        "```recipe\nid: b\nrole: developer\nmakes: 1 l\nwater: 1000 g\nadd:\n{add}{more}keeps: 1 h\n```\n"
    )
}

/// The rows of a table of compositions, as notebook pages with the wanted quantity, value and tolerance.
fn rows(table: &str) -> Vec<(String, String, String, f64, f64)> {
    let mut reader = table.lines().map(fields);
    let head = reader.next().unwrap();
    let column = |name: &str| head.iter().position(|cell| cell == name).unwrap();
    let (id, celsius, composition) = (
        column("id"),
        column("temp_C"),
        column("composition_mol_per_kg_water"),
    );
    let (mode, quantity) = (column("mode"), column("quantity"));
    let (value, tolerance) = (column("reference_value"), column("tolerance"));
    reader
        .map(|row| {
            let terms = row[composition].split(" + ").map(|term| {
                let (amount, name) = term.split_once(' ').unwrap();
                // The tables count all water; what crystals bring counts where amounts are per kilogram.
                let unit = if row[quantity] == "I" { "mol/kg" } else { "mol" };
                format!("  {name}: {amount} {unit}\n")
            });
            let add = terms.collect::<Vec<_>>().concat();
            let gas = match row[mode].as_str() {
                "closed" => "held".to_owned(),
                air if air.starts_with("equilibrium with air") => "aired".to_owned(),
                mode => match mode
                    .strip_prefix("degas to pCO2 ")
                    .map(|p| p.trim_start_matches("<="))
                {
                    Some(pressure) => format!("stood {pressure}"),
                    None => "fizzed".to_owned(),
                },
            };
            let more = format!("gas: {gas}\nuse:\n  temperature: {} °C\n", row[celsius]);
            (
                row[id].clone(),
                solution(&add, &more),
                row[quantity].clone(),
                row[value].parse().unwrap(),
                row[tolerance].parse().unwrap(),
            )
        })
        .collect()
}

/// The cells of a line; those in quotation marks may hold commas.
fn fields(line: &str) -> Vec<String> {
    let mut cells = vec![String::new()];
    let mut quoted = false;
    for character in line.chars() {
        match character {
            '"' => quoted = !quoted,
            ',' if !quoted => cells.push(String::new()),
            other => cells.last_mut().unwrap().push(other),
        }
    }
    cells
}

#[test]
fn notebooks_reproduce_the_published_tables() {
    let tables = [
        include_str!("../reference/chemistry/standards.csv"),
        include_str!("../reference/chemistry/pitzer-engine.csv"),
        include_str!("../reference/chemistry/baths.csv"),
        include_str!("../reference/chemistry/other-databases.csv"),
    ];
    let mut wrong = Vec::new();
    let mut count = 0;
    for (id, page, quantity, value, tolerance) in tables.into_iter().flat_map(rows) {
        let proof = proofed_page(&page);
        let (name, per_unit) = match quantity.as_str() {
            "pH" => ("b.pH", 1.0),
            "I" => ("b.ionic-strength", 1.0),
            // Millilitres at 20 °C and one atmosphere of each mole, as an ideal gas.
            "CO2_released_mol_per_kgw" => ("b.gas", 24_055.0),
            other => panic!("what is {other}?"),
        };
        count += 1;
        match &proof.facts.named(name).unwrap().value {
            Ok(Value::Number(range)) if (range.best / per_unit - value).abs() <= tolerance => {}
            other => wrong.push(format!("{id}: {value} ± {tolerance}, found {other:?}")),
        }
    }
    assert!(count > 80, "{count} rows");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

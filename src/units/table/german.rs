//! German names of units whose symbol is a word, or is one elsewhere. Not reviewed by anyone who speaks it at work.

/// Symbol of a unit, its name for one, its name for several. A first word that a notebook of the unit's own system leaves out
/// stands apart, as it does in English.
pub(super) static NAMES: &[(&str, &str, &str)] = &[
    ("metric tsp", "metrischer TL", "metrische TL"),
    ("metric tbsp", "metrischer EL", "metrische EL"),
    ("metric cup", "metrische Tasse", "metrische Tassen"),
    ("US tsp", "US TL", "US TL"),
    ("US tbsp", "US EL", "US EL"),
    ("US cup", "US Tasse", "US Tassen"),
    ("US pint", "US Pint", "US Pint"),
    ("US quart", "US Quart", "US Quart"),
    ("US gallon", "US Gallone", "US Gallonen"),
    ("imperial tsp", "britischer TL", "britische TL"),
    ("imperial tbsp", "britischer EL", "britische EL"),
    ("imperial cup", "britische Tasse", "britische Tassen"),
    ("imperial pint", "britisches Pint", "britische Pint"),
    ("imperial quart", "britisches Quart", "britische Quart"),
    ("imperial gallon", "britische Gallone", "britische Gallonen"),
    ("drop", "Tropfen", "Tropfen"),
    ("grain", "Grain", "Grain"),
    ("day", "Tag", "Tage"),
    ("week", "Woche", "Wochen"),
    ("month", "Monat", "Monate"),
    ("year", "Jahr", "Jahre"),
    ("stop", "Blende", "Blenden"),
    ("piece", "Stück", "Stück"),
    ("tablet", "Tablette", "Tabletten"),
    ("capsule", "Kapsel", "Kapseln"),
    ("tea bag", "Teebeutel", "Teebeutel"),
    ("bag", "Beutel", "Beutel"),
    ("sachet", "Tütchen", "Tütchen"),
    ("packet", "Packung", "Packungen"),
    ("bottle", "Flasche", "Flaschen"),
    ("tin", "Dose", "Dosen"),
    ("sheet", "Blatt", "Blatt"),
    ("strip", "Streifen", "Streifen"),
    ("roll", "Rolle", "Rollen"),
    ("print", "Abzug", "Abzüge"),
    ("leaf", "Laubblatt", "Laubblätter"),
    ("sprig", "Zweig", "Zweige"),
    ("stalk", "Stängel", "Stängel"),
    ("head", "Kopf", "Köpfe"),
    ("clove", "Zehe", "Zehen"),
    ("slice", "Scheibe", "Scheiben"),
    ("lemon", "Zitrone", "Zitronen"),
    ("orange", "Orange", "Orangen"),
    ("hole", "Loch", "Löcher"),
    ("mirror", "Spiegel", "Spiegel"),
    ("change", "Wechsel", "Wechsel"),
    ("person", "Person", "Personen"),
    ("student", "Schüler", "Schüler"),
    ("step", "Schritt", "Schritte"),
    ("time", "Mal", "Mal"),
    ("part", "Teil", "Teile"),
];

#[cfg(test)]
mod tests {
    use super::NAMES;

    #[test]
    fn every_unit_that_is_a_word_has_a_german_one() {
        for unit in crate::units::units().filter(|unit| unit.worded) {
            assert!(
                NAMES.iter().any(|(symbol, ..)| *symbol == unit.symbol),
                "{}",
                unit.symbol
            );
        }
        for (symbol, ..) in NAMES {
            assert!(
                crate::units::units().any(|unit| unit.symbol == *symbol),
                "{symbol}"
            );
        }
    }
}

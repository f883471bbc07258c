//! The chemical elements and their standard atomic weights.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use serde::Deserialize;

/// The atomic weights as text, so that the loader can be tested with others.
const WEIGHTS: &str = include_str!("data/elements.yaml");

/// A chemical element of the table in `data/elements.yaml`, ordered by atomic number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Element {
    number: u8,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Row {
    number: u8,
    weight: f64,
    uncertainty: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    source: String,
    elements: BTreeMap<String, Row>,
}

struct Entry {
    symbol: String,
    weight: f64,
    uncertainty: f64,
}

struct Table {
    source: String,
    by_number: BTreeMap<u8, Entry>,
    by_symbol: BTreeMap<String, u8>,
}

fn read(text: &str) -> Result<Table, String> {
    let file: File = serde_yaml::from_str(text).map_err(|error| error.to_string())?;
    let mut by_number = BTreeMap::new();
    let mut by_symbol = BTreeMap::new();
    for (symbol, row) in file.elements {
        if !(row.weight > 0.0 && row.uncertainty > 0.0 && row.uncertainty < row.weight) {
            return Err(format!("`{symbol}` has no sensible atomic weight"));
        }
        by_symbol.insert(symbol.clone(), row.number);
        let entry = Entry {
            symbol,
            weight: row.weight,
            uncertainty: row.uncertainty,
        };
        if let Some(other) = by_number.insert(row.number, entry) {
            return Err(format!("`{}` shares its atomic number", other.symbol));
        }
    }
    Ok(Table {
        source: file.source,
        by_number,
        by_symbol,
    })
}

fn table() -> &'static Table {
    static TABLE: OnceLock<Table> = OnceLock::new();
    TABLE.get_or_init(|| match read(WEIGHTS) {
        Ok(table) => table,
        #[expect(
            clippy::panic,
            reason = "the text is part of the program; no notebook can reach this"
        )]
        Err(error) => panic!("the built-in atomic weights are broken: {error}"),
    })
}

impl Element {
    /// The element with this symbol (`Na`), exactly as written; `None` if the table does not hold it.
    pub fn from_symbol(symbol: &str) -> Option<Self> {
        let number = *table().by_symbol.get(symbol)?;
        Some(Self { number })
    }

    /// Every element of the table, by atomic number.
    pub fn all() -> impl Iterator<Item = Self> {
        table().by_number.keys().map(|&number| Self { number })
    }

    /// The atomic number.
    pub fn number(self) -> u8 {
        self.number
    }

    /// The symbol.
    pub fn symbol(self) -> &'static str {
        self.entry().map_or("", |entry| entry.symbol.as_str())
    }

    /// The standard atomic weight in g/mol: IUPAC 2021, the abridged value where IUPAC gives an interval.
    ///
    /// Source: Prohaska et al., Standard atomic weights of the elements 2021, Pure Appl. Chem. 94 (2022) 573.
    pub fn weight(self) -> f64 {
        self.entry().map_or(0.0, |entry| entry.weight)
    }

    /// The uncertainty of [`Element::weight`] in g/mol, from the same table.
    pub fn weight_uncertainty(self) -> f64 {
        self.entry().map_or(0.0, |entry| entry.uncertainty)
    }

    /// The bibliography key of the table of weights.
    pub fn weights_source() -> &'static str {
        &table().source
    }

    fn entry(self) -> Option<&'static Entry> {
        // Always there: an element is only made from the table's own numbers.
        table().by_number.get(&self.number)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weights_are_those_of_iupac() {
        // Prohaska et al. 2022, tables 1 and 2.
        for (symbol, number, weight) in [
            ("H", 1, 1.008),
            ("C", 6, 12.011),
            ("Na", 11, 22.989_769_28),
            ("S", 16, 32.06),
            ("Ag", 47, 107.8682),
        ] {
            let element = Element::from_symbol(symbol).unwrap();
            assert_eq!((element.number(), element.weight()), (number, weight), "{symbol}");
            assert_eq!(element.symbol(), symbol);
        }
    }

    #[test]
    fn symbols_are_case_sensitive() {
        assert!(Element::from_symbol("na").is_none());
        assert!(Element::from_symbol("NA").is_none());
        assert!(Element::from_symbol("Xx").is_none());
    }

    #[test]
    fn broken_tables_are_refused() {
        assert!(read("elements: {H: {number: 1, weight: 1.0, uncertainty: 0.1}}").is_err());
        assert!(read("{source: a, elements: {H: {number: 1, weight: -1.0, uncertainty: 0.1}}}").is_err());
        assert!(
            read(
                "{source: a, elements: {H: {number: 1, weight: 1.0, uncertainty: 0.1}, D: {number: 1, weight: 2.0, uncertainty: 0.1}}}"
            )
            .is_err()
        );
    }
}

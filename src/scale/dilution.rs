//! Diluting a stock.

use std::fmt;

use crate::units::scalar::Volume;

/// A dilution as `1+n`: parts of stock and parts of water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Dilution {
    /// Parts of stock, above zero.
    pub stock: f64,
    /// Parts of water, zero or more.
    pub water: f64,
}

/// Why a dilution cannot be read.
#[derive(Debug, Clone, PartialEq)]
pub enum DilutionError {
    /// `1:n` is either one in `n` parts or one part and `n` parts.
    Ambiguous {
        /// Written for one in `n` parts: `1+(n-1)`.
        part_of_total: Dilution,
        /// Written for one part and `n` parts: `1+n`.
        part_to_part: Dilution,
    },
    /// Not of the form `1+n`.
    Shape,
}

impl fmt::Display for DilutionError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Ambiguous {
                part_of_total,
                part_to_part,
            } => {
                write!(
                    out,
                    "a colon can mean {part_of_total} or {part_to_part}; write which"
                )
            }
            Self::Shape => write!(out, "a dilution is written 1+9"),
        }
    }
}

impl std::error::Error for DilutionError {}

impl fmt::Display for Dilution {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}+{}", self.stock, self.water)
    }
}

impl Dilution {
    /// Reads `1+9`; a colon is refused with both readings. Source: own choice, the colon is used both ways.
    pub fn read(text: &str) -> Result<Self, DilutionError> {
        let numbers = |mark| {
            let (a, b) = text.split_once(mark)?;
            let (a, b): (f64, f64) = (a.trim().parse().ok()?, b.trim().parse().ok()?);
            (a > 0.0 && b >= 0.0 && a.is_finite() && b.is_finite()).then_some((a, b))
        };
        if let Some((stock, water)) = numbers('+') {
            return Ok(Self { stock, water });
        }
        match numbers(':') {
            Some((stock, other)) if other > stock => Err(DilutionError::Ambiguous {
                part_of_total: Self {
                    stock,
                    water: other - stock,
                },
                part_to_part: Self { stock, water: other },
            }),
            _ => Err(DilutionError::Shape),
        }
    }

    /// All parts together over the parts of stock.
    pub fn factor(self) -> f64 {
        (self.stock + self.water) / self.stock
    }

    /// How much stock and water make a total. Source: own arithmetic; volumes are taken to add.
    pub fn make(self, total: Volume) -> (Volume, Volume) {
        let stock = total / self.factor();
        (stock, total - stock)
    }
}

/// How much stock and water make a volume of a lower strength: `C1 V1 = C2 V2`.
///
/// Strengths in the same unit; nothing where the stock is not at least as strong. Acid into water, never the reverse.
/// Source: own arithmetic; the dissolved amount is conserved, volumes are taken to add.
pub fn weaken(stock_strength: f64, strength: f64, total: Volume) -> Option<(Volume, Volume)> {
    if !(strength >= 0.0 && stock_strength > 0.0 && strength <= stock_strength) {
        return None;
    }
    let stock = total * (strength / stock_strength);
    Some((stock, total - stock))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_colon_is_refused_with_both_readings() {
        let d = |stock, water| Dilution { stock, water };
        assert_eq!(Dilution::read("1+9"), Ok(d(1.0, 9.0)));
        assert_eq!(
            Dilution::read("1:9"),
            Err(DilutionError::Ambiguous {
                part_of_total: d(1.0, 8.0),
                part_to_part: d(1.0, 9.0)
            })
        );
        assert_eq!(Dilution::read("9"), Err(DilutionError::Shape));
        assert_eq!(Dilution::read("0+9"), Err(DilutionError::Shape));
    }

    #[test]
    fn one_and_nine_is_one_in_ten() {
        let (stock, water) = Dilution {
            stock: 1.0,
            water: 9.0,
        }
        .make(Volume::from_millilitres(600.0));
        assert!((stock.millilitres() - 60.0).abs() < 1e-9 && (water.millilitres() - 540.0).abs() < 1e-9);
        assert_eq!(weaken(5.0, 10.0, Volume::from_litres(1.0)), None);
    }
}

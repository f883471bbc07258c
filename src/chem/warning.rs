//! What makes a computed equilibrium doubtful.

use std::fmt;

use super::equilibrium::Equilibrium;

/// Coldest and warmest bath for which the parameters were tried, in °C.
pub(super) const TRIED: (f64, f64) = (10.0, 40.0);
/// Ionic strength up to which they were tried, in mol/kg.
pub(super) const STRONG: f64 = 3.0;

/// One reason for doubt.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Warning {
    /// Colder or warmer than 10 to 40 °C: the interaction parameters are those of 25 °C.
    Temperature {
        /// The temperature in °C.
        celsius: f64,
    },
    /// Ionic strength above 3 mol/kg.
    Strong {
        /// It, in mol/kg.
        ionic_strength: f64,
    },
    /// Carbon dioxide over it exceeds one atmosphere: it foams, and a cap would burst.
    WouldFoam {
        /// Pressure of carbon dioxide in atmospheres.
        atmospheres: f64,
    },
}

impl fmt::Display for Warning {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Temperature { celsius } => write!(
                f,
                "at {celsius} °C the bath is outside the {} to {} °C for which the model was tried",
                TRIED.0, TRIED.1
            ),
            Self::Strong { ionic_strength } => write!(
                f,
                "its ionic strength of {ionic_strength:.1} mol/kg is above the {STRONG} mol/kg for which the model was tried"
            ),
            Self::WouldFoam { atmospheres } => {
                write!(
                    f,
                    "carbon dioxide presses out of it with {atmospheres:.1} atmospheres: it foams"
                )
            }
        }
    }
}

pub(super) fn warnings(equilibrium: &Equilibrium) -> Vec<Warning> {
    let mut found = Vec::new();
    let celsius = equilibrium.bath().temperature().celsius();
    if !(TRIED.0..=TRIED.1).contains(&celsius) {
        found.push(Warning::Temperature { celsius });
    }
    let ionic_strength = equilibrium.ionic_strength().moles_per_kilogram();
    if ionic_strength > STRONG {
        found.push(Warning::Strong { ionic_strength });
    }
    let atmospheres = equilibrium.pco2().atmospheres();
    if atmospheres > 1.0 + 1e-9 {
        found.push(Warning::WouldFoam { atmospheres });
    }
    found
}

//! What depends on temperature alone: the properties of water and every equilibrium constant.

use std::f64::consts::LN_10;

use super::data::{Data, SPECIES};
use crate::units::scalar::Temperature;

/// Gas constant in J/(mol K); exact since 2019 (SI Brochure, 9th edition).
pub(super) const GAS_CONSTANT: f64 = 8.314_462_618;
/// The temperature of the tables, in kelvin.
const REFERENCE: f64 = 298.15;

/// Constants at one temperature.
#[derive(Debug, Clone)]
pub(super) struct Conditions {
    pub(super) data: &'static Data,
    pub(super) celsius: f64,
    /// Debye–Hückel slope for decadic logarithms.
    pub(super) slope: f64,
    /// The ion product of water.
    pub(super) ion_product: f64,
    /// Activity of dissolved carbon dioxide under one atmosphere of it, mol/kg.
    pub(super) henry: f64,
    /// By species of a family: decadic logarithm of the cumulative constant from the first species of the family.
    pub(super) log_cumulative: [f64; SPECIES],
    /// The same, not as a logarithm.
    pub(super) cumulative: [f64; SPECIES],
    /// One parameter moved for the sake of a band: cation, anion, by how much its beta0 is off.
    pub(super) moved_pair: Option<(usize, usize, f64)>,
}

impl Conditions {
    pub(super) fn at(temperature: Temperature) -> Self {
        Self::shifted(temperature, None)
    }

    /// The constants with the pK of one step moved: the family's place, the step, by how much.
    pub(super) fn shifted(temperature: Temperature, moved: Option<(usize, usize, f64)>) -> Self {
        let data = Data::standard();
        let kelvin = temperature.kelvin();
        let powers = Powers::at(kelvin);
        let analytic = |name: &str| data.analytic.get(name).map_or(0.0, |a| powers.log_k(a));
        let bicarbonate = analytic("bicarbonate");
        let carbonate = analytic("carbonate");
        let bisulfate = analytic("bisulfate");
        // pK(T) = pK0 - dH/(R ln10) (1/T0 - 1/T) - dCp/(R ln10) (T0/T - 1 + ln(T/T0))
        let of_enthalpy = 1000.0 / (GAS_CONSTANT * LN_10) * (1.0 / REFERENCE - 1.0 / kelvin);
        let of_heat_capacity =
            (REFERENCE / kelvin - 1.0 + libm::log(kelvin / REFERENCE)) / (GAS_CONSTANT * LN_10);
        let mut log_cumulative = [0.0; SPECIES];
        for (place, family) in data.families.iter().enumerate() {
            let mut sum = 0.0;
            for (at, step) in family.steps.iter().enumerate() {
                let pk = match step.analytic.as_deref() {
                    Some("co2") => carbonate - bicarbonate,
                    Some("bicarbonate") => bicarbonate,
                    Some("bisulfate") => bisulfate,
                    _ => step.pk - step.enthalpy * of_enthalpy - step.heat_capacity * of_heat_capacity,
                };
                let shift = match moved {
                    Some((family, step, by)) if family == place && step == at => by,
                    _ => 0.0,
                };
                sum -= pk + shift;
                if let Some(entry) = log_cumulative.get_mut(family.first + at + 1) {
                    *entry = sum;
                }
            }
        }
        for (at, species) in data.polyborates.iter().enumerate() {
            let shift = match moved {
                Some((family, step, by)) if family == data.boric && step == at + 1 => by,
                _ => 0.0,
            };
            if let Some(entry) = log_cumulative.get_mut(species.species) {
                *entry = -species.pk - shift;
            }
        }
        let mut cumulative = [1.0; SPECIES];
        for (value, log) in cumulative.iter_mut().zip(&log_cumulative) {
            if *log != 0.0 {
                *value = libm::exp(log * LN_10);
            }
        }
        Self {
            data,
            cumulative,
            celsius: temperature.celsius(),
            slope: debye_hueckel_a(temperature),
            ion_product: libm::pow(10.0, analytic("water")),
            henry: libm::pow(10.0, analytic("henry")),
            log_cumulative,
            moved_pair: None,
        }
    }
}

struct Powers {
    kelvin: f64,
    log_kelvin: f64,
}

impl Powers {
    fn at(kelvin: f64) -> Self {
        Self {
            kelvin,
            log_kelvin: libm::log10(kelvin),
        }
    }

    fn log_k(&self, a: &[f64; 6]) -> f64 {
        let t = self.kelvin;
        a[0] + a[1] * t + a[2] / t + a[3] * self.log_kelvin + a[4] / (t * t) + a[5] * t * t
    }
}

/// Density of air-free water at one atmosphere in g/cm³, from 0 to 100 °C.
///
/// Kell, J. Chem. Eng. Data 20, 97 (1975); coefficients from memory, unverified.
pub fn water_density(temperature: Temperature) -> f64 {
    let t = temperature.celsius();
    let above = 999.839_52
        + t * (16.945_176
            + t * (-7.987_040_1e-3 + t * (-46.170_461e-6 + t * (105.563_02e-9 - t * 280.542_53e-12))));
    above / (1.0 + 16.879_85e-3 * t) / 1000.0
}

/// The Debye–Hückel slope A for decadic logarithms, in (kg/mol)^½.
///
/// A = 1.82483e6 √ρ / (ε T)^1.5, with the dielectric constant of water by Malmberg and Maryott, J. Res. NBS 56, 1 (1956).
pub fn debye_hueckel_a(temperature: Temperature) -> f64 {
    let t = temperature.celsius();
    let dielectric = 87.740 + t * (-0.400_08 + t * (9.398e-4 - t * 1.410e-6));
    let product = dielectric * temperature.kelvin();
    1.824_83e6 * water_density(temperature).sqrt() / (product * product.sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values of the published expressions at four temperatures: pKw, pK1 and pK2 of carbonic acid, boric, the third
    /// of citric, carbon dioxide per atmosphere, Debye–Hückel slope; computed with PHREEQC's phreeqc.dat expressions
    /// and the temperature law of the module.
    #[test]
    fn constants_follow_their_published_expressions() {
        let rows = [
            (10.0, 14.531, 6.463, 10.488, 9.382, 6.383, 0.0538, 0.4989),
            (20.0, 14.165, 6.382, 10.376, 9.280, 6.388, 0.0392, 0.5067),
            (25.0, 13.995, 6.352, 10.329, 9.237, 6.396, 0.0340, 0.5108),
            (40.0, 13.533, 6.297, 10.222, 9.136, 6.440, 0.0237, 0.5243),
        ];
        for (celsius, water, first, second, boric, citric, henry, slope) in rows {
            let at = Conditions::at(Temperature::from_celsius(celsius));
            let log = |name: &str| at.log_cumulative[at.data.find(name).unwrap()];
            let close = |found: f64, expected: f64, by: f64| {
                assert!(
                    (found - expected).abs() <= by,
                    "{celsius} °C: {found} is not {expected}"
                );
            };
            close(-libm::log10(at.ion_product), water, 0.0011);
            close(-log("HCO3-"), first, 0.0011);
            close(log("HCO3-") - log("CO3-2"), second, 0.0011);
            close(-log("B(OH)4-"), boric, 0.0011);
            close(log("HCit-2") - log("Cit-3"), citric, 0.0011);
            close(at.henry, henry, 1e-4);
            close(at.slope, slope, 2e-4);
        }
    }
}

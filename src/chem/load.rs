//! The data files read into [`Data`], refusing whatever has no source or an unknown word.

use std::collections::BTreeMap;
use std::fmt;

use serde::de::DeserializeOwned;

use super::data::{
    ANIONS, Agent, ApparentVolume, CATIONS, Data, Family, Pair, Polyborate, SLOTS, SPECIES, STEPS, Species,
    Step, Strong,
};
use super::rows::{ConstantsFile, FamilyRow, PitzerFile, SitFile, VolumesFile};
use crate::pantry::{Formula, Status};

/// Why the data files are refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChemDataError {
    message: String,
}

impl ChemDataError {
    fn new(message: impl Into<String>) -> Self {
        Self {
            message: message.into(),
        }
    }
}

impl fmt::Display for ChemDataError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for ChemDataError {}

impl Data {
    /// Reads the four files: constants, Pitzer parameters, specific ion interaction coefficients, apparent volumes.
    ///
    /// `known` says whether a source is in the bibliography. Refused are rows that cite none that is, unknown keys and
    /// statuses, and parameters of species that do not exist.
    pub(super) fn from_yaml(texts: [&str; 4], known: &dyn Fn(&str) -> bool) -> Result<Self, ChemDataError> {
        let [constants, pitzer, sit, volumes] = texts;
        let constants: ConstantsFile = yaml("constants", constants)?;
        let pitzer: PitzerFile = yaml("pitzer", pitzer)?;
        let sit: SitFile = yaml("sit", sit)?;
        let volumes: VolumesFile = yaml("volumes", volumes)?;
        let mut reader = Reader {
            known,
            data: Self {
                species: Vec::new(),
                cations: Vec::new(),
                anions: Vec::new(),
                neutrals: Vec::new(),
                families: Vec::new(),
                strong: Vec::new(),
                polyborates: Vec::new(),
                analytic: BTreeMap::new(),
                inert: Vec::new(),
                pairs: Vec::new(),
                default_uncertainty: 0.0,
                theta: Vec::new(),
                psi: Vec::new(),
                lambda: Vec::new(),
                epsilon: Vec::new(),
                volumes: Vec::new(),
                other_volume: 0.0,
                carbonic: 0,
                boric: 0,
                chloride: 0,
                cited: Vec::new(),
            },
        };
        reader.constants(constants)?;
        reader.pitzer(&pitzer)?;
        reader.sit(&sit)?;
        reader.volumes(&volumes)?;
        Ok(reader.data)
    }
}

/// Reads the charge at the end of a name such as `CO3-2` or `Na+`.
fn charge_of(name: &str) -> i8 {
    let Some(sign) = name.rfind(['+', '-']) else {
        return 0;
    };
    let unit = if name.get(sign..=sign) == Some("+") { 1 } else { -1 };
    match name.get(sign + 1..) {
        Some("") => unit,
        Some(digits) => digits.parse::<i8>().map_or(0, |count| unit * count),
        None => 0,
    }
}

fn yaml<T: DeserializeOwned>(what: &str, text: &str) -> Result<T, ChemDataError> {
    serde_yaml::from_str(text).map_err(|error| ChemDataError::new(format!("{what}: {error}")))
}

fn formula(text: &str) -> Result<Formula, ChemDataError> {
    Formula::parse(text).map_err(|error| ChemDataError::new(format!("`{text}`: {error}")))
}

struct Reader<'a> {
    known: &'a dyn Fn(&str) -> bool,
    data: Data,
}

impl Reader<'_> {
    fn cite(&mut self, row: &str, status: &str, source: &str) -> Result<(), ChemDataError> {
        if source.is_empty() || !(self.known)(source) {
            return Err(ChemDataError::new(format!(
                "`{row}` cites `{source}`, which is not in the bibliography"
            )));
        }
        if Status::from_word(status).is_none() {
            return Err(ChemDataError::new(format!("`{row}`: `{status}` is no status")));
        }
        self.data.cited.push(source.to_owned());
        Ok(())
    }

    fn species(&mut self, name: &str, slot: Option<usize>, units: f64) -> Result<usize, ChemDataError> {
        if self.data.find(name).is_some() {
            return Err(ChemDataError::new(format!("species `{name}` stands twice")));
        }
        let at = self.data.species.len();
        if at >= SPECIES {
            return Err(ChemDataError::new(format!("more than {SPECIES} species")));
        }
        let charge = charge_of(name);
        if !(-3..=1).contains(&charge) {
            return Err(ChemDataError::new(format!(
                "species `{name}`: a charge of {charge} has no parameters"
            )));
        }
        let (list, room) = match charge.signum() {
            1 => (&mut self.data.cations, CATIONS),
            -1 => (&mut self.data.anions, ANIONS),
            _ => (&mut self.data.neutrals, SPECIES),
        };
        list.push(at);
        if list.len() > room {
            return Err(ChemDataError::new(format!(
                "species `{name}`: more than {room} of its sign"
            )));
        }
        self.data.species.push(Species {
            name: name.to_owned(),
            charge,
            slot,
            units,
        });
        Ok(at)
    }

    fn find(&self, name: &str) -> Result<usize, ChemDataError> {
        let found = self.data.find(name);
        found.ok_or_else(|| ChemDataError::new(format!("`{name}` is no species")))
    }

    fn constants(&mut self, file: ConstantsFile) -> Result<(), ChemDataError> {
        self.species("H+", None, 0.0)?;
        self.species("OH-", None, 0.0)?;
        for (name, row) in file.analytic {
            self.cite(&name, &row.status, &row.source)?;
            self.data.analytic.insert(name, row.a);
        }
        for name in ["water", "bicarbonate", "carbonate", "bisulfate", "henry"] {
            if !self.data.analytic.contains_key(name) {
                return Err(ChemDataError::new(format!(
                    "there is no analytic constant `{name}`"
                )));
            }
        }
        if file.families.len() + file.strong.len() > SLOTS {
            return Err(ChemDataError::new(format!("more than {SLOTS} totals")));
        }
        for row in file.families {
            self.family(row)?;
        }
        for row in file.strong {
            self.cite(&row.ion, &row.status, &row.source)?;
            let slot = self.data.slot_of_strong(self.data.strong.len());
            let species = self.species(&row.ion, Some(slot), 1.0)?;
            self.data.strong.push(Strong {
                species,
                element: row.element,
                acid: row.acid.as_deref().map(formula).transpose()?,
            });
        }
        let family = |data: &Data, id: &str| {
            let found = data.families.iter().position(|family| family.id == id);
            found.ok_or_else(|| ChemDataError::new(format!("there is no family `{id}`")))
        };
        self.data.carbonic = family(&self.data, "carbonic")?;
        self.data.boric = family(&self.data, "boric")?;
        self.data.chloride = self.find("Cl-")?;
        for row in file.polyborates {
            self.cite(&row.species, &row.status, &row.source)?;
            let boric = self.data.boric;
            let species = self.species(&row.species, Some(boric), f64::from(row.boron))?;
            self.data.polyborates.push(Polyborate {
                species,
                boron: f64::from(row.boron),
                protons: f64::from(row.protons),
                pk: row.pk,
                uncertainty: row.uncertainty,
            });
        }
        self.cite("inert", &file.inert.status, &file.inert.source)?;
        for text in file.inert.formulas {
            self.data.inert.push(formula(&text)?);
        }
        Ok(())
    }

    fn family(&mut self, row: FamilyRow) -> Result<(), ChemDataError> {
        let wrong = |what: &str| ChemDataError::new(format!("family `{}`: {what}", row.id));
        if row.species.len() != row.steps.len() + 1 || row.species.len() > STEPS {
            return Err(wrong("needs one species more than steps"));
        }
        let slot = self.data.families.len();
        let mut first = None;
        for name in &row.species {
            let at = self.species(name, Some(slot), 1.0)?;
            let start = *first.get_or_insert(at);
            let expected = charge_of(row.species.first().map_or("", String::as_str)) - (at - start) as i8;
            if charge_of(name) != expected {
                return Err(wrong(
                    "each species must have one charge less than the one before",
                ));
            }
        }
        let mut steps = Vec::new();
        for step in &row.steps {
            self.cite(&row.id, &step.status, &step.source)?;
            let analytic = step.analytic.as_deref();
            if analytic.is_some_and(|name| !["co2", "bicarbonate", "bisulfate"].contains(&name)) {
                return Err(wrong("an analytic constant of that name is not computed"));
            }
            steps.push(Step {
                pk: step.pk,
                uncertainty: step.uncertainty,
                enthalpy: step.enthalpy,
                heat_capacity: step.heat_capacity,
                analytic: step.analytic.clone(),
            });
        }
        let agent = match &row.agent {
            Some(agent) => {
                self.cite(&agent.name, &agent.status, &agent.source)?;
                Some(Agent {
                    name: agent.name.clone(),
                    electrons: agent.electrons,
                    works_at: agent.works_at,
                })
            }
            None => None,
        };
        let first = first.ok_or_else(|| wrong("has no species"))?;
        self.data.families.push(Family {
            acid: formula(&row.acid)?,
            id: row.id,
            short: row.short,
            words: row.words,
            first,
            steps,
            agent,
        });
        Ok(())
    }

    fn pitzer(&mut self, file: &PitzerFile) -> Result<(), ChemDataError> {
        let mut defaults = BTreeMap::new();
        for row in &file.defaults {
            self.cite("default pair", &row.status, &row.source)?;
            self.data.default_uncertainty = row.uncertainty;
            defaults.insert(row.charge, (row.beta0, row.beta1, row.c_phi));
        }
        let count = self.data.species.len();
        let mut pairs = vec![vec![Pair::default(); count]; count];
        for (row, cation) in pairs.iter_mut().zip(&self.data.species) {
            for (pair, anion) in row.iter_mut().zip(&self.data.species) {
                if cation.charge > 0 && anion.charge < 0 {
                    let &(beta0, beta1, c_phi) = defaults.get(&anion.charge).ok_or_else(|| {
                        ChemDataError::new(format!(
                            "there is no default pair for a charge of {}",
                            anion.charge
                        ))
                    })?;
                    *pair = Pair {
                        beta0,
                        beta1,
                        c: third(c_phi, cation.charge, anion.charge),
                        assumed: true,
                    };
                }
            }
        }
        for row in &file.pairs {
            self.cite(&row.anion, &row.status, &row.source)?;
            let (cation, anion) = (self.find(&row.cation)?, self.find(&row.anion)?);
            let charges = (self.charge(cation), self.charge(anion));
            if let Some(pair) = pairs.get_mut(cation).and_then(|row| row.get_mut(anion)) {
                *pair = Pair {
                    beta0: row.beta0,
                    beta1: row.beta1,
                    c: third(row.c_phi, charges.0, charges.1),
                    assumed: false,
                };
            }
        }
        self.data.pairs = pairs;
        for row in &file.theta {
            self.cite("theta", &row.status, &row.source)?;
            let [one, other] = &row.between;
            let entry = (self.find(one)?, self.find(other)?, row.theta);
            self.data.theta.push(entry);
        }
        for row in &file.psi {
            self.cite("psi", &row.status, &row.source)?;
            let [one, other] = &row.anions;
            let entry = (
                self.find(&row.cation)?,
                self.find(one)?,
                self.find(other)?,
                row.psi,
            );
            self.data.psi.push(entry);
        }
        for row in &file.lambda {
            self.cite("lambda", &row.status, &row.source)?;
            let entry = (self.find(&row.neutral)?, self.find(&row.ion)?, row.lambda);
            self.data.lambda.push(entry);
        }
        Ok(())
    }

    fn charge(&self, species: usize) -> i8 {
        self.data.species.get(species).map_or(0, |species| species.charge)
    }

    fn sit(&mut self, file: &SitFile) -> Result<(), ChemDataError> {
        let count = self.data.species.len();
        let mut epsilon = vec![vec![0.0; count]; count];
        for row in &file.pairs {
            self.cite(&row.anion, &row.status, &row.source)?;
            let (cation, anion) = (self.find(&row.cation)?, self.find(&row.anion)?);
            if let Some(entry) = epsilon.get_mut(cation).and_then(|row| row.get_mut(anion)) {
                *entry = row.epsilon;
            }
        }
        self.data.epsilon = epsilon;
        Ok(())
    }

    fn volumes(&mut self, file: &VolumesFile) -> Result<(), ChemDataError> {
        for row in &file.volumes {
            self.cite(&row.formula, &row.status, &row.source)?;
            if row.points.is_empty() || !row.uncertainty.is_finite() {
                return Err(ChemDataError::new(format!("`{}` has no volume", row.formula)));
            }
            self.data.volumes.push(ApparentVolume {
                formula: formula(&row.formula)?,
                points: row.points.clone(),
            });
        }
        self.cite("other", &file.other.status, &file.other.source)?;
        if !file.other.uncertainty.is_finite() {
            return Err(ChemDataError::new(
                "the volume of other substances has no uncertainty",
            ));
        }
        self.data.other_volume = file.other.per_gram;
        Ok(())
    }
}

fn third(c_phi: f64, cation: i8, anion: i8) -> f64 {
    c_phi / (2.0 * (f64::from(cation) * f64::from(-anion)).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn charges_are_read_from_names() {
        for (name, charge) in [
            ("Na+", 1),
            ("CO3-2", -2),
            ("B(OH)4-", -1),
            ("CO2", 0),
            ("Cit-3", -3),
        ] {
            assert_eq!(charge_of(name), charge, "{name}");
        }
    }

    #[test]
    fn a_row_without_a_source_is_refused() {
        let texts = |constants| {
            [
                constants,
                include_str!("data/pitzer.yaml"),
                include_str!("data/sit.yaml"),
                include_str!("data/volumes.yaml"),
            ]
        };
        let good = include_str!("data/constants.yaml");
        assert!(Data::from_yaml(texts(good), &|_| true).is_ok());
        assert!(Data::from_yaml(texts(good), &|key| key != "minteq-v4").is_err());
        let without = good.replacen(", source: phreeqc-dat", "", 1);
        assert!(Data::from_yaml(texts(&without), &|_| true).is_err());
    }
}

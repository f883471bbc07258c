//! The shapes of the data files, as they are read.

use std::collections::BTreeMap;

use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ConstantsFile {
    pub(super) families: Vec<FamilyRow>,
    pub(super) polyborates: Vec<PolyborateRow>,
    pub(super) strong: Vec<StrongRow>,
    pub(super) analytic: BTreeMap<String, AnalyticRow>,
    pub(super) inert: InertRow,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FamilyRow {
    pub(super) id: String,
    pub(super) acid: String,
    #[serde(default)]
    pub(super) short: Vec<String>,
    #[serde(default)]
    pub(super) words: Vec<String>,
    pub(super) species: Vec<String>,
    pub(super) agent: Option<AgentRow>,
    pub(super) steps: Vec<StepRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AgentRow {
    pub(super) name: String,
    pub(super) electrons: f64,
    pub(super) works_at: i8,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StepRow {
    pub(super) pk: f64,
    pub(super) uncertainty: f64,
    pub(super) enthalpy: f64,
    #[serde(default)]
    pub(super) heat_capacity: f64,
    pub(super) analytic: Option<String>,
    pub(super) status: String,
    pub(super) source: String,
    #[serde(rename = "note")]
    pub(super) _note: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PolyborateRow {
    pub(super) species: String,
    pub(super) boron: u8,
    pub(super) protons: u8,
    pub(super) pk: f64,
    pub(super) uncertainty: f64,
    pub(super) status: String,
    pub(super) source: String,
    #[serde(rename = "note")]
    pub(super) _note: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StrongRow {
    pub(super) ion: String,
    pub(super) element: Option<String>,
    pub(super) acid: Option<String>,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct AnalyticRow {
    #[serde(rename = "reaction")]
    pub(super) _reaction: String,
    pub(super) a: [f64; 6],
    #[serde(rename = "uncertainty")]
    pub(super) _uncertainty: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct InertRow {
    pub(super) formulas: Vec<String>,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PitzerFile {
    pub(super) pairs: Vec<PairRow>,
    pub(super) defaults: Vec<DefaultRow>,
    pub(super) theta: Vec<ThetaRow>,
    pub(super) psi: Vec<PsiRow>,
    pub(super) lambda: Vec<LambdaRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PairRow {
    pub(super) cation: String,
    pub(super) anion: String,
    pub(super) beta0: f64,
    pub(super) beta1: f64,
    pub(super) c_phi: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DefaultRow {
    pub(super) charge: i8,
    pub(super) beta0: f64,
    pub(super) beta1: f64,
    pub(super) c_phi: f64,
    pub(super) uncertainty: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ThetaRow {
    pub(super) between: [String; 2],
    pub(super) theta: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PsiRow {
    pub(super) cation: String,
    pub(super) anions: [String; 2],
    pub(super) psi: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LambdaRow {
    pub(super) neutral: String,
    pub(super) ion: String,
    pub(super) lambda: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SitFile {
    pub(super) pairs: Vec<SitRow>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SitRow {
    pub(super) cation: String,
    pub(super) anion: String,
    pub(super) epsilon: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct VolumesFile {
    pub(super) volumes: Vec<VolumeRow>,
    pub(super) other: OtherRow,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct VolumeRow {
    pub(super) formula: String,
    pub(super) points: Vec<[f64; 2]>,
    pub(super) uncertainty: f64,
    pub(super) status: String,
    pub(super) source: String,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OtherRow {
    pub(super) per_gram: f64,
    pub(super) uncertainty: f64,
    pub(super) status: String,
    pub(super) source: String,
}

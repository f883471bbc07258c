//! Concentrations, dilutions, densities, pressures and plain numbers.

use crate::units::unit::Place;
use crate::units::{Dimension, Ratio, Unit, UnitSource};

use Dimension::{
    AmountOfSubstance, Density, Dilution, MassConcentration, MassFraction, MassPerArea, Molality, Molarity,
    Number, Pressure, Share, VolumeFraction, VolumePerArea,
};
use UnitSource::{CommonPractice, Definition, NistSp811, SiBrochure};

pub(crate) static NUMBER: &Unit = &UNITS[0];
pub(crate) static PH: &Unit = &UNITS[1];
pub(crate) static DILUTION: &Unit = &UNITS[2];

/// The standard atmosphere: 101 325 Pa exactly.
const PASCAL: Ratio = Ratio::new(1, 101_325);

pub(super) static UNITS: &[Unit] = &[
    Unit::row("", ["", ""], &[], Number, Ratio::ONE, Definition),
    Unit::row(
        "pH",
        ["pH", "pH"],
        &["ph", "PH"],
        Dimension::PH,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Before),
    Unit::row(
        "1+",
        ["part of water", "parts of water"],
        &[],
        Dilution,
        Ratio::ONE,
        Definition,
    )
    .placed(Place::Dilution),
    // amount of substance, in moles
    Unit::row(
        "mol",
        ["mole", "moles"],
        &["mols"],
        AmountOfSubstance,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mmol",
        ["millimole", "millimoles"],
        &["mmols"],
        AmountOfSubstance,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "µmol",
        ["micromole", "micromoles"],
        &["μmol", "umol"],
        AmountOfSubstance,
        Ratio::new(1, 1_000_000),
        SiBrochure,
    ),
    // mass concentration, in grams per litre
    Unit::row(
        "g/l",
        ["gram per litre", "grams per litre"],
        &[
            "g/L",
            "g l⁻¹",
            "g/litre",
            "g/liter",
            "g/dm³",
            "g/dm3",
            "gram per liter",
            "grams per liter",
            "kg/m³",
            "kg/m3",
        ],
        MassConcentration,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mg/l",
        ["milligram per litre", "milligrams per litre"],
        &["mg/L", "mg/litre", "mg/liter", "milligrams per liter"],
        MassConcentration,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "g/100 ml",
        ["gram per 100 millilitres", "grams per 100 millilitres"],
        &["g/100ml", "g/100 mL", "g/100mL", "g/dl", "g/dL"],
        MassConcentration,
        Ratio::whole(10),
        SiBrochure,
    ),
    // A per cent weight in volume is a gram in 100 ml.
    Unit::row(
        "% w/v",
        ["per cent weight in volume", "per cent weight in volume"],
        &["%w/v", "% (w/v)", "% m/v", "%m/v", "% (m/v)", "% W/V", "% wt/vol"],
        MassConcentration,
        Ratio::whole(10),
        CommonPractice,
    ),
    // mass fraction, in grams per gram
    Unit::row(
        "% w/w",
        ["per cent by weight", "per cent by weight"],
        &[
            "%w/w",
            "% (w/w)",
            "% m/m",
            "%m/m",
            "% (m/m)",
            "% W/W",
            "% wt",
            "wt%",
            "wt %",
            "% by weight",
            "percent by weight",
        ],
        MassFraction,
        Ratio::new(1, 100),
        Definition,
    ),
    Unit::row(
        "g/kg",
        ["gram per kilogram", "grams per kilogram"],
        &[],
        MassFraction,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "mg/kg",
        ["milligram per kilogram", "milligrams per kilogram"],
        &[],
        MassFraction,
        Ratio::new(1, 1_000_000),
        SiBrochure,
    ),
    Unit::row(
        "mg/g",
        ["milligram per gram", "milligrams per gram"],
        &[],
        MassFraction,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "g/g",
        ["gram per gram", "grams per gram"],
        &[],
        MassFraction,
        Ratio::ONE,
        SiBrochure,
    ),
    // volume fraction, in litres per litre
    Unit::row(
        "% v/v",
        ["per cent by volume", "per cent by volume"],
        &[
            "%v/v",
            "% (v/v)",
            "% vol",
            "%vol",
            "% V/V",
            "% by volume",
            "percent by volume",
        ],
        VolumeFraction,
        Ratio::new(1, 100),
        Definition,
    ),
    Unit::row(
        "ml/l",
        ["millilitre per litre", "millilitres per litre"],
        &["mL/L", "ml/L", "mL/l"],
        VolumeFraction,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "%",
        ["per cent", "per cent"],
        &["percent", "pct"],
        Share,
        Ratio::new(1, 100),
        Definition,
    ),
    // molarity, in moles per litre
    Unit::row(
        "mol/l",
        ["mole per litre", "moles per litre"],
        &[
            "mol/L",
            "M",
            "mol/litre",
            "mol/liter",
            "mol/dm³",
            "mol/dm3",
            "moles per liter",
        ],
        Molarity,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mmol/l",
        ["millimole per litre", "millimoles per litre"],
        &["mmol/L", "mM", "mol/m³", "mol/m3"],
        Molarity,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    // hardness of water: a German degree is 10 mg of CaO in a litre, a French one 10 mg of CaCO3
    Unit::row(
        "°dH",
        ["German degree of hardness", "German degrees of hardness"],
        &["dH", "°d", "ºdH", "° dH", "dGH"],
        Molarity,
        Ratio::new(1_783_262, 10_000_000_000),
        Definition,
    ),
    Unit::row(
        "°fH",
        ["French degree of hardness", "French degrees of hardness"],
        &["fH", "ºfH", "° fH", "°TH"],
        Molarity,
        Ratio::new(999_141, 10_000_000_000),
        Definition,
    ),
    // molality, in moles per kilogram of water
    Unit::row(
        "mol/kg",
        ["mole per kilogram", "moles per kilogram"],
        &["mol/kgw", "mol/kg water"],
        Molality,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mmol/kg",
        ["millimole per kilogram", "millimoles per kilogram"],
        &["mmol/kgw"],
        Molality,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    // pressure, in standard atmospheres
    Unit::row(
        "atm",
        ["atmosphere", "atmospheres"],
        &[],
        Pressure,
        Ratio::ONE,
        NistSp811,
    ),
    Unit::row(
        "kPa",
        ["kilopascal", "kilopascals"],
        &["kpa"],
        Pressure,
        PASCAL.times(Ratio::whole(1000)),
        NistSp811,
    ),
    Unit::row(
        "hPa",
        ["hectopascal", "hectopascals"],
        &["hpa", "mbar", "millibar", "millibars"],
        Pressure,
        PASCAL.times(Ratio::whole(100)),
        NistSp811,
    ),
    Unit::row("Pa", ["pascal", "pascals"], &[], Pressure, PASCAL, NistSp811),
    Unit::row(
        "bar",
        ["bar", "bars"],
        &[],
        Pressure,
        PASCAL.times(Ratio::whole(100_000)),
        NistSp811,
    ),
    // density, in grams per millilitre
    Unit::row(
        "g/ml",
        ["gram per millilitre", "grams per millilitre"],
        &["g/mL", "g/cm³", "g/cm3", "g/cc", "kg/l", "kg/L", "g per ml"],
        Density,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "kg/m³",
        ["kilogram per cubic metre", "kilograms per cubic metre"],
        &["kg/m3", "g/l", "g/L"],
        Density,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    // on a surface
    Unit::row(
        "g/m²",
        ["gram per square metre", "grams per square metre"],
        &["g/m2", "gsm"],
        MassPerArea,
        Ratio::ONE,
        SiBrochure,
    ),
    Unit::row(
        "mg/m²",
        ["milligram per square metre", "milligrams per square metre"],
        &["mg/m2"],
        MassPerArea,
        Ratio::new(1, 1000),
        SiBrochure,
    ),
    Unit::row(
        "ml/m²",
        ["millilitre per square metre", "millilitres per square metre"],
        &["ml/m2", "mL/m²", "mL/m2"],
        VolumePerArea,
        Ratio::ONE,
        SiBrochure,
    ),
];

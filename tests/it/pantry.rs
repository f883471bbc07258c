//! The pantry against published molar masses, its own promises about sources, and names in three languages.

use std::collections::BTreeSet;

use proptest::prelude::*;
use trayside::pantry::{
    Basis, Element, Figure, Form, Formula, Lookup, Material, NOTEBOOK_SOURCE, Pantry, Property, SourceKind,
    Status, Strength,
};

#[expect(clippy::unwrap_used, reason = "a helper of tests")]
fn formula(text: &str) -> Formula {
    Formula::parse(text).unwrap()
}

fn id(name: &str) -> String {
    match Pantry::standard().look_up(name) {
        Lookup::Found { material, .. } => material.id.clone(),
        Lookup::NeedsForm { family, .. } => format!("form of {family}?"),
        Lookup::Ambiguous(materials) => {
            let ids: Vec<_> = materials.iter().map(|material| material.id.as_str()).collect();
            format!("one of {}?", ids.join(" "))
        }
        Lookup::Formula { formula, .. } => format!("formula {formula}"),
        Lookup::Malformed(error) => format!("malformed: {error}"),
        Lookup::Unknown { nearest } => format!("unknown, nearest {nearest:?}"),
    }
}

#[test]
fn molar_masses_agree_with_a_chemical_data_library() {
    // chemicals 1.5.2 (Python), molecular_weight.
    for (name, expected) in [
        ("Na2CO3", 105.988),
        ("Na2CO3·10H2O", 286.141),
        ("washing soda, crystals", 286.141),
        ("ascorbic acid", 176.124),
        ("borax", 381.372),
        ("hypo crystals", 248.184),
        ("chlorogenic acid", 354.309),
        ("caffeic acid", 180.157),
        ("sodium sulfite", 126.043),
        ("washing soda monohydrate", 124.004),
        ("baking soda", 84.007),
        ("sodium ascorbate", 198.106),
        ("citric acid", 192.124),
        ("citric acid monohydrate", 210.139),
        ("potassium bromide", 119.002),
        ("rosmarinic acid", 360.315),
        ("gallic acid", 170.120),
    ] {
        let lookup = Pantry::standard().look_up(name);
        let mass = lookup.material().and_then(Material::molar_mass).unwrap();
        assert!((mass - expected).abs() < 0.02, "{name}: {mass} is not {expected}");
    }
}

#[test]
fn water_shares_and_equal_masses_agree_with_a_chemical_data_library() {
    // chemicals 1.5.2 (Python), molecular_weight.
    let near = |value: f64, expected: f64, tolerance: f64| {
        assert!((value - expected).abs() <= tolerance, "{value} is not {expected}");
    };
    let soda = formula("Na2CO3").molar_mass();
    near(formula("Na2CO3·H2O").water_share() * 100.0, 14.53, 0.05);
    near(formula("Na2CO3·10H2O").water_share() * 100.0, 62.96, 0.05);
    near(50.0 * formula("Na2CO3·10H2O").molar_mass() / soda, 135.0, 0.2);
    near(100.0 * soda / (2.0 * formula("NaHCO3").molar_mass()), 63.08, 0.1);
    let ascorbate = formula("NaC6H7O6").molar_mass() / formula("C6H8O6").molar_mass();
    near(16.0 * ascorbate, 18.0, 0.05);
    assert_eq!(formula("Na2CO3").water_share(), 0.0);
}

#[test]
fn names_in_three_languages_find_their_material() {
    for (name, expected) in [
        ("washing soda, anhydrous", "washing-soda-anhydrous"),
        ("washing soda (anhydrous)", "washing-soda-anhydrous"),
        ("anhydrous washing soda", "washing-soda-anhydrous"),
        ("Anhydrous  WASHING-SODA", "washing-soda-anhydrous"),
        ("soda ash, anhydrous", "washing-soda-anhydrous"),
        ("sodium carbonate monohydrate", "washing-soda-monohydrate"),
        ("soda crystals", "washing-soda-crystals"),
        ("Waschsoda, wasserfrei", "washing-soda-anhydrous"),
        ("kalzinierte Soda", "washing-soda-anhydrous"),
        ("Kristallsoda", "washing-soda-crystals"),
        ("cristaux de soude", "washing-soda-crystals"),
        ("carbonate de sodium anhydre", "washing-soda-anhydrous"),
        ("baking soda", "baking-soda"),
        ("Natron", "baking-soda"),
        ("bicarbonate de soude", "baking-soda"),
        ("baking powder", "baking-powder"),
        ("Backpulver", "baking-powder"),
        ("levure chimique", "baking-powder"),
        ("caustic soda", "caustic-soda"),
        ("Ätznatron", "caustic-soda"),
        ("soude caustique", "caustic-soda"),
        ("vitamin C powder", "ascorbic-acid"),
        ("Ascorbinsäure", "ascorbic-acid"),
        ("acide ascorbique", "ascorbic-acid"),
        ("vitamin C tablets", "vitamin-c-tablets"),
        ("Brausetabletten", "vitamin-c-effervescent"),
        ("comprimés effervescents", "vitamin-c-effervescent"),
        ("hypo, crystals", "hypo-crystals"),
        ("sodium thiosulphate pentahydrate", "hypo-crystals"),
        ("Fixiernatron, wasserfrei", "hypo-anhydrous"),
        ("thiosulfate de sodium, cristaux", "hypo-crystals"),
        ("dried rosemary", "rosemary-dried"),
        ("rosemary, dried", "rosemary-dried"),
        ("getrockneter Rosmarin", "rosemary-dried"),
        ("romarin séché", "rosemary-dried"),
        ("fresh bramble leaves", "bramble-leaf-fresh"),
        ("vinegar", "vinegar"),
        ("Essig", "vinegar"),
        ("vinaigre", "vinegar"),
        ("Essigessenz", "vinegar-essence"),
        ("lemon juice", "lemon-juice"),
        ("Zitronensaft", "lemon-juice"),
        ("jus de citron", "lemon-juice"),
        ("eau de Javel", "bleach-household"),
        ("sea salt", "table-salt"),
        ("iodized salt", "iodised-salt"),
        ("citric acid", "citric-acid"),
        ("borax", "borax"),
        ("potassium bromide, powder", "potassium-bromide"),
        ("potassium ferricyanide", "potassium-ferricyanide"),
        ("thé noir", "black-tea"),
        ("onion skins", "onion-skin"),
        ("H2Asc", "ascorbic-acid"),
        ("NaAsc", "sodium-ascorbate"),
        ("KHPhth", "potassium-hydrogen-phthalate"),
        ("KH2Cit", "monopotassium-citrate"),
        ("H3Cit", "citric-acid"),
        ("Na3Cit", "trisodium-citrate-anhydrous"),
        ("NaBO2", "sodium-metaborate-anhydrous"),
        ("HAc", "acetic-acid"),
        ("NaAc", "sodium-acetate-anhydrous"),
        ("caffeic", "caffeic-acid"),
        ("gallic", "gallic-acid"),
        ("H2Caf", "caffeic-acid"),
        ("Na3PO4", "trisodium-phosphate-anhydrous"),
        ("KH2PO4", "monopotassium-phosphate"),
        ("Na2HPO4", "disodium-phosphate"),
        ("NaHSO3", "sodium-bisulfite"),
        ("Na2CO3", "washing-soda-anhydrous"),
        ("Na2CO3 · 10 H2O", "washing-soda-crystals"),
        ("Na₂S₂O₃·5H₂O", "hypo-crystals"),
        ("C6H8O6", "ascorbic-acid"),
        ("Na2CO3, anhydrous", "washing-soda-anhydrous"),
        ("Na2CO3 (monohydrate)", "washing-soda-monohydrate"),
        ("Na2CO3 crystals", "washing-soda-crystals"),
        ("KBr, crystals", "potassium-bromide"),
        ("Na2SO3 anhydrous", "sodium-sulfite"),
        ("caustic soda pellets", "caustic-soda"),
        ("washing soda, anh.", "washing-soda-anhydrous"),
        ("soda ash decahydrate", "washing-soda-crystals"),
        ("Natriumthiosulfat-Pentahydrat", "hypo-crystals"),
    ] {
        assert_eq!(id(name), expected, "{name}");
    }
}

/// What has no name of its own in a language is found by the name of its kind and the word for its form. Two rows of the
/// pantry are no packets: ammonia and hypochlorite as they stand in solution.
#[test]
fn forms_are_named_in_german_and_french() {
    let rows = [
        (
            "washing-soda-monohydrate",
            "Natriumcarbonat-Monohydrat",
            "carbonate de sodium monohydraté",
        ),
        ("washing-soda-monohydrate", "Thermonatrit", "thermonatrite"),
        (
            "sodium-metaborate-anhydrous",
            "Natriummetaborat, wasserfrei",
            "métaborate de sodium anhydre",
        ),
        (
            "sodium-metaborate-crystals",
            "Natriummetaborat-Tetrahydrat",
            "métaborate de sodium tétrahydraté",
        ),
        (
            "trisodium-phosphate-anhydrous",
            "Trinatriumphosphat, wasserfrei",
            "phosphate trisodique anhydre",
        ),
        (
            "trisodium-phosphate-crystals",
            "Trinatriumphosphat-Dodecahydrat",
            "phosphate trisodique dodécahydraté",
        ),
        (
            "trisodium-citrate-anhydrous",
            "Trinatriumcitrat, wasserfrei",
            "citrate trisodique anhydre",
        ),
        (
            "trisodium-citrate-crystals",
            "Trinatriumcitrat-Dihydrat",
            "citrate trisodique dihydraté",
        ),
        ("disodium-citrate", "Dinatriumcitrat", "citrate disodique"),
        ("monosodium-citrate", "Mononatriumcitrat", "citrate monosodique"),
        (
            "sodium-acetate-anhydrous",
            "Natriumacetat, wasserfrei",
            "acétate de sodium anhydre",
        ),
        (
            "sodium-acetate-crystals",
            "Natriumacetat-Trihydrat",
            "acétate de sodium trihydraté",
        ),
        (
            "rosemary-dried",
            "getrocknete Rosmarinblätter",
            "feuilles de romarin séchées",
        ),
        ("rosemary-fresh", "frischer Rosmarin", "romarin frais"),
        ("sage-dried", "getrocknete Salbeiblätter", "sauge séchée"),
        ("sage-fresh", "frische Salbeiblätter", "sauge fraîche"),
        ("thyme-dried", "getrockneter Thymian", "thym séché"),
        ("thyme-fresh", "frischer Thymian", "thym frais"),
        ("oregano-dried", "getrockneter Oregano", "origan séché"),
        ("oregano-fresh", "frischer Oregano", "origan frais"),
        ("mint-dried", "getrocknete Pfefferminzblätter", "menthe séchée"),
        ("mint-fresh", "frische Minze", "menthe fraîche"),
        (
            "lemon-balm-dried",
            "getrocknete Melissenblätter",
            "mélisse séchée",
        ),
        ("lemon-balm-fresh", "frische Zitronenmelisse", "mélisse fraîche"),
        ("basil-dried", "getrocknetes Basilikum", "basilic séché"),
        ("basil-fresh", "frisches Basilikum", "basilic frais"),
        (
            "bramble-leaf-dried",
            "getrocknete Brombeerblätter",
            "feuilles de ronce séchées",
        ),
        (
            "bramble-leaf-fresh",
            "frische Brombeerblätter",
            "feuilles de ronce fraîches",
        ),
        (
            "olive-leaf-dried",
            "getrocknete Olivenblätter",
            "feuilles d'olivier séchées",
        ),
        (
            "olive-leaf-fresh",
            "frische Olivenblätter",
            "feuilles d'olivier fraîches",
        ),
        ("nettle-dried", "getrocknete Brennnesselblätter", "orties séchées"),
        ("nettle-fresh", "frische Brennnesseln", "orties fraîches"),
        (
            "hypo-anhydrous",
            "Natriumthiosulfat, wasserfrei",
            "thiosulfate de sodium anhydre",
        ),
        ("benzotriazole", "1H-Benzotriazol", "benzotriazole"),
        (
            "sodium-sulfide-crystals",
            "Natriumsulfid-Nonahydrat",
            "sulfure de sodium nonahydraté",
        ),
        (
            "sodium-sulfide-anhydrous",
            "Natriumsulfid, wasserfrei",
            "sulfure de sodium anhydre",
        ),
        (
            "sodium-sulfate-anhydrous",
            "Natriumsulfat, wasserfrei",
            "sulfate de sodium anhydre",
        ),
    ];
    for (wanted, german, french) in rows {
        assert_eq!(id(german), wanted, "{german}");
        assert_eq!(id(french), wanted, "{french}");
    }
    let named = |material: &Material| {
        let own = ["de", "fr"]
            .iter()
            .all(|language| material.also.contains_key(*language));
        own || rows.iter().any(|(id, ..)| *id == material.id)
    };
    let nameless: Vec<&str> = Pantry::standard()
        .materials()
        .filter(|material| !named(material))
        .map(|material| material.id.as_str())
        .collect();
    assert_eq!(nameless, ["ammonia-gas", "sodium-hypochlorite-pure"]);
}

#[test]
fn bare_names_ask_for_the_form() {
    for (name, family) in [
        ("washing soda", "washing soda"),
        ("soda ash", "washing soda"),
        ("Waschsoda", "washing soda"),
        ("carbonate de soude", "washing soda"),
        ("hypo", "hypo"),
        ("sodium thiosulfate", "hypo"),
        ("Fixiernatron", "hypo"),
        ("rosemary", "rosemary"),
        ("TSP", "trisodium phosphate"),
    ] {
        assert_eq!(id(name), format!("form of {family}?"), "{name}");
    }
    let Lookup::NeedsForm { forms, .. } = Pantry::standard().look_up("washing soda") else {
        panic!("washing soda has several forms");
    };
    let forms: Vec<_> = forms.iter().filter_map(|material| material.form).collect();
    assert_eq!(forms, [Form::Anhydrous, Form::Crystals, Form::Monohydrate]);
}

#[test]
fn loose_words_are_ambiguous() {
    assert_eq!(
        id("soda"),
        "one of washing-soda-anhydrous washing-soda-crystals washing-soda-monohydrate baking-soda caustic-soda?"
    );
    assert_eq!(id("bicarb"), "one of baking-soda potassium-bicarbonate?");
    assert!(id("vitamin C").starts_with("one of ascorbic-acid"));
    assert!(id("bleach").starts_with("one of bleach-household"));
    assert_eq!(id("C6H4(OH)2"), "one of catechol hydroquinone?");
}

#[test]
fn strangers_are_told_apart() {
    assert_eq!(id("K2C2O4"), "formula K2C2O4");
    assert_eq!(id("Na2Xy3"), "malformed: `Xy` is no element that trayside knows");
    assert_eq!(id("roesmary"), "unknown, nearest Some(\"rosemary\")");
    assert_eq!(id("bakin soda"), "unknown, nearest Some(\"baking soda\")");
    assert_eq!(id("NotAThing"), "unknown, nearest None");
    assert_eq!(id(""), "unknown, nearest None");
    assert_eq!(id("%"), "unknown, nearest None");
}

#[test]
fn strengths_are_read_beside_the_name() {
    for text in ["5 % vinegar", "vinegar 5 %", "vinegar, 5%", "vinegar (5 %)"] {
        let Lookup::Found { material, strength } = Pantry::standard().look_up(text) else {
            panic!("{text} is vinegar");
        };
        assert_eq!(material.id, "vinegar", "{text}");
        assert!(material.needs_strength);
        let strength = strength.unwrap();
        assert_eq!((strength.low, strength.high, strength.basis), (5.0, 5.0, None));
    }
    let Lookup::Found { strength, .. } = Pantry::standard().look_up("CH3COOH") else {
        panic!("a formula is found");
    };
    assert_eq!(strength, Some(Strength::PURE));
}

#[test]
fn everything_has_a_source_and_every_source_is_cited() {
    let pantry = Pantry::standard();
    for material in pantry.materials() {
        assert!(!material.sources.is_empty(), "{}", material.id);
        for key in material.cited() {
            assert!(pantry.source(key).is_some(), "{} cites {key}", material.id);
        }
        for code in &material.hazards {
            assert!(pantry.hazard(code).is_some(), "{} carries {code}", material.id);
        }
        let id = &material.id;
        let slug = id
            .chars()
            .all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-');
        assert!(slug, "{id} is no slug");
        assert_eq!(pantry.get(id), Some(material));
    }
    let cited: BTreeSet<&str> = pantry
        .cited()
        .chain(trayside::facts::CITED.iter().copied())
        .chain(trayside::chem::cited())
        .collect();
    for key in trayside::facts::CITED {
        assert!(pantry.source(key).is_some(), "a fact cites {key}");
    }
    for (key, source) in pantry.sources() {
        let published = !matches!(source.kind, SourceKind::Notebook);
        assert!(!published || cited.contains(key), "nobody cites {key}");
    }
}

#[test]
fn figures_from_memory_say_so() {
    for material in Pantry::standard().materials() {
        let figures = [
            &material.purity,
            &material.density,
            &material.spoon,
            &material.electrons,
            &material.keeps_back,
        ];
        for figure in figures.into_iter().flatten() {
            let from_memory = figure.source() == "memory";
            assert_eq!(figure.status() == Status::Memory, from_memory, "{}", material.id);
        }
    }
}

#[test]
fn every_form_says_which_it_is() {
    for material in Pantry::standard().materials() {
        if let Some(family) = &material.of {
            assert!(material.form.is_some(), "{}", material.id);
            assert!(
                Pantry::standard().forms_of(family).len() > 1,
                "{family} has one form"
            );
        }
    }
}

#[test]
fn every_family_has_several_forms() {
    let pantry = Pantry::standard();
    for (family, name) in pantry.families() {
        assert!(pantry.forms_of(family).len() > 1, "{family}");
        assert_eq!(pantry.family_name(family), Some(name));
        assert_eq!(id(name), format!("form of {name}?"));
    }
}

#[test]
fn published_contents_are_kept() {
    // Penniston et al. 2008: fresh lemon juice 48 g of citric acid in a litre.
    let lemon = Pantry::standard().get("lemon-juice").unwrap();
    let share = &lemon.contains[0];
    assert_eq!(
        (share.material.as_str(), share.basis),
        ("citric-acid", Basis::GramsPerLitre)
    );
    assert_eq!(
        (share.amount.low(), share.amount.best(), share.amount.high()),
        (34.0, 48.0, 74.0)
    );
    assert_eq!(share.amount.status(), Status::Read);
    // FDA CPG Sec. 525.825: at least 4 g of acetic acid in 100 ml of vinegar.
    let vinegar = Pantry::standard().get("vinegar").unwrap();
    assert_eq!(vinegar.contains[0].amount.low(), 40.0);
}

#[test]
fn hazards_hang_on_properties_not_names() {
    let pantry = Pantry::standard();
    for (id, property) in [
        ("bleach-household", Property::Hypochlorite),
        ("ammonia", Property::Ammonia),
        ("caustic-soda", Property::Caustic),
        ("wood-ash-lye", Property::Caustic),
        ("hypo-crystals", Property::Thiosulfate),
        ("vinegar-essence", Property::ConcentratedAcid),
        ("vinegar", Property::Acid),
        ("lemon-juice", Property::Acid),
        ("baking-powder", Property::Leavening),
        ("vitamin-c-effervescent", Property::Effervescent),
        ("table-salt", Property::FolkFixer),
        ("borax", Property::Borate),
        ("potassium-alum", Property::Hardener),
        ("hydrogen-peroxide", Property::Peroxide),
    ] {
        assert!(pantry.get(id).unwrap().is(property), "{id} is no {property}");
    }
}

fn own(id: &str, name: &str) -> Material {
    Material::new(id, name, NOTEBOOK_SOURCE)
}

#[test]
fn a_notebook_corrects_what_is_known() {
    let mut salt = own("my-salt", "sea salt");
    salt.spoon = Figure::exact(5.2, Status::Measured, NOTEBOOK_SOURCE);
    let pantry = Pantry::standard().with(vec![salt]);
    for name in ["sea salt", "Kochsalz", "sel de cuisine", "my salt"] {
        let found = pantry.look_up(name).material().unwrap();
        assert_eq!(found.id, "my-salt", "{name}");
        assert_eq!(found.spoon.as_ref().map(Figure::best), Some(5.2));
        assert!(found.is(Property::Restrainer));
        assert_eq!(found.formula, Some(formula("NaCl")));
    }
    assert!(Pantry::standard().get("my-salt").is_none());
}

#[test]
fn a_notebook_adds_a_form_and_a_stranger() {
    let mut packet = own("blue-packet", "blue packet");
    packet.of = Some("washing soda".to_owned());
    packet.form = Some(Form::Crystals);
    let mut stranger = own("grandmothers-powder", "grandmother's powder");
    stranger.formula = Some(formula("Na2S2O3·5H2O"));
    let mut dry = own("soda", "soda");
    dry.formula = Some(formula("Na2CO3"));
    let pantry = Pantry::standard().with(vec![packet, stranger, dry]);
    let packet = pantry.look_up("Blue Packet").material().unwrap();
    assert_eq!(packet.formula, Some(formula("Na2CO3·10H2O")));
    assert_eq!(packet.of.as_deref(), Some("washing-soda"));
    let crystals = pantry.look_up("washing soda, crystals").material().unwrap();
    assert_eq!(crystals.id, "washing-soda-crystals");
    let stranger = pantry.look_up("grandmothers powder").material().unwrap();
    assert!(stranger.is(Property::Thiosulfate));
    // The pure substance keeps its formula; a new name wins over an ambiguous word.
    assert_eq!(
        pantry.look_up("Na2CO3").material().unwrap().id,
        "washing-soda-anhydrous"
    );
    assert_eq!(pantry.look_up("soda").material().unwrap().id, "soda");
}

#[test]
fn a_packet_answers_which_soda_only_if_it_says_so() {
    let mut packet = own("washing-soda", "washing soda");
    packet.form = Some(Form::Crystals);
    packet.purity = Figure::exact(0.93, Status::Read, NOTEBOOK_SOURCE);
    let pantry = Pantry::standard().with(vec![packet]);
    for name in ["washing soda", "washing soda, crystals", "Kristallsoda"] {
        let found = pantry.look_up(name).material().unwrap();
        assert_eq!(found.id, "washing-soda", "{name}");
        assert_eq!(found.formula, Some(formula("Na2CO3·10H2O")));
        assert_eq!(found.purity.as_ref().map(Figure::best), Some(0.93));
    }
    let priced = Pantry::standard().with(vec![own("washing-soda", "washing soda"), own("soda", "soda")]);
    assert!(matches!(priced.look_up("washing soda"), Lookup::NeedsForm { .. }));
    assert!(matches!(priced.look_up("soda"), Lookup::Ambiguous(_)));
}

#[test]
fn a_wrong_name_inherits_nothing() {
    let mut powder = own("baking-soda", "baking soda");
    powder.formula = Some(formula("NaOH"));
    let pantry = Pantry::standard().with(vec![powder]);
    let powder = pantry.look_up("baking soda").material().unwrap();
    assert!(powder.is(Property::Caustic));
    assert!(!powder.is(Property::Bicarbonate));
    assert!(powder.spoon.is_none());
    let natron = pantry.look_up("Natron").material().unwrap();
    assert_eq!(natron.formula, Some(formula("NaHCO3")));
}

#[test]
fn rows_without_a_source_or_with_unknown_words_are_refused() {
    let sources = "memory: {title: from memory, kind: memory}";
    let hazards = "{source: memory, statements: {H319: Irritates}}";
    let check = |row: &str, expected: &str| {
        let text = format!("materials:\n  salt: {{{row}}}\n");
        let loaded = Pantry::from_yaml(sources, hazards, &[("test", &text)]);
        match loaded {
            Ok(_) => assert_eq!(expected, "", "{row}"),
            Err(error) => assert!(
                !expected.is_empty() && error.to_string().contains(expected),
                "{row}: {error}"
            ),
        }
    };
    check("name: salt, sources: [memory], formula: NaCl", "");
    check("name: salt, formula: NaCl", "sources");
    check("name: salt, sources: []", "no source");
    check("name: salt, sources: [hearsay]", "not in the bibliography");
    check(
        "name: salt, sources: [memory], properties: [magic]",
        "no property",
    );
    check("name: salt, sources: [memory], form: gas", "no form");
    check("name: salt, sources: [memory], formula: NaXy2", "no element");
    check(
        "name: salt, sources: [memory], of: salts, form: dried",
        "no family",
    );
    check("name: salt, sources: [memory], colour: white", "colour");
    check(
        "name: salt, sources: [memory], purity: {best: 0.9, status: memory}",
        "source",
    );
    check(
        "name: salt, sources: [memory], purity: {best: 0.9, status: felt, source: memory}",
        "no status",
    );
    check(
        "name: salt, sources: [memory], purity: {best: 1.9, status: memory, source: memory}",
        "outside",
    );
    check(
        "name: salt, sources: [memory], purity: {low: 0.95, best: 0.9, status: memory, source: memory}",
        "no range",
    );
    check(
        "name: salt, sources: [memory], hazards: {statements: [H999], source: memory}",
        "no text",
    );
    check(
        "name: salt, sources: [memory], contains: {pepper: {mass_fraction: {best: 1, status: memory, source: memory}}}",
        "no material",
    );
    let twice = "materials: {a: {name: salt, sources: [memory]}, b: {name: Salt, sources: [memory]}}";
    let error = Pantry::from_yaml(sources, hazards, &[("test", twice)]).unwrap_err();
    assert!(error.to_string().contains("stands for"), "{error}");
}

/// A random formula: its text, and its mass summed while it was put together.
fn random_formula() -> impl Strategy<Value = (String, f64)> {
    let elements: Vec<Element> = Element::all().collect();
    let atom = (prop::sample::select(elements), 1_u32..30).prop_map(|(element, count)| {
        let number = if count == 1 {
            String::new()
        } else {
            count.to_string()
        };
        let text = format!("{}{number}", element.symbol());
        (text, f64::from(count) * element.weight())
    });
    let chain = |part: BoxedStrategy<(String, f64)>| {
        prop::collection::vec(part, 1..5).prop_map(|parts| {
            let text = parts.iter().map(|(text, _)| text.as_str()).collect::<String>();
            (text, parts.iter().map(|(_, mass)| mass).sum::<f64>())
        })
    };
    let group = (chain(atom.clone().boxed()), 1_u32..5)
        .prop_map(|((text, mass), count)| (format!("({text}){count}"), mass * f64::from(count)));
    let dry = chain(prop_oneof![3 => atom, 1 => group].boxed());
    (dry, 0_u32..13).prop_map(|((text, mass), water)| {
        let wet = 2.0 * weight("H") + weight("O");
        match water {
            0 => (text, mass),
            _ => (format!("{text}·{water}H2O"), mass + f64::from(water) * wet),
        }
    })
}

fn weight(symbol: &str) -> f64 {
    Element::from_symbol(symbol).map_or(0.0, Element::weight)
}

proptest! {
    #[test]
    fn a_molar_mass_is_the_sum_of_its_atoms((text, mass) in random_formula()) {
        let formula = formula(&text);
        prop_assert!((formula.molar_mass() - mass).abs() < 1e-9 * mass);
        prop_assert_eq!(formula.as_str(), text);
    }

    #[test]
    fn any_text_is_read_or_refused_in_its_own_bytes(text in "\\PC{0,40}") {
        if let Err(error) = Formula::parse(&text) {
            prop_assert!(text.get(error.range).is_some());
        }
        let _ = Pantry::standard().look_up(&text);
    }

    #[test]
    fn nearly_formulas_are_read_or_refused(text in "[A-Za-z0-9()\\[\\]·.* ₂%+-]{0,30}") {
        if let Err(error) = Formula::parse(&text) {
            prop_assert!(text.get(error.range).is_some());
        }
        let _ = Pantry::standard().look_up(&text);
    }
}

#[test]
fn contents_tell_what_a_mixture_is() {
    let share = |material: &str, low, high| trayside::pantry::Share {
        material: material.to_owned(),
        amount: Figure::new(low, low, high, Status::Read, NOTEBOOK_SOURCE).unwrap(),
        basis: Basis::GramsPerLitre,
        equivalents: false,
        extracted: None,
    };
    let mut cleaner = own("cleaner", "bathroom cleaner");
    cleaner.contains = vec![share("NaClO", 30.0, 40.0)];
    let mut tea = own("tea", "hedge tea");
    tea.contains = vec![share("rosmarinic acid", 1.0, 3.0)];
    let mut descaler = own("descaler", "descaler");
    descaler.contains = vec![share("HCl", 200.0, 250.0)];
    let pantry = Pantry::standard().with(vec![cleaner, tea, descaler]);
    assert!(pantry.get("cleaner").unwrap().is(Property::Hypochlorite));
    assert!(pantry.get("tea").unwrap().is(Property::DevelopingAgent));
    assert!(pantry.get("descaler").unwrap().is(Property::ConcentratedAcid));
    let standard = Pantry::standard();
    assert!(!standard.get("red-wine").unwrap().is(Property::Flammable));
    assert!(!standard.get("vinegar").unwrap().is(Property::ConcentratedAcid));
    assert!(standard.get("sea-water").unwrap().is(Property::Restrainer));
}

//! A correct notebook made at random, within what is sound in the trade, has nothing above a hint: a warning that a good
//! notebook draws teaches its reader to overlook warnings.

use proptest::prelude::*;
use trayside::finding::Grade;
use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS};

use crate::support::{proofed, see};

/// The forms of washing soda and their molar masses, by the standard atomic weights (Prohaska et al. 2022).
const SODAS: [(&str, f64); 3] = [
    ("washing soda, anhydrous", 105.988),
    ("washing soda, monohydrate", 124.003),
    ("washing soda, crystals", 286.141),
];

/// What a plant is called, grams to the litre from and to, and degrees of the water.
const PLANTS: [(&str, f64, f64, u32); 7] = [
    ("bramble leaf, fresh", 80.0, 160.0, 90),
    ("dried rosemary", 20.0, 40.0, 90),
    ("dried lemon balm", 20.0, 40.0, 90),
    ("sage, dried", 20.0, 60.0, 90),
    ("black tea", 10.0, 40.0, 95),
    ("green tea", 10.0, 40.0, 85),
    ("instant coffee", 20.0, 60.0, 60),
];

#[derive(Debug, Clone)]
struct Tools {
    scale: &'static str,
    room: u32,
    people: u32,
    premises: &'static str,
    shelf_soda: usize,
    vinegar_percent: u32,
}

#[derive(Debug, Clone)]
struct Baths {
    makes: f64,
    soda: (usize, f64),
    /// Moles of vitamin C to one of carbonate.
    ratio: f64,
    salt: f64,
    plant: Option<(usize, f64)>,
    steep: u32,
    minutes: u32,
    named_by_formula: bool,
    vinegar: bool,
    stop: f64,
    hypo: f64,
    dry_hypo: bool,
}

#[derive(Debug, Clone)]
struct Pictures {
    distance: f64,
    /// Of the best hole.
    hole: f64,
    fibre: bool,
    speed: f64,
    reciprocity: f64,
    lights: Vec<(f64, u32)>,
    lamp: f64,
    fog: u32,
    degrees: u32,
    clearing: u32,
}

fn tools() -> impl Strategy<Value = Tools> {
    (
        prop::sample::select(vec!["0.01 g", "0.05 g", "0.1 g"]),
        16..25_u32,
        1..13_u32,
        prop::sample::select(vec!["home", "school", "club", "business"]),
        0..3_usize,
        5..11_u32,
    )
        .prop_map(
            |(scale, room, people, premises, shelf_soda, vinegar_percent)| Tools {
                scale,
                room,
                people,
                premises,
                shelf_soda,
                vinegar_percent,
            },
        )
}

fn baths() -> impl Strategy<Value = Baths> {
    let amounts = (
        0.5..3.0_f64,
        0..3_usize,
        25.0..60.0_f64,
        0.1..0.24_f64,
        2.0..10.0_f64,
    );
    let plant = prop::option::of((0..PLANTS.len(), 0.0..1.0_f64));
    let times = (10..61_u32, 2..7_u32, any::<bool>());
    let line = (any::<bool>(), 0.0..1.0_f64, 160.0..300.0_f64, any::<bool>());
    (amounts, plant, times, line).prop_map(
        |((makes, form, soda, ratio, salt), plant, (steep, minutes, formula), (vinegar, stop, hypo, dry))| {
            Baths {
                makes: (makes * 10.0).round() / 10.0,
                soda: (form, soda),
                ratio,
                salt,
                plant,
                steep,
                minutes,
                named_by_formula: formula,
                vinegar,
                stop,
                hypo,
                dry_hypo: dry,
            }
        },
    )
}

fn pictures() -> impl Strategy<Value = Pictures> {
    let camera = (50.0..180.0_f64, 0.85..1.2_f64);
    let paper = (any::<bool>(), 2.0..12.0_f64, 1.0..1.3_f64);
    let lights = prop::collection::vec((8.0..15.0_f64, 9..18_u32), 1..4);
    let room = (1.0..2.5_f64, 40..90_u32, 18..25_u32, 20..50_u32);
    (camera, paper, lights, room).prop_map(
        |((distance, hole), (fibre, speed, reciprocity), lights, (lamp, fog, degrees, clearing))| Pictures {
            distance: distance.round(),
            hole,
            fibre,
            speed,
            reciprocity,
            lights,
            lamp,
            fog,
            degrees,
            clearing,
        },
    )
}

fn settings(tools: &Tools) -> String {
    let Tools {
        scale,
        room,
        people,
        premises,
        shelf_soda,
        vinegar_percent,
    } = tools;
    let mut text = format!(
        "format: 1\ntitle: A sound notebook\nby: R. Moss\nlanguage: en\nzone: Europe/Lisbon\nplace:\n  latitude: 38.7\n  \
         longitude: -9.1\nscale: {scale}\nroom: {room} °C\nspoons: [15 ml, 5 ml]\ntrays:\n"
    );
    for tray in [
        "developer",
        "first rinse",
        "stop",
        "second rinse",
        "fix",
        "wash bowl",
    ] {
        text.push_str(&format!(
            "  - name: {tray}\n    inside: 130×180 mm\n    depth: 45 mm\n"
        ));
    }
    text.push_str(&format!(
        "shelf:\n  - material: {}\n    pack: 1 kg\n    price: 2.40\n  - material: vitamin C powder\n    pack: 250 g\n    \
         left: 200 g\n    price: 7\n  - material: vinegar {vinegar_percent} %\n    pack: 1 l\n  - material: hypo, crystals\n    \
         pack: 1 kg\n  - material: plain salt\n    pack: 500 g\n",
        SODAS[*shelf_soda].0
    ));
    text.push_str(&format!(
        "people:\n  count: {people}\n  minors: no\npremises: {premises}\ndrain:\n  asked: the water office\n  on: 2031-01-09\n  \
         answer: used fixer to the collection point, the rest to the sewer\n"
    ));
    text
}

/// The page of materials and baths.
fn page_of_baths(baths: &Baths, tools: &Tools) -> String {
    let (soda, molar) = SODAS[baths.soda.0];
    let soda_moles = baths.soda.1 / 105.988;
    let soda_grams = soda_moles * molar * baths.makes;
    let agent = soda_moles * baths.ratio * 176.124 * baths.makes;
    let name = if baths.named_by_formula {
        "the blue tin"
    } else {
        soda
    };
    let formula = match baths.soda.0 {
        0 => "Na2CO3",
        1 => "Na2CO3·H2O",
        _ => "Na2CO3·10H2O",
    };
    let mut text = String::from("---\ntitle: Baths\ntags: [baths]\n---\n\n# Baths\n\n");
    if baths.named_by_formula {
        text.push_str(&format!(
            "```ingredient\nmaterial: the blue tin\nformula: {formula}\nsource: its label\npack: 500 g\nprice: 2\n```\n\n"
        ));
    }
    let litres = baths.makes;
    text.push_str(&format!(
        "```recipe\nid: dev\ntitle: The developer\nrole: developer\nmakes: {litres} l\nparts:\n"
    ));
    if let Some((plant, share)) = baths.plant {
        let (plant, low, high, degrees) = PLANTS[plant];
        let grams = (low + share * (high - low)) * litres;
        text.push_str(&format!(
            "  - name: tea\n    water: {:.0} ml at {degrees} °C\n    add:\n      {plant}: {grams:.1} g\n    steps:\n      \
             - steep: {} min\n      - strain\n      - cool: 24 °C\n",
            450.0 * litres,
            baths.steep
        ));
    }
    text.push_str(&format!(
        "  - name: alkali\n    water: {:.0} ml at 24 °C\n    add:\n      {name}: {soda_grams:.1} g\n      plain salt: {:.1} g\n    \
         steps:\n      - dissolve: 5 min\n",
        260.0 * litres,
        baths.salt * litres
    ));
    text.push_str(&format!(
        "  - name: agent\n    water: {:.0} ml at 24 °C\n    add:\n      vitamin C powder: {agent:.1} g\n    steps:\n      \
         - dissolve: 2 min\nsteps:\n  - pour: [agent, into alkali]\n    vessel: {:.0} l bucket\n",
        110.0 * litres,
        (litres * 3.0).ceil()
    ));
    if baths.plant.is_some() {
        text.push_str("  - pour: [tea, into alkali]\n");
    }
    text.push_str(&format!(
        "  - make up\nuse:\n  for: paper\n  temperature: 20–24 °C\n  time: {}–{} min\n  agitation: rock\n  capacity: 20 sheets\nkeeps: 1 h\n\
         cautions:\n  - Goggles while weighing the soda, tongs or gloves while working.\nwaste: Ask first.\nfrom: own trials\n```\n\n",
        baths.minutes,
        baths.minutes + 2
    ));
    let stop = if baths.vinegar {
        // 0.7 to 1.5 % of acetic acid.
        let percent = 0.7 + 0.8 * baths.stop;
        let strength = tools.vinegar_percent;
        format!(
            "vinegar {strength} %: {:.0} ml",
            1000.0 * percent / f64::from(strength)
        )
    } else {
        format!("citric acid, anhydrous: {:.1} g", 8.0 + 8.0 * baths.stop)
    };
    text.push_str(&format!(
        "```recipe\nid: stop\ntitle: The stop\nrole: stop\nmakes: 1 l\nadd:\n  {stop}\nuse:\n  temperature: 18–24 °C\n  time: 30 s\n  \
         see: mix new when a strip reads above 5\n  capacity: 40 sheets\nkeeps: 12 h\nwaste: Ask first.\n```\n\n"
    ));
    let hypo = if baths.dry_hypo {
        format!("hypo, anhydrous: {:.0} g", baths.hypo * 158.108 / 248.184)
    } else {
        format!("hypo, crystals: {:.0} g", baths.hypo)
    };
    text.push_str(&format!(
        "```recipe\nid: fix\ntitle: The fixer\nrole: fixer\nmakes: 1 l\nwater: 650 ml at 45 °C\nadd:\n  {hypo}\nsteps:\n  - dissolve: 5 min\n  \
         - cool: 22 °C\n  - make up\nuse:\n  temperature: 18–24 °C\n  time: 2–6 min\n  capacity: 60 sheets\nkeeps: 12 weeks\n\
         waste: A labelled can, to the collection point.\n```\n\n"
    ));
    text
}

/// The page of camera, paper, lamp and line.
fn page_of_tools(baths: &Baths, pictures: &Pictures) -> String {
    let best = (2.44_f64 * 460e-6 * pictures.distance).sqrt();
    let (base, fix, wash) = if pictures.fibre {
        (
            "fibre",
            "5 min",
            "wash: tap water\n    time: 60 min\n    changes: 12",
        )
    } else {
        ("RC", "2 min", "wash: tap water\n    time: 4 min\n    changes: 4")
    };
    // A near hole sees a small sheet: else its corners stay pale, and that is no false alarm.
    let sheet = if pictures.distance < 80.0 {
        "60×90 mm"
    } else {
        "90×120 mm"
    };
    let (fresh, latest) = (pictures.clearing, pictures.clearing + pictures.clearing / 10);
    format!(
        "---\ntitle: Tools\ntags: [tools]\n---\n\n# Tools\n\n\
         ```camera\nid: box\ntitle: The box\npinhole: {:.3} mm\ndistance: {} mm\nplane: flat\nformat: {sheet}\nfoil: 0.03 mm\n```\n\n\
         ```paper\nid: pearl\ntitle: Pearl\nbase: {base}\nsize: {sheet}\nspeed: {:.1}\nreciprocity: {:.2}\nsees: blue-green\n```\n\n\
         ```safelight\nid: lamp\ntitle: The lamp\nlamp: red LED, 1 W\ncolour: red\ndistance: {:.1} m\nswitches: red only\ntested:\n  \
         date: 2031-03-02\n  paper: pearl\n  at: {:.1} m\n  bare: clean to {} min\n  pre-exposed: {} min\n```\n\n\
         ```process\nid: line\ntitle: The line\npaper: {base}\nhands: 1\nmove: 5 s\nsteps:\n  \
         - bath: dev\n    time: {}–{} min\n    temperature: 20–24 °C\n    light: red\n    drain: 10 s\n    tray: developer\n  \
         - rinse: tap water\n    time: 20 s\n    light: red\n    drain: 5 s\n    tray: first rinse\n  \
         - bath: stop\n    time: 30 s\n    light: red\n    drain: 5 s\n    tray: stop\n  \
         - rinse: tap water\n    time: 30 s\n    light: red\n    drain: 5 s\n    tray: second rinse\n  \
         - bath: fix\n    time: {fix}\n    light: red\n    drain: 10 s\n    tray: fix\n    clears: [{fresh} s, {latest} s]\n  \
         - {wash}\n    light: room\n    tray: wash bowl\n  - dry: string and pegs\n    time: 2 h\n    light: room\n```\n\n",
        best * pictures.hole,
        pictures.distance,
        pictures.speed,
        pictures.reciprocity,
        pictures.lamp,
        pictures.lamp,
        pictures.fog + 10,
        pictures.fog,
        baths.minutes,
        baths.minutes + 2,
    )
}

/// The log of one evening.
fn page_of_log(baths: &Baths, pictures: &Pictures) -> String {
    let mut text = String::from("---\ntitle: The log\ntags: [log]\n---\n\n# The log\n\n");
    let mut sheets = Vec::new();
    for (at, (value, hour)) in pictures.lights.iter().enumerate() {
        text.push_str(&format!(
            "```exposure\nid: sheet-{at}\nwhen: 2031-05-0{} {hour}:20\ncamera: box\npaper: pearl\nlight: EV {value:.1}\nsubject: 8 m\n\
             side: emulsion to hole\nresult: right\nby: RM\n```\n\n",
            at + 1
        ));
        sheets.push(format!("sheet-{at}"));
    }
    let developer = match baths.plant {
        Some(_) => "19:20",
        None => "19:40",
    };
    text.push_str(&format!(
        "```batch\nid: mix\ntitle: Mixed tonight\nof: dev\nmade: 2031-05-05 {developer}\nvolume: {} l\nby: RM\n```\n\n\
         ```session\nid: evening\ntitle: The evening\nwhen: 2031-05-05 19:50\nprocess: line\nbaths:\n  dev: mix\ntemperature: {} °C\n\
         safelight: lamp\nsheets: [{}]\n```\n\nThe bath came to {{{{ dev.pH }}}} and the first sheet to {{{{ sheet-0.time }}}}.\n",
        baths.makes,
        pictures.degrees,
        sheets.join(", ")
    ));
    text
}

fn notebook(tools: &Tools, baths: &Baths, pictures: &Pictures) -> Proof {
    proofed(
        &Memory::new()
            .with(SETTINGS, settings(tools))
            .with("baths.md", page_of_baths(baths, tools))
            .with("tools.md", page_of_tools(baths, pictures))
            .with("log.md", page_of_log(baths, pictures)),
    )
}

fn above_hints(proof: &Proof) -> Vec<String> {
    let counted = proof.findings.iter().filter(|finding| finding.counts());
    counted
        .filter(|finding| finding.grade < Grade::Hint)
        .map(|finding| {
            let seen = see(proof, finding);
            format!(
                "{}:{}: {}[{}]: {}",
                seen.path, seen.line, seen.grade, seen.rule, seen.message
            )
        })
        .collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn a_correct_notebook_has_nothing_above_a_hint(tools in tools(), baths in baths(), pictures in pictures()) {
        let proof = notebook(&tools, &baths, &pictures);
        let found = above_hints(&proof);
        prop_assert!(found.is_empty(), "{}", found.join("\n"));
    }
}

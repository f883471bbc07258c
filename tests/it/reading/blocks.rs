//! One mistake in one block, in every surrounding a block can stand in.

use super::wrong;

/// A sound block of a kind, and single mistakes in it: what is replaced, by what, and the rule that speaks. A mistake
/// without marks is awaited at the word of the kind.
struct Case {
    sound: &'static str,
    mistakes: &'static [(&'static str, &'static str, &'static str)],
}

const CASES: &[Case] = &[
    Case {
        sound: "\
```ingredient
id: subject
material: dried heather
form: dried
density: 0.2 g/ml
contains:
  tannic acid: 2–4 % w/w
pack: 100 g
price: 3.20
plant:
  name: heather
  picked: 2031-04-01
```",
        mistakes: &[
            ("form:", "«farm»:", "key-unknown"),
            ("form:", "«colour»:", "key-unknown"),
            ("pack:", "«form»:", "key-repeated"),
            ("material: dried heather\n", "", "key-missing"),
            ("form: dried", "form: «[dried]»", "value-shape"),
            ("form: dried", "form: «dryed»", "word-unknown"),
            ("0.2 g/ml", "0.2 «g/mml»", "unit-unknown"),
            ("0.2 g/ml", "«0.2 °C»", "dimension-wrong"),
            ("0.2 g/ml", "«0.2»", "unit-missing"),
            ("0.2 g/ml", "«a» bit", "amount-malformed"),
            ("2–4 % w/w", "2–4 % «x/w»", "amount-malformed"),
            ("  tannic acid: 2–4 % w/w", "  «tannic acid»:", "value-missing"),
            ("pack: 100 g", "«pack»:", "value-missing"),
            ("100 g", "«100 °C»", "dimension-wrong"),
            ("3.20", "«dear»", "amount-malformed"),
            ("  name:", "  «nmae»:", "key-unknown"),
            ("2031-04-01", "«1 April»", "date-malformed"),
            (
                "plant:\n  name: heather\n  picked: 2031-04-01",
                "plant: «heather»",
                "value-shape",
            ),
            ("id: subject", "id: «far-box»", "id-duplicate"),
            ("id: subject", "id: «my heather»", "id-malformed"),
            ("```ingredient", "```«ingredeint»", "kind-unknown"),
        ],
    },
    Case {
        sound: "\
```recipe
id: subject
role: stop
makes: 1 l
parts:
  - name: sour
    water: 500 ml at 40 °C
    add:
      citric acid, anhydrous: 10 g
      plain salt: 5 g, to taste
    steps:
      - dissolve: 3 min
      - steep: 20 min at 40 °C
      - strain
  - name: plain
    water: 400 ml
steps:
  - pour: [sour, into plain]
  - make up
gas: fizzed
use:
  temperature: 18–24 °C
  time: 30 s
  capacity: 20 sheets per litre
keeps:
  tray: 12 h
```",
        mistakes: &[
            ("role:", "«roel»:", "key-unknown"),
            ("gas:", "«colour»:", "key-unknown"),
            ("gas:", "«makes»:", "key-repeated"),
            ("role: stop\n", "", "key-missing"),
            ("makes: 1 l\n", "", "key-missing"),
            ("role: stop", "role: «stopp»", "word-unknown"),
            ("makes: 1 l", "makes: 1 «litter»", "unit-unknown"),
            ("makes: 1 l", "makes: «1 g»", "dimension-wrong"),
            ("makes: 1 l", "makes: «1»", "unit-missing"),
            ("makes: 1 l", "makes: «[1 l]»", "value-shape"),
            ("makes: 1 l", "makes: «-1 l»", "amount-out-of-range"),
            ("500 ml at 40", "500 «mil» at 40", "unit-unknown"),
            ("at 40 °C\n    add", "at «40 ml»\n    add", "dimension-wrong"),
            ("water: 400 ml", "«watr»: 400 ml", "key-unknown"),
            ("anhydrous: 10 g", "anhydrous: 10 «gg»", "unit-unknown"),
            ("anhydrous: 10 g", "anhydrous: «10 min»", "dimension-wrong"),
            ("anhydrous: 10 g", "anhydrous: «10»", "unit-missing"),
            (
                "      citric acid, anhydrous: 10 g",
                "      «citric acid, anhydrous»:",
                "value-missing",
            ),
            ("5 g, to", "5 «gs», to", "unit-unknown"),
            ("dissolve: 3 min", "«disolve»: 3 min", "key-unknown"),
            ("dissolve: 3 min", "dissolve: 3 «mni»", "unit-unknown"),
            ("dissolve: 3 min", "dissolve: «3 ml»", "dimension-wrong"),
            ("20 min at 40 °C", "20 min at 40 «°Z»", "unit-unknown"),
            ("- strain", "- «strian»", "word-unknown"),
            ("- make up", "- «stand about»", "word-unknown"),
            ("fizzed", "«fized»", "word-unknown"),
            ("18–24 °C", "«18–24 min»", "dimension-wrong"),
            ("time: 30 s\n", "time: 30 «sek»\n", "unit-unknown"),
            ("  time: 30 s", "  «tmie»: 30 s", "key-unknown"),
            ("  time: 30 s", "  «temperature»: 30 s", "key-repeated"),
            ("20 sheets", "20 «shets»", "unit-unknown"),
            ("keeps:\n  tray: 12 h", "keeps:\n  tray: 12 «hh»", "unit-unknown"),
            ("keeps:\n  tray: 12 h", "keeps: «12 g»", "dimension-wrong"),
            ("keeps:\n  tray: 12 h", "«keeps»:", "value-missing"),
            ("keeps:\n  tray: 12 h", "based on: «no-such»", "reference-unknown"),
            ("keeps:\n  tray: 12 h", "based on: «far-box»", "reference-kind"),
            ("keeps:\n  tray: 12 h", "«use»: {time: 3 s}", "key-repeated"),
            ("id: subject", "id: «sour-stop»", "id-duplicate"),
            ("id: subject\n", "", "id-missing"),
            ("```recipe", "```«recpie»", "kind-unknown"),
            ("```recipe", "```«Recipe»", "kind-unknown"),
        ],
    },
    Case {
        sound: "\
```camera
id: subject
pinhole: {value: 0.35 mm, evidence: measured}
distance: 125 mm
plane: wall, radius 62.5 mm
format: 5×7 in
holes:
  count: 2
  spacing: 10 mm
criterion: petzval
```",
        mistakes: &[
            ("distance:", "«distnace»:", "key-unknown"),
            ("criterion:", "«criterium»:", "key-unknown"),
            ("criterion:", "«sharpness»:", "key-unknown"),
            ("criterion:", "«distance»:", "key-repeated"),
            (
                "pinhole: {value: 0.35 mm, evidence: measured}\n",
                "",
                "key-missing",
            ),
            ("format: 5×7 in\n", "", "key-missing"),
            ("0.35 mm", "0.35 «mmm»", "unit-unknown"),
            ("0.35 mm", "«0.35 g»", "dimension-wrong"),
            ("measured", "«mesured»", "word-unknown"),
            ("value: 0.35", "«vlaue»: 0.35", "key-unknown"),
            ("distance: 125 mm", "distance: «125 s»", "dimension-wrong"),
            ("distance: 125 mm", "distance: {«a»: 125 mm}", "key-unknown"),
            ("distance: 125 mm", "distance: about «five»", "amount-malformed"),
            ("wall,", "«wal»,", "word-unknown"),
            ("radius 62.5 mm", "radius 62.5 «mmm»", "unit-unknown"),
            ("radius 62.5", "«raduis 62.5 mm»\nnote: 62.5", "word-unknown"),
            ("5×7 in", "5×7 «ni»", "unit-unknown"),
            ("count: 2\n", "count: «two»\n", "value-shape"),
            (
                "holes:
  count: 2
",
                "«holes»:
",
                "key-missing",
            ),
            ("petzval", "«petzwal»", "word-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
            ("```camera", "```«camra»", "kind-unknown"),
            ("```camera", "```camera« pinhole»", "kind-unknown"),
        ],
    },
    Case {
        sound: "\
```paper
id: subject
base: RC
size: 5×7 in
speed: 6
reciprocity: 1.2
sees: blue
opened: 2031-05-02
silver: 1.4 g/m²
tags: [slow, soft]
```",
        mistakes: &[
            ("sees:", "«seas»:", "key-unknown"),
            ("sees:", "«base»:", "key-repeated"),
            ("base: RC\n", "", "key-missing"),
            ("RC", "«RD»", "word-unknown"),
            ("RC", "«plastic»", "word-unknown"),
            ("speed: 6", "speed: «6 mm»", "dimension-wrong"),
            ("speed: 6", "speed: «six»", "amount-malformed"),
            ("reciprocity: 1.2", "reciprocity: «0.9»", "amount-out-of-range"),
            ("2031-05-02", "«2031-02-30»", "date-malformed"),
            ("2031-05-02", "«2031-03-30 01:30»", "time-skipped"),
            ("2031-05-02", "«2031-10-26 01:30»", "time-doubled"),
            ("1.4 g/m²", "1.4 «g/mm³»", "unit-unknown"),
            ("1.4 g/m²", "«1.4 g/l»", "dimension-wrong"),
            ("[slow, soft]", "[slow, «{a: soft}»]", "value-shape"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
            ("```paper", "```«papre»", "kind-unknown"),
        ],
    },
    Case {
        sound: "\
```process
id: subject
paper: RC
steps:
  - bath: sour-stop
    time: 30 s
    light: red
    clears: [30 s, 60 s]
  - rinse: tap water
    time: 30 s
    changes: 2
  - wash
  - dry: string and pegs
    time: 2 h
move: 5 s
```",
        mistakes: &[
            ("move:", "«mvoe»:", "key-unknown"),
            ("move:", "«paper»:", "key-repeated"),
            ("move: 5 s", "«move»:", "value-missing"),
            ("move: 5 s", "move: «5 g»", "dimension-wrong"),
            ("sour-stop", "«suor-stop»", "reference-unknown"),
            ("sour-stop", "«far-box»", "reference-kind"),
            ("bath:", "«bahts»:", "key-unknown"),
            (
                "- rinse: tap water\n    time",
                "- «splash»: tap water\n    time",
                "key-unknown",
            ),
            ("- rinse: tap water\n    time", "- «»time", "key-missing"),
            ("light: red", "light: «rad»", "word-unknown"),
            ("light: red", "«lihgt»: red", "key-unknown"),
            ("60 s]", "60 «ss»]", "unit-unknown"),
            ("changes: 2", "changes: «twice»", "value-shape"),
            ("- wash\n", "- «wahs»\n", "word-unknown"),
            ("2 h", "2 hr «5»", "unit-missing"),
            ("```process", "```«proces»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
    Case {
        sound: "\
```safelight
id: subject
lamp: red bicycle lamp
colour: red
distance: 1.2 m
switches: red only
tested:
  date: 2031-05-02
  paper: plain-two
  at: 1 m
  bare: clean to 8 min
  pre-exposed: 6 min
```",
        mistakes: &[
            ("lamp: red bicycle lamp\n", "", "key-missing"),
            ("colour: red\n", "", "key-missing"),
            ("distance: 1.2 m\n", "", "key-missing"),
            ("colour: red", "«color»: red", "key-unknown"),
            ("1.2 m", "«1.2 min»", "dimension-wrong"),
            ("red only", "«red onyl»", "word-unknown"),
            ("2031-05-02", "«2031/05/02»", "date-malformed"),
            ("plain-two", "«plain-tow»", "reference-unknown"),
            ("plain-two", "«bench-lamp»", "reference-kind"),
            ("clean to 8 min", "clean to «8 mm»", "dimension-wrong"),
            ("6 min", "6 «minn»", "unit-unknown"),
            ("  bare:", "  «bear»:", "key-unknown"),
            ("```safelight", "```«safelihgt»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
    Case {
        sound: "\
```exposure
id: subject
when: 2031-05-02 12:20
camera: far-box
paper: plain-two
light: 1/60 s at f/16, ISO 100
time: 40 s
bracket: 5 x 2/3 stop
preflash:
  lamp: bulb
  time: 2 s
subject: 12 m
side: emulsion to hole
result: needs +1/2 stop
scan:
  file: a.png
  dpi: 600
```",
        mistakes: &[
            ("when: 2031-05-02 12:20\n", "", "key-missing"),
            ("camera: far-box\n", "", "key-missing"),
            ("camera: far-box", "camera: «far-bx»", "reference-unknown"),
            ("camera: far-box", "camera: «plain-two»", "reference-kind"),
            ("paper: plain-two", "paper: «[plain-two]»", "value-shape"),
            ("2031-05-02 12:20", "«2031-05-02 25:20»", "date-malformed"),
            (
                "1/60 s at f/16, ISO 100",
                "1/60 s at «16», ISO 100",
                "unit-missing",
            ),
            ("1/60 s at f/16, ISO 100", "«moonbeam»", "word-unknown"),
            ("1/60 s at f/16, ISO 100", "12 «lxx»", "unit-unknown"),
            ("1/60 s at", "«1/60 g» at", "dimension-wrong"),
            ("time: 40 s", "time: 40 «sc»", "unit-unknown"),
            ("time: 40 s", "«tiem»: 40 s", "key-unknown"),
            ("time: 40 s", "«camera»: 40 s", "key-repeated"),
            ("2/3 stop", "«2/3 min»", "dimension-wrong"),
            ("5 x 2/3 stop", "«many»", "value-shape"),
            ("  time: 2 s", "  time: 2 «ss»", "unit-unknown"),
            ("12 m", "«12 min»", "dimension-wrong"),
            ("emulsion to hole", "«emulsion to hoel»", "word-unknown"),
            ("needs +1/2 stop", "«rihgt»", "word-unknown"),
            ("needs +1/2 stop", "needs «+1/2 min»", "dimension-wrong"),
            ("  file:", "  «fiel»:", "key-unknown"),
            ("dpi: 600", "dpi: «600 mm»", "dimension-wrong"),
            ("```exposure", "```«exposre»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
    Case {
        sound: "\
```print
id: subject
of: pier-one
when: 2031-05-04 20:00
paper: plain-two
distance: 1 m
time: 4 s
through: face to face
result: right
```",
        mistakes: &[
            ("of: pier-one\n", "", "key-missing"),
            ("pier-one", "«peir-one»", "reference-unknown"),
            ("pier-one", "«plain-two»", "reference-kind"),
            (
                "2031-05-04",
                "«2031-5-4 20:00»\nnote: 2031-05-04",
                "date-malformed",
            ),
            ("1 m\n", "«1 s»\n", "dimension-wrong"),
            ("4 s", "«4»", "unit-missing"),
            ("face to face", "«face on face»", "word-unknown"),
            ("right", "«good»", "word-unknown"),
            ("through:", "«thruogh»:", "key-unknown"),
            ("```print", "```«prnit»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
    Case {
        sound: "\
```batch
id: subject
of: sour-stop
made: 2031-05-02 18:00
volume: 1 l
swaps:
  citric acid, anhydrous: 16 g
measured:
  pH: 2.4
  with: strip
  diluted: 1+9
discarded: 2031-05-02 22:00
```",
        mistakes: &[
            ("of: sour-stop\n", "", "key-missing"),
            ("sour-stop", "«sour-stpo»", "reference-unknown"),
            ("sour-stop", "«stop-one»", "reference-kind"),
            ("2031-05-02 18:00", "«yesterday»", "date-malformed"),
            ("1 l", "«1 kg»", "dimension-wrong"),
            ("16 g", "16 «gm»", "unit-unknown"),
            (
                "measured:
  pH: 2.4
",
                "«measured»:
",
                "key-missing",
            ),
            ("2.4", "«24»", "amount-out-of-range"),
            ("strip", "«stripe»", "word-unknown"),
            ("1+9", "«1:9»", "ratio-ambiguous"),
            ("volume:", "«volum»:", "key-unknown"),
            ("discarded:", "«of»:", "key-repeated"),
            ("```batch", "```«bacth»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
    Case {
        sound: "\
```session
id: subject
when: 2031-05-02 19:00
process: short-line
baths:
  sour-stop: stop-one
temperature: 20 °C
safelight: bench-lamp
sheets: [pier-one]
events:
  - at: 19:30
    sheet: pier-one
    note: came up slowly
    appeared: 40 s
times:
  sour-stop: 35 s
people: 2
spare: 10 %
```",
        mistakes: &[
            ("process: short-line\n", "", "key-missing"),
            ("sheets: [pier-one]\n", "", "key-missing"),
            ("short-line", "«shrot-line»", "reference-unknown"),
            ("short-line", "«pier-one»", "reference-kind"),
            (
                "  sour-stop: stop-one",
                "  «suor-stop»: stop-one",
                "reference-unknown",
            ),
            (
                "  sour-stop: stop-one",
                "  sour-stop: «stop-two-b»",
                "reference-unknown",
            ),
            ("  sour-stop: stop-one", "  «sour-stop»:", "value-missing"),
            ("20 °C", "«20 min»", "dimension-wrong"),
            ("[pier-one]", "[pier-one, «pier-tow-x»]", "reference-unknown"),
            ("19:30", "«19:30» ish", "amount-malformed"),
            ("    sheet: pier-one", "    sheet: «plain-two»", "reference-kind"),
            ("    note:", "    «ntoe»:", "key-unknown"),
            ("40 s", "«40 m»", "dimension-wrong"),
            ("35 s", "35 «sq»", "unit-unknown"),
            ("people: 2", "people: «a few»", "value-shape"),
            ("10 %", "«10 g»", "dimension-wrong"),
            ("```session", "```«sesion»", "kind-unknown"),
            ("id: subject", "id: «far-box»", "id-duplicate"),
        ],
    },
];

/// A block in, a page out.
type Surround = fn(&str) -> String;

/// Ways in which a block stands on a page: its lines in, the page out.
const SURROUNDINGS: &[(&str, Surround)] = &[
    ("alone", |block| format!("{block}\n")),
    ("after other text", |block| {
        format!("# Été ½ — 写真 🙂\n\nÜber *alles*.\n\n{block}\n\nAfter.\n")
    }),
    ("with carriage returns", |block| {
        format!("Été\n\n{block}\n\nAfter.\n").replace('\n', "\r\n")
    }),
    ("after a byte order mark", |block| format!("\u{feff}{block}\n")),
    ("after front matter", |block| {
        format!("---\ntitle: Été\n---\n\n{block}\n")
    }),
    ("in a list", |block| format!("- été\n\n{}", lines(block, "  "))),
    ("in a list by tabs", |block| {
        format!("- été\n\n{}", lines(block, "\t"))
    }),
    ("in a numbered list", |block| {
        format!("1. one\n2. two\n\n{}", lines(block, "   "))
    }),
    ("in a quote", |block| format!("> été\n>\n{}", lines(block, "> "))),
    ("in a quote with carriage returns", |block| {
        format!("> été\n>\n{}", lines(block, "> ")).replace('\n', "\r\n")
    }),
    ("in a tight quote", |block| lines(block, ">")),
    ("in a list in a quote", |block| {
        format!("> - été\n>\n{}", lines(block, ">   "))
    }),
    ("in a quote in a list", |block| {
        format!("- été\n\n{}", lines(block, "  > "))
    }),
    ("in a list in a list", |block| {
        format!("- été\n  - ½\n\n{}", lines(block, "    "))
    }),
];

fn lines(block: &str, before: &str) -> String {
    block
        .lines()
        .fold(String::new(), |page, line| page + before + line + "\n")
}

/// The block with one mistake, marked.
fn mistaken(sound: &str, from: &str, to: &str) -> String {
    assert!(sound.contains(from), "`{from}` is not in the block\n{sound}");
    let block = sound.replacen(from, to, 1);
    if block.contains(super::OPEN) {
        return block;
    }
    let (first, rest) = block.split_once('\n').unwrap();
    let kind = first.trim_start_matches('`');
    format!("```«{kind}»\n{rest}")
}

#[test]
fn sound_blocks_have_no_finding_of_reading() {
    for case in CASES {
        for (name, surround) in SURROUNDINGS {
            let page = surround(case.sound);
            let proof = super::notebook(&page);
            let unsound: Vec<_> = crate::support::seen(&proof)
                .into_iter()
                .filter(|one| {
                    trayside::rules::find(one.rule)
                        .is_none_or(|rule| rule.group == trayside::rules::Group::Reading)
                })
                .collect();
            assert!(unsound.is_empty(), "{name}: {page}\n{unsound:#?}");
        }
    }
}

/// Each mistake alone, and in a few of the surroundings by turns, so that every kind of block meets all of them.
const TURNS: usize = 3;

#[test]
fn each_mistake_gives_one_finding_at_its_word() {
    let mut all = Vec::new();
    let mut turn = 0;
    for case in CASES {
        let before: Vec<_> = SURROUNDINGS
            .iter()
            .map(|(_, surround)| crate::support::seen(&super::notebook(&surround(case.sound))))
            .collect();
        for (from, to, rule) in case.mistakes {
            let block = mistaken(case.sound, from, to);
            let turns = (0..TURNS).map(|step| 1 + (turn + step) % (SURROUNDINGS.len() - 1));
            for at in std::iter::once(0).chain(turns) {
                let (name, surround) = SURROUNDINGS[at];
                if let Some(told) = wrong(&before[at], &surround(&block), &[rule]) {
                    all.push(format!("== {rule}, {name}\n{told}"));
                    break;
                }
            }
            turn += TURNS;
        }
    }
    assert!(all.is_empty(), "{} wrong\n{}", all.len(), all.join("\n"));
}

/// Words that no slip of the pen makes, as somebody writes them who has not read the manual, and what is offered.
#[test]
fn a_beginners_words_are_met_with_the_right_ones() {
    let cases = [
        ("use:\n  temp: 20 °C", "did you mean `temperature`?"),
        ("use:\n  agit: rock", "did you mean `agitation`?"),
        ("role: Stop bath", "did you mean `stop`?"),
    ];
    let recipe = |line: &str| format!("```recipe\nid: subject\nmakes: 1 l\n{line}\n```\n");
    let others = [
        (
            "```exposure\nid: subject\nwhen: 2031-05-02\nlight: sunny\n```\n",
            "did you mean `sun`?",
        ),
        (
            "```process\nid: subject\nsteps:\n  - stop: 30 s\n```\n",
            "name the bath by the id of its recipe, `bath: ...`, and write `time: 30 s` below it",
        ),
    ];
    let recipes = cases.map(|(line, help)| (recipe(line), help));
    for (page, help) in recipes
        .into_iter()
        .chain(others.map(|(page, help)| (page.to_owned(), help)))
    {
        let proof = super::notebook(&page);
        let helps: Vec<&str> = proof
            .findings
            .iter()
            .filter_map(|finding| finding.help.as_deref())
            .collect();
        assert!(
            helps.iter().any(|said| said.starts_with(help)),
            "{page}{helps:#?}"
        );
    }
}

//! A log that hangs together, edited a hundred times in its figures, words and blocks: after each save the output is what
//! a press from scratch gives, only the page that was saved is read, and what was rendered is what differs.

use trayside::host::{Host, Memory};
use trayside::pipeline::{File, PRESSED, Proof, SETTINGS, Silent};
use trayside::tend::{Named, Session};

use super::rounds::{Dice, Files, assert_as_from_scratch, from_scratch, halves};
use crate::support::USUAL;

const BATHS: &str = "\
# Baths

The tea is at {{ sage-tea.pH }}.

```recipe
title: Sage tea
role: developer
makes: 1 l
parts:
  - name: tea
    water: 500 ml at 90 °C
    add:
      dried sage: 30 g
    steps:
      - steep: 20 min
      - strain
  - name: alkali
    water: 400 ml at 24 °C
    add:
      washing soda, anhydrous: 36 g
      vitamin C powder: 12 g
steps:
  - combine: [alkali, tea]
use:
  temperature: 20 °C
  time: 8 min
keeps: 1 h
```

```recipe
title: Vinegar stop
role: stop
makes: 1 l
add:
  white vinegar: 200 ml
  water: 800 ml
use:
  time: 30 s
keeps: 1 day
```

```recipe
title: Plain fixer
role: fixer
makes: 1 l
add:
  sodium thiosulfate, crystals: 200 g
use:
  time: 5 min
keeps: 1 day
```

```process
title: Evening line
steps:
  - bath: sage-tea
    time: 8 min
    light: red
  - bath: vinegar-stop
    time: 30 s
  - bath: plain-fixer
    time: 5 min
  - wash: 10 min
```
";

const TOOLS: &str = "\
# Tools

```camera
title: Tea tin
pinhole: 0.3 mm
distance: 90 mm
format: 4×5 in
```

```camera
title: Long box
pinhole: 0.4 mm
distance: 180 mm
format: 4×5 in
```

```paper
title: Old stock
speed: 6
base: RC
size: 4×5 in
```
";

/// A day of the log.
pub(super) fn day(number: usize) -> String {
    let camera = if number.is_multiple_of(2) {
        "tea-tin"
    } else {
        "long-box"
    };
    format!(
        "---\ndate: 2031-05-0{number}\n---\n# Day {number}\n\nOn [the tin](#tea-tin), see [the day before](#sheet-{before}) and \
         {{{{ sheet-{number}.time }}}}.\n\n\
         ```exposure\nid: sheet-{number}\nwhen: 2031-05-0{number} 11:20\ncamera: {camera}\npaper: old-stock\nlight: EV 12.5\n\
         time: 4 min\nresult: right\n```\n\n\
         ```exposure\nid: guess-{number}\nwhen: 2031-05-0{number} 15:40\ncamera: tea-tin\npaper: old-stock\nlight: EV 10.5\n```\n\n\
         ```batch\nid: tea-{number}\nof: sage-tea\nmade: 2031-05-0{number} 18:00\nvolume: 1 l\nmeasured:\n  pH: 10.5\n  with: strip\n```\n\n\
         ```session\nid: evening-{number}\nwhen: 2031-05-0{number} 19:00\nprocess: evening-line\nbaths:\n  sage-tea: tea-{number}\n\
         sheets: [sheet-{number}]\n```\n\n\
         ```print\nid: print-{number}\nof: sheet-{number}\nwhen: 2031-05-0{number} 20:00\npaper: old-stock\ntime: 10 s\n```\n",
        before = number - 1,
    )
}

/// What an edit puts in the place of what.
const EDITS: [(&str, &[&str]); 14] = [
    ("EV 12.5", &["EV 11.5", "EV 13", "EV nothing"]),
    ("EV 10.5", &["EV 9.5", "EV 11"]),
    ("time: 4 min", &["time: 5 min", "time: 2 min"]),
    (
        "result: right",
        &[
            "result: needs +1/2 stop",
            "result: needs -1 stop",
            "note: unjudged",
        ],
    ),
    ("pH: 10.5", &["pH: 9.5", "pH: 14.5"]),
    ("volume: 1 l", &["volume: 0.5 l"]),
    ("sheets: [sheet", &["sheets: [guess"]),
    ("of: sheet", &["of: guess"]),
    ("id: guess-", &["id: hunch-", "id: sheet-"]),
    ("camera: tea-tin", &["camera: long-box", "camera: lost-tin"]),
    ("36 g", &["30 g", "40 g"]),
    ("0.3 mm", &["0.31 mm", "0.3 mmm"]),
    ("speed: 6", &["speed: 3", "speed: 25"]),
    ("20 °C\n  time: 8 min", &["22 °C\n  time: 6 min"]),
];

pub(super) fn notebook() -> Memory {
    let folder = Memory::new()
        .with(SETTINGS, USUAL)
        .with("baths.md", BATHS)
        .with("tools.md", TOOLS);
    for number in 1..8 {
        folder.put(&format!("log/day-{number}.md"), day(number));
    }
    folder
}

/// Edits one page, there and back again, and says whether any block of it is another now.
fn edit(folder: &Memory, dice: &mut Dice) -> (String, bool) {
    let paths = ["baths.md".to_owned(), "tools.md".to_owned()];
    let paths: Vec<String> = (1..8)
        .map(|number| format!("log/day-{number}.md"))
        .chain(paths)
        .collect();
    let path = paths[dice.below(paths.len())].clone();
    let text = String::from_utf8(folder.read(&path).unwrap()).unwrap();
    let edits: Vec<(&str, &str)> = EDITS
        .iter()
        .flat_map(|(from, all)| all.iter().flat_map(|to| [(*from, *to), (*to, *from)]))
        .filter(|(from, _)| text.contains(from))
        .collect();
    if dice.below(4) == 0 || edits.is_empty() {
        let heading = format!("# {} drops of rain\n\nRain.\n\n#", dice.below(1000));
        folder.put(&path, text.replacen('#', &heading, 1));
        return (path, false);
    }
    let (from, to) = edits[dice.below(edits.len())];
    folder.put(&path, text.replacen(from, to, 1));
    (path, true)
}

#[test]
fn a_hundred_edits_of_a_log() {
    let folder = notebook();
    let mut session = Session::new(&folder);
    session.round(&Named::new(), &Silent).unwrap().unwrap();
    let mut dice = Dice::new(20_310_714);
    let mut least = usize::MAX;
    let mut blocks = 0;
    for step in 0..100 {
        let (path, of_blocks) = edit(&folder, &mut dice);
        let (notebook, was) = halves(&folder);
        let scratch = from_scratch(&notebook);
        let mut first: Vec<File> = Vec::new();
        let named: Named = (dice.below(4) > 0).then(|| path.clone()).into_iter().collect();
        let round = session
            .round_with(&named, &Silent, &mut |_: &Proof, pages| first = pages)
            .unwrap()
            .unwrap();
        let (_, is) = halves(&folder);
        let what = format!("step {step}: {path}");
        assert_as_from_scratch(&is, &round, &scratch, &what);

        assert_eq!(round.worked.pages_read, 1, "{what}");
        // Of two blocks with one id it is not asked which is another now.
        let doubled = round.proof.notebook.blocks.iter().any(|block| block.doubled);
        let worked = round.worked.blocks_computed;
        assert!(of_blocks || doubled || worked == 0, "{what}");
        assert_eq!(round.worked.files_rendered, rendered(&was, &is), "{what}");
        blocks = round.proof.notebook.blocks.len();
        if of_blocks {
            least = least.min(round.worked.blocks_computed);
        }
        // The page that was saved is ready before the others, and as it stays.
        assert_eq!(first.len(), named.len(), "{what}");
        for (at, bytes) in &first {
            assert!(
                is[&format!("{PRESSED}/{at}")] == bytes[..],
                "{what}: {at} was shown otherwise"
            );
        }
    }
    assert!(
        least < blocks / 4,
        "the least that an edit computes are {least} of {blocks} blocks"
    );
}

/// How many files of templates differ. The addresses that last are written without one.
fn rendered(was: &Files, is: &Files) -> usize {
    let pages = is.iter().filter(|(path, _)| {
        path.rsplit_once('.').is_some_and(|(_, ending)| ending == "html") && !path.contains("/site/at/")
    });
    pages
        .filter(|(path, bytes)| was.get(*path) != Some(*bytes))
        .count()
}

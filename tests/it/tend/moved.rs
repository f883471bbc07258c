//! Pages that come, go and move, in a log that hangs together: after each the output is what a press from scratch gives, and
//! only pages are read that were not there, or had another text.

use trayside::host::{Host, Memory};
use trayside::pipeline::{SETTINGS, Silent};
use trayside::tend::{Named, Round, Session};

use super::log::{day, notebook};
use super::rounds::{Dice, Files, assert_as_from_scratch, from_scratch, halves};

/// Where pages come: before, between and after the others, and in other folders.
const PATHS: [&str; 9] = [
    "a.md",
    "baths-again.md",
    "log/a.md",
    "log/day-2-late.md",
    "log/day-2-later.md",
    "log/day-2.5.md",
    "log/more/day.md",
    "tools.md",
    "z.md",
];

/// Nothing else stands there.
fn is_page(path: &str) -> bool {
    path != SETTINGS && !path.starts_with("kept/")
}

fn take(folder: &Memory, path: &str) -> Vec<u8> {
    let bytes = folder.read(path).unwrap();
    assert!(folder.remove(path));
    bytes
}

/// One thing that happens; whether it is about prose alone.
fn happens(folder: &Memory, dice: &mut Dice) -> (String, bool) {
    let there: Vec<String> = halves(folder)
        .0
        .into_keys()
        .filter(|path| is_page(path))
        .collect();
    let free: Vec<&str> = PATHS
        .into_iter()
        .filter(|path| !there.iter().any(|other| other == path))
        .collect();
    let from = there[dice.below(there.len())].clone();
    let to = (!free.is_empty()).then(|| free[dice.below(free.len())]);
    match (dice.below(8), to) {
        (0..=1, Some(to)) => {
            folder.put(to, "# Rain\n\nRain, and [the tin](#tea-tin).\n");
            (format!("{to} comes, in prose"), true)
        }
        (2, Some(to)) => {
            folder.put(to, day(8 + dice.below(2)));
            (format!("{to} comes"), false)
        }
        // With every id that is on it.
        (3, Some(to)) => {
            folder.put(to, folder.read(&from).unwrap());
            (format!("{to} comes as a copy of {from}"), false)
        }
        (4..=5, Some(to)) => {
            let bytes = take(folder, &from);
            folder.put(to, bytes);
            (format!("{from} moves to {to}"), false)
        }
        (6, Some(to)) => {
            let text = String::from_utf8(folder.read(&from).unwrap()).unwrap();
            folder.put(&from, text.replace("EV 12.5", "EV 12") + "\nSaid later.\n");
            folder.put(to, "# Rain\n");
            (format!("{from} is another, and {to} comes"), false)
        }
        _ => {
            let prose = !String::from_utf8(take(folder, &from)).unwrap().contains("```");
            (format!("{from} goes"), prose)
        }
    }
}

/// How many pages stand there now that did not, or not with that text.
fn new(was: &Files, is: &Files) -> usize {
    let pages = is.iter().filter(|(path, _)| is_page(path));
    pages.filter(|(path, text)| was.get(*path) != Some(*text)).count()
}

#[test]
fn pages_come_go_and_move() {
    let folder = notebook();
    let mut session = Session::new(&folder);
    session.round(&Named::new(), &Silent).unwrap().unwrap();
    let mut dice = Dice::new(20_320_229);
    let (mut prose, mut partly) = (0, 0);
    for step in 0..150 {
        let was = halves(&folder).0;
        let plain = |round: &Round| !round.proof.notebook.blocks.iter().any(|block| block.doubled);
        let (what, of_prose) = happens(&folder, &mut dice);
        let is = halves(&folder).0;
        let scratch = from_scratch(&is);
        let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
        let what = format!("step {step}: {what}");
        assert_as_from_scratch(&halves(&folder).1, &round, &scratch, &what);
        assert_eq!(round.worked.pages_read, new(&was, &is), "{what}");
        let computed = round.worked.blocks_computed;
        if of_prose {
            assert_eq!(computed, 0, "{what}");
            prose += 1;
        } else if plain(&round) && computed < round.proof.notebook.blocks.len() {
            partly += 1;
        }
    }
    assert!(prose > 20 && partly > 10, "{prose} of prose, {partly} partly");
}

/// Each page before the one that came last: soon there is no number left between the two it stands between, and those after it
/// move on.
#[test]
fn pages_that_crowd_into_one_place() {
    let folder = notebook();
    let mut session = Session::new(&folder);
    session.round(&Named::new(), &Silent).unwrap().unwrap();
    let mut most = 0;
    for step in (0..24).rev() {
        let text = format!("# Late {step}\n\n```paper\ntitle: Late paper {step}\nspeed: 6\n```\n");
        folder.put(&format!("log/day-2-late-{step:02}.md"), text);
        let scratch = from_scratch(&halves(&folder).0);
        let round = session.round(&Named::new(), &Silent).unwrap().unwrap();
        assert_as_from_scratch(&halves(&folder).1, &round, &scratch, &format!("step {step}"));
        most = most.max(round.worked.pages_read);
    }
    assert!(most > 1, "no page had to move on");
}

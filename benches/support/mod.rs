//! What the benches share: a generated notebook on disk, and a piece of work timed beside its floor.

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// Runs a floor and a piece of work in turn, several times, and prints the medians and their ratio.
pub(crate) fn beside(name: &str, rounds: usize, mut floor: impl FnMut(), mut work: impl FnMut()) {
    let (mut floors, mut works) = (Vec::new(), Vec::new());
    for _ in 0..rounds {
        floors.push(timed(&mut floor));
        works.push(timed(&mut work));
    }
    let (floor, work) = (median(floors), median(works));
    println!(
        "{name}: floor {floor:.2?}, work {work:.2?}, {:.2} times the floor",
        work.as_secs_f64() / floor.as_secs_f64()
    );
}

fn timed(work: &mut impl FnMut()) -> Duration {
    let since = Instant::now();
    work();
    since.elapsed()
}

fn median(mut times: Vec<Duration>) -> Duration {
    times.sort();
    times[times.len() / 2]
}

/// The most memory this process has held, in megabytes, where the system tells.
pub(crate) fn peak_memory() -> Option<u64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    line.split_whitespace()
        .nth(1)?
        .parse::<u64>()
        .ok()
        .map(|kilobytes| kilobytes / 1024)
}

/// Writes a notebook of `pages` pages with three blocks each: fifty recipes, a few cameras and papers, the rest log.
pub(crate) fn generate(folder: &Path, pages: usize) {
    fs::write(
        folder.join("trayside.yaml"),
        "title: Ten thousand pages\nzone: Europe/London\nscale: 0.1 g\nunits: metric\n",
    )
    .unwrap();
    for page in 0..pages {
        let dir = folder.join(format!("log/{:03}", page / 100));
        fs::create_dir_all(&dir).unwrap();
        fs::write(dir.join(format!("page-{page:05}.md")), page_text(page)).unwrap();
    }
}

fn page_text(page: usize) -> String {
    let mut text =
        format!("---\ntitle: Page {page}\ndate: 2031-05-02\ntags: [log, spring]\n---\n\n# Page {page}\n\n");
    for paragraph in 0..3 {
        let _ = write!(
            text,
            "The tide was out and the light came flat over the mud, as on page {page} before, so the tin stood on the \
             third bollard and nobody moved it for the whole of the exposure; see [the camera](#tin-0) and **what it \
             needs**, which is {{{{ tin-0.f-number }}}} in paragraph {paragraph}.\n\n"
        );
    }
    if page < 50 {
        let _ = write!(text, "{}", recipe(page));
        if page == 0 {
            text.push_str(FIXED);
        }
    } else {
        for sheet in 0..3 {
            let _ = write!(text, "{}", exposure(page, sheet));
        }
    }
    text
}

const FIXED: &str = "\
```camera
id: tin-0
title: Ration tin
pinhole: 0.35 mm
distance: 90 mm
format: 9×13 cm
```

```paper
id: paper-0
base: RC
speed: 6
reciprocity: 1.2
```

";

/// The page of a developer with a number.
pub(crate) fn recipe(page: usize) -> String {
    format!(
        "```recipe\nid: tea-{page}\ntitle: Tea {page}\nrole: developer\nmakes: 1 l\nparts:\n  - name: tea\n    water: 500 ml at 90 °C\n    \
         add:\n      dried sage: 30 g\n    steps:\n      - steep: 20 min\n      - strain\n  - name: alkali\n    water: 350 ml at 24 °C\n    \
         add:\n      washing soda, anhydrous: 36 g\n    steps:\n      - dissolve: 3 min\nsteps:\n  - combine: [alkali, tea]\n  - make up\n\
         use:\n  temperature: 20–24 °C\n  time: 8–12 min\n  agitation: rock 10 s every minute\nkeeps: 1 h\n```\n\n"
    )
}

fn exposure(page: usize, sheet: usize) -> String {
    let (hour, minute) = (8 + sheet * 3, page % 60);
    format!(
        "```exposure\nid: sheet-{page}-{sheet}\ntitle: Bollard {page}, sheet {sheet}\nwhen: 2031-05-02 {hour:02}:{minute:02}\ncamera: tin-0\n\
         paper: paper-0\nlight: EV {}.5\nsubject: 8 m\nside: emulsion to hole\nresult: needs +1/2 stop\nby: MT\nnext: try the other \
         side of the pier, where the wall throws the light back\nnote: the wind got up towards the end and the lid had to be held\n```\n\n\
         After the wash the sheet was pale along the upper edge, which is the sky and not a fault of the tin.\n\n",
        10 + sheet
    )
}

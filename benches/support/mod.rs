//! What the benches share: a generated notebook on disk, and a piece of work timed beside its floor.

use std::fmt::Write as _;
use std::fs;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::time::{Duration, Instant};

use pulldown_cmark::{CodeBlockKind, Event, Parser, Tag, TagEnd};
use trayside::pipeline::Progress;

/// Whether this is a bench; `cargo test` runs it as well, to see that it still works, and then once over little is enough.
pub(crate) fn in_full() -> bool {
    std::env::args().any(|argument| argument == "--bench")
}

/// Runs a floor and a piece of work in turn, several times, and prints the medians and their ratio.
pub(crate) fn beside(name: &str, rounds: usize, floor: impl FnMut(), work: impl FnMut()) {
    beside_after(name, rounds, || {}, floor, work);
}

/// The same, with something that is done before each without being timed.
pub(crate) fn beside_after(
    name: &str,
    rounds: usize,
    mut before: impl FnMut(),
    mut floor: impl FnMut(),
    mut work: impl FnMut(),
) {
    let (mut floors, mut works) = (Vec::new(), Vec::new());
    for _ in 0..if in_full() { rounds } else { 1 } {
        before();
        floors.push(timed(&mut floor));
        before();
        works.push(timed(&mut work));
    }
    let (floor, work) = (median(floors), median(works));
    println!(
        "{name}: floor {floor:.2?}, work {work:.2?}, {:.2} times the floor",
        work.as_secs_f64() / floor.as_secs_f64()
    );
}

/// Tells how long each phase of a piece of work took.
#[derive(Default)]
pub(crate) struct Phases(Mutex<Vec<(&'static str, Instant)>>);

impl Progress for Phases {
    fn phase(&self, name: &'static str, _: usize) {
        self.0.lock().unwrap().push((name, Instant::now()));
    }
}

impl Phases {
    pub(crate) fn print(&self) {
        let began = self.0.lock().unwrap();
        let ends = began.iter().skip(1).map(|(_, at)| *at).chain([Instant::now()]);
        let took = began
            .iter()
            .zip(ends)
            .map(|((name, at), end)| format!("{name} {} ms", (end - *at).as_millis()));
        println!("{}", took.collect::<Vec<_>>().join(", "));
    }
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

/// Reads one file and runs over its Markdown events, and over the YAML events of its fences.
pub(crate) fn read(file: &Path) {
    read_text(&fs::read_to_string(file).unwrap());
}

fn read_text(text: &str) {
    let mut fence: Option<String> = None;
    for (event, range) in Parser::new_ext(text, trayside::syntax::markdown_options()).into_offset_iter() {
        match event {
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(_)) | Tag::MetadataBlock(_)) => {
                fence = Some(String::new());
            }
            Event::Text(part) => match &mut fence {
                Some(fence) => fence.push_str(&part),
                None => {
                    black_box((part, range));
                }
            },
            Event::End(TagEnd::CodeBlock | TagEnd::MetadataBlock(_)) => {
                for event in granit_parser::Parser::new_from_str(&fence.take().unwrap_or_default()) {
                    black_box(event.unwrap());
                }
            }
            _ => {}
        }
    }
}

/// Every file below a folder, in order of path.
pub(crate) fn files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(files(&path));
        } else {
            found.push(path);
        }
    }
    found.sort();
    found
}

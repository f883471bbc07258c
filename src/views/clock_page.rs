//! A process as a page that runs: the line of trays, its timetables for one sheet and for several, and what is needed to
//! write the session down afterwards.

use std::collections::BTreeMap;

use serde::Serialize;

use super::agitation::Agitation;

/// The clock of a process.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClockPage {
    /// Path in the site, such as `clock/rc-line.html`.
    pub path: String,
    /// The way from its folder to the site's root.
    pub root: String,
    /// The block's title.
    pub title: String,
    /// What paper it is for; empty where the process does not say.
    pub subtitle: String,
    /// The block, as an address from the site's root.
    pub block: String,
    /// Its card, as an address from the site's root, where one was pressed.
    pub card: Option<String>,
    /// The trays, left to right.
    pub trays: Vec<ClockTray>,
    /// The drying at the end, as a labelled time.
    pub dry: Option<Dry>,
    /// When each sheet lies in which tray: one table a number of sheets, from one; none where a tray has no time.
    pub tables: Vec<TimeTable>,
    /// Why there is no table for more sheets, where there is not.
    pub no_more: Option<String>,
    /// The page's fixed words, by name.
    pub words: BTreeMap<&'static str, &'static str>,
    /// What its script says, by name.
    pub says: BTreeMap<&'static str, &'static str>,
    /// The same for a script, as numbers.
    pub run: Run,
}

/// A tray as it is drawn and listed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ClockTray {
    /// Its place among the trays: as many notches as on its card.
    pub number: usize,
    /// What it is called at the line.
    pub name: String,
    /// Which step it is for, where its name does not say, and the title of its bath, or what it is done with; empty where
    /// nothing more is known.
    pub what: String,
    /// How long, worded; empty where nothing is written.
    pub time: String,
    /// How warm, worded; empty where it is not said.
    pub temperature: String,
    /// Under which light, worded; empty where it is not said.
    pub light: String,
    /// How it is moved, as written.
    pub agitation: String,
    /// How long a sheet drips over it, worded; empty where it is not said.
    pub drain: String,
}

/// Drying at the end of the line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Dry {
    /// What on.
    pub name: String,
    /// How long, worded; empty where it is not said.
    pub time: String,
}

/// When every sheet lies in every tray, from the first move on.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TimeTable {
    /// How many sheets.
    pub sheets: usize,
    /// Until the last sheet hangs.
    pub end: String,
    /// One row a tray.
    pub rows: Vec<TimeRow>,
}

/// The times in one tray.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TimeRow {
    /// The tray's place in the line: names may be alike.
    pub number: usize,
    /// The tray's name.
    pub name: String,
    /// For each sheet, when it is in and when it is lifted, such as `0:05–5:05`.
    pub times: Vec<String>,
}

/// What the page's script runs. Times are in seconds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Run {
    /// The notebook's title: two notebooks may have a process of one name.
    pub notebook: String,
    /// The block's id.
    pub id: String,
    /// The block's title.
    pub title: String,
    /// The notebook's time zone, as an IANA name.
    pub zone: Option<String>,
    /// The notebook's decimal mark.
    pub decimal: char,
    /// Pairs of hands.
    pub hands: u32,
    /// How long a move takes.
    #[serde(rename = "move")]
    pub move_time: f64,
    /// The trays.
    pub trays: Vec<RunTray>,
    /// The timetables, by number of sheets.
    pub plans: Vec<Plan>,
    /// Shortest and longest drying.
    pub dry: Option<[f64; 2]>,
    /// Sheets that no session has developed, the latest first.
    pub sheets: Vec<Named>,
    /// Lamps.
    pub lamps: Vec<Named>,
    /// Batches of the line's baths that were not thrown away, the latest first.
    pub batches: Vec<Mixed>,
}

/// A tray for the script.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunTray {
    /// What it is called at the line.
    pub name: String,
    /// What it is called in a session: its bath's id, else its name; no two of a line are the same.
    pub step: String,
    /// Its bath's id.
    pub bath: Option<String>,
    /// How long a sheet lies in it; none where the eye ends it.
    pub stay: Option<f64>,
    /// How much longer it may; none for as long as one likes.
    pub slack: Option<f64>,
    /// How many sheets it holds.
    pub places: u32,
    /// How long a sheet drips when it leaves.
    pub drain: f64,
    /// `dark`, `red`, `room`, or nothing.
    pub light: Option<&'static str>,
    /// How the sheet is moved.
    pub agitation: Option<Agitation>,
}

/// A timetable: for each sheet the starts of its moves, in, on and out.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Plan {
    /// The starts.
    pub starts: Vec<Vec<f64>>,
    /// The end of the last move.
    pub end: f64,
}

/// A block that the session may name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Named {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
}

/// A batch that the session may name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Mixed {
    /// Its id.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The recipe's id.
    pub of: String,
}

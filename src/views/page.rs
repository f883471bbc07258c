//! A page of the site (later also of the journal): prose, computed facts, and blocks as plain tables.

use std::hash::{Hash, Hasher};

use pulldown_cmark::Event;
use rayon::prelude::*;
use serde::Serialize;

use super::clock_page::ClockPage;
use super::contact::Frame;
use super::event_hash;
use super::pictures::PictureNeed;
use super::words::Speech;
use crate::finding::Grade;

/// Everything the site shows.
#[derive(Debug)]
pub struct SiteView<'a> {
    /// The notebook's title.
    pub title: String,
    /// The author line, as written.
    pub by: Option<String>,
    /// ISO 639-1 code.
    pub language: String,
    /// The address that the site will be found at, with a stroke at its end, where the notebook says so.
    pub base: Option<String>,
    /// Every page, in reading order.
    pub pages: Vec<PageView<'a>>,
    /// Every negative and positive of the public pages, in order of time; empty in an outline.
    pub frames: Vec<Frame>,
    /// How many of these there are.
    pub frame_count: usize,
    /// All findings, gravest first within each page.
    pub findings: Vec<FindingView>,
    /// A line such as `1 hazard, 2 doubts; 3 expected or acknowledged`; `nothing found` where there is none.
    pub summary: String,
    /// The clocks of processes, in reading order.
    pub clocks: Vec<ClockPage>,
    /// Cards that were pressed beside the site.
    pub cards: Vec<CardLink>,
    /// The site's own words.
    pub words: Speech,
    /// Pictures that the pages show, each once, in order of path: whoever writes the site writes these as well.
    pub pictures: Vec<PictureNeed>,
    /// The version of trayside that pressed it.
    pub version: String,
}

impl SiteView<'_> {
    /// Lets go of it side by side: that of a long log is millions of small pieces.
    pub fn let_go(self) {
        self.pages.into_par_iter().for_each(drop);
        self.frames.into_par_iter().for_each(drop);
    }
}

/// A pressed card that the site links to.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct CardLink {
    /// The block's id.
    pub id: String,
    /// The block's title.
    pub title: String,
    /// Path from the site's root, such as `../cards/rosemary-soda.pdf`.
    pub href: String,
}

/// One page.
#[derive(Debug, Hash)]
pub struct PageView<'a> {
    /// Path in the site, such as `class/tuesday.html`.
    pub path: String,
    /// The way from this page's folder to the site's root: empty or `../`, `../../`.
    pub root: String,
    /// The title: front matter, else the first heading, else the file name.
    pub title: String,
    /// The date as written.
    pub date: Option<String>,
    /// The day of that date, such as `2031-05-02`.
    pub day: Option<String>,
    /// Its moment in UTC, as RFC 3339 has it: by this pages are put in order.
    pub moment: Option<String>,
    /// Its moment where it was, as RFC 3339 has it; of a day alone its beginning.
    pub stamp: Option<String>,
    /// Whether the date has a time of day.
    pub timed: bool,
    /// Tags, in the order written.
    pub tags: Vec<String>,
    /// The body.
    pub body: Vec<Piece<'a>>,
    /// How many findings count on this page, by grade word, gravest first.
    pub findings: Vec<FindingView>,
    /// What the scaling of its recipes is computed from, as JSON, where any of them may be scaled.
    pub scaling: Option<String>,
}

/// A stretch of a page.
#[derive(Debug)]
pub enum Piece<'a> {
    /// A Markdown event. Links are resolved; raw HTML is still raw and must be sanitised by the renderer.
    Markdown(Event<'a>),
    /// A computed fact in the prose.
    Fact(FactView),
    /// A block.
    Block(Box<BlockView>),
}

impl Hash for Piece<'_> {
    fn hash<H: Hasher>(&self, state: &mut H) {
        std::mem::discriminant(self).hash(state);
        match self {
            Self::Markdown(event) => event_hash::hash(event, state),
            Self::Fact(fact) => fact.hash(state),
            Self::Block(block) => block.hash(state),
        }
    }
}

/// A computed fact, worded.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct FactView {
    /// The full name, such as `rosemary-soda.pH`.
    pub id: String,
    /// The short name as it is read, such as `pH` or `f-number`.
    pub label: String,
    /// The value as it is read, with its unit; for a gap `—`.
    pub text: String,
    /// One line on where it comes from: the formula in words, or why there is no value.
    pub how: String,
    /// Whether there is no value.
    pub gap: bool,
    /// Whether it hangs as a slip beside its block. What a block already says in its rows is listed among the facts alone.
    pub margin: bool,
    /// The block it belongs to, as an address from this page, where prose mentions it.
    pub href: Option<String>,
}

/// A block as it is shown on a page.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct BlockView {
    /// The block's kind, such as `recipe`.
    pub kind: String,
    /// The same in the site's language.
    pub kind_word: &'static str,
    /// The block's id: the anchor on the page.
    pub id: String,
    /// Whether it is found by this id for good: a name was given, and no earlier block has the same.
    pub lasting: bool,
    /// The title.
    pub title: String,
    /// A line under the title, such as `developer, makes 1 l`.
    pub subtitle: String,
    /// Evidence line such as `untested`, where it applies.
    pub evidence: Option<String>,
    /// What was written, as sections.
    pub sections: Vec<Section>,
    /// What was computed: the margin slip.
    pub facts: Vec<FactView>,
    /// Safety lines.
    pub cautions: Vec<CautionView>,
    /// Findings of this block.
    pub findings: Vec<FindingView>,
    /// The card pressed from it: path from the site's root.
    pub card: Option<String>,
    /// The clock that runs it: an address from the site's root.
    pub clock: Option<String>,
    /// Whether it is a recipe that the page can scale.
    pub scales: bool,
    /// The author's note, as written.
    pub note: Option<String>,
    /// Scans.
    pub pictures: Vec<PictureView>,
    /// A camera drawn to scale.
    pub drawing: Option<super::drawing::Drawing>,
    /// Plots of a recipe.
    pub plots: Vec<super::bath_plots::Plotted>,
    /// The block's own text, where it could not be read at all.
    pub source: Option<String>,
}

/// A safety line.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct CautionView {
    /// Whether it can injure at once.
    pub hazard: bool,
    /// The line.
    pub text: String,
    /// Whether its words are the site's, not the author's.
    pub ours: bool,
}

/// A picture that belongs to a block.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct PictureView {
    /// Where it stands: an address from the site's root.
    pub src: String,
    /// What it is, in words.
    pub alt: String,
}

/// A part of a block view.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Section {
    /// A heading, such as a part's name; none for the first.
    pub heading: Option<String>,
    /// Whether the heading is a word of the author's.
    pub named: bool,
    /// Labelled values.
    pub rows: Vec<Row>,
    /// Things to do, in order.
    pub steps: Vec<String>,
    /// How the rows are set.
    pub layout: Layout,
}

/// How the rows of a section are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Layout {
    /// As the block's kind is set: a column of figures, pairs, or trays.
    #[default]
    Figures,
    /// Words beside their labels.
    Lines,
    /// Links in running text at the foot of the block; the label is small print after each.
    Links,
}

/// A labelled value.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct Row {
    /// Such as `washing soda, anhydrous`.
    pub label: String,
    /// Whether the label is certainly in the site's words.
    pub ours: bool,
    /// Such as `30 g`.
    pub value: String,
    /// A remark in small print, such as `20 g/l` or `guessed`; empty where there is none.
    pub remark: String,
    /// Where the value links to, already resolved from this page: a camera's block, a bath's.
    pub href: Option<String>,
    /// Whether the value was not noted.
    pub blank: bool,
}

/// A finding, worded.
#[derive(Debug, Clone, PartialEq, Eq, Hash, Serialize)]
pub struct FindingView {
    /// The grade, as settings and styles know it.
    pub grade: Grade,
    /// The same in the site's language.
    pub grade_word: &'static str,
    /// The rule's name.
    pub rule: String,
    /// The message.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
    /// The notebook page.
    pub path: String,
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// Link to the block on the site, from the site's root, where there is one.
    pub href: Option<String>,
    /// `expected here`, or the reason it was acknowledged with; in the site's language.
    pub standing: Option<String>,
}

//! What a page offers to be found: the page itself, its sections, its blocks, and the findings on it.

use super::strip::{self, Met};
use crate::site::prose::{Part, Prose};
use crate::views::Speech;
use crate::views::page::{BlockView, FactView, FindingView, PageView};

/// Something that can be found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Entry {
    /// `page`, `section`, the kind of a block, or `rule`.
    pub(super) kind: String,
    /// Where it stands on its page; empty for the page itself.
    pub(super) anchor: String,
    /// Its name.
    pub(super) title: String,
    /// What else it says.
    pub(super) text: String,
}

impl Entry {
    fn new(kind: &str, anchor: String, title: String) -> Self {
        Self {
            kind: kind.to_owned(),
            anchor,
            title,
            text: String::new(),
        }
    }

    /// Adds words, set off from those before.
    fn say(&mut self, words: &str) {
        if !words.is_empty() {
            self.text.push(' ');
            self.text.push_str(words);
        }
    }
}

/// The entries of a page, the page itself first. They hold every word that the page shows in its own language,
/// but for the figures along a plot, and no other.
pub(super) fn of(
    page: &PageView<'_>,
    prose: &Prose<'_>,
    loose: &[&FindingView],
    words: Speech,
) -> Vec<Entry> {
    let mut reading = Reading {
        entries: vec![Entry::new("page", String::new(), page.title.clone())],
        at: 0,
        heading: None,
        words,
    };
    if let Some(opening) = &prose.opening
        && opening.text != page.title
    {
        reading.text(&opening.text);
        reading.text(" ");
    }
    for part in &prose.parts {
        match part {
            Part::Html { html } => strip::read(html, |met| reading.met(met)),
            Part::Fact { fact, .. } => reading.text(&fact.text),
            Part::Slips { facts, .. } => {
                for fact in facts {
                    reading.text(" ");
                    reading.text(&fact_words(fact, words));
                }
                reading.text(" ");
            }
            Part::Block { block, .. } => reading.block(block),
        }
    }
    for finding in loose {
        reading.finding(finding, "at.found");
    }
    let mut entries = reading.entries;
    if let Some(first) = entries.first_mut() {
        for word in page.date.iter().chain(&page.tags) {
            first.say(word);
        }
    }
    for entry in &mut entries {
        entry.title = tidy(&entry.title);
        entry.text = tidy(&entry.text);
    }
    entries
}

struct Reading {
    entries: Vec<Entry>,
    /// The section that running text belongs to.
    at: usize,
    /// The heading that is being read.
    heading: Option<Entry>,
    words: Speech,
}

impl Reading {
    fn met(&mut self, met: Met) {
        match met {
            Met::Text(text) | Met::Alt(text) => self.text(&text),
            Met::Gap => self.text(" "),
            Met::Heading(anchor) => {
                self.heading = Some(Entry::new("section", anchor.unwrap_or_default(), String::new()));
            }
            Met::HeadingEnd => {
                if let Some(heading) = self.heading.take() {
                    self.at = self.entries.len();
                    self.entries.push(heading);
                }
            }
        }
    }

    fn text(&mut self, text: &str) {
        if let Some(heading) = &mut self.heading {
            heading.title.push_str(text);
        } else if let Some(entry) = self.entries.get_mut(self.at) {
            entry.text.push_str(text);
        }
    }

    fn block(&mut self, block: &BlockView) {
        let kind = match block.kind.as_str() {
            "ingredient" => "material",
            kind => kind,
        };
        let mut entry = Entry::new(kind, block.id.clone(), block.title.clone());
        for words in [Some(&block.subtitle), block.evidence.as_ref()]
            .into_iter()
            .flatten()
        {
            entry.say(words);
        }
        for section in &block.sections {
            entry.say(section.heading.as_deref().unwrap_or(""));
            for row in &section.rows {
                for words in [&row.label, &row.value, &row.remark] {
                    entry.say(words);
                }
                entry.text.push(';');
            }
            for step in &section.steps {
                entry.say(step);
            }
        }
        for caution in &block.cautions {
            entry.say(&caution.text);
        }
        for fact in &block.facts {
            entry.say(&fact_words(fact, self.words));
        }
        if let Some(drawing) = &block.drawing {
            entry.say(&drawing.title);
            entry.say(&drawing.words);
        }
        for plot in &block.plots {
            entry.say(&plot.title);
        }
        let pictures = block.pictures.iter().map(|picture| &picture.alt);
        for words in block.note.iter().chain(&block.source).chain(pictures) {
            entry.say(words);
        }
        if block.clock.is_some() {
            entry.say(self.words.site.search.the_clock);
        }
        if block.card.is_some() {
            entry.say(self.words.site.search.the_card);
        }
        // The id is looked for as it stands in references; it is no part of what is read.
        entry.say(block.kind_word);
        entry.say(&block.id);
        self.text(" ");
        self.entries.push(entry);
        for finding in &block.findings {
            self.finding(finding, &block.id);
        }
    }

    fn finding(&mut self, finding: &FindingView, anchor: &str) {
        let mut entry = Entry::new("rule", anchor.to_owned(), finding.rule.clone());
        entry.say(finding.grade_word);
        entry.say(&without_ticks(&finding.message));
        for words in finding.help.iter().chain(&finding.standing) {
            entry.say(&without_ticks(words));
        }
        entry.say(&finding.path);
        self.entries.push(entry);
    }
}

fn fact_words(fact: &FactView, words: Speech) -> String {
    // How it comes about is told in English: where that is a foreign language, nobody looks for it, and a page of the
    // search could not mark it.
    if words.code == "en" {
        format!("{} {} {};", fact.label, fact.text, without_ticks(&fact.how))
    } else {
        format!("{} {};", fact.label, fact.text)
    }
}

/// On the page backticks set off what was written, and are not shown.
fn without_ticks(text: &str) -> String {
    text.replace('`', "")
}

/// One space between words, none at the ends.
fn tidy(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for word in text.split_whitespace() {
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    out
}

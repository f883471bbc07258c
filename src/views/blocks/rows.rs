//! Rows from what was written: figures with their evidence, words, dates, and references as links.

use crate::notebook::{Base, Block, Evidence, Figure, Slot, When};
use crate::source::{FileId, Spanned};
use crate::units::{Amount, Size, Style};

use super::super::block_view::Desk;
use super::super::page::{Layout, Row, Section};
use super::super::words::{BlockWords, Words};

/// Rows of one block, in the making.
pub(super) struct Rows<'d, 'a> {
    desk: &'d Desk<'a>,
    page: FileId,
    made: Vec<Row>,
}

impl<'d, 'a> Rows<'d, 'a> {
    /// No rows yet.
    pub(super) fn new(desk: &'d Desk<'a>, block: &Block) -> Self {
        Self {
            desk,
            page: block.page,
            made: Vec::new(),
        }
    }

    /// A row as it is.
    pub(super) fn push(&mut self, row: Row) {
        self.made.push(row);
    }

    /// A label and its value.
    pub(super) fn plain(&mut self, label: &str, value: impl Into<String>) {
        self.made.push(row(label, value));
    }

    /// A label and its value with a remark.
    pub(super) fn remarked(&mut self, label: &str, value: impl Into<String>, remark: impl Into<String>) {
        self.made.push(Row {
            remark: remark.into(),
            ..row(label, value)
        });
    }

    /// Whatever a slot holds, worded; a value that cannot be read says so: the finding above says why.
    pub(super) fn slot<T>(&mut self, label: &str, slot: &Slot<T>, word: impl FnOnce(&T) -> Row) {
        match slot {
            Slot::Is(value) => {
                let row = word(value);
                self.made.push(Row {
                    label: label.to_owned(),
                    ours: true,
                    ..row
                });
            }
            Slot::Broken => self.made.push(Row {
                blank: true,
                ours: true,
                ..row(label, self.desk.words.block.value.unreadable)
            }),
            Slot::Absent => {}
        }
    }

    /// A slot that the trade would want filled.
    pub(super) fn wanted<T>(&mut self, label: &str, slot: &Slot<T>, word: impl FnOnce(&T) -> Row) {
        if slot.is_absent() {
            self.blank(label);
        } else {
            self.slot(label, slot, word);
        }
    }

    /// A value that was not noted.
    pub(super) fn blank(&mut self, label: &str) {
        self.made.push(Row {
            blank: true,
            ours: true,
            ..row(label, self.desk.words.block.value.not_noted)
        });
    }

    /// A figure with how sure it is.
    pub(super) fn figure(&mut self, label: &str, slot: &Slot<Figure>) {
        let desk = self.desk;
        self.slot(label, slot, |figure| figure_row(figure, desk));
    }

    /// Words as written.
    pub(super) fn text(&mut self, label: &str, slot: &Slot<Spanned<String>>) {
        self.slot(label, slot, |text| unlabelled(text.value.trim()));
    }

    /// A word of the language, as `worded` has it in that of the notebook.
    pub(super) fn word(
        &mut self,
        label: &str,
        slot: &Slot<Spanned<&'static str>>,
        worded: impl FnOnce(&'static str) -> Option<&'static str>,
    ) {
        self.slot(label, slot, |word| {
            unlabelled(worded(word.value).unwrap_or(word.value))
        });
    }

    /// A date as written.
    pub(super) fn when(&mut self, label: &str, slot: &Slot<Spanned<When>>) {
        self.slot(label, slot, |when| unlabelled(&when.value.written));
    }

    /// A sheet size.
    pub(super) fn size(&mut self, label: &str, slot: &Slot<Spanned<Size>>) {
        self.slot(label, slot, |size| unlabelled(size_text(&size.value)));
    }

    /// A number of things.
    pub(super) fn count(&mut self, label: &str, slot: &Slot<Spanned<u32>>) {
        self.slot(label, slot, |count| unlabelled(count.value.to_string()));
    }

    /// A reference to another block, as its title, linked to where it stands.
    pub(super) fn reference(&mut self, label: &str, slot: &Slot<Spanned<String>>) {
        let (desk, page) = (self.desk, self.page);
        self.slot(label, slot, |id| reference_row(desk, page, &id.value));
    }

    /// The rows as a column of figures.
    pub(super) fn figures(self, heading: Option<&str>) -> Section {
        section(heading, self.made, Layout::Figures)
    }

    /// The rows as labelled lines of words.
    pub(super) fn lines(self, heading: Option<&str>) -> Section {
        section(heading, self.made, Layout::Lines)
    }
}

/// A label and its value.
pub(super) fn row(label: &str, value: impl Into<String>) -> Row {
    Row {
        label: label.to_owned(),
        ours: false,
        value: value.into(),
        remark: String::new(),
        href: None,
        blank: false,
    }
}

/// A value whose label is still to come.
pub(super) fn unlabelled(value: impl Into<String>) -> Row {
    row("", value)
}

/// A figure and how sure it is; the label is still to come.
pub(super) fn figure_row(figure: &Figure, desk: &Desk<'_>) -> Row {
    Row {
        remark: evidence(figure.evidence, figure.read_from.as_deref(), desk.words.block),
        ..unlabelled(figure.amount.show(desk.style))
    }
}

/// A block as its title, linked; the label is still to come. What stands on a private page is named as it was written.
pub(super) fn reference_row(desk: &Desk<'_>, page: FileId, id: &str) -> Row {
    match desk.places.block(id) {
        Some(block) => Row {
            href: desk.places.block_from(page, block),
            ..unlabelled(block.name())
        },
        None => unlabelled(id),
    }
}

/// How sure a figure is, in words.
pub(super) fn evidence(evidence: Option<Evidence>, from: Option<&str>, words: &BlockWords) -> String {
    match (evidence, from) {
        (Some(Evidence::Read), Some(from)) => Words::fill(words.value.read_in, from),
        (Some(evidence), Some(from)) => format!("{}: {from}", (words.evidence)(evidence)),
        (Some(evidence), None) => (words.evidence)(evidence).to_owned(),
        (None, Some(from)) => from.to_owned(),
        (None, None) => String::new(),
    }
}

/// A paper's base.
pub(super) fn base_word(desk: &Desk<'_>, written: &'static str) -> &'static str {
    Base::from_word(written).map_or(written, desk.words.base)
}

/// A size with a proper cross.
pub(super) fn size_text(size: &Size) -> String {
    size.written.replace(" x ", "×").replace('x', "×")
}

/// A section of rows.
pub(super) fn section(heading: Option<&str>, rows: Vec<Row>, layout: Layout) -> Section {
    Section {
        heading: heading.map(str::to_owned),
        named: false,
        rows,
        steps: Vec::new(),
        layout,
    }
}

/// Amounts as they are read, one after another.
pub(super) fn amounts(amounts: &[Spanned<Amount>], style: Style) -> String {
    let words: Vec<String> = amounts.iter().map(|amount| amount.show(style)).collect();
    words.join(", ")
}

//! The weighing-out sheet in a terminal: amounts under one another by their decimal point, everything else beside or below.

use std::fmt::Write as _;

use crate::finding::render::TextStyle;
use crate::views::card::Step;
use crate::views::weighing::{Sheet, Stock};

/// Wider than this a sheet is no easier to read.
const WIDEST: usize = 88;
/// A box to tick.
const BOX: &str = "[ ]";
/// How far what belongs to a row is indented.
const UNDER: usize = 4;

/// A page under way.
pub(super) struct Page {
    pub(super) out: String,
    pub(super) width: usize,
    colours: bool,
}

impl Page {
    pub(super) fn new(style: TextStyle) -> Self {
        Self {
            out: String::new(),
            width: style.width.min(WIDEST),
            colours: style.colours,
        }
    }

    pub(super) fn bold(&self, text: &str) -> String {
        if self.colours {
            format!("\x1b[1m{text}\x1b[0m")
        } else {
            text.to_owned()
        }
    }

    pub(super) fn dim(&self, text: &str) -> String {
        if self.colours {
            format!("\x1b[2m{text}\x1b[0m")
        } else {
            text.to_owned()
        }
    }

    /// A line of its own.
    pub(super) fn line(&mut self, text: &str) {
        self.out.push_str(text.trim_end());
        self.out.push('\n');
    }

    /// A heading after an empty line.
    pub(super) fn heading(&mut self, text: &str) {
        let mut letters = text.chars();
        let first = letters.next().into_iter().flat_map(char::to_uppercase);
        let text: String = first.chain(letters).collect();
        let text = self.bold(&text);
        let _ = writeln!(self.out, "\n{text}");
    }

    /// Something left and something flush right.
    pub(super) fn ends(&mut self, left: &str, right: &str) {
        let room = self.width.saturating_sub(columns(left) + columns(right)).max(2);
        let (left, right) = (self.bold(left), self.bold(right));
        let _ = writeln!(self.out, "{left}{}{right}", " ".repeat(room));
    }

    /// Text broken at the width, its first line after `mark`, the others under it.
    pub(super) fn hung(&mut self, indent: usize, mark: &str, text: &str) {
        let hang = indent + columns(mark);
        let mut line = format!("{}{mark}", " ".repeat(indent));
        let mut column = hang;
        let mut first = true;
        for word in text.split(' ').filter(|word| !word.is_empty()) {
            if !first && column + 1 + columns(word) > self.width {
                self.line(&line);
                line = " ".repeat(hang);
                column = hang;
            } else if !first {
                line.push(' ');
                column += 1;
            }
            line.push_str(word);
            column += columns(word);
            first = false;
        }
        self.line(&line);
    }
}

/// The whole sheet.
pub(super) fn sheet(sheet: &Sheet, style: TextStyle) -> String {
    let mut page = Page::new(style);
    page.ends(&sheet.title, &sheet.volume);
    let about: Vec<&str> = [sheet.role.as_str(), sheet.id.as_str()]
        .into_iter()
        .chain(sheet.untested.as_deref())
        .filter(|word| !word.is_empty())
        .collect();
    page.hung(0, "", &format!("{} · {}", about.join(" · "), sheet.because));
    let (hazards, reminders): (Vec<_>, Vec<_>) = sheet.cautions.iter().partition(|caution| caution.hazard);
    if !hazards.is_empty() {
        page.line("");
    }
    for caution in hazards {
        page.hung(0, "! ", &caution.text);
    }
    amounts(&mut page, sheet);
    for remark in sheet.rounding.iter().chain(&sheet.acidity) {
        page.line("");
        page.hung(0, "", remark);
    }
    steps(&mut page, sheet);
    if !sheet.water.is_empty() {
        page.heading(sheet.heads.water);
        for line in &sheet.water {
            page.hung(0, "", line);
        }
    }
    if !sheet.times.is_empty() {
        page.heading(sheet.heads.time);
        let wide = sheet
            .times
            .iter()
            .map(|line| columns(&line.label))
            .max()
            .unwrap_or(0);
        for line in &sheet.times {
            page.hung(0, &padded(&line.label, wide + 2), &line.text);
        }
    }
    shelf(&mut page, sheet);
    if !reminders.is_empty() {
        page.heading(sheet.heads.care);
        for caution in reminders {
            page.hung(0, "- ", &caution.text);
        }
    }
    page.heading(sheet.heads.jug);
    for name in &sheet.write_on {
        let lead = format!("{name} ");
        let line = format!("{lead}{}", ".".repeat(44_usize.saturating_sub(columns(&lead))));
        page.line(&line);
    }
    page.line("");
    let stamp = page.dim(&sheet.stamp);
    page.line(&stamp);
    page.out
}

pub(super) fn amounts(page: &mut Page, sheet: &Sheet) {
    let rows = || sheet.groups.iter().flat_map(|group| &group.rows);
    let names = rows().map(|row| columns(&row.material)).max().unwrap_or(0);
    let heads = rows()
        .map(|row| columns(at_point(&row.amount).0))
        .max()
        .unwrap_or(0);
    let tails = rows()
        .map(|row| columns(at_point(&row.amount).1))
        .max()
        .unwrap_or(0);
    let names = names
        .min(page.width.saturating_sub(UNDER + heads + tails + 12))
        .max(16);
    for group in &sheet.groups {
        page.line("");
        if let Some(name) = &group.name {
            let name = page.bold(&name.to_uppercase());
            page.line(&name);
        }
        for row in &group.rows {
            let (head, tail) = at_point(&row.amount);
            let name = if columns(&row.material) > names {
                // A long name keeps its line, and the amount follows below.
                page.line(&format!("{BOX} {}", row.material));
                " ".repeat(UNDER + names)
            } else {
                format!("{BOX} {}", padded(&row.material, names))
            };
            let before = " ".repeat(heads.saturating_sub(columns(head)));
            let amount = page.bold(&format!("{head}{tail}"));
            let after = " ".repeat(tails.saturating_sub(columns(tail)));
            page.line(&format!("{name}  {before}{amount}{after}  {}", row.off));
            for note in &row.notes {
                page.hung(UNDER, "  ", note);
            }
        }
    }
}

fn steps(page: &mut Page, sheet: &Sheet) {
    let steps: &[Step] = &sheet.steps;
    if steps.is_empty() {
        return;
    }
    page.heading(sheet.heads.steps);
    let mut part: Option<&str> = None;
    for (index, step) in steps.iter().enumerate() {
        if step.part.as_deref() != part {
            part = step.part.as_deref();
            if let Some(part) = part {
                let part = page.dim(part);
                page.line(&format!("     {part}"));
            }
        }
        let mut text = step.what.clone();
        for figure in [&step.figure, &step.second]
            .into_iter()
            .filter(|text| !text.is_empty())
        {
            let _ = write!(text, " {figure}");
        }
        if !step.note.is_empty() {
            let _ = write!(text, ", {}", step.note);
        }
        page.hung(0, &format!("{BOX} {:>2}  ", index + 1), &text);
    }
}

fn shelf(page: &mut Page, sheet: &Sheet) {
    let (shelf, heads): (&[Stock], _) = (&sheet.shelf, &sheet.heads);
    if shelf.is_empty() {
        return;
    }
    page.heading(sheet.heads.shelf);
    let wide = |text: fn(&Stock) -> &str| shelf.iter().map(|row| columns(text(row))).max().unwrap_or(0);
    let (names, takes, left) = (
        wide(|row| &row.material).min(34),
        wide(|row| &row.takes),
        wide(|row| &row.left),
    );
    for row in shelf {
        let left_of = if row.left.is_empty() {
            String::new()
        } else {
            format!("{} {}", heads.leaves, flush(&row.left, left))
        };
        let mut line = format!(
            "{}  {} {}  {left_of}",
            padded(&row.material, names),
            heads.takes,
            flush(&row.takes, takes),
        );
        if let Some(short) = &row.short {
            let short = page.bold(short);
            let _ = write!(line, "  {short}");
        }
        page.line(&line);
    }
}

/// An amount cut where its decimal point stands, or where its figures end.
fn at_point(amount: &str) -> (&str, &str) {
    let figures = amount
        .char_indices()
        .take_while(|(_, c)| c.is_ascii_digit() || matches!(c, '.' | ',' | '–' | '−' | '+'))
        .last()
        .map_or(0, |(at, c)| at + c.len_utf8());
    let run = amount.get(..figures).unwrap_or("");
    let cut = run.rfind(['.', ',']).unwrap_or(figures);
    amount.split_at_checked(cut).unwrap_or((amount, ""))
}

/// Columns that a text takes: letters, as no wide scripts stand in the fixed words.
pub(super) fn columns(text: &str) -> usize {
    text.chars().count()
}

/// With spaces behind it to a width.
pub(super) fn padded(text: &str, width: usize) -> String {
    format!("{text}{}", " ".repeat(width.saturating_sub(columns(text))))
}

/// With spaces before it to a width.
pub(super) fn flush(text: &str, width: usize) -> String {
    format!("{}{text}", " ".repeat(width.saturating_sub(columns(text))))
}

#[cfg(test)]
mod tests {
    use super::{Page, TextStyle, at_point};

    #[test]
    fn amounts_are_cut_at_their_point() {
        assert_eq!(at_point("48.6\u{a0}g"), ("48", ".6\u{a0}g"));
        assert_eq!(at_point("600\u{a0}ml"), ("600", "\u{a0}ml"));
        assert_eq!(at_point("about 3 g"), ("", "about 3 g"));
        assert_eq!(at_point("1,5–2,5 g"), ("1,5–2", ",5 g"));
    }

    #[test]
    fn text_hangs_under_its_mark() {
        let mut page = Page::new(TextStyle {
            colours: false,
            width: 20,
        });
        page.hung(2, "- ", "one two three four five");
        assert_eq!(page.out, "  - one two three\n    four five\n");
    }
}

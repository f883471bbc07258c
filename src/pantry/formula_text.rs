//! How a formula is read: characters to atoms, and every slip shown where it is.

use std::collections::BTreeMap;
use std::ops::Range;

use super::element::Element;
use super::formula::{Formula, FormulaError, FormulaFault, is_water};

/// The longest formula that is read, in bytes.
const LONGEST: usize = 200;
/// How deep brackets may stand inside one another.
const DEEPEST: usize = 8;
/// The most atoms of one element in a formula; far above any molecule here, far below overflow.
const MOST_ATOMS: u32 = 1_000_000;

/// One character of a formula after subscripts and dots have been made plain.
#[derive(Clone, Copy)]
struct Glyph {
    at: usize,
    end: usize,
    plain: char,
}

fn plain(c: char) -> char {
    match c {
        '\u{2080}'..='\u{2089}' => char::from_u32(u32::from(c) - 0x2080 + u32::from('0')).unwrap_or(c),
        '•' | '⋅' | '∙' | '*' | '.' | '×' => '·',
        '{' => '[',
        '}' => ']',
        c if c.is_whitespace() => ' ',
        c => c,
    }
}

type Atoms = BTreeMap<Element, u32>;

/// A bracket that has been opened: where, with which character, and what stood before it.
struct Open {
    at: Range<usize>,
    bracket: char,
    outside: Atoms,
}

/// Reads one formula.
pub(super) struct Reader<'a> {
    text: &'a str,
    glyphs: Vec<Glyph>,
    next: usize,
}

impl<'a> Reader<'a> {
    /// Takes `text` apart into characters, if it looks like a formula.
    pub(super) fn new(text: &'a str) -> Result<Self, FormulaError> {
        if text.trim().is_empty() {
            let message = "the formula is empty";
            return Err(FormulaError::new(FormulaFault::Empty, 0..text.len(), message));
        }
        let glyphs: Vec<Glyph> = text
            .char_indices()
            .map(|(at, c)| Glyph {
                at,
                end: at + c.len_utf8(),
                plain: plain(c),
            })
            .collect();
        if !looks_like_a_formula(&glyphs) {
            let message = format!("`{}` is not a chemical formula", shortened(text));
            return Err(FormulaError::new(
                FormulaFault::NotAFormula,
                0..text.len(),
                message,
            ));
        }
        if text.len() > LONGEST {
            let message = format!("the formula is longer than {LONGEST} bytes");
            return Err(FormulaError::new(FormulaFault::TooLong, 0..text.len(), message));
        }
        Ok(Self {
            text,
            glyphs,
            next: 0,
        })
    }

    /// Reads it all.
    pub(super) fn read(mut self) -> Result<Formula, FormulaError> {
        let mut elements = Atoms::new();
        let mut water = 0_u32;
        let mut written = String::new();
        loop {
            let start = self.next;
            let (count, part) = self.part()?;
            let range = self.range_from(start);
            let from = written.len();
            let glyphs = self.glyphs.get(start..self.next).unwrap_or_default();
            written.extend(glyphs.iter().map(|glyph| glyph.plain).filter(|&c| c != ' '));
            // Water alone is a substance; water behind a dot is water of crystallisation.
            if from > 0 && written.get(from..).is_some_and(is_water) {
                water = checked(water.checked_add(count), &range)?;
            } else {
                merge(&mut elements, &part, count, &range)?;
            }
            match self.peek() {
                Some(glyph) if glyph.plain == '·' => {
                    written.push('·');
                    self.next += 1;
                }
                Some(glyph) => return Err(self.unexpected(glyph)),
                None => break,
            }
        }
        Ok(Formula::from_parts(written, elements, water))
    }

    /// Reads up to a dot or the end; returns the number in front and the atoms behind it.
    fn part(&mut self) -> Result<(u32, Atoms), FormulaError> {
        self.skip_spaces();
        let count = self.number()?.unwrap_or(1);
        self.skip_spaces();
        let start = self.next;
        let mut open: Vec<Open> = Vec::new();
        let mut here = Atoms::new();
        while let Some(glyph) = self.peek() {
            match glyph.plain {
                'A'..='Z' => {
                    let (element, range) = self.element()?;
                    let number = self.number()?.unwrap_or(1);
                    merge(&mut here, &Atoms::from([(element, 1)]), number, &range)?;
                }
                '(' | '[' => {
                    if open.len() == DEEPEST {
                        let message = format!("brackets stand more than {DEEPEST} deep");
                        return Err(FormulaError::new(
                            FormulaFault::Bracket,
                            glyph.at..glyph.end,
                            message,
                        ));
                    }
                    self.next += 1;
                    open.push(Open {
                        at: glyph.at..glyph.end,
                        bracket: glyph.plain,
                        outside: std::mem::take(&mut here),
                    });
                }
                ')' | ']' => {
                    let at = glyph.at..glyph.end;
                    let partner = if glyph.plain == ')' { '(' } else { '[' };
                    let Some(opened) = open.pop().filter(|opened| opened.bracket == partner) else {
                        let message = format!("`{}` closes no bracket", self.slice(&at));
                        return Err(FormulaError::new(FormulaFault::Bracket, at, message));
                    };
                    self.next += 1;
                    if here.is_empty() {
                        let message = "there is nothing between the brackets";
                        return Err(FormulaError::new(
                            FormulaFault::Bracket,
                            opened.at.start..at.end,
                            message,
                        ));
                    }
                    let number = self.number()?.unwrap_or(1);
                    let inside = std::mem::replace(&mut here, opened.outside);
                    merge(&mut here, &inside, number, &(opened.at.start..at.end))?;
                }
                ' ' => {
                    self.skip_spaces();
                    if let Some(glyph) = self.peek().filter(|glyph| glyph.plain != '·') {
                        return Err(self.unexpected(glyph));
                    }
                }
                '·' => break,
                _ => return Err(self.unexpected(glyph)),
            }
        }
        if let Some(opened) = open.pop() {
            let message = format!("`{}` is never closed", self.slice(&opened.at));
            return Err(FormulaError::new(FormulaFault::Bracket, opened.at, message));
        }
        if here.is_empty() {
            let before = start.saturating_sub(1);
            let from = self.glyphs.get(before).map_or(0, |glyph| glyph.at);
            let to = self.peek().map_or(self.text.len(), |glyph| glyph.end);
            let dot = from..to;
            let message = "there is nothing on one side of the dot";
            return Err(FormulaError::new(FormulaFault::Dot, dot, message));
        }
        Ok((count, here))
    }

    fn element(&mut self) -> Result<(Element, Range<usize>), FormulaError> {
        let start = self.next;
        self.next += 1;
        while self.peek().is_some_and(|glyph| glyph.plain.is_ascii_lowercase()) {
            self.next += 1;
        }
        let range = self.range_from(start);
        let symbol = self.slice(&range);
        let element = Element::from_symbol(symbol).ok_or_else(|| {
            let message = format!("`{symbol}` is no element that trayside knows");
            FormulaError::new(FormulaFault::UnknownElement, range.clone(), message)
        })?;
        Ok((element, range))
    }

    /// Reads a count, if one stands here.
    fn number(&mut self) -> Result<Option<u32>, FormulaError> {
        let start = self.next;
        let mut value = Some(0_u32);
        while let Some(digit) = self.peek().and_then(|glyph| glyph.plain.to_digit(10)) {
            value = value.and_then(|value| value.checked_mul(10)?.checked_add(digit));
            self.next += 1;
        }
        if self.next == start {
            return Ok(None);
        }
        let range = self.range_from(start);
        if value == Some(0) {
            let message = "a count in a formula is at least 1";
            return Err(FormulaError::new(FormulaFault::Count, range, message));
        }
        checked(value, &range).map(Some)
    }

    fn unexpected(&self, glyph: Glyph) -> FormulaError {
        let at = glyph.at..glyph.end;
        let message = match glyph.plain {
            '+' | '-' | '−' | '^' => "a material has no charge: write the neutral formula".to_owned(),
            _ => format!("`{}` has no place here in a formula", self.slice(&at)),
        };
        FormulaError::new(FormulaFault::Character, at, message)
    }

    fn peek(&self) -> Option<Glyph> {
        self.glyphs.get(self.next).copied()
    }

    fn skip_spaces(&mut self) {
        while self.peek().is_some_and(|glyph| glyph.plain == ' ') {
            self.next += 1;
        }
    }

    /// The bytes from glyph `start` up to the next one to be read.
    fn range_from(&self, start: usize) -> Range<usize> {
        let from = self.glyphs.get(start).map_or(self.text.len(), |glyph| glyph.at);
        let to = self.peek().map_or(self.text.len(), |glyph| glyph.at);
        from.min(to)..to
    }

    fn slice(&self, range: &Range<usize>) -> &'a str {
        self.text.get(range.clone()).unwrap_or_default()
    }
}

/// Adds `count` times `part` to `sum`.
fn merge(sum: &mut Atoms, part: &Atoms, count: u32, range: &Range<usize>) -> Result<(), FormulaError> {
    for (&element, &atoms) in part {
        let total = sum.entry(element).or_insert(0);
        *total = checked(
            atoms.checked_mul(count).and_then(|more| more.checked_add(*total)),
            range,
        )?;
    }
    Ok(())
}

fn checked(count: Option<u32>, range: &Range<usize>) -> Result<u32, FormulaError> {
    count.filter(|&count| count <= MOST_ATOMS).ok_or_else(|| {
        let message = format!("a formula counts no more than {MOST_ATOMS} atoms");
        FormulaError::new(FormulaFault::Count, range.clone(), message)
    })
}

/// Whether the text is built like a formula, right or wrong: symbols of at most two letters, digits, brackets and dots.
///
/// A word such as `Hypo` is not; letters alone are only if each is an element, so that `Tin` stays a word and `NaCl`
/// does not.
fn looks_like_a_formula(glyphs: &[Glyph]) -> bool {
    let mut digits_or_brackets = false;
    let mut all_known = true;
    let mut symbols = 0;
    let mut symbol = String::new();
    let mut end_symbol = |symbol: &mut String| {
        if !symbol.is_empty() {
            symbols += 1;
            all_known &= Element::from_symbol(symbol).is_some();
            symbol.clear();
        }
    };
    for glyph in glyphs {
        match glyph.plain {
            c @ 'A'..='Z' => {
                end_symbol(&mut symbol);
                symbol.push(c);
            }
            c @ 'a'..='z' => {
                if symbol.len() != 1 {
                    return false;
                }
                symbol.push(c);
            }
            '0'..='9' | '(' | ')' | '[' | ']' => {
                end_symbol(&mut symbol);
                digits_or_brackets = true;
            }
            '·' | ' ' | '+' | '-' | '−' | '^' => end_symbol(&mut symbol),
            _ => return false,
        }
    }
    end_symbol(&mut symbol);
    symbols > 0 && (all_known || digits_or_brackets)
}

/// At most forty characters of a text, for a message.
fn shortened(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

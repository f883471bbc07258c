//! Chemical formulas: reading them, counting their atoms and weighing them.

use std::cmp::Ordering;
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;

use super::element::Element;

/// The longest formula that is read, in bytes.
const LONGEST: usize = 200;
/// How deep brackets may stand inside one another.
const DEEPEST: usize = 8;
/// The most atoms of one element in a formula; far above any molecule here, far below overflow.
const MOST_ATOMS: u32 = 1_000_000;

/// The atoms of one formula unit, with its water of crystallisation kept apart.
///
/// Formulas are equal if they have the same atoms and the same water, however they were written.
#[derive(Debug, Clone)]
pub struct Formula {
    text: String,
    elements: BTreeMap<Element, u32>,
    water: u32,
}

/// What is wrong with a text that was to be a formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormulaFault {
    /// It does not look like a formula at all; it may be a name.
    NotAFormula,
    /// Nothing was written.
    Empty,
    /// It is longer than any formula need be.
    TooLong,
    /// A symbol that is no element of the table.
    UnknownElement,
    /// A bracket without its partner, or with nothing in it.
    Bracket,
    /// A count of nothing, of zero, or too large.
    Count,
    /// A character that has no place there.
    Character,
    /// A dot without a formula on both sides.
    Dot,
}

/// Why a text is not a formula, and where in the text that shows.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FormulaError {
    /// What is wrong.
    pub fault: FormulaFault,
    /// The bytes of the text that are wrong.
    pub range: Range<usize>,
    /// The same in words: lower case, no full stop, what was written between backticks.
    pub message: String,
}

impl FormulaError {
    fn new(fault: FormulaFault, range: Range<usize>, message: impl Into<String>) -> Self {
        Self {
            fault,
            range,
            message: message.into(),
        }
    }

    /// Whether the text looks like a formula, so that the error is about a slip in one rather than about a name.
    pub fn is_malformed(&self) -> bool {
        !matches!(self.fault, FormulaFault::NotAFormula | FormulaFault::Empty)
    }
}

impl fmt::Display for FormulaError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for FormulaError {}

impl Formula {
    /// Reads a formula such as `Na2CO3`, `Ca(OH)2`, `[Ag(S2O3)2]` or `Na2CO3·10H2O`.
    ///
    /// The dot before water may be `·`, `•`, `⋅`, `*` or `.`, with spaces round it; digits may be subscripts. A part may
    /// have a number before it. Charges are refused: a material is neutral. The error says whether the text is a formula
    /// with a slip in it or no formula at all.
    pub fn parse(text: &str) -> Result<Self, FormulaError> {
        Reader::new(text)?.read()
    }

    /// The formula as it was written, with plain digits, `·` for the dot and no spaces.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The atoms without the water of crystallisation.
    pub fn elements(&self) -> &BTreeMap<Element, u32> {
        &self.elements
    }

    /// How many atoms of the element with this symbol one unit holds, without the water of crystallisation.
    pub fn count(&self, symbol: &str) -> u32 {
        Element::from_symbol(symbol)
            .and_then(|element| self.elements.get(&element))
            .copied()
            .unwrap_or(0)
    }

    /// Molecules of water of crystallisation in one formula unit.
    pub fn water(&self) -> u32 {
        self.water
    }

    /// The same substance without its water of crystallisation.
    #[must_use]
    pub fn anhydrous(&self) -> Self {
        let parts = self.text.split('·').enumerate();
        let dry = parts.filter(|&(at, part)| at == 0 || !is_water(part));
        Self {
            text: dry.map(|(_, part)| part).collect::<Vec<_>>().join("·"),
            elements: self.elements.clone(),
            water: 0,
        }
    }

    /// Molar mass in g/mol, with the water of crystallisation.
    ///
    /// The sum of the standard atomic weights (IUPAC 2021, see [`Element::weight`]).
    pub fn molar_mass(&self) -> f64 {
        self.anhydrous_molar_mass() + f64::from(self.water) * water_molar_mass()
    }

    /// Molar mass in g/mol without the water of crystallisation.
    pub fn anhydrous_molar_mass(&self) -> f64 {
        let masses = self.elements.iter();
        masses
            .map(|(element, &count)| f64::from(count) * element.weight())
            .sum()
    }

    /// The part of the mass that is water of crystallisation, from 0 to 1.
    pub fn water_share(&self) -> f64 {
        f64::from(self.water) * water_molar_mass() / self.molar_mass()
    }
}

/// Molar mass of water in g/mol.
fn water_molar_mass() -> f64 {
    let weight = |symbol| Element::from_symbol(symbol).map_or(0.0, Element::weight);
    2.0 * weight("H") + weight("O")
}

fn is_water(part: &str) -> bool {
    part.trim_start_matches(|c: char| c.is_ascii_digit()) == "H2O"
}

impl fmt::Display for Formula {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl PartialEq for Formula {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Formula {}

impl PartialOrd for Formula {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Formula {
    fn cmp(&self, other: &Self) -> Ordering {
        (&self.elements, self.water).cmp(&(&other.elements, other.water))
    }
}

impl std::str::FromStr for Formula {
    type Err = FormulaError;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        Self::parse(text)
    }
}

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

struct Reader<'a> {
    text: &'a str,
    glyphs: Vec<Glyph>,
    next: usize,
}

impl<'a> Reader<'a> {
    fn new(text: &'a str) -> Result<Self, FormulaError> {
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

    fn read(mut self) -> Result<Formula, FormulaError> {
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
        Ok(Formula {
            text: written,
            elements,
            water,
        })
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

#[cfg(test)]
mod tests {
    use super::*;

    fn fault(text: &str) -> (FormulaFault, Range<usize>) {
        let error = Formula::parse(text).unwrap_err();
        (error.fault, error.range)
    }

    #[test]
    fn the_dot_and_the_digits_are_read_in_every_spelling() {
        let plain = Formula::parse("Na2CO3·10H2O").unwrap();
        assert_eq!(plain.water(), 10);
        assert_eq!(plain.count("O"), 3);
        for text in [
            "Na2CO3.10H2O",
            "Na2CO3 * 10 H2O",
            "Na2CO3•10H2O",
            "Na₂CO₃·10H₂O",
            " Na2CO3 . 10H2O ",
        ] {
            let formula = Formula::parse(text).unwrap();
            assert_eq!(formula, plain, "{text}");
            assert_eq!(formula.as_str(), "Na2CO3·10H2O");
        }
        assert_eq!(plain.anhydrous().as_str(), "Na2CO3");
        assert_ne!(plain.anhydrous(), plain);
    }

    #[test]
    fn brackets_multiply() {
        let alum = Formula::parse("KAl(SO4)2·12H2O").unwrap();
        assert_eq!((alum.count("S"), alum.count("O"), alum.water()), (2, 8, 12));
        let complex = Formula::parse("Na3[Ag(S2O3)2]").unwrap();
        assert_eq!((complex.count("S"), complex.count("O")), (4, 6));
        assert_eq!(Formula::parse("H2O").unwrap().water(), 0);
        let percarbonate = Formula::parse("2Na2CO3·3H2O2").unwrap();
        assert_eq!((percarbonate.count("Na"), percarbonate.count("O")), (4, 12));
        assert_eq!(percarbonate.anhydrous().as_str(), "2Na2CO3·3H2O2");
    }

    #[test]
    fn slips_are_shown_where_they_are() {
        assert_eq!(fault("Na2Xy3"), (FormulaFault::UnknownElement, 3..5));
        assert_eq!(fault("Ca(OH2"), (FormulaFault::Bracket, 2..3));
        assert_eq!(fault("CaOH)2"), (FormulaFault::Bracket, 4..5));
        assert_eq!(fault("Ca(OH]2"), (FormulaFault::Bracket, 5..6));
        assert_eq!(fault("Ca()2"), (FormulaFault::Bracket, 2..4));
        assert_eq!(fault("Na0Cl"), (FormulaFault::Count, 2..3));
        assert_eq!(fault("Na99999999999"), (FormulaFault::Count, 2..13));
        assert_eq!(fault("((H999999)999999)9").0, FormulaFault::Count);
        assert_eq!(fault("Na2CO3·").0, FormulaFault::Dot);
        assert_eq!(fault("·10H2O").0, FormulaFault::Dot);
        assert_eq!(fault("Na2CO3 10H2O"), (FormulaFault::Character, 7..8));
        assert_eq!(fault("CO3-2"), (FormulaFault::Character, 3..4));
        assert_eq!(fault("(((((((((H)))))))))").0, FormulaFault::Bracket);
        assert_eq!(fault(&"H2".repeat(200)).0, FormulaFault::TooLong);
        assert!(Formula::parse("Na2Xy3").unwrap_err().is_malformed());
    }

    #[test]
    fn names_are_no_malformed_formulas() {
        for text in [
            "NotAThing",
            "water",
            "Hypo",
            "vinegar 5 %",
            "Tin",
            "KHPhth",
            "12",
            "NaXl",
        ] {
            let error = Formula::parse(text).unwrap_err();
            assert_eq!(error.fault, FormulaFault::NotAFormula, "{text}");
            assert!(!error.is_malformed());
        }
        assert_eq!(fault("").0, FormulaFault::Empty);
        assert_eq!(fault("  "), (FormulaFault::Empty, 0..2));
    }
}

//! A reader over the text of one amount, and what it can tell about the next characters.

/// A reader over the text of one amount.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cursor<'a> {
    pub(crate) text: &'a str,
    pub(crate) at: usize,
}

impl<'a> Cursor<'a> {
    pub(crate) fn rest(self) -> &'a str {
        self.text.get(self.at..).unwrap_or_default()
    }

    pub(crate) fn peek(self) -> Option<char> {
        self.rest().chars().next()
    }

    pub(crate) fn is_done(self) -> bool {
        self.at >= self.text.len()
    }

    /// Moves over `c` if it is next.
    pub(crate) fn take(&mut self, c: char) -> bool {
        let found = self.rest().starts_with(c);
        if found {
            self.at += c.len_utf8();
        }
        found
    }

    /// Moves over one of `chars` if it is next.
    pub(crate) fn take_any(&mut self, chars: &[char]) -> bool {
        match self.peek() {
            Some(c) if chars.contains(&c) => {
                self.at += c.len_utf8();
                true
            }
            _ => false,
        }
    }

    /// Moves over `word` if it is next.
    pub(crate) fn take_str(&mut self, word: &str) -> bool {
        let found = self.rest().starts_with(word);
        if found {
            self.at += word.len();
        }
        found
    }

    /// Moves over any Unicode space; whether there was some.
    pub(crate) fn skip_space(&mut self) -> bool {
        let rest = self.rest();
        let trimmed = rest.trim_start();
        self.at += rest.len() - trimmed.len();
        rest.len() != trimmed.len()
    }

    /// Whether a number without a sign begins here.
    pub(crate) fn at_number(self) -> bool {
        let rest = self.rest();
        match rest.chars().next() {
            Some(c) if c.is_ascii_digit() || vulgar(c).is_some() => true,
            Some('.' | ',') => rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit),
            _ => false,
        }
    }

    /// Whether a number, signed or not, begins here.
    pub(crate) fn at_signed_number(mut self) -> bool {
        self.take_any(&['+', '-', '−']);
        self.at_number()
    }

    /// The run of ASCII digits here, moved over.
    pub(crate) fn digits(&mut self) -> &'a str {
        let rest = self.rest();
        let length = rest.bytes().take_while(u8::is_ascii_digit).count();
        self.at += length;
        rest.get(..length).unwrap_or_default()
    }
}

/// The fractions that have a character of their own.
pub(crate) fn vulgar(c: char) -> Option<(i128, i128)> {
    Some(match c {
        '½' => (1, 2),
        '⅓' => (1, 3),
        '⅔' => (2, 3),
        '¼' => (1, 4),
        '¾' => (3, 4),
        '⅕' => (1, 5),
        '⅖' => (2, 5),
        '⅗' => (3, 5),
        '⅘' => (4, 5),
        '⅙' => (1, 6),
        '⅚' => (5, 6),
        '⅛' => (1, 8),
        '⅜' => (3, 8),
        '⅝' => (5, 8),
        '⅞' => (7, 8),
        _ => return None,
    })
}

//! A file of the notebook as text, whatever its bytes are, or why it is none.

use std::sync::Arc;

use crate::finding::{Finding, slug};
use crate::host::{Host, Listed, ListedKind};
use crate::source::{FileId, Span};
use crate::syntax::PAGE_LIMIT;

/// A file as text, with the place of the first byte that is not.
pub(super) struct Text {
    pub(super) text: Arc<str>,
    broken: Option<(usize, &'static str)>,
}

impl Text {
    /// That it is not all text, where it is not.
    pub(super) fn finding(&self, file: FileId) -> Option<Finding> {
        let (at, what) = self.broken?;
        Some(
            Finding::fault(slug::NOT_UTF8, Span::new(file, at, at), what.to_owned())
                .help("save the page as UTF-8 in your editor"),
        )
    }
}

/// Why a file is no text.
pub(super) enum Unread {
    TooLarge(u64),
    LinkOutside,
    Failed(String),
}

impl Unread {
    /// The reason, for whoever wrote the file.
    pub(super) fn finding(&self, file: FileId) -> Finding {
        let span = Span::new(file, 0, 0);
        match self {
            Self::TooLarge(bytes) => Finding::fault(
                slug::PAGE_TOO_LARGE,
                span,
                format!(
                    "this page has {} MB, more than the {} that are read",
                    bytes / 1_000_000,
                    PAGE_LIMIT / 1_000_000
                ),
            )
            .help("split it into several pages"),
            Self::LinkOutside => Finding::fault(
                slug::LINK_OUTSIDE,
                span,
                "this link leads out of the notebook folder and is not followed",
            )
            .help("put the page itself into the folder"),
            Self::Failed(why) => {
                Finding::fault(slug::FILE_UNREADABLE, span, format!("it cannot be read: {why}"))
            }
        }
    }
}

/// A listed file as text; the text it had before, where its bytes are still those.
pub(super) fn read_text(host: &dyn Host, thing: &Listed, known: Option<&Arc<str>>) -> Result<Text, Unread> {
    match &thing.kind {
        ListedKind::File { bytes } if *bytes > PAGE_LIMIT => return Err(Unread::TooLarge(*bytes)),
        ListedKind::File { .. } => {}
        ListedKind::LinkOutside => return Err(Unread::LinkOutside),
        ListedKind::LinkNowhere(why) => return Err(Unread::Failed(why.clone())),
        ListedKind::LinkedFolder => return Err(Unread::Failed("it is a link to a folder".to_owned())),
        ListedKind::Unreadable(why) => return Err(Unread::Failed(why.clone())),
    }
    let bytes = host
        .read_shared(&thing.path)
        .map_err(|error| Unread::Failed(error.cause.to_string()))?;
    // A text that is kept has no broken bytes, no zeros and no mark: what is equal to it has none either.
    if let Some(known) = known.filter(|known| known.as_bytes() == &bytes[..]) {
        return Ok(Text {
            text: Arc::clone(known),
            broken: None,
        });
    }
    Ok(decode(&bytes))
}

/// Bytes as text. What is not UTF-8 is read as what it most likely is, so that nothing else on the page is lost and one
/// wrong encoding is one finding.
fn decode(bytes: &[u8]) -> Text {
    let two_bytes = match bytes.get(..2) {
        Some([0xff, 0xfe]) => Some(u16::from_le_bytes as fn([u8; 2]) -> u16),
        Some([0xfe, 0xff]) => Some(u16::from_be_bytes as fn([u8; 2]) -> u16),
        _ if !bytes.contains(&0) => None,
        _ => unmarked_two_bytes(bytes),
    };
    if let Some(unit) = two_bytes {
        let units = bytes.chunks_exact(2).map(|pair| match pair {
            [a, b] => unit([*a, *b]),
            _ => 0,
        });
        let text: String = char::decode_utf16(units)
            .map(|c| c.unwrap_or(char::REPLACEMENT_CHARACTER))
            .filter(|c| *c != BYTE_ORDER_MARK)
            .collect();
        return Text {
            text: without_zeros(&text),
            broken: Some((0, "this page is UTF-16, not UTF-8")),
        };
    }
    match std::str::from_utf8(bytes) {
        Ok(text) => match text.trim_start_matches(BYTE_ORDER_MARK).find('\0') {
            Some(at) => Text {
                text: without_zeros(text),
                broken: Some((at, "there is a zero byte here: this is no text")),
            },
            None => Text {
                text: text.into(),
                broken: None,
            },
        },
        Err(error) => {
            let mut text = String::with_capacity(bytes.len() + 16);
            for chunk in bytes.utf8_chunks() {
                text.push_str(chunk.valid());
                text.extend(chunk.invalid().iter().map(|byte| western(*byte)));
            }
            let valid = bytes.get(..error.valid_up_to()).unwrap_or_default();
            let zeros = valid.split(|byte| *byte == 0).count() - 1;
            let mark = if text.starts_with(BYTE_ORDER_MARK) {
                BYTE_ORDER_MARK.len_utf8()
            } else {
                0
            };
            Text {
                text: without_zeros(&text),
                broken: Some((valid.len() - zeros - mark, "this is not UTF-8")),
            }
        }
    }
}

/// UTF-16 without its mark: in western text nearly every second byte is zero, and always the same of the two.
fn unmarked_two_bytes(bytes: &[u8]) -> Option<fn([u8; 2]) -> u16> {
    let (mut first, mut second) = (0, 0);
    for pair in bytes.chunks_exact(2) {
        first += usize::from(pair.first() == Some(&0));
        second += usize::from(pair.last() == Some(&0));
    }
    let pairs = bytes.len() / 2;
    let most = |zeros: usize| zeros * 2 > pairs;
    let few = |zeros: usize| zeros * 20 < pairs;
    if most(second) && few(first) {
        return Some(u16::from_le_bytes);
    }
    (most(first) && few(second)).then_some(u16::from_be_bytes as fn([u8; 2]) -> u16)
}

/// Not a character of the text; the sources drop it.
const BYTE_ORDER_MARK: char = '\u{feff}';

/// Zero bytes would each be a mistake of their own wherever they stand.
fn without_zeros(text: &str) -> Arc<str> {
    text.replace('\0', "").into()
}

/// A byte as what western European systems wrote before UTF-8: the index of windows-1252 in the WHATWG Encoding
/// Standard, the five bytes that it leaves to control codes as the mark for an unknown character.
fn western(byte: u8) -> char {
    const HIGH: [char; 32] = [
        '€', '\u{fffd}', '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', '\u{fffd}', 'Ž', '\u{fffd}',
        '\u{fffd}', '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', '\u{fffd}', 'ž', 'Ÿ',
    ];
    byte.checked_sub(0x80)
        .and_then(|at| HIGH.get(usize::from(at)))
        .copied()
        .unwrap_or(char::from(byte))
}

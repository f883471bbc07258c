//! The type: one sans that stays legible in bad light, a second one for Greek and Cyrillic, which the first has not, and
//! two families that lend signs.
//!
//! Only embedded fonts are used, so that a card looks the same on every machine. Licences stand in `templates/fonts/`.

use std::sync::OnceLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

use crate::source::Fingerprint;

const SANS: [&[u8]; 4] = [
    include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Regular.ttf"),
    include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Italic.ttf"),
    include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Bold.ttf"),
    include_bytes!("../../templates/fonts/AtkinsonHyperlegible-BoldItalic.ttf"),
];

/// Greek, Cyrillic and some signs, in a sans of much the same build. Without its italics: no template asks for any.
const OTHER_SCRIPTS: [&[u8]; 2] = [
    include_bytes!("../../templates/fonts/IBMPlexSans-Regular.ttf"),
    include_bytes!("../../templates/fonts/IBMPlexSans-Bold.ttf"),
];

/// Families of the typesetter's own that lend missing characters.
const FALLBACK: [&str; 2] = ["DejaVu Sans Mono", "Libertinus Serif"];

/// Fonts and their index.
pub(super) struct Fonts {
    pub(super) book: LazyHash<FontBook>,
    faces: Vec<Font>,
}

/// Of the embedded fonts: they come with the program, so they are gone over once.
static PRINT: OnceLock<Fingerprint> = OnceLock::new();

impl Fonts {
    /// Reads all embedded fonts, which takes about two milliseconds.
    pub(super) fn load() -> Self {
        let own = SANS
            .iter()
            .chain(&OTHER_SCRIPTS)
            .flat_map(|data| Font::iter(Bytes::new(*data)));
        let lent = typst_assets::fonts()
            .flat_map(|data| Font::iter(Bytes::new(data)))
            .filter(|font| FALLBACK.contains(&font.info().family.as_str()));
        let faces: Vec<Font> = own.chain(lent).collect();
        Self {
            book: LazyHash::new(FontBook::from_fonts(&faces)),
            faces,
        }
    }

    /// Tells these fonts from others.
    pub(super) fn fingerprint(&self) -> Fingerprint {
        *PRINT.get_or_init(|| Fingerprint::of(self.faces.iter().map(|face| face.data().as_slice())))
    }

    /// The face with that number in the index.
    pub(super) fn face(&self, index: usize) -> Option<Font> {
        self.faces.get(index).cloned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_family_is_there() {
        let fonts = Fonts::load();
        for family in [
            "Atkinson Hyperlegible",
            "IBM Plex Sans",
            "DejaVu Sans Mono",
            "Libertinus Serif",
        ] {
            assert!(fonts.book.contains_family(&family.to_lowercase()), "{family}");
        }
        assert!(!fonts.book.contains_family("new computer modern"));
    }
}

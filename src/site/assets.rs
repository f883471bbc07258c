//! The style sheets, the scripts, the icon and the fonts.

use std::sync::LazyLock;

use super::{SiteFile, Templates};

const SCRIPTS: [(&str, &[u8]); 14] = [
    ("contact.js", include_bytes!("../../templates/site/contact.js")),
    ("search.js", include_bytes!("../../templates/site/search.js")),
    (
        "search-page.js",
        include_bytes!("../../templates/site/search-page.js"),
    ),
    ("scale.js", include_bytes!("../../templates/site/scale.js")),
    (
        "scale-figures.js",
        include_bytes!("../../templates/site/scale-figures.js"),
    ),
    (
        "scale-page.js",
        include_bytes!("../../templates/site/scale-page.js"),
    ),
    (
        "scale-typed.js",
        include_bytes!("../../templates/site/scale-typed.js"),
    ),
    ("view.js", include_bytes!("../../templates/site/view.js")),
    ("clock.js", include_bytes!("../../templates/site/clock.js")),
    (
        "clock-engine.js",
        include_bytes!("../../templates/site/clock-engine.js"),
    ),
    (
        "clock-session.js",
        include_bytes!("../../templates/site/clock-session.js"),
    ),
    (
        "clock-signals.js",
        include_bytes!("../../templates/site/clock-signals.js"),
    ),
    (
        "clock-words.js",
        include_bytes!("../../templates/site/clock-words.js"),
    ),
    ("offline.js", include_bytes!("../../templates/site/offline.js")),
];

const SIGNS: [(&str, &[u8]); 3] = [
    ("icon.png", include_bytes!("../../templates/site/icon.png")),
    ("icon.svg", include_bytes!("../../templates/site/icon.svg")),
    ("pointer.svg", include_bytes!("../../templates/site/pointer.svg")),
];

const FONTS: [(&str, &[u8]); 13] = [
    (
        "fonts/AtkinsonHyperlegible-Regular.ttf",
        include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Regular.ttf"),
    ),
    (
        "fonts/AtkinsonHyperlegible-Bold.ttf",
        include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Bold.ttf"),
    ),
    (
        "fonts/AtkinsonHyperlegible-Italic.ttf",
        include_bytes!("../../templates/fonts/AtkinsonHyperlegible-Italic.ttf"),
    ),
    (
        "fonts/AtkinsonHyperlegible-BoldItalic.ttf",
        include_bytes!("../../templates/fonts/AtkinsonHyperlegible-BoldItalic.ttf"),
    ),
    (
        "fonts/Vollkorn-Regular-latin.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Regular-latin.woff2"),
    ),
    (
        "fonts/Vollkorn-Regular-latin-ext.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Regular-latin-ext.woff2"),
    ),
    (
        "fonts/Vollkorn-Italic-latin.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Italic-latin.woff2"),
    ),
    (
        "fonts/Vollkorn-Italic-latin-ext.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Italic-latin-ext.woff2"),
    ),
    (
        "fonts/Vollkorn-Bold-latin.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Bold-latin.woff2"),
    ),
    (
        "fonts/Vollkorn-Bold-latin-ext.woff2",
        include_bytes!("../../templates/site/fonts/Vollkorn-Bold-latin-ext.woff2"),
    ),
    (
        "fonts/AtkinsonHyperlegible-LICENSE.txt",
        include_bytes!("../../templates/fonts/OFL.txt"),
    ),
    (
        "fonts/Vollkorn-LICENSE.txt",
        include_bytes!("../../templates/site/fonts/LICENSE"),
    ),
    (
        "fonts/README.txt",
        include_bytes!("../../templates/site/fonts/README.md"),
    ),
];

/// Every file that a page refers to besides other pages.
pub(super) fn files(templates: &Templates) -> impl Iterator<Item = SiteFile> {
    static FIXED: LazyLock<Vec<SiteFile>> = LazyLock::new(|| {
        let fixed = SCRIPTS.into_iter().chain(SIGNS).chain(FONTS);
        fixed
            .map(|(path, bytes)| SiteFile {
                path: path.to_owned(),
                bytes: bytes.into(),
            })
            .collect()
    });
    let styles = templates.styles().map(|(path, text)| SiteFile {
        path: path.trim_start_matches("site/").to_owned(),
        bytes: text,
    });
    styles.chain(FIXED.iter().cloned())
}

//! What a page is drawn with: what makes it look otherwise though its own bytes are the same.

use crate::syntax::resolve;
use crate::views::pictures::FOLDER as PICTURES;

/// Whether a file is one that every page loads when it is shown: style, scripts, fonts. Data that is only linked to, and what
/// the preview answers in its own way, is not.
pub(super) fn is_drawn_with(path: &str) -> bool {
    let ending = path.rsplit_once('.').map_or("", |(_, ending)| ending);
    !matches!(
        ending,
        "html" | "json" | "csv" | "txt" | "xml" | "webmanifest" | "pdf"
    ) && path != "worker.js"
        && !path.starts_with(PICTURES)
        && !is_search_data(path)
}

/// Whether a file is one in which the search looks.
pub(super) fn is_search_data(path: &str) -> bool {
    path.starts_with("search/")
}

/// The pictures that a page shows, by path from the site's root.
pub(super) fn pictures_on<'p>(page: &'p str, html: &'p [u8]) -> impl Iterator<Item = String> + use<'p> {
    let html = std::str::from_utf8(html).unwrap_or_default();
    let sources = html.split(" src=\"").skip(1);
    sources.filter_map(move |from| {
        let (address, _) = from.split_once('"')?;
        resolve(page, &address.replace("&amp;", "&")).filter(|path| path.starts_with(PICTURES))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_are_found_where_a_page_says() {
        let html = "<script src=\"../view.js\"></script><img src=\"../pictures/a%20b.png\" alt=\"x\">\
            <img alt=\"\" src=\"../pictures/log/k&amp;l.jpg\"><img src=\"../../pictures/out.png\">";
        let found: Vec<String> = pictures_on("log/one.html", html.as_bytes()).collect();
        assert_eq!(found, ["pictures/a b.png", "pictures/log/k&l.jpg"]);
        assert_eq!(pictures_on("a.html", b"\xff").count(), 0);
    }

    #[test]
    fn what_all_pages_load() {
        for path in ["style.css", "view.js", "fonts/a.woff2", "icon.svg"] {
            assert!(is_drawn_with(path), "{path}");
        }
        for path in [
            "a/b.html",
            "facts.csv",
            "worker.js",
            "search/w-a-.js",
            "pictures/a.png",
            "cards/a.pdf",
        ] {
            assert!(!is_drawn_with(path), "{path}");
        }
    }
}

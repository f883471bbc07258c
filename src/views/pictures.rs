//! The pictures that public pages show, and where each goes in the site.

use std::collections::BTreeSet;

use serde::Serialize;

/// A picture that has to be written beside the pages. It is read anew and written without what cameras and scanners put
/// into it: places, serial numbers, dates.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct PictureNeed {
    /// Where it stands, from the notebook folder.
    pub from: String,
    /// Where it goes, from the site's root. Its ending tells the format: `.png` or `.jpg`, whatever it was before.
    pub to: String,
}

/// The endings of files that are taken for pictures.
const ENDINGS: [&str; 10] = [
    "png", "jpg", "jpeg", "gif", "webp", "bmp", "tif", "tiff", "pgm", "ppm",
];

/// Whether a path ends like a picture.
pub(super) fn is_picture(path: &str) -> bool {
    ending(path).is_some_and(|ending| ENDINGS.iter().any(|known| ending.eq_ignore_ascii_case(known)))
}

/// Where the picture at `from` goes. No two pictures go to one place: an ending that browsers may not know is kept and
/// another put behind it.
pub(super) fn site_path(from: &str) -> String {
    match ending(from) {
        Some("png" | "jpg" | "jpeg") => format!("pictures/{from}"),
        _ => format!("pictures/{from}.png"),
    }
}

/// The needs of a set of pictures.
pub(super) fn needs(from: BTreeSet<String>) -> Vec<PictureNeed> {
    from.into_iter()
        .map(|from| PictureNeed {
            to: site_path(&from),
            from,
        })
        .collect()
}

fn ending(path: &str) -> Option<&str> {
    let name = path.rsplit('/').next().unwrap_or(path);
    name.rsplit_once('.').map(|(_, ending)| ending)
}

#[cfg(test)]
mod tests {
    use super::{is_picture, site_path};

    #[test]
    fn each_picture_has_its_own_place() {
        assert_eq!(site_path("log/scans/a.png"), "pictures/log/scans/a.png");
        assert_eq!(site_path("a.tif"), "pictures/a.tif.png");
        assert_eq!(site_path("a.PNG"), "pictures/a.PNG.png");
        assert_eq!(site_path("a"), "pictures/a.png");
    }

    #[test]
    fn pictures_are_known_by_their_ending() {
        assert!(is_picture("scans/a.TIFF"));
        assert!(!is_picture("png/list.csv"));
        assert!(!is_picture("png"));
    }
}

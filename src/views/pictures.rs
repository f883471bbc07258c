//! The pictures that public pages show, and where each goes in the site.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::syntax::shown_as_is;

use super::file_name::told_apart;

/// A picture that has to be written beside the pages. It is read anew and written without what cameras and scanners put
/// into it: places, serial numbers, dates.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct PictureNeed {
    /// Where it stands, from the notebook folder.
    pub from: String,
    /// Where it goes, from the site's root. Its ending tells the format, JPEG or PNG.
    pub to: String,
}

/// Where the pictures of a site stand, from its root.
pub const FOLDER: &str = "pictures/";

/// Whether a path ends like a picture that can be written into the site.
pub(super) fn is_picture(path: &str) -> bool {
    shown_as_is(path).is_some()
}

/// Where the picture at `from` goes. No two pictures go to one place, on any system: an ending that browsers do not know is kept and
/// another put behind it.
pub(super) fn site_path(from: &str) -> String {
    let from = told_apart(from);
    match shown_as_is(&from) {
        Some(true) => format!("{FOLDER}{from}"),
        Some(false) | None => format!("{FOLDER}{from}.png"),
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

#[cfg(test)]
mod tests {
    use super::{is_picture, site_path};

    #[test]
    fn each_picture_has_its_own_place() {
        assert_eq!(site_path("log/scans/a.png"), "pictures/log/scans/a.png");
        assert_eq!(site_path("a.tif"), "pictures/a.tif.png");
        assert_ne!(site_path("a.JPG"), site_path("a.jpg"));
    }

    #[test]
    fn pictures_are_known_by_their_ending() {
        assert!(is_picture("scans/a.TIFF"));
        assert!(!is_picture("png/list.csv"));
        assert!(!is_picture("png"));
    }
}

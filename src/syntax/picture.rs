//! Which files are pictures that pages can show, by how their names end.

/// The endings, and whether browsers show such a file as it is.
const ENDINGS: [(&str, bool); 5] = [
    ("png", true),
    ("jpg", true),
    ("jpeg", true),
    ("tif", false),
    ("tiff", false),
];

/// Whether browsers show the picture of this name as it is; none where it ends like no picture that pages can show. Drawings
/// are none: they may hold script.
pub fn shown_as_is(path: &str) -> Option<bool> {
    let (_, ending) = path.rsplit('/').next()?.rsplit_once('.')?;
    let known = ENDINGS
        .iter()
        .find(|(known, _)| ending.eq_ignore_ascii_case(known));
    known.map(|(_, as_is)| *as_is)
}

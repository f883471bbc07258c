//! `trayside begin`: a small working notebook to start from.

use crate::host::Disk;

use super::arguments::Begin;
use super::{Outcome, Stop, terminal};

/// The files of a new notebook. A test proofs them: they have no findings.
pub(crate) const FILES: &[(&str, &str)] = &[
    (
        "trayside.yaml",
        include_str!("../../templates/begin/trayside.yaml"),
    ),
    ("index.md", include_str!("../../templates/begin/index.md")),
    ("baths.md", include_str!("../../templates/begin/baths.md")),
    ("camera.md", include_str!("../../templates/begin/camera.md")),
    ("log.md", include_str!("../../templates/begin/log.md")),
];

pub(crate) fn run(arguments: &Begin) -> Result<Outcome, Stop> {
    Disk::begin(&arguments.folder, FILES)?;
    let folder = arguments.folder.display();
    terminal::show(&format!(
        "A notebook of {} files is in {folder}. Next:\n  trayside press {folder}\n",
        FILES.len()
    ));
    Ok(Outcome::Clean)
}

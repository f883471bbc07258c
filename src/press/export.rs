//! From a laid-out document to PDF bytes.

use typst::foundations::{Datetime, Smart};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards, Timestamp};

use super::fault::{self, PressFault};
use super::world::{self, PressWorld};

/// The program's name and version, so that bytes do not move with the typesetter's.
pub(super) const CREATOR: &str = concat!("trayside ", env!("CARGO_PKG_VERSION"));

/// Tagged PDF by PDF/UA-1 and PDF/A-2a.
///
/// Both forbid a missing glyph. A card that has one is already at fault and is set without the two standards, so that
/// its maker can see where the box stands.
pub(super) fn pdf(
    world: &PressWorld,
    document: &PagedDocument,
    ident: &str,
    date: (i32, u8, u8),
    faults: &mut Vec<PressFault>,
) -> Result<Vec<u8>, Vec<PressFault>> {
    let standards = PdfStandards::new(&[PdfStandard::Ua_1, PdfStandard::A_2a])
        .map_err(|error| vec![PressFault::template(world::MAIN, error.message().to_string())])?;
    let timestamp = Datetime::from_ymd_hms(date.0, date.1, date.2, 0, 0, 0).map(Timestamp::new_utc);
    let options = |standards| PdfOptions {
        ident: Smart::Custom(format!("trayside cards {ident}")),
        creator: Smart::Custom(Some(CREATOR.to_owned())),
        timestamp,
        standards,
        ..PdfOptions::default()
    };
    let errors = match typst_pdf::pdf(document, &options(standards)) {
        Ok(bytes) => return Ok(bytes),
        Err(errors) => fault::from_typst(world, &errors),
    };
    if !faults
        .iter()
        .any(|f| matches!(f, PressFault::MissingGlyph { .. }))
    {
        faults.extend(errors);
    }
    typst_pdf::pdf(document, &options(PdfStandards::default()))
        .map_err(|errors| fault::from_typst(world, &errors))
}

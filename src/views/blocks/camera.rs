//! A camera: its hole, its distance, how the paper lies.

use crate::notebook::{Block, Camera, Plane, Slot};
use crate::optics::Criterion;
use crate::units::Style;

use super::super::block_view::Desk;
use super::super::words::{ValueWords, Words};
use super::Said;
use super::rows::{Rows, size_text, unlabelled};

pub(super) fn said(desk: &Desk<'_>, block: &Block, camera: &Camera) -> Said {
    let (style, row, value) = (desk.style, &desk.words.block.row, &desk.words.block.value);
    let mut rows = Rows::new(desk, block);
    rows.figure(row.pinhole, &camera.pinhole);
    rows.figure(row.distance, &camera.distance);
    rows.slot(row.paper_lies, &camera.plane, |plane| {
        unlabelled(plane_text(&plane.value, value, style))
    });
    rows.size(row.format, &camera.format);
    rows.figure(row.plate, &camera.foil);
    rows.count(row.holes, &camera.holes);
    rows.figure(row.hole_to_hole, &camera.spacing);
    rows.count(row.mirrors, &camera.mirrors);
    rows.figure(row.hole_off, &camera.offset);
    rows.word(row.best_hole_by, &camera.criterion, |word| {
        Criterion::from_word(word).map(desk.words.block.criterion)
    });
    rows.figure(row.at_wavelength, &camera.wavelength);
    let subtitle = match (&camera.format, &camera.plane) {
        (Slot::Is(format), Slot::Is(plane)) => {
            format!(
                "{}, {}",
                size_text(&format.value),
                plane_word(&plane.value, value)
            )
        }
        (Slot::Is(format), _) => size_text(&format.value),
        _ => String::new(),
    };
    Said {
        subtitle,
        sections: vec![rows.figures(None)],
        pictures: desk
            .picture(block, camera.scan.get(), value.scan_of_hole)
            .into_iter()
            .collect(),
    }
}

fn plane_word(plane: &Plane, words: &ValueWords) -> &'static str {
    match plane {
        Plane::Flat => words.flat,
        Plane::Wall { .. } | Plane::Axis { .. } | Plane::Lid { .. } => words.curved,
    }
}

fn plane_text(plane: &Plane, words: &ValueWords, style: Style) -> String {
    match plane {
        Plane::Flat => words.flat.to_owned(),
        Plane::Wall { radius } => Words::fill(words.lies_on_wall, &radius.show(style)),
        Plane::Axis { radius } => Words::fill(words.lies_round, &radius.show(style)),
        Plane::Lid { radius, height } => {
            Words::fill_all(words.lies_under_lid, &[&radius.show(style), &height.show(style)])
        }
    }
}

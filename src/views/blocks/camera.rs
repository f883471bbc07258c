//! A camera: its hole, its distance, how the paper lies.

use crate::notebook::{Block, Camera, Plane, Slot};
use crate::units::Style;

use super::super::block_view::Desk;
use super::Said;
use super::rows::{Rows, row, size_text};

pub(super) fn said(desk: &Desk<'_>, block: &Block, camera: &Camera) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.figure("pinhole", &camera.pinhole);
    rows.figure("distance", &camera.distance);
    rows.slot("paper lies", &camera.plane, |plane| {
        row("", plane_text(&plane.value, style))
    });
    rows.size("format", &camera.format);
    rows.figure("plate", &camera.foil);
    rows.count("holes", &camera.holes);
    rows.figure("hole to hole", &camera.spacing);
    rows.count("mirrors", &camera.mirrors);
    rows.figure("hole off the middle", &camera.offset);
    rows.word("best hole by", &camera.criterion);
    rows.figure("at wavelength", &camera.wavelength);
    let subtitle = match (&camera.format, &camera.plane) {
        (Slot::Is(format), Slot::Is(plane)) => {
            format!("{}, {}", size_text(&format.value), plane_word(&plane.value))
        }
        (Slot::Is(format), _) => size_text(&format.value),
        _ => String::new(),
    };
    Said {
        subtitle,
        sections: vec![rows.figures(None)],
        pictures: desk
            .picture(block, camera.scan.get(), "Scan of the pinhole")
            .into_iter()
            .collect(),
    }
}

fn plane_word(plane: &Plane) -> &'static str {
    match plane {
        Plane::Flat => "flat",
        Plane::Wall { .. } | Plane::Axis { .. } | Plane::Lid { .. } => "curved",
    }
}

fn plane_text(plane: &Plane, style: Style) -> String {
    match plane {
        Plane::Flat => "flat".to_owned(),
        Plane::Wall { radius } => format!("on the wall, radius {}", radius.show(style)),
        Plane::Axis { radius } => format!("round the hole, radius {}", radius.show(style)),
        Plane::Lid { radius, height } => {
            format!(
                "round the wall below the lid, radius {}, height {}",
                radius.show(style),
                height.show(style)
            )
        }
    }
}

//! A safelight: the lamp, and what its fog test showed.

use crate::notebook::{Block, Fog, Safelight};

use super::super::block_view::Desk;
use super::Said;
use super::rows::{Rows, row};

pub(super) fn said(desk: &Desk<'_>, block: &Block, safelight: &Safelight) -> Said {
    let style = desk.style;
    let mut lamp = Rows::new(desk, block);
    lamp.text("lamp", &safelight.lamp);
    lamp.text("colour", &safelight.colour);
    lamp.figure("wavelength", &safelight.wavelength);
    lamp.figure("distance", &safelight.distance);
    lamp.word("switches", &safelight.switches);
    let mut test = Rows::new(desk, block);
    if let Some(tested) = safelight.tested.get() {
        let fog = |fog: &Fog| match fog {
            Fog::Showed(time) => format!("an edge showed at {}", time.show(style)),
            Fog::CleanTo(time) => format!("clean to {}", time.show(style)),
        };
        test.when("when", &tested.date);
        test.reference("on", &tested.paper);
        test.figure("at", &tested.at);
        test.slot("bare paper", &tested.bare, |showed| row("", fog(&showed.value)));
        test.slot("paper exposed before", &tested.pre_exposed, |showed| {
            row("", fog(&showed.value))
        });
    } else if safelight.tested.is_absent() {
        test.blank("what it showed");
    }
    Said {
        subtitle: safelight
            .colour
            .get()
            .map_or_else(String::new, |colour| format!("{} lamp", colour.value)),
        sections: vec![lamp.lines(None), test.lines(Some("coin test"))],
        pictures: Vec::new(),
    }
}

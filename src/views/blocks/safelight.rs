//! A safelight: the lamp, and what its fog test showed.

use crate::notebook::{Block, Fog, Safelight, Switches};

use super::super::block_view::Desk;
use super::super::words::Words;
use super::Said;
use super::rows::{Rows, unlabelled};

pub(super) fn said(desk: &Desk<'_>, block: &Block, safelight: &Safelight) -> Said {
    let (style, row, value) = (desk.style, &desk.words.block.row, &desk.words.block.value);
    let mut lamp = Rows::new(desk, block);
    lamp.text(row.lamp, &safelight.lamp);
    lamp.text(row.colour, &safelight.colour);
    lamp.figure(row.wavelength, &safelight.wavelength);
    lamp.figure(row.distance, &safelight.distance);
    lamp.word(row.switches, &safelight.switches, |word| {
        Switches::from_word(word).map(desk.words.block.switches)
    });
    let mut test = Rows::new(desk, block);
    if let Some(tested) = safelight.tested.get() {
        let fog = |fog: &Fog| match fog {
            Fog::Showed(time) => Words::fill(value.edge_showed, &time.show(style)),
            Fog::CleanTo(time) => Words::fill(value.clean_to, &time.show(style)),
        };
        test.when(row.when, &tested.date);
        test.reference(row.test_on, &tested.paper);
        test.figure(row.test_at, &tested.at);
        test.slot(row.bare, &tested.bare, |showed| unlabelled(fog(&showed.value)));
        test.slot(row.exposed_before, &tested.pre_exposed, |showed| {
            unlabelled(fog(&showed.value))
        });
    } else if safelight.tested.is_absent() {
        test.blank(row.test_showed);
    }
    Said {
        subtitle: safelight
            .colour
            .get()
            .map_or_else(String::new, |colour| Words::fill(value.lamp_of, &colour.value)),
        sections: vec![lamp.lines(None), test.lines(Some(row.coin_test))],
        pictures: Vec::new(),
    }
}

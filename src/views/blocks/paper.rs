//! A paper: what it is, how fast, and what it does in long exposures.

use crate::notebook::{Block, Paper};
use crate::optics::Sees;

use super::super::block_view::Desk;
use super::super::words::Words;
use super::Said;
use super::rows::{Rows, base_word, evidence, size_text, unlabelled};
use crate::views::page::Row;

pub(super) fn said(desk: &Desk<'_>, block: &Block, paper: &Paper) -> Said {
    let (style, row) = (desk.style, &desk.words.block.row);
    let mut rows = Rows::new(desk, block);
    rows.figure(row.speed_camera, &paper.speed);
    rows.figure(row.speed_box, &paper.box_speed);
    rows.slot(row.reciprocity, &paper.reciprocity, |reciprocity| Row {
        remark: evidence(reciprocity.evidence, None, desk.words.block),
        ..unlabelled(&reciprocity.value.written)
    });
    rows.figure(row.lengthen_from, &paper.threshold);
    for (metered, needed) in &paper.times {
        rows.plain(
            &Words::fill(row.metered, &metered.show(style)),
            needed.show(style),
        );
    }
    rows.word(row.sees, &paper.sees, |word| {
        Sees::from_words(word).map(desk.words.block.sees)
    });
    rows.size(row.sheet, &paper.size);
    rows.figure(row.thickness, &paper.thickness);
    rows.figure(row.silver, &paper.silver);
    rows.figure(row.takes_along, &paper.carries);
    rows.text(row.makers_batch, &paper.batch);
    rows.when(row.opened, &paper.opened);
    let words = [
        paper
            .base
            .get()
            .map(|base| base_word(desk, base.value).to_owned()),
        paper.grade.get().map(|grade| {
            Words::fill(
                desk.words.block.value.grade,
                grade.value.trim_start_matches("grade").trim(),
            )
        }),
        paper.size.get().map(|size| size_text(&size.value)),
    ];
    Said {
        subtitle: words.into_iter().flatten().collect::<Vec<_>>().join(", "),
        sections: vec![rows.figures(None)],
        pictures: Vec::new(),
    }
}

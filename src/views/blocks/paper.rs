//! A paper: what it is, how fast, and what it does in long exposures.

use crate::notebook::{Block, Paper};

use super::super::block_view::Desk;
use super::Said;
use super::rows::{Rows, evidence, row, size_text};
use crate::views::page::Row;

pub(super) fn said(desk: &Desk<'_>, block: &Block, paper: &Paper) -> Said {
    let style = desk.style;
    let mut rows = Rows::new(desk, block);
    rows.figure("speed in the camera", &paper.speed);
    rows.figure("speed on the box, for prints", &paper.box_speed);
    rows.slot("reciprocity", &paper.reciprocity, |reciprocity| Row {
        remark: evidence(reciprocity.evidence, None),
        ..row("", &reciprocity.value.written)
    });
    rows.figure("times lengthen from", &paper.threshold);
    for (metered, needed) in &paper.times {
        rows.plain(&format!("metered {}", metered.show(style)), needed.show(style));
    }
    rows.word("sees", &paper.sees);
    rows.size("sheet", &paper.size);
    rows.figure("thickness", &paper.thickness);
    rows.figure("silver", &paper.silver);
    rows.figure("takes along, drained", &paper.carries);
    rows.text("maker's batch", &paper.batch);
    rows.when("opened", &paper.opened);
    let words = [
        paper.base.get().map(|base| base.value.to_owned()),
        paper
            .grade
            .get()
            .map(|grade| format!("grade {}", grade.value.trim_start_matches("grade").trim())),
        paper.size.get().map(|size| size_text(&size.value)),
    ];
    Said {
        subtitle: words.into_iter().flatten().collect::<Vec<_>>().join(", "),
        sections: vec![rows.figures(None)],
        pictures: Vec::new(),
    }
}

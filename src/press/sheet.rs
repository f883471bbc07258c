//! Where the cards and the cut marks stand on a sheet.

use serde::Serialize;

use super::fault::PressFault;
use crate::views::card::SheetLayout;

/// Least margin round all cards, mm: most desktop printers leave about 4 mm blank. Common practice, no source.
const MARGIN_MM: f64 = 5.0;
/// From the trimmed edge to the mark, so that a mark never shows on a card cut a little wide.
const MARK_GAP_MM: f64 = 1.0;
/// Longest mark: 3 to 5 mm are usual. Common practice, no source.
const MARK_MM: f64 = 4.0;
/// Shorter than this a mark is no help.
const LEAST_MARK_MM: f64 = 0.8;

/// One page of cards; lengths in mm from the upper left corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct Sheet {
    pub(super) width: f64,
    pub(super) height: f64,
    /// In the order of the cards.
    pub(super) spots: Vec<Spot>,
    /// Lines from (x, y) to (x, y).
    pub(super) marks: Vec<[f64; 4]>,
}

/// Where a card stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub(super) struct Spot {
    /// Which card, from 0.
    pub(super) card: usize,
    pub(super) x: f64,
    pub(super) y: f64,
}

/// Cards each on a page of its own size.
pub(super) fn alone(count: usize, layout: &SheetLayout) -> Result<Vec<Sheet>, PressFault> {
    check(&[
        ("card width", layout.card_width_mm),
        ("card height", layout.card_height_mm),
    ])?;
    let pages = (0..count).map(|card| Sheet {
        width: layout.card_width_mm,
        height: layout.card_height_mm,
        spots: vec![Spot { card, x: 0.0, y: 0.0 }],
        marks: Vec::new(),
    });
    Ok(pages.collect())
}

/// As many sheets as `count` cards need, each upright or on its side, whichever holds more.
pub(super) fn lay(count: usize, layout: &SheetLayout) -> Result<Vec<Sheet>, PressFault> {
    let (card_width, card_height) = (layout.card_width_mm, layout.card_height_mm);
    check(&[
        ("card width", card_width),
        ("card height", card_height),
        ("sheet width", layout.sheet_width_mm),
        ("sheet height", layout.sheet_height_mm),
    ])?;
    if !(0.0..=100.0).contains(&layout.lamination_mm) {
        return Err(PressFault::Layout {
            message: format!(
                "a laminating border of {} mm is not possible",
                layout.lamination_mm
            ),
        });
    }
    let gap = 2.0 * layout.lamination_mm;
    let margin = layout.lamination_mm.max(MARGIN_MM);
    let fit = |sheet: f64, card: f64| ((sheet - 2.0 * margin + gap + 1e-9) / (card + gap)).max(0.0) as usize;
    let upright = (layout.sheet_width_mm, layout.sheet_height_mm);
    let turned = (upright.1, upright.0);
    let holds = |size: (f64, f64)| fit(size.0, card_width) * fit(size.1, card_height);
    let (width, height) = if holds(turned) > holds(upright) {
        turned
    } else {
        upright
    };
    let (columns, rows) = (fit(width, card_width), fit(height, card_height));
    let each = columns * rows;
    if each == 0 {
        return Err(PressFault::Layout {
            message: format!(
                "a card of {card_width} × {card_height} mm does not go on a sheet of {} × {} mm with {margin} mm round it",
                upright.0, upright.1
            ),
        });
    }
    // Cards and the gaps between them, in the middle of the sheet.
    let start = |sheet: f64, number: usize, card: f64| {
        let taken = number as f64 * card + (number as f64 - 1.0) * gap;
        (sheet - taken) / 2.0
    };
    let (left, top) = (
        start(width, columns, card_width),
        start(height, rows, card_height),
    );
    let sheets = (0..count).step_by(each).map(|first| {
        let spots: Vec<Spot> = (first..count.min(first + each))
            .map(|card| {
                let place = card - first;
                Spot {
                    card,
                    x: left + (place % columns) as f64 * (card_width + gap),
                    y: top + (place / columns) as f64 * (card_height + gap),
                }
            })
            .collect();
        Sheet {
            width,
            height,
            marks: marks(&spots, card_width, card_height, gap),
            spots,
        }
    });
    Ok(sheets.collect())
}

/// Two marks at each corner of each card, outside it, in line with its edges.
fn marks(spots: &[Spot], width: f64, height: f64, gap: f64) -> Vec<[f64; 4]> {
    let mut marks = Vec::new();
    for spot in spots {
        let (left, top, right, bottom) = (spot.x, spot.y, spot.x + width, spot.y + height);
        for y in [top, bottom] {
            marks.extend(mark(spots, (width, height), gap, (left, y), (-1.0, 0.0)));
            marks.extend(mark(spots, (width, height), gap, (right, y), (1.0, 0.0)));
        }
        for x in [left, right] {
            marks.extend(mark(spots, (width, height), gap, (x, top), (0.0, -1.0)));
            marks.extend(mark(spots, (width, height), gap, (x, bottom), (0.0, 1.0)));
        }
    }
    marks
}

/// The mark that leaves `corner` in a direction; between two cards it stops half way, and there is none where it would
/// be too short to help.
fn mark(spots: &[Spot], size: (f64, f64), gap: f64, corner: (f64, f64), way: (f64, f64)) -> Option<[f64; 4]> {
    // A neighbour stands there if the point just past the gap lies in a card, or so near that a mark would touch it; the card
    // itself must not count, also where there is no gap.
    let ahead = (corner.0 + way.0 * (gap + 1.0), corner.1 + way.1 * (gap + 1.0));
    let slack = 0.75;
    let neighbour = spots.iter().any(|spot| {
        (spot.x - slack..=spot.x + size.0 + slack).contains(&ahead.0)
            && (spot.y - slack..=spot.y + size.1 + slack).contains(&ahead.1)
    });
    let reach = if neighbour {
        gap / 2.0
    } else {
        MARK_GAP_MM + MARK_MM
    };
    let reach = reach.min(MARK_GAP_MM + MARK_MM);
    (reach - MARK_GAP_MM >= LEAST_MARK_MM).then_some([
        corner.0 + way.0 * MARK_GAP_MM,
        corner.1 + way.1 * MARK_GAP_MM,
        corner.0 + way.0 * reach,
        corner.1 + way.1 * reach,
    ])
}

/// Refuses sizes that no sheet of paper has.
pub(super) fn check(lengths: &[(&str, f64)]) -> Result<(), PressFault> {
    for (name, length) in lengths {
        if !(20.0..=2000.0).contains(length) {
            return Err(PressFault::Layout {
                message: format!("a {name} of {length} mm is not between 20 and 2000 mm"),
            });
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn layout(card: (f64, f64), sheet: (f64, f64), lamination: f64) -> SheetLayout {
        SheetLayout {
            card_width_mm: card.0,
            card_height_mm: card.1,
            sheet_width_mm: sheet.0,
            sheet_height_mm: sheet.1,
            lamination_mm: lamination,
        }
    }

    #[test]
    fn a_sheet_is_turned_where_that_holds_more() {
        // Sizes of ISO 216.
        let a6 = lay(3, &layout((105.0, 148.0), (210.0, 297.0), 4.0)).expect("fits");
        assert_eq!((a6.len(), a6[0].spots.len(), a6[0].width), (2, 2, 297.0));
        let a7 = lay(4, &layout((74.0, 105.0), (210.0, 297.0), 4.0)).expect("fits");
        assert_eq!((a7.len(), a7[0].width), (1, 210.0));
        let letter = lay(2, &layout((105.0, 148.0), (215.9, 279.4), 4.0)).expect("fits");
        assert_eq!((letter.len(), letter[0].width), (1, 279.4));
    }

    #[test]
    fn a_card_larger_than_its_sheet_is_refused() {
        assert!(lay(1, &layout((210.0, 297.0), (210.0, 297.0), 4.0)).is_err());
        assert!(lay(1, &layout((f64::NAN, 148.0), (210.0, 297.0), 4.0)).is_err());
        assert!(alone(1, &layout((-1.0, 148.0), (0.0, 0.0), 0.0)).is_err());
    }

    proptest! {
        #[test]
        fn cards_stand_apart_on_the_sheet_and_marks_beside_them(
            width in 40.0..160.0f64, height in 40.0..220.0f64, lamination in 0.0..6.0f64, count in 1usize..30,
        ) {
            let Ok(sheets) = lay(count, &layout((width, height), (210.0, 297.0), lamination)) else { return Ok(()) };
            let order: Vec<usize> = sheets.iter().flat_map(|s| s.spots.iter().map(|p| p.card)).collect();
            prop_assert_eq!(order, (0..count).collect::<Vec<_>>());
            let slack = 1e-6;
            for sheet in &sheets {
                for a in &sheet.spots {
                    prop_assert!(a.x >= MARGIN_MM - slack && a.x + width <= sheet.width - MARGIN_MM + slack);
                    prop_assert!(a.y >= MARGIN_MM - slack && a.y + height <= sheet.height - MARGIN_MM + slack);
                    for b in &sheet.spots {
                        let apart_x = (a.x - b.x).abs() - width;
                        let apart_y = (a.y - b.y).abs() - height;
                        prop_assert!(a == b || apart_x.max(apart_y) >= 2.0 * lamination - slack);
                    }
                    for [x1, y1, x2, y2] in &sheet.marks {
                        let clear = x1.max(*x2) < a.x - 0.5 || x1.min(*x2) > a.x + width + 0.5
                            || y1.max(*y2) < a.y - 0.5 || y1.min(*y2) > a.y + height + 0.5;
                        prop_assert!(clear);
                    }
                }
            }
        }
    }
}

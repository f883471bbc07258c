//! Where the cards and the cut marks stand on a sheet, and where their backs stand on its back.

use serde::Serialize;

use super::crop::{self, Crop};
use super::fault::PressFault;
use crate::views::card::{Flip, SheetLayout};

/// Least margin round all cards, mm: most desktop printers leave about 4 mm blank. Common practice, no source.
const MARGIN_MM: f64 = 5.0;
/// One page of cards; lengths in mm from the upper left corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub(super) struct Sheet {
    pub(super) width: f64,
    pub(super) height: f64,
    /// Printed beyond the page's edges and trimmed off.
    pub(super) bleed: f64,
    /// In the order of the cards.
    pub(super) spots: Vec<Spot>,
    /// Lines from (x, y) to (x, y).
    pub(super) marks: Vec<[f64; 4]>,
}

/// Where a side of a card stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub(super) struct Spot {
    /// Which side of all, from 0.
    pub(super) card: usize,
    pub(super) x: f64,
    pub(super) y: f64,
    /// Whether it stands on its head.
    pub(super) turned: bool,
}

/// A piece of card to be cut out: the side on its front and, where both are printed on, the one on its back.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Leaf {
    pub(super) front: usize,
    pub(super) back: Option<usize>,
}

impl Leaf {
    /// With nothing on its back.
    pub(super) fn single(front: usize) -> Self {
        Self { front, back: None }
    }
}

/// Sides each on a page of its own size.
pub(super) fn alone(count: usize, layout: &SheetLayout) -> Result<Vec<Sheet>, PressFault> {
    check_card(layout)?;
    let pages = (0..count).map(|card| Sheet {
        width: layout.card_width_mm,
        height: layout.card_height_mm,
        bleed: layout.bleed_mm,
        spots: vec![Spot {
            card,
            x: 0.0,
            y: 0.0,
            turned: false,
        }],
        marks: Vec::new(),
    });
    Ok(pages.collect())
}

/// As many sheets as the leaves need, each upright or on its side, whichever holds more. Where the printer turns the sheet
/// over, every page of fronts is followed by one of backs; else a back stands beside its front, to be cut and laid against
/// it.
pub(super) fn lay(leaves: &[Leaf], layout: &SheetLayout) -> Result<Vec<Sheet>, PressFault> {
    let Some(flip) = layout.flip else {
        let sides = leaves
            .iter()
            .flat_map(|leaf| std::iter::once(leaf.front).chain(leaf.back));
        return fronts(&sides.collect::<Vec<_>>(), layout);
    };
    let sides: Vec<usize> = leaves.iter().map(|leaf| leaf.front).collect();
    let fronts = fronts(&sides, layout)?;
    if leaves.iter().all(|leaf| leaf.back.is_none()) {
        return Ok(fronts);
    }
    let behind = |side: usize| {
        leaves
            .iter()
            .find(|leaf| leaf.front == side)
            .and_then(|leaf| leaf.back)
    };
    let size = (layout.card_width_mm, layout.card_height_mm);
    let pages = fronts.into_iter().flat_map(|front| {
        let back = turned_over(&front, flip, size, &behind);
        [front, back]
    });
    Ok(pages.collect())
}

/// The back of a sheet. A card is leafed over like a page of a book, so a sheet that is turned about its level axis
/// carries the backs on their heads. Cut marks stand on the front alone: printers do not meet both sides exactly.
fn turned_over(
    front: &Sheet,
    flip: Flip,
    size: (f64, f64),
    behind: &dyn Fn(usize) -> Option<usize>,
) -> Sheet {
    let like_a_book = (flip == Flip::LongEdge) == (front.height >= front.width);
    let spots = front.spots.iter().filter_map(|spot| {
        Some(Spot {
            card: behind(spot.card)?,
            x: if like_a_book {
                front.width - spot.x - size.0
            } else {
                spot.x
            },
            y: if like_a_book {
                spot.y
            } else {
                front.height - spot.y - size.1
            },
            turned: !like_a_book,
        })
    });
    Sheet {
        spots: spots.collect(),
        marks: Vec::new(),
        ..*front
    }
}

/// Pages of sides in the given order.
fn fronts(sides: &[usize], layout: &SheetLayout) -> Result<Vec<Sheet>, PressFault> {
    let (card_width, card_height) = (layout.card_width_mm, layout.card_height_mm);
    check_card(layout)?;
    check(&[
        ("sheet width", layout.sheet_width_mm),
        ("sheet height", layout.sheet_height_mm),
    ])?;
    let gap = 2.0 * layout.lamination_mm.max(layout.bleed_mm);
    let margin = layout
        .lamination_mm
        .max(MARGIN_MM)
        .max(crop::room(layout.bleed_mm));
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
    let sheets = sides.chunks(each).map(|sides| {
        let spots: Vec<Spot> = sides
            .iter()
            .enumerate()
            .map(|(place, card)| Spot {
                card: *card,
                x: left + (place % columns) as f64 * (card_width + gap),
                y: top + (place / columns) as f64 * (card_height + gap),
                turned: false,
            })
            .collect();
        let crop = Crop {
            spots: &spots,
            size: (card_width, card_height),
            sheet: (width, height),
            gap,
            from: crop::from(layout.bleed_mm),
        };
        Sheet {
            width,
            height,
            bleed: 0.0,
            marks: crop.marks(),
            spots,
        }
    });
    Ok(sheets.collect())
}

fn check_card(layout: &SheetLayout) -> Result<(), PressFault> {
    check(&[
        ("card width", layout.card_width_mm),
        ("card height", layout.card_height_mm),
    ])?;
    for (name, length, most) in [
        ("laminating border", layout.lamination_mm, 100.0),
        ("bleed", layout.bleed_mm, 20.0),
    ] {
        if !(0.0..=most).contains(&length) {
            return Err(PressFault::Layout {
                message: format!("a {name} of {length} mm is not possible"),
            });
        }
    }
    if !(150.0..=5000.0).contains(&layout.distance_mm) {
        return Err(PressFault::Layout {
            message: format!("a card is not read from {} mm", layout.distance_mm),
        });
    }
    Ok(())
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
            bleed_mm: 0.0,
            two_sided: true,
            flip: None,
            distance_mm: 600.0,
        }
    }

    fn single(count: usize) -> Vec<Leaf> {
        (0..count).map(Leaf::single).collect()
    }

    #[test]
    fn a_sheet_is_turned_where_that_holds_more() {
        // Sizes of ISO 216.
        let a6 = lay(&single(3), &layout((105.0, 148.0), (210.0, 297.0), 4.0)).expect("fits");
        assert_eq!((a6.len(), a6[0].spots.len(), a6[0].width), (2, 2, 297.0));
        let a7 = lay(&single(4), &layout((74.0, 105.0), (210.0, 297.0), 4.0)).expect("fits");
        assert_eq!((a7.len(), a7[0].width), (1, 210.0));
        let letter = lay(&single(2), &layout((105.0, 148.0), (215.9, 279.4), 4.0)).expect("fits");
        assert_eq!((letter.len(), letter[0].width), (1, 279.4));
    }

    #[test]
    fn a_card_larger_than_its_sheet_is_refused() {
        assert!(lay(&single(1), &layout((210.0, 297.0), (210.0, 297.0), 4.0)).is_err());
        assert!(lay(&single(1), &layout((f64::NAN, 148.0), (210.0, 297.0), 4.0)).is_err());
        assert!(alone(1, &layout((-1.0, 148.0), (0.0, 0.0), 0.0)).is_err());
    }

    /// Where a point of a card's front comes to lie when its sheet is turned over, by the turning itself: about the
    /// middle of the page, upright or level.
    fn through(sheet: &Sheet, flip: Flip, (x, y): (f64, f64)) -> (f64, f64) {
        let upright_axis = match flip {
            Flip::LongEdge => sheet.height >= sheet.width,
            Flip::ShortEdge => sheet.height < sheet.width,
        };
        if upright_axis {
            (sheet.width - x, y)
        } else {
            (x, sheet.height - y)
        }
    }

    proptest! {
        #[test]
        fn a_back_stands_behind_its_front_and_reads_upright(
            width in 40.0..160.0f64, height in 40.0..160.0f64, count in 1usize..12, long in any::<bool>(),
        ) {
            let flip = if long { Flip::LongEdge } else { Flip::ShortEdge };
            let layout = SheetLayout { flip: Some(flip), bleed_mm: 3.0, ..layout((width, height), (210.0, 297.0), 4.0) };
            let leaves: Vec<Leaf> = (0..count).map(|at| Leaf { front: 2 * at, back: Some(2 * at + 1) }).collect();
            let Ok(sheets) = lay(&leaves, &layout) else { return Ok(()) };
            for pair in sheets.chunks(2) {
                let [front, back] = pair else { return Err(TestCaseError::fail("a page of fronts without backs")) };
                prop_assert_eq!(front.spots.len(), back.spots.len());
                for (a, b) in front.spots.iter().zip(&back.spots) {
                    prop_assert_eq!(a.card + 1, b.card);
                    // The upper left corner of the front is the upper right one of the back, as on a leaf of a book.
                    let corner = through(front, flip, (a.x, a.y));
                    let (right, left) = (b.x + width, b.x);
                    let upper_right = if b.turned { (left, b.y + height) } else { (right, b.y) };
                    prop_assert!((corner.0 - upper_right.0).abs() < 1e-9 && (corner.1 - upper_right.1).abs() < 1e-9);
                }
            }
        }

        #[test]
        fn cards_stand_apart_on_the_sheet_and_marks_beside_them(
            width in 40.0..160.0f64, height in 40.0..220.0f64, lamination in 0.0..6.0f64, count in 1usize..30,
        ) {
            let Ok(sheets) = lay(&single(count), &layout((width, height), (210.0, 297.0), lamination)) else { return Ok(()) };
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

//! Cut marks: beside the cards, clear of what bleeds over their edges.

use super::sheet::Spot;

/// From the trimmed edge to the mark where nothing bleeds, so that a mark never shows on a card cut a little wide.
const GAP_MM: f64 = 1.0;
/// Longest mark: 3 to 5 mm are usual. Common practice, no source.
const MARK_MM: f64 = 4.0;
/// Shorter than this a mark is no help.
const LEAST_MARK_MM: f64 = 0.8;

/// How far from the trimmed edge a mark begins: clear of the bleed.
pub(super) fn from(bleed_mm: f64) -> f64 {
    bleed_mm.max(GAP_MM)
}

/// What the marks at the outer cards want of the sheet: a short mark, and something between it and the edge.
pub(super) fn room(bleed_mm: f64) -> f64 {
    from(bleed_mm) + LEAST_MARK_MM + 1.0
}

/// What cut marks are drawn by, mm.
pub(super) struct Crop<'a> {
    /// The cards of the sheet.
    pub(super) spots: &'a [Spot],
    /// Their width and height.
    pub(super) size: (f64, f64),
    /// The sheet's width and height.
    pub(super) sheet: (f64, f64),
    /// Between two cards.
    pub(super) gap: f64,
    /// From the trimmed edge to the mark.
    pub(super) from: f64,
}

impl Crop<'_> {
    /// Two marks at each corner of each card, outside it, in line with its edges.
    pub(super) fn marks(&self) -> Vec<[f64; 4]> {
        let mut marks = Vec::new();
        for spot in self.spots {
            let (left, top) = (spot.x, spot.y);
            let (right, bottom) = (spot.x + self.size.0, spot.y + self.size.1);
            for y in [top, bottom] {
                marks.extend(self.mark((left, y), (-1.0, 0.0)));
                marks.extend(self.mark((right, y), (1.0, 0.0)));
            }
            for x in [left, right] {
                marks.extend(self.mark((x, top), (0.0, -1.0)));
                marks.extend(self.mark((x, bottom), (0.0, 1.0)));
            }
        }
        marks
    }

    /// The mark that leaves `corner` in a direction; between two cards it stops half way, and there is none where it
    /// would be too short to help.
    fn mark(&self, corner: (f64, f64), way: (f64, f64)) -> Option<[f64; 4]> {
        // A neighbour stands there if the point just past the gap lies in a card, or so near that a mark would touch it;
        // the card itself must not count, also where there is no gap.
        let ahead = (
            corner.0 + way.0 * (self.gap + 1.0),
            corner.1 + way.1 * (self.gap + 1.0),
        );
        let slack = 0.75;
        let neighbour = self.spots.iter().any(|spot| {
            (spot.x - slack..=spot.x + self.size.0 + slack).contains(&ahead.0)
                && (spot.y - slack..=spot.y + self.size.1 + slack).contains(&ahead.1)
        });
        let to_edge = |at: f64, way: f64, size: f64| if way > 0.0 { size - at } else { at };
        let edge = if way.0 == 0.0 {
            to_edge(corner.1, way.1, self.sheet.1)
        } else {
            to_edge(corner.0, way.0, self.sheet.0)
        };
        let room = if neighbour { self.gap / 2.0 } else { edge };
        let reach = room.min(self.from + MARK_MM);
        (reach - self.from >= LEAST_MARK_MM).then_some([
            corner.0 + way.0 * self.from,
            corner.1 + way.1 * self.from,
            corner.0 + way.0 * reach,
            corner.1 + way.1 * reach,
        ])
    }
}

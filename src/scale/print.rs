//! Sizes and orders of printed things: type for a distance, cards, lamination, folded booklets.

use crate::units::scalar::{Angle, Length};

/// A point, 25.4/72 mm. Source: the desktop publishing point, an inch over 72.
pub const POINT: Length = Length::from_millimetres(25.4 / 72.0);

/// The height of capitals over the type size where a font's own is not known. Common practice, no source.
pub const CAP_RATIO: f64 = 0.7;

/// The x-height over the type size where a font's own is not known. Common practice, no source.
pub const X_RATIO: f64 = 0.5;

/// The angle of text to be read at a distance in dim red light: 22 minutes of arc.
///
/// Source: DIN EN ISO 9241-303:2012 as quoted in ASR A6, section 6.1.3 (22 to 31 minutes).
pub const TEXT: Angle = Angle::from_degrees(22.0 / 60.0);

/// The least angle of capitals that are to be read at all: 16 minutes of arc.
///
/// Source: ISO 9241-3 as quoted in guides to display ergonomics; the standard itself was not read.
pub const LEAST: Angle = Angle::from_degrees(16.0 / 60.0);

/// The angle of the times on a card: 30 minutes of arc. Common practice, no source.
pub const TIMES: Angle = Angle::from_degrees(30.0 / 60.0);

/// How high characters must be to appear under an angle: `2D tan(a/2)`. Source: plane trigonometry.
pub fn character_height(distance: Length, angle: Angle) -> Length {
    distance * (2.0 * libm::tan(angle.radians() / 2.0))
}

/// The type size in points whose characters are that high; `ratio` is their height over the type size.
pub fn type_size(height: Length, ratio: f64) -> f64 {
    height / POINT / ratio
}

/// The lowest and highest characters for a distance: `D/155` to `D/110`.
///
/// Source: ASR A6, section 6.1.3, after DIN EN ISO 9241-303:2012.
pub fn height_limits(distance: Length) -> (Length, Length) {
    (distance / 155.0, distance / 110.0)
}

/// The film margin round a card: 4 mm, between 3 and 5. Common practice, no source.
pub const SEALED_MARGIN: Length = Length::from_millimetres(4.0);

/// The film for a card: its sides and a margin all round. Source: own arithmetic.
pub fn film(width: Length, height: Length, margin: Length) -> (Length, Length) {
    (width + margin * 2.0, height + margin * 2.0)
}

/// A format for cards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CardFormat {
    /// Its name.
    pub name: &'static str,
    /// The side that its standard names first.
    pub width: Length,
    /// The other side.
    pub height: Length,
    /// Thickness, where its standard sets one.
    pub thickness: Option<Length>,
    /// Corner radius from and to, where its standard sets one.
    pub corner_radius: Option<(Length, Length)>,
}

const fn format(name: &'static str, width: f64, height: f64) -> CardFormat {
    CardFormat {
        name,
        width: Length::from_millimetres(width),
        height: Length::from_millimetres(height),
        thickness: None,
        corner_radius: None,
    }
}

const fn id_card(name: &'static str, width: f64, height: f64) -> CardFormat {
    CardFormat {
        thickness: Some(Length::from_millimetres(0.76)),
        corner_radius: Some((Length::from_millimetres(2.88), Length::from_millimetres(3.48))),
        ..format(name, width, height)
    }
}

/// Formats for cards and sheets.
///
/// Sources: ISO/IEC 7810 for ID-1 to ID-3 (thickness and corners stated for ID-1), ISO 216 for A and B sizes; index cards in
/// inches are common practice.
pub const CARD_FORMATS: [CardFormat; 14] = [
    id_card("ID-1", 85.60, 53.98),
    format("ID-2", 105.0, 74.0),
    format("ID-3", 125.0, 88.0),
    format("A3", 297.0, 420.0),
    format("A4", 210.0, 297.0),
    format("A5", 148.0, 210.0),
    format("A6", 105.0, 148.0),
    format("A7", 74.0, 105.0),
    format("B6", 125.0, 176.0),
    format("B7", 88.0, 125.0),
    format("3x5 in", 76.2, 127.0),
    format("4x6 in", 101.6, 152.4),
    format("5x8 in", 127.0, 203.2),
    format("A8", 52.0, 74.0),
];

/// The format of a name; `×` is read as `x`, and `in` and `index card` may be left out.
pub fn card_format(name: &str) -> Option<CardFormat> {
    let plain = |text: &str| {
        let text = text
            .replace('×', "x")
            .to_ascii_lowercase()
            .replace("index card", "");
        let text = text.trim().trim_end_matches("in").trim().to_owned();
        text.replace(' ', "")
    };
    let wanted = plain(name);
    CARD_FORMATS
        .into_iter()
        .find(|format| plain(format.name) == wanted)
}

/// A sheet of a stapled booklet: pages left and right on its front and on its back, from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BookletSheet {
    /// Left and right page of the front.
    pub front: (u32, u32),
    /// Left and right page of the back.
    pub back: (u32, u32),
}

/// The sheets of a stapled booklet, outermost first; the pages are filled up to a multiple of four.
///
/// Sheet `s` from 0: front `(n - 2s, 1 + 2s)`, back `(2 + 2s, n - 1 - 2s)`; every pair sums to `n + 1`. Printed on both sides
/// and turned on the short edge. Source: own derivation.
pub fn saddle_stitch(pages: u32) -> Vec<BookletSheet> {
    let sheets = pages.div_ceil(4);
    let n = sheets * 4;
    (0..sheets)
        .map(|s| BookletSheet {
            front: (n - 2 * s, 1 + 2 * s),
            back: (2 + 2 * s, n - 1 - 2 * s),
        })
        .collect()
}

/// How far the innermost leaf of a stapled booklet stands out: at most `(sheets - 1) t π/2`.
///
/// Source: own derivation, half circles at the fold.
pub fn creep(sheets: u32, paper: Length) -> Length {
    creep_simple(sheets, paper) * std::f64::consts::FRAC_PI_2
}

/// The simple rule for creep: `(sheets - 1) t`. Common practice, no source.
pub fn creep_simple(sheets: u32, paper: Length) -> Length {
    paper * f64::from(sheets.saturating_sub(1))
}

/// The canonical order of one sheet folded to eight pages with one cut: top row, upside down, from the left.
pub const FOLDED_TOP: [u32; 4] = [5, 4, 3, 2];

/// The bottom row of that sheet, upright, from the left.
pub const FOLDED_BOTTOM: [u32; 4] = [6, 7, 8, 1];

/// The cycle that folding follows: the bottom row from the left, then the top row from the right.
pub fn fold_cycle(top: [u32; 4], bottom: [u32; 4]) -> [u32; 8] {
    let mut cycle = [0; 8];
    let order = bottom.into_iter().chain(top.into_iter().rev());
    for (place, page) in cycle.iter_mut().zip(order) {
        *place = page;
    }
    cycle
}

/// Whether the cycle runs upwards from 1 to 8 and round.
pub fn runs_upwards(cycle: [u32; 8]) -> bool {
    let in_range = cycle.iter().all(|page| (1..=8).contains(page));
    let follows = |from: u32, to: u32| from % 8 + 1 == to;
    let pairs = cycle.iter().zip(cycle.iter().cycle().skip(1));
    in_range && pairs.into_iter().all(|(from, to)| follows(*from, *to))
}

/// Whether a sheet folds to a booklet in order: its cycle runs upwards and its bottom left panel is a left-hand page.
///
/// Landscape, four panels by two, slit on the horizontal middle across the two middle columns, the top row printed upside
/// down. Source: own derivation by folding.
pub fn folds_in_order(top: [u32; 4], bottom: [u32; 4]) -> bool {
    let [first, ..] = bottom;
    runs_upwards(fold_cycle(top, bottom)) && first % 2 == 0
}

/// The sum that neighbours of a sheet's row pairs share, where they do: the mark of an order that folds.
///
/// Takes the rows of one side; pages next to each other from the left edge are pairs. Source: own derivation, each fold puts
/// pages back to back whose numbers sum to the count plus one.
pub fn pairs_sum(rows: &[Vec<u32>]) -> Option<u32> {
    let mut sums = rows.iter().flat_map(|row| {
        row.chunks(2).map(|pair| match pair {
            [a, b] => Some(a + b),
            _ => None,
        })
    });
    let first = sums.next()??;
    sums.all(|sum| sum == Some(first)).then_some(first)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_page_stands_once() {
        for pages in [1, 4, 7, 12, 20] {
            let mut all: Vec<u32> = saddle_stitch(pages)
                .iter()
                .flat_map(|s| [s.front.0, s.front.1, s.back.0, s.back.1])
                .collect();
            all.sort_unstable();
            let n = pages.div_ceil(4) * 4;
            assert_eq!(all, (1..=n).collect::<Vec<_>>());
        }
        assert!(saddle_stitch(0).is_empty());
    }

    #[test]
    fn the_folded_sheet_is_in_order() {
        assert!(folds_in_order(FOLDED_TOP, FOLDED_BOTTOM));
        assert!(!folds_in_order([8, 1, 2, 3], [7, 6, 5, 4]));
        assert!(!folds_in_order([6, 5, 4, 3], [7, 8, 1, 2]));
    }

    #[test]
    fn formats_are_found_by_name() {
        assert_eq!(card_format("a6").map(|f| f.height.millimetres()), Some(148.0));
        assert_eq!(card_format("3×5").map(|f| f.name), Some("3x5 in"));
        assert_eq!(card_format("A9000"), None);
    }
}

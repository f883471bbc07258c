//! Where the words beside a point go: to that of its four corners where least is in the way.

/// The middle width of a letter, as a share of the type's size; the usual sans serifs lie between 0.5 and 0.57.
const LETTER: f64 = 0.56;

/// A rectangle on the drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Area {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Area {
    fn holds(&self, (x, y): (f64, f64)) -> bool {
        (self.left..=self.right).contains(&x) && (self.top..=self.bottom).contains(&y)
    }

    fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// How far it stands over the edges of another.
    fn beyond(&self, frame: &Self) -> f64 {
        let over = |by: f64| by.max(0.0);
        over(frame.left - self.left)
            + over(self.right - frame.right)
            + over(frame.top - self.top)
            + over(self.bottom - frame.bottom)
    }
}

/// Where a text stands: its start or end, and its baseline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    pub(super) x: f64,
    pub(super) baseline: f64,
    /// Whether `x` is its end.
    pub(super) ends: bool,
    pub(super) area: Area,
}

/// About how wide a text is.
pub(super) fn width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * LETTER
}

/// The best spot for `text` beside one of `points`, which is asked for in this order: inside the frame, off other words, and
/// over as little ink as may be. None where there is no point.
pub(super) fn beside(
    points: &[(f64, f64)],
    text: &str,
    size: f64,
    frame: &Area,
    ink: &[(f64, f64)],
    words: &[Area],
) -> Option<Spot> {
    const AWAY: f64 = 8.0;
    let wide = width(text, size);
    let spot = |(x, y): (f64, f64), right: bool, above: bool| {
        let left = if right { x + AWAY } else { x - AWAY - wide };
        let baseline = if above { y - AWAY } else { y + AWAY + size * 0.75 };
        Spot {
            x: if right { left } else { left + wide },
            baseline,
            ends: !right,
            area: Area {
                left,
                top: baseline - size * 0.8,
                right: left + wide,
                bottom: baseline + size * 0.25,
            },
        }
    };
    let cost = |spot: &Spot| {
        let under = ink.iter().filter(|&&point| spot.area.holds(point)).count();
        let over = words.iter().filter(|area| spot.area.overlaps(area)).count();
        spot.area.beyond(frame) * 10.0 + under as f64 + over as f64 * 200.0
    };
    let corners = [(true, true), (false, true), (true, false), (false, false)];
    let spots = points
        .iter()
        .flat_map(|&point| corners.map(|(right, above)| spot(point, right, above)));
    spots.reduce(|best, other| if cost(&other) < cost(&best) { other } else { best })
}

#[cfg(test)]
mod tests {
    use super::*;

    const FRAME: Area = Area {
        left: 0.0,
        top: 0.0,
        right: 200.0,
        bottom: 100.0,
    };

    #[test]
    fn words_stay_in_the_frame() {
        let spot = beside(&[(195.0, 5.0)], "this recipe", 12.0, &FRAME, &[], &[]).expect("a point");
        assert!(spot.ends && spot.baseline > 5.0);
        let spot = beside(&[(5.0, 95.0)], "this recipe", 12.0, &FRAME, &[], &[]).expect("a point");
        assert!(!spot.ends && spot.baseline < 95.0);
    }

    #[test]
    fn words_keep_off_lines_and_each_other() {
        let line: Vec<(f64, f64)> = (0..=200).map(|x| (f64::from(x), 40.0)).collect();
        let spot = beside(&[(50.0, 50.0)], "pier", 12.0, &FRAME, &line, &[]).expect("a point");
        assert!(spot.area.top > 40.0);
        let first = beside(&[(50.0, 50.0)], "pier", 12.0, &FRAME, &[], &[]).expect("a point");
        let second = beside(&[(52.0, 51.0)], "boat", 12.0, &FRAME, &[], &[first.area]).expect("a point");
        assert!(!first.area.overlaps(&second.area));
    }
}

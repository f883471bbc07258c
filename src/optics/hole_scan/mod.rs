//! The width of a hole, measured on a scan of it: light behind, or seen through the plate.
//!
//! Metal is the level of most of the picture; the hole is the one bright place. Its edge is where the level is half way
//! between the two, found between the pixels, so that area and edge are not bound to whole ones.

mod grey;
mod outline;

use std::fmt;

use super::measure;
use crate::units::scalar::{Area, Length};

pub use grey::Grey;
use grey::{Place, bright_places};
use outline::outline;

/// A hole as its scan shows it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoleOnScan {
    /// The width of the circle of the same area: narrowest, best and widest.
    pub diameter: [Length; 3],
    /// `4 pi A/P^2`: one for a circle, 0.84 for an ellipse twice as long as wide.
    pub roundness: f64,
    /// The same width in pixels.
    pub pixels: f64,
}

/// Why a hole cannot be measured on a picture.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unmeasurable {
    /// Nothing is clearly lighter than the rest.
    NoHole,
    /// What differs from the rest is dark.
    Dark,
    /// The bright place takes most of the picture or runs over its edge.
    Cut,
    /// More than one bright place; how many.
    Several(usize),
    /// Too few pixels across; how many.
    Coarse(u32),
    /// Something dark lies within the hole.
    Blocked,
}

impl fmt::Display for Unmeasurable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoHole => f.write_str("nothing on it is clearly lighter than the plate"),
            Self::Dark => f.write_str("the hole is darker than the plate: scan it with light behind it"),
            Self::Cut => {
                f.write_str("the hole runs over the edge of the picture: leave some plate all round")
            }
            Self::Several(count) => write!(
                f,
                "there are {count} bright places of a like size on it: cut it down to the hole"
            ),
            Self::Coarse(pixels) => write!(
                f,
                "the hole is {pixels} pixels wide, too few to measure: scan it finer"
            ),
            Self::Blocked => f.write_str("something lies in the hole: clean it and scan it again"),
        }
    }
}

/// The fewest pixels across that a width is told from. Common practice, no source.
const FEWEST: f64 = 8.0;
/// How far hole and plate must be apart, in spreads of the plate's own level. Common practice, no source.
const CLEAR: f32 = 8.0;
/// The share of the hole's pixels from which another bright place is no dust. Common practice, no source.
const DUST: f64 = 0.1;
/// The share of the hole that dust within may take. Common practice, no source.
const SPECK: f64 = 0.05;

/// The width of the one hole on a picture of so many dots an inch, above zero: that of the circle of its area, its edge half
/// way between the levels of hole and plate.
///
/// The range holds the edge at a quarter and at three quarters of the way, and one pixel of error at each edge besides.
/// Source: the geometry is own arithmetic; the half-way level and the pixel of error are common practice, no source.
pub fn hole_on_scan(picture: &Grey, dots_per_inch: f64) -> Result<HoleOnScan, Unmeasurable> {
    let picture = picture.softened();
    let (plate, spread) = plate_level(&picture.levels);
    let (lightest, darkest) = picture
        .levels
        .iter()
        .fold((f32::MIN, f32::MAX), |(most, least), level| {
            (most.max(*level), least.min(*level))
        });
    let clear = (CLEAR * spread).max(f32::EPSILON * plate.abs());
    if lightest - plate <= clear {
        let dark = plate - darkest > clear;
        return Err(if dark {
            Unmeasurable::Dark
        } else {
            Unmeasurable::NoHole
        });
    }
    let bright = hole_level(&picture, plate, lightest);
    let level = |share: f32| plate + share * (bright - plate);
    let hole = the_hole(&picture, level(0.5))?;
    let outline = |share: f32| outline(&picture, &hole, level(share));
    let (half, high, low) = (outline(0.5), outline(0.75), outline(0.25));
    // A scan of one dot an inch is measured in pixels.
    let across = |area: f64| measure::from_scan(area, 1.0).inches();
    let pixels = across(half.area);
    if pixels < FEWEST {
        return Err(Unmeasurable::Coarse(pixels.round() as u32));
    }
    if half.area < (1.0 - SPECK) * half.filled {
        return Err(Unmeasurable::Blocked);
    }
    let width = |area: f64| measure::from_scan(area, dots_per_inch);
    let edge = measure::one_pixel(dots_per_inch);
    let pixel = Length::from_inches(1.0 / dots_per_inch);
    let filled = Area::from_square_millimetres(half.filled * pixel.millimetres() * pixel.millimetres());
    Ok(HoleOnScan {
        diameter: [
            width(high.area.min(half.area)) - edge,
            width(half.area),
            width(low.area.max(half.area)) + edge,
        ],
        roundness: measure::roundness(filled, pixel * half.edge).min(1.0),
        pixels,
    })
}

/// The level in the middle of all, and the spread about it: 1.4826 times the middle distance from it, which is the standard
/// deviation where levels are spread as a bell.
fn plate_level(levels: &[f32]) -> (f32, f32) {
    let middle = |mut values: Vec<f32>| {
        let at = values.len() / 2;
        let (_, value, _) = values.select_nth_unstable_by(at, f32::total_cmp);
        *value
    };
    let plate = middle(levels.to_vec());
    let spread = middle(levels.iter().map(|level| (level - plate).abs()).collect());
    (plate, 1.4826 * spread)
}

/// The level in the middle of what is lighter than half way up: from the lightest pixel, then from its own half way, until
/// nothing moves.
fn hole_level(picture: &Grey, plate: f32, lightest: f32) -> f32 {
    let mut bright = lightest;
    for _ in 0..8 {
        let half = plate + (bright - plate) / 2.0;
        let within: Vec<f32> = picture
            .levels
            .iter()
            .copied()
            .filter(|level| *level > half)
            .collect();
        if within.is_empty() {
            break;
        }
        let (next, _) = plate_level(&within);
        if next == bright {
            break;
        }
        bright = next;
    }
    bright
}

/// The bright places above a level; the one that is the hole, as its pixels in order.
fn the_hole(picture: &Grey, level: f32) -> Result<Vec<Place>, Unmeasurable> {
    let mut places = bright_places(picture, level);
    places.sort_by_key(|place| std::cmp::Reverse(place.len()));
    let Some(first) = places.first() else {
        return Err(Unmeasurable::NoHole);
    };
    let alike = places
        .iter()
        .filter(|place| place.len() as f64 >= DUST * first.len() as f64)
        .count();
    let (right, foot) = (picture.width - 1, picture.height() - 1);
    let cut = |(x, y): &Place| *x == 0 || *y == 0 || *x == right || *y == foot;
    if first.iter().any(cut) {
        return Err(Unmeasurable::Cut);
    }
    if alike > 1 {
        return Err(Unmeasurable::Several(alike));
    }
    Ok(places.swap_remove(0))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::f64::consts::PI;

    const SIZE: usize = 120;

    /// A picture with each pixel the share of it that lies within the shape, from 64 points.
    fn drawn(inside: impl Fn(f64, f64) -> bool, plate: f32, hole: f32) -> Grey {
        let levels = (0..SIZE * SIZE)
            .map(|at| {
                let (x, y) = ((at % SIZE) as f64, (at / SIZE) as f64);
                let points = (0..64).filter(|point| {
                    let (i, j) = (f64::from(point % 8), f64::from(point / 8));
                    inside(x + (i + 0.5) / 8.0 - 0.5, y + (j + 0.5) / 8.0 - 0.5)
                });
                plate + (hole - plate) * points.count() as f32 / 64.0
            })
            .collect();
        Grey::new(SIZE, levels).unwrap()
    }

    fn disc(x: f64, y: f64, radius: f64) -> impl Fn(f64, f64) -> bool {
        move |px, py| libm::hypot(px - x, py - y) <= radius
    }

    fn noisy(mut picture: Grey, spread: f32) -> Grey {
        // A plain congruential row of numbers, so that the test is the same every time.
        let mut state: u32 = 12_345;
        for level in &mut picture.levels {
            let mut sum = 0.0;
            for _ in 0..4 {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                sum += (state >> 8) as f32 / (1 << 24) as f32 - 0.5;
            }
            *level += spread * sum * 1.73;
        }
        picture
    }

    #[test]
    fn a_disc_is_as_wide_as_it_is() {
        for radius in [5.0, 14.3, 30.0, 42.5] {
            for (x, y) in [(60.0, 60.0), (59.6, 60.3)] {
                let seen = hole_on_scan(&drawn(disc(x, y, radius), 20.0, 230.0), 2400.0).unwrap();
                // What softening moves, see above, at both edges.
                let moved = 1.0 / radius;
                assert!(
                    (seen.pixels - 2.0 * radius).abs() < moved.max(0.1),
                    "{radius}: {}",
                    seen.pixels
                );
                assert!(seen.roundness > 0.97, "{radius}: {}", seen.roundness);
                let [low, best, high] = seen.diameter.map(Length::millimetres);
                assert!((best - seen.pixels * 25.4 / 2400.0).abs() < 1e-9);
                assert!(low < best && best < high);
                assert!(
                    low > best - 0.035 && high < best + 0.035,
                    "one pixel an edge and the slope"
                );
            }
        }
    }

    #[test]
    fn noise_and_dust_move_it_little() {
        let dusty = drawn(
            |x, y| disc(60.0, 60.0, 20.0)(x, y) || disc(15.0, 20.0, 2.0)(x, y),
            20.0,
            200.0,
        );
        let seen = hole_on_scan(&noisy(dusty, 6.0), 2400.0).unwrap();
        assert!((seen.pixels - 40.0).abs() < 0.4, "{}", seen.pixels);
        assert!(seen.roundness > 0.9, "{}", seen.roundness);
    }

    #[test]
    fn an_ellipse_has_its_area_and_roundness() {
        let ellipse = |x: f64, y: f64| libm::hypot((x - 60.0) / 40.0, (y - 60.0) / 20.0) <= 1.0;
        let seen = hole_on_scan(&drawn(ellipse, 10.0, 240.0), 1200.0).unwrap();
        // Area pi a b; perimeter by Ramanujan's second formula (1914): 193.77 for 40 by 20.
        assert!(
            (seen.pixels - 2.0 * 800.0_f64.sqrt()).abs() < 0.15,
            "{}",
            seen.pixels
        );
        let expected = 4.0 * PI * (PI * 800.0) / (193.77 * 193.77);
        assert!((seen.roundness - expected).abs() < 0.02, "{}", seen.roundness);
    }

    #[test]
    fn what_cannot_be_measured_says_why() {
        let seen = |picture: Grey| hole_on_scan(&picture, 2400.0).unwrap_err();
        assert_eq!(seen(drawn(|_, _| false, 20.0, 20.0)), Unmeasurable::NoHole);
        assert_eq!(
            seen(noisy(drawn(|_, _| false, 20.0, 20.0), 5.0)),
            Unmeasurable::NoHole
        );
        assert_eq!(
            seen(drawn(disc(60.0, 60.0, 20.0), 220.0, 10.0)),
            Unmeasurable::Dark
        );
        assert_eq!(seen(drawn(disc(5.0, 60.0, 20.0), 20.0, 220.0)), Unmeasurable::Cut);
        let two = |x: f64, y: f64| disc(30.0, 60.0, 12.0)(x, y) || disc(90.0, 60.0, 10.0)(x, y);
        assert_eq!(seen(drawn(two, 20.0, 220.0)), Unmeasurable::Several(2));
        assert_eq!(
            seen(drawn(disc(60.0, 60.0, 3.0), 20.0, 220.0)),
            Unmeasurable::Coarse(6)
        );
        let ring = |x: f64, y: f64| disc(60.0, 60.0, 30.0)(x, y) && !disc(60.0, 60.0, 10.0)(x, y);
        assert_eq!(seen(drawn(ring, 20.0, 220.0)), Unmeasurable::Blocked);
    }

    #[test]
    fn pictures_have_whole_rows() {
        assert!(Grey::new(0, vec![1.0]).is_none());
        assert!(Grey::new(3, vec![1.0; 7]).is_none());
        assert!(hole_on_scan(&Grey::new(1, vec![1.0]).unwrap(), 300.0).is_err());
    }
}

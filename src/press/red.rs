//! Looks at pages as a safelight shows them: a picture of the red light alone, and the contrast of every letter in it.
//!
//! A page is drawn twice, once without its text. Where the two differ there is ink of a letter, and the two levels at that
//! spot are ink and ground. So the ground may be anything: white, a black band, a picture.

use image::codecs::png::PngEncoder;
use image::{ExtendedColorType, ImageEncoder};
use typst::layout::{Abs, Frame, FrameItem, Point, Transform};
use typst::text::TextItem;
use typst_layout::{Page, PagedDocument};
use typst_render::RenderOptions;

use super::fault::PressFault;
use super::world;
use crate::tone::red_light;

/// Pixels in a point to measure at: the thinnest stroke of the smallest type used here is then two pixels wide, so that
/// one of them is ink alone.
const MEASURED: f64 = 4.0;
/// Pixels in a point of the picture: 144 to the inch.
const SHOWN: f64 = 2.0;
/// Most pixels of one page; larger pages are drawn more coarsely, and have larger letters.
const MOST: f64 = 20e6;
/// Between the sides in the picture, pixels.
const GAP: usize = 24;
/// Letters stand between this much above the baseline and this much below it, ems.
const ABOVE_EM: f64 = 0.75;
const BELOW_EM: f64 = 0.25;
/// More letters of an element than this are not quoted.
const QUOTED: usize = 40;

/// What a red lamp shows.
pub(super) struct RedProof {
    /// A PNG of all pages side by side.
    pub(super) picture: Vec<u8>,
    /// Too little contrast; at most one fault, for the worst words.
    pub(super) fault: Option<PressFault>,
}

/// The proof of a document that holds one card.
pub(super) fn proof(document: &PagedDocument, card: &str) -> Result<RedProof, PressFault> {
    let pages = document.pages();
    let mut faint: Vec<Faint> = pages.iter().flat_map(faint_words).collect();
    let others = faint.len().saturating_sub(1);
    faint.sort_by(|a, b| a.contrast.total_cmp(&b.contrast));
    Ok(RedProof {
        picture: picture(pages)?,
        fault: faint.into_iter().next().map(|worst| PressFault::RedContrast {
            card: card.to_owned(),
            element: worst.words,
            contrast: worst.contrast,
            others,
        }),
    })
}

/// Words with too little contrast, and how much they have.
struct Faint {
    words: String,
    contrast: f64,
}

fn faint_words(page: &Page) -> Vec<Faint> {
    let mut bare = page.clone();
    without_text(&mut bare.frame);
    let drawn = Drawn {
        with: Raster::of(page, MEASURED),
        without: Raster::of(&bare, MEASURED),
    };
    let mut faint = Vec::new();
    walk(&page.frame, Transform::identity(), &mut |text, at, placed| {
        let contrasts =
            letters(text).filter_map(|(left, right)| drawn.contrast(text, at, placed, left, right));
        let least = contrasts.fold(f64::INFINITY, f64::min);
        if least < red_light::ENOUGH {
            faint.push(Faint {
                words: quoted(text),
                contrast: least,
            });
        }
    });
    faint
}

fn without_text(frame: &mut Frame) {
    frame.retain(|item| match item {
        FrameItem::Text(_) => false,
        FrameItem::Group(group) => {
            without_text(&mut group.frame);
            true
        }
        _ => true,
    });
}

fn walk(frame: &Frame, placed: Transform, seen: &mut dyn FnMut(&TextItem, Point, Transform)) {
    for (at, item) in frame.items() {
        match item {
            FrameItem::Group(group) => {
                let inner = placed
                    .pre_concat(Transform::translate(at.x, at.y))
                    .pre_concat(group.transform);
                walk(&group.frame, inner, seen);
            }
            FrameItem::Text(text) => seen(text, *at, placed),
            _ => {}
        }
    }
}

/// From where to where each letter with ink stands, from the beginning of its run.
fn letters(text: &TextItem) -> impl Iterator<Item = (Abs, Abs)> + '_ {
    text.glyphs
        .iter()
        .scan(Abs::zero(), |cursor, glyph| {
            let left = *cursor;
            *cursor += glyph.x_advance.at(text.size);
            Some((glyph, left, *cursor))
        })
        .filter(|(glyph, left, right)| {
            let characters = text.text.get(glyph.range()).unwrap_or_default();
            right > left && characters.chars().any(|c| !c.is_whitespace() && !c.is_control())
        })
        .map(|(_, left, right)| (left, right))
}

fn quoted(text: &TextItem) -> String {
    let words = text.text.trim();
    match words.char_indices().nth(QUOTED) {
        Some((cut, _)) => format!("{}…", words.get(..cut).unwrap_or_default()),
        None => words.to_owned(),
    }
}

/// A page with and without its text.
struct Drawn {
    with: Raster,
    without: Raster,
}

impl Drawn {
    /// The greatest contrast under a letter: that of its strokes, since their edges have less. None where
    /// it runs over the page's edge, which is a fault of its own.
    fn contrast(&self, text: &TextItem, at: Point, placed: Transform, left: Abs, right: Abs) -> Option<f64> {
        let (above, below) = (text.size * ABOVE_EM, text.size * BELOW_EM);
        let corners = [(left, -above), (right, -above), (left, below), (right, below)]
            .map(|(x, y)| Point::new(at.x + x, at.y + y).transform(placed));
        let scale = self.with.scale;
        let reach = |along: fn(&Point) -> Abs, size: usize| {
            let ends = corners.iter().map(|corner| along(corner).to_pt() * scale);
            let low = ends.clone().fold(f64::INFINITY, f64::min).floor();
            let high = ends.fold(f64::NEG_INFINITY, f64::max).ceil();
            (low >= 0.0 && high <= size as f64).then_some(low as usize..high as usize)
        };
        let columns = reach(|point| point.x, self.with.width)?;
        let rows = reach(|point| point.y, self.with.height())?;
        // Nothing differs where a letter has the colour of its ground: no contrast.
        let mut most: f64 = 1.0;
        for row in rows {
            for column in columns.clone() {
                let (ink, ground) = (self.with.red(column, row), self.without.red(column, row));
                if ink != ground {
                    most = most.max(red_light::contrast(f64::from(ink), f64::from(ground)));
                }
            }
        }
        Some(most)
    }
}

/// The red levels of a page, row by row.
struct Raster {
    width: usize,
    scale: f64,
    reds: Vec<u8>,
}

impl Raster {
    fn of(page: &Page, scale: f64) -> Self {
        let size = page.frame.size();
        let scale = scale.min((MOST / (size.x.to_pt() * size.y.to_pt())).sqrt());
        let drawn = typst_render::render(
            page,
            &RenderOptions {
                pixel_per_pt: scale.into(),
                render_bleed: false,
            },
        );
        // What is not covered is the white of the paper.
        let red = |red: u8, alpha: u8| red.saturating_add(u8::MAX - alpha);
        Self {
            width: drawn.width() as usize,
            scale,
            reds: drawn
                .pixels()
                .iter()
                .map(|pixel| red(pixel.red(), pixel.alpha()))
                .collect(),
        }
    }

    fn height(&self) -> usize {
        self.reds.len() / self.width.max(1)
    }

    fn red(&self, column: usize, row: usize) -> u8 {
        self.row(row).get(column).copied().unwrap_or(u8::MAX)
    }

    fn row(&self, row: usize) -> &[u8] {
        self.reds
            .get(row * self.width..(row + 1) * self.width)
            .unwrap_or_default()
    }
}

/// All pages side by side in nothing but red light, as PNG.
fn picture(pages: &[Page]) -> Result<Vec<u8>, PressFault> {
    let rasters: Vec<Raster> = pages.iter().map(|page| Raster::of(page, SHOWN)).collect();
    let height = rasters.iter().map(Raster::height).max().unwrap_or(0);
    let gaps = GAP * rasters.len().saturating_sub(1);
    let width = rasters.iter().map(|raster| raster.width).sum::<usize>() + gaps;
    let mut bytes = Vec::with_capacity(width * height * 3);
    for row in 0..height {
        for (at, raster) in rasters.iter().enumerate() {
            let line = raster.row(row);
            let dark = raster.width - line.len() + if at + 1 < rasters.len() { GAP } else { 0 };
            bytes.extend(line.iter().flat_map(|red| [*red, 0, 0]));
            bytes.extend(std::iter::repeat_n(0, dark * 3));
        }
    }
    let mut png = Vec::new();
    PngEncoder::new(&mut png)
        .write_image(&bytes, width as u32, height as u32, ExtendedColorType::Rgb8)
        .map_err(|error| {
            PressFault::template(world::MAIN, format!("the red picture cannot be written: {error}"))
        })?;
    Ok(png)
}

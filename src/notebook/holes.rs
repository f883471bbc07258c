//! Holes that are measured on their scans.

use std::collections::BTreeMap;

use image::DynamicImage;
use rayon::prelude::*;

use crate::optics::hole_scan::{Grey, HoleOnScan, hole_on_scan};
use crate::source::{Span, Spanned};
use crate::syntax::resolve;
use crate::tone::picture;
use crate::units::Range;

use super::{Body, Camera, Notebook};

/// What the scans of holes show, by the place where a scan is named.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Holes(BTreeMap<Span, Result<HoleOnScan, String>>);

impl Holes {
    /// What a scan shows, or why its hole cannot be measured; nothing where it was not looked at.
    pub fn on(&self, scan: &Spanned<String>) -> Option<&Result<HoleOnScan, String>> {
        self.0.get(&scan.span)
    }
}

impl Notebook {
    /// Measures the holes of cameras that give a scan and its resolution, from files that `read` fetches; a file that is not
    /// there is told elsewhere and is not measured.
    pub fn measure_holes(&mut self, read: &(dyn Fn(&str) -> Option<Vec<u8>> + Sync)) {
        let paths: BTreeMap<_, &str> = self
            .pages
            .iter()
            .map(|head| (head.file, head.path.as_str()))
            .collect();
        let measured = self.blocks.par_iter().filter_map(|block| {
            let Body::Camera(camera) = &block.body else {
                return None;
            };
            let (scan, dpi) = (camera.scan.get()?, camera.dpi.get()?);
            let path = resolve(paths.get(&block.page)?, &scan.value)?;
            let bytes = read(&path)?;
            Some((scan.span, measured(&bytes, dpi.range.best)))
        });
        self.holes = Holes(measured.collect());
    }

    /// The width of a camera's hole in mm: as it was written, else as its scan shows it, else why it is not known.
    pub fn hole(&self, camera: &Camera) -> Result<Range, String> {
        if let Some(hole) = camera.pinhole.get() {
            return Ok(hole.range);
        }
        let Some(scan) = camera.scan.get() else {
            return Err("the pinhole cannot be read".to_owned());
        };
        match self.holes.on(scan) {
            Some(Ok(seen)) => {
                let [low, best, high] = seen.diameter.map(crate::units::scalar::Length::millimetres);
                Ok(Range { low, best, high })
            }
            Some(Err(why)) => Err(format!("the hole cannot be measured on its scan: {why}")),
            None if camera.dpi.get().is_none() => {
                Err("the hole's scan has no resolution: give its `dpi`".to_owned())
            }
            None => Err("the hole's scan is not there to be measured".to_owned()),
        }
    }
}

fn measured(bytes: &[u8], dots_per_inch: f64) -> Result<HoleOnScan, String> {
    let picture = grey(&picture::decode(bytes)?).ok_or("the picture is empty")?;
    hole_on_scan(&picture, dots_per_inch).map_err(|why| why.to_string())
}

/// Levels as they stand in the file: half way between two is where a scanner's own curve puts it, and the edge of a hole is
/// too steep for that to move it by a pixel.
fn grey(picture: &DynamicImage) -> Option<Grey> {
    let levels = picture.to_luma32f();
    Grey::new(levels.width() as usize, levels.into_raw())
}

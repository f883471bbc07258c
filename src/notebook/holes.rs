//! Holes that are measured on their scans.

use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

use image::DynamicImage;
use rayon::prelude::*;

use crate::optics::hole_scan::{Grey, HoleOnScan, hole_on_scan};
use crate::source::{Span, Spanned};
use crate::syntax::resolve;
use crate::tone::picture;
use crate::units::Range;

use super::{Body, Camera, Changes, Kind, Notebook};

/// What the scans of holes show, by the place where a scan is named.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Holes(BTreeMap<Span, Measured>);

/// A hole that was measured, and on what.
#[derive(Debug, Clone, PartialEq)]
struct Measured {
    /// The camera.
    id: String,
    scan: Scan,
    shows: Result<HoleOnScan, String>,
}

/// What a hole was measured on: the picture, by a hash of its bytes, and its dots per inch.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Scan {
    length: usize,
    hash: u64,
    dots_per_inch: f64,
}

impl Scan {
    fn of(bytes: &[u8], dots_per_inch: f64) -> Self {
        let mut hasher = DefaultHasher::new();
        bytes.hash(&mut hasher);
        Self {
            length: bytes.len(),
            hash: hasher.finish(),
            dots_per_inch,
        }
    }
}

impl Holes {
    /// What a scan shows, or why its hole cannot be measured; nothing where it was not looked at.
    pub fn on(&self, scan: &Spanned<String>) -> Option<&Result<HoleOnScan, String>> {
        self.0.get(&scan.span).map(|measured| &measured.shows)
    }
}

impl Notebook {
    /// Measures the holes of cameras that give a scan and its resolution, from files that `read` fetches; a file that is not
    /// there is told elsewhere and is not measured. A picture that was measured for the notebook before is not measured again;
    /// `changes` are told of cameras whose hole is another.
    pub fn measure_holes(
        &mut self,
        read: &(dyn Fn(&str) -> Option<Arc<[u8]>> + Sync),
        changes: &mut Changes,
    ) {
        let before: BTreeMap<&str, &Measured> = changes
            .holes_before
            .0
            .values()
            .map(|measured| (measured.id.as_str(), measured))
            .collect();
        let paths: BTreeMap<_, &str> = self
            .pages
            .iter()
            .map(|head| (head.file, head.path.as_str()))
            .collect();
        let measured = self.blocks.par_iter().filter_map(|block| {
            let Body::Camera(camera) = &block.body else {
                return None;
            };
            let (named, dpi) = (camera.scan.get()?, camera.dpi.get()?);
            let path = resolve(paths.get(&block.page)?, &named.value)?;
            let bytes = read(&path)?;
            let scan = Scan::of(&bytes, dpi.range.best);
            let known = before.get(block.id.as_str()).filter(|known| known.scan == scan);
            let shows = match known {
                Some(known) => known.shows.clone(),
                None => measured(&bytes, scan.dots_per_inch),
            };
            let id = block.id.clone();
            Some((named.span, Measured { id, scan, shows }))
        });
        self.holes = Holes(measured.collect());
        let now: BTreeMap<&str, &Measured> = self
            .holes
            .0
            .values()
            .map(|measured| (measured.id.as_str(), measured))
            .collect();
        let ids = before.keys().chain(now.keys());
        let other = ids.filter(|id| before.get(**id) != now.get(**id));
        let other: Vec<String> = other.map(|id| (*id).to_owned()).collect();
        if !other.is_empty() {
            changes.kinds.insert(Kind::Camera);
            changes.ids.extend(other);
        }
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

//! Holes measured on scans, from files as a scanner leaves them.

use std::io::Cursor;

use image::{DynamicImage, ImageBuffer, ImageFormat, Luma};
use trayside::facts::{Fact, Value};
use trayside::host::Memory;
use trayside::pipeline::{Proof, SETTINGS};

use crate::support::{USUAL, proofed, seen};

const SIZE: u32 = 160;

/// A scan of a hole of a width in pixels, 16 bits deep; each pixel is the share of it within the hole, from 16 points.
fn scan(width: f64) -> ImageBuffer<Luma<u16>, Vec<u16>> {
    ImageBuffer::from_fn(SIZE, SIZE, |x, y| {
        let inside = (0..16).filter(|point| {
            let (i, j) = (f64::from(point % 4), f64::from(point / 4));
            let dx = f64::from(x) + (i + 0.5) / 4.0 - 80.3;
            let dy = f64::from(y) + (j + 0.5) / 4.0 - 79.6;
            dx * dx + dy * dy <= width * width / 4.0
        });
        Luma([2_000 + 3_600 * inside.count() as u16])
    })
}

fn file(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn notebook(hole: &str, name: &str, bytes: Option<Vec<u8>>) -> Proof {
    let page = format!("```camera\nid: tin\n{hole}\ndistance: 100 mm\nformat: 100×125 mm\n```\n");
    let mut folder = Memory::new().with(SETTINGS, USUAL).with("cameras/tin.md", page);
    if let Some(bytes) = bytes {
        folder = folder.with(name, bytes);
    }
    proofed(&folder)
}

fn fact<'p>(proof: &'p Proof, name: &str) -> &'p Fact {
    proof.facts.get("tin", name).unwrap()
}

fn rules(proof: &Proof) -> Vec<&'static str> {
    seen(proof).iter().map(|finding| finding.rule).collect()
}

/// 0.35 mm at 4800 dpi is `0.35/25.4 * 4800` pixels.
const WIDTH: f64 = 0.35 / 25.4 * 4800.0;

#[test]
fn a_hole_is_measured_in_every_format() {
    let deep = DynamicImage::from(scan(WIDTH));
    let shallow = DynamicImage::from(deep.to_luma8());
    for (ending, format, picture) in [
        ("png", ImageFormat::Png, &deep),
        ("tif", ImageFormat::Tiff, &deep),
        ("png", ImageFormat::Png, &shallow),
        ("jpg", ImageFormat::Jpeg, &shallow),
    ] {
        for hole in [
            format!("pinhole:\n  scan: hole.{ending}\n  dpi: 4800"),
            format!("scan: hole.{ending}\ndpi: 4800 dpi"),
        ] {
            let bytes = file(picture, format);
            let proof = notebook(&hole, &format!("cameras/hole.{ending}"), Some(bytes));
            assert_eq!(rules(&proof), Vec::<&str>::new(), "{ending}");
            let measured = fact(&proof, "pinhole").range().unwrap();
            assert!(
                (measured.best - 0.35).abs() < 0.002,
                "{ending}: {}",
                measured.best
            );
            // One pixel at each edge and the slope of the edge.
            let pixel = 25.4 / 4800.0;
            assert!(
                measured.best - measured.low >= 2.0 * pixel && measured.best - measured.low < 4.0 * pixel
            );
            assert!(
                measured.high - measured.best >= 2.0 * pixel && measured.high - measured.best < 4.0 * pixel
            );
            let n = fact(&proof, "f-number").range().unwrap();
            assert!((n.best - 100.0 / measured.best).abs() < 1e-9);
            assert!(n.low < n.best && n.best < n.high);
        }
    }
}

#[test]
fn a_hole_that_cannot_be_measured_is_said_where_the_scan_is_named() {
    let blank = DynamicImage::from(scan(0.0));
    let proof = notebook(
        "scan: hole.png\ndpi: 4800",
        "cameras/hole.png",
        Some(file(&blank, ImageFormat::Png)),
    );
    let found = seen(&proof);
    assert_eq!(found.len(), 1, "{found:?}");
    let first = found.first().unwrap();
    assert_eq!((first.rule, first.line, first.column), ("hole-unmeasured", 3, 7));
    assert_eq!(first.text, "hole.png");
    let Err(why) = &fact(&proof, "f-number").value else {
        panic!("no f-number without a hole")
    };
    assert!(why.contains("clearly lighter"), "{why}");
}

#[test]
fn a_coarse_scan_says_how_little_it_tells() {
    let coarse = DynamicImage::from(scan(0.35 / 25.4 * 1200.0));
    let bytes = file(&coarse, ImageFormat::Png);
    let proof = notebook("scan: hole.png\ndpi: 1200", "cameras/hole.png", Some(bytes));
    assert_eq!(rules(&proof), ["hole-unmeasured"]);
    assert!(matches!(fact(&proof, "pinhole").value, Ok(Value::Number(_))));
}

#[test]
fn what_is_written_wins_over_the_scan() {
    let bytes = file(&DynamicImage::from(scan(WIDTH)), ImageFormat::Png);
    let proof = notebook(
        "pinhole: 0.36 mm\nscan: hole.png\ndpi: 4800",
        "cameras/hole.png",
        Some(bytes),
    );
    assert_eq!(rules(&proof), Vec::<&str>::new());
    assert_eq!(fact(&proof, "pinhole").range().unwrap().best, 0.36);
}

#[test]
fn a_scan_needs_its_resolution_and_to_be_there_and_to_be_one() {
    let bytes = file(&DynamicImage::from(scan(WIDTH)), ImageFormat::Png);
    let proof = notebook("scan: hole.png", "cameras/hole.png", Some(bytes));
    assert_eq!(rules(&proof), ["hole-unmeasured"]);
    let proof = notebook("scan: hole.png\ndpi: 4800", "cameras/hole.png", None);
    assert_eq!(rules(&proof), ["picture-missing"]);
    let proof = notebook(
        "scan: hole.png\ndpi: 4800",
        "cameras/hole.png",
        Some(b"no picture".to_vec()),
    );
    assert_eq!(rules(&proof), ["hole-unmeasured"]);
}

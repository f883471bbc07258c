//! The demo's scans. There was never a gate or a hut: both are drawn here, as a pinhole camera on paper would have seen them,
//! and the files in the notebook are held against the drawing. `UPDATE_EXPECT=1` writes them anew.
//!
//! Only sums, products, quotients and square roots are used, which come out alike on every machine.

#![expect(clippy::disallowed_methods, reason = "the scans lie on disk")]

use std::path::Path;

use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageEncoder};

/// What a picture shows at a place: brightness from 0 to 1. Places run from -1 to 1 along the longer side, upwards.
type Scene = fn(f64, f64) -> f64;

/// How dark the corners are on flat paper: the fourth power of the cosine, for a paper as far from the hole as it is high.
fn falls_off(x: f64, y: f64) -> f64 {
    let away = 1.0 + 0.7 * (x * x + y * y);
    1.0 / (away * away)
}

/// Paper that had so much light: near white without any, black with much, steep between.
fn blackened(light: f64) -> f64 {
    0.03 + 0.9 / (1.0 + light * light * light)
}

/// From 0 to 1 as `at` goes from `from` to `to`.
fn between(from: f64, to: f64, at: f64) -> f64 {
    ((at - from) / (to - from)).clamp(0.0, 1.0)
}

/// A number from 0 to 1 that looks like chance and is the same every time.
fn grain(x: i64, y: i64) -> f64 {
    let mixed = (x.wrapping_mul(73_856_093) ^ y.wrapping_mul(19_349_663)).wrapping_mul(83_492_791);
    ((mixed >> 8) & 0xff) as f64 / 255.0
}

/// The crossing gate under even cloud: a round white signboard on the left post, five white bars, a hedge, a road.
fn gate(x: f64, y: f64) -> f64 {
    // The round wall bends what is above the height of the hole.
    let y = y * (1.0 + 0.25 * x * x);
    let board = (x + 0.62) * (x + 0.62) + (y + 0.12) * (y + 0.12);
    if board < 0.026 {
        return if board < 0.018 { 1.0 } else { 0.1 };
    }
    if (x + 0.62).abs() < 0.035 && y < 0.3 && y > -0.55 || (x - 0.7).abs() < 0.035 && y < 0.1 && y > -0.55 {
        return 0.6;
    }
    let bar = (y + 0.5) / 0.12;
    if x > -0.62 && x < 0.7 && bar > 0.0 && bar < 5.0 && bar - bar.floor() < 0.36 {
        return 0.85;
    }
    // A stay from corner to corner.
    if x > -0.6 && x < 0.68 && (y + 0.47 - 0.4 * (x + 0.6)).abs() < 0.022 {
        return 0.8;
    }
    let leaf = grain((x * 23.0).floor() as i64, (y * 23.0).floor() as i64);
    let hedge = 0.02 + 0.06 * leaf + 0.05 * (1.0 - x * x);
    if y < -0.58 - 0.04 * x {
        return 0.28 + 0.1 * between(-0.6, -0.9, y) + 0.05 * leaf;
    }
    if y < 0.02 + hedge * 1.2 {
        return hedge;
    }
    0.8 + 0.2 * between(0.0, 0.7, y)
}

/// The platelayers' hut in hazy sun from the left: two walls, a roof, a door ajar, a chimney, rails in front.
fn hut(x: f64, y: f64) -> f64 {
    let board = (x * 22.0).rem_euclid(1.0) < 0.12;
    let eaves = 0.28;
    if x > -0.5 && x < 0.42 && y > -0.42 && y < eaves {
        let lit = x < -0.12;
        if !lit && x > 0.05 && x < 0.26 && y < 0.08 {
            return 0.02;
        }
        if lit && x > -0.4 && x < -0.24 && y > -0.08 && y < 0.12 {
            return 0.1;
        }
        return match (lit, board) {
            (true, false) => 0.62,
            (true, true) => 0.4,
            (false, false) => 0.16,
            (false, true) => 0.07,
        };
    }
    // The roof leans to the right behind.
    let ridge = 0.56 - 0.12 * (x + 0.1).abs();
    if y >= eaves && y < ridge && x > -0.58 + (y - eaves) * 0.9 && x < 0.5 - (y - eaves) * 0.4 {
        return if x < -0.12 + (y - eaves) * 0.2 { 0.5 } else { 0.3 };
    }
    if (x - 0.2).abs() < 0.05 && y >= eaves && y < 0.76 {
        return 0.12;
    }
    let tuft = grain((x * 31.0).floor() as i64, (y * 40.0).floor() as i64);
    if y < -0.42 {
        let rail = |foot: f64, lean: f64| (x - foot - lean * (y + 0.42)).abs() < 0.014 - 0.02 * (y + 0.42);
        if rail(0.12, 0.76) || rail(0.2, -0.3) {
            return 0.75;
        }
        return 0.2 + 0.2 * tuft;
    }
    if y < -0.3 - 0.1 * x {
        return 0.1 + 0.08 * tuft;
    }
    0.72 + 0.2 * between(-0.5, 0.9, y)
}

/// What lies on the paper: its whiteness from 0 to 1, soft as a hole draws.
struct Sheet {
    width: i64,
    height: i64,
    white: Vec<f64>,
}

impl Sheet {
    /// A negative: so many times the light that its brightest part wants. Seen from the shiny side it has left and right
    /// swapped.
    fn exposed(scene: Scene, (width, height): (i64, i64), light: f64, flat: bool) -> Self {
        let long = width.max(height) as f64;
        let mut white = Vec::new();
        for row in 0..height {
            for column in 0..width {
                let mut sum = 0.0;
                // Twenty-five rays within three pixels: the blur of the hole.
                for step in 0..25 {
                    let right = (column as f64 + 0.5 + f64::from(step % 5 - 2) * 1.4) * 2.0 - width as f64;
                    let down = (row as f64 + 0.5 + f64::from(step / 5 - 2) * 1.4) * 2.0 - height as f64;
                    let (x, y) = (-right / long, -down / long);
                    sum += scene(x, y) * if flat { falls_off(x, y) } else { 1.0 };
                }
                white.push(blackened(light * sum / 25.0));
            }
        }
        Self { width, height, white }
    }

    /// A contact print of it, face to face.
    fn printed(&self, light: f64) -> Self {
        let rows = self.white.chunks(usize::try_from(self.width).unwrap());
        let white = rows.flat_map(|row| row.iter().rev().map(|white| blackened(light * white)));
        Self {
            width: self.width,
            height: self.height,
            white: white.collect(),
        }
    }

    fn scanned(&self) -> Vec<u8> {
        let pixels: Vec<u8> = (0..)
            .zip(&self.white)
            .map(|(at, white)| {
                let noise = grain(at % self.width, at / self.width) - 0.5;
                // A scanner's numbers are about the square root of the light.
                (255.0 * white.sqrt() + 4.0 * noise).round() as u8
            })
            .collect();
        let mut file = Vec::new();
        let size = |side: i64| u32::try_from(side).unwrap();
        JpegEncoder::new_with_quality(&mut file, 70)
            .write_image(
                &pixels,
                size(self.width),
                size(self.height),
                ExtendedColorType::L8,
            )
            .unwrap();
        file
    }
}

#[test]
fn the_scans_of_the_demo_are_drawn() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("recipes/log/scans");
    let (wide, tall) = ((440, 352), (352, 440));
    let first = Sheet::exposed(gate, wide, 2.1, false);
    let second = Sheet::exposed(gate, wide, 3.0, false);
    let old_hut = Sheet::exposed(hut, tall, 3.4, true);
    let scans = [
        ("gate-1.jpg", first.scanned()),
        ("gate-2.jpg", second.scanned()),
        ("gate-2-print.jpg", second.printed(3.0).scanned()),
        ("hut-2.jpg", old_hut.scanned()),
        ("hut-2-print.jpg", old_hut.printed(1.9).scanned()),
    ];
    for (name, drawn) in scans {
        assert!(drawn.len() < 24_000, "{name}: {} bytes", drawn.len());
        let path = folder.join(name);
        if std::env::var_os("UPDATE_EXPECT").is_some() {
            std::fs::create_dir_all(&folder).unwrap();
            std::fs::write(&path, &drawn).unwrap();
        }
        let kept = std::fs::read(&path).unwrap_or_default();
        assert!(
            kept == drawn,
            "{name} is not as it is drawn: UPDATE_EXPECT=1 writes it anew"
        );
    }
}

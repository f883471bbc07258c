//! Every kind of paper in the eyes of other programs: poppler's tools and lopdf agree on pages, boxes, tags, language, fonts and
//! words, and what poppler draws is what the press saw.

use std::collections::BTreeMap;

use image::GenericImageView as _;
use lopdf::{Document, Object};
use trayside::press::{Job, Press};
use trayside::views::card::SheetLayout;

use super::PRESS;
use super::cards::{A6, vinegar};
use super::read::{close, poppler, sizes, sound};
use super::templates::jobs;

/// The first document of each kind.
fn one_of_each() -> BTreeMap<&'static str, Job> {
    let mut found = BTreeMap::new();
    for job in jobs() {
        found.entry(job.template()).or_insert(job);
    }
    assert_eq!(found.len(), 7);
    found
}

fn said(program: &str, arguments: &[&str], pdf: &[u8]) -> Option<String> {
    poppler(program, arguments, pdf).map(|bytes| String::from_utf8(bytes).expect("utf-8"))
}

#[test]
fn two_readers_agree_on_every_kind_of_paper() {
    for (template, job) in one_of_each() {
        let pdf = sound(PRESS.set(Ok(job)));
        let document = Document::load_mem(&pdf).expect("a PDF");
        let catalog = document.catalog().expect("a catalogue");
        assert!(catalog.has(b"StructTreeRoot"), "{template}");
        let language = catalog.get(b"Lang").and_then(Object::as_str).expect("a language");
        assert_eq!(language, b"en", "{template}");
        let sizes = sizes(&pdf);
        let Some(info) = said("pdfinfo", &["-"], &pdf) else {
            return;
        };
        let line = |name: &str| {
            let found = info.lines().find_map(|line| line.strip_prefix(name));
            found
                .unwrap_or_else(|| panic!("{template}: no {name} in {info}"))
                .trim()
        };
        assert_eq!(line("Pages:"), sizes.len().to_string(), "{template}");
        assert_eq!(line("Tagged:"), "yes", "{template}");
        assert_eq!(line("JavaScript:"), "no", "{template}");
        assert_eq!(line("Encrypted:"), "no", "{template}");
        assert!(!line("Title:").is_empty(), "{template}");
        let points: Vec<f64> = line("Page size:")
            .split_whitespace()
            .filter_map(|word| word.parse().ok())
            .collect();
        let mm = (points[0] * 25.4 / 72.0, points[1] * 25.4 / 72.0);
        assert!(close(mm, sizes[0]), "{template}: {mm:?} {:?}", sizes[0]);
        // Behind the rule: name, type, encoding, embedded, subset, to Unicode. A type may have two words.
        let fonts = said("pdffonts", &["-"], &pdf).expect("as before");
        let rows: Vec<&str> = fonts.lines().skip(2).collect();
        assert!(!rows.is_empty(), "{template}");
        for row in rows {
            let words: Vec<&str> = row.split_whitespace().collect();
            let flags = &words[words.len() - 5..words.len() - 2];
            assert_eq!(flags, ["yes", "yes", "yes"], "{template}: {row}");
        }
    }
}

#[test]
fn every_word_stands_on_its_page() {
    for (template, job) in one_of_each() {
        let pdf = sound(PRESS.set(Ok(job)));
        let Some(boxes) = said("pdftotext", &["-bbox", "-", "-"], &pdf) else {
            return;
        };
        let value = |line: &str, name: &str| -> f64 {
            let after = line.split(&format!("{name}=\"")).nth(1).expect("a box");
            after
                .split('"')
                .next()
                .expect("a value")
                .parse()
                .expect("a number")
        };
        let (mut width, mut height, mut words) = (0.0, 0.0, 0);
        for line in boxes.lines() {
            if line.contains("<page ") {
                (width, height) = (value(line, "width"), value(line, "height"));
            } else if line.contains("<word ") {
                words += 1;
                assert!(
                    value(line, "xMin") >= 0.0 && value(line, "xMax") <= width,
                    "{template}: {line}"
                );
                assert!(
                    value(line, "yMin") >= -1.0 && value(line, "yMax") <= height + 1.0,
                    "{template}: {line}"
                );
            }
        }
        assert!(words > 20, "{template}: {words} words");
    }
}

#[test]
fn every_kind_of_paper_has_the_same_bytes_again() {
    let jobs = one_of_each();
    let first: Vec<Vec<u8>> = jobs.values().map(|job| PRESS.set(Ok(job.clone())).pdf).collect();
    Press::forget_unused();
    let press = Press::new();
    for (before, job) in first.iter().zip(jobs.values()) {
        assert!(*before == press.set(Ok(job.clone())).pdf, "{}", job.template());
        assert_eq!(press.fingerprint(job), PRESS.fingerprint(job));
    }
}

/// Width, height and grey levels of a page as poppler draws it.
fn drawn(pdf: &[u8], dots: u32) -> Option<(usize, usize, Vec<u8>)> {
    let resolution = dots.to_string();
    let bytes = poppler(
        "pdftoppm",
        &["-r", &resolution, "-gray", "-f", "1", "-l", "1", "-"],
        pdf,
    )?;
    // A PGM: P5, width, height, 255, each behind white space, then the levels.
    let mut at = 0;
    let mut words = Vec::new();
    while words.len() < 4 {
        let end = at
            + bytes[at..]
                .iter()
                .position(u8::is_ascii_whitespace)
                .expect("a header");
        words.push(String::from_utf8(bytes[at..end].to_vec()).expect("text"));
        at = end + 1;
    }
    assert_eq!((words[0].as_str(), words[3].as_str()), ("P5", "255"));
    Some((
        words[1].parse().expect("a width"),
        words[2].parse().expect("a height"),
        bytes[at..].to_vec(),
    ))
}

/// Dots to the inch at which cut marks are measured.
const DOTS: u32 = 600;

/// Cut marks stand in line with the trimmed edges, so they tell how large a card is once it is cut.
#[test]
fn a_card_of_74_mm_is_74_mm_between_its_cut_marks() {
    // A7 is 74 × 105 mm, ISO 216.
    let a7 = SheetLayout {
        card_width_mm: 74.0,
        card_height_mm: 105.0,
        ..A6
    };
    let pdf = PRESS.cards(&[vinegar()], &a7).pdf;
    let Some((width, height, grey)) = drawn(&pdf, DOTS) else {
        return;
    };
    let mm = |dots: f64| dots * 25.4 / f64::from(DOTS);
    let dark = |x: usize, y: usize| grey[y * width + x] < 128;
    // Upright marks are columns with a run of 2 mm or more above the card's words; level ones are rows.
    let run = (2.0 / 25.4 * f64::from(DOTS)) as usize;
    let middle = |places: &[usize]| -> Vec<f64> {
        let mut groups: Vec<Vec<usize>> = Vec::new();
        for place in places {
            match groups.last_mut() {
                Some(group) if place - group[group.len() - 1] <= 1 => group.push(*place),
                _ => groups.push(vec![*place]),
            }
        }
        groups
            .iter()
            .map(|group| group.iter().sum::<usize>() as f64 / group.len() as f64)
            .collect()
    };
    let card_top = (0..height)
        .find(|y| (0..width).any(|x| dark(x, *y)))
        .expect("a mark");
    let card_left = (0..width)
        .find(|x| (0..height).any(|y| dark(*x, y)))
        .expect("a mark");
    let columns: Vec<usize> = (0..width)
        .filter(|x| (card_top..card_top + run).all(|y| dark(*x, y)))
        .collect();
    let rows: Vec<usize> = (0..height)
        .filter(|y| (card_left..card_left + run).all(|x| dark(x, *y)))
        .collect();
    let (columns, rows) = (middle(&columns), middle(&rows));
    assert!(columns.len() >= 2 && rows.len() >= 2, "{columns:?} {rows:?}");
    let wide = mm(columns[1] - columns[0]);
    let tall = mm(rows[1] - rows[0]);
    assert!((wide - 74.0).abs() < 0.05, "{wide} mm");
    assert!((tall - 105.0).abs() < 0.05, "{tall} mm");
}

/// The press draws a card for its red-light proof; black on white is the same in any light, so poppler must draw the same.
#[test]
fn poppler_draws_what_the_press_saw() {
    let pressed = PRESS.card(&vinegar(), &A6);
    let seen = image::load_from_memory(&pressed.red).expect("a picture");
    let Some((width, height, grey)) = drawn(&pressed.pdf, 144) else {
        return;
    };
    let (seen_width, seen_height) = seen.dimensions();
    assert!(width.abs_diff(seen_width as usize) <= 1 && height.abs_diff(seen_height as usize) <= 1);
    let red = seen.to_rgb8();
    // Means of squares of 8 dots: edges are smoothed differently, and a line may fall a dot aside.
    let mut worst: f64 = 0.0;
    let mut sum = 0.0;
    let mut count = 0.0;
    for top in (0..height - 8).step_by(8) {
        for left in (0..width - 8).step_by(8) {
            let (mut theirs, mut ours) = (0.0, 0.0);
            for y in top..top + 8 {
                for x in left..left + 8 {
                    theirs += f64::from(grey[y * width + x]);
                    ours += f64::from(red.get_pixel(x as u32, y as u32).0[0]);
                }
            }
            let off = ((theirs - ours) / 64.0).abs();
            worst = worst.max(off);
            sum += off;
            count += 1.0;
        }
    }
    assert!(sum / count < 3.0, "on average {} levels apart", sum / count);
    assert!(worst < 64.0, "{worst} levels apart");
}

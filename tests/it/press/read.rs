//! Reading a PDF back.

use std::io::Write;
use std::process::{Command, Stdio};

use lopdf::{Document, Object};
use trayside::press::Pressed;

pub(crate) fn sound(pressed: Pressed) -> Vec<u8> {
    assert_eq!(pressed.faults, vec![]);
    assert!(pressed.pdf.starts_with(b"%PDF-"));
    pressed.pdf
}

/// What a program of poppler's prints for a PDF; nothing where it is not installed.
pub(crate) fn poppler(program: &str, arguments: &[&str], pdf: &[u8]) -> Option<Vec<u8>> {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .ok()?;
    let mut stdin = child.stdin.take().expect("piped");
    let bytes = pdf.to_vec();
    let writer = std::thread::spawn(move || stdin.write_all(&bytes).is_ok());
    let output = child.wait_with_output().expect("program ends");
    writer.join().expect("writer ends");
    Some(output.stdout)
}

pub(crate) fn text(pdf: &[u8], arguments: &[&str]) -> Option<String> {
    let arguments: Vec<&str> = arguments.iter().copied().chain(["-", "-"]).collect();
    let bytes = poppler("pdftotext", &arguments, pdf)?;
    Some(String::from_utf8(bytes).expect("utf-8"))
}

pub(crate) fn words(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The trimmed sizes of pages, mm.
pub(crate) fn sizes(pdf: &[u8]) -> Vec<(f64, f64)> {
    let trimmed = boxes(pdf).into_iter().map(|page| page.trim);
    trimmed
        .map(|trim| (trim[2] - trim[0], trim[3] - trim[1]))
        .collect()
}

/// The boxes of a page, mm: left, bottom, right, top. One that is not written is the one outside it, by ISO 32000-1, 14.11.2.
pub(crate) struct Boxes {
    pub(crate) media: [f64; 4],
    pub(crate) bleed: [f64; 4],
    pub(crate) trim: [f64; 4],
}

pub(crate) fn boxes(pdf: &[u8]) -> Vec<Boxes> {
    let document = Document::load_mem(pdf).expect("a PDF");
    let pages = document.get_pages().into_values().map(|page| {
        let page = document.get_dictionary(page).expect("a page");
        let read = |name: &[u8]| {
            let corners = page.get(name).and_then(Object::as_array).ok()?;
            let corners: Vec<f64> = corners
                .iter()
                .map(|c| f64::from(c.as_float().expect("a number")) * 25.4 / 72.0)
                .collect();
            Some([corners[0], corners[1], corners[2], corners[3]])
        };
        let media = read(b"MediaBox").expect("a page has a size");
        let crop = read(b"CropBox").unwrap_or(media);
        Boxes {
            media,
            bleed: read(b"BleedBox").unwrap_or(crop),
            trim: read(b"TrimBox").unwrap_or(crop),
        }
    });
    pages.collect()
}

pub(crate) fn close(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < 0.1 && (a.1 - b.1).abs() < 0.1
}

/// What drawings say to those who cannot see them.
pub(super) fn alternatives(pdf: &[u8]) -> Vec<String> {
    let document = Document::load_mem(pdf).expect("a PDF");
    document
        .objects
        .values()
        .filter_map(|object| object.as_dict().ok()?.get(b"Alt").ok())
        .filter_map(|alt| lopdf::decode_text_string(alt).ok())
        .collect()
}

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

/// Page sizes in mm.
pub(crate) fn sizes(pdf: &[u8]) -> Vec<(f64, f64)> {
    let document = Document::load_mem(pdf).expect("a PDF");
    let boxes = document.get_pages().into_values().map(|page| {
        let page = document.get_dictionary(page).expect("a page");
        let corners = page.get(b"MediaBox").and_then(Object::as_array).expect("a box");
        let corners: Vec<f64> = corners
            .iter()
            .map(|c| f64::from(c.as_float().expect("a number")) * 25.4 / 72.0)
            .collect();
        (corners[2] - corners[0], corners[3] - corners[1])
    });
    boxes.collect()
}

pub(crate) fn close(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < 0.1 && (a.1 - b.1).abs() < 0.1
}

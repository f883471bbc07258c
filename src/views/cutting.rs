//! The cutting template of a camera: the sheet of paper at its real size, with the place that the hole looks at.

use serde::Serialize;

use crate::facts::Facts;
use crate::finding::Finding;
use crate::notebook::{Block, Body, Camera, Notebook, Plane};
use crate::units::{Digits, Dimension, Range, Style, show};

use super::cards::own_fault;
use super::common::stamp;
use super::words::{CuttingWords, Words, words_of};

/// Around the outline, mm: for the title above, the ruler below, and what printers leave blank.
const MARGIN: (f64, f64, f64) = (10.0, 62.0, 34.0);

/// A camera's template; lengths in mm.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Cutting {
    /// The block's id, also the stem of the file.
    pub id: String,
    /// The language of its words, as an ISO 639-1 code.
    pub language: String,
    /// The camera's name.
    pub title: String,
    /// The page.
    pub page: [f64; 2],
    /// The sheet of paper, long side level.
    pub sheet: [f64; 2],
    /// Its upper left corner on the page.
    pub at: [f64; 2],
    /// The point of the sheet that the hole looks at, from the sheet's upper left corner; none where it looks at no one.
    pub axis: Option<[f64; 2]>,
    /// What stands at that point.
    pub axis_words: String,
    /// What stands on the sheet.
    pub side: String,
    /// How the ruler is used.
    pub ruler: String,
    /// The camera's measures: a label and a value.
    pub figures: Vec<[String; 2]>,
    /// Where hole and paper go, a sentence a line.
    pub steps: Vec<String>,
    /// Small print at the foot.
    pub stamp: String,
}

/// A template for every camera whose sheet is known and that has no fault.
pub fn cuttings(notebook: &Notebook, facts: &Facts, findings: &[Finding]) -> Vec<Cutting> {
    let blocks = notebook
        .blocks
        .iter()
        .filter(|block| block.named && notebook.leads_to(block));
    blocks
        .filter_map(|block| match &block.body {
            Body::Camera(camera) if own_fault(block, findings).is_none() => {
                cutting(block, camera, notebook, facts)
            }
            _ => None,
        })
        .collect()
}

fn cutting(block: &Block, camera: &Camera, notebook: &Notebook, facts: &Facts) -> Option<Cutting> {
    let (style, words) = (notebook.settings.style, words_of(notebook));
    let say = &words.cutting;
    let format = &camera.format.get()?.value;
    let (a, b) = (format.width.millimetres(), format.height.millimetres());
    let sheet = [a.max(b), a.min(b)];
    // Larger than this is wallpaper, and smaller shows nothing.
    if !(20.0..=1500.0).contains(&sheet[0]) || !(10.0..=1500.0).contains(&sheet[1]) {
        return None;
    }
    let page = page(sheet);
    let offset = camera.offset.get().map_or(0.0, |offset| offset.range.best);
    let plane = camera.plane.get().map(|plane| &plane.value);
    let lid = matches!(plane, Some(Plane::Lid { .. }));
    // The image stands on its head: a hole above the middle looks straight at a point above the middle all the same.
    let axis = (!lid && offset.abs() < sheet[1] / 2.0).then(|| [sheet[0] / 2.0, sheet[1] / 2.0 - offset]);
    let hole = facts
        .get(&block.id, "pinhole")
        .filter(|fact| fact.value.is_ok())
        .map(|fact| fact.text(style));
    let mut figures = Vec::new();
    for (label, name) in [(say.f_number, "f-number"), (say.sees, "angle-of-view")] {
        if let Some(fact) = facts.get(&block.id, name).filter(|fact| fact.value.is_ok()) {
            figures.push([label.to_owned(), fact.text(style)]);
        }
    }
    if let Some(hole) = &hole {
        figures.insert(0, [say.hole.to_owned(), hole.clone()]);
    }
    if plane.is_none_or(|plane| *plane == Plane::Flat)
        && let Some(distance) = camera.distance.get()
    {
        figures.insert(
            1.min(figures.len()),
            [say.distance.to_owned(), distance.show(style)],
        );
    }
    figures.push([
        say.sheet.to_owned(),
        format!("{} × {}", plain(sheet[0], style), length(sheet[1], style)),
    ]);
    Some(Cutting {
        id: block.id.clone(),
        language: words.code.to_owned(),
        title: block.name().to_owned(),
        page,
        sheet,
        at: [(page[0] - sheet[0]) / 2.0, MARGIN.1],
        axis,
        axis_words: if lid {
            String::new()
        } else {
            say.looks_here.to_owned()
        },
        side: say.shiny_side.to_owned(),
        ruler: say.ruler.to_owned(),
        figures,
        steps: steps(plane, camera, sheet, say, style),
        stamp: stamp(notebook, words, None),
    })
}

/// A4 upright, or on its side, else as large as the sheet wants.
fn page(sheet: [f64; 2]) -> [f64; 2] {
    let wanted = [sheet[0] + 2.0 * MARGIN.0, sheet[1] + MARGIN.1 + MARGIN.2];
    for page in [[210.0, 297.0], [297.0, 210.0]] {
        if wanted[0] <= page[0] && wanted[1] <= page[1] {
            return page;
        }
    }
    [wanted[0].max(210.0), wanted[1].max(150.0)]
}

/// How the sheet goes in, and where the hole goes.
fn steps(
    plane: Option<&Plane>,
    camera: &Camera,
    sheet: [f64; 2],
    say: &CuttingWords,
    style: Style,
) -> Vec<String> {
    let mut steps = vec![say.cut_first.to_owned()];
    match plane {
        None | Some(Plane::Flat) => {
            if let Some(distance) = camera.distance.get() {
                steps.push(Words::fill(say.lies_flat, &distance.show(style)));
            }
        }
        Some(Plane::Wall { radius }) => {
            let half = radius.range.best * std::f64::consts::PI;
            steps.push(Words::fill(say.on_wall, &length(half, style)));
            let gap = 2.0 * half - sheet[0];
            if gap > 0.0 {
                steps.push(Words::fill(say.wall_free, &length(gap, style)));
            }
        }
        Some(Plane::Axis { radius }) => steps.push(Words::fill(say.on_axis, &radius.show(style))),
        Some(Plane::Lid { radius, .. }) => steps.push(Words::fill(say.under_lid, &radius.show(style))),
    }
    steps
}

fn length(mm: f64, style: Style) -> String {
    format!("{}\u{a0}mm", plain(mm, style))
}

fn plain(mm: f64, style: Style) -> String {
    show(Range::exact(mm), Dimension::Number, Digits::Significant(3), style)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_holds_its_sheet() {
        // A4 by ISO 216.
        assert_eq!(page([125.0, 100.0]), [210.0, 297.0]);
        assert_eq!(page([250.0, 100.0]), [297.0, 210.0]);
        for sheet in [[300.0, 240.0], [500.0, 400.0], [200.0, 150.0]] {
            let page = page(sheet);
            assert!(page[0] >= sheet[0] + 20.0 && page[1] >= sheet[1] + 90.0);
        }
    }
}

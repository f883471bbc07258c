//! Labels as the data of a template, and where each stands on its sheet.

use serde::Serialize;
use serde_json::Value;

use super::card::{clean, language};
use super::fault::PressFault;
use super::sheet::{Sheet, Spot, check};
use crate::views::label::{Label, LabelGrid};

/// What the template reads from `/data.json`; lengths in mm.
#[derive(Serialize)]
struct Data<'a> {
    title: String,
    language: &'a str,
    label_width: f64,
    label_height: f64,
    outlined: bool,
    labels: Vec<Value>,
    sheets: &'a [Sheet],
}

/// The bytes of the data file.
pub(super) fn data(labels: &[Label], grid: &LabelGrid, sheets: &[Sheet]) -> Result<Vec<u8>, PressFault> {
    let value = |label: &Label| -> Result<Value, serde_json::Error> {
        let mut value = serde_json::to_value(label)?;
        clean(&mut value);
        if let Value::Object(fields) = &mut value {
            fields.insert("language".to_owned(), language(&label.language).into());
            // A heading must have words: PDF/UA-1 refuses an empty one.
            if label.title.trim().is_empty() {
                fields.insert("title".to_owned(), label.id.clone().into());
            }
        }
        Ok(value)
    };
    let bytes = labels
        .iter()
        .map(value)
        .collect::<Result<Vec<_>, _>>()
        .and_then(|labels_data| {
            serde_json::to_vec(&Data {
                title: labels
                    .iter()
                    .map(|label| label.id.as_str())
                    .collect::<Vec<_>>()
                    .join(", "),
                language: labels.first().map_or("und", |label| language(&label.language)),
                label_width: grid.width_mm,
                label_height: grid.height_mm,
                outlined: grid.outlined,
                labels: labels_data,
                sheets,
            })
        });
    bytes.map_err(|error| PressFault::Layout {
        message: format!("the labels cannot be written as data: {error}"),
    })
}

/// Sheets for `count` labels, row by row, the first beginning after the places that are used up.
pub(super) fn lay(count: usize, grid: &LabelGrid) -> Result<Vec<Sheet>, PressFault> {
    check(&[
        ("label width", grid.width_mm),
        ("label height", grid.height_mm),
        ("sheet width", grid.sheet_width_mm),
        ("sheet height", grid.sheet_height_mm),
    ])?;
    let across = Line {
        name: ("column", "left"),
        sheet: grid.sheet_width_mm,
        label: grid.width_mm,
        gap: grid.column_gap_mm,
        count: grid.columns,
        start: grid.left_mm,
    };
    let down = Line {
        name: ("row", "top"),
        sheet: grid.sheet_height_mm,
        label: grid.height_mm,
        gap: grid.row_gap_mm,
        count: grid.rows,
        start: grid.top_mm,
    };
    let ((columns, left), (rows, top)) = (across.lay()?, down.lay()?);
    let each = columns * rows;
    // Whole sheets that are used up are not printed empty.
    let used = grid.used % each;
    let sheets = (0..(used + count).div_ceil(each)).map(|sheet| {
        let places = (sheet * each).max(used)..((sheet + 1) * each).min(used + count);
        let spots = places.map(|place| Spot {
            card: place - used,
            x: left + (place % each % columns) as f64 * (grid.width_mm + grid.column_gap_mm),
            y: top + (place % each / columns) as f64 * (grid.height_mm + grid.row_gap_mm),
            turned: false,
        });
        Sheet {
            width: grid.sheet_width_mm,
            height: grid.sheet_height_mm,
            bleed: 0.0,
            spots: spots.collect(),
            marks: Vec::new(),
        }
    });
    Ok(sheets.collect())
}

/// Labels along one side of a sheet; lengths in mm.
struct Line {
    name: (&'static str, &'static str),
    sheet: f64,
    label: f64,
    gap: f64,
    count: Option<usize>,
    start: Option<f64>,
}

impl Line {
    /// How many there are, and where the first begins.
    fn lay(&self) -> Result<(usize, f64), PressFault> {
        let (name, side) = self.name;
        let refused = |message: String| Err(PressFault::Layout { message });
        if !(0.0..=100.0).contains(&self.gap) {
            return refused(format!("a {name} gap of {} mm is not possible", self.gap));
        }
        let start = self.start.unwrap_or(0.0);
        if !(0.0..self.sheet).contains(&start) {
            return refused(format!("{side} at {start} mm is not on the sheet"));
        }
        let room = self.sheet - start + self.gap + 1e-6;
        let fits = (room / (self.label + self.gap)) as usize;
        let count = self.count.unwrap_or(fits);
        if count == 0 || count > fits {
            return refused(format!(
                "{} {name}s of {} mm do not go on a sheet of {} mm: {fits} do",
                count.max(1),
                self.label,
                self.sheet
            ));
        }
        let taken = count as f64 * (self.label + self.gap) - self.gap;
        Ok((count, self.start.unwrap_or((self.sheet - taken) / 2.0)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn grid() -> LabelGrid {
        LabelGrid {
            width_mm: 60.0,
            height_mm: 40.0,
            sheet_width_mm: 210.0,
            sheet_height_mm: 297.0,
            columns: Some(3),
            rows: Some(7),
            column_gap_mm: 3.0,
            row_gap_mm: 0.0,
            left_mm: Some(12.0),
            top_mm: Some(8.5),
            used: 0,
            outlined: false,
        }
    }

    #[test]
    fn labels_stand_where_the_grid_says() {
        let sheets = lay(23, &grid()).expect("fits");
        assert_eq!(sheets.len(), 2);
        let spot = |sheet: usize, at: usize| (sheets[sheet].spots[at].x, sheets[sheet].spots[at].y);
        assert_eq!(
            (spot(0, 0), spot(0, 2), spot(0, 3)),
            ((12.0, 8.5), (138.0, 8.5), (12.0, 48.5))
        );
        assert_eq!((sheets[1].spots[1].card, spot(1, 0)), (22, (12.0, 8.5)));
    }

    #[test]
    fn used_places_are_left_empty() {
        let sheets = lay(2, &LabelGrid { used: 20, ..grid() }).expect("fits");
        assert_eq!((sheets[0].spots[0].x, sheets[0].spots[0].y), (138.0, 248.5));
        assert_eq!((sheets.len(), sheets[1].spots[0].card), (2, 1));
        assert_eq!(lay(2, &LabelGrid { used: 42, ..grid() }).expect("fits").len(), 1);
    }

    #[test]
    fn what_does_not_go_on_the_sheet_is_refused() {
        for refused in [
            LabelGrid {
                columns: Some(4),
                ..grid()
            },
            LabelGrid {
                rows: Some(0),
                ..grid()
            },
            LabelGrid {
                left_mm: Some(30.0),
                ..grid()
            },
            LabelGrid {
                left_mm: Some(-1.0),
                ..grid()
            },
            LabelGrid {
                row_gap_mm: f64::NAN,
                ..grid()
            },
            LabelGrid {
                width_mm: 300.0,
                columns: None,
                ..grid()
            },
        ] {
            assert!(lay(1, &refused).is_err(), "{refused:?}");
        }
    }
}

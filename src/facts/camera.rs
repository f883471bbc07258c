//! Facts of cameras: the f-number, the hole that would be best, what the sheet sees and how evenly.

use crate::notebook::{Camera, Notebook, Plane};
use crate::optics::pinhole::{self, PAPER_WAVELENGTH};
use crate::optics::{self, f_number, falloff, view};
use crate::units::scalar::{Angle, FNumber, Length};
use crate::units::{Digits, Dimension, Range, Style, number, show};

use super::fact::{Fact, Measure};

const LENGTH: Measure = Measure::Amount(Dimension::Length, Digits::Significant(2));
const STOPS: Measure = Measure::Amount(Dimension::Stops, Digits::Decimals(1));

pub(super) fn facts(camera: &Camera, notebook: &Notebook, style: Style) -> Vec<Fact> {
    let seen = Seen::of(camera, notebook);
    let finest = Finest::of(camera, &seen);
    vec![
        pinhole_fact(camera, notebook, &seen, style),
        f_number_fact(&seen, style),
        best_pinhole(camera, &seen, style),
        resolution(&finest, &seen, style),
        finest_scan(&finest),
        angle_of_view(camera, &seen, style),
        corner_loss(camera, &seen, style),
        stops_from_f16(&seen),
    ]
}

/// What of a camera could be read, in millimetres.
struct Seen {
    hole: Result<Range, String>,
    distance: Result<Range, String>,
    plane: Result<optics::Plane, String>,
    /// Along the paper's long side and across it: the long side lies level, round a tin along its wall.
    sheet: Result<(Length, Length), String>,
}

impl Seen {
    fn of(camera: &Camera, notebook: &Notebook) -> Self {
        let sheet = match camera.format.get() {
            Some(size) => Ok((size.width.max(size.height), size.width.min(size.height))),
            None => Err("the format cannot be read".to_owned()),
        };
        Self {
            hole: notebook.hole(camera),
            distance: distance(camera),
            plane: plane(camera),
            sheet,
        }
    }

    fn f_number(&self) -> Result<Range, String> {
        let (distance, hole) = (self.distance.clone()?, self.hole.clone()?);
        f_number::f_number_range(distance, hole).ok_or_else(|| "a hole of nothing has no f-number".to_owned())
    }
}

/// The plane with its best measures.
fn plane(camera: &Camera) -> Result<optics::Plane, String> {
    let mm = |amount: &crate::units::Amount| Length::from_millimetres(amount.range.best);
    match camera.plane.get().map(|plane| &plane.value) {
        Some(Plane::Wall { radius }) => Ok(optics::Plane::Wall { radius: mm(radius) }),
        Some(Plane::Axis { radius }) => Ok(optics::Plane::Axis { radius: mm(radius) }),
        Some(Plane::Lid { radius, height }) => Ok(optics::Plane::Lid {
            radius: mm(radius),
            height: mm(height),
        }),
        None if camera.plane.is_broken() => Err("how the paper lies cannot be read".to_owned()),
        Some(Plane::Flat) | None => match camera.distance.get() {
            Some(distance) => Ok(optics::Plane::Flat {
                distance: mm(distance),
            }),
            None => Err("the distance cannot be read".to_owned()),
        },
    }
}

/// The distance that makes the exposure, as a range: computed for round tins, as written for flat paper.
fn distance(camera: &Camera) -> Result<Range, String> {
    let of_radius = |radius: Range, make: &dyn Fn(Length) -> optics::Plane| {
        radius.map_monotone(|mm| {
            make(Length::from_millimetres(mm))
                .effective_distance()
                .millimetres()
        })
    };
    match camera.plane.get().map(|plane| &plane.value) {
        Some(Plane::Wall { radius }) => Ok(of_radius(radius.range, &|radius| optics::Plane::Wall { radius })),
        Some(Plane::Axis { radius }) => Ok(of_radius(radius.range, &|radius| optics::Plane::Axis { radius })),
        Some(Plane::Lid { radius, height }) => {
            let height = Length::from_millimetres(height.range.best);
            Ok(of_radius(radius.range, &|radius| optics::Plane::Lid {
                radius,
                height,
            }))
        }
        None if camera.plane.is_broken() => Err("how the paper lies cannot be read".to_owned()),
        Some(Plane::Flat) | None => match camera.distance.get() {
            Some(distance) => Ok(distance.range),
            None => Err("the distance cannot be read".to_owned()),
        },
    }
}

/// The hole as it was written, or as its scan shows it.
fn pinhole_fact(camera: &Camera, notebook: &Notebook, seen: &Seen, style: Style) -> Fact {
    let scan = camera.scan.get().filter(|_| camera.pinhole.get().is_none());
    let Some(scan) = scan else {
        return Fact::new("pinhole", LENGTH, "as written").result(seen.hole.clone());
    };
    let mut fact = Fact::new(
        "pinhole",
        LENGTH,
        "width of the circle that has the hole's area on its scan, the edge half way between hole and plate; the range is one pixel at each edge, and the slope of the edge",
    )
    .from("scan", scan.value.clone());
    if let Some(dpi) = camera.dpi.get() {
        fact = fact.from("resolution", dpi.show(style));
    }
    if let Some(Ok(on_scan)) = notebook.holes.on(scan) {
        let figure = |value: f64, digits| number(Range::exact(value), digits, style);
        fact = fact
            .from("pixels across", figure(on_scan.pixels, Digits::Decimals(1)))
            .from("roundness", figure(on_scan.roundness, Digits::Decimals(2)));
    }
    fact.result(seen.hole.clone())
}

fn f_number_fact(seen: &Seen, style: Style) -> Fact {
    let mut fact = Fact::new(
        "f-number",
        Measure::Amount(Dimension::FNumber, Digits::Significant(3)),
        "distance from hole to paper divided by the hole's diameter",
    )
    .source("iso-517");
    if let Ok(hole) = seen.hole {
        fact = fact.from(
            "pinhole",
            show(hole, Dimension::Length, Digits::Significant(3), style),
        );
    }
    with_distance(fact, seen, style).result(seen.f_number())
}

fn with_distance(fact: Fact, seen: &Seen, style: Style) -> Fact {
    match &seen.distance {
        Ok(range) => fact.from(
            "distance",
            show(*range, Dimension::Length, Digits::Significant(4), style),
        ),
        Err(_) => fact,
    }
}

fn wavelength(camera: &Camera) -> Length {
    camera.wavelength.get().map_or(PAPER_WAVELENGTH, |given| {
        Length::from_millimetres(given.range.best)
    })
}

fn best_pinhole(camera: &Camera, seen: &Seen, style: Style) -> Fact {
    let word = camera.criterion.get().map(|word| word.value);
    let criterion = word.and_then(pinhole::Criterion::from_word).unwrap_or_default();
    let wave = wavelength(camera);
    let fact = Fact::new(
        "best-pinhole",
        LENGTH,
        "constant of the criterion times the root of wavelength times distance",
    )
    .source("mielenz-1999")
    .from(
        "criterion",
        format!("{}, c = {:.3}", criterion.word(), criterion.constant()),
    )
    .from("wavelength", format!("{:.0} nm", wave.nanometres()));
    let best = seen.distance.clone().map(|distance| {
        distance.map_monotone(|mm| {
            pinhole::best_hole(criterion, Length::from_millimetres(mm), wave).millimetres()
        })
    });
    with_distance(fact, seen, style).result(best)
}

/// The hole's constant `c` in `d = c sqrt(λf)`, where hole and distance are known.
pub fn hole_constant(camera: &Camera, notebook: &Notebook) -> Option<f64> {
    constant(
        camera,
        notebook.hole(camera).ok()?.best,
        distance(camera).ok()?.best,
    )
}

fn constant(camera: &Camera, hole: f64, distance: f64) -> Option<f64> {
    let mm = Length::from_millimetres;
    let constant = pinhole::constant_of(mm(hole), mm(distance), wavelength(camera));
    constant.is_finite().then_some(constant)
}

/// The finest period in mm that still has a fifth of its contrast.
struct Finest {
    period: Range,
    /// Whether an end of what was written lies beyond the table, so that the range stops at its end.
    cut: bool,
}

/// How finely the hole and the distance of a range are looked at: contrast has a peak between.
const PLACES: u32 = 32;

impl Finest {
    fn of(camera: &Camera, seen: &Seen) -> Result<Self, String> {
        let (hole, distance) = (seen.hole.clone()?, seen.distance.clone()?);
        let at = |hole: f64, distance: f64| {
            let mm = Length::from_millimetres;
            Some(pinhole::finest_period(mm(hole), mm(distance), wavelength(camera))?.millimetres())
        };
        let best = at(hole.best, distance.best)
            .ok_or("the hole is too far from the best one for the table: between 1.2 and 2.2 times the root of wavelength times distance")?;
        let places = |range: Range| {
            let steps = if range.is_exact() { 0 } else { PLACES };
            (0..=steps).map(move |step| range.low + range.width() * f64::from(step) / f64::from(steps.max(1)))
        };
        let mut found = Self {
            period: Range::exact(best),
            cut: false,
        };
        for distance in places(distance) {
            for hole in places(hole) {
                match at(hole, distance) {
                    Some(period) => {
                        found.period.low = found.period.low.min(period);
                        found.period.high = found.period.high.max(period);
                    }
                    None => found.cut = true,
                }
            }
        }
        Ok(found)
    }

    /// A fact with a value that follows from the period.
    fn tell(found: &Result<Self, String>, fact: Fact, value: impl Fn(f64) -> f64) -> Fact {
        match found {
            Err(why) => fact.gap(why.clone()),
            Ok(found) => {
                let fact = if found.cut {
                    fact.from(
                        "table",
                        "ends at 1.2 and 2.2 times the root of wavelength times distance: the range stops there, and the hole may be beyond",
                    )
                } else {
                    fact
                };
                fact.number(found.period.map_monotone(value))
            }
        }
    }
}

fn resolution(finest: &Result<Finest, String>, seen: &Seen, style: Style) -> Fact {
    let fact = Fact::new(
        "resolution",
        LENGTH,
        "finest pair of lines that keeps a fifth of its contrast on the paper, by Fresnel diffraction at the hole",
    );
    let fact = with_distance(fact, seen, style);
    Finest::tell(finest, fact, |period| period)
}

fn finest_scan(finest: &Result<Finest, String>) -> Fact {
    let fact = Fact::new(
        "finest-scan",
        Measure::Amount(Dimension::Resolution, Digits::Significant(2)),
        "six pixels to the finest pair of lines: more buys nothing",
    );
    Finest::tell(finest, fact, |period| {
        pinhole::finest_scan(Length::from_millimetres(period))
    })
}

/// Flat paper: across the diagonal. Curved paper: along the wall.
fn angle_of_view(camera: &Camera, seen: &Seen, style: Style) -> Fact {
    let mut fact = Fact::new(
        "angle-of-view",
        Measure::Amount(Dimension::Angle, Digits::Decimals(0)),
        "flat paper: across the diagonal; curved paper: along its long side",
    );
    if let Some(offset) = camera.offset.get() {
        fact = fact.from("offset", offset.show(style));
    }
    let angle = || -> Result<Angle, String> {
        let (along, across) = seen.sheet.clone()?;
        match seen.plane.clone()? {
            optics::Plane::Flat { distance } => {
                Ok(view::corner_to_corner(along, across, distance, offset(camera)))
            }
            optics::Plane::Wall { radius } => Ok(view::wall(along, radius)),
            optics::Plane::Axis { radius } => Ok(view::axis(along, radius)),
            optics::Plane::Lid { .. } => Err("a hole in the lid sees all round".to_owned()),
        }
    };
    with_distance(fact, seen, style).result(angle().map(|angle| Range::exact(angle.degrees())))
}

/// How far the hole stands above the paper's middle.
fn offset(camera: &Camera) -> Length {
    let offset = camera.offset.get();
    offset.map_or(Length::ZERO, |offset| Length::from_millimetres(offset.range.best))
}

fn corner_loss(camera: &Camera, seen: &Seen, style: Style) -> Fact {
    let mut fact = Fact::new(
        "corner-loss",
        STOPS,
        "stops between the brightest place of the sheet and its darkest",
    );
    let foil = camera
        .foil
        .get()
        .map(|foil| Length::from_millimetres(foil.range.best));
    if let Some(foil) = camera.foil.get() {
        fact = fact.from("foil", foil.show(style));
    }
    let loss = || -> Result<f64, String> {
        let (width, height) = seen.sheet.clone()?;
        let hole = Length::from_millimetres(seen.hole.clone()?.best);
        let sheet = falloff::Sheet {
            plane: seen.plane.clone()?,
            width,
            height,
            offset: offset(camera),
            foil: foil.map(|foil| (hole, foil)),
        };
        let stops = sheet.unevenness().stops();
        if stops.is_finite() {
            Ok(stops)
        } else {
            Err("part of the sheet gets no light at all".to_owned())
        }
    };
    with_distance(fact, seen, style).result(loss().map(Range::exact))
}

fn stops_from_f16(seen: &Seen) -> Fact {
    let stops = seen.f_number().map(|range| {
        range.map_monotone(|n| f_number::stops_between(FNumber::new(16.0), FNumber::new(n)).stops())
    });
    Fact::new(
        "stops-from-f16",
        STOPS,
        "twice the binary logarithm of the f-number over 16",
    )
    .from("f-number", "see f-number")
    .result(stops)
}

//! A plot as SVG.
//!
//! What runs over the edge of the field is cut by a nested drawing, which needs no id, unlike a clipping path.

use std::fmt::Write as _;

use super::super::markup::xml;
use super::axis::Laid;
use super::label::{self, Area};
use super::svg::{LIMIT, n1, path, pen, shape, text};
use super::{Limit, Place, Plot, Side};

/// The drawing's width; heights follow from it. It is shown about as wide as a phone is, in its pixels.
const WIDTH: f64 = 400.0;
/// The height of the field between the axes.
const FIELD: f64 = 220.0;
/// The type's size.
const TYPE: f64 = 13.0;
/// From one line of words to the next.
const LINE: f64 = 18.0;
/// How near two tick labels may come, upwards and across.
const ROOM_UP: f64 = 22.0;
const ROOM_ACROSS: f64 = 46.0;
/// Points to a line where a label looks for free room.
const SAMPLES: usize = 24;

/// Where everything is.
struct Field<'p> {
    plot: &'p Plot,
    across: Laid,
    up: Laid,
    frame: Area,
}

/// See [`Plot::svg`].
pub(super) fn svg(plot: &Plot, prefix: Option<&str>) -> Option<String> {
    let rooms = ((WIDTH - 60.0) / ROOM_ACROSS, FIELD / ROOM_UP);
    let across = Laid::of(
        &plot.across,
        &plot.spread(Side::Across),
        rooms.0 as usize,
        plot.style,
    )?;
    let up = Laid::of(&plot.up, &plot.spread(Side::Up), rooms.1 as usize, plot.style)?;
    let widest = up.ticks.iter().map(|tick| label::width(&tick.label, TYPE));
    let left = widest.fold(24.0, f64::max) + 12.0;
    let top = LINE + 10.0;
    let field = Field {
        plot,
        across,
        up,
        frame: Area {
            left,
            top,
            right: WIDTH - 14.0,
            bottom: top + FIELD,
        },
    };
    let keys = field.keys();
    let foot = field.frame.bottom + 20.0 + LINE;
    let height = foot + 8.0 + keys.len() as f64 * LINE;
    let mut out = opening(plot, prefix, height);
    field.axes(&mut out);
    field.inside(&mut out);
    field.points(&mut out);
    for (n, (sample, name)) in keys.iter().enumerate() {
        let middle = foot + LINE * (n as f64 + 0.6);
        let _ = write!(
            out,
            r#"<g transform="translate({} {})">{sample}</g>"#,
            n1(left),
            n1(middle)
        );
        text(&mut out, left + 36.0, middle + TYPE * 0.35, "start", name);
    }
    out.push_str("</svg>");
    Some(out)
}

fn opening(plot: &Plot, prefix: Option<&str>, height: f64) -> String {
    let (title, words) = (xml(&plot.title), xml(&plot.words()));
    let (label, title_id, words_id) = prefix.map_or_else(Default::default, |prefix| {
        let prefix = xml(prefix);
        (
            format!(r#" aria-labelledby="{prefix}.title" aria-describedby="{prefix}.words""#),
            format!(r#" id="{prefix}.title""#),
            format!(r#" id="{prefix}.words""#),
        )
    });
    format!(
        concat!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="plot" viewBox="0 0 {} {}" role="img"{} fill="none" "#,
            r#"stroke-linecap="round" stroke-linejoin="round" font-family="ui-sans-serif, sans-serif" "#,
            r#"font-size="{}"><title{}>{}</title><desc{}>{}</desc>"#
        ),
        n1(WIDTH),
        n1(height),
        label,
        n1(TYPE),
        title_id,
        title,
        words_id,
        words
    )
}

impl Field<'_> {
    fn x(&self, value: f64) -> Option<f64> {
        let share = self.across.share(value)?;
        Some(self.frame.left + share * (self.frame.right - self.frame.left))
    }

    fn y(&self, value: f64) -> Option<f64> {
        let share = self.up.share(value)?;
        Some(self.frame.bottom - share * (self.frame.bottom - self.frame.top))
    }

    fn at(&self, (x, y): (f64, f64)) -> Option<(f64, f64)> {
        Some((self.x(x)?, self.y(y)?))
    }

    /// Hair lines at the ticks, their labels, the two axes and what they measure.
    fn axes(&self, out: &mut String) {
        let frame = &self.frame;
        out.push_str(r#"<g stroke="currentColor" stroke-opacity="0.18">"#);
        let mut labels = String::new();
        for tick in &self.up.ticks {
            if let Some(y) = self.y(tick.at) {
                let _ = write!(
                    out,
                    r#"<path d="M{} {}H{}"></path>"#,
                    n1(frame.left),
                    n1(y),
                    n1(frame.right)
                );
                text(&mut labels, frame.left - 7.0, y + TYPE * 0.35, "end", &tick.label);
            }
        }
        let mut taken = f64::NEG_INFINITY;
        for tick in &self.across.ticks {
            if let Some(x) = self.x(tick.at) {
                let _ = write!(
                    out,
                    r#"<path d="M{} {}V{}"></path>"#,
                    n1(x),
                    n1(frame.top),
                    n1(frame.bottom)
                );
                // Words never run into each other: the tick then stands alone.
                let half = label::width(&tick.label, TYPE) / 2.0;
                if x - half > taken + 4.0 {
                    text(
                        &mut labels,
                        x.min(WIDTH - half),
                        frame.bottom + 18.0,
                        "middle",
                        &tick.label,
                    );
                    taken = x + half;
                }
            }
        }
        let _ = write!(
            out,
            r#"</g><path stroke="currentColor" d="M{l} {t}V{b}H{r}"></path>"#,
            l = n1(frame.left),
            t = n1(frame.top),
            b = n1(frame.bottom),
            r = n1(frame.right)
        );
        out.push_str(&labels);
        text(out, 2.0, LINE - 4.0, "start", &self.plot.up.heading());
        text(
            out,
            frame.right,
            frame.bottom + 18.0 + LINE,
            "end",
            &self.plot.across.heading(),
        );
    }

    /// Bands, lines and limits, cut off at the field's edges.
    fn inside(&self, out: &mut String) {
        let frame = &self.frame;
        let (wide, high) = (frame.right - frame.left, frame.bottom - frame.top);
        let _ = write!(
            out,
            r#"<svg x="{x}" y="{y}" width="{w}" height="{h}" viewBox="{x} {y} {w} {h}" overflow="hidden">"#,
            x = n1(frame.left),
            y = n1(frame.top),
            w = n1(wide),
            h = n1(high)
        );
        for band in &self.plot.bands {
            let edges: Vec<(f64, f64, f64)> = band
                .edges
                .iter()
                .filter_map(|&(x, low, high)| Some((self.x(x)?, self.y(low)?, self.y(high)?)))
                .collect();
            if edges.len() < 2 {
                continue;
            }
            let there = edges.iter().map(|&(x, low, _)| (x, low));
            let back = edges.iter().rev().map(|&(x, _, high)| (x, high));
            let _ = write!(
                out,
                r#"<path fill="currentColor" fill-opacity="0.13" d="{}Z"></path>"#,
                path(there.chain(back))
            );
        }
        for limit in &self.plot.limits {
            let d = match limit.on {
                Side::Across => self
                    .x(limit.at)
                    .map(|x| format!("M{} {}V{}", n1(x), n1(frame.top), n1(frame.bottom))),
                Side::Up => self
                    .y(limit.at)
                    .map(|y| format!("M{} {}H{}", n1(frame.left), n1(y), n1(frame.right))),
            };
            if let Some(d) = d {
                let _ = write!(out, r#"<path {LIMIT} d="{d}"></path>"#);
            }
        }
        for line in &self.plot.lines {
            let points = line.points.iter().filter_map(|&point| self.at(point));
            let d = path(points);
            if !d.is_empty() {
                let _ = write!(out, r#"<path {} d="{d}"></path>"#, pen(line.stroke));
            }
        }
        out.push_str("</svg>");
    }

    /// Points, the place, and the words beside them, which may stand over the field's edge.
    fn points(&self, out: &mut String) {
        let ink = self.ink();
        let mut words = Vec::new();
        if let Some(place) = &self.plot.place {
            self.place(out, place, &ink, &mut words);
        }
        for limit in &self.plot.limits {
            self.limit_name(out, limit, &ink, &mut words);
        }
        for dots in &self.plot.dots {
            for dot in &dots.points {
                if !(self.across.holds(dot.x) && self.up.holds(dot.y)) {
                    continue;
                }
                let Some((x, y)) = self.at((dot.x, dot.y)) else {
                    continue;
                };
                let _ = write!(out, r"<path {}></path>", shape(dots.shape, x, y));
                if let Some(name) = &dot.name {
                    self.name(out, &[(x, y)], name, false, &ink, &mut words);
                }
            }
        }
    }

    fn place(&self, out: &mut String, place: &Place, ink: &[(f64, f64)], words: &mut Vec<Area>) {
        if !(self.across.holds(place.x) && self.up.holds(place.y)) {
            return;
        }
        let Some((x, y)) = self.at((place.x, place.y)) else {
            return;
        };
        if let Some((low, high)) = place.band
            && let (Some(low), Some(high)) = (self.y(low), self.y(high))
        {
            let (low, high) = (low.min(self.frame.bottom), high.max(self.frame.top));
            let _ = write!(
                out,
                r#"<path stroke="currentColor" stroke-width="1.5" d="M{x} {low}V{high}M{l} {low}H{r}M{l} {high}H{r}"></path>"#,
                x = n1(x),
                low = n1(low),
                high = n1(high),
                l = n1(x - 5.0),
                r = n1(x + 5.0)
            );
        }
        let _ = write!(
            out,
            r#"<circle fill="currentColor" cx="{}" cy="{}" r="5"></circle>"#,
            n1(x),
            n1(y)
        );
        self.name(out, &[(x, y)], &place.name, true, ink, words);
    }

    fn name(
        &self,
        out: &mut String,
        at: &[(f64, f64)],
        name: &str,
        bold: bool,
        ink: &[(f64, f64)],
        words: &mut Vec<Area>,
    ) {
        let Some(spot) = label::beside(at, name, TYPE, &self.frame, ink, words) else {
            return;
        };
        words.push(spot.area);
        let anchor = if spot.ends { "end" } else { "start" };
        let weight = if bold { r#" font-weight="700""# } else { "" };
        let _ = write!(
            out,
            r#"<text fill="currentColor" text-anchor="{anchor}" x="{}" y="{}"{weight}>{}</text>"#,
            n1(spot.x),
            n1(spot.baseline),
            xml(name)
        );
    }

    /// A limit's name stands on it, where there is room.
    fn limit_name(&self, out: &mut String, limit: &Limit, ink: &[(f64, f64)], words: &mut Vec<Area>) {
        self.name(out, &self.along(limit, 6), &limit.name, false, ink, words);
    }

    /// Points along a limit, in so many steps; none where it lies outside.
    fn along(&self, limit: &Limit, steps: usize) -> Vec<(f64, f64)> {
        let frame = &self.frame;
        let shares = (0..=steps).map(|n| n as f64 / steps as f64);
        match limit.on {
            Side::Across if self.across.holds(limit.at) => {
                let x = self.x(limit.at).unwrap_or(frame.left);
                // Words near the head of an upright line are read first.
                shares
                    .map(|share| (x, frame.top + 22.0 + share * (FIELD - 44.0)))
                    .collect()
            }
            Side::Up if self.up.holds(limit.at) => {
                let y = self.y(limit.at).unwrap_or(frame.top);
                let wide = frame.right - frame.left;
                shares.map(|share| (frame.left + share * wide, y)).collect()
            }
            _ => Vec::new(),
        }
    }

    /// Points along everything that is drawn, for labels to keep off.
    fn ink(&self) -> Vec<(f64, f64)> {
        let mut ink = Vec::new();
        for line in &self.plot.lines {
            let points: Vec<(f64, f64)> = line.points.iter().filter_map(|&point| self.at(point)).collect();
            for pair in points.windows(2) {
                if let [(x, y), (to_x, to_y)] = *pair {
                    let part = |n: usize| n as f64 / SAMPLES as f64;
                    ink.extend((0..SAMPLES).map(|n| (x + (to_x - x) * part(n), y + (to_y - y) * part(n))));
                }
            }
        }
        let dots = self.plot.dots.iter().flat_map(|dots| &dots.points);
        ink.extend(dots.filter_map(|dot| self.at((dot.x, dot.y))));
        for limit in &self.plot.limits {
            ink.extend(self.along(limit, 4 * SAMPLES));
        }
        ink
    }

    /// A sample and a name for everything that is told apart by its look.
    fn keys(&self) -> Vec<(String, &str)> {
        let plot = self.plot;
        let lines = plot.lines.iter().map(|line| {
            let sample = format!(r#"<path {} d="M0 0H26"></path>"#, pen(line.stroke));
            (sample, line.name.as_str())
        });
        let bands = plot.bands.iter().map(|band| {
            let sample = r#"<path fill="currentColor" fill-opacity="0.13" d="M0 -6H26V6H0Z"></path>"#;
            (sample.to_owned(), band.name.as_str())
        });
        let dots = plot.dots.iter().map(|dots| {
            let sample = format!("<path {}></path>", shape(dots.shape, 13.0, 0.0));
            (sample, dots.name.as_str())
        });
        lines.chain(bands).chain(dots).collect()
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::units::Style;
    use crate::views::plot::{Axis, Band, Dot, Dots, Line, Measure, Shape, Stroke};

    fn plot() -> Plot {
        let soda = Axis::linear("washing soda", Measure::Unit("g".to_owned()));
        let mut plot = Plot::new(
            "pH against soda",
            soda,
            Axis::linear("pH", Measure::Ph),
            Style::default(),
        );
        let curve = [(0.0, 4.0), (10.0, 8.6), (20.0, 9.8), (50.0, 10.3)];
        plot.bands.push(Band {
            name: "where it may lie".to_owned(),
            edges: curve.iter().map(|&(x, y)| (x, y - 0.2, y + 0.2)).collect(),
        });
        plot.lines.push(Line {
            name: "finished bath".to_owned(),
            points: curve.to_vec(),
            stroke: Stroke::Solid,
        });
        plot.limits.push(Limit {
            name: "asleep below".to_owned(),
            at: 9.0,
            on: Side::Up,
        });
        plot.place = Some(Place {
            name: "this recipe".to_owned(),
            x: 20.0,
            y: 9.8,
            band: Some((9.6, 10.0)),
        });
        plot
    }

    #[test]
    fn words_and_numbers_stand_in_it() {
        let svg = plot().svg(None).expect("can be drawn");
        for part in [
            "<title>pH against soda</title>",
            ">washing soda, g</text>",
            ">this recipe</text>",
            "currentColor",
        ] {
            assert!(svg.contains(part), "{part} in {svg}");
        }
        assert!(!svg.contains(" id="));
        assert_eq!(
            plot().words().replace('\u{a0}', " "),
            "Finished bath runs from pH 4.0 for 0 g to pH 10.3 for 50 g. This recipe is at pH 9.8 for 20 g, and may be \
             anything from pH 9.6 to pH 10.0. Asleep below is marked at pH 9.0."
        );
    }

    #[test]
    fn ids_bear_the_prefix() {
        let svg = plot().svg(Some("tea.plot")).expect("can be drawn");
        assert!(
            svg.contains(r#"<title id="tea.plot.title">"#) && svg.contains(r#"<desc id="tea.plot.words">"#)
        );
        assert_eq!(svg.matches(" id=").count(), 2);
    }

    #[test]
    fn an_outlier_is_named_and_what_lies_outside_is_not_drawn() {
        let mut plot = plot();
        plot.across.reach = Some((0.0, 50.0));
        let dot = |x: f64, name: Option<&str>| Dot {
            x,
            y: 9.0,
            name: name.map(str::to_owned),
        };
        plot.dots.push(Dots {
            name: "batches".to_owned(),
            points: vec![
                dot(10.0, None),
                dot(30.0, Some("the <thin> one")),
                dot(400.0, Some("far")),
            ],
            shape: Shape::Ring,
        });
        let svg = plot.svg(None).expect("can be drawn");
        assert!(svg.contains("the &lt;thin&gt; one") && !svg.contains(">far<"));
        assert!(
            plot.words()
                .contains("Batches: 3, among them the <thin> one, far.")
        );
    }

    #[test]
    fn nothing_is_not_drawn() {
        let mut plot = plot();
        plot.bands.clear();
        plot.lines.clear();
        plot.limits.clear();
        plot.place = None;
        assert_eq!(plot.svg(None), None);
    }

    #[test]
    fn an_axis_without_an_end_is_not_drawn() {
        let mut plot = plot();
        plot.lines.push(Line {
            name: "line".to_owned(),
            points: vec![(0.0, 0.0), (1.7e308, 0.0)],
            stroke: Stroke::Dotted,
        });
        assert_eq!(plot.svg(None), None);
    }

    proptest! {
        #[test]
        fn any_numbers_draw_or_do_not(points in prop::collection::vec((prop::num::f64::ANY, prop::num::f64::ANY), 0..6), log in any::<bool>()) {
            let axis = |title: &str| if log { Axis::log(title, Measure::Ph) } else { Axis::linear(title, Measure::Ph) };
            let mut plot = Plot::new("any", axis("a"), axis("b"), Style::default());
            plot.lines.push(Line { name: "line".to_owned(), points, stroke: Stroke::Dotted });
            if let Some(svg) = plot.svg(None) {
                prop_assert!(!svg.contains("NaN") && !svg.contains("inf"));
                prop_assert_eq!(plot.svg(None), Some(svg));
            }
        }
    }
}

//! Small plots, from plain data to one text of SVG that a page and a printed sheet can both set.
//!
//! Nothing in them is told by colour: lines differ by stroke, points by shape, and all of it takes the colour of the text
//! around it, so that a dark page and a page under the red lamp show the same plot. Words stay words, for those who search
//! or listen, and every plot says in a sentence or two what there is to see.

mod axis;
mod draw;
mod label;
mod svg;
mod words;

use crate::units::Style;

pub use axis::{Axis, Measure, Scale, Tick, Ticks, clock_ticks};

/// A plot before it is drawn. Values that are not finite are left out; so is what lies outside an axis that has a fixed reach.
#[derive(Debug, Clone, PartialEq)]
pub struct Plot {
    /// What is shown, in a few words without a full stop.
    pub title: String,
    /// The axis along the foot.
    pub across: Axis,
    /// The axis along the left side.
    pub up: Axis,
    /// Areas between a lower and an upper edge.
    pub bands: Vec<Band>,
    /// Lines through points in order.
    pub lines: Vec<Line>,
    /// Heaps of points.
    pub dots: Vec<Dots>,
    /// Straight lines across the whole plot.
    pub limits: Vec<Limit>,
    /// The one place that the plot is about.
    pub place: Option<Place>,
    /// How numbers are written.
    pub style: Style,
}

/// An area between two edges.
#[derive(Debug, Clone, PartialEq)]
pub struct Band {
    /// What lies in it.
    pub name: String,
    /// Where along the foot, and from where to where upwards.
    pub edges: Vec<(f64, f64, f64)>,
}

/// A line through points in order.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it shows.
    pub name: String,
    /// Its points.
    pub points: Vec<(f64, f64)>,
    /// How it is drawn.
    pub stroke: Stroke,
}

/// How a line is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Stroke {
    /// Unbroken.
    Solid,
    /// Long dashes.
    Dashed,
    /// Dots.
    Dotted,
}

/// Points of one kind.
#[derive(Debug, Clone, PartialEq)]
pub struct Dots {
    /// What they are.
    pub name: String,
    /// The points.
    pub points: Vec<Dot>,
    /// How each is drawn.
    pub shape: Shape,
}

/// A point.
#[derive(Debug, Clone, PartialEq)]
pub struct Dot {
    /// Along the foot.
    pub x: f64,
    /// Upwards.
    pub y: f64,
    /// Its name, where it is one to speak of: an outlier.
    pub name: Option<String>,
}

/// The shape of a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Filled and round.
    Disc,
    /// Open and round.
    Ring,
    /// Open, with corners.
    Square,
    /// Two strokes.
    Cross,
}

/// A straight line across the whole plot, where something begins or ends.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// What begins or ends there.
    pub name: String,
    /// Where.
    pub at: f64,
    /// On which axis.
    pub on: Side,
}

/// One of the two axes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Along the foot.
    Across,
    /// Along the left side.
    Up,
}

/// The place that a plot is about, such as that of the recipe.
#[derive(Debug, Clone, PartialEq)]
pub struct Place {
    /// What it is: `this recipe`.
    pub name: String,
    /// Along the foot.
    pub x: f64,
    /// Upwards.
    pub y: f64,
    /// From where to where upwards it may lie.
    pub band: Option<(f64, f64)>,
}

impl Plot {
    /// A plot with nothing in it yet.
    pub fn new(title: impl Into<String>, across: Axis, up: Axis, style: Style) -> Self {
        Self {
            title: title.into(),
            across,
            up,
            bands: Vec::new(),
            lines: Vec::new(),
            dots: Vec::new(),
            limits: Vec::new(),
            place: None,
            style,
        }
    }

    /// The plot as SVG; none where there is nothing to draw or an axis has no length.
    ///
    /// With a `prefix` the title and the description bear ids that begin with it, and the drawing names them as its label.
    /// Without one it has no ids at all.
    pub fn svg(&self, prefix: Option<&str>) -> Option<String> {
        draw::svg(self, prefix)
    }

    /// What there is to see, in a sentence or two, for those who cannot. Print wants it beside the drawing as `alt`.
    pub fn words(&self) -> String {
        words::words(self)
    }

    /// Every place that is drawn, for the reach of the axes.
    fn spread(&self, side: Side) -> Vec<f64> {
        let mut values = Vec::new();
        let mut both = |x: f64, y: f64| values.push(if side == Side::Across { x } else { y });
        for band in &self.bands {
            for &(x, low, high) in &band.edges {
                both(x, low);
                both(x, high);
            }
        }
        for line in &self.lines {
            for &(x, y) in &line.points {
                both(x, y);
            }
        }
        for dots in &self.dots {
            for dot in &dots.points {
                both(dot.x, dot.y);
            }
        }
        if let Some(place) = &self.place {
            both(place.x, place.y);
            for end in place.band.iter().flat_map(|&(low, high)| [low, high]) {
                both(place.x, end);
            }
        }
        values.extend(
            self.limits
                .iter()
                .filter(|limit| limit.on == side)
                .map(|limit| limit.at),
        );
        values
    }
}

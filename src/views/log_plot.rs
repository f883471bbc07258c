//! The log of a paper as a plot: the times that were right against the metered ones, with what was learnt from them.

use crate::facts::Lesson;
use crate::notebook::Block;
use crate::optics::fit::EIGHTY_PERCENT;

use super::bath_plots::Plotted;
use super::block_view::Desk;
use super::plot::{Axis, Band, Dot, Dots, Line, Plot, Shape, Stroke};

/// How many places the curve is computed at.
const PLACES: usize = 41;
/// How far the curve goes on past the log at either end, in stops.
const PAST: f64 = 1.0;

/// The plot of a paper whose log tells something; none where it has that from sheets of private pages.
pub(super) fn of_paper(desk: &Desk<'_>, block: &Block) -> Option<Plotted> {
    let (facts, style, say) = (desk.facts, desk.style, &desk.words.block.plot);
    if desk.places.keeps_back(facts, block, "from-log") {
        return None;
    }
    let lesson = facts.learned.before(&block.id, None).filter(Lesson::tells)?;
    let speed = facts.get(&block.id, "from-log")?.range()?.best;
    let metered = |x: f64| libm::exp2(x) / speed;
    let (low, high) = lesson
        .noted
        .iter()
        .map(|noted| noted.entry.x)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
            (low.min(x), high.max(x))
        });
    let (low, high) = (low - PAST, high + PAST);
    let step = (high - low) / (PLACES - 1) as f64;
    if !step.is_finite() {
        return None;
    }
    let mut plot = Plot::new(
        say.of_log,
        Axis::doubling_times(say.metered, style),
        Axis::doubling_times(say.was_right, style),
        style,
    );
    let (mut band, mut best, mut straight) = (Vec::new(), Vec::new(), Vec::new());
    for place in 0..PLACES {
        let x = low + step * place as f64;
        let next = lesson.fit.predict_at(x, None);
        let times = next.interval(EIGHTY_PERCENT);
        band.push((metered(x), times.low, times.high));
        best.push((metered(x), times.best));
        straight.push((metered(x), metered(x)));
    }
    plot.bands.push(Band {
        name: say.next_lies.to_owned(),
        edges: band,
    });
    plot.lines.push(Line {
        name: say.by_log.to_owned(),
        points: best,
        stroke: Stroke::Solid,
    });
    plot.lines.push(Line {
        name: say.no_loss.to_owned(),
        points: straight,
        stroke: Stroke::Dotted,
    });
    let dots = |places: &[usize], named: bool| {
        let of = |at: &usize| {
            let noted = lesson.noted.get(*at)?;
            Some(Dot {
                x: metered(noted.entry.x),
                y: libm::exp2(noted.entry.y),
                name: named.then(|| noted.id.to_string()),
            })
        };
        places.iter().filter_map(of).collect::<Vec<_>>()
    };
    for (name, points, shape) in [
        (say.judged, dots(&lesson.fit.used, false), Shape::Ring),
        (say.aside, dots(&lesson.fit.aside, true), Shape::Cross),
    ] {
        if !points.is_empty() {
            plot.dots.push(Dots {
                name: name.to_owned(),
                points,
                shape,
            });
        }
    }
    Some(Plotted {
        svg: plot.svg(None)?,
        title: plot.title,
    })
}

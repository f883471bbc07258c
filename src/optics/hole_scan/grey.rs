//! A picture in grey, and its bright places.

/// Levels of a picture, row by row from the top left; any unit, more is lighter.
#[derive(Debug, Clone, PartialEq)]
pub struct Grey {
    pub(super) width: usize,
    pub(super) levels: Vec<f32>,
}

impl Grey {
    /// A picture of rows of `width` levels; nothing where they do not fill whole rows or there are none.
    pub fn new(width: usize, levels: Vec<f32>) -> Option<Self> {
        let whole = width > 0 && !levels.is_empty() && levels.len().is_multiple_of(width);
        whole.then_some(Self { width, levels })
    }

    pub(super) fn height(&self) -> usize {
        self.levels.len() / self.width
    }

    /// Zero outside.
    pub(super) fn at(&self, x: usize, y: usize) -> f32 {
        if x >= self.width {
            return 0.0;
        }
        self.levels.get(y * self.width + x).copied().unwrap_or(0.0)
    }

    /// The same, each pixel the binomial mean of the nine about it, edges repeated: noise falls to three eighths, and what
    /// has hard edges gets slopes that a level can be found on. It moves the edge of a disc of radius R pixels inwards
    /// by about `1/(2R)` of one.
    pub(super) fn softened(&self) -> Self {
        let height = self.height();
        let mean = |x: usize, y: usize| {
            let across = [x.saturating_sub(1), x, (x + 1).min(self.width - 1)];
            let down = [y.saturating_sub(1), y, (y + 1).min(height - 1)];
            let mut sum = 0.0;
            for (j, weight_y) in down.iter().zip([1.0, 2.0, 1.0]) {
                for (i, weight_x) in across.iter().zip([1.0, 2.0, 1.0]) {
                    sum += weight_x * weight_y * self.at(*i, *j);
                }
            }
            sum / 16.0
        };
        let levels = (0..height)
            .flat_map(|y| (0..self.width).map(move |x| (x, y)))
            .map(|(x, y)| mean(x, y))
            .collect();
        Self {
            width: self.width,
            levels,
        }
    }
}

/// A place of the picture.
pub(super) type Place = (usize, usize);

pub(super) fn bright_places(picture: &Grey, level: f32) -> Vec<Vec<Place>> {
    let mut seen = vec![false; picture.levels.len()];
    let mut places = Vec::new();
    for start in 0..picture.levels.len() {
        let (x, y) = (start % picture.width, start / picture.width);
        let mut place = Vec::new();
        let mut open = vec![(x, y)];
        while let Some((x, y)) = open.pop() {
            let Some(mark) = seen.get_mut(y * picture.width + x).filter(|seen| !**seen) else {
                continue;
            };
            if picture.at(x, y) <= level {
                continue;
            }
            *mark = true;
            place.push((x, y));
            open.extend(x.checked_sub(1).map(|x| (x, y)));
            open.extend(y.checked_sub(1).map(|y| (x, y)));
            open.extend((x + 1 < picture.width).then_some((x + 1, y)));
            open.extend((y + 1 < picture.height()).then_some((x, y + 1)));
        }
        if !place.is_empty() {
            places.push(place);
        }
    }
    places
}

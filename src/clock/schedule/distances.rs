//! The longest paths between all tasks, kept up to date as gaps are added.

/// No path. Far from overflow when two are added.
const NONE: i64 = i64::MIN / 4;

/// `at(a, b)` is the least that `b` must start after `a`. Node 0 is the beginning, the last node the end.
#[derive(Debug, Clone)]
pub(super) struct Distances {
    count: usize,
    cells: Vec<i64>,
}

impl Distances {
    pub(super) fn new(count: usize) -> Self {
        let mut all = Self {
            count,
            cells: vec![NONE; count * count],
        };
        for node in 0..count {
            all.set(node, node, 0);
        }
        all
    }

    pub(super) fn at(&self, from: usize, to: usize) -> i64 {
        self.cells.get(from * self.count + to).copied().unwrap_or(NONE)
    }

    fn set(&mut self, from: usize, to: usize, value: i64) {
        if let Some(cell) = self.cells.get_mut(from * self.count + to) {
            *cell = value;
        }
    }

    /// Adds a gap. Whether the gaps can still all be kept.
    pub(super) fn add(&mut self, from: usize, to: usize, at_least: i64) -> bool {
        if self.at(from, to) >= at_least {
            return true;
        }
        if self.at(to, from) > NONE && self.at(to, from) + at_least > 0 {
            return false;
        }
        let count = self.count;
        let into: Vec<i64> = (0..count).map(|a| self.at(a, from)).collect();
        let out: Vec<i64> = (0..count).map(|b| self.at(to, b)).collect();
        for (row, before) in self.cells.chunks_mut(count).zip(into) {
            if before <= NONE {
                continue;
            }
            let reach = before + at_least;
            for (cell, after) in row.iter_mut().zip(&out) {
                if *after > NONE {
                    *cell = (*cell).max(reach + after);
                }
            }
        }
        true
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn paths_add_up_and_circles_are_refused() {
        let mut d = Distances::new(4);
        assert!(d.add(0, 1, 5) && d.add(1, 2, 7));
        assert_eq!(d.at(0, 2), 12);
        assert!(d.add(2, 0, -12));
        assert!(!d.add(2, 0, -11));
        assert!(d.at(0, 3) <= NONE);
    }
}

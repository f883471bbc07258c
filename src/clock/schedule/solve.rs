//! Branch and bound: where tasks clash, try each order.

use super::distances::Distances;
use super::problem::{Problem, ScheduleError};

/// How much work to do at most: nodes of a problem of some thirty tasks, about a second. Source: own choice.
pub const BUDGET: usize = 20_000;

/// A timetable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Schedule {
    /// When each task starts, in milliseconds.
    pub starts: Vec<i64>,
    /// When the last one ends.
    pub end: i64,
    /// No timetable can end before this; equal to `end` where the timetable is proven best.
    pub bound: i64,
}

impl Schedule {
    /// Whether it is proven that no timetable ends earlier.
    pub fn is_best(&self) -> bool {
        self.bound >= self.end
    }
}

/// Finds the shortest timetable, visiting at most `budget` nodes; a node with many tasks counts for more.
///
/// Every task starts as early as its gaps allow; where tasks then use a thing that is not there often enough, one of them must
/// come before another, and each such order is tried, the most promising first. Orders that would miss the best end found so
/// far are dropped, and orders that are left over are taken. Exact when the search ends within its budget. Source: De Reyck and
/// Herroelen 1998, A branch-and-bound procedure for the resource-constrained project scheduling problem with generalized
/// precedence relations, European J. Operational Research 111, 152 (title from memory, unverified).
pub fn solve(problem: &Problem, budget: usize) -> Result<Schedule, ScheduleError> {
    problem.check()?;
    let sink = problem.tasks.len() + 1;
    let mut root = Distances::new(sink + 1);
    let mut possible = true;
    for (at, task) in problem.tasks.iter().enumerate() {
        possible &= root.add(0, at + 1, 0) && root.add(at + 1, sink, task.length);
    }
    for gap in &problem.gaps {
        possible &= root.add(gap.from + 1, gap.to + 1, gap.at_least);
    }
    if !possible {
        return Err(ScheduleError::Impossible);
    }
    let mut search = Search {
        problem,
        sink,
        rivals: rivals(problem),
        best: None,
        left: budget,
    };
    let bound = search.settle(&mut root).then(|| root.at(0, sink));
    let Some(bound) = bound else {
        return Err(ScheduleError::Impossible);
    };
    let finished = search.visit(root);
    match search.best {
        Some((end, starts)) => Ok(Schedule {
            starts,
            end,
            bound: if finished { end } else { bound },
        }),
        None if finished => Err(ScheduleError::Impossible),
        None => Err(ScheduleError::NotFound),
    }
}

/// Pairs of tasks that can never run at once, since there is one only of a thing that both use.
fn rivals(problem: &Problem) -> Vec<(usize, usize)> {
    let single: Vec<usize> = problem
        .capacities
        .iter()
        .enumerate()
        .filter(|(_, count)| **count == 1)
        .map(|(thing, _)| thing)
        .collect();
    let mut pairs = Vec::new();
    for (a, task) in problem.tasks.iter().enumerate() {
        for (b, other) in problem.tasks.iter().enumerate().skip(a + 1) {
            let shares = |thing: &usize| task.uses.contains(thing) && other.uses.contains(thing);
            if task.length > 0 && other.length > 0 && single.iter().any(shares) {
                pairs.push((a, b));
            }
        }
    }
    pairs
}

struct Search<'a> {
    problem: &'a Problem,
    sink: usize,
    rivals: Vec<(usize, usize)>,
    best: Option<(i64, Vec<i64>)>,
    left: usize,
}

impl Search<'_> {
    fn length(&self, task: usize) -> i64 {
        self.problem.tasks.get(task).map_or(0, |task| task.length)
    }

    /// Takes the orders that are left over: of two rivals, the one order that the other's gaps rule out.
    fn settle(&self, distances: &mut Distances) -> bool {
        if let Some((end, _)) = &self.best
            && !distances.add(self.sink, 0, 1 - *end)
        {
            return false;
        }
        let mut again = true;
        while again {
            again = false;
            for &(a, b) in &self.rivals {
                let (forth, back) = (distances.at(a + 1, b + 1), distances.at(b + 1, a + 1));
                let (length_a, length_b) = (self.length(a), self.length(b));
                if forth >= length_a || back >= length_b {
                    continue;
                }
                let (a_first, b_first) = (back + length_a <= 0, forth + length_b <= 0);
                let kept = match (a_first, b_first) {
                    (true, true) => continue,
                    (true, false) => distances.add(a + 1, b + 1, length_a),
                    (false, true) => distances.add(b + 1, a + 1, length_b),
                    (false, false) => false,
                };
                if !kept {
                    return false;
                }
                again = true;
            }
        }
        true
    }

    /// Whether the whole subtree was searched.
    fn visit(&mut self, mut distances: Distances) -> bool {
        let Some(left) = self.left.checked_sub(1 + self.sink * self.sink / 2000) else {
            self.left = 0;
            return false;
        };
        self.left = left;
        if !self.settle(&mut distances) {
            return true;
        }
        let starts: Vec<i64> = (1..self.sink).map(|node| distances.at(0, node)).collect();
        let conflicts = self.problem.conflicts(&starts);
        let Some(orders) = self.choose(&distances, &conflicts) else {
            let end = self.problem.end(&starts);
            if self.best.as_ref().is_none_or(|(best, _)| end < *best) {
                self.best = Some((end, starts));
            }
            return true;
        };
        let mut finished = true;
        for (_, before, after) in orders {
            let mut child = distances.clone();
            if child.add(before + 1, after + 1, self.length(before)) {
                finished &= self.visit(child);
            }
        }
        finished
    }

    /// The clash whose orders push the end furthest, with its orders, most promising first; nothing without a clash.
    fn choose(
        &self,
        distances: &Distances,
        conflicts: &[(usize, Vec<usize>)],
    ) -> Option<Vec<(i64, usize, usize)>> {
        conflicts
            .iter()
            .map(|(thing, tasks)| {
                let capacity = self.problem.capacities.get(*thing).copied().unwrap_or(0) as usize;
                let mut orders = Vec::new();
                for &before in tasks.iter().take(capacity + 1) {
                    for &after in tasks.iter().take(capacity + 1) {
                        if before != after {
                            let start = distances.at(0, before + 1) + self.length(before);
                            let end = start + distances.at(after + 1, self.sink);
                            orders.push((end.max(distances.at(0, self.sink)), before, after));
                        }
                    }
                }
                orders.sort_unstable();
                orders
            })
            .reduce(|best, other| {
                let least = |orders: &[(i64, usize, usize)]| orders.first().map(|order| order.0);
                let most = |orders: &[(i64, usize, usize)]| orders.last().map(|order| order.0);
                let better = (least(&other), most(&other)) > (least(&best), most(&best));
                if better { other } else { best }
            })
    }
}

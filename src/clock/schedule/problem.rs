//! Tasks, gaps and what they share.

use std::fmt;

/// A task. Times are whole milliseconds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Task {
    /// How long it takes, zero or more.
    pub length: i64,
    /// What it holds while it runs: places in [`Problem::capacities`], one unit of each.
    pub uses: Vec<usize>,
}

/// The shortest gap between the starts of two tasks: `start(to) >= start(from) + at_least`.
///
/// A negative gap between `b` and `a` is a longest gap between `a` and `b`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Gap {
    /// The task that the gap is measured from.
    pub from: usize,
    /// The task that the gap is measured to.
    pub to: usize,
    /// In milliseconds.
    pub at_least: i64,
}

/// Tasks with gaps and shared things; the aim is the earliest end of all.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Problem {
    /// The tasks.
    pub tasks: Vec<Task>,
    /// The gaps.
    pub gaps: Vec<Gap>,
    /// How many there are of each thing.
    pub capacities: Vec<u32>,
}

/// Why there is no timetable.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ScheduleError {
    /// Nothing to do.
    Empty,
    /// A task uses or follows something that does not exist, takes less than no time, or needs a thing of which there is none.
    Shape(String),
    /// The gaps contradict each other, whatever the order.
    Impossible,
    /// None was found within the budget.
    NotFound,
}

impl fmt::Display for ScheduleError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => write!(out, "there is nothing to do"),
            Self::Shape(what) => write!(out, "{what}"),
            Self::Impossible => write!(out, "no timetable keeps all the times"),
            Self::NotFound => write!(out, "no timetable was found in the time allowed"),
        }
    }
}

impl std::error::Error for ScheduleError {}

impl Problem {
    /// Whether starts keep every gap and never use more of a thing than there is.
    pub fn holds(&self, starts: &[i64]) -> bool {
        let start = |task: usize| starts.get(task).copied();
        let gaps = self
            .gaps
            .iter()
            .all(|gap| match (start(gap.from), start(gap.to)) {
                (Some(from), Some(to)) => to >= from + gap.at_least,
                _ => false,
            });
        starts.len() == self.tasks.len()
            && starts.iter().all(|start| *start >= 0)
            && gaps
            && self.overfull(starts).is_none()
    }

    /// The last end.
    pub fn end(&self, starts: &[i64]) -> i64 {
        let ends = self
            .tasks
            .iter()
            .zip(starts)
            .map(|(task, start)| start + task.length);
        ends.max().unwrap_or(0)
    }

    /// The first moment at which a thing is used too often, as the thing and the tasks.
    pub(super) fn overfull(&self, starts: &[i64]) -> Option<(usize, Vec<usize>)> {
        self.conflicts(starts).into_iter().next()
    }

    /// Every set of tasks that use a thing at once although there are too few of it: one set for each task's start.
    pub(super) fn conflicts(&self, starts: &[i64]) -> Vec<(usize, Vec<usize>)> {
        let mut found: Vec<(i64, usize, Vec<usize>)> = Vec::new();
        for (thing, capacity) in self.capacities.iter().enumerate() {
            let users: Vec<(usize, i64, i64)> = self
                .tasks
                .iter()
                .zip(starts)
                .enumerate()
                .filter(|(_, (task, _))| task.length > 0 && task.uses.contains(&thing))
                .map(|(at, (task, start))| (at, *start, start + task.length))
                .collect();
            for &(_, moment, _) in &users {
                let running: Vec<usize> = users
                    .iter()
                    .filter(|(_, start, end)| *start <= moment && moment < *end)
                    .map(|(at, _, _)| *at)
                    .collect();
                if running.len() > *capacity as usize {
                    found.push((moment, thing, running));
                }
            }
        }
        found.sort();
        found.dedup_by(|a, b| a.1 == b.1 && a.2 == b.2);
        found
            .into_iter()
            .map(|(_, thing, tasks)| (thing, tasks))
            .collect()
    }

    pub(super) fn check(&self) -> Result<(), ScheduleError> {
        if self.tasks.is_empty() {
            return Err(ScheduleError::Empty);
        }
        for task in &self.tasks {
            if task.length < 0 {
                return Err(ScheduleError::Shape("a task takes less than no time".to_owned()));
            }
            if task
                .uses
                .iter()
                .any(|thing| self.capacities.get(*thing).is_none_or(|c| *c == 0))
            {
                return Err(ScheduleError::Shape(
                    "a task needs a thing of which there is none".to_owned(),
                ));
            }
        }
        let known = |task: usize| task < self.tasks.len();
        if self.gaps.iter().any(|gap| !known(gap.from) || !known(gap.to)) {
            return Err(ScheduleError::Shape("a gap leads to no task".to_owned()));
        }
        Ok(())
    }
}

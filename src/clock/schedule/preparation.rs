//! Preparing several baths at once: which step when.

use crate::units::scalar::Time;

use super::problem::{Gap, Problem, ScheduleError, Task};
use super::solve::solve;
use super::tray_line::{from_milliseconds, milliseconds};

/// A step of a preparation.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// How long it takes. Steeping, cooling, settling and washing take time but no hands.
    pub length: Time,
    /// The steps that must be done before it, each with the longest wait after its end, if there is one.
    pub after: Vec<(usize, Option<Time>)>,
    /// What it uses: places in [`Preparation::things`].
    pub uses: Vec<usize>,
}

/// Steps that share hands, kettles and baths.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Preparation {
    /// The steps.
    pub steps: Vec<Step>,
    /// How many there are of each thing.
    pub things: Vec<u32>,
}

impl Preparation {
    /// The shortest timetable: the start of each step, the end, and the bound below which no timetable can end.
    ///
    /// Times are rounded to milliseconds. Subtract the end from a ready time to know when to begin.
    pub fn timetable(&self, budget: usize) -> Result<(Vec<Time>, Time, Time), ScheduleError> {
        let found = solve(&self.problem()?, budget)?;
        let starts = found
            .starts
            .iter()
            .map(|start| from_milliseconds(*start))
            .collect();
        Ok((
            starts,
            from_milliseconds(found.end),
            from_milliseconds(found.bound),
        ))
    }

    /// Whether starts keep every rule.
    pub fn holds(&self, starts: &[Time]) -> bool {
        let starts: Vec<i64> = starts.iter().map(|start| milliseconds(*start)).collect();
        self.problem().is_ok_and(|problem| problem.holds(&starts))
    }

    fn problem(&self) -> Result<Problem, ScheduleError> {
        let amiss = |time: Time| !time.is_finite() || time < Time::ZERO;
        let mut problem = Problem {
            capacities: self.things.clone(),
            ..Problem::default()
        };
        for (to, step) in self.steps.iter().enumerate() {
            if amiss(step.length) || step.after.iter().any(|(_, wait)| wait.is_some_and(amiss)) {
                return Err(ScheduleError::Shape("a time is below zero".to_owned()));
            }
            problem.tasks.push(Task {
                length: milliseconds(step.length),
                uses: step.uses.clone(),
            });
            for (from, wait) in &step.after {
                let Some(before) = self.steps.get(*from) else {
                    return Err(ScheduleError::Shape("a step follows none that exists".to_owned()));
                };
                let length = milliseconds(before.length);
                problem.gaps.push(Gap {
                    from: *from,
                    to,
                    at_least: length,
                });
                if let Some(wait) = wait {
                    problem.gaps.push(Gap {
                        from: to,
                        to: *from,
                        at_least: -(length + milliseconds(*wait)),
                    });
                }
            }
        }
        Ok(problem)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(minutes: f64, after: &[usize], uses: &[usize]) -> Step {
        Step {
            length: Time::from_minutes(minutes),
            after: after.iter().map(|a| (*a, None)).collect(),
            uses: uses.to_vec(),
        }
    }

    #[test]
    fn one_kettle_boils_twice_in_a_row() {
        let tea = Preparation {
            steps: vec![step(6.0, &[], &[0]), step(6.0, &[], &[0]), step(20.0, &[0], &[])],
            things: vec![1],
        };
        let (starts, end, bound) = tea.timetable(1000).unwrap();
        assert_eq!((end.minutes(), bound), (26.0, end));
        assert!(tea.holds(&starts));
    }

    #[test]
    fn circles_and_strangers_are_refused() {
        let circle = Preparation {
            steps: vec![step(1.0, &[1], &[]), step(1.0, &[0], &[])],
            things: vec![],
        };
        assert_eq!(circle.timetable(100), Err(ScheduleError::Impossible));
        let stranger = Preparation {
            steps: vec![step(1.0, &[7], &[])],
            things: vec![],
        };
        assert!(matches!(stranger.timetable(100), Err(ScheduleError::Shape(_))));
        assert_eq!(Preparation::default().timetable(100), Err(ScheduleError::Empty));
    }
}

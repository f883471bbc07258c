//! Sheets through the trays with so many pairs of hands.

use crate::units::scalar::Time;

use super::problem::{Gap, Problem, ScheduleError, Task};
use super::solve::solve;

/// A tray that every sheet goes through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stage {
    /// The shortest stay, from the end of the move in to the start of the move out.
    pub stay: Time,
    /// How much longer it may stay; nothing for as long as one likes.
    pub slack: Option<Time>,
    /// How many sheets it holds at once.
    pub places: u32,
    /// How long a sheet is held to drain when it leaves; holds hands and sheet.
    pub drain: Time,
}

/// Equal sheets through the same trays.
#[derive(Debug, Clone, PartialEq)]
pub struct TrayLine {
    /// How many sheets.
    pub sheets: u32,
    /// How long a move from one tray to the next takes.
    pub move_time: Time,
    /// Pairs of hands.
    pub hands: u32,
    /// The trays, in order.
    pub stages: Vec<Stage>,
}

/// When each sheet is moved.
#[derive(Debug, Clone, PartialEq)]
pub struct TrayTimes {
    /// For each sheet the starts of its moves: from the safe into the first tray, on, and out of the last one.
    pub moves: Vec<Vec<Time>>,
    /// The end of the last move.
    pub end: Time,
    /// No timetable can end before this.
    pub bound: Time,
}

impl TrayTimes {
    /// Whether it is proven that no timetable ends earlier.
    pub fn is_best(&self) -> bool {
        self.bound >= self.end
    }
}

impl TrayLine {
    /// The shortest timetable, visiting at most `budget` nodes of the search.
    ///
    /// Sheets keep their order, which costs nothing since they are equal. A place is free from the start of the move out, so the
    /// next sheet may arrive at that instant. Times are rounded to milliseconds.
    pub fn timetable(&self, budget: usize) -> Result<TrayTimes, ScheduleError> {
        let problem = self.problem()?;
        let found = solve(&problem, budget)?;
        let moves = found
            .starts
            .chunks(self.stages.len() + 1)
            .map(|sheet| sheet.iter().map(|start| from_milliseconds(*start)).collect())
            .collect();
        Ok(TrayTimes {
            moves,
            end: from_milliseconds(found.end),
            bound: from_milliseconds(found.bound),
        })
    }

    /// Whether moves keep every rule of the line.
    pub fn holds(&self, moves: &[Vec<Time>]) -> bool {
        let starts: Vec<i64> = moves.iter().flatten().map(|start| milliseconds(*start)).collect();
        self.problem().is_ok_and(|problem| problem.holds(&starts))
    }

    fn problem(&self) -> Result<Problem, ScheduleError> {
        if self.sheets == 0 || self.stages.is_empty() {
            return Err(ScheduleError::Empty);
        }
        if self.hands == 0 || self.stages.iter().any(|stage| stage.places == 0) {
            return Err(ScheduleError::Shape(
                "a tray holds no sheet or no hands move it".to_owned(),
            ));
        }
        let amiss = |time: Time| !time.is_finite() || time < Time::ZERO;
        let amiss_stage =
            |stage: &Stage| amiss(stage.stay) || amiss(stage.drain) || stage.slack.is_some_and(amiss);
        if amiss(self.move_time) || self.stages.iter().any(amiss_stage) {
            return Err(ScheduleError::Shape("a time is below zero".to_owned()));
        }
        let moves = self.stages.len() + 1;
        let id = |sheet: usize, step: usize| sheet * moves + step;
        let mut problem = Problem {
            capacities: vec![self.hands],
            ..Problem::default()
        };
        for sheet in 0..self.sheets as usize {
            // The first move takes a sheet from the safe and drains nothing.
            let drains = std::iter::once(Time::ZERO).chain(self.stages.iter().map(|stage| stage.drain));
            for drain in drains {
                problem.tasks.push(Task {
                    length: milliseconds(self.move_time + drain),
                    uses: vec![0],
                });
            }
            for (at, stage) in self.stages.iter().enumerate() {
                let arrival = problem.tasks.get(id(sheet, at)).map_or(0, |task| task.length);
                let (from, to) = (id(sheet, at), id(sheet, at + 1));
                let at_least = arrival + milliseconds(stage.stay);
                problem.gaps.push(Gap { from, to, at_least });
                if let Some(slack) = stage.slack {
                    problem.gaps.push(Gap {
                        from: to,
                        to: from,
                        at_least: -(at_least + milliseconds(slack)),
                    });
                }
                if let Some(before) = sheet.checked_sub(stage.places as usize) {
                    problem.gaps.push(Gap {
                        from: id(before, at + 1),
                        to: from,
                        at_least: -arrival,
                    });
                }
            }
            if let Some(before) = sheet.checked_sub(1) {
                // With one pair of hands the moves of two sheets cannot overlap; with more they may start together.
                for step in 0..moves {
                    let length = problem.tasks.get(id(before, step)).map_or(0, |task| task.length);
                    problem.gaps.push(Gap {
                        from: id(before, step),
                        to: id(sheet, step),
                        at_least: if self.hands == 1 { length } else { 0 },
                    });
                }
            }
        }
        Ok(problem)
    }
}

pub(super) fn milliseconds(time: Time) -> i64 {
    (time.seconds() * 1000.0).round() as i64
}

pub(super) fn from_milliseconds(time: i64) -> Time {
    Time::from_seconds(time as f64 / 1000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seconds(value: f64) -> Time {
        Time::from_seconds(value)
    }

    fn stage(stay: f64, slack: Option<f64>, places: u32) -> Stage {
        Stage {
            stay: seconds(stay),
            slack: slack.map(seconds),
            places,
            drain: Time::ZERO,
        }
    }

    #[test]
    fn small_lines_reach_their_proven_optimum() {
        // Optima proved by a constraint solver (OR-tools 9.15, CP-SAT).
        let one = TrayLine {
            sheets: 4,
            move_time: seconds(10.0),
            hands: 1,
            stages: vec![
                stage(120.0, Some(0.0), 1),
                stage(30.0, Some(30.0), 1),
                stage(60.0, Some(60.0), 1),
            ],
        };
        let three = TrayLine {
            sheets: 5,
            move_time: seconds(15.0),
            hands: 1,
            stages: vec![
                stage(90.0, Some(10.0), 1),
                stage(20.0, Some(10.0), 1),
                stage(300.0, None, 3),
            ],
        };
        let two = TrayLine {
            sheets: 6,
            move_time: seconds(8.0),
            hands: 1,
            stages: vec![
                stage(180.0, Some(0.0), 2),
                stage(30.0, None, 1),
                stage(120.0, Some(60.0), 2),
                stage(120.0, None, 2),
                stage(240.0, None, 6),
            ],
        };
        for (line, end) in [(one, 610.0), (three, 860.0), (two, 1128.0)] {
            let found = line.timetable(super::super::BUDGET).unwrap();
            assert_eq!(found.end.seconds(), end);
            assert!(
                found.is_best(),
                "{} {}",
                found.end.seconds(),
                found.bound.seconds()
            );
            assert!(line.holds(&found.moves));
        }
    }

    #[test]
    fn a_second_pair_of_hands_never_hurts() {
        let mut line = TrayLine {
            sheets: 3,
            move_time: seconds(10.0),
            hands: 1,
            stages: vec![stage(30.0, Some(5.0), 2), stage(30.0, Some(5.0), 2)],
        };
        let one = line.timetable(10_000).unwrap();
        line.hands = 2;
        let two = line.timetable(10_000).unwrap();
        assert!(two.end <= one.end && line.holds(&two.moves));
        line.stages.clear();
        assert_eq!(line.timetable(10), Err(ScheduleError::Empty));
    }
}

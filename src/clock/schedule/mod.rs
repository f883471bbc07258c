//! Timetables that cannot be beaten: sheets through the trays, and preparing several baths at once.
//!
//! [`TrayLine`] and [`Preparation`] both become a [`Problem`]: tasks of known length, shortest and longest gaps between their
//! starts, and things of which there are only so many. [`solve()`] finds the shortest timetable and proves it, within a budget.

mod distances;
mod preparation;
mod problem;
mod solve;
mod tray_line;

pub use preparation::{Preparation, Step};
pub use problem::{Gap, Problem, ScheduleError, Task};
pub use solve::{BUDGET, Schedule, solve};
pub use tray_line::{Stage, TrayLine, TrayTimes};

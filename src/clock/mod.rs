//! Time in the darkroom: development against temperature, cooling, timetables.

pub mod cooling;
pub mod development;
pub mod fixing;
pub mod schedule;
pub mod temperature;

//! Time in the darkroom: development against temperature, cooling, timetables.

pub mod temperature;

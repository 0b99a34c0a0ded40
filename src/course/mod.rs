//! The course: what is taught, asked and practised. Pure, and seeded where it draws.

pub mod practice;
pub mod timetable;

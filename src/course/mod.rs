//! The course: what is taught, practised and asked. Pure, and seeded where it draws.

mod dice;
pub mod practice;
pub mod skills;
pub mod timetable;

//! What stands beside what, and how far apart: columns, their springs, and line breaks.

pub mod columns;
pub mod line_breaks;
pub mod signatures;
pub mod springs;
pub mod ties;

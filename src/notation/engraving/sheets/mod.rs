//! Systems put together, and the sheets they stand on.

pub mod focus;
pub mod practice_sheet;
pub mod scroll;
pub mod sheet;
pub mod system;

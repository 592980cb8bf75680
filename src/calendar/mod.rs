//! When: how long what was practised holds, what the practice of a day is, and what is due.
//!
//! Pure, and without knowledge of the journal or the coach: what they know comes in as plain values. [`half_life`] is the
//! unknown on a grid; a [`Trace`] holds what cold tries have told about one snippet, a [`Player`] what all of them tell
//! together, and a [`Retention`] what follows from both for later moments. [`day`] tells a player's days apart,
//! [`likeness`] which passages disturb each other, and [`plan`] puts the blocks of a sitting in order. [`returns`] are the
//! days to come back on before a date, a [`Forecast`] says whether it will be met, and
//! [`turns`] how often each comes back.

pub mod chance;
pub mod day;
mod draw;
pub mod forecast;
pub mod half_life;
pub mod likeness;
pub mod plan;
pub mod player;
pub mod retention;
pub mod returns;
pub mod trace;
pub mod turns;

pub use chance::{Band, Chance};
pub use forecast::Forecast;
pub use player::Player;
pub use retention::Retention;
pub use trace::{ColdTry, Trace};

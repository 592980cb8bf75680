//! What is on the agenda: what to do next today and in a rest, when a block is over, what can be taken back.
//!
//! Every function here asks the state of the journal at a moment; the answer says what to write.

pub mod coaches;
pub mod ending;
mod gain;
pub mod outlook;
pub mod plan;
pub mod practice;
pub mod rest;
pub mod today;
pub mod undo;

pub use coaches::{Coaches, Followed};
pub use outlook::Outlook;
pub use plan::DayPlan;
pub use practice::{Rest, Shown};
pub use today::Today;

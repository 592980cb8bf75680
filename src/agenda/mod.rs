//! What is on the agenda: what to do next today and in a rest, when a block is over, what can be taken back.
//!
//! Everything here is a question to the state of the journal at a moment; what is to be written follows
//! from the answer.

pub mod ending;
pub mod undo;

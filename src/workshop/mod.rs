//! What takes longer than a frame is done beside the page, by a worker with its own small program.
//!
//! The page asks for a [`Task`]; the worker does it ([`work`]) and answers in pieces so small that the page can take
//! each in without being seen to stop. Nothing here knows a browser: messages are bytes, and large files are read and
//! written beside them.

mod answer;
mod exchange;
mod gathered;
mod task;

pub use answer::{Answer, Refusal};
pub use gathered::{Gathered, Outcome};
pub use task::{Files, Task, work};

//! Every message in English.
//!
//! Sentences on the practice screen have at most twelve words and never scold. A sentence is one message or several
//! sentences in a row, never put together from parts of one.

mod help;
mod method;
mod refusals;
mod screens;

pub use help::*;
pub use method::*;
pub use refusals::*;
pub use screens::*;

use crate::words::catalogue::Message;

/// The parts of the catalogue, each after the one that it names.
const PARTS: [&[Message]; 4] = [method::MESSAGES, help::MESSAGES, screens::MESSAGES, refusals::MESSAGES];

/// Every message, in the order of the list.
pub fn all() -> impl Iterator<Item = &'static Message> {
    PARTS.into_iter().flatten()
}

/// The message with this place in the list.
pub(super) fn nth(mut place: usize) -> &'static Message {
    for part in PARTS {
        match part.get(place) {
            Some(message) => return message,
            None => place -= part.len(),
        }
    }
    unreachable!("a message names its own place")
}

//! What is played: exact musical time, meter, tempo, notes and the passages cut from a score.

mod carried;
pub mod counted;
mod example;
pub mod locate;
pub mod marks;
pub mod meter;
pub mod musicxml;
mod notate;
pub mod pace;
pub mod passage;
pub mod pitch;
pub mod printed_page;
pub mod score;
pub mod study;
pub mod tapped;
pub mod tempo;
pub mod time;
pub mod written;

pub use counted::counted;
pub use example::example;
pub use locate::{Located, locate};
pub use marks::Marks;
pub use meter::Meter;
pub use pace::KnownTempi;
pub use passage::{Bar, Hand, Note, Onset, Passage};
pub use pitch::Pitch;
pub use printed_page::PrintedPage;
pub use score::{Part, Score};
pub use tapped::{Tap, Tapped, TappedError, quantise};
pub use tempo::{BeatUnit, Bpm, NoteValue, Tempo};
pub use time::Quarters;

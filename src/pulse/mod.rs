//! Beats and count-ins as a pure timeline, which click is handed over when, and a tempo from taps.

pub mod beats;
pub mod metronome;
pub mod round;
pub mod schedule;
pub mod tap_tempo;

pub use beats::Beat;
pub use metronome::Metronome;
pub use round::{Click, Phase, Round, Sounding};
pub use schedule::{Clicks, Schedule};
pub use tap_tempo::tapped_tempo;

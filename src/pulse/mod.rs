//! Beats and count-ins as a pure timeline, and a tempo from taps.

pub mod beats;
pub mod round;
pub mod tap_tempo;

pub use beats::Beat;
pub use round::{Click, Phase, Round, Sounding};
pub use tap_tempo::tapped_tempo;

//! The music as drawing primitives: pure layout in px, no browser.
//!
//! Refuses to know how primitives reach the screen and how a step is chosen.

pub mod drawing;
pub mod engraving;
mod glyph;

pub use drawing::{Drawing, Ink, Shape};
pub use glyph::Glyph;

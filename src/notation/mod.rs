//! The music as drawing primitives: pure layout in px, no browser.

pub mod drawing;
pub mod engraving;
mod glyph;

pub use drawing::{Drawing, Ink, Shape};
pub use glyph::Glyph;

//! Bars made ready for any system: chords with their stems, beams and accidentals, and the clefs in force.

pub mod accidentals;
pub mod articulations;
pub mod beaming;
pub mod chords;
pub mod clefs;
pub mod galley;
pub mod places;
pub mod tremolos;
pub mod voices;

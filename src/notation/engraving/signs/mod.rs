//! The signs of a system, each drawn as near to its note as what is already there allows.

pub mod articulations;
pub mod bar_numbers;
pub mod cross_staff;
pub mod dynamics;
pub mod endings;
pub mod engraver;
pub mod fermatas;
pub mod fingerings;
pub mod hairpins;
pub mod loudness;
pub mod notes;
pub mod octave_lines;
pub mod ornaments;
pub mod pedals;
pub mod signatures;
pub mod slurs;
pub mod spanners;
pub mod staff_text;
pub mod step_signs;
pub mod text_notes;
pub mod ties;
pub mod tremolos;
pub mod trills;
pub mod tuplets;

//! The measures of engraving, in staff spaces.
//!
//! Lines and beams: the `engravingDefaults` that the SMuFL specification describes, with the values of its reference
//! font. The rest as said beside it.

pub const STAFF_LINE: f32 = 0.13;
pub const STEM: f32 = 0.12;
pub const BEAM: f32 = 0.5;
pub const BEAM_GAP: f32 = 0.25;
/// From one beam's middle to the next one's.
pub const BEAM_STEP: f32 = BEAM + BEAM_GAP;
/// How far a stem reaches into its beam, so that no white is left between them: common practice, no source.
pub const STEM_INTO_BEAM: f32 = 0.1;
pub const LEDGER: f32 = 0.16;
pub const LEDGER_OUT: f32 = 0.4;
pub const THIN: f32 = 0.16;
pub const THICK: f32 = 0.5;
pub const BETWEEN_BARLINES: f32 = 0.4;
pub const HAIRPIN: f32 = 0.16;
pub const BRACKET: f32 = 0.16;
pub const CURVE_MIDDLE: f32 = 0.22;

/// From the top line to the bottom line.
pub const STAFF: f32 = 4.0;
/// From the top line to the middle line.
pub const MIDDLE_LINE: f32 = 2.0;
/// From the middle of a head to where its stem begins (0.168 at `stemUpSE` of SMuFL's reference font, from memory).
pub const STEM_FOOT: f32 = 0.16;
/// How wide and high an augmentation dot is (SMuFL's `augmentationDot`, from memory).
pub const AUGMENTATION_DOT: f32 = 0.4;
/// An octave: the stem of a single note (Ross 1970; Gould 2011, "Stems"; both from memory).
pub const STEM_LENGTH: f32 = 3.5;
/// The shortest that a stem is made under a beam or where it points away from the staff (Gould 2011, from
/// memory).
pub const STEM_SHORTEST: f32 = 2.5;
/// Steepest beam, as rise over run, and its greatest rise (Ross 1970 slants no beam by more than a space and
/// a quarter, from memory; the angle is common practice, no source).
pub const BEAM_SLOPE: f32 = 0.25;
pub const BEAM_RISE: f32 = 1.25;
/// What a quarter's space is where nothing presses; each doubling of a value widens it by the square
/// root of two: 7, 5, 3.5, 2.5 for whole to eighth (Gould 2011, "Spacing symbols", from memory).
pub const QUARTER_SPACE: f32 = 3.5;
/// A grace note's size (Gould 2011: between three fifths and three quarters, from memory).
pub const GRACE: f32 = 0.65;
/// A cue note's size: what another player, or here the resting hand, has to do (Gould 2011, "Cues": about three
/// quarters, from memory; 0.6 to 0.75 is common practice).
pub const CUE: f32 = 0.7;
/// Widest that a character of text is, as part of its size: common practice, no source.
pub const CHARACTER: f32 = 0.62;
/// How high the digits and capitals of a text are, as part of its size: common practice, no source.
pub const TEXT_HEIGHT: f32 = 0.76;
/// Too little to be seen, and enough that rounding does not make two edges one.
pub const HAIR: f32 = 0.001;

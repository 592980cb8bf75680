//! Engraving: written bars as drawing primitives.
//!
//! Inside, lengths are staff spaces; out come px. The rooms stand in the order in which music is set, and each uses only
//! those before it: bars are prepared ([`prepared`]), put into columns and lines ([`spaced`]), signs are drawn
//! ([`signs`]), and systems are put on a sheet ([`sheets`]). Rules are those of the published literature and named where
//! they stand: Ross 1970, "The Art of Music Engraving and Processing"; Gould 2011, "Behind Bars"; Gourlay 1986, "Spacing
//! a Line of Music"; the SMuFL specification.

mod curves;
mod metrics;
mod pen;
mod prepared;
mod sheets;
mod signs;
mod spaced;

pub use sheets::focus::Focus;
pub use sheets::practice_sheet::{Layout, Room, StepSheet};
pub use sheets::scroll::{Scroll, ScrollSystem};
pub use sheets::sheet::{BarPlace, OnsetPlace, Sheet};
pub use signs::text_notes::beat_sign;

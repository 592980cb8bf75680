//! What is printed: notes with their shapes, rests, and the signs that a player reads.
//!
//! A score holds its music twice. [`crate::music::score::Attack`] tells what sounds and when: that is what is
//! practised. This tells what stands on the page: that is what is drawn.

mod clefs;
mod diatonic;
mod spanners;
mod staff_text;
mod value;

pub use clefs::{Clef, ClefChange, ClefSign};
pub use diatonic::Diatonic;
pub use spanners::{Anchor, Pedalling, Spanner, Spans};
pub use staff_text::{Says, StaffText};
pub use value::Value;

use crate::music::{Pitch, Quarters, passage::Articulation};

/// One bar as it is printed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct WrittenBar {
    /// The clef in force on each staff where the bar begins, the uppermost first.
    pub clefs: Vec<Clef>,
    /// Changes after the bar's begin, in order of position; one at the bar's end stands before its bar line.
    pub clef_changes: Vec<ClefChange>,
    /// How the time signature is printed where it changes.
    pub meter_sign: MeterSign,
    /// Each in order of position; what is printed in none of them is silence.
    pub voices: Vec<Voice>,
    /// Where the bar begins …
    pub opens: Barline,
    /// … and where it ends.
    pub closes: Barline,
    /// The bracket over the bar that says in which pass it is played.
    pub ending: Option<Ending>,
    /// In order of position.
    pub texts: Vec<StaffText>,
}

/// How a time signature is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum MeterSign {
    /// One figure over the other: as the meter is.
    #[default]
    Figures,
    /// C for 4/4.
    Common,
    /// C with a stroke for 2/2.
    Cut,
    /// None.
    Hidden,
}

/// A bar line, on the side of the bar that it belongs to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Barline {
    /// One thin line.
    #[default]
    Single,
    /// Two thin lines.
    Double,
    /// A thin and a thick line.
    Final,
    /// A dashed line.
    Dashed,
    /// The dots of a repeat, which is what is repeated to the right of (at a begin) or to the left of.
    Repeat,
    /// No line.
    Hidden,
}

/// The part of an ending's bracket that stands over one bar.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ending {
    /// As printed: `1.`
    pub text: String,
    /// Whether the bracket begins over this bar.
    pub begins: bool,
    /// What becomes of it at the bar's end.
    pub ends: EndingEnd,
}

/// How an ending's bracket stands at the end of a bar.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndingEnd {
    /// The bracket goes on over the next bar.
    GoesOn,
    /// It ends with a hook downward.
    Hook,
    /// It ends open.
    Open,
}

/// What one voice has in a bar. A voice may move from staff to staff.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Voice {
    /// As the file calls it; the same voice in every bar.
    pub name: String,
    /// In order of position; grace notes before their main note, in their order, at its place.
    pub events: Vec<Event>,
}

/// A note, a chord or a rest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Event {
    /// From the start of the bar.
    pub at: Quarters,
    /// How long it takes in its voice; nothing for a grace note.
    pub lasts: Quarters,
    /// The printed shape, without dots.
    pub value: Value,
    /// 0..=4.
    pub dots: u8,
    /// In the time of how many it stands: (3, 2) in a triplet.
    pub tuplet: Option<(u8, u8)>,
    /// Whether it sounds.
    pub kind: Kind,
    /// Which way the file has it point.
    pub stem: Stem,
    /// The file's own beams, from the eighth's on; empty where it has none.
    pub beams: Vec<Beam>,
    /// Present where it is a grace note.
    pub grace: Option<Grace>,
    /// Of the whole chord, each once.
    pub articulations: Vec<Articulation>,
    /// How its fermata is printed, where the file says so.
    pub fermata: Option<Fermata>,
    /// Each once.
    pub ornaments: Vec<Ornament>,
}

/// What stands at an event.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Kind {
    /// At least one, the lowest first.
    Notes(Vec<Head>),
    /// Silence.
    Rest {
        /// 1 is the uppermost.
        staff: u8,
        /// Where the file puts it, if it does.
        place: Option<Diatonic>,
        /// Fills its bar, whatever the meter.
        whole_bar: bool,
    },
}

/// One notehead.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Head {
    /// Absent where only the place is meant.
    pub pitch: Option<Pitch>,
    /// Where it is printed: that of the pitch, except for octave signs.
    pub place: Diatonic,
    /// 1 is the uppermost.
    pub staff: u8,
    /// The accidental that the file prints.
    pub accidental: Option<Accidental>,
    /// A tie ends here, a tie begins here.
    pub tied_from: bool,
    /// A tie begins here.
    pub tied_on: bool,
    /// As printed: `1`, or `3-1` for a change on the key.
    pub fingering: Option<String>,
}

/// An accidental as it is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Accidental {
    /// Semitones, -2..=2.
    pub alter: i8,
    /// In brackets: a reminder.
    pub bracketed: bool,
}

/// The direction of a stem.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stem {
    /// As the rules say.
    #[default]
    Free,
    /// Always upward.
    Up,
    /// Always downward.
    Down,
    /// Without.
    Hidden,
}

/// What one beam does at a note.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Beam {
    /// It begins.
    Begin,
    /// It goes on.
    Continue,
    /// It ends.
    End,
    /// A broken beam that points to the next or the previous note.
    HookForward,
    /// A broken beam that points to the previous note.
    HookBackward,
}

/// A note that takes no time of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Grace {
    /// With a stroke through its flag.
    pub slashed: bool,
}

/// A fermata as it is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Fermata {
    /// How long it holds.
    pub shape: FermataShape,
    /// Upright over its note or upside down under it, where the file says so.
    pub above: Option<bool>,
}

/// From the shortest hold to the longest.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FermataShape {
    /// Two angles, one in the other.
    DoubleAngled,
    /// One angle.
    Angled,
    /// The arc.
    #[default]
    Normal,
    /// Three sides of a rectangle.
    Square,
    /// Two of them, one in the other.
    DoubleSquare,
}

/// Signs that stand for notes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ornament {
    /// `tr`.
    Trill,
    /// From above, around the note.
    Turn,
    /// From below, around the note.
    InvertedTurn,
    /// The zigzag with a stroke: the note below.
    Mordent,
    /// The upper one: the short zigzag without a stroke.
    ShortTrill,
    /// Strokes through the stem, 1..=4.
    Tremolo(u8),
}

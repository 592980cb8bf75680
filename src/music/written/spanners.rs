//! What stands from one place to another.

use crate::music::Quarters;

/// A sign from one place to another. A sign that belongs to notes goes from its first note to its last, any other from
/// the first place where it holds to the first where it no longer does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Spanner {
    /// What is printed.
    pub kind: Spans,
    /// Beyond the first or last bar where a cut leaves its end outside.
    pub from: Anchor,
    /// After `from`.
    pub to: Anchor,
    /// Where the file says so.
    pub above: Option<bool>,
}

/// The kinds of spanner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Spans {
    /// A curve from note to note.
    Slur,
    /// A hairpin that opens.
    Crescendo,
    /// A hairpin that closes.
    Diminuendo,
    /// From where it is pressed to its release; where the next begins there it is changed.
    Pedal(Pedalling),
    /// An octave sign of so many octaves: 1 sounds an octave higher than printed.
    Octave(i8),
    /// A tuplet: the figure at it, and whether a bracket is printed where the file says so.
    Tuplet {
        /// Printed at its middle, at least 1.
        figure: u8,
        /// `None` where the file does not say.
        bracket: Option<bool>,
    },
    /// The wavy line of a trill, from the note it begins at to the one it ends at, which may be the same.
    Trill,
    /// Two notes that alternate, with so many strokes between them, 1..=4.
    Tremolo(u8),
}

/// How a pedal is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pedalling {
    /// `Ped.` and an asterisk.
    Signs,
    /// A line with a hook where it is released.
    Line,
    /// `Ped.`, then the line.
    SignAndLine,
}

/// Where a spanner begins or ends.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Anchor {
    /// Index among the bars; out of them where it was cut off.
    pub bar: isize,
    /// From the start of that bar.
    pub at: Quarters,
    /// 1 is the uppermost.
    pub staff: u8,
    /// Name of the voice; empty for what belongs to the staff.
    pub voice: String,
    /// How many notes it stands before the main note at this place; 0 at the main note.
    pub grace: u8,
}

//! What was mended or left out on the way in, in plain words.

/// One kind of change, where it was first made and how often.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    /// What was changed.
    pub change: Mend,
    /// Number of the first bar concerned, as printed.
    pub bar: String,
    /// In how many places, at least one.
    pub places: usize,
}

/// The kinds of change between the file and the score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[expect(missing_docs, reason = "`words/errors.rs` has the sentence of each")]
pub enum Mend {
    // Mended.
    Divisions,
    Rounded,
    NoLength,
    Overfull,
    LooseTie,
    LooseGrace,
    OddPitch,
    NoPitch,
    NoAlter,
    NoMeter,
    OddKey,
    FarKey,
    TwoKeys,
    InsideBar,
    StaffLines,
    OddValue,
    LooseSlur,
    LooseTuplet,
    LooseSign,
    LooseOrnament,
    Crowded,
    LongBar,
    // Kept as written, where one could expect otherwise.
    Transposing,
    RepeatsOnce,
    // Left out.
    Cues,
    Hidden,
    Lyrics,
    OtherOrnaments,
    OtherArticulations,
    OddAccidental,
    OtherFermatas,
    Noteheads,
    OtherPedals,
    OtherSigns,
    OtherTempi,
    Abbreviations,
    ChordSymbols,
    Tablature,
}

/// Collects changes, each kind once, in the order they were first made.
#[derive(Default)]
pub(super) struct Mending {
    made: Vec<Mended>,
}

impl Mending {
    pub(super) fn say(&mut self, bar: &str, change: Mend) {
        match self.made.iter_mut().find(|mended| mended.change == change) {
            Some(mended) => mended.places += 1,
            None => self.made.push(Mended { change, bar: bar.into(), places: 1 }),
        }
    }

    pub(super) fn finish(self) -> Vec<Mended> {
        self.made
    }
}

//! What was mended or left out on the way in, in plain words.

use std::fmt;

/// One kind of change, where it was first made and how often.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mended {
    pub change: Change,
    /// Number of the first bar concerned, as printed.
    pub bar: String,
    /// In how many places, at least one.
    pub places: usize,
}

/// The kinds of change between the file and the score.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Change {
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

impl fmt::Display for Change {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            Change::Divisions => "the note lengths disagreed with the note shapes; the shapes were followed",
            Change::Rounded => "rounded note lengths were made exact",
            Change::NoLength => "a note without a length was given the length of its shape, or a quarter",
            Change::Overfull => "there is more in the bar than its meter holds; the bar was made longer",
            Change::LooseTie => "a tie begins nowhere; its note is played anew",
            Change::LooseGrace => "grace notes that lead to no note are printed and belong to no onset",
            Change::OddPitch => "a pitch off the keyboard or between the keys was moved to the nearest key",
            Change::NoPitch => "a note whose pitch cannot be read is kept as a rhythm alone",
            Change::NoAlter => "an alteration that cannot be read is left out; its note is a natural",
            Change::NoMeter => "the meter is missing or unusual; the one before it was kept, 4/4 at the start",
            Change::OddKey => "a key signature of its own make is not shown; the one before it was kept",
            Change::FarKey => "a key of more than seven sharps or flats is shown with seven",
            Change::TwoKeys => "staves in different keys are shown in the key of the first",
            Change::InsideBar => "a key or meter that changes inside a bar holds from the next bar on",
            Change::StaffLines => "a staff with another number of lines is shown with five",
            Change::OddValue => "a note value beyond the breve or the 128th is printed as the nearest of them",
            Change::LooseSlur => "a slur without a begin or an end is left out",
            Change::LooseTuplet => "a tuplet sign without a begin or an end is left out",
            Change::LooseSign => "a hairpin, pedal or octave sign without a begin or an end is left out",
            Change::LooseOrnament => "a trill line or tremolo without a begin or an end is left out",
            Change::Crowded => "more stands at one place than can be printed; some of it is played but not shown",
            Change::LongBar => "a very long bar is shown in pieces, with dashed lines between them",
            Change::Transposing => "the instrument transposes; its pitches stay as written",
            Change::RepeatsOnce => "repeats are kept as written, once",
            Change::Cues => "cue notes are not shown",
            Change::Hidden => "notes that are hidden in print are not shown",
            Change::Lyrics => "lyrics are not shown",
            Change::OtherOrnaments => "some ornament signs are not shown",
            Change::OtherArticulations => "some articulation signs are not shown",
            Change::OddAccidental => "accidentals between the common ones are not shown",
            Change::OtherFermatas => "fermatas of other shapes are shown as the usual one",
            Change::Noteheads => "noteheads of other shapes are shown round",
            Change::OtherPedals => "marks for the middle pedal are not shown",
            Change::OtherSigns => "some signs over or under the staff are not shown",
            Change::OtherTempi => "a tempo mark that gives no beats a minute is not shown",
            Change::Abbreviations => {
                "signs that stand for repeated bars or beats are not shown; the bars are as the file fills them"
            }
            Change::ChordSymbols => "chord symbols and figures are not shown",
            Change::Tablature => "tablature and string numbers are not shown",
        })
    }
}

impl fmt::Display for Mended {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        match self.places {
            1 => write!(f, "Bar {}: {}", self.bar, self.change),
            2 => write!(f, "Bar {} and one more place: {}", self.bar, self.change),
            more => write!(f, "Bar {} and {} more places: {}", self.bar, more - 1, self.change),
        }
    }
}

/// Collects changes, each kind once, in the order they were first made.
#[derive(Default)]
pub(super) struct Mending {
    made: Vec<Mended>,
}

impl Mending {
    pub(super) fn say(&mut self, bar: &str, change: Change) {
        match self.made.iter_mut().find(|mended| mended.change == change) {
            Some(mended) => mended.places += 1,
            None => self.made.push(Mended { change, bar: bar.into(), places: 1 }),
        }
    }

    pub(super) fn finish(self) -> Vec<Mended> {
        self.made
    }
}

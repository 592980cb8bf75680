//! One measure of one part: its notes in time, its marks, and what it changes for the bars after it.
//!
//! Refuses to know how long the bar is in the end and which notes are tied.

use super::{
    attributes,
    cursor::{Cursor, Length},
    directions,
    document::{Measure, child, children, text_of},
    error::{MOST_NOTES, ReadError},
    lengths::{decimal, plus, quarters},
    mended::{Change, Mending},
    signs,
    ties::Heard,
};
use crate::music::{Meter, Pitch, Quarters, Tempo, score::Dynamic, score::WrittenNote};
use num_rational::Ratio;
use roxmltree::Node;
use std::collections::{BTreeMap, HashMap};

/// Most staves a part may have; the notes of further ones are put on the last.
const MOST_STAVES: u8 = 16;

/// What was found in one measure.
pub(super) struct Found<'a> {
    pub(super) notes: Vec<Heard<'a>>,
    pub(super) dynamics: Vec<Dynamic>,
    pub(super) tempi: BTreeMap<Quarters, Tempo>,
    /// The furthest place that was written to; 0 in an empty measure.
    pub(super) end: Quarters,
}

/// What holds from bar to bar while a part is read.
pub(super) struct Reader<'a, 'm> {
    pub(super) meter: Meter,
    pub(super) fifths: i8,
    pub(super) staves: u8,
    /// To a quarter.
    divisions: Ratio<i64>,
    correction: Ratio<i64>,
    /// Grace notes that wait for their main note, by voice and staff, with the bar they stand in.
    graces: HashMap<(&'a str, u8), (usize, Vec<Pitch>)>,
    bar: usize,
    number: String,
    mending: &'m mut Mending,
    notes_read: &'m mut usize,
}

/// The measure being read.
#[derive(Default)]
struct Open<'a> {
    cursor: Cursor,
    /// Where the last note began that was no chord's further note.
    chord_at: Quarters,
    notes: Vec<Heard<'a>>,
    dynamics: Vec<Dynamic>,
    tempi: BTreeMap<Quarters, Tempo>,
}

impl<'a, 'm> Reader<'a, 'm> {
    pub(super) fn new(correction: Ratio<i64>, mending: &'m mut Mending, notes_read: &'m mut usize) -> Self {
        Reader {
            meter: Meter::COMMON,
            fifths: 0,
            staves: 1,
            divisions: correction,
            correction,
            graces: HashMap::new(),
            bar: 0,
            number: String::new(),
            mending,
            notes_read,
        }
    }

    /// Says a change in the bar that is being read.
    pub(super) fn say(&mut self, change: Change) {
        self.mending.say(&self.number, change);
    }

    pub(super) fn measure(&mut self, measure: &Measure<'a>) -> Result<Found<'a>, ReadError> {
        self.number.clone_from(&measure.number);
        self.bar += 1;
        let mut open = Open::default();
        for node in measure.content.children().filter(Node::is_element) {
            match node.tag_name().name() {
                "attributes" => self.attributes(node),
                "note" => self.note(node, &mut open)?,
                "backup" => open.cursor.back(self.length_of(node).unwrap_or(Quarters::ZERO)),
                "forward" => open.cursor.forward(self.length_of(node).unwrap_or(Quarters::ZERO).into()),
                "direction" => self.direction(node, &mut open),
                "sound" => self.sound(node, open.cursor.at(), &mut open),
                "harmony" | "figured-bass" => self.say(Change::ChordSymbols),
                "barline" if child(node, "repeat").or(child(node, "ending")).is_some() => self.say(Change::RepeatsOnce),
                _ => {}
            }
        }
        let end = open.cursor.end();
        Ok(Found { notes: open.notes, dynamics: open.dynamics, tempi: open.tempi, end })
    }

    /// To be called when no bar follows.
    pub(super) fn finish(mut self) {
        if !self.graces.is_empty() {
            self.say(Change::LooseGrace);
        }
    }

    fn attributes(&mut self, node: Node) {
        if let Some(divisions) = attributes::divisions(node) {
            self.divisions = divisions * self.correction;
        }
        if let Some(fifths) = child(node, "key").and_then(|key| text_of(key, "fifths")?.parse::<i8>().ok()) {
            self.fifths = fifths.clamp(-7, 7);
        }
        if let Some(time) = child(node, "time") {
            match attributes::meter(time) {
                Some(meter) => self.meter = meter,
                None => self.say(Change::NoMeter),
            }
        }
        if let Some(staves) = text_of(node, "staves").and_then(|text| text.parse::<u8>().ok()) {
            self.staves = self.staves.max(staves.min(MOST_STAVES));
        }
        let shifts = |transpose: Node| {
            ["chromatic", "octave-change"]
                .iter()
                .any(|name| text_of(transpose, name).and_then(decimal).is_some_and(|shift| shift != Ratio::ZERO))
        };
        if children(node, "transpose").any(shifts) {
            self.say(Change::Transposing);
        }
    }

    fn note(&mut self, node: Node<'a, 'a>, open: &mut Open<'a>) -> Result<(), ReadError> {
        *self.notes_read += 1;
        if *self.notes_read > MOST_NOTES {
            return Err(ReadError::TooManyNotes);
        }
        let (voice, staff) = (text_of(node, "voice").unwrap_or(""), self.staff(node));
        let shown = self.is_shown(node);
        if child(node, "grace").is_some() {
            if let Some(pitch) = signs::pitch(node, &mut |change| self.say(change)).filter(|_| shown) {
                self.graces.entry((voice, staff)).or_insert((self.bar, Vec::new())).1.push(pitch);
            }
            return Ok(());
        }
        let length = self.note_length(node);
        if child(node, "chord").is_none() {
            open.chord_at = open.cursor.at();
            open.cursor.forward(length);
        }
        if child(node, "rest").is_none() && shown {
            let heard = self.heard(node, open.chord_at, length.exact, staff, voice);
            let marks = signs::notations(node).flat_map(|node| children(node, "dynamics"));
            let marks = marks.filter_map(directions::dynamic);
            open.dynamics.extend(marks.map(|mark| Dynamic { at: open.chord_at, staff, mark }));
            open.notes.push(heard);
        }
        Ok(())
    }

    fn heard(&mut self, node: Node<'a, 'a>, at: Quarters, lasts: Quarters, staff: u8, voice: &'a str) -> Heard<'a> {
        let mut say = |change| self.mending.say(&self.number, change);
        let pitch = signs::pitch(node, &mut say);
        let articulations = signs::articulations(node, &mut say);
        if child(node, "lyric").is_some() {
            say(Change::Lyrics);
        }
        let (tied_from, tied_on) = signs::ties(node);
        let graces = self.waiting_graces(voice, staff);
        let note = WrittenNote { pitch, lasts, fingering: signs::fingering(node), articulations, graces };
        Heard { at, staff, voice, tied_from, tied_on, note }
    }

    /// The grace notes that run into the note that comes now; they may stand at the end of the bar before.
    fn waiting_graces(&mut self, voice: &'a str, staff: u8) -> Vec<Pitch> {
        match self.graces.remove(&(voice, staff)) {
            Some((bar, graces)) if bar + 1 >= self.bar => graces,
            Some(_) => {
                self.say(Change::LooseGrace);
                Vec::new()
            }
            None => Vec::new(),
        }
    }

    fn staff(&mut self, node: Node) -> u8 {
        let staff = text_of(node, "staff").and_then(|text| text.parse::<u8>().ok()).unwrap_or(1);
        let staff = staff.clamp(1, MOST_STAVES);
        self.staves = self.staves.max(staff);
        staff
    }

    fn is_shown(&mut self, note: Node) -> bool {
        let cue = child(note, "cue").is_some();
        let hidden = note.attribute("print-object") == Some("no");
        if child(note, "rest").is_none() && (cue || hidden) {
            self.say(if cue { Change::Cues } else { Change::Hidden });
        }
        !cue && !hidden
    }

    /// The `duration` of a note, backup or forward in quarters, as the file counts.
    fn length_of(&self, node: Node) -> Option<Quarters> {
        self.counted(node, "duration").and_then(quarters).map(|length| length.max(Quarters::ZERO))
    }

    fn counted(&self, node: Node, name: &str) -> Option<Ratio<i64>> {
        Some(decimal(text_of(node, name)?)? / self.divisions)
    }

    /// The length of a note or rest. Its shape is followed only where the file had to round.
    fn note_length(&mut self, note: Node) -> Length {
        let whole_bar = child(note, "rest").is_some_and(|rest| rest.attribute("measure") == Some("yes"));
        let written = self.length_of(note);
        if whole_bar {
            let written = written.unwrap_or(self.meter.bar());
            return Length { written, exact: written.min(self.meter.bar()) };
        }
        let shape = signs::shape_length(note).and_then(quarters).filter(|shape| *shape > Quarters::ZERO);
        let unit = *self.divisions.denom() as f64 / *self.divisions.numer() as f64;
        let rounded = |written: Quarters, shape: Quarters| {
            written != shape && (written.as_f64() - shape.as_f64()).abs() < unit * (1.0 - 1e-6)
        };
        match (written, shape) {
            (Some(written), Some(shape)) if rounded(written, shape) => {
                self.say(Change::Rounded);
                Length { written, exact: shape }
            }
            (Some(written), _) if written > Quarters::ZERO => written.into(),
            _ => {
                self.say(Change::NoLength);
                shape.unwrap_or(Quarters::ONE).into()
            }
        }
    }

    fn direction(&mut self, node: Node<'a, 'a>, open: &mut Open) {
        let staff = self.staff(node);
        let offset = self.counted(node, "offset").and_then(quarters).unwrap_or(Quarters::ZERO);
        let at = plus(open.cursor.at(), offset).max(Quarters::ZERO);
        for sign in children(node, "direction-type").flat_map(|kind| kind.children()).filter(Node::is_element) {
            match sign.tag_name().name() {
                "dynamics" => open.dynamics.extend(directions::dynamic(sign).map(|mark| Dynamic { at, staff, mark })),
                "metronome" => open.tempi.extend(directions::metronome(sign).map(|tempo| (at, tempo))),
                "wedge" => self.say(Change::Hairpins),
                "pedal" => self.say(Change::Pedal),
                "words" => self.say(Change::Words),
                _ => {}
            }
        }
        if let Some(sound) = child(node, "sound") {
            self.sound(sound, at, open);
        }
    }

    /// A tempo for the player of the file; a printed mark at the same place outweighs it.
    fn sound(&mut self, node: Node, at: Quarters, open: &mut Open) {
        if let Some(tempo) = directions::sound(node, self.meter) {
            open.tempi.entry(at).or_insert(tempo);
        }
    }
}

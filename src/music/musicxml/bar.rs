//! One measure of one part: its notes in time, its marks, and what it changes for the bars after it.

mod over_staff;

use crate::{
    music::{
        Meter, Pitch, Quarters, Tempo,
        musicxml::{
            attributes::{self, MOST_STAVES, Signature},
            barlines::Barlines,
            clefs::{BarClefs, Clefs},
            counting::{Counting, bar_length},
            cursor::{Cursor, Length},
            directions,
            document::{Measure, child, children, text_of},
            error::{MOST_NOTES, ReadError},
            lengths::{plus, quarters},
            mended::{Mend, Mending},
            printed::{Printed, Sounding},
            signs,
            spanners::Spanners,
            ties::Heard,
            voices::{Beside, MOST_GRACES},
        },
        score::{Dynamic, WrittenNote},
        written::{MeterSign, Spanner, StaffText, WrittenBar},
    },
    sort,
};
use num_rational::Ratio;
use roxmltree::Node;
use std::collections::{BTreeMap, HashMap};

/// What was found in one measure.
pub(super) struct ReadBar<'a> {
    pub(super) notes: Vec<Heard<'a>>,
    pub(super) dynamics: Vec<Dynamic>,
    pub(super) tempi: BTreeMap<Quarters, Tempo>,
    /// But for its clefs, which are known when all staves are.
    pub(super) written: WrittenBar,
    pub(super) clefs: BarClefs,
    /// More than nothing.
    pub(super) length: Quarters,
}

/// What holds from bar to bar while a part is read.
pub(super) struct Reader<'a, 'm> {
    pub(super) meter: Meter,
    pub(super) fifths: i8,
    pub(super) staves: u8,
    counting: Counting,
    /// Grace notes that wait for their main note, by voice and staff, with the bar they stand in.
    graces: HashMap<(&'a str, u8), (usize, Vec<Pitch>)>,
    meter_sign: MeterSign,
    /// What stands inside or at the end of the bar and holds from the next bar on, with its first place.
    waiting: Option<(Quarters, Signature)>,
    /// Of each staff, as far as the file says.
    lines: Option<u8>,
    clefs: Clefs,
    barlines: Barlines,
    spanners: Spanners,
    beside: Beside,
    /// On which staff each voice was last.
    staff_of: HashMap<&'a str, u8>,
    /// How many bars were begun.
    bar: usize,
    number: String,
    mending: &'m mut Mending,
    notes_read: &'m mut usize,
}

/// The measure being read.
#[derive(Default)]
struct OpenBar<'a> {
    cursor: Cursor,
    /// Where the last note began that was no chord's further note.
    chord_at: Quarters,
    /// Voice and staff of that note, once there was one.
    chord_of: Option<(&'a str, u8)>,
    /// How long that note lasts.
    chord_lasts: Quarters,
    /// How many chords and notes have begun.
    chords: usize,
    printed: Printed,
    notes: Vec<Heard<'a>>,
    dynamics: Vec<Dynamic>,
    tempi: BTreeMap<Quarters, Tempo>,
    texts: Vec<StaffText>,
}

impl<'a, 'm> Reader<'a, 'm> {
    pub(super) fn new(correction: Ratio<i64>, mending: &'m mut Mending, notes_read: &'m mut usize) -> Self {
        Reader {
            meter: Meter::COMMON,
            fifths: 0,
            staves: 1,
            counting: Counting::new(correction),
            graces: HashMap::new(),
            meter_sign: MeterSign::Figures,
            waiting: None,
            lines: None,
            clefs: Clefs::default(),
            barlines: Barlines::default(),
            spanners: Spanners::default(),
            beside: Beside::default(),
            staff_of: HashMap::new(),
            bar: 0,
            number: String::new(),
            mending,
            notes_read,
        }
    }

    /// Says what was mended in the bar that is being read.
    pub(super) fn say(&mut self, mend: Mend) {
        self.mending.say(&self.number, mend);
    }

    pub(super) fn measure(&mut self, measure: &Measure<'a>) -> Result<ReadBar<'a>, ReadError> {
        self.number.clone_from(&measure.number);
        self.bar += 1;
        if let Some((_, signature)) = self.waiting.take() {
            self.signature_holds(signature);
        }
        let mut open = OpenBar::default();
        for node in measure.content.children().filter(Node::is_element) {
            match node.tag_name().name() {
                "attributes" => self.attributes(node, open.cursor.at()),
                "note" => self.note(node, &mut open)?,
                "backup" => open.cursor.back(self.counting.length_of(node).unwrap_or(Quarters::ZERO)),
                "forward" => open.cursor.forward(self.counting.length_of(node).unwrap_or(Quarters::ZERO).into()),
                "direction" => self.direction(node, &mut open),
                "sound" => self.sound(node, open.cursor.at(), &mut open),
                "harmony" | "figured-bass" => self.say(Mend::ChordSymbols),
                "barline" => self.barline(node),
                _ => {}
            }
        }
        Ok(self.close(open))
    }

    fn close(&mut self, open: OpenBar<'a>) -> ReadBar<'a> {
        let OpenBar { cursor, printed, mut notes, dynamics, tempi, mut texts, .. } = open;
        let (bar, beat) = (self.bar - 1, self.meter.beat().quarters());
        let mut say = |mend| self.mending.say(&self.number, mend);
        let last_start = notes.iter().map(|heard| heard.at).max().unwrap_or(Quarters::ZERO);
        let length = bar_length(cursor.end(), last_start, self.meter, &mut say);
        if self.waiting.is_some_and(|(at, _)| at < length) {
            say(Mend::InsideBar);
        }
        // Where the file's numbers exceed all bounds, the cursor stops at the bar's end.
        notes.retain(|heard| heard.at < length);
        let voices = printed.finish(bar, length, beat, &mut self.spanners, &mut say);
        texts.iter_mut().for_each(|text| text.at = text.at.min(length));
        sort::by_key(&mut texts, |text| text.at);
        let mut written = WrittenBar { voices, meter_sign: self.meter_sign, texts, ..WrittenBar::default() };
        self.barlines.end_bar(&mut written);
        let clefs = self.clefs.end_bar(length);
        written.clef_changes.clone_from(&clefs.changes);
        ReadBar { notes, dynamics, tempi, written, clefs, length }
    }

    /// To be called when no bar follows: the signs that reach from place to place, and the lines of a staff.
    pub(super) fn finish(mut self) -> (Vec<Spanner>, u8) {
        if !self.graces.is_empty() {
            self.say(Mend::LooseGrace);
        }
        let mut say = |mend| self.mending.say(&self.number, mend);
        (self.spanners.finish(&mut say), self.lines.unwrap_or(5))
    }

    fn barline(&mut self, node: Node) {
        if child(node, "repeat").or(child(node, "ending")).is_some() {
            self.say(Mend::RepeatsOnce);
        }
        self.barlines.element(node);
    }

    fn attributes(&mut self, node: Node, at: Quarters) {
        self.counting.follow(node);
        let mut say = |mend| self.mending.say(&self.number, mend);
        children(node, "clef").for_each(|clef| self.clefs.element(clef, at, &mut say));
        if attributes::transposes(node) {
            say(Mend::Transposing);
        }
        if attributes::abbreviates(node) {
            say(Mend::Abbreviations);
        }
        let signature = attributes::signature(node, &mut say);
        if at == Quarters::ZERO {
            self.signature_holds(signature);
        } else if signature != Signature::default() {
            let (first, earlier) = self.waiting.unwrap_or((at, Signature::default()));
            self.waiting = Some((first.min(at), signature.or(earlier)));
        }
        self.staves_of(node);
    }

    fn signature_holds(&mut self, Signature { fifths, meter }: Signature) {
        self.fifths = fifths.unwrap_or(self.fifths);
        (self.meter, self.meter_sign) = meter.unwrap_or((self.meter, self.meter_sign));
    }

    /// How many staves there are and how many lines they have.
    fn staves_of(&mut self, node: Node) {
        if let Some(staves) = text_of(node, "staves").and_then(|text| text.parse::<u8>().ok()) {
            self.staves = self.staves.max(staves.min(MOST_STAVES));
        }
        let Some(lines) = child(node, "staff-details").and_then(|details| text_of(details, "staff-lines")) else {
            return;
        };
        if !matches!(lines, "1" | "5") {
            self.say(Mend::StaffLines);
        }
        self.lines = self.lines.or(Some(if lines == "1" { 1 } else { 5 }));
    }

    fn note(&mut self, node: Node<'a, 'a>, open: &mut OpenBar<'a>) -> Result<(), ReadError> {
        *self.notes_read += 1;
        if *self.notes_read > MOST_NOTES {
            return Err(ReadError::TooManyNotes);
        }
        let in_chord = child(node, "chord").is_some();
        let (voice, staff) = self.belongs_to(node, open.chord_of.filter(|_| in_chord));
        let is_grace = child(node, "grace").is_some();
        let length = if is_grace { Quarters::ZERO.into() } else { self.note_length(node) };
        if !in_chord {
            open.chord_of = Some((voice, staff));
            open.chords += 1;
            open.printed.end_chord();
        }
        if !in_chord && !is_grace {
            (open.chord_at, open.chord_lasts) = (open.cursor.at(), length.exact);
            open.cursor.forward(length);
        }
        if self.is_shown(node) {
            let at = if is_grace { open.cursor.at() } else { open.chord_at };
            self.shown_note(node, at, length.exact, (voice, staff), open);
        }
        Ok(())
    }

    /// Voice and staff of a note. A chord's further note that names none belongs to those of the first; any
    /// other note stays on the staff that its voice was on.
    fn belongs_to(&mut self, node: Node<'a, 'a>, first: Option<(&'a str, u8)>) -> (&'a str, u8) {
        let voice = text_of(node, "voice").or(first.map(|(voice, _)| voice)).unwrap_or("");
        if child(node, "staff").is_some() {
            let staff = self.staff(node);
            self.staff_of.insert(voice, staff);
            return (voice, staff);
        }
        let stays = self.staff_of.get(voice).copied().filter(|_| !voice.is_empty());
        (voice, first.map(|(_, staff)| staff).or(stays).unwrap_or(1))
    }

    fn shown_note(
        &mut self,
        node: Node<'a, 'a>,
        at: Quarters,
        lasts: Quarters,
        (voice, staff): (&'a str, u8),
        open: &mut OpenBar<'a>,
    ) {
        let mut say = |mend| self.mending.say(&self.number, mend);
        let pitch = signs::pitch(node, &mut say);
        let articulations = signs::articulations(node, &mut say);
        let full_bar = self.meter.bar();
        let sounding = Sounding { at, lasts, voice, staff, pitch, articulations: &articulations, full_bar };
        open.printed.note(node, &sounding, &mut self.beside, &mut say);
        if child(node, "lyric").is_some() {
            say(Mend::Lyrics);
        }
        let marks = signs::notations(node).flat_map(|node| children(node, "dynamics"));
        let dynamic = |sign| {
            Some(Dynamic { at, staff, above: directions::dynamic_side(sign, sign), mark: directions::dynamic(sign)? })
        };
        open.dynamics.extend(marks.filter_map(dynamic));
        if child(node, "rest").is_some() {
            return;
        }
        if child(node, "grace").is_some() {
            let waiting = self.graces.entry((voice, staff)).or_insert((self.bar, Vec::new()));
            waiting.1.extend(pitch.filter(|_| waiting.1.len() < MOST_GRACES));
            return;
        }
        let (tied_from, tied_on) = signs::ties(node);
        let graces = self.waiting_graces(voice, staff);
        let note = WrittenNote { pitch, lasts, fingering: signs::fingering(node), articulations, graces };
        let shape = signs::shape_length(node).and_then(quarters).unwrap_or(lasts);
        let reaches = plus(at, lasts.max(shape).max(open.chord_lasts));
        open.notes.push(Heard { at, reaches, staff, voice, chord: open.chords, tied_from, tied_on, note });
    }

    /// The grace notes that run into the note that comes now; they may stand at the end of the bar before.
    fn waiting_graces(&mut self, voice: &'a str, staff: u8) -> Vec<Pitch> {
        match self.graces.remove(&(voice, staff)) {
            Some((bar, graces)) if bar + 1 >= self.bar => graces,
            Some(_) => {
                self.say(Mend::LooseGrace);
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
            self.say(if cue { Mend::Cues } else { Mend::Hidden });
        }
        !cue && !hidden
    }

    fn note_length(&mut self, note: Node) -> Length {
        let mut say = |mend| self.mending.say(&self.number, mend);
        self.counting.note_length(note, self.meter, &mut say)
    }
}

//! How a score is carried: between the page and its worker, and the study into the program.
//!
//! Every field and every variant is named here, so that one that is new does not compile before it is carried too.

use crate::{
    carry::{carry_as, carry_enums, carry_structs},
    music::{
        BeatUnit, Bpm, Meter, NoteValue, Part, Pitch, Quarters, Score, Tempo,
        musicxml::{FileKind, Mend, Mended, ReadError},
        passage::Articulation,
        pitch::Letter,
        score::{Attack, Dynamic, ScoreBar, WrittenNote},
        written::{
            Accidental, Anchor, Barline, Beam, Clef, ClefChange, ClefSign, Diatonic, Ending, EndingEnd, Event, Fermata,
            FermataShape, Grace, Head, Kind, MeterSign, Ornament, Pedalling, Says, Spanner, Spans, StaffText, Stem,
            Value, Voice, WrittenBar,
        },
    },
};

carry_as! {
    Quarters as (i64, i64): |quarters| (quarters.numerator(), quarters.denominator()), |(n, d)| Quarters::exactly(n, d);
    Meter as String: ToString::to_string, |text| text.parse().ok();
    Bpm as u16: |bpm| bpm.get(), Bpm::new;
    Diatonic as i16: |place| place.0, |place| Some(Diatonic(place));
}

carry_structs! {
    Score { title, composer, parts }
    Part { id, name, staves, lines, bars, spanners }
    ScoreBar { number, length, missing, meter, fifths, tempo, attacks, dynamics, written }
    Attack { at, staff, notes }
    WrittenNote { pitch, lasts, fingering, articulations, graces }
    Dynamic { at, staff, above, mark }
    Pitch { letter, alter, octave }
    Tempo { beat, bpm }
    BeatUnit { value, dots }
    WrittenBar { clefs, clef_changes, meter_sign, voices, opens, closes, ending, texts }
    Voice { name, events }
    Event { at, lasts, value, dots, tuplet, kind, stem, beams, grace, articulations, fermata, ornaments }
    Head { pitch, place, staff, accidental, tied_from, tied_on, fingering }
    Accidental { alter, bracketed }
    Grace { slashed }
    Fermata { shape, above }
    Ending { text, begins, ends }
    Clef { sign, line, octaves }
    ClefChange { at, staff, clef }
    StaffText { at, staff, above, says }
    Spanner { kind, from, to, above }
    Anchor { bar, at, staff, voice, grace }
    Mended { change, bar, places }
}

carry_enums! {
    Letter { 0 C, 1 D, 2 E, 3 F, 4 G, 5 A, 6 B }
    NoteValue { 0 Whole, 1 Half, 2 Quarter, 3 Eighth, 4 Sixteenth }
    Articulation {
        0 Accent, 1 StrongAccent, 2 Staccato, 3 Staccatissimo, 4 Tenuto, 5 DetachedLegato, 6 Fermata, 7 Arpeggio
    }
    MeterSign { 0 Figures, 1 Common, 2 Cut, 3 Hidden }
    Barline { 0 Single, 1 Double, 2 Final, 3 Dashed, 4 Repeat, 5 Hidden }
    EndingEnd { 0 GoesOn, 1 Hook, 2 Open }
    Value { 0 N128th, 1 N64th, 2 N32nd, 3 N16th, 4 Eighth, 5 Quarter, 6 Half, 7 Whole, 8 Breve }
    Kind { 0 Notes(heads), 1 Rest { staff, place, whole_bar } }
    Stem { 0 Free, 1 Up, 2 Down, 3 Hidden }
    Beam { 0 Begin, 1 Continue, 2 End, 3 HookForward, 4 HookBackward }
    FermataShape { 0 DoubleAngled, 1 Angled, 2 Normal, 3 Square, 4 DoubleSquare }
    Ornament { 0 Trill, 1 Turn, 2 InvertedTurn, 3 Mordent, 4 ShortTrill, 5 Tremolo(strokes) }
    ClefSign { 0 G, 1 F, 2 C, 3 Percussion }
    Says { 0 Manner(text), 1 Tempo(text), 2 Rehearsal(text), 3 Metronome { beat, dots, rate } }
    Spans {
        0 Slur, 1 Crescendo, 2 Diminuendo, 3 Pedal(printed), 4 Octave(octaves), 5 Tuplet { figure, bracket }, 6 Trill,
        7 Tremolo(strokes)
    }
    Pedalling { 0 Signs, 1 Line, 2 SignAndLine }
    Mend {
        0 Divisions, 1 Rounded, 2 NoLength, 3 Overfull, 4 LooseTie, 5 LooseGrace, 6 OddPitch, 7 NoMeter, 8 OddKey,
        9 InsideBar, 10 StaffLines, 11 OddValue, 12 LooseSlur, 13 LooseTuplet, 14 LooseSign, 15 LooseOrnament,
        16 Crowded, 17 Transposing, 18 RepeatsOnce, 19 Cues, 20 Hidden, 21 Lyrics, 22 OtherOrnaments,
        23 OtherArticulations, 24 OddAccidental, 25 Noteheads, 26 OtherPedals, 27 OtherSigns, 28 OtherTempi,
        29 Abbreviations, 30 ChordSymbols, 31 Tablature, 32 NoPitch, 33 NoAlter, 34 FarKey, 35 TwoKeys,
        36 OtherFermatas, 37 LongBar
    }
    ReadError {
        0 Empty, 1 FileTooLarge, 2 UnpackedTooLarge, 3 DamagedZip, 4 NoScoreInZip, 5 UnknownEncoding,
        6 DamagedXml { line }, 7 OwnEntities { line }, 8 NotAScore, 9 NoNotes, 10 TooManyBars, 11 TooManyNotes,
        12 OtherFile(kind), 13 TooManyElements
    }
    FileKind { 0 Pdf, 1 Picture, 2 Midi, 3 Gzip }
}

//! Invented music and one entry of every kind.

use tailfirst::{
    clock::Moment,
    journal::{
        DeviceId, Entry, EntryId, EntryKind, Piece, PieceEdit, PieceId, Preference, ScoreFile, SnippetEdit, SnippetId,
    },
    method::{Cause, Direction, Grain, Hands, Snippet, Span, Step, Strictness, Verdict},
    music::{
        Bar, BeatUnit, Bpm, Hand, Marks, Meter, Note, NoteValue, Onset, Passage, Pitch, Quarters, Tempo,
        passage::Articulation, pitch::Letter,
    },
};

pub const DEVICE: DeviceId = DeviceId(8_146_734_912_345);

pub fn id(number: u64) -> EntryId {
    EntryId { number, device: DEVICE }
}

pub fn moment(text: &str) -> Moment {
    text.parse().expect("a moment")
}

pub fn bpm(beats: u16) -> Bpm {
    Bpm::new(beats).expect("in range")
}

pub fn step(first: usize, last: usize, hands: Hands, beats: u16) -> Step {
    Step { span: Span::new(first, last).expect("in order"), hands, bpm: bpm(beats) }
}

fn quarters(text: &str) -> Quarters {
    text.parse().expect("a time in quarters")
}

fn bar(number: &str, start: &str, length: &str, meter: Meter) -> Bar {
    Bar {
        number: number.into(),
        start: quarters(start),
        length: quarters(length),
        meter,
        missing: meter.bar() - quarters(length),
    }
}

fn pitch(letter: Letter, alter: i8, octave: i8) -> Pitch {
    Pitch { letter, alter, octave }
}

fn note(hand: Hand, pitch: Option<Pitch>, lasts: &str) -> Note {
    Note { hand, pitch, lasts: quarters(lasts), fingering: None, articulations: vec![], graces: vec![] }
}

fn onset(at: &str, notes: Vec<Note>) -> Onset {
    Onset { at: quarters(at), notes, dynamic: None }
}

/// A pickup and a leap of the right hand that lands on a quiet accent over the left hand's fifth.
pub fn leap() -> Snippet {
    let ornate = Note {
        fingering: Some("4-5".into()),
        articulations: vec![Articulation::Accent, Articulation::Tenuto],
        graces: vec![pitch(Letter::B, 0, 5), pitch(Letter::C, 1, 6)],
        ..note(Hand::Right, Some(pitch(Letter::D, 0, 6)), "5/2")
    };
    let low = |letter| note(Hand::Left, Some(pitch(letter, 0, 3)), "3");
    let onsets = vec![
        onset("0", vec![note(Hand::Right, Some(pitch(Letter::F, 1, 4)), "1/3")]),
        onset("1/3", vec![note(Hand::Right, Some(pitch(Letter::G, 0, 4)), "1/3")]),
        onset("2/3", vec![note(Hand::Right, Some(pitch(Letter::B, -1, 4)), "1/3")]),
        Onset { dynamic: Some("p".into()), ..onset("1", vec![low(Letter::D), low(Letter::A), ornate]) },
    ];
    let waltz = Meter::new(3, 4).expect("a meter");
    let passage = Passage::new(vec![bar("0", "0", "1", waltz), bar("1", "1", "3", waltz)], onsets).expect("a passage");
    let tempo = Tempo { beat: BeatUnit::QUARTER, bpm: bpm(96) };
    Snippet::new("Leap to the high D".into(), passage, 3, tempo).expect("a snippet")
}

/// A rhythm tapped in on one line: no pitches, growing forward.
pub fn rhythm() -> Snippet {
    let eighths = (0..6).map(|nth| {
        let at = Quarters::new(nth, 2).expect("in bounds");
        Onset { at, notes: vec![note(Hand::Line, None, "1/2")], dynamic: None }
    });
    let jig = Meter::new(6, 8).expect("a meter");
    let passage = Passage::new(vec![bar("12", "0", "3", jig)], eighths.collect()).expect("a passage");
    let tempo = Tempo { beat: BeatUnit::new(NoteValue::Quarter, 1), bpm: bpm(63) };
    Snippet::new("Run".into(), passage, 5, tempo).expect("a snippet").growing(Direction::SettingOut)
}

/// So many notes together.
pub fn chord(notes: usize) -> Snippet {
    let notes = vec![note(Hand::Left, None, "1"); notes];
    let passage = Passage::new(vec![bar("1", "0", "4", Meter::COMMON)], vec![onset("0", notes)]).expect("a passage");
    Snippet::new("Chord".into(), passage, 0, Tempo { beat: BeatUnit::QUARTER, bpm: bpm(96) }).expect("a snippet")
}

pub fn marks() -> Marks {
    let fingers = [(Hand::Left, "5 1".into()), (Hand::Right, "4".into())].into();
    Marks { fingers, reminder: "Look left before the leap".into() }
}

pub fn piece(title: &str) -> Piece {
    Piece { title: title.into(), composer: String::new(), tempo: None, date: None }
}

/// One entry of every kind in [`tailfirst::journal::wire::KINDS`], in the order a player would
/// come to them, written by [`DEVICE`] and numbered from 1.
pub fn entries() -> Vec<Entry> {
    let (waltz, leap_id) = (PieceId(id(1)), SnippetId(id(4)));
    let dated = Piece {
        composer: "Nobody “in particular”".into(),
        tempo: Some(Tempo { beat: BeatUnit::new(NoteValue::Half, 1), bpm: bpm(58) }),
        date: Some("2026-11-25".parse().expect("a day")),
        ..piece("Waltz in a Draught")
    };
    let file =
        ScoreFile { name: "waltz.musicxml".into(), deflated: "sylOzi9K1S1ILCopzyxOVShLLSrOzM+zVTLRM1DStwMA".into() };
    let goal = step(3, 3, Hands::Right, 96);
    let events = [
        EntryKind::PieceAdded(piece("Waltz")),
        EntryKind::PieceChanged { piece: waltz, to: dated },
        EntryKind::ScoreKept { piece: waltz, file },
        EntryKind::SnippetAdded { piece: waltz, snippet: leap().into() },
        EntryKind::SnippetChanged { snippet: leap_id, to: rhythm().into() },
        EntryKind::SnippetsOrdered { piece: waltz, snippets: vec![leap_id] },
        EntryKind::PiecesOrdered(vec![waltz]),
        EntryKind::Set(Preference::Strictness(Strictness::Strict)),
        EntryKind::BlockBegan { snippet: leap_id },
        EntryKind::Played { snippet: leap_id, step: goal, verdict: Verdict::NotYet },
        EntryKind::CauseNamed { repetition: id(10), cause: Cause::WrongNote },
        EntryKind::Overruled { snippet: leap_id, step: step(2, 3, Hands::Both, 92) },
        EntryKind::BlockEnded { snippet: leap_id },
        EntryKind::StartedAfresh { snippet: leap_id },
        EntryKind::SnippetRemoved { snippet: leap_id },
        EntryKind::PieceRemoved { piece: waltz },
        EntryKind::Retracted { entry: id(16) },
        EntryKind::GoodEnough { snippet: leap_id },
        EntryKind::NotToday { snippet: leap_id },
        EntryKind::OnsetMarked { snippet: leap_id, onset: 3, marks: marks() },
        EntryKind::RestOverruled { snippet: leap_id },
        EntryKind::PieceEdited {
            piece: waltz,
            to: PieceEdit { title: Some("Waltz".into()), tempo: Some(None), ..PieceEdit::default() },
        },
        EntryKind::SnippetEdited {
            snippet: leap_id,
            to: SnippetEdit { goal: Some(2), grain: Some(Grain::Beat), ..SnippetEdit::default() },
        },
        EntryKind::BrokeAt { repetition: id(10), onset: 3 },
        EntryKind::TimeGiven { minutes: 40 },
    ];
    let start = moment("2026-10-03T18:59:57.25+02:00");
    let entry = |(nth, kind)| Entry { id: id(nth as u64 + 1), at: start.plus_ms(nth as i64 * 1_250), kind };
    events.into_iter().enumerate().map(entry).collect()
}

/// A line as only a newer version would write it: blanks, an order of its own and numbers that no
/// machine type holds.
pub const LATER: &str = r#"{"id":"18-2vyjf9hi1","at":"2031-01-01T08:00:00Z","what":{"listened":{"why":"a \"b\\","to":[1e300,0.1,12345678901234567890123]}}}"#;

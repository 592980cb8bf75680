//! What the worker says while it is at a task.

use crate::{
    carry::{bytes_of, carry_enums, carry_structs, from_bytes},
    journal::{ScoreFile, ScoreFileError},
    music::{
        Part, Score,
        musicxml::{Mended, ReadError, Reading},
        score::ScoreBar,
        written::Spanner,
    },
};

/// One message of the worker.
#[derive(Clone, Debug, PartialEq)]
pub enum Answer {
    /// So much of the task is done, in hundredths.
    Done(u8),
    /// A score without what stands in its parts, which follows.
    Score(Score),
    /// Further bars of the part with this index.
    Bars(usize, Vec<ScoreBar>),
    /// Further spanners of the part with this index.
    Spanners(usize, Vec<Spanner>),
    /// The score is there. What was mended in it, and its file, packed to be kept, where that was asked for.
    Whole(Vec<Mended>, Option<ScoreFile>),
    /// The task cannot be done.
    Refused(Refusal),
}

/// Why a task cannot be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The file could not be read.
    Unread(ReadError),
    /// The file could be read, but is too large to keep.
    NotKept(ScoreFileError),
    /// The task itself did not arrive whole.
    Garbled,
}

carry_enums! {
    Answer { 0 Done(hundredths), 1 Score(score), 2 Bars(part, bars), 3 Spanners(part, spanners), 4 Whole(mended, file), 5 Refused(why) }
    Refusal { 0 Unread(why), 1 NotKept(why), 2 Garbled }
    ScoreFileError { 0 TooLargeToKeep, 1 Damaged }
}
carry_structs! { ScoreFile { name, deflated } }

/// Most events and notes in one message: what a slow tablet takes in within a few milliseconds.
const MOST_AT_ONCE: usize = 2_000;

impl Answer {
    /// As it is sent.
    pub fn sent(&self) -> Vec<u8> {
        bytes_of(self)
    }

    /// As it arrived; `None` where it did not.
    pub fn arrived(bytes: &[u8]) -> Option<Answer> {
        from_bytes(bytes)
    }
}

/// Says a reading in pieces.
pub(super) fn say_score(reading: Reading, file: Option<ScoreFile>, say: &mut dyn FnMut(Answer)) {
    let Reading { score: Score { title, composer, parts }, mended } = reading;
    let (empty, full): (Vec<Part>, Vec<_>) = parts.into_iter().map(emptied).unzip();
    say(Answer::Score(Score { title, composer, parts: empty }));
    for (part, (bars, spanners)) in full.into_iter().enumerate() {
        in_pieces(bars, weight, |bars| say(Answer::Bars(part, bars)));
        in_pieces(spanners, |_| 1, |spanners| say(Answer::Spanners(part, spanners)));
    }
    say(Answer::Whole(mended, file));
}

fn emptied(mut part: Part) -> (Part, (Vec<ScoreBar>, Vec<Spanner>)) {
    let content = (std::mem::take(&mut part.bars), std::mem::take(&mut part.spanners));
    (part, content)
}

/// How many events and notes a bar has, and one for itself.
fn weight(bar: &ScoreBar) -> usize {
    let events = bar.written.voices.iter().map(|voice| voice.events.len());
    let notes = bar.attacks.iter().map(|attack| attack.notes.len());
    1 + events.sum::<usize>() + notes.sum::<usize>()
}

fn in_pieces<T>(items: Vec<T>, weight: impl Fn(&T) -> usize, mut each: impl FnMut(Vec<T>)) {
    let (mut piece, mut weighs) = (Vec::new(), 0);
    for item in items {
        weighs += weight(&item);
        piece.push(item);
        if weighs >= MOST_AT_ONCE {
            each(std::mem::take(&mut piece));
            weighs = 0;
        }
    }
    if !piece.is_empty() {
        each(piece);
    }
}

//! What the worker says while it is at a task.

use crate::{
    carry::{bytes_of, carry_enums, carry_structs, from_bytes},
    journal::{
        Entry, EntryId, ScoreFile, ScoreFileError, SetAside,
        file::{Brought, ImportError},
        pack::Pack,
    },
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
    /// Further entries that do not count; all of them come before the first pack.
    Retracted(Vec<EntryId>),
    /// The next closed days.
    Packed(Pack),
    /// Further entries that lie in no pack.
    Recent(Vec<Entry>),
    /// Further texts that could not be read.
    SetAside(Vec<SetAside>),
    /// The file is taken in. Where it brought nothing, nothing was said of what there is.
    TakenIn(Brought),
    /// The file is written.
    Written,
    /// The task cannot be done.
    Refused(Refusal),
}

/// Why a task cannot be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The file could not be read.
    Unread(ReadError),
    /// The file could be read, but is too large to keep.
    NotKept(ScoreFileError),
    /// The file is no journal that can be taken in.
    NotTakenIn(ImportError),
    /// There is no room for the file.
    NotWritten,
    /// The task itself did not arrive whole.
    Garbled,
}

carry_enums! {
    Answer {
        0 Done(hundredths), 1 Score(score), 2 Bars(part, bars), 3 Spanners(part, spanners), 4 Whole(mended, file),
        5 Retracted(entries), 6 Packed(pack), 7 Recent(entries), 8 SetAside(texts), 9 TakenIn(brought), 10 Written,
        11 Refused(why)
    }
    Refusal { 0 Unread(why), 1 NotKept(why), 2 NotTakenIn(why), 3 NotWritten, 4 Garbled }
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
        in_pieces(bars, weight, MOST_AT_ONCE, |bars| say(Answer::Bars(part, bars)));
        in_pieces(spanners, |_| 1, MOST_AT_ONCE, |spanners| say(Answer::Spanners(part, spanners)));
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

/// Passes the items on in pieces that weigh `most` or hardly more.
pub(super) fn in_pieces<T>(items: Vec<T>, weight: impl Fn(&T) -> usize, most: usize, mut each: impl FnMut(Vec<T>)) {
    let (mut piece, mut weighs) = (Vec::new(), 0);
    for item in items {
        weighs += weight(&item);
        piece.push(item);
        if weighs >= most {
            each(std::mem::take(&mut piece));
            weighs = 0;
        }
    }
    if !piece.is_empty() {
        each(piece);
    }
}

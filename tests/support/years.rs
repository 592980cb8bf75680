//! Years of practice as a real player leaves them: sessions on most days, blocks of repetitions at the
//! pace of the music, causes, undone taps, edits, pieces that come and go, now and then a journey.

use crate::{dice::Dice, invented};
use tailfirst::{
    clock::Moment,
    journal::{DeviceId, Entry, EntryId, EntryKind, Piece, PieceId, Preference, SnippetId},
    method::{Cause, Hands, Snippet, Span, Step, Strictness, Verdict},
    music::{Bpm, Hand, NoteValue},
};

const DAY_MS: i64 = 86_400_000;
/// 2026-09-01T06:00Z.
const START_MS: i64 = 1_788_242_400_000;

/// A snippet that is being practised.
struct Practised {
    id: SnippetId,
    onsets: usize,
    /// How far it has come: the first onset of the present span.
    first: usize,
    bpm: u16,
    hands: Hands,
}

/// A player at one device.
struct Player {
    dice: Dice,
    device: DeviceId,
    number: u64,
    now_ms: i64,
    offset: i16,
    entries: Vec<Entry>,
    practised: Vec<Practised>,
    pieces: Vec<PieceId>,
}

/// What one device writes in so many days, at some 400 repetitions a day; `seed` makes the player.
pub fn practise(days: u32, seed: u64) -> Vec<Entry> {
    let mut player = Player {
        dice: Dice::of(seed, 0),
        device: DeviceId(0x1234_5678_9abc_def1_u64.wrapping_mul(seed | 1)),
        number: 100,
        now_ms: START_MS,
        offset: 120,
        entries: Vec::new(),
        practised: Vec::new(),
        pieces: Vec::new(),
    };
    for day in 0..days {
        player.spend_day(day);
    }
    player.entries
}

impl Player {
    fn write(&mut self, kind: EntryKind) -> EntryId {
        self.number += 1;
        let id = EntryId { number: self.number, device: self.device };
        self.entries.push(Entry { id, at: Moment::new(self.now_ms, self.offset), kind });
        id
    }

    /// Some `ms` milliseconds go by.
    fn wait(&mut self, ms: f64) {
        self.now_ms += self.dice.around(ms, 0.25) as i64;
    }

    fn one_in(&mut self, count: u32) -> bool {
        self.dice.happens(1.0 / f64::from(count))
    }

    fn spend_day(&mut self, day: u32) {
        if day.is_multiple_of(21) {
            self.take_up_piece();
        }
        self.offset = match day % 365 {
            55..206 => 60,
            250..257 => -300,
            _ => 120,
        };
        self.now_ms = START_MS + i64::from(day) * DAY_MS + self.dice.between(0.0, 3.0 * 3_600_000.0) as i64;
        let before = self.entries.len();
        while self.entries.len() < before + 530 {
            self.practise_block();
            if self.one_in(4) {
                self.wait(5.0 * 60_000.0);
            }
        }
        if self.one_in(9) {
            self.write(EntryKind::Set(Preference::Strictness(Strictness::Usual)));
        }
    }

    /// A new piece with six snippets; the oldest of a dozen is left behind.
    fn take_up_piece(&mut self) {
        let title = format!("Study no. {} in an invented key", self.pieces.len() + 1);
        let piece = PieceId(self.write(EntryKind::PieceAdded(piece_called(&title))));
        self.pieces.push(piece);
        for _ in 0..6 {
            self.wait(40_000.0);
            let snippet = self.snippet();
            let onsets = snippet.passage().onsets().len();
            let (bpm, hands) = (96, Hands::Right);
            let id = SnippetId(self.write(EntryKind::SnippetAdded { piece, snippet: snippet.into() }));
            self.practised.push(Practised { id, onsets, first: onsets - 1, bpm, hands });
        }
        if self.practised.len() > 72 {
            self.practised.drain(..6);
        }
        if self.one_in(3) {
            let to = Piece { composer: "Nobody".into(), ..piece_called(&title) };
            self.write(EntryKind::PieceChanged { piece, to });
        }
    }

    /// Two bars with runs in one hand or both.
    fn snippet(&mut self) -> Snippet {
        let run = ["0 1/4 1/2 3/4 1 3/2 2 3", "0 1/3 2/3 1 4/3 5/3 2 4", "0 1/2 1 3/2 2 5/2 3 7/2 4"];
        let (right, left) = (run[self.dice.whole(0, 2)], ["0 2 4", "1 3"][self.dice.whole(0, 1)]);
        let bars = invented::bars("4/4 4/4", self.dice.whole(1, 90) as u32);
        let passage = invented::passage(bars, &[(Hand::Right, right), (Hand::Left, left)]);
        invented::snippet(passage, invented::tempo(NoteValue::Quarter, 0, 96))
    }

    /// Some twenty repetitions of one snippet.
    fn practise_block(&mut self) {
        let which = self.dice.whole(0, self.practised.len() - 1);
        let snippet = self.practised[which].id;
        self.write(EntryKind::BlockBegan { snippet });
        for _ in 0..self.dice.whole(12, 30) {
            self.play(which);
        }
        match self.dice.whole(0, 4) {
            0 => self.write(EntryKind::GoodEnough { snippet }),
            1 => self.write(EntryKind::NotToday { snippet }),
            _ => self.write(EntryKind::BlockEnded { snippet }),
        };
        self.wait(20_000.0);
    }

    fn play(&mut self, which: usize) {
        self.wait(5_000.0);
        let Practised { id: snippet, onsets, first, bpm, hands } = self.practised[which];
        let span = Span::new(first, onsets - 1).expect("in order");
        let step = Step { span, hands, bpm: Bpm::new(bpm).expect("in range") };
        let verdict = if self.one_in(3) { Verdict::NotYet } else { Verdict::Clean };
        let repetition = self.write(EntryKind::Played { snippet, step, verdict });
        if verdict == Verdict::NotYet && self.one_in(2) {
            self.wait(1_200.0);
            let cause = Cause::ALL[self.dice.whole(0, 6)];
            self.write(EntryKind::CauseNamed { repetition, cause });
        }
        if self.one_in(80) {
            self.wait(1_000.0);
            self.write(EntryKind::Retracted { entry: repetition });
        }
        if self.one_in(7) {
            let hands = if self.one_in(2) { Hands::Both } else { Hands::Right };
            let first = if verdict == Verdict::Clean { first.saturating_sub(1) } else { onsets - 1 };
            let bpm = [84, 88, 92, 96][self.dice.whole(0, 3)];
            self.practised[which] = Practised { first, bpm, hands, ..self.practised[which] };
        }
        if self.one_in(200) {
            self.write(EntryKind::Overruled { snippet, step });
        }
    }
}

fn piece_called(title: &str) -> Piece {
    Piece { title: title.into(), composer: String::new(), tempo: None, date: None }
}

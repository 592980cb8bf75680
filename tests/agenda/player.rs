//! A player with an invented piece: what they do goes into the journal as the page would write it.

use std::rc::Rc;
use tailfirst::{
    agenda::{Shown, ending::ends_block},
    clock::Moment,
    journal::{DeviceId, EntryId, EntryKind, Journal, Piece, PieceId, SnippetId, SnippetRecord},
    method::{Advice, Coach, Snippet, Standing, Verdict, standing},
    music::{BeatUnit, Bpm, Hand, NoteValue, Tempo, counted::counted},
};

/// Ten in the morning of a day in spring.
pub fn morning() -> Moment {
    "2026-03-02T10:00:00+01:00".parse().expect("a moment")
}

pub struct Player {
    pub journal: Journal,
    pub now: Moment,
}

impl Player {
    /// A player to whom the study that comes with the program is no matter: it is removed.
    pub fn new() -> Player {
        let mut player = Player { journal: Journal::new(), now: morning() };
        let study = player.journal.state().pieces()[0].id;
        player.does(EntryKind::PieceRemoved { piece: study });
        player
    }

    pub fn does(&mut self, kind: EntryKind) -> EntryId {
        let entry = self.journal.next(DeviceId(5), self.now, kind);
        let id = entry.id;
        self.journal.append(entry);
        id
    }

    pub fn wait(&mut self, minutes: u32) {
        self.now = self.now.plus_minutes(minutes);
    }

    pub fn piece(&mut self, title: &str) -> PieceId {
        let piece = Piece { title: title.into(), composer: String::new(), tempo: None, date: None };
        PieceId(self.does(EntryKind::PieceAdded(piece)))
    }

    /// A snippet of so many onsets, one on each beat.
    pub fn snippet(&mut self, piece: PieceId, name: &str, onsets: usize) -> SnippetId {
        self.snippet_of(piece, name, onsets, Hand::Line)
    }

    /// The same for one hand.
    pub fn snippet_of(&mut self, piece: PieceId, name: &str, onsets: usize, hand: Hand) -> SnippetId {
        let tempo = Tempo { beat: BeatUnit::new(NoteValue::Quarter, 0), bpm: Bpm::new(72).expect("in range") };
        let passage = counted(onsets, &[hand], "4/4".parse().expect("a meter")).expect("a passage");
        let snippet = Rc::new(Snippet::new(name.into(), passage, onsets - 1, tempo).expect("a snippet"));
        SnippetId(self.does(EntryKind::SnippetAdded { piece, snippet }))
    }

    pub fn record(&self, snippet: SnippetId) -> &SnippetRecord {
        self.journal.state().snippet(snippet).expect("a snippet")
    }

    pub fn advice(&self, snippet: SnippetId) -> Advice {
        let record = self.record(snippet);
        let mut coach = Coach::new(record.snippet.clone());
        record.history().iter().for_each(|happening| coach.follow(happening));
        coach.advice(self.now)
    }

    pub fn begins(&mut self, snippet: SnippetId) {
        self.does(EntryKind::BlockBegan { snippet });
    }

    /// Judges a repetition ten seconds later; `true` where that ends the block.
    pub fn judges(&mut self, snippet: SnippetId, verdict: Verdict) -> bool {
        self.now = self.now.plus_ms(10_000);
        let before = self.advice(snippet);
        self.does(EntryKind::Played { snippet, step: before.step, verdict });
        let over = ends_block(&before, &self.advice(snippet), self.standing(snippet));
        if over {
            self.does(EntryKind::BlockEnded { snippet });
        }
        over
    }

    /// A whole block: three repetitions, then the player stops.
    pub fn practises(&mut self, snippet: SnippetId) {
        self.begins(snippet);
        for verdict in [Verdict::Clean, Verdict::NotYet, Verdict::Clean] {
            self.judges(snippet, verdict);
        }
        self.does(EntryKind::BlockEnded { snippet });
    }

    /// How the snippet stands now.
    pub fn standing(&self, snippet: SnippetId) -> Standing {
        standing(self.record(snippet).history(), &self.journal.state().preferences.method, self.now)
    }

    pub fn shown(&self, snippet: SnippetId, running: bool) -> Shown {
        Shown::of(self.record(snippet), &self.journal.state().preferences.method, self.now, running)
    }
}

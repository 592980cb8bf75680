//! Small invented snippets and what happens to them.

use std::rc::Rc;
use tailfirst::{
    clock::Moment,
    method::{Advice, Coach, Direction, Hands, Happening, HappeningKind, Settings, Snippet, Span, Step, Verdict},
    music::{Bar, BeatUnit, Bpm, Hand, Meter, Note, Onset, Passage, Quarters, Tempo},
};

pub fn bpm(beats: u16) -> Bpm {
    Bpm::new(beats).expect("in range")
}

pub fn span(first: usize, last: usize) -> Span {
    Span::new(first, last).expect("in order")
}

pub fn step(first: usize, last: usize, hands: Hands, beats: u16) -> Step {
    Step { span: span(first, last), hands, bpm: bpm(beats) }
}

/// One letter an onset, a quarter apart: `R`ight, `L`eft, `B`oth or a single `-` line.
pub fn snippet(onsets: &str, goal: usize, direction: Direction) -> Rc<Snippet> {
    let note =
        |hand| Note { hand, pitch: None, lasts: Quarters::ONE, fingering: None, articulations: vec![], graces: vec![] };
    let hands = |letter| match letter {
        'R' => vec![Hand::Right],
        'L' => vec![Hand::Left],
        'B' => vec![Hand::Left, Hand::Right],
        _ => vec![Hand::Line],
    };
    let onset = |(at, letter)| Onset {
        at: Quarters::whole(at),
        notes: hands(letter).into_iter().map(note).collect(),
        dynamic: None,
    };
    let onsets: Vec<Onset> = (0..).zip(onsets.chars()).map(onset).collect();
    let length = Quarters::whole(onsets.len() as u16);
    let meter = Meter::new(4, 4).expect("a meter");
    let bar = Bar { number: "1".into(), start: Quarters::ZERO, length, meter, missing: Quarters::ZERO };
    let passage = Passage::new(vec![bar], onsets).expect("a passage");
    let tempo = Tempo { beat: BeatUnit::QUARTER, bpm: bpm(100) };
    Rc::new(Snippet::new("invented".into(), passage, goal, tempo).expect("a snippet").growing(direction))
}

/// `minutes` after ten in the morning of the day numbered `day`.
pub fn at(day: i64, minutes: i64) -> Moment {
    let ten: Moment = "2026-03-02T10:00:00+01:00".parse().expect("a moment");
    ten.plus_ms((day * 24 * 60 + minutes) * 60_000)
}

/// A player, the coach beside them, and all that has happened.
pub struct Lesson {
    pub coach: Coach,
    pub history: Vec<Happening>,
    pub now: Moment,
    settings: Settings,
}

impl Lesson {
    /// The first block of the first day has begun.
    pub fn new(snippet: &Rc<Snippet>, settings: Settings) -> Self {
        let coach = Coach::new(Rc::clone(snippet));
        let mut lesson = Lesson { coach, history: Vec::new(), now: at(0, 0), settings };
        lesson.sit_down(at(0, 0));
        lesson
    }

    pub fn sit_down(&mut self, now: Moment) -> Advice {
        self.now = now;
        self.happens(HappeningKind::BlockBegan(self.settings))
    }

    /// One repetition, some seconds long, of the step that is advised.
    pub fn play(&mut self, verdict: Verdict) -> Advice {
        self.now = self.now.plus_ms(4_000);
        self.happens(HappeningKind::Played { step: self.advice().step, verdict, cause: None, broke_at: None })
    }

    pub fn happens(&mut self, kind: HappeningKind) -> Advice {
        let happening = Happening { at: self.now, kind };
        self.coach.follow(&happening);
        self.history.push(happening);
        self.advice()
    }

    pub fn advice(&self) -> Advice {
        self.coach.advice(self.now)
    }
}

/// `C` for clean, anything else for not yet.
pub fn verdict(letter: char) -> Verdict {
    if letter == 'C' { Verdict::Clean } else { Verdict::NotYet }
}

/// A plain generator of equal chances (Marsaglia's xorshift, 64 bits), the same on every machine.
pub struct Dice(u64);

impl Dice {
    /// Dice of one player; neighbouring numbers throw unlike each other.
    pub fn thrown_by(player: u64) -> Self {
        Dice(player.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1)
    }

    /// A number in 0..1.
    pub fn roll(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1u64 << 53) as f64
    }
}

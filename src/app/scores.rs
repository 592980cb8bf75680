//! The scores of the pieces, each file read once while the page is open.

use crate::{
    app::{
        beside::{self, Heard},
        device::workshop::Work,
    },
    journal::{PieceId, PieceRecord, ScoreFile, study},
    music::{self, Score},
    workshop::{Outcome, Task},
};
use std::{cell::RefCell, rc::Rc};
use yew::Callback;

/// What is known of a score.
#[derive(Clone)]
pub enum Known {
    /// It is being read: so many hundredths are done.
    Reading(u8),
    Read(Rc<Score>),
    /// A sentence that says why there is none to show.
    Refused(String),
}

impl Known {
    /// The score, where it has been read.
    pub fn read(self) -> Option<Rc<Score>> {
        match self {
            Known::Read(score) => Some(score),
            Known::Reading(_) | Known::Refused(_) => None,
        }
    }
}

/// What is known of one piece's score; the study's has no file.
struct Entry {
    piece: PieceId,
    file: Option<Rc<str>>,
    known: Known,
    work: Option<Work>,
}

/// What is known of each piece's score.
#[derive(Default)]
pub struct Scores(Rc<RefCell<Vec<Entry>>>);

impl Scores {
    /// What is known of the score of a piece, which is read from now on if it was not before; `None` where it has none.
    /// `changed` is told when more is known.
    pub fn of(&self, piece: &PieceRecord, changed: &Callback<()>) -> Option<Known> {
        if piece.score.is_none() && !study::is_study(piece.id) {
            return None;
        }
        let file = piece.score.as_ref().map(|file| Rc::clone(&file.deflated));
        if let Some(entry) = self.0.borrow().iter().find(|entry| entry.is_of(piece.id, &file)) {
            return Some(entry.known.clone());
        }
        let known = match &piece.score {
            Some(_) => Known::Reading(0),
            None => Known::Read(Rc::new(music::study::score())),
        };
        self.0.borrow_mut().retain(|entry| entry.piece != piece.id);
        self.0.borrow_mut().push(Entry { piece: piece.id, file: file.clone(), known: known.clone(), work: None });
        if let Some(score) = &piece.score {
            self.read(Task::ReadAgain(score.clone()), piece.id, file, changed.clone());
        }
        Some(known)
    }

    /// The score of a piece that was just kept with this file.
    pub fn was_read(&self, piece: PieceId, file: &ScoreFile, score: Rc<Score>) {
        let file = Some(Rc::clone(&file.deflated));
        self.0.borrow_mut().retain(|entry| entry.piece != piece);
        self.0.borrow_mut().push(Entry { piece, file, known: Known::Read(score), work: None });
    }

    fn read(&self, task: Task, piece: PieceId, file: Option<Rc<str>>, changed: Callback<()>) {
        let (entries, of) = (Rc::clone(&self.0), file.clone());
        let hear = move |heard: Heard| {
            let mut entries = entries.borrow_mut();
            let Some(entry) = entries.iter_mut().find(|entry| entry.is_of(piece, &of)) else { return };
            let more = entry.hear(heard);
            drop(entries);
            if more {
                changed.emit(());
            }
        };
        let work = beside::begin(&task, None, hear);
        if let Some(entry) = self.0.borrow_mut().iter_mut().find(|entry| entry.is_of(piece, &file)) {
            entry.work = work;
        }
    }
}

impl Entry {
    fn is_of(&self, piece: PieceId, file: &Option<Rc<str>>) -> bool {
        self.piece == piece && self.file == *file
    }

    /// Takes in what was heard and says whether it is worth drawing.
    fn hear(&mut self, heard: Heard) -> bool {
        let before = match self.known {
            Known::Reading(hundredths) => hundredths,
            _ => 0,
        };
        match heard {
            Heard::Hundredths(now) if now < before + 5 => return false,
            Heard::Hundredths(now) => self.known = Known::Reading(now),
            Heard::Ended(Outcome::Read { reading, .. }) => self.known = Known::Read(Rc::new(reading.score)),
            Heard::Ended(_) | Heard::Made(_) => return false,
            Heard::Refused(why) => self.known = Known::Refused(why),
        }
        if !matches!(self.known, Known::Reading(_)) {
            self.work = None;
        }
        true
    }
}

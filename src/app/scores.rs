//! The scores of the pieces, each file read once while the page is open.
//!
//! Refuses to know what is shown of them.

use crate::{
    journal::{PieceId, PieceRecord, ScoreFile, study},
    music::{self, Score, musicxml},
};
use std::{cell::RefCell, collections::BTreeMap, rc::Rc};

/// A score, or a sentence that says why there is none to show.
pub type Read = Result<Rc<Score>, String>;

/// What was read, beside the file it was read from; the study's score has no file.
type ReadFrom = (Option<Rc<str>>, Read);

/// What was read of each piece.
#[derive(Default)]
pub struct Scores(RefCell<BTreeMap<PieceId, ReadFrom>>);

impl Scores {
    /// The score of a piece; `None` where it has none.
    pub fn of(&self, piece: &PieceRecord) -> Option<Read> {
        if piece.score.is_none() && !study::is_study(piece.id) {
            return None;
        }
        let file = piece.score.as_ref().map(|file| Rc::clone(&file.deflated));
        let known = self.0.borrow().get(&piece.id).filter(|(of, _)| *of == file).map(|(_, read)| read.clone());
        Some(known.unwrap_or_else(|| {
            let score = piece.score.as_ref().map_or_else(|| Ok(Rc::new(music::study::score())), read);
            self.0.borrow_mut().insert(piece.id, (file, score.clone()));
            score
        }))
    }
}

fn read(file: &ScoreFile) -> Read {
    let bytes = file.unpack().map_err(|why| format!("Sorry, {why}."))?;
    musicxml::read(&bytes).map(|reading| Rc::new(reading.score)).map_err(|why| format!("Sorry, {why}."))
}

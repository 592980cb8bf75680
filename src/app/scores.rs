//! The scores of the pieces, each file read once while the page is open.

use crate::{
    journal::{PieceId, PieceRecord, ScoreFile, study},
    music::{self, Score, musicxml},
};
use std::{cell::RefCell, rc::Rc};

/// A score, or a sentence that says why there is none to show.
pub type Read = Result<Rc<Score>, String>;

/// What was read, beside the file it was read from; the study's score has no file.
type ReadFrom = (Option<Rc<str>>, Read);

/// What was read of each piece.
#[derive(Default)]
pub struct Scores(RefCell<Vec<(PieceId, ReadFrom)>>);

impl Scores {
    /// The score of a piece; `None` where it has none.
    pub fn of(&self, piece: &PieceRecord) -> Option<Read> {
        if piece.score.is_none() && !study::is_study(piece.id) {
            return None;
        }
        let file = piece.score.as_ref().map(|file| Rc::clone(&file.deflated));
        let mut known = self.0.borrow_mut();
        if let Some((_, (_, score))) = known.iter().find(|(id, (of, _))| *id == piece.id && *of == file) {
            return Some(score.clone());
        }
        let score = piece.score.as_ref().map_or_else(|| Ok(Rc::new(music::study::score())), read);
        known.retain(|(id, _)| *id != piece.id);
        known.push((piece.id, (file, score.clone())));
        Some(score)
    }
}

fn read(file: &ScoreFile) -> Read {
    let bytes = file.unpack().map_err(|why| format!("Sorry, {why}."))?;
    musicxml::read(&bytes).map(|reading| Rc::new(reading.score)).map_err(|why| format!("Sorry, {why}."))
}

//! What has been heard of a task so far, put together.

use crate::{
    journal::ScoreFile,
    music::{
        Score,
        musicxml::{Mended, Reading},
    },
    workshop::{Answer, Refusal},
};

/// The answers to one task.
#[derive(Default)]
pub struct Gathered {
    score: Option<Score>,
    hundredths: u8,
}

/// How a task ended.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// The score, and its file packed to be kept where that was asked for.
    Read {
        /// What was read.
        reading: Reading,
        /// The file, packed to be kept.
        file: Option<ScoreFile>,
    },
    /// Nothing came of it.
    Refused(Refusal),
}

impl Gathered {
    /// How much of the task is done, in hundredths.
    pub fn hundredths(&self) -> u8 {
        self.hundredths
    }

    /// Takes an answer; with the last one, tells how it ended.
    pub fn take(&mut self, answer: Option<Answer>) -> Option<Outcome> {
        match answer {
            Some(Answer::Done(hundredths)) => self.hundredths = hundredths,
            Some(Answer::Score(score)) => self.score = Some(score),
            Some(Answer::Bars(part, mut bars)) => self.part(part)?.bars.append(&mut bars),
            Some(Answer::Spanners(part, mut spanners)) => self.part(part)?.spanners.append(&mut spanners),
            Some(Answer::Whole(mended, file)) => return Some(self.whole(mended, file)),
            Some(Answer::Refused(why)) => return Some(Outcome::Refused(why)),
            None => return Some(Outcome::Refused(Refusal::Garbled)),
        }
        None
    }

    fn part(&mut self, index: usize) -> Option<&mut crate::music::Part> {
        self.score.as_mut()?.parts.get_mut(index)
    }

    fn whole(&mut self, mended: Vec<Mended>, file: Option<ScoreFile>) -> Outcome {
        match self.score.take() {
            Some(score) => Outcome::Read { reading: Reading { score, mended }, file },
            None => Outcome::Refused(Refusal::Garbled),
        }
    }
}

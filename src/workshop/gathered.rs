//! What has been heard of a task so far, put together.

use crate::{
    journal::{Journal, ScoreFile, arrival::Arrival, file::Brought},
    music::{
        Part, Score,
        musicxml::{Mended, Reading},
    },
    workshop::{Answer, Refusal},
};

/// The answers to one task.
#[derive(Default)]
pub struct Gathered {
    score: Option<Score>,
    journal: Option<Arrival>,
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
    /// What the file brought, and where that was anything, the journal from then on.
    TakenIn {
        /// For the player to read.
        brought: Brought,
        /// The union of what was here and the file.
        journal: Option<Journal>,
    },
    /// The file is written.
    Written,
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
            Some(Answer::Retracted(entries)) => self.journal().retracted(entries),
            Some(Answer::Packed(pack)) => {
                if self.journal().pack(pack).is_none() {
                    return Some(Outcome::Refused(Refusal::Garbled));
                }
            }
            Some(Answer::Recent(entries)) => self.journal().recent(entries),
            Some(Answer::SetAside(texts)) => self.journal().set_aside(texts),
            Some(Answer::TakenIn(brought)) => {
                return Some(Outcome::TakenIn { brought, journal: self.journal.take().map(Arrival::whole) });
            }
            Some(Answer::Written) => return Some(Outcome::Written),
            Some(Answer::Refused(why)) => return Some(Outcome::Refused(why)),
            None => return Some(Outcome::Refused(Refusal::Garbled)),
        }
        None
    }

    fn journal(&mut self) -> &mut Arrival {
        self.journal.get_or_insert_default()
    }

    fn part(&mut self, index: usize) -> Option<&mut Part> {
        self.score.as_mut()?.parts.get_mut(index)
    }

    fn whole(&mut self, mended: Vec<Mended>, file: Option<ScoreFile>) -> Outcome {
        match self.score.take() {
            Some(score) => Outcome::Read { reading: Reading { score, mended }, file },
            None => Outcome::Refused(Refusal::Garbled),
        }
    }
}

//! What has happened in a block so far.

use crate::{
    clock::Moment,
    method::{Belief, Leaving, Move, Settings, Step, moves::Task, rules::Judged},
};

/// The block that is being played, or the last one.
#[derive(Clone, Debug)]
pub struct BlockSoFar {
    pub began: Option<Moment>,
    pub settings: Settings,
    /// What was believed as it began.
    pub believed: Belief,
    /// What was played, and at which onset it broke, so far as the player said.
    pub played: Vec<(Step, Option<usize>)>,
    pub judged: Vec<Judged>,
    /// The coach's moves that the player has taken back.
    pub taken_back: Vec<Move>,
    /// The last smaller task, or slower one, that went well.
    pub mended: Option<Task>,
    pub left: Option<Leaving>,
}

impl BlockSoFar {
    pub fn before_any(belief: &Belief) -> Self {
        BlockSoFar {
            began: None,
            settings: Settings::default(),
            believed: belief.clone(),
            played: Vec::new(),
            judged: Vec::new(),
            taken_back: Vec::new(),
            mended: None,
            left: None,
        }
    }

    /// The latest repetitions, so many of them.
    pub fn latest(&self, repetitions: u32) -> &[Judged] {
        &self.judged[self.judged.len().saturating_sub(repetitions as usize)..]
    }

    pub fn minutes_used(&self, now: Moment) -> Option<Leaving> {
        let minutes = self.settings.block_minutes;
        let used = now >= self.began?.plus_minutes(minutes);
        used.then_some(Leaving::MinutesUsed { minutes })
    }
}

//! What a plan is made of: the blocks to choose from, the snippets' shares of the day, and what was played before.

use crate::calendar::plan::{Bounds, Minutes};

/// The longest sitting that is planned, in minutes; what lies beyond is left free.
pub const LONGEST: Minutes = 240;
/// Most snippets of a sitting.
pub const MOST_SNIPPETS: usize = 64;
/// Most blocks that a plan can choose from.
pub const MOST_CANDIDATES: usize = 128;

/// A block that could be played.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// Its snippet, as an index into [`Sitting::shares`].
    pub snippet: usize,
    /// How long it takes, at least 1.
    pub minutes: Minutes,
    /// What it is worth, ≥ 0, in any unit.
    pub worth: f64,
    /// The block that has to be played before, as an index into [`Sitting::candidates`].
    pub needs: Option<usize>,
    /// Whether nothing may follow: the last touch of the day's most important snippet.
    pub closes: bool,
    /// Whether it begins with a cold try that is due.
    pub is_due: bool,
}

/// What one snippet may have of this sitting.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Share {
    /// When it may be played first, in minutes from now.
    pub ready_in: Minutes,
    /// Least minutes between two of its blocks.
    pub rest: Minutes,
    /// How many blocks are left to it today.
    pub blocks_left: u32,
    /// The snippets like it, as indices; said of one it holds for both.
    pub like: Vec<usize>,
}

/// What was played before now.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct SoFar {
    /// The snippet of the last block, and how many minutes ago it ended.
    pub last: Option<(usize, Minutes)>,
    /// Minutes that have been played without a pause, up to then.
    pub running: Minutes,
    /// Whether there has been a pause today.
    pub has_paused: bool,
}

/// All that a plan is made of: indices lead somewhere, a block needs only one that stands before it, and takes time.
#[derive(Clone, Debug, PartialEq)]
pub struct Sitting {
    bounds: Bounds,
    shares: Vec<Share>,
    candidates: Vec<Candidate>,
    so_far: SoFar,
}

impl Sitting {
    /// A sitting within these bounds, with a share for each snippet; `None` where an index leads nowhere, a block needs one
    /// that does not stand before it or takes no time, or where there are more than [`MOST_SNIPPETS`] or
    /// [`MOST_CANDIDATES`].
    pub fn new(bounds: Bounds, shares: Vec<Share>, candidates: Vec<Candidate>, so_far: SoFar) -> Option<Self> {
        let snippets = shares.len();
        let is_sound = |(index, candidate): (usize, &Candidate)| {
            let comes_after = candidate.needs.is_none_or(|needs| needs < index);
            candidate.snippet < snippets && candidate.minutes > 0 && candidate.worth >= 0.0 && comes_after
        };
        let sound = snippets <= MOST_SNIPPETS
            && candidates.len() <= MOST_CANDIDATES
            && candidates.iter().enumerate().all(is_sound)
            && shares.iter().flat_map(|share| &share.like).all(|other| *other < snippets)
            && so_far.last.is_none_or(|(last, _)| last < snippets);
        sound.then_some(Sitting { bounds, shares, candidates, so_far })
    }

    /// The minutes there are, and what bounds them.
    pub fn bounds(&self) -> Bounds {
        self.bounds
    }

    /// One for each snippet.
    pub fn shares(&self) -> &[Share] {
        &self.shares
    }

    /// The blocks to choose from.
    pub fn candidates(&self) -> &[Candidate] {
        &self.candidates
    }

    /// What was played before now.
    pub fn so_far(&self) -> SoFar {
        self.so_far
    }
}

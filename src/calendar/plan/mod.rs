//! The plan of a sitting: which blocks, in which order, with which pauses, in the minutes there are.
//!
//! The plan worth most, where each block says what it is worth: no snippet returns before its rest is over, none twice
//! running, nothing similar right after, a pause away from the keys after so many minutes in a row and an early one
//! before, each snippet's blocks in their order. An [`Offer`] says what a snippet has to gain, a [`Sitting`] all that can
//! be chosen from; [`bounds`] has the numbers, `follow` what may follow what, and `search` looks for the best. The same
//! sitting gives the same plan everywhere.

pub mod bounds;
mod follow;
pub mod offer;
mod search;
pub mod sitting;

pub use bounds::{Bounds, Minutes};
pub use offer::Offer;
pub use sitting::{Candidate, LONGEST, MOST_CANDIDATES, MOST_SNIPPETS, Share, Sitting, SoFar};

/// A block of the plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Planned {
    /// Which, as an index into [`Sitting::candidates`].
    pub candidate: usize,
    /// In minutes from now.
    pub begins: Minutes,
}

/// What to do in the minutes there are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// In the order of the day; where one does not begin as the other ends, there is a pause.
    pub blocks: Vec<Planned>,
    /// Cold tries that are due and found no place; they stay due.
    pub not_today: Vec<usize>,
}

impl Plan {
    /// The plan of a sitting.
    pub fn of(sitting: &Sitting) -> Plan {
        Plan::instead_of(&[], sitting)
    }

    /// The plan of a sitting that goes on, where these blocks were still to come, in this order. It is worth no less than
    /// they are, and the cold tries among them that are due stay in it for as long as they fit.
    pub fn instead_of(remaining: &[usize], sitting: &Sitting) -> Plan {
        let blocks = search::best(sitting, remaining);
        let is_left = |index: &usize| {
            sitting.candidates()[*index].is_due && !blocks.iter().any(|block| block.candidate == *index)
        };
        let not_today = (0..sitting.candidates().len()).filter(is_left).collect();
        Plan { blocks, not_today }
    }
}

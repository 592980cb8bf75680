//! What is to be shown of a part now, and in which ink.

use crate::{
    music::Quarters,
    notation::{drawing::Ink, engraving::signs::engraver::Crown},
};

/// What is to be shown of a part now.
pub struct Focus<'a> {
    /// Places of the snippet's onsets, in quarters from the start of the part's first bar, ascending.
    pub onsets: &'a [Quarters],
    /// First and last onset that are played now, by index.
    pub span: (usize, usize),
    /// The snippet's goal.
    pub goal: usize,
    /// What this step arrives at: the goal, or a narrowed task's end.
    pub aim: usize,
    /// Whether the hand on this staff plays in this step; 1 is the uppermost.
    pub plays: &'a dyn Fn(u8) -> bool,
}

impl Focus<'_> {
    /// Whether the hand on a staff, counted from 0, plays in this step.
    pub fn plays_on(&self, staff: usize) -> bool {
        (self.plays)(staff as u8 + 1)
    }

    /// The ink of what stands at a place of a staff, counted from 0. What is tied on sounds until the next
    /// onset.
    pub fn ink(&self, at: Quarters, staff: usize, tied: bool) -> Ink {
        let onset = |index: usize| self.onsets.get(index).copied();
        let (Some(first), Some(last)) = (onset(self.span.0), onset(self.span.1)) else { return Ink::Faint };
        let inside = first <= at && (at <= last || tied && onset(self.span.1 + 1).is_none_or(|next| at < next));
        match (inside, self.plays_on(staff)) {
            (false, _) => Ink::Faint,
            (true, true) => Ink::Full,
            (true, false) => Ink::Resting,
        }
    }

    /// The signs over columns.
    pub fn crowns(&self) -> Vec<(Quarters, Crown)> {
        use Crown::{Aim, Entry, Goal};
        let mut crowns = vec![(self.goal, Goal)];
        if self.aim != self.goal {
            crowns.push((self.aim, Aim));
        }
        if self.span.0 != self.span.1 {
            crowns.push((self.span.0, Entry));
        }
        crowns.into_iter().filter_map(|(index, crown)| Some((*self.onsets.get(index)?, crown))).collect()
    }
}

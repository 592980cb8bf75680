//! What may follow what, and when it can begin.

use crate::calendar::plan::{Candidate, LONGEST, MOST_SNIPPETS, Minutes, Share, Sitting};

/// A set of candidates, or of snippets.
pub(super) type Set = u128;

/// The set of one.
pub(super) fn only(index: usize) -> Set {
    1 << index
}

/// Blocks in a row, as far as it matters to what may follow.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub played: Set,
    /// When each snippet has rested, in minutes from now.
    pub rested: [u8; MOST_SNIPPETS],
    /// The snippet of the last block.
    pub last: Option<usize>,
    /// When the last block ends, in minutes from now; before now where it was played already.
    pub ends: i32,
    /// Minutes played without a pause up to then.
    pub running: Minutes,
    pub has_paused: bool,
    /// Whether nothing may follow any more.
    pub is_closed: bool,
}

/// The rules of a sitting, made ready to be asked often.
pub(super) struct Rules<'a> {
    pub sitting: &'a Sitting,
    /// For each snippet, which others are like it.
    like: Vec<Set>,
    /// For each snippet, its candidates.
    own: Vec<Set>,
    /// Where there is but one snippet, it follows itself.
    is_alone: bool,
}

impl<'a> Rules<'a> {
    pub fn of(sitting: &'a Sitting) -> Self {
        let mut like = vec![0; sitting.shares().len()];
        for (snippet, share) in sitting.shares().iter().enumerate() {
            for other in &share.like {
                like[snippet] |= only(*other);
                like[*other] |= only(snippet);
            }
        }
        let mut own = vec![0; sitting.shares().len()];
        for (index, candidate) in sitting.candidates().iter().enumerate() {
            own[candidate.snippet] |= only(index);
        }
        let is_alone = own.iter().filter(|own| **own != 0).count() < 2;
        Rules { sitting, like, own, is_alone }
    }

    /// Before anything of the plan is played.
    pub fn start(&self) -> Row {
        let so_far = self.sitting.so_far();
        let (last, ago) = so_far.last.map_or((None, 0), |(last, ago)| (Some(last), ago));
        let (ends, running) = (-i32::from(ago), so_far.running);
        let mut rested = [0; MOST_SNIPPETS];
        for (rested, share) in rested.iter_mut().zip(self.sitting.shares()) {
            *rested = share.ready_in.min(LONGEST + 1) as u8;
        }
        Row { played: 0, rested, last, ends, running, has_paused: so_far.has_paused, is_closed: false }
    }

    /// When a candidate could begin at the earliest after a row, if nothing else were played meanwhile.
    pub fn soonest(&self, row: &Row, candidate: &Candidate) -> i32 {
        let rest = i32::from(self.share(candidate.snippet).rest);
        let mut begins = row.ends.max(i32::from(row.rested[candidate.snippet]));
        let mut needs = candidate.needs;
        while let Some(before) = needs.filter(|before| row.played & only(*before) == 0) {
            begins += i32::from(self.sitting.candidates()[before].minutes) + rest;
            needs = self.sitting.candidates()[before].needs;
        }
        begins
    }

    /// The minutes that are planned.
    pub fn minutes(&self) -> i32 {
        i32::from(self.sitting.bounds().minutes.min(LONGEST))
    }

    fn share(&self, snippet: usize) -> &Share {
        &self.sitting.shares()[snippet]
    }

    /// Whether the rules allow the candidate next, whenever that is.
    pub fn may_follow(&self, row: &Row, index: usize, candidate: &Candidate) -> bool {
        let snippet = candidate.snippet;
        let is_played = |index| row.played & only(index) != 0;
        !row.is_closed
            && !is_played(index)
            && candidate.needs.is_none_or(is_played)
            && (row.last != Some(snippet) || self.is_alone)
            && (row.played & self.own[snippet]).count_ones() < self.share(snippet).blocks_left
    }

    /// The rows that end with this candidate, which may follow, and when it begins: with the pause that it asks for, or
    /// where it has to wait for less than a pause, without and with one.
    pub fn followed(&self, row: &Row, index: usize, candidate: &Candidate) -> [Option<(i32, Row)>; 2] {
        let bounds = self.sitting.bounds();
        let pause_ends = row.ends + i32::from(bounds.pause);
        let is_like = row.last.is_some_and(|last| self.like[last] & only(candidate.snippet) != 0);
        let ready = i32::from(row.rested[candidate.snippet]).max(row.ends).max(0);
        let ready = if is_like { ready.max(pause_ends) } else { ready };

        let running = row.running + candidate.minutes;
        let is_early = row.has_paused || row.running < bounds.early;
        let runs_on = row.last.is_none() || ready < pause_ends && running <= bounds.most_running && is_early;
        let without = runs_on.then_some((ready, running, row.has_paused));
        let with = (row.last.is_some() && (!runs_on || ready > row.ends)).then_some((
            ready.max(pause_ends),
            candidate.minutes,
            true,
        ));
        [without, with].map(|option| {
            let (begins, running, has_paused) = option?;
            let ends = begins + i32::from(candidate.minutes);
            let fits = ends <= self.minutes() && running <= bounds.most_running;
            let mut rested = row.rested;
            rested[candidate.snippet] = (ends + i32::from(self.share(candidate.snippet).rest)).min(255) as u8;
            let (played, last, is_closed) = (row.played | only(index), Some(candidate.snippet), candidate.closes);
            fits.then_some((begins, Row { played, rested, last, ends, running, has_paused, is_closed }))
        })
    }
}

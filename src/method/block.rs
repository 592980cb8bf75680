//! When a snippet may be practised: its blocks, its rests and its share of a day.
//!
//! Refuses to know how the blocks went.

use super::{Happening, Settings, What};
use crate::clock::Moment;

/// Whether the snippet may be practised now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A block may begin; so many have been played today.
    Ready { blocks_today: u32 },
    /// A block is being played.
    Practising { began: Moment, ends: Moment },
    /// What has just been practised is settling.
    Resting { until: Moment },
    /// All blocks of the day are played; the next one is for another day.
    EnoughToday,
}

/// One block that began, until its minutes were used, the player stopped or the next one began.
#[derive(Clone, Copy)]
struct Block {
    began: Moment,
    ends: Moment,
    stopped: bool,
    played: bool,
}

/// How the snippet stands at `now`. A block lasts for the minutes it began with, whether or not the page
/// stayed open; `settings` are those of today and say how long to rest. A block in which nothing was
/// played needs no rest and uses nothing up.
pub fn standing(history: &[Happening], settings: &Settings, now: Moment) -> Standing {
    let blocks = blocks(history);
    if let Some(last) = blocks.last().filter(|block| block.is_running(now)) {
        return Standing::Practising { began: last.began, ends: last.ends };
    }
    let played = || blocks.iter().filter(|block| block.played);
    let blocks_today = played().filter(|block| block.began.day() == now.day()).count() as u32;
    if blocks_today >= settings.blocks_a_day {
        return Standing::EnoughToday;
    }
    match played().next_back().and_then(|block| block.rest_until(settings, now)) {
        Some(until) => Standing::Resting { until },
        None => Standing::Ready { blocks_today },
    }
}

/// All blocks, the earliest first.
fn blocks(history: &[Happening]) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for happening in history {
        match (&happening.what, blocks.last_mut()) {
            (What::BlockBegan(settings), before) => {
                if let Some(before) = before {
                    before.end_at(happening.at);
                }
                let (began, ends) = (happening.at, happening.at.plus_minutes(settings.block_minutes));
                blocks.push(Block { began, ends, stopped: false, played: false });
            }
            (What::BlockEnded, Some(block)) => block.end_at(happening.at),
            (What::Played { .. }, Some(block)) => block.played = true,
            _ => {}
        }
    }
    blocks
}

impl Block {
    fn end_at(&mut self, at: Moment) {
        if !self.stopped {
            self.stopped = true;
            self.ends = self.ends.min(at);
        }
    }

    /// A block that begins after `now` was dated by a clock that has been set back since; it is taken for
    /// running only where it would have begun within its own length.
    fn is_running(&self, now: Moment) -> bool {
        let length = self.ends.ms_since(self.began);
        !self.stopped && now < self.ends && self.began.ms_since(now) < length
    }

    /// The end of the rest after this block, if it is not over. No rest is longer than the settings say,
    /// counted from now; an end that lies further ahead than that is a clock's mistake and asks for none.
    fn rest_until(&self, settings: &Settings, now: Moment) -> Option<Moment> {
        let longest = now.plus_minutes(settings.rest_minutes);
        let until = self.ends.plus_minutes(settings.rest_minutes);
        (now < until && self.ends < longest).then_some(until.min(longest))
    }
}

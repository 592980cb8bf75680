//! When a snippet may be practised: its blocks, its rests and its share of a day.

use crate::{
    clock::{Day, Moment},
    method::{Happening, HappeningKind, Settings, rules},
};

/// Whether the snippet may be practised now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// A block may begin; so many have been played today.
    Ready {
        /// Blocks of this day in which something was played.
        blocks_today: u32,
    },
    /// A block is being played.
    Practising {
        /// When the block began.
        began: Moment,
        /// When its minutes are used.
        ends: Moment,
    },
    /// What has just been practised is settling.
    Resting {
        /// When the next block may begin.
        until: Moment,
    },
    /// The next block is for another day.
    DoneToday(Done),
}

/// Why no more blocks follow today.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Done {
    /// All blocks of the day are played.
    BlocksPlayed,
    /// The player is content with it.
    GoodEnough,
    /// The player has left it out.
    LeftOut,
}

/// One block that began, until its minutes were used, the player stopped or the next one began.
#[derive(Clone, Copy)]
struct Block {
    began: Moment,
    ends: Moment,
    stopped: bool,
    played: bool,
    /// A repetition was judged after the minutes.
    judged_late: bool,
}

/// How the snippet stands at `now`. A block lasts for the minutes it began with, whether or not the page
/// stayed open; `settings` are those of today and say how long to rest. A block in which nothing was
/// played needs no rest and uses nothing up.
pub fn standing(history: &[Happening], settings: &Settings, now: Moment) -> Standing {
    if let Some((_, done)) = wish(history, now.day()) {
        return Standing::DoneToday(done);
    }
    let blocks = blocks(history);
    if let Some(last) = blocks.last().filter(|block| block.is_running(now)) {
        return Standing::Practising { began: last.began, ends: last.ends };
    }
    let played = || blocks.iter().filter(|block| block.played);
    let blocks_today = played().filter(|block| block.began.day() == now.day()).count() as u32;
    if rest_is_overruled(history, now.day()) {
        return Standing::Ready { blocks_today };
    }
    if blocks_today >= settings.blocks_a_day {
        return Standing::DoneToday(Done::BlocksPlayed);
    }
    match played().next_back().and_then(|block| block.rest_until(settings, now)) {
        Some(until) => Standing::Resting { until },
        None => Standing::Ready { blocks_today },
    }
}

/// What the player has said on the day `today` about the rest of it, and its place in the history: good enough, or not
/// this one. A player who starts it again anyway has changed their mind.
pub fn wish(history: &[Happening], today: Day) -> Option<(usize, Done)> {
    let (index, last) = history.iter().enumerate().rev().find(|(_, happening)| {
        matches!(happening.kind, HappeningKind::GoodEnough | HappeningKind::NotToday | HappeningKind::BlockBegan(_))
    })?;
    let done = match last.kind {
        HappeningKind::GoodEnough => Done::GoodEnough,
        HappeningKind::NotToday => Done::LeftOut,
        _ => return None,
    };
    (last.at.day() == today).then_some((index, done))
}

/// Whether the player has said on the day `today` that the next block need not wait for the end of the rest,
/// nor for another day. It holds for one block.
pub fn rest_is_overruled(history: &[Happening], today: Day) -> bool {
    let counts =
        |happening: &&Happening| matches!(happening.kind, HappeningKind::RestOverruled | HappeningKind::BlockBegan(_));
    let last = history.iter().rev().find(counts);
    last.is_some_and(|last| last.kind == HappeningKind::RestOverruled && last.at.day() == today)
}

/// The end of the block whose minutes were used just now, while its last repetition may still be judged.
pub fn in_grace(history: &[Happening], now: Moment) -> Option<Moment> {
    let last = blocks(history).pop().filter(|block| !block.stopped && !block.judged_late)?;
    (0..rules::GRACE_MS).contains(&now.ms_since(last.ends)).then_some(last.ends)
}

/// Whether the happening at `index` is the end of a block whose minutes were used before.
pub fn ended_late(history: &[Happening], index: usize) -> bool {
    let ended = &history[index];
    let began = history[..index].iter().rev().find_map(|happening| match happening.kind {
        HappeningKind::BlockBegan(settings) => Some(happening.at.plus_minutes(settings.block_minutes)),
        _ => None,
    });
    ended.kind == HappeningKind::BlockEnded && began.is_some_and(|ends| ended.at >= ends)
}

/// The blocks of a day in which something was played, as far as they have come: when each began, and when it ended or will
/// end.
pub fn played_on(history: &[Happening], day: Day) -> Vec<(Moment, Moment)> {
    let played = blocks(history).into_iter().filter(|block| block.played && block.began.day() == day);
    played.map(|block| (block.began, block.ends)).collect()
}

/// All blocks, the earliest first.
fn blocks(history: &[Happening]) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    for happening in history {
        match (&happening.kind, blocks.last_mut()) {
            (HappeningKind::BlockBegan(settings), before) => {
                if let Some(before) = before {
                    before.end_at(happening.at);
                }
                let (began, ends) = (happening.at, happening.at.plus_minutes(settings.block_minutes));
                blocks.push(Block { began, ends, stopped: false, played: false, judged_late: false });
            }
            (HappeningKind::BlockEnded | HappeningKind::GoodEnough | HappeningKind::NotToday, Some(block)) => {
                block.end_at(happening.at)
            }
            (HappeningKind::Played { .. }, Some(block)) => {
                block.played = true;
                block.judged_late |= happening.at > block.ends;
            }
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

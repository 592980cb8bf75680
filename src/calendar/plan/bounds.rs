//! How long, and when to pause.

/// Minutes of a sitting.
pub type Minutes = u16;

/// What bounds a sitting.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Bounds {
    /// From now to the end.
    pub minutes: Minutes,
    /// Most minutes played without a pause.
    pub most_running: Minutes,
    /// Least minutes of a pause, away from the instrument.
    pub pause: Minutes,
    /// Before the first pause no block begins after so many minutes of playing.
    pub early: Minutes,
}

impl Bounds {
    /// The usual bounds of so many minutes.
    ///
    /// Five minutes after twenty-five of playing are advised by Klickstein ("The Musician's Way", 2009; "Taking breaks",
    /// 2011). An early rest of five minutes, free of other playing, gave the largest gain over night (Cash 2009; Duke,
    /// Allen, Cash & Simmons 2009; Simmons et al. 2019), in training of twelve short blocks; that it follows the first ten
    /// minutes here is chosen. It is the pause that is due anyway, only earlier: a sitting that needs none has none.
    pub fn usual(minutes: Minutes) -> Self {
        const MOST_RUNNING: Minutes = 25;
        let early = if minutes > MOST_RUNNING { 10 } else { MOST_RUNNING };
        Bounds { minutes, most_running: MOST_RUNNING, pause: 5, early }
    }

    /// Most minutes that can be played in those that `remain`, where so many have been played without a pause.
    pub(super) fn playable(self, remain: i32, running: Minutes) -> i32 {
        let (most, pause) = (i32::from(self.most_running), i32::from(self.pause));
        let before_pause = (most - i32::from(running)).max(0);
        let after = remain - before_pause - pause;
        if after <= 0 {
            return remain.min(before_pause);
        }
        let round = most + pause;
        before_pause + after / round * most + (after % round).min(most)
    }
}

//! What each snippet has to gain today, as the blocks of a sitting.

use crate::calendar::plan::{Bounds, Candidate, Minutes, Share, Sitting, SoFar};

/// How long the last touch of the day's most important snippet takes, in minutes. Chosen.
const LAST_TOUCH: Minutes = 2;
/// What it is worth of what the snippet's first block is worth. Playing the target again at the end brought back the gain
/// of the night that something similar had taken (Allen 2013); that it is worth as much as the block is chosen.
const LAST_TOUCH_WORTH: f64 = 1.0;

/// What one snippet has to gain in a sitting.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Offer {
    /// What it may have.
    pub share: Share,
    /// How long each of its blocks takes, at least 1.
    pub minutes: Minutes,
    /// What its next blocks are worth, in their order, each ≥ 0. The first begins with a cold try where none was heard
    /// today.
    pub gains: Vec<f64>,
    /// Whether that cold try is due.
    pub is_due: bool,
    /// Whether it has been practised today, so that it can be touched once more at the end without being planned before.
    pub was_practised: bool,
}

impl Sitting {
    /// The sitting in which these can be had: the blocks of each snippet in their order, and a last touch of the one that
    /// has most to gain; `None` where [`Sitting::new`] says so.
    pub fn of(bounds: Bounds, offers: &[Offer], so_far: SoFar) -> Option<Self> {
        let mut candidates: Vec<Candidate> = Vec::new();
        let mut last_touch: Option<Candidate> = None;
        for (snippet, offer) in offers.iter().enumerate() {
            let first = candidates.len();
            for (nth, worth) in offer.gains.iter().enumerate() {
                let needs = (nth > 0).then(|| candidates.len() - 1);
                let (minutes, worth, is_due) = (offer.minutes, *worth, offer.is_due && nth == 0);
                candidates.push(Candidate { snippet, minutes, worth, needs, closes: false, is_due });
            }
            let worth = LAST_TOUCH_WORTH * offer.gains.first().copied().unwrap_or(0.0);
            if worth > 0.0 && last_touch.is_none_or(|touch| touch.worth < worth) {
                let needs = (!offer.was_practised).then_some(first);
                last_touch =
                    Some(Candidate { snippet, minutes: LAST_TOUCH, worth, needs, closes: true, is_due: false });
            }
        }
        candidates.extend(last_touch);
        Sitting::new(bounds, offers.iter().map(|offer| offer.share.clone()).collect(), candidates, so_far)
    }
}

//! What the player has set about how to practise, and within which bounds.

use std::ops::RangeInclusive;

/// How much certainty the player wants before a step counts as secure.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum Strictness {
    /// Move on early; what is shaky comes back.
    Lenient,
    /// Between the two.
    #[default]
    Usual,
    /// Move on late; what is left behind holds.
    Strict,
}

/// The settings that the method reads.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Settings {
    /// How much certainty the player wants.
    pub strictness: Strictness,
    /// Focused minutes one snippet gets before it must rest, in [`Settings::BLOCK_MINUTES`].
    pub block_minutes: u32,
    /// Least minutes between two blocks of a snippet, in [`Settings::REST_MINUTES`].
    pub rest_minutes: u32,
    /// Most blocks of a snippet in a day, in [`Settings::BLOCKS_A_DAY`].
    pub blocks_a_day: u32,
}

impl Settings {
    /// Minutes a block may be given.
    pub const BLOCK_MINUTES: RangeInclusive<u32> = 1..=30;
    /// Minutes a rest may be given.
    pub const REST_MINUTES: RangeInclusive<u32> = 1..=120;
    /// Blocks a snippet may be given in a day.
    pub const BLOCKS_A_DAY: RangeInclusive<u32> = 1..=10;
}

impl Default for Settings {
    /// Five minutes: common practice, no source. A rest of 15 minutes and three blocks a day: the
    /// method's own choice; no published value exists for a played excerpt.
    fn default() -> Self {
        Settings { strictness: Strictness::Usual, block_minutes: 5, rest_minutes: 15, blocks_a_day: 3 }
    }
}

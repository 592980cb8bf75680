//! What the player has set about how to practise.

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
    /// Focused minutes one snippet gets before it must rest, 1..=30.
    pub block_minutes: u32,
    /// Least minutes between two blocks of a snippet, 1..=120.
    pub rest_minutes: u32,
    /// Most blocks of a snippet in a day, 1..=10.
    pub blocks_a_day: u32,
}

impl Default for Settings {
    /// Five minutes: common practice, no source. A rest of 15 minutes and three blocks a day: the
    /// method's own choice; no published value exists for a played excerpt.
    fn default() -> Self {
        Settings { strictness: Strictness::Usual, block_minutes: 5, rest_minutes: 15, blocks_a_day: 3 }
    }
}

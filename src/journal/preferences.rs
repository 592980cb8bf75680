//! What the player has set: a [`Preference`] is one change, [`Preferences`] are the current values.

use crate::{
    method::{Settings, Strictness},
    pulse::Click,
};
use std::ops::RangeInclusive;

/// The look of the page.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Theme {
    /// As the device is set.
    #[default]
    Device,
    /// Ink on warm paper.
    Paper,
    /// Cream on near-black blue.
    Stage,
}

/// One change of a preference.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Preference {
    /// How much certainty the player wants.
    Strictness(Strictness),
    /// Minutes a block lasts, in [`Settings::BLOCK_MINUTES`].
    BlockMinutes(u32),
    /// Least minutes between two blocks of a snippet, in [`Settings::REST_MINUTES`].
    RestMinutes(u32),
    /// Most blocks of a snippet a day, in [`Settings::BLOCKS_A_DAY`].
    BlocksADay(u32),
    /// When the click is heard.
    Click(Click),
    /// How the page looks.
    Theme(Theme),
}

/// The current value of every preference.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Preferences {
    /// What the method reads.
    pub method: Settings,
    /// When the click is heard.
    pub click: Click,
    /// How the page looks.
    pub theme: Theme,
}

impl Preferences {
    /// Takes one change in. Numbers are clamped to their range.
    pub fn set(&mut self, preference: Preference) {
        match preference {
            Preference::Strictness(strictness) => self.method.strictness = strictness,
            Preference::BlockMinutes(minutes) => self.method.block_minutes = within(Settings::BLOCK_MINUTES, minutes),
            Preference::RestMinutes(minutes) => self.method.rest_minutes = within(Settings::REST_MINUTES, minutes),
            Preference::BlocksADay(blocks) => self.method.blocks_a_day = within(Settings::BLOCKS_A_DAY, blocks),
            Preference::Click(click) => self.click = click,
            Preference::Theme(theme) => self.theme = theme,
        }
    }
}

fn within(range: RangeInclusive<u32>, number: u32) -> u32 {
    number.clamp(*range.start(), *range.end())
}

//! What the player has set: one [`Setting`] is one change, [`Preferences`] is where they stand.

use crate::{
    method::{Settings, Strictness},
    pulse::Click,
};

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
pub enum Setting {
    Strictness(Strictness),
    BlockMinutes(u32),
    RestMinutes(u32),
    BlocksADay(u32),
    Click(Click),
    Theme(Theme),
}

/// All preferences as they stand.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Preferences {
    pub method: Settings,
    pub click: Click,
    pub theme: Theme,
}

impl Preferences {
    /// Takes one change in. Numbers out of range are brought to the nearest end of it.
    pub fn set(&mut self, setting: Setting) {
        match setting {
            Setting::Strictness(strictness) => self.method.strictness = strictness,
            Setting::BlockMinutes(minutes) => self.method.block_minutes = minutes.clamp(1, 30),
            Setting::RestMinutes(minutes) => self.method.rest_minutes = minutes.clamp(1, 120),
            Setting::BlocksADay(blocks) => self.method.blocks_a_day = blocks.clamp(1, 10),
            Setting::Click(click) => self.click = click,
            Setting::Theme(theme) => self.theme = theme,
        }
    }
}

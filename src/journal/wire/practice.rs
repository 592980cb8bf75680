//! Snippets and steps as they are written in the file.

use crate::{
    journal::wire::{Name, Text, Unread, music as written},
    method::{self, Direction, Grain, Hands, Span},
    music::{Bpm, Hand},
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Snippet {
    name: String,
    passage: written::Passage,
    goal: usize,
    #[serde(default = "toward_goal")]
    direction: Name<Direction>,
    #[serde(default = "by_onsets", skip_serializing_if = "grows_by_onsets")]
    grain: Name<Grain>,
    hard_hand: Name<Hand>,
    tempo: written::Tempo,
}

fn toward_goal() -> Name<Direction> {
    Name::Known(Direction::TowardGoal)
}

fn by_onsets() -> Name<Grain> {
    Name::Known(Grain::Onset)
}

fn grows_by_onsets(grain: &Name<Grain>) -> bool {
    *grain == by_onsets()
}

impl Snippet {
    /// Leaves out what only a later version knows and this one can do without; says whether there was any. The snippet
    /// can still be practised.
    pub fn leave_later_values_out(&mut self) -> bool {
        let signs = self.passage.leave_later_signs_out();
        let (direction, grain) = (self.direction.is_later(), self.grain.is_later());
        if direction {
            self.direction = toward_goal();
        }
        if grain {
            self.grain = by_onsets();
        }
        signs || direction || grain
    }
}

impl From<&method::Snippet> for Snippet {
    fn from(snippet: &method::Snippet) -> Snippet {
        Snippet {
            name: snippet.name().into(),
            passage: snippet.passage().into(),
            goal: snippet.goal(),
            direction: Name::Known(snippet.direction()),
            grain: Name::Known(snippet.grain()),
            hard_hand: Name::Known(snippet.hard_hand()),
            tempo: snippet.tempo().into(),
        }
    }
}

impl TryFrom<Snippet> for method::Snippet {
    type Error = Unread;
    fn try_from(raw: Snippet) -> Result<Self, Unread> {
        let snippet = method::Snippet::new(raw.name, raw.passage.try_into()?, raw.goal, raw.tempo.try_into()?)?;
        let snippet = snippet.growing(raw.direction.known()?).growing_by(raw.grain.known()?);
        Ok(snippet.led_by(raw.hard_hand.known()?))
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Step {
    span: Text<Span>,
    hands: Name<Hands>,
    bpm: u16,
}

impl From<method::Step> for Step {
    fn from(step: method::Step) -> Step {
        Step { span: Text(step.span), hands: Name::Known(step.hands), bpm: step.bpm.get() }
    }
}

impl TryFrom<Step> for method::Step {
    type Error = Unread;
    fn try_from(step: Step) -> Result<Self, Unread> {
        Ok(method::Step { span: step.span.0, hands: step.hands.known()?, bpm: Bpm::try_from(step.bpm)? })
    }
}

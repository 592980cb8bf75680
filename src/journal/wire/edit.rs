//! Changes of single fields as they are written in the file: a field that is not there stays as it was.

use crate::{
    clock::Day,
    journal,
    journal::wire::{Name, Text, Unread, music as written},
    method::{Direction, Grain},
    music::Hand,
};
use serde::{Deserialize, Deserializer, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceEdit {
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    title: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    composer: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    tempo: Option<Option<written::Tempo>>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    date: Option<Option<Text<Day>>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SnippetEdit {
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    name: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    goal: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    direction: Option<Name<Direction>>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    grain: Option<Name<Grain>>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    hard_hand: Option<Name<Hand>>,
    #[serde(default, skip_serializing_if = "Option::is_none", deserialize_with = "there")]
    tempo: Option<written::Tempo>,
}

/// A field that is there, if only as a `null`, which takes the value away.
fn there<'de, T: Deserialize<'de>, D: Deserializer<'de>>(from: D) -> Result<Option<T>, D::Error> {
    T::deserialize(from).map(Some)
}

impl SnippetEdit {
    /// Leaves out what only a later version knows and this one can do without; says whether there was any.
    pub fn leave_later_values_out(&mut self) -> bool {
        let direction = self.direction.take_if(|direction| direction.is_later()).is_some();
        let grain = self.grain.take_if(|grain| grain.is_later()).is_some();
        direction || grain
    }
}

impl From<&journal::PieceEdit> for PieceEdit {
    fn from(edit: &journal::PieceEdit) -> PieceEdit {
        PieceEdit {
            title: edit.title.clone(),
            composer: edit.composer.clone(),
            tempo: edit.tempo.map(|tempo| tempo.map(written::Tempo::from)),
            date: edit.date.map(|date| date.map(Text)),
        }
    }
}

impl TryFrom<PieceEdit> for journal::PieceEdit {
    type Error = Unread;
    fn try_from(edit: PieceEdit) -> Result<Self, Unread> {
        let tempo = edit.tempo.map(|tempo| tempo.map(TryInto::try_into).transpose()).transpose()?;
        let date = edit.date.map(|date| date.map(|date| date.0));
        Ok(journal::PieceEdit { title: edit.title, composer: edit.composer, tempo, date })
    }
}

impl From<&journal::SnippetEdit> for SnippetEdit {
    fn from(edit: &journal::SnippetEdit) -> SnippetEdit {
        SnippetEdit {
            name: edit.name.clone(),
            // A passage has far fewer onsets than that.
            goal: edit.goal.and_then(|goal| u32::try_from(goal).ok()),
            direction: edit.direction.map(Name::Known),
            grain: edit.grain.map(Name::Known),
            hard_hand: edit.hard_hand.map(Name::Known),
            tempo: edit.tempo.map(written::Tempo::from),
        }
    }
}

impl TryFrom<SnippetEdit> for journal::SnippetEdit {
    type Error = Unread;
    fn try_from(edit: SnippetEdit) -> Result<Self, Unread> {
        Ok(journal::SnippetEdit {
            name: edit.name,
            goal: edit.goal.map(|goal| goal as usize),
            direction: edit.direction.map(Name::known).transpose()?,
            grain: edit.grain.map(Name::known).transpose()?,
            hard_hand: edit.hard_hand.map(Name::known).transpose()?,
            tempo: edit.tempo.map(TryInto::try_into).transpose()?,
        })
    }
}

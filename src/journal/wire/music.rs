//! Passages, tempi and the player's marks as they are written in the file.

use crate::{
    journal::wire::{Name, Text, Unread, default_of, is_default},
    music::{self, Bpm, Hand, Meter, NoteValue, Quarters, passage::Articulation, pitch::Letter},
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tempo {
    beat: BeatUnit,
    bpm: u16,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct BeatUnit {
    value: Name<NoteValue>,
    #[serde(default, skip_serializing_if = "is_default")]
    dots: u8,
}

impl From<music::Tempo> for Tempo {
    fn from(tempo: music::Tempo) -> Tempo {
        let music::BeatUnit { value, dots } = tempo.beat;
        Tempo { beat: BeatUnit { value: Name::Known(value), dots }, bpm: tempo.bpm.get() }
    }
}

impl TryFrom<Tempo> for music::Tempo {
    type Error = Unread;
    fn try_from(tempo: Tempo) -> Result<Self, Unread> {
        let beat = music::BeatUnit::new(tempo.beat.value.known()?, tempo.beat.dots);
        Ok(music::Tempo { beat, bpm: Bpm::try_from(tempo.bpm)? })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Pitch {
    letter: Name<Letter>,
    #[serde(default, skip_serializing_if = "is_default")]
    alter: i8,
    octave: i8,
}

impl From<music::Pitch> for Pitch {
    fn from(pitch: music::Pitch) -> Pitch {
        Pitch { letter: Name::Known(pitch.letter), alter: pitch.alter, octave: pitch.octave }
    }
}

impl TryFrom<Pitch> for music::Pitch {
    type Error = Unread;
    fn try_from(pitch: Pitch) -> Result<Self, Unread> {
        Ok(music::Pitch { letter: pitch.letter.known()?, alter: pitch.alter, octave: pitch.octave })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Note {
    hand: Name<Hand>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pitch: Option<Pitch>,
    lasts: Text<Quarters>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    fingering: Option<String>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    articulations: Vec<Name<Articulation>>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    graces: Vec<Pitch>,
}

impl From<&music::Note> for Note {
    fn from(note: &music::Note) -> Note {
        Note {
            hand: Name::Known(note.hand),
            pitch: note.pitch.map(Pitch::from),
            lasts: Text(note.lasts),
            fingering: note.fingering.clone(),
            articulations: note.articulations.iter().copied().map(Name::Known).collect(),
            graces: note.graces.iter().copied().map(Pitch::from).collect(),
        }
    }
}

impl TryFrom<Note> for music::Note {
    type Error = Unread;
    fn try_from(note: Note) -> Result<Self, Unread> {
        Ok(music::Note {
            hand: note.hand.known()?,
            pitch: note.pitch.map(music::Pitch::try_from).transpose()?,
            lasts: note.lasts.0,
            fingering: note.fingering,
            articulations: note.articulations.into_iter().map(Name::known).collect::<Result<_, _>>()?,
            graces: note.graces.into_iter().map(music::Pitch::try_from).collect::<Result<_, _>>()?,
        })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Onset {
    at: Text<Quarters>,
    notes: Vec<Note>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    dynamic: Option<String>,
}

impl From<&music::Onset> for Onset {
    fn from(onset: &music::Onset) -> Onset {
        let notes = onset.notes.iter().map(Note::from).collect();
        Onset { at: Text(onset.at), notes, dynamic: onset.dynamic.clone() }
    }
}

impl TryFrom<Onset> for music::Onset {
    type Error = Unread;
    fn try_from(onset: Onset) -> Result<Self, Unread> {
        let notes = onset.notes.into_iter().map(music::Note::try_from).collect::<Result<_, _>>()?;
        Ok(music::Onset { at: onset.at.0, notes, dynamic: onset.dynamic })
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Bar {
    number: String,
    start: Text<Quarters>,
    length: Text<Quarters>,
    meter: Text<Meter>,
    #[serde(default = "default_of", skip_serializing_if = "is_default")]
    missing: Text<Quarters>,
}

impl From<&music::Bar> for Bar {
    fn from(bar: &music::Bar) -> Bar {
        Bar {
            number: bar.number.clone(),
            start: Text(bar.start),
            length: Text(bar.length),
            meter: Text(bar.meter),
            missing: Text(bar.missing),
        }
    }
}

impl From<Bar> for music::Bar {
    fn from(bar: Bar) -> music::Bar {
        music::Bar {
            number: bar.number,
            start: bar.start.0,
            length: bar.length.0,
            meter: bar.meter.0,
            missing: bar.missing.0,
        }
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Passage {
    bars: Vec<Bar>,
    onsets: Vec<Onset>,
}

impl Passage {
    /// Leaves out the signs that only a later version knows; says whether there were any.
    pub fn leave_later_signs_out(&mut self) -> bool {
        let mut any = false;
        for note in self.onsets.iter_mut().flat_map(|onset| &mut onset.notes) {
            let all = note.articulations.len();
            note.articulations.retain(|sign| !sign.is_later());
            any |= note.articulations.len() < all;
        }
        any
    }
}

impl From<&music::Passage> for Passage {
    fn from(passage: &music::Passage) -> Passage {
        Passage {
            bars: passage.bars().iter().map(Bar::from).collect(),
            onsets: passage.onsets().iter().map(Onset::from).collect(),
        }
    }
}

impl TryFrom<Passage> for music::Passage {
    type Error = Unread;
    fn try_from(passage: Passage) -> Result<Self, Unread> {
        let bars = passage.bars.into_iter().map(music::Bar::from).collect();
        let onsets = passage.onsets.into_iter().map(music::Onset::try_from).collect::<Result<_, _>>()?;
        Ok(music::Passage::new(bars, onsets)?)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Marks {
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    fingers: BTreeMap<Name<Hand>, String>,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    reminder: String,
}

impl From<&music::Marks> for Marks {
    fn from(marks: &music::Marks) -> Marks {
        let fingers = marks.fingers.iter().map(|(hand, fingers)| (Name::Known(*hand), fingers.clone()));
        Marks { fingers: fingers.collect(), reminder: marks.reminder.clone() }
    }
}

impl TryFrom<Marks> for music::Marks {
    type Error = Unread;
    fn try_from(marks: Marks) -> Result<Self, Unread> {
        let fingers = marks.fingers.into_iter().map(|(hand, fingers)| Ok((hand.known()?, fingers)));
        Ok(music::Marks { fingers: fingers.collect::<Result<_, Unread>>()?, reminder: marks.reminder })
    }
}

//! The voices of a bar: each note, chord and rest in its own, in order of position.
//!
//! Files reuse the name of a voice on another staff, leave it out, or step back inside it. Whatever
//! would stand on top of another event of its voice is given a voice beside it, named `1/2` after the
//! voice and the staff.

use crate::{
    music::{
        Pitch, Quarters,
        musicxml::lengths::plus,
        written::{Event, Head, Kind, Voice},
    },
    sort,
};
use std::collections::{HashMap, HashSet};

/// Far more than are printed beside each other under one name on one staff.
const MOST_BESIDE: usize = 8;
/// Far more than are printed in a bar of one part, on any of its staves.
const MOST_VOICES: usize = 64;
/// Far more than are printed before one note.
pub(super) const MOST_GRACES: usize = 32;

/// Where an event stands in the bar: index of its voice and its index there.
pub(super) type EventIndex = (usize, usize);

/// The names of voices that also run on another staff at the same time, with that staff.
pub(super) type Beside = HashSet<(String, u8)>;

/// The voices of the bar that is being read.
#[derive(Default)]
pub(super) struct Voices {
    voices: Vec<Voice>,
    index: HashMap<String, usize>,
    /// The event that a `chord` note belongs to.
    chord: Option<EventIndex>,
}

impl Voices {
    /// To be called before each note that is no chord's further note.
    pub(super) fn end_chord(&mut self) {
        self.chord = None;
    }

    /// Puts an event in its voice and says where; `None` where there is no room left.
    pub(super) fn put(&mut self, name: &str, staff: u8, event: Event, beside: &mut Beside) -> Option<EventIndex> {
        let known = !beside.is_empty() && beside.contains(&(name.to_owned(), staff));
        let lane = (usize::from(known)..MOST_BESIDE).find_map(|lane| {
            let lane_name = lane_name(name, staff, lane);
            let place = self.index.get(&lane_name).copied();
            match place.and_then(|place| self.voices[place].events.last()) {
                Some(last) if end_of(last) > event.at => {
                    if lane == 0 && staff_of(last) != staff {
                        beside.insert((name.to_owned(), staff));
                    }
                    None
                }
                _ => place.or_else(|| self.open(lane_name)),
            }
        })?;
        let events = &mut self.voices[lane].events;
        if event.grace.is_some() && graces_at_end(events, event.at) >= MOST_GRACES {
            return None;
        }
        events.push(event);
        let place = (lane, self.voices[lane].events.len() - 1);
        self.chord = Some(place);
        Some(place)
    }

    /// A further voice, where there is room for one.
    fn open(&mut self, name: String) -> Option<usize> {
        if self.voices.len() == MOST_VOICES {
            return None;
        }
        self.index.insert(name.clone(), self.voices.len());
        self.voices.push(Voice { name, events: Vec::new() });
        Some(self.voices.len() - 1)
    }

    /// The open chord with what belongs to it, to take a further note.
    pub(super) fn open_chord(&mut self) -> Option<(EventIndex, &mut Event)> {
        let (voice, event) = self.chord?;
        Some(((voice, event), &mut self.voices[voice].events[event]))
    }

    /// The voices, heads in order of place.
    pub(super) fn finish(mut self) -> Vec<Voice> {
        for event in self.voices.iter_mut().flat_map(|voice| &mut voice.events) {
            if let Kind::Notes(heads) = &mut event.kind {
                from_lowest(heads);
            }
        }
        self.voices
    }
}

/// How many grace notes the events end with at a place, counted no further than matters.
fn graces_at_end(events: &[Event], at: Quarters) -> usize {
    let graces = events.iter().rev().take_while(|event| event.grace.is_some() && event.at == at);
    graces.take(MOST_GRACES).count()
}

/// Puts the heads of a chord in order of place.
pub(super) fn from_lowest(heads: &mut [Head]) {
    sort::by_key(heads, |head| (head.place, head.pitch.map(Pitch::midi)));
}

fn lane_name(name: &str, staff: u8, lane: usize) -> String {
    match lane {
        0 => name.to_owned(),
        1 => format!("{name}/{staff}"),
        _ => format!("{name}/{staff}/{lane}"),
    }
}

pub(super) fn staff_of(event: &Event) -> u8 {
    match &event.kind {
        Kind::Notes(heads) => heads.first().map_or(1, |head| head.staff),
        Kind::Rest { staff, .. } => *staff,
    }
}

/// How many notes of its voice each event stands before its main note; 0 for all but grace notes.
pub(super) fn grace_counts(events: &[Event]) -> Vec<u8> {
    let mut counts = vec![0; events.len()];
    let mut before_main: u8 = 0;
    for (index, event) in events.iter().enumerate().rev() {
        let follows = events.get(index + 1).is_some_and(|next| next.at == event.at);
        before_main = match (&event.grace, follows) {
            (None, _) => 0,
            (Some(_), true) => before_main.saturating_add(1),
            (Some(_), false) => 1,
        };
        counts[index] = before_main;
    }
    counts
}

/// Where an event is over.
pub(super) fn end_of(event: &Event) -> Quarters {
    plus(event.at, event.lasts)
}

//! What a player writes into the music at an onset: fingers, and a word to oneself.
//!
//! Refuses to know how it is kept and how it is drawn.

use super::{
    Hand, Part, Quarters,
    written::{Head, Kind},
};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// Longest fingering of one hand at one onset, and longest reminder, in characters.
pub const LONGEST_FINGERS: usize = 16;
pub const LONGEST_REMINDER: usize = 120;

/// The player's own marks at one onset. They stand instead of what is printed there.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Marks {
    /// Of each hand that the player fingered: the lowest note's finger first, parted by blanks.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub fingers: BTreeMap<Hand, String>,
    /// Position, motion, what to mind. Empty for none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub reminder: String,
}

impl Marks {
    /// Whether nothing is written.
    pub fn is_empty(&self) -> bool {
        self.fingers.is_empty() && self.reminder.is_empty()
    }
}

/// Writes the fingers into a part: to the notes that begin at `at`, in quarters from the part's start,
/// on the staves of each hand. `hands[0]` plays the uppermost staff.
pub fn pencil_in(part: &mut Part, hands: &[Hand], at: Quarters, marks: &Marks) {
    let mut start = Quarters::ZERO;
    for bar in &mut part.bars {
        for (hand, fingers) in marks.fingers.iter().filter(|_| start <= at && at < start + bar.length) {
            let plays = |head: &Head| hands.get(usize::from(head.staff).wrapping_sub(1)) == Some(hand);
            let events = bar.written.voices.iter_mut().flat_map(|voice| &mut voice.events);
            let struck = events.filter(|event| event.grace.is_none() && start + event.at == at);
            let heads = struck.filter_map(|event| match &mut event.kind {
                Kind::Notes(heads) => Some(heads),
                Kind::Rest { .. } => None,
            });
            let mut heads: Vec<&mut Head> = heads.flatten().filter(|head| !head.tied_from && plays(head)).collect();
            heads.sort_by_key(|head| head.place);
            finger(&mut heads, fingers);
        }
        start += bar.length;
    }
}

/// Gives each note its finger; what cannot be shared out stands at the top note.
fn finger(heads: &mut [&mut Head], fingers: &str) {
    let each: Vec<&str> = fingers.split_whitespace().collect();
    heads.iter_mut().for_each(|head| head.fingering = None);
    if each.len() == heads.len() {
        heads.iter_mut().zip(each).for_each(|(head, finger)| head.fingering = Some(finger.into()));
    } else if let Some(top) = heads.last_mut().filter(|_| !each.is_empty()) {
        top.fingering = Some(each.join(" "));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::{Bar, Meter, Note, Onset, Passage, Pitch, notate, pitch::Letter};

    fn chord_and_note() -> Passage {
        let note = |letter, hand| Note {
            pitch: Some(Pitch { letter, alter: 0, octave: 4 }),
            ..Note::unpitched(hand, Quarters::whole(2))
        };
        let bar = Bar {
            number: "1".into(),
            start: Quarters::ZERO,
            length: Quarters::whole(4),
            meter: Meter::COMMON,
            missing: Quarters::ZERO,
        };
        let chord = vec![note(Letter::G, Hand::Right), note(Letter::C, Hand::Right), note(Letter::C, Hand::Left)];
        let onsets = vec![
            Onset { at: Quarters::ZERO, notes: chord, dynamic: None },
            Onset { at: Quarters::whole(2), notes: vec![note(Letter::E, Hand::Right)], dynamic: None },
        ];
        Passage::new(vec![bar], onsets).expect("a passage")
    }

    /// The fingers on a staff, the lowest note first, event by event.
    fn fingers(part: &Part, staff: u8) -> Vec<Option<&str>> {
        let events = part.bars[0].written.voices.iter().flat_map(|voice| &voice.events);
        let heads = events.filter_map(|event| match &event.kind {
            Kind::Notes(heads) => Some(heads),
            Kind::Rest { .. } => None,
        });
        heads.flatten().filter(|head| head.staff == staff).map(|head| head.fingering.as_deref()).collect()
    }

    #[test]
    fn fingers_go_to_the_notes_of_their_hand_from_the_lowest() {
        let (mut part, hands) = notate(&chord_and_note());
        let marks = |text: &str| Marks { fingers: [(Hand::Right, text.to_string())].into(), ..Marks::default() };
        pencil_in(&mut part, &hands, Quarters::ZERO, &marks("1 5"));
        assert_eq!(fingers(&part, 1), [Some("1"), Some("5"), None]);
        assert_eq!(fingers(&part, 2), [None]);
        pencil_in(&mut part, &hands, Quarters::ZERO, &marks("5"));
        assert_eq!(fingers(&part, 1), [None, Some("5"), None]);
        pencil_in(&mut part, &hands, Quarters::ZERO, &marks(""));
        assert_eq!(fingers(&part, 1), [None, None, None]);
    }
}

//! The page that a passage is read from: its notation, and who plays which staff.

use crate::{
    music::{
        Hand, Located, Marks, Part, Passage, Quarters, Score, locate,
        notate::notate,
        written::{Event, Head, Kind},
    },
    sort,
};

/// The printed bars of a passage.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PrintedPage {
    /// Its bars are those of the passage.
    pub part: Part,
    /// Who plays each staff, the uppermost first.
    pub hands: Vec<Hand>,
}

impl PrintedPage {
    /// The page of a passage: from the score it was cut from where that is at hand, else written out
    /// from the passage itself.
    pub fn of(passage: &Passage, score: Option<&Score>) -> PrintedPage {
        let located = score.and_then(|score| Some((score, locate(score, passage)?)));
        let (part, hands) = match located {
            Some((score, Located { part, bars, hands })) => (score.parts[part].excerpt(bars), hands),
            None => notate(passage),
        };
        PrintedPage { part, hands }
    }

    /// Who plays the staff; 1 is the uppermost.
    pub fn hand(&self, staff: u8) -> Option<Hand> {
        self.hands.get(usize::from(staff).checked_sub(1)?).copied()
    }

    /// Writes the player's fingers to the notes that begin at `at`, in quarters from the first bar.
    pub fn pencil_in(&mut self, at: Quarters, marks: &Marks) {
        let hands = &self.hands;
        let mut start = Quarters::ZERO;
        for bar in &mut self.part.bars {
            let voices = bar.written.voices.iter_mut().filter(|_| start <= at && at < start + bar.length);
            let struck = |event: &&mut Event| event.grace.is_none() && start + event.at == at;
            let heads = voices.flat_map(|voice| &mut voice.events).filter(struck).filter_map(heads).flatten();
            let mut heads: Vec<&mut Head> = heads.filter(|head| !head.tied_from).collect();
            sort::by_key(&mut heads, |head| head.place);
            for (hand, fingers) in &marks.fingers {
                let plays = |head: &&mut &mut Head| hands.get(usize::from(head.staff).wrapping_sub(1)) == Some(hand);
                finger(&mut heads.iter_mut().filter(plays).collect::<Vec<_>>(), fingers);
            }
            start += bar.length;
        }
    }
}

fn heads(event: &mut Event) -> Option<&mut Vec<Head>> {
    match &mut event.kind {
        Kind::Notes(heads) => Some(heads),
        Kind::Rest { .. } => None,
    }
}

/// Gives each note its finger, the lowest first; what cannot be distributed stands at the top note.
fn finger(heads: &mut [&mut &mut Head], fingers: &str) {
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
    use crate::music::{Bar, Meter, Note, Onset, Pitch, pitch::Letter, study};

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
    fn fingers(page: &mut PrintedPage, staff: u8) -> Vec<Option<String>> {
        let events = page.part.bars[0].written.voices.iter_mut().flat_map(|voice| &mut voice.events);
        let heads = events.filter_map(heads).flatten().filter(|head| head.staff == staff);
        heads.map(|head| head.fingering.clone()).collect()
    }

    #[test]
    fn fingers_go_to_the_notes_of_their_hand_from_the_lowest() {
        let mut page = PrintedPage::of(&chord_and_note(), None);
        let some = |finger: &str| Some(finger.to_string());
        let mut pencil = |text: &str| {
            let marks = Marks { fingers: [(Hand::Right, text.to_string())].into(), ..Marks::default() };
            page.pencil_in(Quarters::ZERO, &marks);
            (fingers(&mut page, 1), fingers(&mut page, 2))
        };
        assert_eq!(pencil("1 5"), (vec![some("1"), some("5"), None], vec![None]));
        assert_eq!(pencil("5"), (vec![None, some("5"), None], vec![None]));
        assert_eq!(pencil(""), (vec![None, None, None], vec![None]));
    }

    #[test]
    fn a_passage_is_read_from_its_score_and_without_it_from_itself() {
        let score = study::score();
        let part = &score.parts[0];
        let passage = part.cut(7..=8, &part.usual_hands()).expect("a passage");
        let page = PrintedPage::of(&passage, Some(&score));
        assert_eq!((page.part.bars[0].fifths, page.hands), (2, part.usual_hands()));
        let alone = PrintedPage::of(&passage, None);
        assert_eq!((alone.part.bars.len(), alone.part.staves, alone.hands), (2, 2, part.usual_hands()));
    }
}

//! Two invented bars for two hands, drawn wherever something is shown by example.

use crate::music::{Bar, Hand, Meter, Note, Onset, Passage, Pitch, Quarters, pitch::Letter};

/// What a hand plays at an onset: the white key and the quarters that it lasts.
type Played = (Letter, i8, u16);

/// Five onsets a quarter apart: what the right hand plays, and the left one where it plays too.
const ONSETS: [(Played, Option<Played>); 5] = [
    ((Letter::G, 4, 1), Some((Letter::C, 3, 2))),
    ((Letter::A, 4, 1), None),
    ((Letter::B, 4, 1), Some((Letter::E, 3, 1))),
    ((Letter::D, 5, 1), Some((Letter::G, 3, 1))),
    ((Letter::C, 5, 4), Some((Letter::C, 3, 4))),
];

/// Four quarters that lead to a downbeat, the goal. It is made of constants, so there always is one.
pub fn example() -> Option<Passage> {
    let meter = Meter::new(4, 4)?;
    let bar = |index: i64| Bar {
        number: (index + 1).to_string(),
        start: meter.bar() * index,
        length: meter.bar(),
        meter,
        missing: Quarters::ZERO,
    };
    let onset = |(beat, (right, left)): (u16, (Played, Option<Played>))| {
        let left = left.map(|left| note(Hand::Left, left));
        let notes = std::iter::once(note(Hand::Right, right)).chain(left).collect();
        Onset { at: Quarters::whole(beat), notes, dynamic: None }
    };
    Passage::new(vec![bar(0), bar(1)], (0..).zip(ONSETS).map(onset).collect()).ok()
}

fn note(hand: Hand, (letter, octave, quarters): Played) -> Note {
    Note { pitch: Some(Pitch { letter, alter: 0, octave }), ..Note::unpitched(hand, Quarters::whole(quarters)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_example_is_two_bars_of_five_onsets() {
        let passage = example().expect("a passage");
        assert_eq!((passage.bars().len(), passage.onsets().len()), (2, 5));
    }
}

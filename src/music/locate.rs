//! Where in its score a passage was cut.
//!
//! A passage does not say where it comes from: its bars and its onsets tell. So a snippet finds its notation in
//! whatever score its piece has now, also one that was read again or replaced.

use crate::{
    music::{Bar, Hand, Onset, Part, Passage, Score, score::ScoreBar},
    sort,
};
use std::ops::RangeInclusive;

/// Bars of a part and who plays each of its staves.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Located {
    /// Index of the part.
    pub part: usize,
    /// Indices of its bars.
    pub bars: RangeInclusive<usize>,
    /// The uppermost staff's first.
    pub hands: Vec<Hand>,
}

/// The first bars of `score` with the numbers and the lengths of `passage` that hold its onsets in a row; there may be
/// others before and behind. Signs that were added to its notes since do not matter.
pub fn locate(score: &Score, passage: &Passage) -> Option<Located> {
    let count = passage.bars().len();
    score.parts.iter().enumerate().find_map(|(index, part)| {
        let alike = part.bars.windows(count).enumerate().filter(|(_, bars)| are_alike(bars, passage.bars()));
        let mut places = alike.map(|(first, bars)| (first..=first + count - 1, hands(part, bars, passage)));
        let holds = |(bars, hands): &(RangeInclusive<usize>, Vec<Hand>)| {
            part.cut(bars.clone(), hands).is_ok_and(|cut| hold(cut.onsets(), passage.onsets()))
        };
        places.find(holds).map(|(bars, hands)| Located { part: index, bars, hands })
    })
}

fn are_alike(bars: &[ScoreBar], of_passage: &[Bar]) -> bool {
    bars.iter().zip(of_passage).all(|(bar, other)| bar.number == other.number && bar.length == other.length)
}

/// Whether the onsets of the passage are some of those cut, one after the other, with the same places and pitches.
fn hold(cut: &[Onset], passage: &[Onset]) -> bool {
    let pitches = |onset: &Onset| {
        let mut keys: Vec<_> = onset.notes.iter().map(|note| note.pitch.map(|pitch| pitch.midi())).collect();
        sort::by_key(&mut keys, |key| *key);
        keys
    };
    let alike = |(one, other): (&Onset, &Onset)| one.at == other.at && pitches(one) == pitches(other);
    let Some(first) = passage.first() else { return false };
    let begin = cut.partition_point(|onset| onset.at < first.at);
    let run = cut.get(begin..begin + passage.len());
    run.is_some_and(|run| run.iter().zip(passage).all(alike))
}

/// The hand that plays each staff in the passage: that of the first note which only one hand can have.
fn hands(part: &Part, bars: &[ScoreBar], passage: &Passage) -> Vec<Hand> {
    let mut hands = part.usual_hands();
    for (staff, hand) in (1_u8..).zip(&mut hands) {
        let attacks = bars.iter().zip(passage.bars()).flat_map(|(bar, of_passage)| {
            let here = bar.attacks.iter().filter(move |attack| attack.staff == staff);
            here.map(move |attack| (of_passage.start + attack.at, attack))
        });
        let player = |(at, attack): (_, &crate::music::score::Attack)| {
            let onset = passage.onsets().iter().find(|onset| onset.at == at)?;
            let pitch = attack.notes.first()?.pitch;
            let mut players = onset.notes.iter().filter(|note| note.pitch == pitch).map(|note| note.hand);
            let first = players.next()?;
            players.all(|other| other == first).then_some(first)
        };
        if let Some(found) = attacks.filter_map(player).next() {
            *hand = found;
        }
    }
    hands
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::music::study;

    #[test]
    fn every_excerpt_of_the_study_is_found_where_it_was_cut() {
        let score = study::score();
        let part = &score.parts[0];
        for excerpt in study::excerpts(part) {
            let passage = part.cut(excerpt.bars.clone(), &part.usual_hands()).expect("a passage");
            let place = Located { part: 0, bars: excerpt.bars, hands: part.usual_hands() };
            assert_eq!(locate(&score, &passage), Some(place), "{}", excerpt.name);
        }
    }

    #[test]
    fn hands_that_were_assigned_otherwise_are_found_too() {
        let score = study::score();
        let crossed = vec![Hand::Left, Hand::Right];
        let passage = score.parts[0].cut(3..=6, &crossed).expect("a passage");
        let place = Located { part: 0, bars: 3..=6, hands: crossed };
        assert_eq!(locate(&score, &passage), Some(place));
    }

    #[test]
    fn a_passage_that_begins_and_ends_inside_bars_is_found_in_them() {
        let score = study::score();
        let part = &score.parts[0];
        let whole = part.cut(3..=6, &part.usual_hands()).expect("a passage");
        let last = whole.onsets().len() - 1;
        let inner = whole.between(2..=last - 2).expect("a passage");
        let place = Located { part: 0, bars: 3..=6, hands: part.usual_hands() };
        assert_eq!(locate(&score, &inner), Some(place));
    }

    #[test]
    fn a_passage_of_another_score_is_not_found() {
        let score = study::score();
        let other = crate::music::counted(5, &[Hand::Right], crate::music::Meter::COMMON).expect("a passage");
        assert_eq!(locate(&score, &other), None);
    }
}

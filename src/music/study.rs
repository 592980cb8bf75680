//! The invented study that a new player finds on the stand, and its three ready-made snippets.

use crate::{
    carry::from_bytes,
    music::{Part, Quarters, Score},
};
use std::ops::RangeInclusive;

/// What is read of `study.musicxml`, so that the page opens without a reader of scores.
const STUDY: &[u8] = include_bytes!("study.score");

/// Bars of the study with one goal.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Excerpt {
    /// As the snippet made from it is called.
    pub name: &'static str,
    /// Indices of its bars in the study's one part.
    pub bars: RangeInclusive<usize>,
    /// Index of its goal among the onsets of the passage that is cut from these bars.
    pub goal: usize,
}

/// "Study for a Soft Landing": a pickup and twenty-four bars in 6/8 for two hands.
pub fn score() -> Score {
    from_bytes(STUDY).expect("the study is part of the program and compared with its file by the tests")
}

/// The three hard places: a leap onto a quiet accent, an even run, and two hands that meet.
pub fn excerpts(part: &Part) -> Vec<Excerpt> {
    let half_bar = Quarters::new(3, 2).unwrap_or(Quarters::ONE);
    [("The leap", 7..=8, 8, half_bar), ("The run", 12..=13, 13, half_bar), ("The meeting", 15..=16, 16, Quarters::ZERO)]
        .into_iter()
        .map(|(name, bars, goal_bar, at)| Excerpt {
            name,
            goal: onsets_before(part, *bars.start(), goal_bar, at),
            bars,
        })
        .collect()
}

/// How many onsets there are from the start of one bar to a place in another.
fn onsets_before(part: &Part, from: usize, bar: usize, at: Quarters) -> usize {
    let cut = part.cut(from..=bar, &part.usual_hands());
    let place = |bars: &[crate::music::Bar]| bars.last().map_or(at, |last| last.start + at);
    cut.map_or(0, |cut| cut.onsets().iter().filter(|onset| onset.at < place(cut.bars())).count())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{
        carry::bytes_of,
        music::{Hand, Onset, musicxml, passage::Articulation},
    };

    const WRITTEN: &[u8] = include_bytes!("study.musicxml");

    /// The onsets of an excerpt up to its goal.
    fn to_goal(name: &str) -> Vec<Onset> {
        let part = &score().parts[0];
        let excerpts = excerpts(part);
        let excerpt = excerpts.iter().find(|excerpt| excerpt.name == name).expect("an excerpt of this name");
        let passage = part.cut(excerpt.bars.clone(), &part.usual_hands()).expect("a passage");
        passage.onsets()[..=excerpt.goal].to_vec()
    }

    fn keys(onset: &Onset, hand: Hand) -> Vec<i16> {
        let notes = onset.notes.iter().filter(|note| note.hand == hand);
        notes.filter_map(|note| note.pitch.map(|pitch| pitch.midi())).collect()
    }

    /// After a change to the study or to what is read of a score, `WRITE=study cargo test --lib study` rewrites it.
    #[test]
    fn what_the_program_holds_is_what_is_read_of_its_file() {
        let read = bytes_of(&musicxml::read(WRITTEN).expect("a score").score);
        if std::env::var_os("WRITE").is_some_and(|what| what == "study") {
            std::fs::write(concat!(env!("CARGO_MANIFEST_DIR"), "/src/music/study.score"), &read).expect("written");
        }
        assert!(read == STUDY, "study.score is older than the study or its reader; see the comment here");
    }

    #[test]
    fn the_study_is_read_whole_and_fills_its_bars() {
        let reading = musicxml::read(WRITTEN).expect("a score");
        assert_eq!(reading.mended, []);
        let score = reading.score;
        assert_eq!(
            (score.title.as_str(), score.composer.as_str()),
            ("Study for a Soft Landing", "written for Tailfirst")
        );
        let part = &score.parts[0];
        assert_eq!((part.staves, part.bars.len()), (2, 25));
        let shapes: Vec<_> = part.bars.iter().map(|bar| format!("{} {}", bar.length, bar.missing)).collect();
        assert_eq!((shapes[0].as_str(), shapes[24].as_str()), ("1/2 5/2", "5/2 0"));
        assert!(shapes[1..24].iter().all(|shape| shape == "3 0"));
        let tempo = part.bars[0].tempo.expect("a tempo mark");
        assert_eq!((tempo.beat, tempo.bpm.get()), (part.bars[0].meter.beat(), 52));
    }

    #[test]
    fn the_leap_lands_two_octaves_up_on_a_quiet_accent() {
        let onsets = to_goal("The leap");
        let [.., before, goal] = onsets.as_slice() else { panic!("a lead-in and a goal") };
        assert_eq!((keys(before, Hand::Left), keys(goal, Hand::Left)), (vec![38], vec![66, 69]));
        assert_eq!(goal.dynamic.as_deref(), Some("pp"));
        assert_eq!(goal.notes[0].articulations, [Articulation::Accent]);
    }

    #[test]
    fn the_run_climbs_in_even_sixteenths_to_its_top() {
        let onsets = to_goal("The run");
        let run = &onsets[onsets.len() - 13..];
        let sixteenth = Quarters::new(1, 4).expect("in bounds");
        assert!(run.windows(2).all(|pair| pair[1].at - pair[0].at == sixteenth));
        let climb: Vec<_> = run.iter().flat_map(|onset| keys(onset, Hand::Right)).collect();
        assert_eq!((climb.len(), climb[0], climb[12]), (13, 69, 90));
        assert!(climb.is_sorted());
        let fingers = run.iter().filter_map(|onset| onset.notes[0].fingering.as_deref());
        assert_eq!(fingers.collect::<String>(), "1231234123123");
    }

    #[test]
    fn the_hands_run_toward_each_other_and_meet_on_one_chord() {
        let onsets = to_goal("The meeting");
        let (goal, way) = onsets.split_last().expect("a goal");
        let hand = |hand| -> Vec<i16> { way.iter().flat_map(|onset| keys(onset, hand)).collect() };
        assert!(hand(Hand::Left).is_sorted() && hand(Hand::Right).is_sorted_by(|higher, lower| higher > lower));
        assert_eq!((keys(goal, Hand::Left), keys(goal, Hand::Right)), (vec![45, 52, 57], vec![69, 73, 76]));
    }
}

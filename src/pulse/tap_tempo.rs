//! A tempo from taps.

use crate::music::Bpm;
use crate::sort;

/// Fewest taps that make a tempo: three intervals, so that one of them may be wrong.
const FEWEST: usize = 4;
/// Taps looked at: the last ones, so that a player who settles is followed.
const MOST: usize = 16;
/// A gap of this many beats is a pause, after which the tapping begins again.
const PAUSE: f64 = 3.5;
/// A tap sooner than this part of a beat after the one before it is a double.
const DOUBLE: f64 = 0.4;

/// Beats per minute from the times of taps, in seconds and in order; `None` for fewer than four. A doubled tap is left
/// out and a missed one is counted as missed; what was tapped before a pause of more than three beats is forgotten.
///
/// Taps are numbered by the median interval, then the beat is the median slope between all pairs of
/// them (Theil 1950, Sen 1968: from memory), which no single stray tap can move far.
pub fn tapped_tempo(taps: &[f64]) -> Option<Bpm> {
    let recent = &taps[taps.len().saturating_sub(MOST)..];
    let rough = median(recent.windows(2).map(|pair| pair[1] - pair[0]).collect())?;
    let numbered = numbered(recent, rough);
    if numbered.len() < FEWEST {
        return None;
    }
    let slopes = numbered.iter().enumerate().flat_map(|(index, (number, at))| {
        numbered[index + 1..].iter().map(move |(later, then)| (then - at) / (later - number))
    });
    median(slopes.collect()).map(|beat| Bpm::nearest(60.0 / beat))
}

/// The taps since the last pause with the number of the beat each stands for.
fn numbered(taps: &[f64], rough: f64) -> Vec<(f64, f64)> {
    let mut numbered: Vec<(f64, f64)> = Vec::new();
    for tap in taps {
        let Some((number, at)) = numbered.last().copied() else {
            numbered.push((0.0, *tap));
            continue;
        };
        let beats = (tap - at) / rough;
        if beats > PAUSE {
            numbered = vec![(0.0, *tap)];
        } else if beats >= DOUBLE {
            numbered.push((number + beats.round().max(1.0), *tap));
        }
    }
    numbered
}

/// The middle value, if there is one and it is a length of time.
fn median(mut values: Vec<f64>) -> Option<f64> {
    sort::by(&mut values, f64::total_cmp);
    let upper = *values.get(values.len() / 2)?;
    let lower = values[(values.len() - 1) / 2];
    Some((lower + upper) / 2.0).filter(|middle| *middle > 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn bpm(taps: &[f64]) -> Option<u16> {
        tapped_tempo(taps).map(Bpm::get)
    }

    #[test]
    fn three_taps_are_not_yet_a_tempo_and_four_are() {
        assert_eq!(bpm(&[]), None);
        assert_eq!(bpm(&[0.0, 0.5, 1.0]), None);
        assert_eq!(bpm(&[0.0, 0.5, 1.0, 1.5]), Some(120));
    }

    #[test]
    fn a_missed_and_a_doubled_tap_change_nothing() {
        assert_eq!(bpm(&[0.0, 0.5, 1.0, 2.0, 2.5]), Some(120));
        assert_eq!(bpm(&[0.0, 0.5, 0.57, 1.0, 1.5, 2.0]), Some(120));
    }

    #[test]
    fn after_a_pause_the_tapping_begins_anew() {
        let faster = [0.0, 0.5, 1.0, 1.5, 6.0, 6.4, 6.8, 7.2];
        assert_eq!(bpm(&faster[..7]), None);
        assert_eq!(bpm(&faster), Some(150));
    }

    #[test]
    fn taps_that_run_backward_or_stand_still_make_no_tempo() {
        assert_eq!(bpm(&[3.0, 2.0, 1.0, 0.0]), None);
        assert_eq!(bpm(&[1.0; 8]), None);
        assert_eq!(bpm(&[f64::NAN; 8]), None);
    }

    proptest! {
        /// A listener notices one tone of an even row displaced by 2.5 % of its interval (6 ms below
        /// 240 ms): Friberg and Sundberg 1995, abstract. The tempo of eight taps each off by up to
        /// that much, one of them missing, is right within the same 2.5 %.
        #[test]
        fn unsteady_taps_give_the_tempo_as_close_as_one_can_hear(
            beat in 0.25f64..1.5,
            off in proptest::collection::vec(-1.0f64..1.0, 8),
            missing in 1usize..7,
        ) {
            let noticed = (0.025 * beat).max(0.006);
            let mut taps: Vec<f64> = (0..).zip(&off).map(|(n, off)| f64::from(n) * beat + off * noticed).collect();
            taps.remove(missing);
            let tempo = f64::from(bpm(&taps).expect("enough taps"));
            let rounding = 0.5;
            prop_assert!((tempo - 60.0 / beat).abs() <= 0.025 * 60.0 / beat + rounding, "{tempo} for {}", 60.0 / beat);
        }
    }
}

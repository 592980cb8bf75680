//! A passage of which only the number of onsets is known.

use crate::music::{Bar, Hand, Meter, Note, Onset, Passage, Quarters, passage::PassageError};

/// Most onsets that can be counted; a longer figure is better tapped.
pub const MOST_COUNTED: usize = 64;

/// `onsets` onsets (1..=64), one on each beat of `meter`, played by all of `hands`. The last falls on
/// a bar's first beat, because a goal likes a downbeat (common practice, no source); what comes before
/// the first bar line is a pickup.
///
/// # Errors
/// [`PassageError::Empty`] without onsets or hands, [`PassageError::TooLong`] beyond 64.
pub fn counted(onsets: usize, hands: &[Hand], meter: Meter) -> Result<Passage, PassageError> {
    if onsets == 0 || hands.is_empty() {
        return Err(PassageError::Empty);
    }
    if onsets > MOST_COUNTED {
        return Err(PassageError::TooLong);
    }
    let beat = meter.beat().quarters();
    let before = beat * (onsets as i64 - 1);
    let notes: Vec<Note> = hands.iter().map(|hand| Note::unpitched(*hand, beat)).collect();
    let places = (0..onsets as i64).map(|n| Onset { at: beat * n, notes: notes.clone(), dynamic: None });
    Passage::new(bars(before, meter), places.collect())
}

/// Bars of `meter`, of which the last begins `before` quarters after the start.
fn bars(before: Quarters, meter: Meter) -> Vec<Bar> {
    let full = (before / meter.bar()).floor().to_integer();
    let pickup = before - meter.bar() * full;
    let opening = (pickup > Quarters::ZERO).then(|| Bar {
        number: "0".into(),
        start: Quarters::ZERO,
        length: pickup,
        meter,
        missing: meter.bar() - pickup,
    });
    let whole = (0..=full).map(|n| Bar {
        number: (n + 1).to_string(),
        start: pickup + meter.bar() * n,
        length: meter.bar(),
        meter,
        missing: Quarters::ZERO,
    });
    opening.into_iter().chain(whole).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn meter(text: &str) -> Meter {
        text.parse().expect("a meter")
    }

    #[test]
    fn seven_onsets_in_both_hands_arrive_on_a_downbeat() {
        let passage = counted(7, &[Hand::Left, Hand::Right], meter("4/4")).expect("a passage");
        assert_eq!(passage.onsets().len(), 7);
        assert!(passage.onsets().iter().all(|onset| onset.plays(Hand::Left) && onset.plays(Hand::Right)));
        let starts: Vec<String> = passage.bars().iter().map(|bar| bar.start.to_string()).collect();
        assert_eq!(starts, ["0", "2", "6"]);
        assert_eq!(passage.bars()[0].missing, Quarters::whole(2));
        assert_eq!(passage.onsets()[6].at, Quarters::whole(6));
    }

    #[test]
    fn whatever_the_count_and_the_meter_the_last_onset_opens_the_last_bar() {
        for text in ["4/4", "3/4", "6/8", "5/8", "2/2", "12/16", "5/32", "1/1"] {
            for onsets in 1..=MOST_COUNTED {
                let passage = counted(onsets, &[Hand::Line], meter(text)).expect("a passage");
                let goal = passage.onsets().last().expect("an onset").at;
                assert_eq!(passage.bars().last().expect("a bar").start, goal, "{onsets} in {text}");
                assert_eq!(passage.onsets().len(), onsets);
            }
        }
    }

    #[test]
    fn nothing_and_too_much_are_refused() {
        assert_eq!(counted(0, &[Hand::Line], Meter::COMMON), Err(PassageError::Empty));
        assert_eq!(counted(3, &[], Meter::COMMON), Err(PassageError::Empty));
        assert_eq!(counted(65, &[Hand::Line], Meter::COMMON), Err(PassageError::TooLong));
    }
}

//! A passage without a score is shown whole, whatever is played of it and however small the screen.

use super::{
    forms::practice_sheet,
    invented::{bars, passage},
};
use proptest::prelude::*;
use tailfirst::{
    music::{Hand, Passage, PrintedPage, Quarters, counted},
    notation::engraving::Focus,
};

/// Rhythms as they are tapped: plain, in thirds, syncopated, across bar lines, with a pickup.
fn passages() -> Vec<Passage> {
    let both = |right, left| [(Hand::Right, right), (Hand::Left, left)];
    vec![
        passage(bars("4/4-1 4/4 3/4", 11), &both("0 1 3/2 2 3 13/4 7/2 15/4 4 5 6 7 8", "0 2 3 4 9/2 5 7 9")),
        passage(bars("6/8 6/8 6/8", 3), &[(Hand::Line, "0 1/2 1 3/2 5/2 3 7/2 4 9/2 5 11/2 6")]),
        passage(bars("2/4 2/4", 1), &both("0 1/3 2/3 1 7/6 4/3 3/2 5/3 2 11/4 3", "1/2 3/2 5/2 7/2")),
        counted(64, &[Hand::Left, Hand::Right], "5/8".parse().expect("a meter")).expect("a passage"),
    ]
}

proptest! {
    #[test]
    fn every_onset_of_the_span_is_shown_once_and_in_its_order(
        which in 0..passages().len(),
        (first, last) in (0..64_usize, 0..64_usize),
        (width, height) in (300_u16..1180, 120_u16..600),
    ) {
        let passage = passages().swap_remove(which);
        let onsets: Vec<Quarters> = passage.onsets().iter().map(|onset| onset.at).collect();
        let [first, last] = [first.min(last), first.max(last)].map(|onset| onset.min(onsets.len() - 1));
        let page = PrintedPage::of(&passage, None);
        let focus = Focus { onsets: &onsets, span: (first, last), goal: last, aim: last, plays: &|_| true };
        let sheet = practice_sheet(&page.part, &focus, f32::from(width), f32::from(height));
        let shown: Vec<usize> = sheet.places.iter().map(|place| place.onset).collect();
        prop_assert!(shown.windows(2).all(|pair| pair[0] + 1 == pair[1]), "{shown:?}");
        prop_assert!((first..=last).all(|onset| shown.contains(&onset)), "{shown:?} of {first}..={last}");
        for pair in sheet.places.windows(2).filter(|pair| pair[0].top == pair[1].top) {
            prop_assert!(pair[0].x < pair[1].x);
        }
        prop_assert!(sheet.places.iter().all(|place| 0.0 <= place.x && place.x <= f32::from(width)));
    }
}

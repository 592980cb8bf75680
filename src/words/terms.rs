//! The program's own words explained: in one line where each is met first, and at length under Help.

use crate::{method::Term, words::say};

/// One line of at most twelve words.
pub fn in_a_line(term: Term) -> &'static str {
    match term {
        Term::Goal => say::goal_in_a_line(),
        Term::RestingHand => say::resting_hand_in_a_line(),
        Term::Onset => say::onset_in_a_line(),
        Term::ColdTry => say::cold_try_in_a_line(),
    }
}

/// Its name and a few sentences.
pub fn at_length(term: Term) -> (&'static str, &'static str) {
    match term {
        Term::Goal => (say::help_goal(), say::help_goal_text()),
        Term::RestingHand => (say::help_resting_hand(), say::help_resting_hand_text()),
        Term::Onset => (say::help_onset(), say::help_onset_text()),
        Term::ColdTry => (say::help_cold_try(), say::help_cold_try_text()),
    }
}

/// What the picture beside it shows, for whoever cannot see it; a cold try has none.
pub fn picture(term: Term) -> Option<&'static str> {
    match term {
        Term::Goal => Some(say::help_goal_picture()),
        Term::RestingHand => Some(say::help_resting_hand_picture()),
        Term::Onset => Some(say::help_onset_picture()),
        Term::ColdTry => None,
    }
}

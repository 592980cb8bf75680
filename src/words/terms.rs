//! The program's own words explained: in one line where each is met first, and at length under Help.

use crate::method::Term;

/// One line of at most twelve words.
pub fn in_a_line(term: Term) -> &'static str {
    match term {
        Term::Goal => "The goal: what all this leads to. A roof marks it.",
        Term::RestingHand => "Small, faint notes: the hand that rests. Leave them out.",
        Term::Onset => "An onset: everything that begins at one moment, in either hand.",
        Term::ColdTry => "A cold try: the first repetition after a night, unprepared.",
    }
}

/// Its name, as a heading.
pub fn name(term: Term) -> &'static str {
    match term {
        Term::Goal => "The goal and its roof",
        Term::RestingHand => "The resting hand",
        Term::Onset => "Onsets and the lead-in",
        Term::ColdTry => "The cold try",
    }
}

/// A few sentences.
pub fn at_length(term: Term) -> &'static str {
    match term {
        Term::Goal => {
            "The goal is the note or chord that everything leads to. The roof over the staff marks it. Practice begins \
             with the goal alone: exactly as it should sound, with its motion, its finger and its loudness."
        }
        Term::RestingHand => {
            "Where one hand practises alone, the notes of the other stand there small and faint. They show what will \
             be added and are not played."
        }
        Term::Onset => {
            "An onset is everything that begins at one moment, in either hand: a note, an interval or a chord. What is \
             played now is printed black; it grows by one onset or a few at a time, and always arrives at the goal. The \
             onsets before the goal are its lead-in."
        }
        Term::ColdTry => {
            "The first repetition after a night comes without warming up, once. Only it can tell what has stayed. \
             Missed or clean, both are news: the work goes on from there."
        }
    }
}

/// What the picture beside it shows, for whoever cannot see it; a cold try has none.
pub fn picture(term: Term) -> Option<&'static str> {
    match term {
        Term::Goal => Some("Two staves. Only the last note is black, and a small roof stands over it."),
        Term::RestingHand => {
            Some("The same bars: the upper staff is black, the notes of the lower staff are small and faint.")
        }
        Term::Onset => Some("The same bars: the last three onsets are black, what stands before them is faint."),
        Term::ColdTry => None,
    }
}

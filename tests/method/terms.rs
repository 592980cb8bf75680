//! Each word of the program's own is explained once, where it is met.

use crate::happenings::{Lesson, at, snippet};
use tailfirst::{
    method::{Direction, Happening, Move, Settings, Snippet, Term, Verdict},
    words,
};

fn explained(lesson: &Lesson, snippet: &Snippet, elsewhere: &[Happening]) -> Option<Term> {
    let histories = [(snippet, lesson.history.as_slice()), (snippet, elsewhere)];
    Term::to_explain(&lesson.advice(), snippet, histories.into_iter())
}

#[test]
fn each_word_is_explained_where_it_is_met_and_then_never_again() {
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    let mut told = vec![explained(&lesson, &snippet, &[])];
    lesson.play(Verdict::NotYet);
    told.push(explained(&lesson, &snippet, &[]));
    for _ in 0..30 {
        lesson.play(Verdict::Clean);
        told.push(explained(&lesson, &snippet, &[]));
    }
    lesson.sit_down(at(1, 0));
    assert_eq!(lesson.advice().led_by, Move::ColdTry);
    told.push(explained(&lesson, &snippet, &[]));
    lesson.play(Verdict::NotYet);
    for day in 2..6 {
        told.push(explained(&lesson, &snippet, &[]));
        lesson.sit_down(at(day, 0));
        told.push(explained(&lesson, &snippet, &[]));
        lesson.play(Verdict::NotYet);
    }
    let mut order: Vec<Term> = told.iter().copied().flatten().collect();
    order.dedup();
    assert_eq!(order, Term::ALL, "{told:?}");
    assert_eq!(&told[..2], [Some(Term::Goal), Some(Term::RestingHand)]);
}

#[test]
fn what_was_explained_with_one_snippet_is_not_explained_with_the_next() {
    let snippet = snippet("BBBB", 3, Direction::TowardGoal);
    let mut first = Lesson::new(&snippet, Settings { block_minutes: 30, ..Settings::default() });
    first.play(Verdict::NotYet);
    (0..30).for_each(|_| _ = first.play(Verdict::Clean));
    let next = Lesson::new(&snippet, Settings::default());
    assert_eq!(explained(&next, &snippet, &[]), Some(Term::Goal));
    assert_eq!(explained(&next, &snippet, &first.history), None);
}

#[test]
fn nothing_is_explained_that_is_not_there() {
    let line = snippet("----", 3, Direction::TowardGoal);
    let mut lesson = Lesson::new(&line, Settings { block_minutes: 30, ..Settings::default() });
    for _ in 0..20 {
        lesson.play(Verdict::Clean);
        assert_ne!(explained(&lesson, &line, &[]), Some(Term::RestingHand));
    }
}

#[test]
fn a_line_at_the_stand_is_short_and_every_picture_is_described() {
    for term in Term::ALL {
        let line = words::terms::in_a_line(term);
        assert!(line.split_whitespace().count() <= 12 && line.ends_with('.'), "{line}");
        assert!(words::terms::picture(term).is_some() || term == Term::ColdTry);
    }
}

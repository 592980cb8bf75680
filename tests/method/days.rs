//! Blocks, nights and days: what is carried over, and when it is time to stop.

use crate::happenings::{Dice, Lesson, at, snippet, step, verdict};
use tailfirst::method::{
    Advice, Cause, Direction, Hands, HappeningKind, Leaving, Move, Reason, Settings, Span, Step, Verdict,
};

fn lesson() -> Lesson {
    Lesson::new(&snippet("BBBB", 3, Direction::TowardGoal), Settings { block_minutes: 30, ..Settings::default() })
}

/// Plays with this verdict until the advice is as wanted.
fn play_until(lesson: &mut Lesson, letter: char, wanted: impl Fn(&Advice) -> bool) -> Advice {
    (0..100).map(|_| lesson.play(verdict(letter))).find(|advice| wanted(advice)).expect("it comes to this")
}

fn leaves(advice: &Advice) -> bool {
    advice.led_by == Move::Leave
}

/// Both hands went well on the goal and one onset more; the third has just been put in front, by itself, since not all was
/// clean.
fn three_onsets_on_the_first_day() -> Lesson {
    let mut lesson = lesson();
    lesson.play(Verdict::NotYet);
    play_until(&mut lesson, 'C', |advice| advice.step == step(1, 3, Hands::Both, 100));
    lesson.happens(HappeningKind::BlockEnded);
    lesson
}

#[test]
fn a_new_day_tries_the_longest_secure_span_cold_and_then_goes_on_where_the_work_stopped() {
    let mut lesson = three_onsets_on_the_first_day();
    let cold = lesson.sit_down(at(2, 0));
    assert_eq!((cold.led_by, cold.reason), (Move::ColdTry, Reason::ColdTry { nights: 2 }));
    assert_eq!(cold.step, step(2, 3, Hands::Both, 100));
    let held = lesson.play(Verdict::Clean);
    assert_eq!((held.led_by, held.reason), (Move::Lengthen, Reason::HeldOvernight { nights: 2 }));
    assert_eq!(held.step, step(1, 3, Hands::Both, 100));
}

#[test]
fn a_missed_cold_try_is_worked_on_before_anything_else() {
    let mut lesson = three_onsets_on_the_first_day();
    let cold = lesson.sit_down(at(1, 0));
    let missed = lesson.play(Verdict::NotYet);
    assert_eq!((missed.led_by, missed.step), (Move::Again, cold.step));
    let onward = play_until(&mut lesson, 'C', |advice| advice.led_by != Move::Again);
    assert_eq!((onward.led_by, onward.step), (Move::Lengthen, step(1, 3, Hands::Right, 100)));
}

#[test]
fn a_new_block_of_the_same_day_goes_on_where_the_last_one_stopped() {
    let mut lesson = three_onsets_on_the_first_day();
    let advice = lesson.sit_down(at(0, 60));
    assert_eq!((advice.step, advice.reason), (step(1, 3, Hands::Both, 100), Reason::GoesOn { nights: 0 }));
}

#[test]
fn a_block_that_was_left_failing_is_followed_by_something_easier() {
    let mut lesson = three_onsets_on_the_first_day();
    lesson.sit_down(at(0, 60));
    play_until(&mut lesson, 'N', leaves);
    let advice = lesson.sit_down(at(0, 120));
    assert_eq!((advice.led_by, advice.reason), (Move::Narrow, Reason::LeftFailing));
    assert_eq!(advice.step, step(2, 3, Hands::Both, 100));
    // Where nothing has gone well yet, only the tempo can give.
    let mut first_steps = self::lesson();
    let left = failing_each_time_otherwise(&mut first_steps);
    let advice = first_steps.sit_down(at(0, 60));
    assert_eq!((advice.led_by, advice.step.span, advice.step.hands), (Move::Ease, left.step.span, left.step.hands));
    assert!(advice.step.bpm < left.step.bpm);
}

fn miss(lesson: &mut Lesson, cause: Cause) -> Advice {
    let step = lesson.advice().step;
    lesson.happens(HappeningKind::Played { step, verdict: Verdict::NotYet, cause: Some(cause), broke_at: None })
}

/// Four misses, each for another cause.
fn failing_each_time_otherwise(lesson: &mut Lesson) -> Advice {
    let causes = [Cause::Early, Cause::TooLoud, Cause::WrongNote, Cause::Tense];
    causes.map(|cause| miss(lesson, cause)).into_iter().next_back().expect("four")
}

#[test]
fn misses_of_ever_other_kinds_mean_leave_and_left_is_left_until_a_new_block() {
    let mut lesson = lesson();
    let advice = failing_each_time_otherwise(&mut lesson);
    assert_eq!(advice.reason, Reason::Leave(Leaving::CausesDiffer { misses: 4 }));
    assert!((0..20).all(|_| leaves(&lesson.play(Verdict::Clean))));
    assert!(!leaves(&lesson.sit_down(at(0, 60))));
}

/// Plays `chosen` whatever the coach makes of it: whoever takes each move back is left with it in the end.
fn insist(lesson: &mut Lesson, chosen: Step, letter: char) -> Advice {
    if lesson.advice().step != chosen && !leaves(&lesson.advice()) {
        lesson.happens(HappeningKind::Overruled(chosen));
    }
    lesson.play(verdict(letter))
}

#[test]
fn half_clean_and_half_missed_is_left_as_flat_where_nothing_smaller_is_wanted() {
    let mut lesson = lesson();
    let chosen = step(0, 3, Hands::Both, 100);
    let mut heard = "NNC".chars().cycle().take(60).map(|letter| insist(&mut lesson, chosen, letter));
    let advice = heard.find(leaves).expect("flat");
    let Reason::Leave(Leaving::FlatOrFalling { from, to, .. }) = advice.reason else { panic!("{advice:?}") };
    assert!(to <= from);
}

/// Five clean in a row are a gain, whatever comes before and after them; and of those who follow the coach and are clean
/// three times in four, whatever is asked, at least nine in ten get on.
#[test]
fn no_block_is_left_for_want_of_gain_right_after_five_clean_in_a_row_nor_where_three_in_four_are_clean() {
    let left = |chance: f64, insists: bool| {
        let mut left = 0;
        for player in 1..=200 {
            let (mut dice, mut lesson, mut run) = (Dice::thrown_by(player), lesson(), Vec::new());
            for _ in 0..60 {
                run.push(if dice.roll() < chance { 'C' } else { 'N' });
                let letter = run[run.len() - 1];
                let chosen = if insists { step(0, 3, Hands::Both, 100) } else { lesson.advice().step };
                let advice = insist(&mut lesson, chosen, letter);
                if let Reason::Leave(Leaving::FlatOrFalling { repetitions, .. }) = advice.reason {
                    let recent: String = run[run.len() - repetitions as usize..].iter().collect();
                    assert!(!recent.contains("CCCCC"), "player {player}: {recent}");
                    left += 1;
                }
                if leaves(&advice) {
                    break;
                }
            }
        }
        left
    };
    let (half, three_in_four) = (left(0.5, true), left(0.75, false));
    println!("left as flat: {half} of 200 who insist at 0.5, {three_in_four} who follow at 0.75");
    assert!(half > 30 && three_in_four <= 20, "{half} at 0.5, {three_in_four} at 0.75");
}

#[test]
fn a_player_may_stop_at_any_time() {
    let mut lesson = lesson();
    lesson.play(Verdict::Clean);
    assert_eq!(lesson.happens(HappeningKind::BlockEnded).reason, Reason::Leave(Leaving::Stopped));
}

#[test]
fn a_snippet_that_was_secure_and_fails_cold_for_days_may_be_started_afresh() {
    let mut lesson = lesson();
    play_until(&mut lesson, 'C', leaves);
    for day in 1..=4 {
        assert!(!lesson.sit_down(at(day, 0)).consider_afresh);
        lesson.play(Verdict::NotYet);
    }
    assert!(lesson.advice().consider_afresh);
    let afresh = lesson.happens(HappeningKind::StartedAfresh);
    assert_eq!((afresh.led_by, afresh.reason, afresh.consider_afresh), (Move::StartAfresh, Reason::Afresh, false));
    assert_eq!(afresh.step, step(3, 3, Hands::Right, 100));
    let next_day = lesson.sit_down(at(5, 0));
    assert_eq!((next_day.led_by, next_day.step), (Move::StartAfresh, afresh.step));
}

#[test]
fn a_narrowed_task_is_about_its_later_onset_and_remembers_what_it_prepares() {
    let mut lesson = lesson();
    let narrowed = Step { span: Span::new(0, 3).expect("in order"), hands: Hands::Right, ..lesson.advice().step };
    lesson.happens(HappeningKind::Overruled(narrowed));
    let advice = play_until(&mut lesson, 'N', |advice| advice.led_by == Move::Narrow);
    assert_eq!((advice.step, advice.aim), (step(0, 1, Hands::Right, 100), 1));
    assert_eq!(advice.narrowed_from, Some(narrowed));
}

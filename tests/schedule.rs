//! When which click sounds, on a clock that the test winds.

#[path = "support/invented.rs"]
mod invented;

use invented::{bars, passage, snippet, step, tempo};
use std::{
    cell::{Cell, RefCell},
    rc::Rc,
};
use tailfirst::{
    method::{Hands, Snippet, Step},
    music::{Hand, NoteValue},
    pulse::{Click, Clicks, Metronome, Round, Schedule},
};

/// A clock, and what has been handed over to it: seconds, accent, called off.
#[derive(Default)]
struct Wound {
    now: Cell<f64>,
    handed_over: RefCell<Vec<(f64, bool, bool)>>,
}

impl Clicks for &Wound {
    type Handle = usize;

    fn now(&self) -> f64 {
        self.now.get()
    }

    fn click_at(&self, at: f64, accent: bool) -> Option<usize> {
        assert!(at >= self.now.get(), "a click for {at} comes too late, at {}", self.now.get());
        self.handed_over.borrow_mut().push((at, accent, false));
        Some(self.handed_over.borrow().len() - 1)
    }

    fn call_off(&self, click: &usize) {
        self.handed_over.borrow_mut()[*click].2 = true;
    }
}

impl Wound {
    /// Time goes by as it does on a page, in ticks of 50 ms.
    fn runs(&self, schedule: &mut Schedule<&Wound>, until: f64) {
        while self.now.get() < until {
            schedule.tick();
            self.now.set((self.now.get() + 0.05).min(until));
        }
    }

    /// The clicks that sound, from `from` seconds on.
    fn sounding(&self, from: f64) -> Vec<f64> {
        let handed_over = self.handed_over.borrow();
        let mut at: Vec<f64> =
            handed_over.iter().filter(|(at, _, off)| !off && *at >= from).map(|(at, ..)| *at).collect();
        at.sort_by(f64::total_cmp);
        at
    }
}

/// Four onsets on the beats of the second of two bars, a beat a second.
fn a_bar() -> Rc<Snippet> {
    let onsets = passage(bars("4/4 4/4", 1), &[(Hand::Line, "4 5 6 7")]);
    Rc::new(snippet(onsets, tempo(NoteValue::Quarter, 0, 60)))
}

fn whole(snippet: &Snippet) -> Step {
    step(snippet, 0, 3, Hands::Line)
}

/// The first round begins this long after the tap.
const LEAD: f64 = 0.15;

fn assert_clicks(found: &[f64], expected: &[f64]) {
    let near = found.len() == expected.len() && found.iter().zip(expected).all(|(a, b)| (a - b).abs() < 1e-9);
    assert!(near, "{found:?} and not {expected:?}");
}

#[test]
fn every_beat_clicks_once_at_its_time_and_rounds_follow_without_a_gap() {
    let (clock, bar) = (Wound::default(), a_bar());
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    let round = Round::new(&bar, whole(&bar));
    clock.runs(&mut schedule, 2.0 * round.total());
    let one = round.beats().iter().map(|beat| LEAD + beat.at);
    let two: Vec<f64> = one.clone().chain(one.map(|at| at + round.total())).collect();
    assert_clicks(&clock.sounding(0.0)[..two.len()], &two);
    let accents = clock.handed_over.borrow().iter().filter(|(_, accent, _)| *accent).count();
    assert!(accents >= 2 * two.len() / 8 && accents < two.len() / 2);
}

#[test]
fn a_click_in_the_count_in_only_is_silent_while_one_plays_and_the_other_way_round_is_wrong() {
    let (clock, bar) = (Wound::default(), a_bar());
    let round = Round::new(&bar, whole(&bar));
    let first = LEAD + round.soundings()[0].at;
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::CountIn);
    clock.runs(&mut schedule, round.total() - 1.0);
    let heard = clock.sounding(0.0);
    assert!(!heard.is_empty() && heard.iter().all(|at| *at < first), "{heard:?} although one plays from {first}");
    let never = Wound::default();
    let mut silent = Schedule::new(&never, bar.clone(), whole(&bar), Click::Never);
    never.runs(&mut silent, round.total());
    assert_clicks(&never.sounding(0.0), &[]);
}

#[test]
fn a_verdict_in_the_breath_changes_nothing_of_the_pulse() {
    let (clock, bar) = (Wound::default(), a_bar());
    let round = Round::new(&bar, whole(&bar));
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    clock.runs(&mut schedule, LEAD + round.played() + 0.3);
    schedule.play(whole(&bar), Click::Always);
    clock.runs(&mut schedule, 2.0 * round.total());
    let next: Vec<f64> = round.beats().iter().map(|beat| LEAD + round.total() + beat.at).collect();
    assert_clicks(&clock.sounding(LEAD + round.total() - 0.01)[..next.len()], &next);
}

#[test]
fn another_step_in_the_breath_begins_when_the_breath_is_over() {
    let (clock, bar) = (Wound::default(), a_bar());
    let (round, shorter) = (Round::new(&bar, whole(&bar)), step(&bar, 3, 3, Hands::Line));
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    clock.runs(&mut schedule, LEAD + round.total() - 0.2);
    schedule.play(shorter, Click::Always);
    clock.runs(&mut schedule, LEAD + round.total() + 1.0);
    let next = Round::new(&bar, shorter);
    let from = LEAD + round.total();
    let expected: Vec<f64> = next.beats().iter().map(|beat| from + beat.at).take_while(|at| *at < from + 1.3).collect();
    assert_clicks(&clock.sounding(from - 0.01)[..expected.len()], &expected);
}

#[test]
fn a_verdict_while_playing_begins_the_next_round_on_the_next_beat() {
    let (clock, bar) = (Wound::default(), a_bar());
    let round = Round::new(&bar, whole(&bar));
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    let playing = LEAD + round.soundings()[1].at + 0.3;
    clock.runs(&mut schedule, playing);
    schedule.play(whole(&bar), Click::Always);
    let next_beat = LEAD + round.soundings()[2].at;
    clock.runs(&mut schedule, next_beat + 0.1);
    let phase = schedule.phase(0.0).expect("a pulse");
    assert!(phase.last.count_in && phase.last.opens_bar(), "{phase:?}");
    clock.runs(&mut schedule, next_beat + 0.8);
    assert_clicks(&clock.sounding(playing)[..2], &[next_beat, next_beat + 1.0]);
}

#[test]
fn a_verdict_in_the_count_in_lets_it_go_on_and_another_step_begins_on_the_next_beat() {
    let (clock, bar) = (Wound::default(), a_bar());
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    clock.runs(&mut schedule, LEAD + 1.3);
    schedule.play(whole(&bar), Click::Always);
    clock.runs(&mut schedule, LEAD + 1.5);
    let last = schedule.phase(0.0).expect("a pulse").last;
    assert_eq!((last.number, last.count_in), (2, true), "the count-in goes on");
    schedule.play(step(&bar, 2, 3, Hands::Line), Click::Always);
    clock.runs(&mut schedule, LEAD + 2.1);
    let last = schedule.phase(0.0).expect("a pulse").last;
    assert_eq!((last.number, last.count_in), (1, true), "the count-in of the other step");
}

#[test]
fn what_was_handed_over_is_called_off_when_the_playing_ends() {
    let (clock, bar) = (Wound::default(), a_bar());
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    clock.runs(&mut schedule, LEAD + 0.8);
    assert_eq!(clock.sounding(clock.now.get()).len(), 1, "the next beat is handed over already");
    drop(schedule);
    assert_clicks(&clock.sounding(clock.now.get()), &[]);
}

#[test]
fn a_page_that_was_busy_for_a_third_of_a_second_is_late_with_no_click() {
    let (clock, bar) = (Wound::default(), a_bar());
    let round = Round::new(&bar, whole(&bar));
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    while clock.now.get() < round.total() {
        schedule.tick();
        clock.now.set(clock.now.get() + 0.35);
    }
    let expected: Vec<f64> = round.beats().iter().map(|beat| LEAD + beat.at).collect();
    assert_clicks(&clock.sounding(0.0)[..expected.len()], &expected);
}

#[test]
fn a_clock_that_jumps_back_is_another_one_and_the_round_begins_anew_on_it() {
    let (clock, bar) = (Wound::default(), a_bar());
    clock.now.set(100.0);
    let mut schedule = Schedule::new(&clock, bar.clone(), whole(&bar), Click::Always);
    clock.runs(&mut schedule, 100.2);
    clock.now.set(0.0);
    clock.runs(&mut schedule, 1.0);
    assert_clicks(&clock.sounding(0.0)[..2], &[LEAD, LEAD + 1.0]);
}

#[test]
fn the_plain_pulse_counts_a_bar_in_and_goes_on() {
    let clock = Wound::default();
    let mut metronome = Metronome::new(&clock, "3/4".parse().expect("a meter"), tempo(NoteValue::Quarter, 0, 60));
    while clock.now.get() < 7.0 {
        metronome.tick();
        clock.now.set(clock.now.get() + 0.05);
    }
    assert_clicks(&clock.sounding(0.0)[..7], &[0.3, 1.3, 2.3, 3.3, 4.3, 5.3, 6.3]);
    let accents: Vec<bool> = clock.handed_over.borrow().iter().map(|(_, accent, _)| *accent).take(6).collect();
    assert_eq!(accents, [true, false, false, true, false, false]);
    assert!((metronome.seconds(0.2) - (clock.now.get() - 0.2 - 3.3)).abs() < 1e-9, "what is heard is late by 0.2 s");
}

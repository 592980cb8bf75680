//! What the method promises for every snippet and everything that may happen to it.

use crate::happenings::{Dice, Lesson, at, snippet};
use proptest::prelude::*;
use std::rc::Rc;
use tailfirst::method::{
    Added, Advice, Cause, Difference, Direction, Grain, Hands, Happening, HappeningKind, Leaving, Move, Reason,
    Settings, Side, Snippet, Span, SpanChange, Step, Strictness, Verdict, Wanted, advise, overrule,
};

/// Something a player may do.
#[derive(Clone, Copy, Debug)]
pub enum Act {
    Play(Verdict, Option<Cause>),
    Ask(usize),
    /// Sit down to it again this many days and minutes later.
    SitDown(i64, i64),
    Stop,
    StartAfresh,
    SayEnough,
    LeaveOut,
    /// A repetition of another step arrives from another device, perhaps of onsets long cut away.
    Elsewhere(usize, usize, usize),
}

pub fn acts() -> impl Strategy<Value = Vec<Act>> {
    let cause = prop::option::of(prop::sample::select(&Cause::ALL[..]));
    let act = prop_oneof![
        30 => Just(Act::Play(Verdict::Clean, None)),
        20 => cause.prop_map(|cause| Act::Play(Verdict::NotYet, cause)),
        4 => (0..5usize).prop_map(Act::Ask),
        3 => (0..3i64, 0..60i64).prop_map(|(days, minutes)| Act::SitDown(days, minutes)),
        1 => Just(Act::Stop),
        1 => Just(Act::StartAfresh),
        1 => Just(Act::SayEnough),
        1 => Just(Act::LeaveOut),
        1 => (0..9usize, 0..9usize, 0..4usize).prop_map(|(one, other, hands)| Act::Elsewhere(one, other, hands)),
    ];
    prop::collection::vec(act, 0..80)
}

pub fn snippets() -> impl Strategy<Value = Rc<Snippet>> {
    let direction = prop_oneof![Just(Direction::TowardGoal), Just(Direction::SettingOut)];
    let grain = prop_oneof![2 => Just(Grain::Onset), 1 => Just(Grain::Beat), 1 => Just(Grain::Bar)];
    (prop_oneof!["[RLB]{1,7}", "-{1,7}"], any::<prop::sample::Index>(), direction, grain).prop_map(
        |(onsets, goal, direction, grain)| {
            let snippet = snippet(&onsets, goal.index(onsets.len()), direction);
            Rc::new((*snippet).clone().growing_by(grain))
        },
    )
}

pub fn settings() -> impl Strategy<Value = Settings> {
    let strictness = prop::sample::select(vec![Strictness::Lenient, Strictness::Usual, Strictness::Strict]);
    strictness.prop_map(|strictness| Settings { strictness, block_minutes: 30, ..Settings::default() })
}

fn ask(snippet: &Snippet, step: Step, wish: usize) -> Option<Step> {
    match wish {
        0 => overrule::longer(snippet, step),
        1 => overrule::shorter(snippet, step),
        2 => overrule::other_hand(snippet, step),
        3 => overrule::slower(step),
        _ => overrule::faster(step),
    }
}

fn elsewhere(one: usize, other: usize, hands: usize, step: Step) -> Option<Step> {
    let hands = [Hands::Left, Hands::Right, Hands::Both, Hands::Line][hands];
    Some(Step { span: Span::new(one, other)?, hands, ..step })
}

pub fn act(lesson: &mut Lesson, snippet: &Snippet, act: Act) -> Advice {
    let step = lesson.advice().step;
    match act {
        Act::Play(verdict, cause) => {
            lesson.now = lesson.now.plus_ms(4_000);
            lesson.happens(HappeningKind::Played { step, verdict, cause, broke_at: None })
        }
        Act::Ask(wish) => match ask(snippet, step, wish) {
            Some(step) => lesson.happens(HappeningKind::Overruled(step)),
            None => lesson.advice(),
        },
        Act::SitDown(days, minutes) => lesson.sit_down(lesson.now.plus_ms((days * 24 * 60 + minutes) * 60_000)),
        Act::Stop => lesson.happens(HappeningKind::BlockEnded),
        Act::StartAfresh => lesson.happens(HappeningKind::StartedAfresh),
        Act::SayEnough => lesson.happens(HappeningKind::GoodEnough),
        Act::LeaveOut => lesson.happens(HappeningKind::NotToday),
        Act::Elsewhere(one, other, hands) => match elsewhere(one, other, hands, step) {
            Some(step) => {
                lesson.happens(HappeningKind::Played { step, verdict: Verdict::Clean, cause: None, broke_at: None })
            }
            None => lesson.advice(),
        },
    }
}

fn lesson_of(snippet: &Rc<Snippet>, settings: Settings, acts: &[Act]) -> Lesson {
    let mut lesson = Lesson::new(snippet, settings);
    acts.iter().for_each(|doing| _ = act(&mut lesson, snippet, *doing));
    lesson
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn every_advice_can_be_played_and_every_number_is_a_probability(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let mut lesson = Lesson::new(&snippet, settings);
        for doing in acts {
            let advice = act(&mut lesson, &snippet, doing);
            prop_assert!(snippet.can_play(advice.step), "{:?}", advice);
            prop_assert!(advice.step.span.contains(advice.aim));
            let sure = advice.sureness;
            let ascending = [0.0, sure.now.low, sure.now.mean, sure.now.high, 1.0];
            prop_assert!(ascending.is_sorted(), "{:?}", sure);
            if let Wanted::Secure { stands, .. } = sure.wanted {
                prop_assert!((0.0..=1.0).contains(&stands));
            }
        }
    }

    #[test]
    fn a_clean_repetition_never_makes_the_task_smaller_and_a_missed_one_never_larger(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let mut lesson = Lesson::new(&snippet, settings);
        for doing in acts {
            let before = lesson.advice().step;
            let after = act(&mut lesson, &snippet, doing).step;
            match doing {
                Act::Play(Verdict::Clean, _) => prop_assert!(!after.is_smaller_than(before), "{:?} {:?}", before, after),
                Act::Play(Verdict::NotYet, _) => prop_assert!(!before.is_smaller_than(after), "{:?} {:?}", before, after),
                _ => {}
            }
        }
    }

    #[test]
    fn the_same_history_gives_the_same_advice_however_it_was_taken_in(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let lesson = lesson_of(&snippet, settings, &acts);
        prop_assert_eq!(advise(&snippet, &lesson.history, lesson.now), lesson.advice());
    }

    #[test]
    fn leaving_a_snippet_out_changes_no_advice(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let lesson = lesson_of(&snippet, settings, &acts);
        let heard = |happening: &&Happening| happening.kind != HappeningKind::NotToday;
        let without: Vec<Happening> = lesson.history.iter().filter(heard).cloned().collect();
        prop_assert_eq!(advise(&snippet, &without, lesson.now), lesson.advice());
    }

    #[test]
    fn the_day_after_good_enough_is_no_day_after_a_failure(
        (snippet, settings, acts, days) in (snippets(), settings(), acts(), 0..3i64)
    ) {
        let mut lesson = lesson_of(&snippet, settings, &acts);
        let advice = lesson.happens(HappeningKind::GoodEnough);
        prop_assert_eq!(advice.reason, Reason::Leave(Leaving::GoodEnough));
        let again = lesson.sit_down(lesson.now.plus_ms(days * 24 * 60 * 60_000));
        prop_assert_ne!(again.reason, Reason::LeftFailing);
    }

    #[test]
    fn a_move_that_was_taken_back_twice_does_not_come_again_in_the_block(
        (snippet, settings, acts, wishes) in (snippets(), settings(), acts(), prop::collection::vec(0..5usize, 60))
    ) {
        let mut lesson = lesson_of(&snippet, settings, &acts);
        lesson.sit_down(lesson.now.plus_minutes(60));
        let mut taken_back = Vec::new();
        for (nth, wish) in wishes.into_iter().enumerate() {
            let advised = lesson.advice();
            let again = taken_back.iter().filter(|made| **made == advised.led_by).count();
            prop_assert!(again < 2, "{:?} for the third time", advised.led_by);
            let choice = ask(&snippet, advised.step, wish);
            let against = choice.filter(|step| overrule::takes_back(advised.led_by, advised.step, *step));
            match against {
                Some(step) => {
                    taken_back.push(advised.led_by);
                    lesson.happens(HappeningKind::Overruled(step));
                }
                None => _ = lesson.play(if nth % 16 < 10 { Verdict::Clean } else { Verdict::NotYet }),
            }
        }
    }

    #[test]
    fn a_snippet_in_the_mirror_gets_the_same_advice_in_the_mirror(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let lesson = lesson_of(&snippet, settings, &acts);
        let mirror = Mirror { last: snippet.whole().last() };
        let history: Vec<Happening> = lesson.history.iter().filter_map(|happening| mirror.happening(happening)).collect();
        let mirrored = advise(&mirror.snippet(&snippet), &history, lesson.now);
        prop_assert_eq!(mirror.advice(lesson.advice()), mirrored);
    }

    #[test]
    fn missing_without_end_leads_to_leaving(
        (snippet, settings, acts) in (snippets(), settings(), acts())
    ) {
        let mut lesson = lesson_of(&snippet, settings, &acts);
        lesson.sit_down(lesson.now);
        let left = (0..100).any(|_| lesson.play(Verdict::NotYet).led_by == Move::Leave);
        prop_assert!(left, "{:?}", lesson.advice());
    }

    #[test]
    fn playing_clean_always_reaches_the_whole_snippet(
        (snippet, settings, acts, days) in (snippets(), settings(), acts(), 0..3i64)
    ) {
        let mut lesson = lesson_of(&snippet, settings, &acts);
        lesson.sit_down(lesson.now.plus_ms(days * 24 * 60 * 60_000));
        let left = (0..300).map(|_| lesson.play(Verdict::Clean)).find(|advice| advice.led_by == Move::Leave);
        let advice = left.expect("never left");
        let held = matches!(advice.reason, Reason::Leave(Leaving::HeldOvernight { nights }) if nights > 0 && days > 0);
        prop_assert!(held || advice.reason == Reason::Leave(Leaving::WholeSecure), "{:?}", advice);
        prop_assert_eq!(advice.step.span, snippet.whole());
        prop_assert_eq!(Some(advice.step.hands), snippet.hands_in(snippet.whole()));
        prop_assert!(advice.step.bpm >= snippet.tempo().bpm);
    }
}

/// The same music and the same story, told from the other end.
struct Mirror {
    last: usize,
}

impl Mirror {
    fn span(&self, span: Span) -> Span {
        Span::new(self.last - span.last(), self.last - span.first()).expect("in order")
    }

    fn step(&self, step: Step) -> Step {
        Step { span: self.span(step.span), ..step }
    }

    /// `None` for what lies outside the snippet, which has no place in its mirror.
    fn happening(&self, happening: &Happening) -> Option<Happening> {
        let kind = match happening.kind.clone() {
            HappeningKind::Played { step, .. } | HappeningKind::Overruled(step) if step.span.last() > self.last => {
                return None;
            }
            HappeningKind::Played { step, verdict, cause, broke_at } => {
                HappeningKind::Played { step: self.step(step), verdict, cause, broke_at }
            }
            HappeningKind::Overruled(step) => HappeningKind::Overruled(self.step(step)),
            other => other,
        };
        Some(Happening { kind, ..happening.clone() })
    }

    fn advice(&self, advice: Advice) -> Advice {
        Advice {
            step: self.step(advice.step),
            change: self.change(advice.change),
            aim: self.last - advice.aim,
            narrowed_from: advice.narrowed_from.map(|step| self.step(step)),
            ..advice
        }
    }

    fn change(&self, change: Difference) -> Difference {
        let side = |side| if side == Side::InFront { Side::Behind } else { Side::InFront };
        let span = match change.span {
            SpanChange::Longer(added) => SpanChange::Longer(Added { side: side(added.side), ..added }),
            other => other,
        };
        Difference { span, ..change }
    }

    fn snippet(&self, original: &Snippet) -> Rc<Snippet> {
        let letter = |onset: usize| match original.hands_in(Span::only(onset)) {
            Some(Hands::Left) => 'L',
            Some(Hands::Right) => 'R',
            Some(Hands::Both) => 'B',
            _ => '-',
        };
        let onsets: String = (0..=self.last).rev().map(letter).collect();
        let direction = match original.direction() {
            Direction::TowardGoal => Direction::SettingOut,
            Direction::SettingOut => Direction::TowardGoal,
        };
        let snippet = snippet(&onsets, self.last - original.goal(), direction);
        Rc::new((*snippet).clone().growing_by(original.grain()))
    }
}

/// A player who is clean nine times in ten, whatever is asked, and sits down again whenever it is time.
#[test]
fn a_fair_player_gets_there_with_misses_too() {
    let snippet = snippet("BRBLBB", 4, Direction::TowardGoal);
    let mut repetitions = Vec::new();
    for seed in 1..=20 {
        let mut dice = Dice::thrown_by(seed);
        let mut lesson = Lesson::new(&snippet, Settings::default());
        let reached = (1..2_000).find(|_| {
            let advice = lesson.play(if dice.roll() < 0.9 { Verdict::Clean } else { Verdict::NotYet });
            let leaves = advice.led_by == Move::Leave;
            if leaves && advice.reason != Reason::Leave(Leaving::WholeSecure) {
                lesson.sit_down(lesson.now.plus_minutes(15));
            }
            leaves && advice.reason == Reason::Leave(Leaving::WholeSecure)
        });
        repetitions.push(reached.unwrap_or_else(|| panic!("seed {seed} stalls: {:?}", lesson.advice())));
    }
    repetitions.sort_unstable();
    println!("six onsets at nine clean in ten: {} repetitions (median), {:?}", repetitions[10], repetitions);
}

#[test]
fn what_lies_outside_the_snippet_is_passed_over() {
    let snippet = snippet("RRR", 2, Direction::TowardGoal);
    let mut lesson = Lesson::new(&snippet, Settings::default());
    let before = lesson.advice();
    let outside = Step { span: Span::new(1, 5).expect("in order"), ..before.step };
    let other_hand = Step { hands: Hands::Left, ..before.step };
    for step in [outside, other_hand] {
        lesson.happens(HappeningKind::Played { step, verdict: Verdict::NotYet, cause: None, broke_at: None });
        assert_eq!(lesson.happens(HappeningKind::Overruled(step)), before);
    }
    assert_eq!(before, Lesson::new(&snippet, Settings::default()).coach.advice(at(0, 0)));
}

//! Whatever a sentence claims is true of the step before it and the step it asks for, whoever plays what.

use crate::happenings::Lesson;
use crate::promises::{Act, act, acts, settings, snippets};
use proptest::prelude::*;
use tailfirst::{
    clock::Day,
    method::{Advice, Cause, Hands, HappeningKind, Reason, Snippet, Span, Step, Verdict},
    words,
};

/// What a sentence may be held to.
struct Told<'a> {
    said: &'a str,
    snippet: &'a Snippet,
    /// The step that the work begins with.
    first: Step,
    before: Step,
    after: Step,
    /// Where the work stood when the last block began.
    stopped_at: Step,
    nights: u32,
    /// The repetitions since the player last said what to play, the latest last.
    block: &'a [(Step, Verdict, Option<Cause>)],
    /// All steps that were ever played clean.
    clean: &'a [Step],
}

impl Told<'_> {
    fn same_but_for_tempo(&self) -> bool {
        (self.before.span, self.before.hands) == (self.after.span, self.after.hands)
    }

    fn grew_only_in_front(&self) -> bool {
        self.after.span.first() < self.before.span.first() && self.after.span.last() == self.before.span.last()
    }

    fn grew_only_behind(&self) -> bool {
        self.after.span.last() > self.before.span.last() && self.after.span.first() == self.before.span.first()
    }

    /// The onsets that are new, on one side.
    fn added(&self) -> Span {
        let (before, after) = (self.before.span, self.after.span);
        let front = || Span::new(after.first(), before.first() - 1);
        let added = if self.grew_only_in_front() { front() } else { Span::new(before.last() + 1, after.last()) };
        added.expect("it grew")
    }

    /// All onsets of one beat or bar, and no others.
    fn added_is_one_unit(&self) -> bool {
        let added = self.added();
        let same = |onset: usize| self.snippet.one_unit(onset, added.first());
        (0..=self.snippet.whole().last()).all(|onset| added.contains(onset) == same(onset))
    }

    fn added_number(&self) -> usize {
        let words: Vec<&str> = self.said.split_whitespace().collect();
        let at = words.iter().position(|word| word.starts_with("onset")).expect("onsets");
        if words[at - 1] == "One" { 1 } else { words[at - 1].parse().expect("a number") }
    }

    fn is_mostly(&self, cause: &str) -> bool {
        let here = self.block.iter().rev().take_while(|(step, ..)| *step == self.after);
        let misses: Vec<Option<Cause>> =
            here.filter(|(_, verdict, _)| *verdict == Verdict::NotYet).map(|(_, _, cause)| *cause).take(9).collect();
        let this = |named: &Option<Cause>| named.map(words::cause) == Some(cause);
        let newest = misses.iter().find(|cause| cause.is_some());
        newest.is_some_and(this) && 2 * misses.iter().filter(|named| this(named)).count() > misses.len()
    }

    fn distance_to_goal(&self, span: Span) -> usize {
        let goal = self.snippet.goal();
        goal.saturating_sub(span.last()).max(span.first().saturating_sub(goal))
    }

    /// Every claim that the sentence makes, and whether it is true.
    fn claims(&self) -> Vec<(&'static str, bool)> {
        let (before, after, goal) = (self.before, self.after, self.snippet.goal());
        let onset_number = |part: &str| self.said.contains("onset") && self.said.contains(part);
        let is = |hands| after.hands == hands;
        let claims: [(&str, &dyn Fn() -> bool); 28] = [
            ("Again, the same", &|| before == after),
            ("in front", &|| self.grew_only_in_front()),
            ("behind", &|| self.grew_only_behind()),
            ("One beat", &|| self.added_is_one_unit()),
            ("One bar", &|| self.added_is_one_unit()),
            ("Both hands at once", &|| before.hands == Hands::Both && is(Hands::Both)),
            ("Now both hands", &|| before.hands != Hands::Both && is(Hands::Both)),
            ("One hand first", &|| before.hands == Hands::Both && !is(Hands::Both)),
            ("left hand alone", &|| before.span == after.span && before.hands == Hands::Both && is(Hands::Left)),
            ("right hand alone", &|| before.span == after.span && before.hands == Hands::Both && is(Hands::Right)),
            ("little slower", &|| after.bpm < before.bpm),
            ("faster", &|| after.bpm > before.bpm && self.same_but_for_tempo()),
            ("all else the same", &|| self.same_but_for_tempo()),
            ("As last time", &|| self.same_but_for_tempo()),
            ("smaller task", &|| before.span != after.span && before.span.holds(after.span)),
            ("only", &|| self.added_number() == after.span.count()),
            ("On to the goal", &|| !before.span.contains(goal) && after.span.contains(goal)),
            ("Nearer to the goal", &|| self.distance_to_goal(after.span) < self.distance_to_goal(before.span)),
            ("On from where you stopped", &|| after == self.stopped_at),
            ("The goal alone", &|| after.span == Span::only(goal)),
            ("The bar that leads to the goal", &|| {
                after.span.last().abs_diff(after.span.first()) > 0 && after.span.contains(goal)
            }),
            ("at the full tempo", &|| after.bpm == self.snippet.tempo().bpm && self.same_but_for_tempo()),
            ("Something easier", &|| after.is_smaller_than(before)),
            ("First, what went well", &|| self.clean.iter().any(|step| step.span == after.span)),
            ("From the first step", &|| after.span == self.first.span),
            ("night", &|| self.nights > 0),
            ("A new day", &|| self.nights > 0),
            ("Once, cold", &|| self.clean.iter().any(|step| step.span == after.span)),
        ];
        let mut found: Vec<_> = claims
            .iter()
            .filter(|(part, _)| self.said.contains(part))
            .map(|(part, is_true)| (*part, is_true()))
            .collect();
        if onset_number("in front") || onset_number("behind") {
            found.push(("the number of onsets", self.added_number() == self.added().count()));
        }
        if let Some(cause) = self.said.strip_prefix("Mostly here: ").and_then(|rest| rest.split_once('.')) {
            found.push(("mostly", self.is_mostly(cause.0)));
        }
        found
    }
}

/// Sentences that claim nothing of the two steps.
const PLAIN: [&str; 4] = [
    "It goes well. On to the next step.",
    "As you wish.",
    "It goes well. You say when to go on.",
    "Your choice stands. Smaller or slower is one tap away.",
];

/// What the test itself remembers of a lesson.
struct Witness {
    stopped_at: Step,
    /// A cold try was asked for, and nothing was played since.
    cold_is_unplayed: bool,
    last_played: Option<Day>,
    nights: u32,
    block: Vec<(Step, Verdict, Option<Cause>)>,
    clean: Vec<Step>,
}

impl Witness {
    /// The step that the advice after `doing` follows on.
    fn sees(&mut self, lesson: &Lesson, snippet: &Snippet, advised: Step) -> Step {
        let Some(last) = lesson.history.last() else { return advised };
        match last.kind {
            HappeningKind::BlockBegan(_) => {
                self.block.clear();
                self.stopped_at = advised;
                self.nights = self.last_played.map_or(0, |day| (last.at.day() - day).max(0).unsigned_abs());
                advised
            }
            HappeningKind::Played { step, verdict, cause, .. } if snippet.can_play(step) => {
                self.last_played = Some(last.at.day());
                self.block.push((step, verdict, cause));
                self.clean.extend((verdict == Verdict::Clean).then_some(step));
                step
            }
            // What is played now is taken up anew.
            HappeningKind::StartedAfresh | HappeningKind::Overruled(_) => {
                self.block.clear();
                advised
            }
            _ => advised,
        }
    }
}

fn is_of_the_block(advice: &Advice) -> bool {
    !matches!(advice.reason, Reason::Leave(_))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn whatever_a_sentence_claims_is_true((snippet, settings, acts) in (snippets(), settings(), acts())) {
        let mut lesson = Lesson::new(&snippet, settings);
        let mut before = lesson.advice();
        let first = before.step;
        let mut witness =
            Witness { stopped_at: before.step, cold_is_unplayed: false, last_played: None, nights: 0, block: vec![], clean: vec![] };
        for doing in acts {
            let happened = lesson.history.len();
            let after = act(&mut lesson, &snippet, doing);
            if lesson.history.len() == happened {
                continue;
            }
            let stopped_at = witness.stopped_at;
            let from = witness.sees(&lesson, &snippet, before.step);
            if witness.cold_is_unplayed && matches!(doing, Act::SitDown(..)) {
                // Another cold try that nobody has played yet: the work still stands where it stopped.
                let cold_again = matches!(after.reason, Reason::ColdTry { .. });
                witness.stopped_at = if cold_again { stopped_at } else { after.step };
            }
            match lesson.history.last().map(|last| &last.kind) {
                Some(HappeningKind::BlockBegan(_)) => {
                    witness.cold_is_unplayed = matches!(after.reason, Reason::ColdTry { .. });
                }
                Some(HappeningKind::Played { .. } | HappeningKind::Overruled(_) | HappeningKind::StartedAfresh) => {
                    witness.cold_is_unplayed = false;
                }
                _ => {}
            }
            if after != before && is_of_the_block(&after) {
                let said = words::coach(&after);
                let Witness { stopped_at, nights, block, clean, .. } = &witness;
                let (stopped_at, nights) = (*stopped_at, *nights);
                let told = Told {
                    said: &said, snippet: &snippet, first, before: from, after: after.step, stopped_at, nights, block, clean,
                };
                let claims = told.claims();
                prop_assert!(!claims.is_empty() || PLAIN.contains(&said.as_str()), "what does “{}” claim?", said);
                let untrue: Vec<_> = claims.iter().filter(|(_, is_true)| !is_true).collect();
                prop_assert!(untrue.is_empty(), "“{}”: {:?}\n{:?}\n{:?}", said, untrue, from, after);
            }
            before = after;
        }
    }
}

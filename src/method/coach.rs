//! The coach: what has happened to a snippet goes in, advice comes out.
//!
//! It folds the history one happening at a time, so that a tap costs the same after ten years as on the first day. The
//! same history gives the same advice on every device.

use crate::{
    clock::{Day, Moment},
    method::{
        Cause, Difference, Happening, HappeningKind, Leaving, Move, Settings, Snippet, Span, Step, Verdict,
        advice::{Advice, Reason, Sureness},
        estimate::{Believed, Estimate, Priors, Transition},
        growth,
        moves::Place,
        overrule,
        record::Record,
        rules::{self, Asked, Judged, Rules},
    },
};
use std::rc::Rc;

/// Where the work on one snippet stands.
#[derive(Clone, Debug)]
pub struct Coach {
    snippet: Rc<Snippet>,
    rules: Rules,
    priors: Priors,
    place: Place,
    /// The move that led to the step, however often it has been played since.
    came_by: Move,
    led_by: Move,
    change: Difference,
    reason: Reason,
    estimate: Estimate,
    block: BlockSoFar,
    record: Record,
    cold: Option<ColdTry>,
}

/// The block that is being played, or the last one.
#[derive(Clone, Debug, Default)]
struct BlockSoFar {
    began: Option<Moment>,
    settings: Settings,
    repetitions: Vec<Judged>,
    /// The steps that have been played before the present one, with their evidence.
    earlier: Vec<(Step, Estimate)>,
    /// The coach's moves that the player has taken back.
    taken_back: Vec<Move>,
    left: Option<Leaving>,
}

/// A cold try that has not been played yet.
#[derive(Clone, Debug)]
struct ColdTry {
    nights: u32,
    /// Where the work stopped, if it was going well and further than what is tried.
    resume: Option<(Place, Estimate)>,
}

/// The advice after `history`, from scratch.
pub fn advise(snippet: &Rc<Snippet>, history: &[Happening], now: Moment) -> Advice {
    let mut coach = Coach::new(Rc::clone(snippet));
    history.iter().for_each(|happening| coach.follow(happening));
    coach.advice(now)
}

impl Coach {
    /// The coach of a snippet to which nothing has happened.
    pub fn new(snippet: Rc<Snippet>) -> Self {
        Coach::with(snippet, Rules::CHOSEN, Priors::CHOSEN)
    }

    /// The same with other rules and priors, for experiments.
    pub fn with(snippet: Rc<Snippet>, rules: Rules, priors: Priors) -> Self {
        Coach {
            place: Place::first(&snippet),
            snippet,
            rules,
            priors,
            came_by: Move::Begin,
            led_by: Move::Begin,
            change: Difference::NONE,
            reason: Reason::Beginning,
            estimate: Estimate::first(&priors),
            block: BlockSoFar::default(),
            record: Record::default(),
            cold: None,
        }
    }

    /// Takes in what happened next. Steps that can no longer be played because the snippet was edited are skipped.
    pub fn follow(&mut self, happening: &Happening) {
        match happening.kind {
            HappeningKind::BlockBegan(settings) => self.begin_block(happening.at, settings),
            HappeningKind::BlockEnded => {
                let used = self.block.minutes_used(happening.at);
                self.block.left = self.block.left.or(used).or(Some(Leaving::Stopped));
            }
            HappeningKind::StartedAfresh => self.start_afresh(),
            HappeningKind::GoodEnough => self.block.left = Some(Leaving::GoodEnough),
            HappeningKind::Overruled(step) if self.snippet.can_play(step) => {
                if overrule::takes_back(self.came_by, self.place.step, step) {
                    self.block.taken_back.push(self.came_by);
                }
                self.choose(step);
            }
            HappeningKind::Played { step, verdict, cause } if self.snippet.can_play(step) => {
                self.choose(step);
                self.hear(verdict, cause, happening.at.day());
            }
            HappeningKind::NotToday
            | HappeningKind::RestOverruled
            | HappeningKind::Overruled(_)
            | HappeningKind::Played { .. } => {}
        }
    }

    /// The coach as it would be if a block began at `at`.
    pub fn once_begun(&self, settings: Settings, at: Moment) -> Self {
        let mut coach = self.clone();
        coach.follow(&Happening { at, kind: HappeningKind::BlockBegan(settings) });
        coach
    }

    /// What to do now.
    pub fn advice(&self, now: Moment) -> Advice {
        let leaving = self.block.left.or_else(|| self.block.minutes_used(now));
        let asked = self.asked();
        Advice {
            step: self.place.step,
            aim: growth::aim(&self.snippet, self.place.step.span),
            led_by: if leaving.is_some() { Move::Leave } else { self.led_by },
            change: self.change,
            reason: leaving.map_or(self.reason, Reason::Leave),
            sureness: Sureness {
                now: self.estimate.now(),
                asked,
                chance_secure: self.estimate.tails().chance_above(asked.level),
            },
            mind: rules::cause_to_mind(self.block.latest(self.estimate.repetitions())),
            narrowed_from: self.place.narrowed_from,
            consider_afresh: self.record.is_stale(),
        }
    }

    /// Every repetition of the block, of all its steps, with the smoothed learning curve of each.
    pub fn believed(&self) -> Vec<Believed> {
        let earlier = self.block.earlier.iter().map(|(step, estimate)| (*step, estimate));
        let steps = earlier.chain([(self.place.step, &self.estimate)]);
        steps.flat_map(|(step, estimate)| estimate.believed(step)).collect()
    }

    /// The repetition of the present step, counted from one, since which it has almost certainly been clean more often
    /// than not.
    pub fn learned_since(&self) -> Option<usize> {
        self.estimate.learned_since()
    }

    /// How many more repetitions in a row with this verdict would lead to another step or to leaving;
    /// `None` where it would take more than [`rules::FORESEEN`].
    pub fn until_a_move(&self, verdict: Verdict, now: Moment) -> Option<u32> {
        let mut coach = self.clone();
        let step = coach.place.step;
        (1..=rules::FORESEEN).find(|_| {
            coach.follow(&Happening { at: now, kind: HappeningKind::Played { step, verdict, cause: None } });
            coach.place.step != step || coach.block.left.is_some()
        })
    }

    /// Whether the whole snippet, once secure, was clean in a cold try: it may be joined to a neighbour
    /// that has held too.
    pub fn has_held(&self) -> bool {
        self.record.has_held()
    }

    fn asked(&self) -> Asked {
        self.rules.asked(self.block.settings.strictness)
    }

    /// One repetition of the present step.
    fn hear(&mut self, verdict: Verdict, cause: Option<Cause>, day: Day) {
        self.estimate.hear(verdict);
        self.block.repetitions.push((verdict, cause));
        self.record.played(day);
        if self.rules.secure(&self.estimate, self.asked()) {
            self.record.secured(&self.snippet, self.place.step, &self.estimate);
        }
        let cold = self.cold.take();
        if cold.is_some() {
            self.record.cold_try(&self.snippet, self.place.step, verdict);
        }
        match (cold, verdict) {
            _ if self.block.left.is_some() => {}
            (Some(cold), Verdict::Clean) => self.has_kept(cold),
            (_, Verdict::Clean) => self.decide_on_a_clean_one(),
            (_, Verdict::NotYet) => self.decide_on_a_miss(),
        }
    }

    /// A clean cold try: the work goes on where it stopped; where it had come to the whole snippet, that is
    /// all that today's first block was for.
    fn has_kept(&mut self, ColdTry { nights, resume }: ColdTry) {
        if let Some((place, estimate)) = resume {
            let estimate = estimate.carried(Transition::Overnight).of_the_pupil_of(&self.estimate);
            self.go(Move::Lengthen, place, Reason::HeldOvernight { nights }, estimate);
        } else if self.place.step.span == self.snippet.whole() {
            self.leave(Leaving::HeldOvernight { nights });
        } else {
            self.decide_on_a_clean_one();
        }
    }

    /// A clean repetition only leads forward and a missed one only back, so that no verdict is answered by its
    /// opposite.
    fn decide_on_a_clean_one(&mut self) {
        if self.rules.secure(&self.estimate, self.asked()) {
            self.go_onward();
        } else {
            self.stay();
        }
    }

    fn decide_on_a_miss(&mut self) {
        let judged = &self.block.repetitions;
        if let Some(leaving) = rules::causes_differ(judged) {
            self.leave(leaving);
        } else if self.rules.too_hard(&self.estimate) {
            self.go_back();
        } else if let Some(leaving) = self.rules.flat_or_falling(&self.estimate, judged) {
            self.leave(leaving);
        } else {
            self.stay();
        }
    }

    fn go_onward(&mut self) {
        let reason = Reason::Secure { clean: self.estimate.clean(), of: self.estimate.repetitions() };
        match self.place.onward(&self.snippet, rules::together_at_once(&self.estimate)) {
            Some((led_by, _)) if self.holds_back(led_by) => self.hold_back(led_by),
            Some((led_by, place)) => self.go(led_by, place, reason, self.carried_to(place)),
            None => self.leave(Leaving::WholeSecure),
        }
    }

    fn go_back(&mut self) {
        let reason = Reason::TooHard { missed: self.estimate.missed(), of: self.estimate.repetitions() };
        match self.place.back(&self.snippet, |step| self.record.was_secure_today(step)) {
            Some((led_by, _)) if self.holds_back(led_by) => {
                match self.rules.flat_or_falling(&self.estimate, &self.block.repetitions) {
                    Some(leaving) => self.leave(leaving),
                    None => self.hold_back(led_by),
                }
            }
            Some((led_by, place)) => self.go(led_by, place, reason, self.carried_to(place)),
            None => self.leave(Leaving::TempoFloor { bpm: self.place.step.bpm }),
        }
    }

    /// What the present step tells about another one.
    fn carried_to(&self, place: Place) -> Estimate {
        self.estimate.carried(Transition::between(self.place.step, place.step))
    }

    fn go(&mut self, led_by: Move, place: Place, reason: Reason, estimate: Estimate) {
        self.change = Difference::between(&self.snippet, self.place.step, place.step);
        let left = std::mem::replace(&mut self.estimate, estimate);
        if left.repetitions() > 0 {
            self.block.earlier.push((self.place.step, left));
        }
        (self.came_by, self.led_by, self.place, self.reason) = (led_by, led_by, place, reason);
    }

    fn holds_back(&self, led_by: Move) -> bool {
        rules::held_back(led_by, &self.block.taken_back)
    }

    /// The move is due, but the player decides about it.
    fn hold_back(&mut self, led_by: Move) {
        (self.led_by, self.change) = (Move::Again, Difference::NONE);
        self.reason = Reason::HeldBack(led_by);
    }

    fn stay(&mut self) {
        (self.led_by, self.change) = (Move::Again, Difference::NONE);
        self.reason = Reason::NotSureYet { clean: self.estimate.clean(), of: self.estimate.repetitions() };
    }

    /// Once left, the snippet stays left until a new block begins.
    fn leave(&mut self, leaving: Leaving) {
        self.stay();
        self.block.left = Some(leaving);
    }

    /// The player, or another device, has gone to `step`.
    fn choose(&mut self, step: Step) {
        if step == self.place.step {
            return;
        }
        self.cold = None;
        let place = self.place.chosen(step);
        self.go(Move::Overruled, place, Reason::Chosen, self.carried_to(place));
    }

    /// The minutes go on; what was played in them, and that it was left, counts no more.
    fn start_afresh(&mut self) {
        let block = BlockSoFar { began: self.block.began, settings: self.block.settings, ..BlockSoFar::default() };
        *self = Coach { block, ..Coach::with(Rc::clone(&self.snippet), self.rules, self.priors) };
        (self.came_by, self.led_by, self.reason) = (Move::StartAfresh, Move::StartAfresh, Reason::Afresh);
    }

    /// A new day begins with a cold try of the longest secure span, a new block of the same day where
    /// the last one stopped; both with something easier where the last block was left failing.
    fn begin_block(&mut self, at: Moment, settings: Settings) {
        // A cold try that was not played has not moved the work from where it stopped.
        if let Some((place, estimate)) = self.cold.take().and_then(|cold| cold.resume) {
            (self.place, self.estimate) = (place, estimate);
        }
        let failed = match self.block.left {
            Some(Leaving::GoodEnough) => false,
            left => left.is_some_and(Leaving::is_of_failure) || self.rules.failing(&self.estimate),
        };
        match self.record.nights_until(at.day()) {
            None => {}
            Some(0) => self.begin_again(0, failed),
            Some(nights) => {
                self.record.sleep();
                match self.record.longest().cloned() {
                    Some((longest, estimate)) => self.try_cold(nights, longest, &estimate, failed),
                    None => self.begin_again(nights, failed),
                }
            }
        }
        self.block = BlockSoFar { began: Some(at), settings, ..BlockSoFar::default() };
    }

    fn begin_again(&mut self, nights: u32, failed: bool) {
        let change = if nights > 0 { Transition::Overnight } else { Transition::Rested };
        if !failed {
            return self.go(Move::Again, self.place, Reason::GoesOn { nights }, self.estimate.carried(change));
        }
        let too_hard = self.place.narrowed_from.unwrap_or(self.place.step).span;
        let part = |longest: Span| too_hard != longest && too_hard.holds(longest);
        let secure = self.record.longest().filter(|(longest, _)| part(longest.span));
        if let Some((longest, estimate)) = secure.cloned() {
            let estimate = estimate.carried(change).of_the_pupil_of(&self.estimate);
            self.go(Move::Narrow, Place::plain(longest), Reason::LeftFailing, estimate);
        } else if let Some(place) = self.place.eased(&self.snippet) {
            self.go(Move::Ease, place, Reason::LeftFailing, self.carried_to(place));
        } else {
            self.go(Move::Again, self.place, Reason::GoesOn { nights }, self.estimate.carried(change));
        }
    }

    fn try_cold(&mut self, nights: u32, longest: Step, estimate: &Estimate, failed: bool) {
        let stopped_at = self.place.step.span;
        let further = stopped_at != longest.span && stopped_at.holds(longest.span);
        let resume = (further && !failed).then(|| (self.place, self.estimate.clone()));
        self.cold = Some(ColdTry { nights, resume });
        let place = Place::plain(longest);
        let estimate = estimate.carried(Transition::Overnight).of_the_pupil_of(&self.estimate);
        self.go(Move::ColdTry, place, Reason::ColdTry { nights }, estimate);
    }
}

impl BlockSoFar {
    /// The latest repetitions, so many of them.
    fn latest(&self, repetitions: u32) -> &[Judged] {
        &self.repetitions[self.repetitions.len().saturating_sub(repetitions as usize)..]
    }

    fn minutes_used(&self, now: Moment) -> Option<Leaving> {
        let minutes = self.settings.block_minutes;
        let used = now >= self.began?.plus_minutes(minutes);
        used.then_some(Leaving::MinutesUsed { minutes })
    }
}

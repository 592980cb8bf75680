//! The coach: what has happened to a snippet goes in, advice comes out.
//!
//! It folds the history one happening at a time, so that a tap costs the same after ten years as on the first day. The
//! same history gives the same advice on every device.

mod beginnings;
mod block_so_far;

use crate::{
    clock::{Day, Moment},
    method::{
        Belief, ChanceBand, Difference, Happening, HappeningKind, Leaving, Move, Place, Priors, Settings, Snippet,
        Step, Verdict,
        advice::{Advice, Reason, Sureness, Wanted},
        choice,
        coach::block_so_far::BlockSoFar,
        growth,
        moves::{Candidate, Task},
        overrule,
        record::Record,
        rules::{self, Asked, Judged, Rules},
        tries::Tries,
    },
};
use std::rc::Rc;

/// Where the work on one snippet stands.
#[derive(Clone, Debug)]
pub struct Coach {
    snippet: Rc<Snippet>,
    rules: Rules,
    priors: Priors,
    belief: Belief,
    task: Task,
    tries: Tries,
    /// The move that led to the step, however often it has been played since.
    came_by: Move,
    led_by: Move,
    change: Difference,
    reason: Reason,
    /// Steps in a row that went well without a miss.
    faultless: u32,
    block: BlockSoFar,
    record: Record,
    cold: Option<ColdTry>,
}

/// A cold try that has not been played yet.
#[derive(Clone, Debug)]
struct ColdTry {
    nights: u32,
    /// Where the work stopped, if it was going well and further than what is tried.
    resume: Option<Task>,
}

/// One repetition of a block and what was believed of its step after it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Believed {
    /// What was played.
    pub step: Step,
    /// How it was judged.
    pub verdict: Verdict,
    /// The believed chance of a clean repetition from then on.
    pub chance: ChanceBand,
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
        let (belief, task) = (Belief::first(&snippet, &priors), Task::first(&snippet));
        Coach {
            task,
            tries: Tries::none(belief.chance(task.step)),
            snippet,
            rules,
            priors,
            came_by: Move::Begin,
            led_by: Move::Begin,
            change: Difference::NONE,
            reason: Reason::Beginning,
            faultless: 0,
            block: BlockSoFar::before_any(&belief),
            record: Record::default(),
            cold: None,
            belief,
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
                if overrule::takes_back(self.came_by, self.task.step, step) {
                    self.block.taken_back.push(self.came_by);
                }
                self.choose(step);
            }
            HappeningKind::Played { step, verdict, cause, broke_at } if self.snippet.can_play(step) => {
                self.choose(step);
                self.hear((verdict, cause), broke_at, happening.at.day());
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
        Advice {
            step: self.task.step,
            aim: growth::aim(&self.snippet, self.task.step.span),
            led_by: if leaving.is_some() { Move::Leave } else { self.led_by },
            change: self.change,
            reason: leaving.map_or(self.reason, Reason::Leave),
            sureness: Sureness { now: self.belief.point(self.task.step), wanted: self.wanted() },
            mind: rules::cause_to_mind(self.block.latest(self.tries.repetitions())),
            narrowed_from: self.task.narrowed_from,
            consider_afresh: self.record.is_stale(),
        }
    }

    /// Every repetition of the block, of all its steps, with what was believed after it.
    pub fn believed(&self) -> Vec<Believed> {
        let mut belief = self.block.believed.clone();
        let heard = self.block.played.iter().zip(&self.block.judged).map(|((step, broke_at), (verdict, _))| {
            belief.hear(*step, *verdict, *broke_at);
            Believed { step: *step, verdict: *verdict, chance: belief.point(*step) }
        });
        heard.collect()
    }

    /// The step of a cold try that is to be played now.
    pub fn cold_try(&self) -> Option<Step> {
        self.cold.as_ref().map(|_| self.task.step)
    }

    /// The chance of a clean repetition, right now, of what the next cold try will play; `None` while nothing has gone well
    /// that could be tried.
    pub fn tried_next(&self) -> Option<f64> {
        self.record.longest().map(|longest| self.belief.chance(longest))
    }

    /// The chance of a clean repetition of the whole snippet, right now.
    pub fn whole(&self) -> f64 {
        self.whole_step().map_or(0.0, |whole| self.belief.chance(whole))
    }

    /// The same after so many more minutes of practice like the present step's, as far as is expected.
    pub fn whole_after(&self, minutes: u32) -> f64 {
        let hazard = -self.whole().max(f64::MIN_POSITIVE).ln();
        let repetitions = f64::from(minutes) * 60.0 / choice::seconds(&self.snippet, self.task.step);
        let share = (self.belief.gain(self.task.step) / hazard.max(f64::MIN_POSITIVE)).min(1.0);
        (-hazard * (-repetitions * share).exp()).exp()
    }

    /// The places that cost most, the worst first; none while nothing stands out.
    pub fn costliest(&self) -> Vec<Place> {
        rules::costliest(self.belief.hazards())
    }

    /// How many more repetitions in a row with this verdict would lead to another step or to leaving;
    /// `None` where it would take more than [`rules::FORESEEN`].
    pub fn until_a_move(&self, verdict: Verdict, now: Moment) -> Option<u32> {
        let mut coach = self.clone();
        let step = coach.task.step;
        (1..=rules::FORESEEN).find(|_| {
            coach.follow(&Happening {
                at: now,
                kind: HappeningKind::Played { step, verdict, cause: None, broke_at: None },
            });
            coach.task.step != step || coach.block.left.is_some()
        })
    }

    /// Whether the whole snippet, once secure, was clean in a cold try: it may be joined to a neighbour
    /// that has held too.
    pub fn has_held(&self) -> bool {
        self.record.has_held()
    }

    fn wanted(&self) -> Wanted {
        if !self.is_whole(self.task.step) {
            return Wanted::Well { level: self.rules.well, fewest_clean: self.rules.fewest_clean(self.is_chosen()) };
        }
        let asked = self.asked();
        Wanted::Secure { asked, stands: self.belief.chance_above(self.task.step, asked.level) }
    }

    /// Whether the player went to the present step.
    fn is_chosen(&self) -> bool {
        self.came_by == Move::Overruled
    }

    fn asked(&self) -> Asked {
        self.rules.asked(self.block.settings.strictness)
    }

    /// One repetition of the present step.
    fn hear(&mut self, judged: Judged, broke_at: Option<usize>, day: Day) {
        let (step, (verdict, _)) = (self.task.step, judged);
        self.belief.hear(step, verdict, broke_at);
        self.tries.hear(verdict, self.belief.chance(step));
        self.block.played.push((step, broke_at));
        self.block.judged.push(judged);
        self.record.played(day);
        if self.rules.goes_well(&self.tries, self.is_chosen()) {
            self.record.went_well(&self.snippet, step);
        }
        let cold = self.cold.take();
        if cold.is_some() {
            self.record.cold_try(&self.snippet, step, verdict);
        }
        if verdict == Verdict::NotYet {
            self.faultless = 0;
        }
        match (cold, verdict) {
            _ if self.block.left.is_some() => {}
            (Some(cold), Verdict::Clean) => self.has_kept(cold),
            (_, Verdict::Clean) => self.decide_on_a_clean_one(),
            (_, Verdict::NotYet) => self.decide_on_a_miss(),
        }
    }

    /// A clean cold try: the work goes on where it stopped; where the whole snippet had been secure, that is all that today's
    /// first block was for.
    fn has_kept(&mut self, ColdTry { nights, resume }: ColdTry) {
        if let Some(task) = resume {
            self.go(Move::Lengthen, task, Reason::HeldOvernight { nights });
        } else if self.is_whole(self.task.step) && self.record.was_secure() {
            self.leave(Leaving::HeldOvernight { nights });
        } else {
            self.decide_on_a_clean_one();
        }
    }

    fn is_whole(&self, step: Step) -> bool {
        self.whole_step().is_some_and(|whole| Step { bpm: whole.bpm, ..step } == whole && step.bpm >= whole.bpm)
    }

    /// The whole snippet in all its hands at the target tempo.
    fn whole_step(&self) -> Option<Step> {
        let span = self.snippet.whole();
        self.snippet.hands_in(span).map(|hands| Step { span, hands, bpm: self.snippet.tempo().bpm })
    }

    /// A clean repetition only leads onward and a missed one only back, so that no verdict is ever answered
    /// by its opposite.
    fn decide_on_a_clean_one(&mut self) {
        match self.wanted() {
            Wanted::Secure { asked, stands } if rules::is_secure(&self.tries, asked, stands) => {
                self.record.secured();
                self.leave(Leaving::WholeSecure);
            }
            Wanted::Well { .. } if self.rules.goes_well(&self.tries, self.is_chosen()) => self.go_onward(),
            _ => self.stay(),
        }
    }

    fn decide_on_a_miss(&mut self) {
        let judged = &self.block.judged;
        if let Some(leaving) = rules::causes_differ(judged) {
            self.leave(leaving);
        } else if self.rules.too_hard(&self.tries) {
            self.go_back();
        } else if let Some(leaving) = self.rules.flat_or_falling(&self.tries, judged) {
            self.take_apart_or(leaving);
        } else {
            self.stay();
        }
    }

    /// What is neither too hard nor getting any better may do so in parts; where there are none left, it is left.
    fn take_apart_or(&mut self, leaving: Leaving) {
        match self.chosen_of(self.narrower()).filter(|(led_by, _)| !self.holds_back(*led_by)) {
            Some((led_by, task)) => self.go(led_by, task, self.too_hard()),
            None => self.leave(leaving),
        }
    }

    fn go_onward(&mut self) {
        let reason = Reason::GoesWell { clean: self.tries.clean(), of: self.tries.repetitions() };
        if self.tries.missed() == 0 {
            self.faultless += 1;
        }
        if self.task.narrowed_from.is_some() || self.task.step.bpm < self.snippet.tempo().bpm {
            self.block.mended = Some(self.task);
        }
        let stride = rules::stride(self.faultless);
        let onward = self.task.onward(&self.snippet, stride, rules::together_at_once(&self.tries));
        match self.chosen_of(onward) {
            Some((led_by, _)) if self.holds_back(led_by) => self.hold_back(led_by),
            Some((led_by, task)) => self.go(led_by, task, reason),
            None => self.stay(),
        }
    }

    fn go_back(&mut self) {
        match self.chosen_of(self.narrower()).or_else(|| self.task.eased(&self.snippet)) {
            Some((led_by, _)) if self.holds_back(led_by) => {
                match self.rules.flat_or_falling(&self.tries, &self.block.judged) {
                    Some(leaving) => self.leave(leaving),
                    None => self.hold_back(led_by),
                }
            }
            Some((led_by, task)) => self.go(led_by, task, self.too_hard()),
            None => self.leave(Leaving::TempoFloor { bpm: self.task.step.bpm }),
        }
    }

    fn too_hard(&self) -> Reason {
        Reason::TooHard { missed: self.tries.missed(), of: self.tries.repetitions() }
    }

    /// The smaller tasks that have not gone well today; none while the step is faster than it has to be.
    fn narrower(&self) -> Vec<Candidate> {
        if self.task.step.bpm > self.snippet.tempo().bpm {
            return Vec::new();
        }
        self.task.narrower(&self.snippet, |step| self.record.went_well_today(step))
    }

    fn chosen_of(&self, candidates: Vec<Candidate>) -> Option<Candidate> {
        choice::best(candidates, &self.snippet, &self.belief, &self.rules)
    }

    fn go(&mut self, led_by: Move, task: Task, reason: Reason) {
        self.change = Difference::between(&self.snippet, self.task.step, task.step);
        self.tries = Tries::none(self.belief.chance(task.step));
        (self.came_by, self.led_by, self.task, self.reason) = (led_by, led_by, task, reason);
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
        self.reason = Reason::NotSureYet { clean: self.tries.clean(), of: self.tries.repetitions() };
    }

    /// Once left, the snippet stays left until a new block begins.
    fn leave(&mut self, leaving: Leaving) {
        self.stay();
        self.block.left = Some(leaving);
    }

    /// The player, or another device, has gone to `step`.
    fn choose(&mut self, step: Step) {
        if step == self.task.step {
            return;
        }
        self.cold = None;
        let task = self.task.chosen(step);
        self.go(Move::Overruled, task, Reason::Chosen);
    }

    /// The minutes go on; what was played in them, and that it was left, counts no more.
    fn start_afresh(&mut self) {
        let mut afresh = Coach::with(Rc::clone(&self.snippet), self.rules, self.priors);
        (afresh.block.began, afresh.block.settings) = (self.block.began, self.block.settings);
        (afresh.came_by, afresh.led_by, afresh.reason) = (Move::StartAfresh, Move::StartAfresh, Reason::Afresh);
        *self = afresh;
    }
}

//! Ways to practise: what is played next, and when the whole is thought secure.

use super::practice::LEVEL;
use std::rc::Rc;
use tailfirst::{
    clock::Moment,
    method::{
        Advice, Coach, Hands, Happening, HappeningKind, Leaving, Move, Priors, Reason, Rules, Settings, Snippet, Span,
        Step, Strictness, Verdict,
    },
    music::Hand,
};

/// A way to practise one snippet.
pub trait Policy {
    /// A block begins.
    fn sit_down(&mut self, at: Moment);
    /// The step to play, or `None` where it is better to rest.
    fn next(&self) -> Option<Step>;
    /// One repetition of that step, after which its true chance is `truth`.
    fn hear(&mut self, verdict: Verdict, at: Moment, truth: f64);
    /// Whether the whole snippet is held to be secure since the last night.
    fn is_done_today(&self) -> bool;
    /// The chance of a clean repetition of the step that is believed in.
    fn expects(&self) -> Option<f64> {
        None
    }
}

/// Which policy, and how much it wants.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Way {
    /// The whole snippet until it was clean so many times in a row.
    Whole {
        in_a_row: u32,
    },
    /// From the first onset on, an onset more after so many clean in a row, hands together.
    Forward {
        in_a_row: u32,
    },
    /// From the last onset on.
    Backward {
        in_a_row: u32,
    },
    /// From the last onset on, the harder hand alone before both.
    BackwardApart {
        in_a_row: u32,
    },
    /// From the last onset on, an onset more as soon as the true chance is [`LEVEL`]: what no rule that
    /// has only verdicts to go by can do on this ladder.
    MindReader,
    Coach(Strictness),
}

impl Way {
    /// Those that count, with three, five and ten in a row.
    pub fn counting() -> impl Iterator<Item = Way> {
        [3, 5, 10].into_iter().flat_map(|in_a_row| {
            [
                Way::Whole { in_a_row },
                Way::Forward { in_a_row },
                Way::Backward { in_a_row },
                Way::BackwardApart { in_a_row },
            ]
        })
    }

    pub fn name(self) -> String {
        match self {
            Way::Whole { in_a_row } => format!("whole, {in_a_row} in a row"),
            Way::Forward { in_a_row } => format!("forward, {in_a_row} in a row"),
            Way::Backward { in_a_row } => format!("backward, {in_a_row} in a row"),
            Way::BackwardApart { in_a_row } => format!("backward, one hand first, {in_a_row} in a row"),
            Way::MindReader => "backward, reading the player's mind".into(),
            Way::Coach(strictness) => format!("coach, {strictness:?}").to_lowercase(),
        }
    }

    pub fn begin(self, snippet: &Rc<Snippet>) -> Box<dyn Policy> {
        let (last, whole) = (snippet.whole().last(), snippet.whole());
        let from_the_end = || (0..=last).rev().filter_map(|start| Span::new(start, last)).collect::<Vec<_>>();
        let from_the_start = || (0..=last).filter_map(|end| Span::new(0, end)).collect::<Vec<_>>();
        let ladder = |spans: &[Span], enough, apart| -> Box<dyn Policy> {
            Box::new(Ladder::over(snippet, spans, enough, apart))
        };
        match self {
            Way::Whole { in_a_row } => ladder(&[whole], Enough::InARow(in_a_row), false),
            Way::Forward { in_a_row } => ladder(&from_the_start(), Enough::InARow(in_a_row), false),
            Way::Backward { in_a_row } => ladder(&from_the_end(), Enough::InARow(in_a_row), false),
            Way::BackwardApart { in_a_row } => ladder(&from_the_end(), Enough::InARow(in_a_row), true),
            Way::MindReader => ladder(&from_the_end(), Enough::TrulyAt(LEVEL), false),
            Way::Coach(strictness) => Box::new(Coached::by(snippet, strictness, Rules::CHOSEN, Priors::CHOSEN)),
        }
    }
}

/// A fixed list of steps, each played until it is enough.
pub struct Ladder {
    steps: Vec<Step>,
    at: usize,
    enough: Enough,
    clean: u32,
    done: bool,
}

/// When a step of a ladder has been played enough.
#[derive(Clone, Copy)]
enum Enough {
    InARow(u32),
    /// Its true chance, which nobody at an instrument can know, is high enough.
    TrulyAt(f64),
}

impl Ladder {
    fn over(snippet: &Snippet, spans: &[Span], enough: Enough, apart: bool) -> Self {
        let steps = spans.iter().flat_map(|span| steps(snippet, *span, apart)).collect();
        Ladder { steps, at: 0, enough, clean: 0, done: false }
    }
}

/// The span in the hand that is harder, where both play, and then in all its hands.
fn steps(snippet: &Snippet, span: Span, apart: bool) -> Vec<Step> {
    let bpm = snippet.tempo().bpm;
    let all = snippet.hands_in(span).expect("every onset is played by a hand");
    let hard = snippet.hard_hand();
    let alone = (apart && all == Hands::Both && hard != Hand::Line).then(|| Hands::from(hard));
    alone.into_iter().chain([all]).map(|hands| Step { span, hands, bpm }).collect()
}

impl Policy for Ladder {
    fn sit_down(&mut self, _at: Moment) {
        (self.clean, self.done) = (0, false);
    }

    fn next(&self) -> Option<Step> {
        (!self.done).then(|| self.steps[self.at])
    }

    fn hear(&mut self, verdict: Verdict, _at: Moment, truth: f64) {
        self.clean = if verdict == Verdict::Clean { self.clean + 1 } else { 0 };
        let enough = match self.enough {
            Enough::InARow(wanted) => self.clean >= wanted,
            Enough::TrulyAt(level) => truth >= level,
        };
        if enough {
            self.clean = 0;
            self.done = self.at + 1 == self.steps.len();
            self.at = (self.at + 1).min(self.steps.len() - 1);
        }
    }

    fn is_done_today(&self) -> bool {
        self.done
    }
}

/// The coach, believed in everything. The minutes of a block are kept by whoever practises.
pub struct Coached {
    coach: Coach,
    settings: Settings,
    advice: Advice,
}

impl Coached {
    pub fn by(snippet: &Rc<Snippet>, strictness: Strictness, rules: Rules, priors: Priors) -> Self {
        let coach = Coach::with(Rc::clone(snippet), rules, priors);
        let advice = coach.advice(Moment::new(0, 0));
        Coached { coach, settings: Settings { strictness, block_minutes: 30, ..Settings::default() }, advice }
    }

    fn happens(&mut self, kind: HappeningKind, at: Moment) {
        self.coach.follow(&Happening { at, kind });
        self.advice = self.coach.advice(at);
    }
}

impl Policy for Coached {
    fn sit_down(&mut self, at: Moment) {
        self.happens(HappeningKind::BlockBegan(self.settings), at);
    }

    fn next(&self) -> Option<Step> {
        (self.advice.led_by != Move::Leave).then_some(self.advice.step)
    }

    fn hear(&mut self, verdict: Verdict, at: Moment, _truth: f64) {
        self.happens(HappeningKind::Played { step: self.advice.step, verdict, cause: None, broke_at: None }, at);
    }

    fn is_done_today(&self) -> bool {
        self.advice.reason == Reason::Leave(Leaving::WholeSecure)
    }

    fn expects(&self) -> Option<f64> {
        Some(self.advice.sureness.now.mean)
    }
}

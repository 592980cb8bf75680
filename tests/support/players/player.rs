//! Someone who learns an excerpt by playing parts of it.
//!
//! An excerpt is made of elements: each hand's placing of each onset, its way there from the onset before,
//! and the hands' meeting. Each element goes wrong now and then; a repetition is clean when none of the
//! elements it holds does. What an element's failures are made of, and how playing changes them, is the
//! [`Family`]'s. Common to all: slower is safer, and whoever is thrown off plays the rest of that
//! repetition without learning it. All numbers that are not cited are invented.

use super::dice::Dice;
use super::family::{Family, Nature};
use tailfirst::{
    method::{Hands, Snippet, Step, Verdict},
    music::Hand,
};

/// What has to go right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The hand on this onset.
    Place(Hand),
    /// The hand's way from the onset with this index.
    Way(Hand, usize),
    /// Both hands meeting on this onset.
    Meeting,
}

/// One thing that can go wrong, and how it has been practised.
#[derive(Clone, Debug)]
pub struct Element {
    pub onset: usize,
    pub kind: Kind,
    /// Failures to be expected in one repetition at the target tempo: fails with chance 1 − e^−hazard.
    pub hazard: f64,
    /// The hazard this morning.
    pub this_morning: f64,
    /// How fast it is learned, per repetition.
    pub rate: f64,
    /// Repetitions that have taught it something, weighted by attention.
    pub taught: f64,
}

/// A player with an excerpt.
#[derive(Clone, Debug)]
pub struct Player {
    nature: Nature,
    target: f64,
    elements: Vec<Element>,
    /// Repetitions since the last rest.
    tired: f64,
    /// How the hand is today, as a factor of all hazards.
    form: f64,
    dice: Dice,
}

/// Elements that go wrong less often than this need no attention.
const AT_HAND: f64 = 0.02;

impl Player {
    /// The same player of the same excerpt for the same number, whatever they practise by.
    pub fn new(family: Family, snippet: &Snippet, number: u64) -> Self {
        let mut dice = Dice::of(number, 1 + family as u64);
        let nature = family.nature(&mut dice);
        let mut elements = elements(snippet);
        let hardest = dice.whole(0, elements.len() - 1);
        for (index, element) in elements.iter_mut().enumerate() {
            let usual = match element.kind {
                Kind::Place(_) => 0.05,
                Kind::Way(..) => 0.15,
                Kind::Meeting => 0.15 * nature.meeting,
            };
            let hard = if index == hardest { nature.leap } else { 1.0 };
            element.hazard = dice.around(usual, 0.6) * hard;
            element.rate = dice.around(nature.rate, 0.4) / hard.sqrt();
            element.this_morning = element.hazard;
        }
        let target = f64::from(snippet.tempo().bpm.get());
        Player { nature, target, elements, tired: 0.0, form: 1.0, dice }
    }

    /// The chance that a repetition of `step` would be clean now.
    pub fn chance(&self, step: Step) -> f64 {
        let strain = self.strain(step);
        let hazard: f64 = self.elements.iter().filter(|element| is_in(element, step)).map(|e| e.hazard).sum();
        (1.0 - self.nature.lapses) * (-strain * hazard).exp()
    }

    /// Plays a repetition of `step` and learns from it.
    pub fn play(&mut self, step: Step) -> Verdict {
        let strain = self.strain(step);
        let attention = self.attention(step);
        let mut clean = !self.dice.happens(self.nature.lapses);
        for element in self.elements.iter_mut().filter(|element| is_in(element, step)) {
            let right = !self.dice.happens(1.0 - (-strain * element.hazard).exp());
            if clean {
                self.nature.practised(element, right, attention, &mut self.dice);
            }
            clean &= right;
        }
        self.tired += 1.0;
        if clean { Verdict::Clean } else { Verdict::NotYet }
    }

    /// The player's own verdict on a repetition that was truly `played` so.
    pub fn judge(&mut self, played: Verdict) -> Verdict {
        match (self.nature.misheard > 0.0 && self.dice.happens(self.nature.misheard), played) {
            (false, played) => played,
            (true, Verdict::Clean) => Verdict::NotYet,
            (true, Verdict::NotYet) => Verdict::Clean,
        }
    }

    /// A rest between two blocks.
    pub fn rest(&mut self) {
        self.tired = 0.0;
        self.form = self.dice.around(1.0, self.nature.unevenness);
    }

    /// A night.
    pub fn sleep(&mut self) {
        self.rest();
        for element in &mut self.elements {
            self.nature.slept(element);
        }
    }

    /// What tempo, tiredness and the day do to all hazards.
    fn strain(&self, step: Step) -> f64 {
        let tempo = (f64::from(step.bpm.get()) / self.target).powf(self.nature.haste);
        tempo * self.form * (self.nature.tiring * self.tired).exp()
    }

    /// The share of an element's learning that attention is left for.
    fn attention(&self, step: Step) -> f64 {
        let unsure = self.elements.iter().filter(|element| is_in(element, step) && element.hazard > AT_HAND);
        (self.nature.attention / unsure.count().max(1) as f64).min(1.0)
    }
}

/// All elements of the snippet, in the order they are played.
fn elements(snippet: &Snippet) -> Vec<Element> {
    let onsets = snippet.passage().onsets();
    let mut elements = Vec::new();
    for (onset, played) in onsets.iter().enumerate() {
        let hands = [Hand::Left, Hand::Right].into_iter().filter(|hand| played.plays(*hand));
        let before = |hand: Hand| (0..onset).rev().find(|before| onsets[*before].plays(hand));
        let mut kinds: Vec<Kind> = hands.clone().filter_map(|hand| Some(Kind::Way(hand, before(hand)?))).collect();
        kinds.extend(hands.clone().map(Kind::Place));
        if hands.count() == 2 {
            kinds.push(Kind::Meeting);
        }
        let untouched = |kind| Element { onset, kind, hazard: 0.0, this_morning: 0.0, rate: 0.0, taught: 0.0 };
        elements.extend(kinds.into_iter().map(untouched));
    }
    elements
}

fn is_in(element: &Element, step: Step) -> bool {
    step.span.contains(element.onset)
        && match element.kind {
            Kind::Place(hand) => step.hands.include(hand),
            Kind::Way(hand, before) => step.hands.include(hand) && step.span.contains(before),
            Kind::Meeting => step.hands == Hands::Both,
        }
}

//! The search: rows of blocks grow by one block at a time, and of those that end at the same minute the most promising go
//! on (a beam search with a bound).
//!
//! What a row can still become is at most what the remaining minutes would give if blocks could be cut and only had to wait
//! for their own rests (the fractional knapsack of Dantzig 1957). A row that cannot become better than the best one so far
//! is dropped.

use crate::{
    calendar::plan::{
        Candidate, Planned, Sitting,
        follow::{Row, Rules, only},
    },
    sort,
};
use std::mem;

/// Rows that go on from each minute. Of 240 days with proven optima 16 are missed so, 13 with ten rows in twice the time.
const BEAM: usize = 6;
/// Candidates that a row is tried with, those that are worth most a minute.
const BREADTH: usize = 8;
/// Rows that are looked at for each minute.
const MOST_ENDING: usize = 2 * BEAM;
/// What a minute's delay takes from a block's worth, so that of equal plans the one comes first that has more at the
/// beginning: who stops early has done what matters.
const DELAY: f64 = 1e-6;

/// A row of the search.
#[derive(Clone, Copy)]
struct Node {
    row: Row,
    worth: f64,
    /// The most it can become worth.
    bound: f64,
    step: Step,
}

/// The node before, the candidate played after it, and when that begins; `None` at the root.
type Step = Option<(usize, usize, i32)>;

struct Search<'a> {
    rules: Rules<'a>,
    candidates: &'a [Candidate],
    worths: Vec<f64>,
    /// Candidates by what they are worth a minute, the best first.
    by_minute: Vec<usize>,
    /// Every node that went on.
    nodes: Vec<Node>,
    /// The node that is worth most.
    best: usize,
}

/// The blocks of the best plan that is found, no worse than the `remaining` ones in their order.
pub(super) fn best(sitting: &Sitting, remaining: &[usize]) -> Vec<Planned> {
    let mut search = Search::new(sitting, remaining);
    search.go_through(remaining);
    search.advance();
    search.plan()
}

impl<'a> Search<'a> {
    fn new(sitting: &'a Sitting, remaining: &[usize]) -> Self {
        let candidates = sitting.candidates();
        let all: f64 = candidates.iter().map(|candidate| candidate.worth).sum();
        // A cold try that was promised is worth more than everything that was not.
        let promised = |index: usize| if remaining.contains(&index) { 1.0 + all } else { 0.0 };
        let worth = |(index, candidate): (usize, &Candidate)| {
            candidate.worth + if candidate.is_due { promised(index) } else { 0.0 }
        };
        let worths: Vec<f64> = candidates.iter().enumerate().map(worth).collect();
        let mut by_minute: Vec<usize> = (0..candidates.len()).collect();
        let a_minute = |index: usize| worths[index] / f64::from(candidates[index].minutes);
        sort::by(&mut by_minute, |one, other| a_minute(*other).total_cmp(&a_minute(*one)));
        let rules = Rules::of(sitting);
        let root = Node { row: rules.start(), worth: 0.0, bound: f64::INFINITY, step: None };
        Search { rules, candidates, worths, by_minute, nodes: vec![root], best: 0 }
    }

    /// Plays these blocks in their order, leaving out what does not fit.
    fn go_through(&mut self, remaining: &[usize]) {
        let mut at = 0;
        for index in remaining.iter().copied().filter(|index| *index < self.candidates.len()) {
            let next = self.children(at, index).next();
            if let Some(next) = next {
                at = self.keep(next);
            }
        }
    }

    /// Lets rows grow, those that end first before the others; of those that end at the same minute the most promising.
    fn advance(&mut self) {
        let minutes = self.rules.minutes() as usize;
        let mut ending: Vec<Vec<Node>> = vec![Vec::new(); minutes + 1];
        let mut open = Vec::new();
        self.grow(0, &mut open, &mut ending);
        for minute in 0..=minutes {
            for at in self.most_promising(mem::take(&mut ending[minute])) {
                self.grow(at, &mut open, &mut ending);
            }
        }
    }

    /// Adds the rows that are one block longer than that of a node to those that end at their minute.
    fn grow(&self, at: usize, open: &mut Vec<usize>, ending: &mut [Vec<Node>]) {
        let node = &self.nodes[at];
        self.still_open(&node.row, open);
        let may_follow = |index: &usize| self.rules.may_follow(&node.row, *index, &self.candidates[*index]);
        for index in open.iter().copied().filter(may_follow).take(BREADTH) {
            for mut child in self.children(at, index) {
                child.bound = child.worth + self.still(&child.row, open);
                if child.bound > self.nodes[self.best].worth {
                    put(child, &mut ending[child.row.ends as usize]);
                }
            }
        }
    }

    /// The rows that go on, of some that end at the same time.
    fn most_promising(&mut self, mut rows: Vec<Node>) -> Vec<usize> {
        sort::by(&mut rows, |one, other| other.bound.total_cmp(&one.bound));
        let mut next: Vec<usize> = Vec::new();
        for node in rows {
            let is_worse = |kept: &usize| self.is_needless(&node, *kept);
            if node.bound > self.nodes[self.best].worth && !next.iter().any(is_worse) {
                next.push(self.keep(node));
            }
            if next.len() == BEAM {
                break;
            }
        }
        next
    }

    /// Keeps a row, and remembers it where it is worth most.
    fn keep(&mut self, node: Node) -> usize {
        let at = self.nodes.len();
        self.nodes.push(node);
        if node.worth > self.nodes[self.best].worth {
            self.best = at;
        }
        at
    }

    /// The row of a node with one candidate more, where that may follow.
    fn children(&self, at: usize, index: usize) -> impl Iterator<Item = Node> + use<'_, 'a> {
        let (node, candidate) = (&self.nodes[at], &self.candidates[index]);
        let may_follow = self.rules.may_follow(&node.row, index, candidate);
        let options = if may_follow { self.rules.followed(&node.row, index, candidate) } else { [None, None] };
        options.into_iter().flatten().map(move |(begins, row)| {
            let worth = node.worth + self.worths[index] * (1.0 - DELAY * f64::from(begins));
            Node { row, worth, bound: worth, step: Some((at, index, begins)) }
        })
    }

    /// Whether a row that is kept has the same blocks and leaves at least as much room for others.
    fn is_needless(&self, node: &Node, kept: usize) -> bool {
        let kept = &self.nodes[kept];
        let (own, its) = (&node.row, &kept.row);
        own.played == its.played
            && own.last == its.last
            && its.ends <= own.ends
            && its.running <= own.running
            && its.has_paused >= own.has_paused
            && kept.worth >= node.worth
            && its.rested.iter().zip(&own.rested).all(|(its, rested)| its <= rested || i32::from(*its) <= own.ends)
    }

    /// The candidates that a row still has the time for, by what they are worth a minute.
    fn still_open(&self, row: &Row, open: &mut Vec<usize>) {
        let all = self.rules.minutes();
        let fits = |candidate: &Candidate| self.rules.soonest(row, candidate) + i32::from(candidate.minutes) <= all;
        let is_open = |index: &usize| row.played & only(*index) == 0 && fits(&self.candidates[*index]);
        open.clear();
        open.extend(self.by_minute.iter().copied().filter(is_open));
    }

    /// The most that may still be added to a row from those that are open.
    fn still(&self, row: &Row, open: &[usize]) -> f64 {
        if row.is_closed {
            return 0.0;
        }
        let all = self.rules.minutes();
        let mut minutes = self.rules.sitting.bounds().playable(all - row.ends, row.running);
        let mut worth = 0.0;
        for index in open.iter().copied().filter(|index| row.played & only(*index) == 0) {
            let takes = i32::from(self.candidates[index].minutes);
            if self.rules.soonest(row, &self.candidates[index]) + takes > all {
                continue;
            }
            if takes > minutes {
                return worth + self.worths[index] * f64::from(minutes.max(0)) / f64::from(takes);
            }
            worth += self.worths[index];
            minutes -= takes;
        }
        worth
    }

    /// The best row, from its beginning.
    fn plan(&self) -> Vec<Planned> {
        let mut blocks = Vec::new();
        let mut at = self.best;
        while let Some((before, candidate, begins)) = self.nodes[at].step {
            blocks.push(Planned { candidate, begins: begins.max(0) as u16 });
            at = before;
        }
        blocks.reverse();
        blocks
    }
}

/// Puts a row among those that end at its minute, in the place of the least promising where there are many.
fn put(node: Node, rows: &mut Vec<Node>) {
    if rows.len() < MOST_ENDING {
        return rows.push(node);
    }
    let least = rows.iter_mut().min_by(|one, other| one.bound.total_cmp(&other.bound));
    if let Some(least) = least.filter(|least| least.bound < node.bound) {
        *least = node;
    }
}

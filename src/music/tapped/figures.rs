//! Which figures, beat by beat, explain a row of taps best.
//!
//! A dynamic programme over the beats. Each beat takes one figure, that is a set of places in it, all
//! straight or all triplet. A figure costs what it is unlikely to be written; a tap costs its distance
//! from its place as a normal deviate would. Both are logarithms of odds, so their sum is least for
//! the most probable rhythm. The costs of figures are this program's own choice; they are judged by
//! how many unsteadily tapped rhythms come back (tests/tapped.rs).

use crate::music::Hand;
use crate::sort;

/// Places in a beat: twelfths hold quarters and sixths.
pub const PARTS: i64 = 12;
/// How far taps stray, in seconds (standard deviation): a steady player and an unsteady one are both
/// tried. Common practice, no source.
const STRAYS: [f64; 2] = [0.012, 0.025];
/// How late or early a whole row of taps may be, in seconds: standard deviation and bound. What a
/// touch screen, a loudspeaker and a player may add up to. Common practice, no source.
const LATE: f64 = 0.060;
const LATEST: f64 = 0.150;
/// Latenesses that are tried lie this far apart, in seconds; the best is then refined.
const LATE_STEP: f64 = 0.010;
/// No tap lies further from its place than this part of a beat.
const FURTHEST: f64 = 0.25;
/// Two hands further apart than this, in seconds, are never one onset.
const APART: f64 = 0.080;
/// What it costs to go from a straight to a triplet beat or back.
const CHANGE: f64 = 0.7;
/// What it costs to begin a beat after its beginning.
const OFF_BEAT: f64 = 0.3;

/// Taps that begin together.
pub struct Group {
    pub seconds: f64,
    pub hands: Vec<Hand>,
}

/// An onset on the grid.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Twelfths of a beat from the pulse's first.
    pub place: i64,
    pub hands: Vec<Hand>,
    /// Seconds from the place to the tap, common lateness taken off.
    pub error: f64,
}

/// The best explanation.
pub struct Fit {
    pub onsets: Vec<Placed>,
    /// Common lateness in seconds.
    pub late: f64,
    cost: f64,
}

/// Whether an onset may lie here: on a quarter or a sixth of a beat.
pub fn on_grid(place: i64) -> bool {
    place % 3 == 0 || place % 2 == 0
}

/// The best explanation of `groups` (in order, at least one) at `beat` seconds a beat, or `None`
/// where the grid cannot hold them.
pub fn fit(groups: &[Group], beat: f64, compound: bool) -> Option<Fit> {
    let figures = figures(compound);
    let explain = |late: f64, strays: f64| Lattice { groups, beat, late, strays, figures: &figures }.explain();
    let steps = (LATEST / LATE_STEP) as i32;
    let lates = (-steps..=steps).map(|step| f64::from(step) * LATE_STEP);
    let tried = lates.flat_map(|late| STRAYS.map(|strays| (late, strays)));
    let fits = tried.filter_map(|(late, strays)| Some((explain(late, strays)?, strays)));
    let (best, strays) = fits.min_by(|(a, _), (b, _)| a.cost.total_cmp(&b.cost))?;
    let refined = explain(best.late + mean_error(&best.onsets), strays);
    Some(refined.filter(|refined| refined.cost < best.cost).unwrap_or(best))
}

/// How late the taps still are on average.
fn mean_error(onsets: &[Placed]) -> f64 {
    onsets.iter().map(|onset| onset.error).sum::<f64>() / onsets.len() as f64
}

#[derive(Clone, Copy, PartialEq)]
enum Division {
    Either,
    Straight,
    Triplet,
}

struct Figure {
    places: Vec<i64>,
    division: Division,
    cost: f64,
}

/// Every figure a beat can hold, the empty one among them.
fn figures(compound: bool) -> Vec<Figure> {
    let straight = (0u32..16).map(|set| (set, 3));
    let triplet = (0u32..64).map(|set| (set, 2));
    let figure = |(set, part): (u32, i64)| {
        let places: Vec<i64> = (0..PARTS / part).filter(|n| set >> n & 1 == 1).map(|n| n * part).collect();
        let all_on = |part: i64| places.iter().all(|place| place % part == 0);
        let (division, cost) = match (all_on(12), part) {
            (true, 3) => (Division::Either, 0.0),
            (false, 3) if all_on(6) => (Division::Straight, if compound { 2.5 } else { 0.7 }),
            (false, 3) => (Division::Straight, if compound { 4.5 } else { 1.8 }),
            (false, _) if all_on(4) => (Division::Triplet, if compound { 0.7 } else { 2.0 }),
            (false, _) if !all_on(6) => (Division::Triplet, if compound { 1.8 } else { 4.5 }),
            _ => return None,
        };
        let off_beat = if places.first().is_some_and(|place| *place > 0) { OFF_BEAT } else { 0.0 };
        Some(Figure { places, division, cost: cost + off_beat })
    };
    straight.chain(triplet).filter_map(figure).collect()
}

/// The dynamic programme for one common lateness.
struct Lattice<'a> {
    groups: &'a [Group],
    beat: f64,
    late: f64,
    strays: f64,
    figures: &'a [Figure],
}

/// The cheapest way to have explained the first `consumed` groups by the beats so far.
#[derive(Clone)]
struct State {
    consumed: usize,
    division: Division,
    cost: f64,
    onsets: Option<std::rc::Rc<Chain>>,
}

/// Onsets placed so far, last first; states that agree on the past share it.
struct Chain {
    place: i64,
    groups: std::ops::Range<usize>,
    before: Option<std::rc::Rc<Chain>>,
}

impl Lattice<'_> {
    fn explain(&self) -> Option<Fit> {
        let (first, last) = (self.beats(0).floor() as i64, self.beats(self.groups.len() - 1).floor() as i64);
        let unplayed = State { consumed: 0, division: Division::Either, cost: 0.0, onsets: None };
        let states = (first..=last + 1).fold(vec![unplayed], |states, beat| self.after(beat, &states));
        let explained = states.into_iter().filter(|state| state.consumed == self.groups.len());
        let best = explained.min_by(|a, b| a.cost.total_cmp(&b.cost))?;
        let unlikely = self.late * self.late / (2.0 * LATE * LATE) + self.groups.len() as f64 * self.strays.ln();
        Some(Fit { onsets: self.onsets(best.onsets.as_deref()), late: self.late, cost: best.cost + unlikely })
    }

    /// Where a group lies, in beats.
    fn beats(&self, group: usize) -> f64 {
        (self.groups[group].seconds - self.late) / self.beat
    }

    /// The states after one more beat.
    fn after(&self, beat: i64, states: &[State]) -> Vec<State> {
        let mut after: Vec<State> = Vec::new();
        for state in states {
            let within = |group: &usize| self.beats(*group) <= (beat + 1) as f64 + FURTHEST;
            let most = (state.consumed..self.groups.len()).take_while(within).count();
            for figure in self.figures.iter().filter(|figure| figure.places.len() <= most) {
                let changes = state.division != Division::Either
                    && figure.division != Division::Either
                    && state.division != figure.division;
                let division = if figure.division == Division::Either { state.division } else { figure.division };
                let cost = state.cost + figure.cost + if changes { CHANGE } else { 0.0 };
                let begun = State { division, cost, ..state.clone() };
                let placed =
                    figure.places.iter().try_fold(begun, |so_far, place| self.place(so_far, beat * PARTS + place));
                if let Some(placed) = placed.filter(|placed| self.none_left_behind(placed, beat)) {
                    keep_cheapest(&mut after, placed);
                }
            }
        }
        after
    }

    /// The next group on `place`; with it the one after, where the other hand comes in so close that
    /// it lies nearer to this place than a place of its own could.
    fn place(&self, state: State, place: i64) -> Option<State> {
        let first = state.consumed;
        let mut taken = first + 1;
        let mut cost = state.cost + self.cost_of(first, place)?;
        if let Some(other) = self.cost_of(taken, place).filter(|_| self.may_join(first)) {
            cost += other;
            taken += 1;
        }
        let onsets = Some(std::rc::Rc::new(Chain { place, groups: first..taken, before: state.onsets }));
        Some(State { consumed: taken, cost, onsets, division: state.division })
    }

    /// Whether a group and the one after it can be one onset of two hands.
    fn may_join(&self, group: usize) -> bool {
        let (one, other) = (&self.groups[group], &self.groups[group + 1]);
        let sixth = self.beat / 6.0;
        other.seconds - one.seconds <= APART.min(0.65 * sixth)
            && one.hands.iter().all(|hand| !other.hands.contains(hand))
    }

    fn error(&self, group: usize, place: i64) -> f64 {
        self.groups[group].seconds - self.late - place as f64 * self.beat / PARTS as f64
    }

    /// What it costs to have meant `place` and tapped the group where it is; `None` where it is too far.
    fn cost_of(&self, group: usize, place: i64) -> Option<f64> {
        let error = (group < self.groups.len()).then(|| self.error(group, place))?;
        (error.abs() <= FURTHEST * self.beat).then(|| error * error / (2.0 * self.strays * self.strays))
    }

    /// Whether what is not yet explained can still be by later beats.
    fn none_left_behind(&self, state: &State, beat: i64) -> bool {
        state.consumed == self.groups.len() || self.beats(state.consumed) >= (beat + 1) as f64 - FURTHEST
    }

    fn onsets(&self, mut chain: Option<&Chain>) -> Vec<Placed> {
        let mut onsets = Vec::new();
        while let Some(Chain { place, groups, before }) = chain {
            let error = groups.clone().map(|group| self.error(group, *place)).sum::<f64>() / groups.len() as f64;
            let mut hands: Vec<Hand> =
                self.groups[groups.clone()].iter().flat_map(|group| group.hands.clone()).collect();
            sort::by_key(&mut hands, |hand| *hand);
            onsets.push(Placed { place: *place, hands, error });
            chain = before.as_deref();
        }
        onsets.reverse();
        onsets
    }
}

/// Of two states with the same future only the cheaper one matters.
fn keep_cheapest(states: &mut Vec<State>, state: State) {
    match states.iter_mut().find(|known| known.consumed == state.consumed && known.division == state.division) {
        Some(known) if known.cost <= state.cost => {}
        Some(known) => *known = state,
        None => states.push(state),
    }
}

//! Which notes stand under one beam, which way their stems point, and how the beam lies.

use crate::{
    music::{
        Meter,
        score::ScoreBar,
        written::{Beam, Stem},
    },
    notation::engraving::{
        metrics::{BEAM, BEAM_RISE, BEAM_SLOPE, HAIR, MIDDLE_LINE, STAFF},
        prepared::{
            chords::Chord,
            places::{INSTANT, quarters},
        },
    },
};

/// The chords of a bar under one beam each, at least two, by index: as the file beams them; by the meter
/// where it beams nothing.
pub fn groups(chords: &[Chord], bar: &ScoreBar) -> Vec<Vec<usize>> {
    let from_file = chords.iter().any(|chord| !chord.is_grace() && !chord.event.beams.is_empty());
    let voices = chords.iter().map(|chord| chord.voice + 1).max().unwrap_or(0);
    let mut groups = Vec::new();
    for voice in 0..voices {
        let members = |grace: bool| {
            (0..chords.len()).filter(move |index| chords[*index].voice == voice && chords[*index].is_grace() == grace)
        };
        groups.extend(runs(chords, members(true), |before, next| before.column == next.column));
        if from_file {
            groups.extend(written(chords, members(false)));
        } else {
            let group = grouping(chords, bar, voice);
            groups.extend(runs(chords, members(false), |before, next| {
                group(before) == group(next) && (before.begins + before.lasts - next.begins).abs() < INSTANT
            }));
        }
    }
    groups
}

fn can_be_beamed(chord: &Chord) -> bool {
    chord.flags() > 0 && chord.has_stem()
}

/// Runs of chords that can be beamed, each joined to the one before it.
fn runs(
    chords: &[Chord],
    members: impl Iterator<Item = usize>,
    joined: impl Fn(&Chord, &Chord) -> bool,
) -> Vec<Vec<usize>> {
    let mut runs: Vec<Vec<usize>> = vec![Vec::new()];
    for index in members {
        let before = runs.last().and_then(|run| run.last());
        let goes_on = before.is_none_or(|before| joined(&chords[*before], &chords[index]));
        if !can_be_beamed(&chords[index]) || !goes_on {
            runs.push(Vec::new());
        }
        if can_be_beamed(&chords[index]) {
            runs.last_mut().into_iter().for_each(|run| run.push(index));
        }
    }
    runs.retain(|run| run.len() > 1);
    runs
}

fn written(chords: &[Chord], members: impl Iterator<Item = usize>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for index in members.filter(|index| can_be_beamed(&chords[*index])) {
        match chords[index].event.beams.first() {
            Some(Beam::Begin) => open = vec![index],
            Some(Beam::Continue) => open.push(index),
            Some(Beam::End) => {
                open.push(index);
                groups.push(std::mem::take(&mut open));
            }
            _ => {}
        }
    }
    // A beam that the file never ends.
    groups.push(open);
    groups.retain(|group| group.len() > 1);
    groups
}

/// In which group of its bar a chord is beamed: with its beat; eighths alone in halves of 4/4 and 2/2, whole
/// in 3/8 and 3/4 bars; five and seven as 3+2 and 2+2+3, an additive meter in its groups (Gould 2011, "Beams", from memory).
fn grouping(chords: &[Chord], bar: &ScoreBar, voice: usize) -> impl Fn(&Chord) -> i32 {
    let beat = quarters(bar.meter.beat().quarters()).max(INSTANT);
    let own = chords.iter().filter(|chord| chord.voice == voice && !chord.is_grace() && !chord.is_rest());
    let eighths = own.filter(|chord| chord.flags() > 0).all(|chord| chord.flags() == 1 && chord.event.tuplet.is_none());
    let (missing, edges) = (quarters(bar.missing), edges(bar.meter, beat, eighths));
    move |chord: &Chord| {
        let at = chord.begins + missing + INSTANT;
        match &edges {
            Some(edges) => edges.iter().filter(|edge| **edge <= at).count() as i32,
            None => (at / beat) as i32,
        }
    }
}

/// Where groups begin inside the bar, in quarters, where they are no beats.
fn edges(meter: Meter, beat: f32, eighths: bool) -> Option<Vec<f32>> {
    if meter.groups().len() > 1 {
        return Some(meter.group_starts().skip(1).map(quarters).collect());
    }
    match (meter.beats(), meter.unit()) {
        (5, 8) => Some(vec![1.5]),
        (7, 8) => Some(vec![1.0, 2.0]),
        (4, 4) | (2, 2) if eighths => Some(vec![2.0]),
        (3, 8) => Some(vec![]),
        (3, 4) if eighths => Some(vec![]),
        _ if beat < 1.0 => Some((1..64).map(|n| n as f32).collect()),
        _ => None,
    }
}

/// Points the stems: as in the file, by voice where two share a staff, by the note furthest from the middle line
/// otherwise, downward where it is neither; upward from a single line (Ross 1970; Gould 2011, "Stems"; from memory).
pub fn point_stems(chords: &mut [Chord], groups: &[Vec<usize>], one_line: bool) {
    for index in 0..chords.len() {
        chords[index].up = direction(chords, &[index], one_line);
    }
    for group in groups {
        let staff = chords[group[0]].staff;
        if group.iter().all(|index| chords[*index].staff == staff) {
            let up = direction(chords, group, one_line);
            group.iter().for_each(|index| chords[*index].up = up);
        } else {
            // Across the staves: the beam stands between them.
            let lowest = group.iter().map(|index| chords[*index].staff).max().unwrap_or(staff);
            group.iter().for_each(|index| chords[*index].up = chords[*index].staff == lowest);
        }
    }
}

fn direction(chords: &[Chord], group: &[usize], one_line: bool) -> bool {
    let chord = &chords[group[0]];
    if let Some(stem) = group.iter().map(|index| chords[*index].event.stem).find(|stem| *stem != Stem::Free) {
        return stem == Stem::Up;
    }
    if chord.is_grace() {
        return chord.company != Some(false);
    }
    if let Some(upper) = group.iter().find_map(|index| chords[*index].company) {
        return upper;
    }
    let ends = group.iter().map(|index| chords[*index].ends());
    let (highest, lowest) =
        ends.fold((f32::MAX, f32::MIN), |(high, low), [top, bottom]| (high.min(top), low.max(bottom)));
    one_line || lowest - MIDDLE_LINE > MIDDLE_LINE - highest
}

/// How a beam lies: the outer edge of the outermost beam at the first stem, and rise over run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lie {
    pub x: f32,
    pub y: f32,
    pub slope: f32,
}

impl Lie {
    pub fn at(self, x: f32) -> f32 {
        self.y + self.slope * (x - self.x)
    }
}

/// One stem under a beam: where it stands, the head nearest to the beam, and its beams.
#[derive(Clone, Copy, Debug)]
pub struct Stalk {
    pub x: f32,
    pub head: f32,
    pub beams: usize,
}

/// The run of a beam is never taken as shorter than this: slopes are by it.
pub const SHORTEST_RUN: f32 = 0.1;

/// The beam over (`up`) or under stems that all point the same way.
pub fn lie(stalks: &[Stalk], up: bool, scale: f32) -> Lie {
    let (first, last) = (stalks[0], stalks[stalks.len() - 1]);
    let run = (last.x - first.x).max(SHORTEST_RUN);
    let rise = rise(stalks, up, run) * scale;
    let slope = rise / run;
    let toward = if up { -1.0 } else { 1.0 };
    let edge = |stalk: &Stalk| toward * (stalk.head + toward * scale * length(stalk) - slope * (stalk.x - first.x));
    let y = toward * stalks.iter().map(edge).fold(f32::MIN, f32::max);
    let lie = Lie { x: first.x, y, slope };
    if scale < 1.0 {
        return lie;
    }
    // At least to the middle line.
    let short = stalks.iter().map(|stalk| toward * (MIDDLE_LINE - lie.at(stalk.x))).fold(0.0, f32::max);
    settled(Lie { y: y + toward * short, ..lie }, run, toward)
}

/// The least that a stem is long under no to five beams: the octave less a quarter up to two, more from the third on
/// (Ross 1970, from memory).
const UNDER_BEAMS: [f32; 6] = [3.25, 3.25, 3.25, 3.75, 4.5, 5.25];

fn length(stalk: &Stalk) -> f32 {
    UNDER_BEAMS[stalk.beams.min(5)]
}

/// How far a beam rises or falls over its run, downward positive: little, by how far its outer notes are
/// apart, and not at all where an inner note is as near to the beam as they are (Ross 1970; Gould 2011,
/// "Beams"; from memory).
fn rise(stalks: &[Stalk], up: bool, run: f32) -> f32 {
    let (first, last) = (stalks[0].head, stalks[stalks.len() - 1].head);
    let inner = stalks[1..stalks.len() - 1].iter().map(|stalk| stalk.head);
    let level = if up {
        inner.fold(f32::MAX, f32::min) <= first.min(last)
    } else {
        inner.fold(f32::MIN, f32::max) >= first.max(last)
    };
    if level { 0.0 } else { limited_rise(last - first, run) }
}

/// How far a beam rises at most whose outer notes are none to six steps apart (Ross 1970, from memory).
const RISES: [f32; 7] = [0.0, 0.25, 0.5, 0.75, 1.0, 1.0, BEAM_RISE];
/// A beam's ends stand at whole multiples of this: they sit on a line, straddle it or hang from it (Ross 1970, from
/// memory).
const BEAM_GRID: f32 = 0.25;

/// How far a beam falls over its run whose outer notes fall by so many spaces.
pub fn limited_rise(apart: f32, run: f32) -> f32 {
    let steps = (2.0 * apart).abs().round() as usize;
    let most = RISES[steps.min(6)].min(BEAM_SLOPE * run);
    ((most / BEAM_GRID).floor() * BEAM_GRID).copysign(apart)
}

/// In the staff a beam's ends sit on a line, straddle it or hang from it, so that no wedge of white is left
/// (Ross 1970, from memory): its middle a quarter of a space from a line at most. The beam only moves
/// away from the notes.
fn settled(lie: Lie, run: f32, toward: f32) -> Lie {
    let sound = |y: f32| {
        let middle = y - toward * 0.5 * BEAM;
        let off = (middle - middle.round()).abs();
        !(0.0..=STAFF).contains(&middle) || off < BEAM_GRID + HAIR
    };
    let nearest = (toward * lie.y / BEAM_GRID).ceil();
    let steps = (0..8).map(|step| Lie { y: toward * BEAM_GRID * (nearest + step as f32), ..lie });
    let mut steps = steps.filter(|lie| sound(lie.y) && sound(lie.y + lie.slope * run));
    steps.next().unwrap_or(lie)
}

/// A stretch of one beam: which beam (0 is the outermost), and from which to which stem; a broken beam has
/// one stem and a side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stroke {
    pub beam: usize,
    pub first: usize,
    pub last: usize,
    /// Of a broken beam: whether it points forward.
    pub hook: Option<bool>,
}

/// The strokes of a beam over these chords: as the file breaks them, else unbroken but by values.
pub fn strokes(members: &[&Chord]) -> Vec<Stroke> {
    let most = members.iter().map(|chord| chord.flags()).max().unwrap_or(0);
    let outermost = Stroke { beam: 0, first: 0, last: members.len() - 1, hook: None };
    let mut strokes: Vec<Stroke> = (most > 0).then_some(outermost).into_iter().collect();
    for beam in 1..most {
        let mut nth = 0;
        while nth < members.len() {
            if members[nth].flags() <= beam {
                nth += 1;
                continue;
            }
            let mut last = nth;
            while last + 1 < members.len() && members[last + 1].flags() > beam && !breaks(members, last, beam) {
                last += 1;
            }
            let hook = (last == nth).then(|| points_forward(members, nth, beam));
            strokes.push(Stroke { beam, first: nth, last, hook });
            nth = last + 1;
        }
    }
    strokes
}

/// Whether the file ends this beam here, or, where it says nothing, the beat does under two beams and more.
fn breaks(members: &[&Chord], nth: usize, beam: usize) -> bool {
    let (here, next) = (members[nth].event.beams.get(beam), members[nth + 1].event.beams.get(beam));
    if here.is_some() || next.is_some() {
        return !matches!(here, Some(Beam::Begin | Beam::Continue))
            || !matches!(next, Some(Beam::Continue | Beam::End));
    }
    false
}

/// A broken beam points into the group, and inside it toward the note with which it fills the larger value.
fn points_forward(members: &[&Chord], nth: usize, beam: usize) -> bool {
    match members[nth].event.beams.get(beam) {
        Some(Beam::HookForward) => return nth + 1 < members.len(),
        Some(Beam::HookBackward) => return nth == 0,
        _ => {}
    }
    if nth == 0 || nth + 1 == members.len() {
        return nth == 0;
    }
    let larger = 2.0 * members[nth].lasts.max(INSTANT);
    let turns = (members[nth].begins - members[0].begins) / larger;
    (turns - turns.round()).abs() < 0.01
}

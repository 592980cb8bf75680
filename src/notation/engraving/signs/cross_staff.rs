//! Stems and beams that reach from staff to staff: drawn when the staves stand.

use crate::notation::engraving::{
    metrics::{BEAM, BEAM_STEP, STEM, STEM_INTO_BEAM, STEM_LENGTH, STEM_SHORTEST},
    prepared::{
        beaming::{Lie, SHORTEST_RUN, limited_rise},
        chords::Chord,
    },
    signs::{engraver::Engraver, slurs, spanners::APART},
};

/// Where notes are joined across two staves, by a beam, a stem or a slur: what stands between those staves would meet it.
pub struct Joined {
    /// The upper one of the staves.
    pub upper: usize,
    pub left: f32,
    pub right: f32,
}

/// All places where what is shown is joined across staves.
pub fn joined(engraver: &Engraver) -> Vec<Joined> {
    let mut joined = Vec::new();
    let mut join = |notes: &[(&Chord, f32)]| {
        let staves = || notes.iter().flat_map(|(chord, _)| chord.heads.iter().map(|head| head.staff));
        let (upper, lower) = (staves().min().unwrap_or(0), staves().max().unwrap_or(0));
        let left = notes.iter().map(|(chord, x)| x + chord.dx).fold(f32::MAX, f32::min);
        let right = notes.iter().map(|(chord, x)| x + chord.right()).fold(f32::MIN, f32::max);
        joined.extend((upper..lower).map(|upper| Joined { upper, left, right }));
    };
    for beam in 0..engraver.plan.galley.beams.len() {
        if engraver.is_across(beam) {
            join(&engraver.members(beam));
        }
    }
    for (chord, x) in engraver.chords().filter(|(chord, _)| chord.crosses() && chord.has_stem()) {
        join(&[(chord, x)]);
    }
    for ends in slurs::ends_across(engraver) {
        join(&ends);
    }
    joined
}

/// Draws them all, the staves' top lines being at `tops`.
pub fn draw(engraver: &mut Engraver, tops: &[f32]) {
    let plan = engraver.plan;
    for (chord, x) in engraver.chords() {
        let beamed = chord.beam.is_some_and(|beam| engraver.members(beam).len() > 1);
        if chord.crosses() && chord.has_stem() && !beamed {
            stem(engraver, chord, x, tops);
        }
    }
    for beam in 0..plan.galley.beams.len() {
        let members = engraver.members(beam);
        if members.len() > 1 && engraver.lies[beam].is_none() {
            beam_between(engraver, &members, tops);
        }
    }
}

/// The y of the highest and the lowest head, whatever their staves.
fn ends(chord: &Chord, tops: &[f32]) -> (f32, f32) {
    let ys = chord.heads.iter().map(|head| tops[head.staff] + head.y);
    ys.fold((f32::MAX, f32::MIN), |(high, low), y| (high.min(y), low.max(y)))
}

fn stem(engraver: &mut Engraver, chord: &Chord, x: f32, tops: &[f32]) {
    let (high, low) = ends(chord, tops);
    let (from, to) = if chord.up { (high - STEM_LENGTH, low) } else { (high, low + STEM_LENGTH) };
    let middle = x + chord.stem_x();
    engraver.pen.line(0, engraver.ink(chord), (middle, from), (middle, to), STEM);
}

/// A beam between the staves.
fn beam_between(engraver: &mut Engraver, members: &[(&Chord, f32)], tops: &[f32]) {
    let most = members.iter().map(|(chord, _)| chord.flags() + usize::from(chord.strokes)).max().unwrap_or(1);
    let thick = BEAM_STEP * most.saturating_sub(1) as f32 + BEAM;
    let (up, mut lie) = (members[0].0.up, balanced(members, tops, thick));
    // Further beams lie below the outermost where the first stem points up.
    lie.y += if up { 0.0 } else { thick };
    engraver.draw_beam(members, lie, 0, up);
    for (chord, x) in members.iter().filter(|(chord, _)| chord.has_stem()) {
        let (high, low) = ends(chord, tops);
        let (foot, middle) = (if chord.up { low } else { high }, x + chord.stem_x());
        // A stem ends inside its beam.
        let into = match (chord.up == up, up) {
            (true, true) => STEM_INTO_BEAM,
            (true, false) => -STEM_INTO_BEAM,
            (false, _) => 0.0,
        };
        let tip = (middle, lie.at(middle) + into);
        engraver.pen.line(0, engraver.ink(chord), (middle, foot), tip, STEM);
    }
}

/// How the upper edge of beams so thick lies: it follows its outer notes as far as it may, and less or not at all where
/// stems would become too short; equally near to the notes over and under it (Ross 1970; Gould 2011, "Beams"; from
/// memory).
fn balanced(members: &[(&Chord, f32)], tops: &[f32], thick: f32) -> Lie {
    let stem = |(chord, x): &(&Chord, f32)| x + chord.stem_x();
    let x = stem(&members[0]);
    let run = (stem(&members[members.len() - 1]) - x).max(SHORTEST_RUN);
    let slant = rise(members, tops, run) / run;
    let mut chosen = None;
    for part in [1.0, 0.5, 0.0] {
        let slope = part * slant;
        // Between the lowest of the notes over it and the highest of those under it.
        let (mut over, mut under) = (f32::MIN, f32::MAX);
        for member in members {
            let ((high, low), off) = (ends(member.0, tops), slope * (stem(member) - x));
            match member.0.up {
                true => under = under.min(high - off),
                false => over = over.max(low - off),
            }
        }
        // Where all stems point one way there is nothing on the other side.
        let most = thick + 2.0 * STEM_LENGTH;
        (over, under) =
            (if over == f32::MIN { under - most } else { over }, if under == f32::MAX { over + most } else { under });
        let room = 0.5 * (under - over - thick);
        chosen = Some(Lie { x, y: over + room, slope });
        if room >= STEM_SHORTEST {
            break;
        }
    }
    chosen.unwrap_or(Lie { x, y: 0.0, slope: 0.0 })
}

/// How far the beam falls from its first note to its last. Where the notes change sides more than once it is level
/// (common practice, no source).
fn rise(members: &[(&Chord, f32)], tops: &[f32], run: f32) -> f32 {
    let changes = members.windows(2).filter(|pair| pair[0].0.up != pair[1].0.up).count();
    let (first, last) = (members[0].0, members[members.len() - 1].0);
    let near = |chord: &Chord| if chord.up { ends(chord, tops).0 } else { ends(chord, tops).1 };
    if changes > 1 { 0.0 } else { limited_rise(near(last) - near(first), run) }
}

/// On which side of its staff something stands that reaches from `left` to `right` and should stand `above` or not: on
/// the other side where notes are joined across the staves there.
pub fn free_side((left, right): (f32, f32), (staff, above): (usize, bool), joined: &[Joined]) -> bool {
    let gap = if above { staff.checked_sub(1) } else { Some(staff) };
    let meets = |join: &&Joined| Some(join.upper) == gap && join.left < right + APART && left - APART < join.right;
    above != joined.iter().any(|join| meets(&join))
}

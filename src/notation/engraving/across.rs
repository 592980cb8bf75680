//! Stems and beams that reach from staff to staff: drawn when the staves stand.
//!
//! Refuses to know notes that stay on their staff.

use super::{
    beaming::Lie,
    chords::Chord,
    metrics::{STAFF, STEM, STEM_LENGTH},
    system::Setting,
};

/// Draws them all, the staves' top lines being at `tops`.
pub fn draw(setting: &mut Setting, tops: &[f32]) {
    let order = setting.order;
    for (_, chord, x) in order.chords() {
        let beamed = chord.beam.is_some_and(|beam| setting.members(beam).len() > 1);
        if chord.crosses() && chord.has_stem() && !beamed {
            stem(setting, chord, x, tops);
        }
    }
    for beam in 0..order.galley.beams.len() {
        let members = setting.members(beam);
        if members.len() > 1 && setting.lies[beam].is_none() {
            level_beam(setting, &members, tops);
        }
    }
}

/// The y of the highest and the lowest head, whatever their staves.
fn ends(chord: &Chord, tops: &[f32]) -> (f32, f32) {
    let ys = chord.heads.iter().map(|head| tops[head.staff] + head.y);
    ys.fold((f32::MAX, f32::MIN), |(high, low), y| (high.min(y), low.max(y)))
}

fn stem(setting: &mut Setting, chord: &Chord, x: f32, tops: &[f32]) {
    let (high, low) = ends(chord, tops);
    let (from, to) = if chord.up { (high - STEM_LENGTH, low) } else { (high, low + STEM_LENGTH) };
    let middle = x + chord.stem_x();
    setting.pen.line(0, setting.order.ink(chord), (middle, from), (middle, to), STEM);
}

/// A beam in the middle between the staves, level.
fn level_beam(setting: &mut Setting, members: &[(&Chord, f32)], tops: &[f32]) {
    let staves = || members.iter().flat_map(|(chord, _)| chord.heads.iter().map(|head| head.staff));
    let (upper, lower) = (staves().min().unwrap_or(0), staves().max().unwrap_or(0));
    let y = 0.5 * (tops[upper] + STAFF + tops[lower]);
    setting.draw_beam(members, Lie { x: 0.0, y, slope: 0.0 }, 0, members[0].0.up);
    for (chord, x) in members {
        let (high, low) = ends(chord, tops);
        let foot = if chord.up { low } else { high };
        let middle = x + chord.stem_x();
        setting.pen.line(0, setting.order.ink(chord), (middle, foot), (middle, y), STEM);
    }
}

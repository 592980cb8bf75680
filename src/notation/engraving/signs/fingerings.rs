//! Fingerings, over the upper staves and under the lower ones.

use crate::notation::engraving::{
    metrics::{AUGMENTATION_DOT, TEXT_HEIGHT},
    pen::text_width,
    signs::engraver::Engraver,
};

/// Longest text of a sign, in characters.
const LONGEST: usize = 16;
/// The finger of a grace note, as part of another one's size: chosen.
const OF_GRACE: f32 = 0.8;
/// How much narrower than the widest text a finger is on either side: chosen.
const NARROWER: f32 = 0.12;

/// Fingers stand over the upper staves and under the lower ones, the highest note's uppermost.
pub fn fingerings(engraver: &mut Engraver) {
    let plan = engraver.plan;
    let staves = plan.galley.staves();
    let size = plan.text;
    for (chord, x) in engraver.chords() {
        if !(plan.plays)(chord.staff) {
            continue;
        }
        let ink = engraver.ink(chord);
        let above = chord.company.unwrap_or(staves < 2 || chord.staff < staves / 2);
        let middle = x + chord.dx + 0.5 * chord.head_width();
        let size = if chord.is_grace() { OF_GRACE * size } else { size };
        let fingers: Vec<&str> = chord.heads.iter().filter_map(|head| head.head.fingering.as_deref()).collect();
        let outward: Box<dyn Iterator<Item = &&str>> =
            if above { Box::new(fingers.iter()) } else { Box::new(fingers.iter().rev()) };
        for finger in outward {
            let finger: String = finger.chars().take(LONGEST).collect();
            let half = 0.5 * text_width(&finger, size) - NARROWER;
            let (mut left, mut right) = (middle - half, middle + half);
            if chord.event.dots > 0 {
                // Beside a dot a finger would read as one with it.
                right = right.max(x + chord.dots + AUGMENTATION_DOT);
            }
            if chord.has_stem() && chord.up == above {
                (left, right) = (left.min(x + chord.stem_x()), right.max(x + chord.stem_x()));
            }
            let y = engraver.beyond(chord.staff, above, (left, right), TEXT_HEIGHT * size);
            engraver.pen.text(chord.staff, ink, (middle, y), size, false, finger);
        }
    }
}

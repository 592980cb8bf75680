//! What the directions of a measure put over and under the staff, and when.

use crate::music::{
    Quarters,
    musicxml::{
        bar::{OpenBar, Reader},
        directions,
        document::{child, children},
        lengths::plus,
        mended::Mend,
        printed,
        spanners::End,
        staff_text,
    },
    score::Dynamic,
    written::{Anchor, StaffText},
};
use roxmltree::Node;

impl<'a> Reader<'a, '_> {
    pub(super) fn direction(&mut self, node: Node<'a, 'a>, open: &mut OpenBar<'a>) {
        let staff = self.staff(node);
        let here = open.cursor.at();
        let at = plus(here, self.counting.offset_of(node)).max(Quarters::ZERO);
        // An offset moves what is printed, and what sounds only where it says so (MusicXML 4.0, `offset`).
        let offset_sounds = child(node, "offset").is_some_and(|offset| offset.attribute("sound") == Some("yes"));
        let sounds_at = if offset_sounds { at } else { here };
        for sign in children(node, "direction-type").flat_map(|kind| kind.children()).filter(Node::is_element) {
            match sign.tag_name().name() {
                "dynamics" => {
                    let above = directions::dynamic_side(sign, node);
                    open.dynamics.extend(directions::dynamic(sign).map(|mark| Dynamic { at, staff, above, mark }));
                }
                "metronome" => {
                    match directions::metronome(sign) {
                        Some(tempo) => _ = open.tempi.insert(sounds_at, tempo),
                        None => self.say(Mend::OtherTempi),
                    }
                    open.texts.extend(worded(node, sign, at, staff));
                }
                "words" | "rehearsal" => open.texts.extend(worded(node, sign, at, staff)),
                // Which notes stand under an octave sign is told by where it holds, wherever it is printed.
                "octave-shift" => self.staff_sign(node, sign, sounds_at, staff, open),
                "wedge" | "pedal" => self.staff_sign(node, sign, at, staff, open),
                "segno" | "coda" => self.say(Mend::RepeatsOnce),
                _ => self.say(Mend::OtherSigns),
            }
        }
        if let Some(sound) = child(node, "sound") {
            self.sound(sound, sounds_at, open);
        }
    }

    fn staff_sign(&mut self, direction: Node, sign: Node, at: Quarters, staff: u8, open: &mut OpenBar) {
        let anchor = Anchor { bar: self.bar as isize - 1, at, staff, voice: String::new(), grace: 0 };
        let Some((family, does)) = directions::staff_sign(sign) else { return self.say(Mend::OtherPedals) };
        let number = printed::number(sign);
        if does.ends {
            open.printed.staff_end(End { family, number, begins: None, anchor: anchor.clone() });
        }
        if let Some(kind) = does.begins {
            let begins = Some((kind, printed::above(direction)));
            open.printed.staff_end(End { family, number, begins, anchor });
        }
    }

    /// A tempo for playback; a printed mark at the same place takes precedence.
    pub(super) fn sound(&mut self, node: Node, at: Quarters, open: &mut OpenBar) {
        if ["dacapo", "dalsegno", "tocoda", "segno", "coda", "fine"].iter().any(|jump| node.has_attribute(*jump)) {
            self.say(Mend::RepeatsOnce);
        }
        if let Some(tempo) = directions::sound(node, self.meter) {
            open.tempi.entry(at).or_insert(tempo);
        }
    }
}

/// What a direction says in words at its place.
fn worded(direction: Node, sign: Node, at: Quarters, staff: u8) -> Option<StaffText> {
    let says = staff_text::says(direction, sign)?;
    Some(StaffText { at, staff, above: printed::above(direction), says })
}

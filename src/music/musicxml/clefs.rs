//! The clefs of a part, staff by staff.

use crate::{
    music::{
        Quarters,
        musicxml::{attributes::MOST_STAVES, document::text_of, mended::Mend},
        written::{Clef, ClefChange, ClefSign},
    },
    sort,
};
use roxmltree::Node;

/// The clefs in force, from the uppermost staff on; staves that have named none are left open.
#[derive(Default)]
pub(super) struct Clefs {
    in_force: [Option<Clef>; MOST_STAVES as usize],
    /// Of the bar that is being read.
    found: Vec<ClefChange>,
}

/// What a bar has of clefs.
pub(super) struct BarClefs {
    pub(super) at_begin: [Option<Clef>; MOST_STAVES as usize],
    pub(super) changes: Vec<ClefChange>,
}

impl Clefs {
    pub(super) fn element(&mut self, clef: Node, at: Quarters, say: &mut impl FnMut(Mend)) {
        let staff = clef.attribute("number").and_then(|number| number.trim().parse::<u8>().ok()).unwrap_or(1);
        let staff = staff.clamp(1, MOST_STAVES);
        self.found.extend(read(clef, say).map(|clef| ClefChange { at, staff, clef }));
    }

    /// Closes the bar, which has this length: what stands at its begin is in force there; what changes nothing is no change.
    pub(super) fn end_bar(&mut self, length: Quarters) -> BarClefs {
        let mut found = std::mem::take(&mut self.found);
        sort::by_key(&mut found, |change| change.at);
        let (at_begin, later): (Vec<_>, Vec<_>) = found.into_iter().partition(|change| change.at == Quarters::ZERO);
        at_begin.iter().for_each(|change| *self.of(change.staff) = Some(change.clef));
        let begin = self.in_force;
        let mut changes = Vec::new();
        for change in later {
            if self.of(change.staff).replace(change.clef) != Some(change.clef) {
                changes.push(ClefChange { at: change.at.min(length), ..change });
            }
        }
        BarClefs { at_begin: begin, changes }
    }

    fn of(&mut self, staff: u8) -> &mut Option<Clef> {
        &mut self.in_force[usize::from(staff) - 1]
    }
}

impl BarClefs {
    /// The clefs at the bar's begin of so many staves. Where none was named, the upper half has the
    /// treble clef and the lower the bass clef, a single staff the treble clef.
    pub(super) fn of(&self, staves: u8) -> Vec<Clef> {
        let usual = |staff| if staves > 1 && staff >= staves / 2 { Clef::BASS } else { Clef::TREBLE };
        (0..staves).map(|staff| self.at_begin[usize::from(staff)].unwrap_or(usual(staff))).collect()
    }
}

/// `None` for a staff without a clef. Tablature is read as the pitches it stands for: an octave below
/// the treble clef, as for the guitar.
fn read(clef: Node, say: &mut impl FnMut(Mend)) -> Option<Clef> {
    let line = text_of(clef, "line").and_then(|line| line.parse::<u8>().ok()).filter(|line| (1..=5).contains(line));
    let octaves = text_of(clef, "clef-octave-change").and_then(|octaves| octaves.parse::<i8>().ok()).unwrap_or(0);
    let octaves = octaves.clamp(-2, 2);
    let on_line = |sign, usual| Clef { sign, line: line.unwrap_or(usual), octaves };
    Some(match text_of(clef, "sign")? {
        "G" => on_line(ClefSign::G, 2),
        "F" => on_line(ClefSign::F, 4),
        "C" => on_line(ClefSign::C, 3),
        "percussion" => Clef::PERCUSSION,
        "TAB" => {
            say(Mend::Tablature);
            Clef { octaves: -1, ..Clef::TREBLE }
        }
        _ => return None,
    })
}

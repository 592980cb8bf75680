//! From notes to attacks: a tied continuation begins nothing, it makes the note before it last.

use crate::{
    music::{
        Pitch, Quarters,
        musicxml::{
            lengths::{minus, plus},
            mended::Mend,
            voices::MOST_GRACES,
        },
        passage::Articulation,
        score::{Attack, WrittenNote},
    },
    sort,
};
use std::{cmp::Reverse, collections::HashMap};

/// A note as it stands in a bar.
pub(super) struct Heard<'a> {
    /// From the start of the bar.
    pub(super) at: Quarters,
    /// Where a tie from it may end: where its length, its shape or its chord ends, whichever is last. Some files
    /// shorten a note of a chord for playback.
    pub(super) reaches: Quarters,
    pub(super) staff: u8,
    pub(super) voice: &'a str,
    /// The same for all notes of a chord, another for any other note of the bar.
    pub(super) chord: usize,
    /// A tie ends here.
    pub(super) tied_from: bool,
    /// A tie begins here.
    pub(super) tied_on: bool,
    pub(super) note: WrittenNote,
}

/// A tie that waits for its other end.
struct OpenTie<'a> {
    /// From the start of the part, like `ends`.
    begins: Quarters,
    ends: Quarters,
    staff: u8,
    voice: &'a str,
    /// Where the attack stands in `Ties::attacks`.
    attack: usize,
}

/// Far more than there are ties on one pitch at one time.
const MOST_OPEN: usize = 16;

/// Joins the tied notes of a part, bar after bar.
#[derive(Default)]
pub(super) struct Ties<'a> {
    bar_start: Quarters,
    bars: usize,
    open: HashMap<Pitch, Vec<OpenTie<'a>>>,
    attacks: Vec<(usize, Heard<'a>)>,
}

impl<'a> Ties<'a> {
    /// Takes the notes of the next bar, which has this length.
    pub(super) fn bar(&mut self, mut notes: Vec<Heard<'a>>, length: Quarters, say: &mut impl FnMut(Mend)) {
        let bar_start = self.bar_start;
        self.open.values_mut().for_each(|ties| ties.retain(|tie| tie.ends >= bar_start));
        self.open.retain(|_, ties| !ties.is_empty());
        sort::by_key(&mut notes, |heard| heard.at);
        hand_on_signs(&mut notes);
        notes.into_iter().for_each(|heard| self.note(heard, say));
        self.bar_start = plus(bar_start, length);
        self.bars += 1;
    }

    fn note(&mut self, heard: Heard<'a>, say: &mut impl FnMut(Mend)) {
        let begins = plus(self.bar_start, heard.at);
        let (ends, reaches) = (plus(begins, heard.note.lasts), plus(self.bar_start, heard.reaches));
        let (pitch, tied_on) = (heard.note.pitch, heard.tied_on);
        let (staff, voice) = (heard.staff, heard.voice);
        let continued = pitch.filter(|_| heard.tied_from).and_then(|pitch| self.close(pitch, begins, staff, voice));
        let (begins, attack) = match continued {
            Some(tie) => {
                let lasts = &mut self.attacks[tie.attack].1.note.lasts;
                *lasts = minus(ends, tie.begins).max(*lasts);
                (tie.begins, tie.attack)
            }
            None => {
                let graced = pitch.is_some_and(|pitch| heard.note.graces.contains(&pitch));
                if heard.tied_from && !graced {
                    say(Mend::LooseTie);
                }
                self.attacks.push((self.bars, heard));
                (begins, self.attacks.len() - 1)
            }
        };
        if let Some(pitch) = pitch.filter(|_| tied_on) {
            let ties = self.open.entry(pitch).or_default();
            ties.truncate(MOST_OPEN - 1);
            ties.insert(0, OpenTie { begins, ends: reaches, staff, voice, attack });
        }
    }

    /// The open tie on `pitch` that leads here: best one that ends here, on this staff, in this voice.
    fn close(&mut self, pitch: Pitch, here: Quarters, staff: u8, voice: &str) -> Option<OpenTie<'a>> {
        let ties = self.open.get_mut(&pitch)?;
        let fit = |tie: &OpenTie| Reverse((tie.ends == here, tie.staff == staff, tie.voice == voice));
        let earlier = ties.iter().enumerate().filter(|(_, tie)| tie.begins < here);
        let best = earlier.min_by_key(|(_, tie)| fit(tie)).map(|(index, _)| index)?;
        Some(ties.remove(best))
    }

    /// The attacks of every bar, in order of position and staff.
    pub(super) fn finish(self) -> Vec<Vec<Attack>> {
        let mut bars: Vec<Vec<Attack>> = (0..self.bars).map(|_| Vec::new()).collect();
        let mut attacks = self.attacks;
        sort::by_key(&mut attacks, |(bar, heard)| (*bar, heard.at, heard.staff));
        for (bar, Heard { at, staff, note, .. }) in attacks {
            match bars[bar].last_mut().filter(|last| last.at == at && last.staff == staff) {
                Some(attack) => join(&mut attack.notes, note),
                None => bars[bar].push(Attack { at, staff, notes: vec![note] }),
            }
        }
        bars
    }
}

/// The file gives a chord's signs to its first note. Where that one is tied over, the signs are meant
/// for the note after it in the chord.
fn hand_on_signs(notes: &mut [Heard]) {
    for next in 1..notes.len() {
        let (before, after) = notes.split_at_mut(next);
        let (Some(tied), Some(struck)) = (before.last_mut(), after.first_mut()) else { continue };
        let one_chord = (tied.chord, tied.staff) == (struck.chord, struck.staff);
        if one_chord && tied.tied_from {
            let signs = std::mem::take(&mut tied.note.articulations);
            add_new(&mut struck.note.articulations, signs);
        }
    }
}

/// Adds a note to a chord. Two voices in unison on one staff are one key.
fn join(chord: &mut Vec<WrittenNote>, note: WrittenNote) {
    let Some(same) = chord.iter_mut().find(|other| other.pitch == note.pitch) else {
        chord.push(note);
        return;
    };
    same.lasts = same.lasts.max(note.lasts);
    same.fingering = same.fingering.take().or(note.fingering);
    same.graces.extend(note.graces);
    same.graces.truncate(MOST_GRACES);
    add_new(&mut same.articulations, note.articulations);
}

fn add_new(signs: &mut Vec<Articulation>, more: Vec<Articulation>) {
    for sign in more {
        if !signs.contains(&sign) {
            signs.push(sign);
        }
    }
}

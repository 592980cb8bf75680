//! From two ends to one sign: slurs, hairpins, pedals, octave signs and tuplets.

use crate::{
    music::{
        Quarters,
        musicxml::mended::Mend,
        written::{Anchor, Spanner, Spans},
    },
    sort,
};
use std::{cmp::Reverse, collections::HashMap};

/// Far more than are open at one time under one number.
const MOST_OPEN: usize = 16;

/// Signs that are told apart by their number within a family.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub(super) enum Family {
    Slur,
    Wedge,
    Pedal,
    Octave,
    Tuplet,
    Trill,
    Tremolo,
}

/// One end of a sign, as the file gives it.
pub(super) struct End {
    pub(super) family: Family,
    /// The file tells signs apart that are open at one time by it.
    pub(super) number: u8,
    /// What begins here, and on which side the file puts it; `None` where it ends.
    pub(super) begins: Option<(Spans, Option<bool>)>,
    pub(super) anchor: Anchor,
}

impl End {
    fn is_same(&self, other: &End) -> bool {
        let does = |end: &End| (end.family, end.number, end.begins.map(|(kind, _)| kind));
        let place = |end: &End| (end.anchor.at, end.anchor.grace);
        does(self) == does(other) && place(self) == place(other) && belongs(self.family, &self.anchor, &other.anchor)
    }
}

struct OpenSpanner {
    kind: Spans,
    above: Option<bool>,
    from: Anchor,
}

/// Joins the ends of a part, bar after bar.
#[derive(Default)]
pub(super) struct Spanners {
    open: HashMap<(Family, u8), Vec<OpenSpanner>>,
    closed: Vec<Spanner>,
}

impl Spanners {
    /// Takes the ends of the next bar. In a file one voice stands after the other: here they are taken in
    /// the order of time, and at one place what ends there before what begins there; but a tuplet that ends
    /// where it begins is one of a single note. What is said twice, as at two notes of a chord, counts once.
    pub(super) fn bar(&mut self, mut ends: Vec<End>, say: &mut impl FnMut(Mend)) {
        sort::by_key(&mut ends, |end| {
            let later = end.begins.is_some() != (end.family == Family::Tuplet);
            (end.anchor.at, Reverse(end.anchor.grace), later, end.family, end.number)
        });
        ends.dedup_by(|next, end| next.is_same(end));
        for End { family, number, begins, anchor } in ends {
            match begins {
                Some((kind, above)) => self.begin(family, number, OpenSpanner { kind, above, from: anchor }, say),
                None => self.end(family, number, anchor, say),
            }
        }
    }

    /// Takes a sign that is known from end to end.
    pub(super) fn whole(&mut self, spanner: Spanner) {
        self.closed.push(spanner);
    }

    /// A pedal that is pressed again was released there; any other sign has lost its end.
    fn begin(&mut self, family: Family, number: u8, open: OpenSpanner, say: &mut impl FnMut(Mend)) {
        let others = self.open.entry((family, number)).or_default();
        let own = others.iter().position(|other| belongs(family, &other.from, &open.from));
        let superseded = own.or((others.len() == MOST_OPEN).then_some(0)).map(|index| others.remove(index));
        match superseded {
            Some(OpenSpanner { kind, above, from }) if family == Family::Pedal && own.is_some() => {
                self.closed.push(Spanner { kind, from, to: open.from.clone(), above });
            }
            Some(_) => say(loose(family)),
            None => {}
        }
        others.push(open);
    }

    fn end(&mut self, family: Family, number: u8, to: Anchor, say: &mut impl FnMut(Mend)) {
        let others = self.open.entry((family, number)).or_default();
        let own = others.iter().rposition(|open| belongs(family, &open.from, &to));
        let strict = matches!(family, Family::Tuplet | Family::Tremolo);
        match own.or_else(|| others.len().checked_sub(1).filter(|_| !strict)) {
            Some(index) => {
                let OpenSpanner { kind, above, from } = others.remove(index);
                self.closed.push(Spanner { kind, from, to, above });
            }
            None => say(loose(family)),
        }
    }

    /// The signs, in order of their begin; a tuplet without a figure prints none.
    pub(super) fn finish(mut self, say: &mut impl FnMut(Mend)) -> Vec<Spanner> {
        let left = self.open.iter().flat_map(|((family, _), open)| open.iter().map(|_| *family));
        let mut left: Vec<Family> = left.collect();
        sort::by_key(&mut left, |family| *family as u8);
        left.into_iter().for_each(|family| say(loose(family)));
        let place =
            |anchor: &Anchor| -> (isize, Quarters, Reverse<u8>) { (anchor.bar, anchor.at, Reverse(anchor.grace)) };
        self.closed.retain(|spanner| !matches!(spanner.kind, Spans::Tuplet { figure: 0, .. }));
        sort::by_key(&mut self.closed, |spanner| place(&spanner.from));
        self.closed
    }
}

/// What belongs to notes goes by voice, what belongs to a staff by staff.
fn belongs(family: Family, one: &Anchor, other: &Anchor) -> bool {
    match family {
        Family::Slur | Family::Tuplet | Family::Trill | Family::Tremolo => one.voice == other.voice,
        Family::Wedge | Family::Pedal | Family::Octave => one.staff == other.staff,
    }
}

fn loose(family: Family) -> Mend {
    match family {
        Family::Slur => Mend::LooseSlur,
        Family::Tuplet => Mend::LooseTuplet,
        Family::Trill | Family::Tremolo => Mend::LooseOrnament,
        Family::Wedge | Family::Pedal | Family::Octave => Mend::LooseSign,
    }
}

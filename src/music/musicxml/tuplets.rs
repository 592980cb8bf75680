//! Tuplets that a file counts but does not mark: found from the notes that stand in another time.

use crate::music::{
    Quarters,
    musicxml::voices::end_of,
    written::{Event, Value},
};
use std::ops::RangeInclusive;

/// The groups among the events of one voice in one bar that stand in a tuplet's time and are not in
/// `marked`: a group is full when it holds as many of its shortest values as its figure says, or a
/// multiple; where values are mixed, only on a beat or where its longest values fill it, too.
pub(super) fn unmarked(events: &[Event], marked: &[bool], beat: Quarters) -> Vec<(RangeInclusive<usize>, u8)> {
    let mut groups: Vec<(RangeInclusive<usize>, u8)> = Vec::new();
    let mut open: Option<Group> = None;
    for (index, event) in events.iter().enumerate().filter(|(_, event)| event.grace.is_none()) {
        let figures = event.tuplet.filter(|_| !marked[index]);
        if let Some(group) = open.take_if(|group| Some(group.figures) != figures || group.ends != event.at) {
            groups.push(group.done());
        }
        let Some(figures) = figures else { continue };
        let group = open.get_or_insert_with(|| Group::new(index, figures, event));
        group.add(index, event);
        if group.is_full(beat) {
            groups.extend(open.take().map(|group| group.done()));
        }
    }
    groups.extend(open.map(|group| group.done()));
    groups
}

struct Group {
    first: usize,
    last: usize,
    figures: (u8, u8),
    begins: Quarters,
    ends: Quarters,
    shortest: Value,
    longest: Value,
}

impl Group {
    fn new(first: usize, figures: (u8, u8), event: &Event) -> Group {
        let (begins, value) = (event.at, event.value);
        Group { first, last: first, figures, begins, ends: begins, shortest: value, longest: value }
    }

    fn add(&mut self, index: usize, event: &Event) {
        self.last = index;
        self.ends = end_of(event);
        self.shortest = self.shortest.min(event.value);
        self.longest = self.longest.max(event.value);
    }

    fn is_full(&self, beat: Quarters) -> bool {
        let length = self.ends - self.begins;
        let fills = |value: Value| is_multiple(length, value.quarters() * i64::from(self.figures.1));
        fills(self.shortest) && (fills(self.longest) || is_multiple(self.ends, beat))
    }

    fn done(self) -> (RangeInclusive<usize>, u8) {
        (self.first..=self.last, self.figures.0)
    }
}

fn is_multiple(length: Quarters, unit: Quarters) -> bool {
    (length / unit).is_integer()
}

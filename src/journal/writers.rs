//! Who wrote the entries, and which of them are missing. Each device gives an entry the number one higher than the highest
//! it has seen, so that a number that no entry has tells of one that is gone.

use crate::{
    clock::Moment,
    journal::{DeviceId, Entry, at_hand::AtHand},
};
use std::ops::RangeInclusive;

/// What one device has written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Writer {
    /// How many entries.
    pub entries: usize,
    /// What its clock showed at the first.
    pub first: Moment,
    /// What its clock showed at the last.
    pub last: Moment,
}

/// The writers of entries that come in order, and the numbers that are missing.
#[derive(Clone, Debug, Default)]
pub struct Writers {
    highest: u64,
    missing: Vec<RangeInclusive<u64>>,
    writers: AtHand<DeviceId, Writer>,
}

impl Writers {
    /// Takes in the entry that comes next.
    pub fn take(&mut self, entry: &Entry) {
        let (id, at) = (entry.id, entry.at);
        if id.number > self.highest + 1 {
            self.missing.push(self.highest + 1..=id.number - 1);
        }
        self.highest = id.number;
        match self.writers.get_mut(id.device) {
            Some(writer) => {
                writer.entries += 1;
                writer.last = at;
            }
            None => self.writers.insert(id.device, Writer { entries: 1, first: at, last: at }),
        }
    }

    /// What each device has written.
    pub fn all(&self) -> impl Iterator<Item = (DeviceId, Writer)> {
        self.writers.iter().map(|(device, writer)| (device, *writer))
    }

    /// How many numbers nobody has, `others` that are known of left out; these come in order.
    pub fn missing(&self, others: impl Iterator<Item = u64>) -> u64 {
        let mut others: Vec<u64> =
            others.filter(|number| self.missing.iter().any(|gap| gap.contains(number))).collect();
        others.dedup();
        let all: u64 = self.missing.iter().map(|gap| gap.end() - gap.start() + 1).sum();
        all - others.len() as u64
    }
}

//! Which entries are missing. Each device gives an entry the number one higher than the highest it has seen, so that a
//! number that no entry has tells of one that is gone.

use crate::journal::EntryId;
use std::ops::RangeInclusive;

/// The numbers of entries that come in order.
#[derive(Clone, Debug, Default)]
pub struct Numbers {
    highest: u64,
    missing: Vec<RangeInclusive<u64>>,
}

impl Numbers {
    pub fn take(&mut self, id: EntryId) {
        if id.number > self.highest + 1 {
            self.missing.push(self.highest + 1..=id.number - 1);
        }
        self.highest = id.number;
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

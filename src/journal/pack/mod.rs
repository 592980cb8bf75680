//! Closed days, packed: a few thousand entries as one text that takes little more than a character an entry.
//!
//! A pack is deflated columns (`segment`) as text (`dense`) behind a head of plain words: the version of
//! the form, how many entries, the first and the last of them, how many bytes, and a check value over all
//! of that. A text that does not fit its check value is damaged.

mod column;
mod dense;
mod segment;

use crate::journal::{Entry, EntryId};
use crc::{CRC_32_ISO_HDLC, Crc, Table};
use miniz_oxide::{deflate::compress_to_vec, inflate::decompress_to_vec_with_limit};
use std::rc::Rc;

/// Most entries of a pack: one is rewritten whenever days are added to it.
pub const MOST_ENTRIES: usize = 4_096;
/// Longest written form of the entries that share a pack, in bytes; a larger entry stands alone.
const MOST_BYTES: usize = 1 << 20;
/// Most bytes that a pack may inflate to.
const MOST_INFLATED: usize = 16 << 20;
/// Compression effort, from 0 to 9: more would gain a hundredth.
const EFFORT: u8 = 6;
/// The form that is written here.
const VERSION: &str = "1";
/// Detects every change within 32 bits, so in any two adjacent characters (CRC-32/ISO-HDLC).
const CHECK: Crc<u32, Table<1>> = Crc::<u32, Table<1>>::new(&CRC_32_ISO_HDLC);

/// Some entries in ascending order, packed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pack {
    count: usize,
    first: EntryId,
    last: EntryId,
    deflated: Rc<[u8]>,
    text: Rc<str>,
}

/// The text is no pack, or not as it was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DamagedPack;

impl Pack {
    /// Packs entries, which come in ascending order, into as many packs as they need.
    pub fn all_of(entries: &[Entry]) -> Vec<Pack> {
        let mut packs = Vec::new();
        let mut rest = entries;
        while let [first, ..] = rest {
            let (here, further) = rest.split_at(fitting(rest));
            packs.push(Pack::of(here, first.id, here[here.len() - 1].id));
            rest = further;
        }
        packs
    }

    fn of(entries: &[Entry], first: EntryId, last: EntryId) -> Pack {
        Pack::of_columns(&segment::write(entries.iter()), entries.len(), first, last)
    }

    /// The pack of these columns, whether or not `count` entries come out of them, from `first` to `last`.
    pub fn of_columns(columns: &[u8], count: usize, first: EntryId, last: EntryId) -> Pack {
        let deflated = compress_to_vec(columns, EFFORT);
        let head = format!("{VERSION} {count} {first} {last} {}", deflated.len());
        let check = check_value(&head, &deflated);
        let text = format!("{head} {check:08x} {}", dense::text(&deflated)).into();
        Pack { count, first, last, deflated: deflated.into(), text }
    }

    /// Takes a text for a pack where its check value agrees. What is in it shows when it is unpacked.
    ///
    /// # Errors
    /// [`DamagedPack`] where it does not.
    pub fn read(text: &str) -> Result<Pack, DamagedPack> {
        Pack::sound(text).ok_or(DamagedPack)
    }

    fn sound(text: &str) -> Option<Pack> {
        let (head_and_check, body) = text.rsplit_once(' ')?;
        let (head, check) = head_and_check.rsplit_once(' ')?;
        let mut words = head.strip_prefix(VERSION)?.strip_prefix(' ')?.split(' ');
        let (count, first, last) =
            (words.next()?.parse().ok()?, words.next()?.parse().ok()?, words.next()?.parse().ok()?);
        let deflated = dense::bytes(body, words.next()?.parse().ok()?)?;
        let sound = words.next().is_none() && check == format!("{:08x}", check_value(head, &deflated));
        let fits = (1..=MOST_ENTRIES).contains(&count) && first <= last;
        (sound && fits).then(|| Pack { count, first, last, deflated: deflated.into(), text: text.into() })
    }

    /// Hands each entry to `take`, in ascending order.
    ///
    /// # Errors
    /// [`DamagedPack`] where not all entries come out as the head says; then some may have been passed on.
    pub fn unpack(&self, take: &mut dyn FnMut(Entry)) -> Result<(), DamagedPack> {
        let columns = decompress_to_vec_with_limit(&self.deflated, MOST_INFLATED).map_err(|_| DamagedPack)?;
        let (mut first, mut last, mut ascending) = (None, None, true);
        let read = segment::read(&columns, self.count, &mut |entry| {
            ascending &= last < Some(entry.id);
            first = first.or(Some(entry.id));
            last = Some(entry.id);
            take(entry);
        });
        let as_said = ascending && (first, last) == (Some(self.first), Some(self.last));
        read.filter(|()| as_said).ok_or(DamagedPack)
    }

    /// All entries; those before the damage where it is damaged.
    pub fn entries(&self) -> Vec<Entry> {
        let mut entries = Vec::with_capacity(self.count);
        let _found_when_the_pack_was_taken_in = self.unpack(&mut |entry| entries.push(entry));
        entries
    }

    /// How many entries.
    pub fn count(&self) -> usize {
        self.count
    }

    /// The identity of its first entry, the lowest.
    pub fn first(&self) -> EntryId {
        self.first
    }

    /// The identity of its last entry, the highest.
    pub fn last(&self) -> EntryId {
        self.last
    }

    /// The pack as it is kept.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// The same, shared.
    pub fn shared_text(&self) -> Rc<str> {
        Rc::clone(&self.text)
    }
}

/// How many of the entries, at least one, share a pack.
fn fitting(entries: &[Entry]) -> usize {
    let mut bytes = 0;
    let small = entries.iter().take(MOST_ENTRIES).take_while(|entry| {
        bytes += segment::bulk(entry);
        bytes <= MOST_BYTES
    });
    small.count().max(1)
}

fn check_value(head: &str, deflated: &[u8]) -> u32 {
    let mut digest = CHECK.digest();
    digest.update(head.as_bytes());
    digest.update(deflated);
    digest.finalize()
}

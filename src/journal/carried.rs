//! The journal as it is carried between the page and its worker: packs and entries as they are kept.

use crate::{
    carry::{Carry, carry_as, carry_enums, carry_structs},
    clock::{Day, Moment},
    journal::{
        DeviceId, Entries, Entry, EntryId, Merged, SetAside,
        file::{Brought, Head, ImportError},
        pack::Pack,
    },
};
use std::rc::Rc;

carry_structs! {
    EntryId { number, device }
    SetAside { place, text }
    Merged { added, known_already, twins, writers }
    Brought { merged, set_aside }
    Head { exported, device, set_aside }
}
carry_enums! {
    ImportError { 0 TooLarge, 1 Unreadable, 2 NotJson { line }, 3 NotAJournal, 4 Newer { version }, 5 Damaged { why } }
}

carry_as! {
    DeviceId as u64: |device| device.0, |number| Some(DeviceId(number));
    Moment as String: Moment::to_string, |text| text.parse().ok();
    Day as String: Day::to_string, |text| text.parse().ok();
    Entry as String: Entry::written, |line| Entry::read(&line).ok();
    Pack as Rc<str>: Pack::shared_text, |text| Pack::read(&text).ok();
}

impl Carry for Entries {
    fn put(&self, out: &mut Vec<u8>) {
        self.packs().to_vec().put(out);
        self.recent().cloned().collect::<Vec<_>>().put(out);
        self.set_aside().cloned().collect::<Vec<_>>().put(out);
    }

    fn take(bytes: &mut &[u8]) -> Option<Self> {
        let (packs, recent) = (Vec::<Pack>::take(bytes)?, Vec::<Entry>::take(bytes)?);
        Some(Entries::of(packs, recent, Vec::<SetAside>::take(bytes)?.into_iter().collect()).0)
    }
}

//! What is said of how well the journal is kept is so: two copies that refuse, lose and answer late, beside
//! what the page may claim of them.

use proptest::{collection::vec, prelude::*};
use std::collections::{BTreeSet, VecDeque};
use tailfirst::{
    journal::{
        Merged,
        file::Brought,
        keeping::{Copy, Keeping, Kept, Write},
    },
    words,
};

/// A write that the safe copy has not answered yet, and what it will hold then.
struct Sent {
    write: Write,
    entries: BTreeSet<u32>,
}

/// The page with two real copies.
#[derive(Default)]
struct Device {
    written: BTreeSet<u32>,
    quick: BTreeSet<u32>,
    safe: BTreeSet<u32>,
    under_way: VecDeque<Sent>,
    keeping: Keeping,
}

#[derive(Clone, Copy, Debug)]
enum Happening {
    /// A tap; whether the quick copy takes it.
    Tap(bool),
    /// The safe copy answers: it takes the write or refuses.
    Answer(bool),
    CompleteQuick(bool),
    CompleteSafe,
    LoseQuick,
    /// The database is taken away; what is under way comes to nothing.
    LoseSafe,
}

fn happening() -> impl Strategy<Value = Happening> {
    use Happening::*;
    prop_oneof![
        4 => prop::bool::weighted(0.8).prop_map(Tap),
        6 => prop::bool::weighted(0.8).prop_map(Answer),
        2 => prop::bool::weighted(0.8).prop_map(CompleteQuick),
        2 => Just(CompleteSafe),
        1 => Just(LoseQuick),
        1 => Just(LoseSafe),
    ]
}

impl Device {
    fn send(&mut self, write: Write, entries: BTreeSet<u32>) {
        self.keeping.sent(Copy::Safe, write);
        self.under_way.push_back(Sent { write, entries });
    }

    fn write_quick(&mut self, write: Write, entries: BTreeSet<u32>, taken: bool) {
        self.keeping.sent(Copy::Quick, write);
        if taken {
            self.quick.extend(entries);
        }
        self.keeping.answered(Copy::Quick, write, taken);
    }

    fn answer(&mut self, taken: bool) {
        let Some(sent) = self.under_way.pop_front() else { return };
        if taken {
            self.safe.extend(sent.entries);
        }
        self.keeping.answered(Copy::Safe, sent.write, taken);
    }

    fn happens(&mut self, happening: Happening) {
        match happening {
            Happening::Tap(taken) => {
                let entry = self.written.len() as u32;
                self.written.insert(entry);
                self.write_quick(Write::More, [entry].into(), taken);
                self.send(Write::More, [entry].into());
            }
            Happening::Answer(taken) => self.answer(taken),
            Happening::CompleteQuick(taken) => self.write_quick(Write::All, self.written.clone(), taken),
            Happening::CompleteSafe => self.send(Write::All, self.written.clone()),
            Happening::LoseQuick => {
                self.quick.clear();
                self.keeping.lost(Copy::Quick);
            }
            Happening::LoseSafe => {
                self.safe.clear();
                self.keeping.lost(Copy::Safe);
                while !self.under_way.is_empty() {
                    self.answer(false);
                }
            }
        }
    }

    /// What the safe copy holds once it has taken everything that is under way.
    fn safe_soon(&self) -> BTreeSet<u32> {
        self.under_way.iter().flat_map(|sent| &sent.entries).chain(&self.safe).copied().collect()
    }
}

proptest! {
    #[test]
    fn nothing_is_called_kept_that_is_not(happenings in vec(happening(), 1..60)) {
        let mut device = Device::default();
        prop_assert_eq!(device.keeping.kept(), Kept::Nowhere);
        for happening in happenings {
            device.happens(happening);
            let all = &device.written;
            match device.keeping.kept() {
                Kept::Well => prop_assert!(&device.quick == all && &device.safe == all),
                Kept::UnderWay => prop_assert!(&device.quick == all && &device.safe_soon() == all),
                Kept::QuickOnly => prop_assert_eq!(&device.quick, all),
                Kept::SafeOnly => prop_assert_eq!(&device.safe_soon(), all),
                Kept::Nowhere => {}
            }
            prop_assert!(!device.keeping.is_safe() || &device.safe == all);
        }
        // Once the copies take everything again, all is well, and it is said.
        device.happens(Happening::CompleteQuick(true));
        device.happens(Happening::CompleteSafe);
        while !device.under_way.is_empty() {
            device.happens(Happening::Answer(true));
        }
        prop_assert_eq!(device.keeping.kept(), Kept::Well);
        prop_assert!(device.keeping.is_safe());
    }
}

#[test]
fn an_import_is_called_added_only_when_the_safe_copy_holds_it() {
    let merged = Merged { added: 5_751, ..Merged::default() };
    let brought = Brought { merged, set_aside: 0 };
    assert_eq!(words::keeping::imported(&brought, true), "5751 entries were added.");
    let unsafe_yet = words::keeping::imported(&brought, false);
    assert!(!unsafe_yet.contains("added") && unsafe_yet.contains("not saved yet"), "{unsafe_yet}");
}

#[test]
fn an_import_says_what_came_in_what_was_here_and_what_could_not_be_read() {
    let merged = Merged { added: 12, known_already: 1, twins: 1, ..Merged::default() };
    let said = words::keeping::imported(&Brought { merged, set_aside: 2 }, true);
    assert_eq!(
        said,
        "12 entries were added. One entry was here already. One has the number of another that is here; both are kept. \
         2 texts in it could not be read; they are set aside."
    );
    let merged = Merged { known_already: 4, ..Merged::default() };
    assert_eq!(words::keeping::imported(&Brought { merged, set_aside: 0 }, true), "Nothing in the file was new.");
}

#[test]
fn the_player_is_warned_of_whatever_is_not_in_both_copies_and_of_nothing_else() {
    use Kept::*;
    for (kept, warned) in [(Well, false), (UnderWay, false), (QuickOnly, true), (SafeOnly, true), (Nowhere, true)] {
        assert_eq!(words::keeping::warning(kept).is_some(), warned, "{kept:?}");
        let says_both = words::keeping::kept(kept).contains("Both copies on this device are up to date");
        assert_eq!(says_both, kept == Well);
    }
}

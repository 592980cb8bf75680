//! The open journal and its two copies on this device: local storage, which is quick, and IndexedDB, which
//! is safe. What the copies add up to, and what each is given, is [`shelf`]'s to say; what may be said of how
//! well they keep, [`Keeping`]'s.

use crate::{
    app::device::{
        clock,
        indexed::{self, Indexed},
        local, patience, safety, spawn_local, tabs, timers,
    },
    clock::Moment,
    journal::{
        DeviceId, Entries, EntryId, EntryKind, Journal, Merged,
        keeping::{Copy, Keeping, Kept, Write},
        shelf::{self, Changes, Texts},
    },
};
use std::{
    cell::{Cell, Ref, RefCell},
    rc::Rc,
};
use yew::Callback;

/// How long the safe copy is waited for on opening, in ms.
pub const PATIENCE_MS: u32 = 1_000;
/// How soon a copy that has refused is tried again, in ms.
const AGAIN_MS: u32 = 15_000;

/// The open journal with its copies.
pub struct Stores {
    journal: RefCell<Journal>,
    device: Cell<DeviceId>,
    safe: RefCell<Option<Rc<Indexed>>>,
    keeping: Cell<Keeping>,
    /// Waiting to try again what a copy has refused.
    trying_again: RefCell<Option<timers::Once>>,
    changed: Callback<()>,
    /// What was found on opening and has not been read by the player.
    found: Cell<Found>,
    exported: Cell<Option<Moment>>,
    /// Hears what another window writes.
    hearing: RefCell<Option<local::Hearing>>,
}

/// What opening found to be unreadable or gone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Found {
    pub set_aside: usize,
    pub missing: u64,
}

/// Opens both copies and brings each up to their union. Where the safe copy does not answer soon, what the quick one
/// holds is there at once, and the other is merged in later. `changed` is called after everything that the page does
/// not do itself.
pub async fn open(changed: Callback<()>) -> Rc<Stores> {
    let in_local: Texts = local::read_all("").unwrap_or_default().into_iter().collect();
    let shared = Rc::new(RefCell::new(None::<Rc<Stores>>));
    let (joined, lost) = (Rc::clone(&shared), Rc::clone(&shared));
    let lost = move || lost.borrow().iter().for_each(Stores::safe_copy_is_lost);
    let late = move |found: Option<(Indexed, Texts)>| {
        if let (Some(stores), Some((indexed, held))) = (&*joined.borrow(), found) {
            stores.join(indexed, held);
        }
    };
    let found = patience::within(PATIENCE_MS, opened(lost), late).await.flatten();
    let (safe, in_indexed) = found.map_or((None, Texts::new()), |(indexed, held)| (Some(Rc::new(indexed)), held));
    let opened = shelf::open(&[in_local, in_indexed], clock::now().day());
    let shelf::Opened { journal, device, newly_set_aside: set_aside, newly_missing: missing, exported } = opened;
    let device = tabs::identity_of_this_window().or(device);
    let stores = Rc::new(Stores {
        journal: RefCell::new(journal),
        device: Cell::new(device.unwrap_or_else(clock::new_device)),
        safe: RefCell::new(safe),
        keeping: Cell::default(),
        trying_again: RefCell::default(),
        changed,
        found: Cell::new(Found { set_aside, missing }),
        exported: Cell::new(exported),
        hearing: RefCell::default(),
    });
    shared.replace(Some(Rc::clone(&stores)));
    stores.complete();
    stores.hear_other_windows();
    stores
}

/// The safe copy and what it holds.
async fn opened(lost: impl Fn() + Clone + 'static) -> Option<(Indexed, Texts)> {
    let indexed = Indexed::open(indexed::JOURNAL, lost).await.ok()?;
    let held = indexed.read_all().await.ok()?;
    Some((indexed, held.into_iter().collect()))
}

impl Stores {
    pub fn journal(&self) -> Ref<'_, Journal> {
        self.journal.borrow()
    }

    pub fn device(&self) -> DeviceId {
        self.device.get()
    }

    /// How well everything written down so far is kept.
    pub fn kept(&self) -> Kept {
        self.keeping.get().kept()
    }

    /// Where no lock keeps another window from writing, what it writes is taken in as it comes.
    fn hear_other_windows(self: &Rc<Self>) {
        let stores = Rc::downgrade(self);
        let hearing = local::hear(move |key, text| {
            if let Some(stores) = stores.upgrade() {
                stores.heard(key, text);
            }
        });
        self.hearing.replace(Some(hearing));
    }

    fn heard(self: &Rc<Self>, key: &str, text: &str) {
        let Some(merged) = shelf::hear(&mut self.journal.borrow_mut(), key, text) else { return };
        if merged.is_copied(self.device.get()) {
            self.device.set(clock::new_device());
            self.complete();
        }
        self.changed.emit(());
    }

    /// When the journal was exported last.
    pub fn exported(&self) -> Option<Moment> {
        self.exported.get()
    }

    /// The journal has been exported.
    pub fn note_export(self: &Rc<Self>, at: Moment) {
        self.exported.set(Some(at));
        self.write(Changes { put: vec![shelf::exported_text(at)], remove: Vec::new() });
        self.changed.emit(());
    }

    /// What was found on opening and has not been read by the player.
    pub fn found(&self) -> Found {
        self.found.get()
    }

    /// The player has read it.
    pub fn found_was_read(&self) {
        self.found.take();
        self.changed.emit(());
    }

    /// Writes down that something happened. The quick copy has it when this returns.
    pub fn record(self: &Rc<Self>, kind: EntryKind, at: Moment) -> EntryId {
        let entry = self.journal.borrow().next(self.device.get(), at, kind);
        self.write(Changes { put: vec![shelf::entry_text(&entry)], remove: Vec::new() });
        let id = entry.id;
        self.journal.borrow_mut().append(entry);
        self.try_again_soon();
        id
    }

    /// Writes something more to both copies.
    fn write(self: &Rc<Self>, changes: Changes) {
        // The player may have cleared the site's data while the page was open.
        if local::read(shelf::DEVICE).is_none() {
            self.note(|keeping| keeping.lost(Copy::Quick));
        }
        self.note(|keeping| keeping.sent(Copy::Quick, Write::More));
        let taken = local::change(&changes).is_ok();
        self.note(|keeping| keeping.answered(Copy::Quick, Write::More, taken));
        self.write_safely(changes, Write::More);
    }

    /// Takes in what the journal has come to by `merged`, when it was `before`; ends when the safe copy has answered, with whether
    /// all is safe there. Entries of this device's own that were not here come from a copy of it, which may go on writing:
    /// from then on this is another device.
    pub async fn take_in(self: Rc<Self>, later: Journal, before: &Entries, merged: &Merged) -> bool {
        let texts = shelf::changes(&self.journal.borrow(), self.device.get(), &Texts::new()).put;
        if merged.is_copied(self.device.get()) {
            self.device.set(clock::new_device());
        }
        self.journal.borrow_mut().become_later(later, before);
        // Neither copy has it yet, and each is given it in a task of its own: ten years take a while to write.
        self.note(|keeping| keeping.sent(Copy::Quick, Write::All));
        let safe_copy = self.complete_safe_copy();
        self.changed.emit(());
        let _not_offered_where_refused = patience::within(PATIENCE_MS, safety::keep(texts, clock::now()), |_| ()).await;
        patience::a_moment().await;
        self.fill_quick_copy();
        patience::a_moment().await;
        safe_copy.await;
        self.keeping.get().is_safe()
    }

    /// Goes back to what was there before the last import; what has been written here since then stays. `false` where
    /// there is nothing to go back to.
    pub async fn go_back(self: Rc<Self>) -> bool {
        let Some(texts) = safety::read().await else { return false };
        let mut before = shelf::open(&[texts], clock::now().day()).journal;
        let device = self.device.get();
        before.merge(self.journal.borrow().entries().filter(|entry| entry.id.device == device));
        let replacing = |held: &Texts| shelf::replacing(&before, device, held);
        let held = local::read_all("").unwrap_or_default().into_iter().collect();
        let quick = local::change(&replacing(&held)).is_ok();
        let safe = self.safe.borrow().clone();
        let safely = match &safe {
            Some(safe) => match safe.read_all().await {
                Ok(held) => safe.change(&replacing(&held.into_iter().collect())).await.is_ok(),
                Err(_) => false,
            },
            None => false,
        };
        self.journal.replace(before);
        [(Copy::Quick, quick), (Copy::Safe, safely)].into_iter().filter(|(_, taken)| !taken).for_each(|(copy, _)| {
            self.note(|keeping| keeping.lost(copy));
        });
        self.changed.emit(());
        quick || safely
    }

    /// Erases both copies and what was kept before the last import; whether the browser did it all. The page is to be
    /// loaded anew then, and is another device.
    pub async fn erase(&self) -> bool {
        tabs::forget_identity();
        let quick = local::clear().is_ok();
        let safe = indexed::delete(indexed::JOURNAL).await.is_ok();
        indexed::delete(safety::NAME).await.is_ok() && safe && quick
    }

    /// The safe copy answers after all.
    fn join(self: &Rc<Self>, indexed: Indexed, held: Texts) {
        let shelf::Opened { journal: other, newly_set_aside, .. } = shelf::open(&[held], clock::now().day());
        let found = self.found.get();
        self.found.set(Found { set_aside: found.set_aside + newly_set_aside, ..found });
        let merged = self.journal.borrow_mut().join(other);
        if merged.is_copied(self.device.get()) {
            self.device.set(clock::new_device());
        }
        self.safe.replace(Some(Rc::new(indexed)));
        self.complete();
        self.changed.emit(());
    }

    /// The browser has taken the database away.
    fn safe_copy_is_lost(self: &Rc<Self>) {
        self.safe.replace(None);
        self.note(|keeping| keeping.lost(Copy::Safe));
        self.try_again_soon();
    }

    /// Brings both copies up to the journal.
    fn complete(self: &Rc<Self>) {
        self.complete_quick_copy();
        spawn_local(self.complete_safe_copy());
    }

    fn complete_quick_copy(self: &Rc<Self>) {
        self.note(|keeping| keeping.sent(Copy::Quick, Write::All));
        self.fill_quick_copy();
    }

    fn fill_quick_copy(self: &Rc<Self>) {
        let held = local::read_all("").map(|held| held.into_iter().collect::<Texts>());
        let taken = held.and_then(|held| {
            let changes = shelf::changes(&self.journal.borrow(), self.device.get(), &held);
            local::change(&changes).or_else(|refused| match self.keeping.get().is_safe() {
                true => local::change_making_room(&changes),
                false => Err(refused),
            })
        });
        self.note(|keeping| keeping.answered(Copy::Quick, Write::All, taken.is_ok()));
        self.try_again_soon();
    }

    /// Ends when the safe copy has answered.
    fn complete_safe_copy(self: &Rc<Self>) -> impl Future<Output = ()> + use<> {
        let (stores, safe) = (Rc::clone(self), self.safe.borrow().clone());
        if safe.is_some() {
            self.note(|keeping| keeping.sent(Copy::Safe, Write::All));
        }
        async move {
            if let Some(safe) = safe {
                let taken = stores.write_all(&safe).await.is_ok();
                stores.note(|keeping| keeping.answered(Copy::Safe, Write::All, taken));
                stores.changed.emit(());
            }
            stores.try_again_soon();
        }
    }

    async fn write_all(&self, safe: &Indexed) -> Result<(), indexed::Error> {
        let held: Texts = safe.read_all().await?.into_iter().collect();
        let changes = shelf::changes(&self.journal.borrow(), self.device.get(), &held);
        safe.change(&changes).await
    }

    fn write_safely(self: &Rc<Self>, changes: Changes, write: Write) {
        let Some(safe) = self.safe.borrow().clone() else {
            return self.note(|keeping| keeping.lost(Copy::Safe));
        };
        self.note(|keeping| keeping.sent(Copy::Safe, write));
        let writing = safe.change(&changes);
        let stores = Rc::clone(self);
        spawn_local(async move {
            let taken = writing.await.is_ok();
            stores.note(|keeping| keeping.answered(Copy::Safe, write, taken));
            stores.try_again_soon();
        });
    }

    /// A copy that has fallen behind is completed after a while.
    fn try_again_soon(self: &Rc<Self>) {
        let behind = [Copy::Quick, Copy::Safe].into_iter().any(|copy| self.keeping.get().is_behind(copy));
        if !behind || self.trying_again.borrow().is_some() {
            return;
        }
        let stores = Rc::clone(self);
        let again = timers::after(AGAIN_MS, move || {
            stores.trying_again.replace(None);
            spawn_local(async move { stores.try_again().await });
        });
        self.trying_again.replace(Some(again));
    }

    async fn try_again(self: Rc<Self>) {
        if self.safe.borrow().is_none() {
            let lost = {
                let stores = Rc::downgrade(&self);
                move || stores.upgrade().iter().for_each(Stores::safe_copy_is_lost)
            };
            if let Some((indexed, held)) = opened(lost).await {
                return self.join(indexed, held);
            }
        }
        if self.keeping.get().is_behind(Copy::Quick) {
            self.complete_quick_copy();
        }
        if self.keeping.get().is_behind(Copy::Safe) {
            self.complete_safe_copy().await;
        }
    }

    /// Notes what happened to a copy, and tells the page when a warning has to be shown or removed.
    fn note(&self, happened: impl FnOnce(&mut Keeping)) {
        let mut keeping = self.keeping.get();
        let before = keeping.kept().warning();
        happened(&mut keeping);
        self.keeping.set(keeping);
        if keeping.kept().warning() != before {
            self.changed.emit(());
        }
    }
}

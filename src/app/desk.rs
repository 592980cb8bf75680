//! The open journal as the screens see it: they read its state and record what happened.

use super::{
    device::clock,
    scores::{Known, Scores},
    stores::{self, Kept, Opened, Stores},
};
use crate::{
    agenda::undo::Undo,
    clock::Moment,
    journal::{DeviceId, EntryId, Event, Journal, Merged, PieceId, Removed, ScoreFile, State, file},
    music::Score,
};
use std::{
    cell::{Cell, Ref, RefCell},
    ops::Deref,
    rc::Rc,
};
use yew::prelude::*;

/// The journal, its copies and the way to tell the page that something changed.
pub struct Desk {
    journal: RefCell<Journal>,
    stores: Stores,
    scores: Scores,
    device: Cell<DeviceId>,
    kept: Rc<Cell<Kept>>,
    changed: Callback<()>,
}

impl Desk {
    fn new(opened: Opened, changed: Callback<()>) -> Self {
        let Opened { stores, journal, device, kept } = opened;
        Desk {
            journal: RefCell::new(journal),
            stores,
            scores: Scores::default(),
            device: Cell::new(device),
            kept: Rc::new(Cell::new(kept)),
            changed,
        }
    }

    /// What the journal adds up to.
    pub fn state(&self) -> Ref<'_, State> {
        Ref::map(self.journal.borrow(), Journal::state)
    }

    /// The journal itself.
    pub fn journal(&self) -> Ref<'_, Journal> {
        self.journal.borrow()
    }

    /// What is known of the score of a piece, which is read if it was not before; `None` where it has none.
    pub fn score(&self, piece: PieceId) -> Option<Known> {
        self.state().piece(piece).and_then(|piece| self.scores.of(piece, &self.changed))
    }

    /// Writes down that the piece has this score, which has been read from the file already.
    pub fn keep_score(&self, piece: PieceId, file: ScoreFile, score: Rc<Score>) {
        self.scores.was_read(piece, &file, score);
        self.record(Event::ScoreKept { piece, file });
    }

    /// How well the latest write was kept.
    pub fn kept(&self) -> Kept {
        self.kept.get()
    }

    /// The device's clock.
    pub fn now(&self) -> Moment {
        clock::now()
    }

    /// Writes down that something happened now, and shows it.
    pub fn record(&self, what: Event) -> EntryId {
        let entry = self.journal.borrow().next(self.device.get(), self.now(), what);
        let id = entry.id;
        self.stores.write(&entry, self.hears_how_it_was_kept());
        self.journal.borrow_mut().append(entry);
        self.changed.emit(());
        id
    }

    /// Brings back what was removed.
    pub fn bring_back(&self, removed: &Removed) {
        for entry in removed.entries.clone() {
            self.record(Event::Retracted { entry });
        }
    }

    /// Takes one thing back.
    pub fn take_back(&self, undo: Undo) {
        self.record(Event::Retracted { entry: undo.entry });
    }

    /// The journal as the text of a file.
    pub fn export(&self) -> String {
        file::export(&self.journal.borrow(), self.device.get(), self.now())
    }

    /// Takes in what another device's file holds. Entries of this device's own that were not here
    /// come from a copy of it, which may go on writing: from then on this is another device.
    pub fn import(&self, imported: file::Imported) -> Merged {
        if self.journal.borrow().is_copied(self.device.get(), &imported.entries) {
            self.device.set(clock::new_device());
        }
        let merged = self.journal.borrow_mut().take_in(imported);
        self.stores.write_journal(&self.journal.borrow(), self.device.get(), self.hears_how_it_was_kept());
        self.changed.emit(());
        merged
    }

    fn hears_how_it_was_kept(&self) -> impl FnOnce(Kept) + 'static {
        let (kept, changed) = (Rc::clone(&self.kept), self.changed.clone());
        move |how| {
            if kept.replace(how) != how {
                changed.emit(());
            }
        }
    }
}

/// The desk at one point in its history: two are equal where nothing happened between them.
#[derive(Clone)]
pub struct DeskNow {
    desk: Rc<Desk>,
    revision: u32,
}

impl DeskNow {
    /// A callback that writes down that this happened.
    pub fn on_tap<E>(&self, what: Event) -> Callback<E> {
        let desk = self.clone();
        Callback::from(move |_| {
            desk.record(what.clone());
        })
    }
}

impl PartialEq for DeskNow {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.desk, &other.desk) && self.revision == other.revision
    }
}

impl Deref for DeskNow {
    type Target = Desk;
    fn deref(&self) -> &Desk {
        &self.desk
    }
}

/// How often something happened.
#[derive(Default, PartialEq)]
struct Revision(u32);

impl Reducible for Revision {
    type Action = ();
    fn reduce(self: Rc<Self>, (): ()) -> Rc<Self> {
        Rc::new(Revision(self.0.wrapping_add(1)))
    }
}

/// Opens the desk; `None` while the copies are being read.
#[hook]
pub fn use_opened_desk() -> Option<DeskNow> {
    let revision = use_reducer(Revision::default);
    let desk = use_state(|| None::<Rc<Desk>>);
    {
        let (desk, dispatcher) = (desk.setter(), revision.dispatcher());
        use_effect_with((), move |()| {
            wasm_bindgen_futures::spawn_local(async move {
                let changed = Callback::from(move |()| dispatcher.dispatch(()));
                desk.set(Some(Rc::new(Desk::new(stores::open().await, changed))));
            });
        });
    }
    (*desk).clone().map(|desk| DeskNow { desk, revision: revision.0 })
}

/// The desk of the page.
#[hook]
pub fn use_desk() -> DeskNow {
    use_context::<DeskNow>().expect("every screen is drawn on the desk")
}

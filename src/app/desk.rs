//! The open journal as the screens see it: they read its state and record what happened.

use crate::{
    agenda::{Coaches, Followed, undo::Undo},
    app::{
        device::{clock, spawn_local},
        scores::{Known, Scores},
        stores::{self, Found, Stores},
    },
    clock::Moment,
    journal::{
        DeviceId, Entries, EntryId, EntryKind, Journal, Merged, PieceId, Removed, ScoreFile, SnippetId, State,
        keeping::Kept,
    },
    method::Coach,
    music::Score,
};
use std::{
    cell::{Ref, RefCell},
    ops::Deref,
    rc::Rc,
};
use yew::prelude::*;

/// The journal with its copies, and the callback that redraws the page.
pub struct Desk {
    stores: Rc<Stores>,
    coaches: RefCell<Coaches>,
    scores: Scores,
    changed: Callback<()>,
}

impl Desk {
    fn new(stores: Rc<Stores>, changed: Callback<()>) -> Self {
        Desk { stores, coaches: RefCell::default(), scores: Scores::default(), changed }
    }

    /// What the journal adds up to now. It stays as it is, whatever is recorded while it is held.
    pub fn state(&self) -> Rc<State> {
        self.stores.journal().shared_state()
    }

    /// The coach of a snippet, up to date with all that happened to it.
    pub fn coach(&self, id: SnippetId) -> Option<Rc<Coach>> {
        self.followed(id).map(|followed| followed.coach)
    }

    /// All that follows from what happened to a snippet.
    pub fn followed(&self, id: SnippetId) -> Option<Followed> {
        self.state().snippet(id).map(|record| self.coaches.borrow_mut().of(id, record))
    }

    /// The journal itself.
    pub fn journal(&self) -> Ref<'_, Journal> {
        self.stores.journal()
    }

    /// What is known of the score of a piece, which is read if it was not before; `None` where it has none.
    pub fn score(&self, piece: PieceId) -> Option<Known> {
        self.state().piece(piece).and_then(|piece| self.scores.of(piece, &self.changed))
    }

    /// Writes down that the piece has this score, which has been read from the file already.
    pub fn keep_score(&self, piece: PieceId, file: ScoreFile, score: Rc<Score>) {
        self.scores.was_read(piece, &file, score);
        self.record(EntryKind::ScoreKept { piece, file });
    }

    /// How well everything written down so far is kept.
    pub fn kept(&self) -> Kept {
        self.stores.kept()
    }

    /// What turned out to be unreadable or missing on opening, until the player has read it.
    pub fn found(&self) -> Found {
        self.stores.found()
    }

    /// The player has read what was found.
    pub fn found_was_read(&self) {
        self.stores.found_was_read();
    }

    /// When the journal was exported last.
    pub fn exported(&self) -> Option<Moment> {
        self.stores.exported()
    }

    /// The journal has been exported now.
    pub fn note_export(&self) {
        self.stores.note_export(self.now());
    }

    /// Goes back to what was there before the last import; whether there was anything to go back to.
    pub async fn go_back(&self) -> bool {
        Rc::clone(&self.stores).go_back().await
    }

    /// Erases everything; whether the browser did it all.
    pub async fn erase(&self) -> bool {
        self.stores.erase().await
    }

    /// The device's clock.
    pub fn now(&self) -> Moment {
        clock::now()
    }

    /// Writes down that something happened now, and shows it.
    pub fn record(&self, kind: EntryKind) -> EntryId {
        let id = self.stores.record(kind, self.now());
        self.changed.emit(());
        id
    }

    /// Brings back what was removed.
    pub fn bring_back(&self, removed: &Removed) {
        for entry in removed.entries.clone() {
            self.record(EntryKind::Retracted { entry });
        }
    }

    /// Takes one thing back.
    pub fn take_back(&self, undo: Undo) {
        self.record(undo.retracts());
    }

    /// All entries as they are now.
    pub fn entries(&self) -> Entries {
        Entries::clone(&self.journal())
    }

    /// Who writes here.
    pub fn device(&self) -> DeviceId {
        self.stores.device()
    }

    /// Takes in what an import that began with `before` has come to; ends when it is known whether that survives the
    /// browser.
    pub async fn take_in(&self, later: Journal, before: &Entries, merged: &Merged) -> bool {
        Rc::clone(&self.stores).take_in(later, before, merged).await
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
    pub fn on_tap<E>(&self, kind: EntryKind) -> Callback<E> {
        let desk = self.clone();
        Callback::from(move |_| {
            desk.record(kind.clone());
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
            spawn_local(async move {
                let changed = Callback::from(move |()| dispatcher.dispatch(()));
                let stores = stores::open(changed.clone()).await;
                desk.set(Some(Rc::new(Desk::new(stores, changed))));
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

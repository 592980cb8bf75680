//! One page at a time writes the journal: two would give the same number to two entries. Where the browser has no locks,
//! each writes under an identity of its own instead.

use crate::{
    app::device::{clock, window},
    journal::DeviceId,
};
use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure, prelude::wasm_bindgen};
use yew::Callback;

#[wasm_bindgen]
extern "C" {
    /// The Web Locks API (W3C), which the bindings treat as unstable.
    type LockManager;
    #[wasm_bindgen(method)]
    fn request(this: &LockManager, name: &str, options: &Object, granted: &Function) -> Promise;
}

/// How this page stands to the others of the program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// This page writes.
    Ours,
    /// Another page writes.
    Theirs,
}

/// Asks for the turn and reports it, now and whenever it changes: another page takes it, or the page that had it is
/// gone. With `insist` it is taken from the page that has it. A browser without locks, or one that keeps nothing for
/// this page, always says [`Turn::Ours`]; see [`identity_of_this_window`].
pub fn ask(insist: bool, stands: Callback<Turn>) {
    let manner = if insist { Manner::Steal } else { Manner::IfAvailable };
    if let Some(locks) = locks() {
        request(&locks, manner, stands);
    } else {
        stands.emit(Turn::Ours);
    }
}

/// Where no lock keeps a second window from writing, the identity under which this window writes: each has its own, so
/// that no two entries ever have one number. It stays the same when the page is loaded again.
pub fn identity_of_this_window() -> Option<DeviceId> {
    if locks().is_some() {
        return None;
    }
    let kept = window().session_storage().ok().flatten();
    let known = kept.as_ref().and_then(|kept| kept.get_item(IDENTITY).ok().flatten()?.parse().ok());
    let device = known.unwrap_or_else(clock::new_device);
    // Where that is refused, the next load draws another: more identities than needed, and still no number twice.
    let _written = kept.map(|kept| kept.set_item(IDENTITY, &device.to_string()));
    Some(device)
}

/// This window goes on under another identity.
pub fn forget_identity() {
    let kept = window().session_storage().ok().flatten();
    let _nothing_to_forget_where_refused = kept.map(|kept| kept.remove_item(IDENTITY));
}

const IDENTITY: &str = "tailfirst.window";

fn locks() -> Option<LockManager> {
    let navigator = window().navigator();
    let locks = Reflect::get(&navigator, &JsValue::from_str("locks")).ok().filter(JsValue::is_object)?;
    Some(locks.unchecked_into())
}

/// How the lock is asked for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Manner {
    /// At once or not at all.
    IfAvailable,
    /// From whoever has it.
    Steal,
    /// When whoever has it is gone.
    InTurn,
}

fn request(locks: &LockManager, manner: Manner, stands: Callback<Turn>) {
    let options = Object::new();
    for (name, asked) in [("ifAvailable", Manner::IfAvailable), ("steal", Manner::Steal)] {
        let _a_new_object_takes_any_property = Reflect::set(&options, &name.into(), &(manner == asked).into());
    }
    let granted = {
        let stands = stands.clone();
        Closure::<dyn FnMut(JsValue) -> Promise>::new(move |lock: JsValue| {
            if lock.is_null() {
                wait_in_turn(&stands);
                return Promise::resolve(&JsValue::UNDEFINED);
            }
            stands.emit(Turn::Ours);
            // The lock is held for as long as this promise is open: until the page is gone.
            Promise::new(&mut |_, _| {})
        })
    };
    let ended = Closure::once(move |error: JsValue| match name(&error).as_deref() {
        // Taken by another page.
        Some("AbortError") => wait_in_turn(&stands),
        // The browser gives this page neither locks nor storage, so there is nothing to contend for.
        _ => stands.emit(Turn::Ours),
    });
    let callback: Function = granted.into_js_value().unchecked_into();
    let _ended = locks.request("tailfirst-journal", &options, &callback).catch(&ended);
    ended.forget();
}

/// The other page writes, until it is gone.
fn wait_in_turn(stands: &Callback<Turn>) {
    stands.emit(Turn::Theirs);
    if let Some(locks) = locks() {
        request(&locks, Manner::InTurn, stands.clone());
    }
}

fn name(error: &JsValue) -> Option<String> {
    Reflect::get(error, &"name".into()).ok().and_then(|name| name.as_string())
}

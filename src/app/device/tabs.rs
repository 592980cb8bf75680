//! One page at a time writes the journal: two would give the same number to two entries.

use super::window;
use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue, closure::Closure, prelude::wasm_bindgen};
use yew::Callback;

#[wasm_bindgen]
extern "C" {
    /// The Web Locks API (W3C), which the bindings hold for unstable.
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

/// Asks for the turn and says how it stands, now and whenever another page takes it. With `insist`
/// it is taken from the page that has it. A browser without locks always says [`Turn::Ours`].
pub fn ask(insist: bool, stands: Callback<Turn>) {
    let navigator = window().navigator();
    let locks = Reflect::get(&navigator, &JsValue::from_str("locks")).ok().filter(JsValue::is_object);
    let Some(locks) = locks else {
        stands.emit(Turn::Ours);
        return;
    };
    let options = Object::new();
    let manner = if insist { "steal" } else { "ifAvailable" };
    let _a_new_object_takes_any_property = Reflect::set(&options, &manner.into(), &true.into());
    let granted = {
        let stands = stands.clone();
        Closure::<dyn FnMut(JsValue) -> Promise>::new(move |lock: JsValue| {
            let ours = !lock.is_null();
            stands.emit(if ours { Turn::Ours } else { Turn::Theirs });
            // The lock is held for as long as this promise is open: until the page is gone.
            if ours { Promise::new(&mut |_, _| {}) } else { Promise::resolve(&JsValue::UNDEFINED) }
        })
    };
    let taken = Closure::once(move |_: JsValue| stands.emit(Turn::Theirs));
    let callback: Function = granted.into_js_value().unchecked_into();
    let asked = locks.unchecked_into::<LockManager>().request("tailfirst-journal", &options, &callback);
    let _ended = asked.catch(&taken);
    taken.forget();
}

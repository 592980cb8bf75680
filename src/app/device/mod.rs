//! The only door to the browser: clock, chance, stores, sound, frames, keys, files and the offline
//! shell, each behind a few small functions.

pub mod audio;
pub mod check;
pub mod clock;
pub mod fields;
pub mod files;
pub mod frame;
pub mod indexed;
pub mod keys;
pub mod language;
pub mod local;
pub mod location;
pub mod offline;
pub mod patience;
pub mod persistence;
pub mod safety;
pub mod tabs;
pub mod timers;
pub mod touch;
pub mod wake;
pub mod workshop;

pub use wasm_bindgen_futures::spawn_local;

use wasm_bindgen::UnwrapThrowExt;

/// The window: the page runs in nothing else.
pub fn window() -> web_sys::Window {
    web_sys::window().expect_throw("the page runs in a window")
}

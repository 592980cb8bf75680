//! Local storage: the copy of the journal whose write has returned before the tap is drawn.

use crate::{app::device::window, journal::shelf::Changes};
use gloo::events::EventListener;
use js_sys::Reflect;
use web_sys::Storage;

/// Every key of the program's begins so.
const PREFIX: &str = "tailfirst.";

/// The browser would not take a write: its store is full or closed to the page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Refused;

fn storage() -> Result<Storage, Refused> {
    window().local_storage().ok().flatten().ok_or(Refused)
}

/// Writes `text` under `key`; it is kept once this returns.
///
/// # Errors
/// [`Refused`] where it was not kept.
pub fn write(key: &str, text: &str) -> Result<(), Refused> {
    storage()?.set_item(&format!("{PREFIX}{key}"), text).map_err(|_| Refused)
}

/// Writes and then removes what the changes say. Where a text is refused, nothing is removed.
///
/// # Errors
/// [`Refused`] where not all was written.
pub fn change(changes: &Changes) -> Result<(), Refused> {
    changes.put.iter().try_for_each(|(key, text)| write(key, text))?;
    let storage = storage()?;
    changes.remove.iter().try_for_each(|key| storage.remove_item(&format!("{PREFIX}{key}")).map_err(|_| Refused))
}

/// Removes and then writes what the changes say, for a store that is full. What is removed must be kept
/// elsewhere.
///
/// # Errors
/// [`Refused`] where not all was written.
pub fn change_making_room(changes: &Changes) -> Result<(), Refused> {
    let storage = storage()?;
    changes.remove.iter().try_for_each(|key| storage.remove_item(&format!("{PREFIX}{key}")).map_err(|_| Refused))?;
    changes.put.iter().try_for_each(|(key, text)| write(key, text))
}

/// What was written under `key`.
pub fn read(key: &str) -> Option<String> {
    storage().ok()?.get_item(&format!("{PREFIX}{key}")).ok().flatten()
}

/// All keys that begin with `start`, each with its text.
///
/// # Errors
/// [`Refused`] where the browser does not open its store to the page.
pub fn read_all(start: &str) -> Result<Vec<(String, String)>, Refused> {
    let storage = storage()?;
    let count = storage.length().map_err(|_| Refused)?;
    let keys: Vec<String> = (0..count).filter_map(|index| storage.key(index).ok().flatten()).collect();
    let ours = keys.into_iter().filter_map(|key| {
        let name = key.strip_prefix(PREFIX)?.to_string();
        let text = name.starts_with(start).then(|| storage.get_item(&key).ok().flatten())??;
        Some((name, text))
    });
    Ok(ours.collect())
}

/// Listens until it is dropped.
pub struct Hearing {
    _listener: EventListener,
}

/// Calls `heard` with each key and text that another window writes.
pub fn hear(heard: impl Fn(&str, &str) + 'static) -> Hearing {
    let listener = EventListener::new(&window(), "storage", move |event| {
        let field = |name: &str| Reflect::get(event, &name.into()).ok()?.as_string();
        if let (Some(key), Some(text)) = (field("key"), field("newValue"))
            && let Some(key) = key.strip_prefix(PREFIX)
        {
            heard(key, &text);
        }
    });
    Hearing { _listener: listener }
}

/// Removes everything.
///
/// # Errors
/// [`Refused`] where the browser does not open its store to the page.
pub fn clear() -> Result<(), Refused> {
    let remove = read_all("")?.into_iter().map(|(key, _)| key).collect();
    change(&Changes { put: Vec::new(), remove })
}

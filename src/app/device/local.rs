//! Local storage: the copy of the journal whose write has returned before the tap is drawn.

use crate::{app::device::window, journal::shelf::Changes};
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

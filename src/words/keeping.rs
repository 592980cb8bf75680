//! What is said of how well the journal is kept: never more than is so.

use crate::{
    journal::{file::Brought, keeping::Kept},
    words::{say, sentences},
};

/// How well everything is kept, for whoever asks.
pub fn kept(kept: Kept) -> &'static str {
    match kept {
        Kept::Well => say::kept_well(),
        Kept::UnderWay => say::kept_under_way(),
        Kept::QuickOnly => say::kept_quick_only(),
        Kept::SafeOnly => say::kept_safe_only(),
        Kept::Nowhere => say::kept_nowhere(),
    }
}

/// What the player has to know at once; `None` where all is well.
pub fn warning(kept: Kept) -> Option<&'static str> {
    match kept {
        Kept::Well | Kept::UnderWay => None,
        Kept::QuickOnly => Some(say::saved_quick_only()),
        Kept::SafeOnly => Some(say::saved_safe_only()),
        Kept::Nowhere => Some(say::saved_nowhere()),
    }
}

/// What an import brought; whether that `is_safe` from the end of the browser.
pub fn imported(Brought { merged, set_aside }: &Brought, is_safe: bool) -> String {
    let brought = match (merged.added, is_safe) {
        (0, _) => say::nothing_new().to_string(),
        (added, true) => say::entries_added(added.into()),
        (added, false) => say::entries_not_saved(added.into()),
    };
    let twins = (merged.twins > 0).then(|| say::twins_kept(merged.twins.into()));
    let known = (merged.added > 0 && merged.known_already > 0).then(|| say::known_already(merged.known_already.into()));
    let unread = (*set_aside > 0).then(|| say::unread_in_file((*set_aside).into()));
    sentences([brought].into_iter().chain(known).chain(twins).chain(unread))
}

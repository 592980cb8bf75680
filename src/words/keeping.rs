//! What is said of how well the journal is kept: never more than is so.

use crate::{
    clock::Moment,
    journal::{
        Writer,
        file::Brought,
        keeping::{Kept, Outlook},
    },
    words::{Count, say, sentences, wall},
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

/// What opening found to be unreadable and gone, and nobody has been told yet; `None` where there is nothing of the kind.
pub fn found(newly_set_aside: usize, newly_missing: u64) -> Option<String> {
    let aside = (newly_set_aside > 0).then(|| say::newly_set_aside(newly_set_aside.into()));
    let gone = missing(newly_missing);
    (aside.is_some() || gone.is_some()).then(|| sentences(aside.into_iter().chain(gone)))
}

/// How many entries are gone; `None` where none is.
pub fn missing(entries: u64) -> Option<String> {
    (entries > 0).then(|| sentences([say::gone(Count(entries)), say::may_be_brought_back().into()]))
}

/// When everything was handed out as a file.
pub fn last_export(exported: Option<Moment>) -> String {
    exported.map_or(say::never_exported().into(), |at| say::exported_on(&at.day().to_string()))
}

/// That nothing has been exported for so many days, and what that can lead to.
pub fn reminder(outlook: Outlook, days: i32) -> String {
    let cleared = (outlook == Outlook::ClearedUnlessVisited).then(|| say::cleared_unless_visited().to_string());
    sentences(cleared.into_iter().chain([say::nothing_exported_for(days.unsigned_abs().into())]))
}

/// What becomes of what is stored.
pub fn outlook(outlook: Outlook) -> String {
    match outlook {
        Outlook::Promised => say::promised_to_keep().into(),
        Outlook::Unpromised => say::not_promised_to_keep().into(),
        Outlook::ClearedUnlessVisited => {
            sentences([say::cleared_unless_visited().into(), say::kept_on_home_screen().into()])
        }
        Outlook::Unknown => say::unknown_how_long().into(),
    }
}

/// What a device has written.
pub fn wrote(writer: &Writer) -> String {
    say::wrote(writer.entries.into(), &writer.last.day().to_string())
}

/// That it is possible to go back to before the last import, which was then.
pub fn can_go_back(imported: Moment) -> String {
    say::can_go_back(&imported.day().to_string(), &wall(imported))
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

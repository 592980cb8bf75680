//! What can be taken back, as buttons and rows name it.

use crate::{
    agenda::undo::Undone,
    clock::Moment,
    method::{Leaving, Reason, Verdict},
    words::say,
};

/// What undo takes back; an end may be the player's own or the coach's, as the `reason` to leave tells.
pub fn undo(undone: Undone, reason: Reason) -> &'static str {
    match undone {
        Undone::Verdict(Verdict::Clean) => say::undo_clean(),
        Undone::Verdict(Verdict::NotYet) => say::undo_not_yet(),
        Undone::Step => say::undo_my_step(),
        Undone::FreshStart => say::undo_the_fresh_start(),
        Undone::End if reason == Reason::Leave(Leaving::Stopped) => say::undo_stop(),
        Undone::End => say::undo_the_end(),
        Undone::GoodEnough => say::undo_good_enough(),
        Undone::LeftOut => say::bring_it_back(),
        Undone::RestOverruled => say::rest_after_all(),
    }
}

/// Said of something removed: the piece a snippet is of, and the day.
pub fn removed(of: Option<&str>, at: Moment) -> String {
    let day = at.day().to_string();
    match of {
        Some(piece) => say::removed_from(piece, &day),
        None => say::removed_piece(&day),
    }
}

//! What can be taken back, as buttons and rows name it.

use crate::{
    agenda::undo::Undone,
    clock::Moment,
    method::{Leaving, Reason, Verdict},
};

/// What undo takes back; an end may be the player's own or the coach's, as the `reason` to leave tells.
pub fn undo(undone: Undone, reason: Reason) -> &'static str {
    match undone {
        Undone::Verdict(Verdict::Clean) => "Undo clean",
        Undone::Verdict(Verdict::NotYet) => "Undo not yet",
        Undone::Step => "Undo my step",
        Undone::FreshStart => "Undo the fresh start",
        Undone::End if reason == Reason::Leave(Leaving::Stopped) => "Undo stop",
        Undone::End => "Undo the end",
        Undone::GoodEnough => "Undo good enough",
        Undone::LeftOut => "Bring it back",
    }
}

/// Said of something removed: the piece a snippet is of, and the day.
pub fn removed(of: Option<&str>, at: Moment) -> String {
    match of {
        Some(piece) => format!("from {piece}, removed on {}", at.day()),
        None => format!("piece with its snippets, removed on {}", at.day()),
    }
}

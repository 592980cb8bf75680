//! What has been removed and can be brought back: the pieces and snippets that are gone, each with the
//! entries that removed it.

use crate::{
    clock::Moment,
    journal::{EntryId, PieceId, SnippetId},
};

/// A piece or a snippet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Item {
    /// With all its snippets.
    Piece(PieceId),
    /// Alone, from a piece that is still there.
    Snippet(SnippetId),
}

/// Something that was removed. It is back once all of its `entries` are retracted: two devices may have
/// removed the same.
#[derive(Clone, Debug, PartialEq)]
pub struct Removed {
    /// What was removed.
    pub item: Item,
    /// The title of the piece or the name of the snippet.
    pub name: String,
    /// The piece of a snippet, with its title.
    pub of: Option<(PieceId, String)>,
    /// When it was removed last.
    pub at: Moment,
    /// The removals, at least one.
    pub entries: Vec<EntryId>,
}

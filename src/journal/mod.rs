//! What happened: the append-only journal that is the truth, and everything the screens show as a
//! fold over it.

pub mod arrival;
mod carried;
mod entries;
pub mod entry;
pub mod file;
pub mod id;
pub mod keeping;
pub mod limits;
pub mod pack;
pub mod preferences;
pub mod removed;
pub mod score_file;
pub mod shelf;
pub mod state;
pub mod study;
mod union;
pub mod wire;

#[expect(clippy::module_inception, reason = "it holds the journal itself")]
mod journal;

pub use self::journal::Journal;
pub(crate) use self::journal::retracted;
pub use entries::{Entries, SetAside};
pub use entry::{Entry, EntryKind, Piece};
pub use id::{DeviceId, EntryId, PieceId, SnippetId};
pub use preferences::{Preference, Preferences, Theme};
pub use removed::{Item, Removed};
pub use score_file::{ScoreFile, ScoreFileError};
pub use state::{PieceRecord, SnippetRecord, State};
pub use union::Merged;

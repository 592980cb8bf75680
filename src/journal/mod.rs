//! What happened: the append-only journal that is the truth, and everything the screens show as a
//! fold over it.

pub mod arrival;
mod at_hand;
mod carried;
pub mod edit;
mod entries;
pub mod entry;
pub mod file;
pub mod id;
pub mod keeping;
pub mod limits;
pub mod pack;
pub mod preferences;
pub mod removed;
pub mod rescue;
pub mod score_file;
pub mod shelf;
pub mod snippet_record;
pub mod state;
pub mod study;
mod union;
pub mod wire;
pub mod writers;

#[expect(clippy::module_inception, reason = "it holds the journal itself")]
mod journal;

pub use self::journal::Journal;
pub(crate) use self::journal::retracted;
pub use edit::{PieceEdit, SnippetEdit};
pub use entries::{Entries, SetAside};
pub use entry::{Entry, EntryKind, Piece};
pub use id::{DeviceId, EntryId, PieceId, SnippetId};
pub use preferences::{Preference, Preferences, Theme};
pub use removed::{Item, Removed};
pub use score_file::{ScoreFile, ScoreFileError};
pub use snippet_record::SnippetRecord;
pub use state::{PieceRecord, State};
pub use union::Merged;
pub use writers::Writer;

//! What happened: the append-only journal that is the truth, and everything the screens show as a
//! fold over it.

pub mod entry;
pub mod file;
pub mod id;
pub mod preferences;
pub mod score_file;
pub mod state;
pub mod study;

mod union;

pub use entry::{Entry, Event, Piece};
pub use id::{DeviceId, EntryId, PieceId, SnippetId};
pub use preferences::{Preferences, Setting, Theme};
pub use score_file::{ScoreFile, ScoreFileError};
pub use state::{PieceRecord, SnippetRecord, State};
pub use union::{Journal, Merged, SetAside};

//! How a snippet is practised: what a step is, how sure "secure" is, which step comes next.
//!
//! Refuses to know when a snippet returns on later days, how anything is kept, and how it is shown.

pub mod evidence;
pub mod history;
pub mod settings;
pub mod snippet;
pub mod step;

pub use history::{Happening, What};
pub use settings::{Settings, Strictness};
pub use snippet::{Direction, Snippet};
pub use step::{Cause, Hands, Move, Span, Step, Verdict};

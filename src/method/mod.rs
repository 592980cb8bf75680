//! How a snippet is practised: what a step is, how sure "secure" is, which step comes next.
//!
//! From the ground up: [`step`] and [`snippet`] say what is played, [`history`] what happened;
//! [`evidence`] is the mathematics of a chance that changes, `estimate` what it says about one step and
//! its neighbour; `rules` say when a step is secure or too hard, [`growth`] and `moves` which step
//! follows; [`coach`] folds a history through them into [`advice`]. [`difference`]
//! tells how a step differs from the one before; [`overrule`] says what the player may ask
//! for instead; [`block`] keeps the rests and the player's word about today; [`tally`] counts what was
//! played.

pub mod advice;
pub mod block;
pub mod coach;
pub mod difference;
pub mod draft;
mod estimate;
pub mod evidence;
pub mod growth;
pub mod history;
pub mod leaving;
mod moves;
pub mod overrule;
mod record;
pub mod rules;
pub mod settings;
pub mod snippet;
pub mod step;
pub mod tally;
pub mod terms;

pub use advice::{Advice, Reason, Sureness};
pub use block::{Done, Standing, standing};
pub use coach::{Coach, advise};
pub use difference::{Added, Difference, GoalChange, HandsChange, Side, SpanChange};
pub use draft::Draft;
pub use estimate::{Believed, ChanceBand, Priors, Pupil, Shift, Transition};
pub use history::{Happening, HappeningKind};
pub use leaving::Leaving;
pub use rules::{Asked, Rules};
pub use settings::{Settings, Strictness};
pub use snippet::{Direction, Grain, Snippet};
pub use step::{Cause, Hands, Move, Span, Step, Verdict};
pub use tally::Tally;
pub use terms::Term;

//! How a snippet is practised: what a step is, how sure "secure" is, which step comes next.
//!
//! From the ground up: [`step`] and [`snippet`] say what is played, [`history`] what happened;
//! [`places`] are where a step can break, [`hazard`] is the mathematics of one of them, [`belief`] what is known of all;
//! `rules` say when a step goes well, is secure or too hard, [`growth`] and `moves` which steps may follow, `choice` which of
//! them does; [`coach`] folds a history through them into [`advice`]. [`difference`]
//! tells how a step differs from the one before; [`overrule`] says what the player may ask
//! for instead; [`block`] keeps the rests and the player's word about today; [`tally`] counts what was
//! played.

pub mod advice;
pub mod belief;
pub mod block;
mod choice;
pub mod coach;
pub mod difference;
pub mod draft;
pub mod growth;
pub mod hazard;
pub mod history;
pub mod leaving;
mod moves;
pub mod overrule;
pub mod places;
mod record;
pub mod rules;
pub mod settings;
pub mod snippet;
pub mod step;
pub mod tally;
pub mod terms;
mod tries;

pub use advice::{Advice, Reason, Sureness, Wanted};
pub use belief::{Belief, ChanceBand, Priors, Pupil};
pub use block::{Done, Standing, standing};
pub use coach::{Believed, Coach, advise};
pub use difference::{Added, Difference, GoalChange, HandsChange, Side, SpanChange};
pub use draft::Draft;
pub use history::{Happening, HappeningKind};
pub use leaving::Leaving;
pub use places::{Place, PlaceKind};
pub use rules::{Asked, Rules};
pub use settings::{Settings, Strictness};
pub use snippet::{Direction, Grain, Snippet};
pub use step::{Cause, Hands, Move, Span, Step, Verdict};
pub use tally::Tally;
pub use terms::Term;

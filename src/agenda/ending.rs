//! When a block is over.

use crate::method::{Advice, Reason, Standing};

/// Whether the repetition just judged ends the block: its minutes are used, or the coach has now found a
/// reason to leave. Where the player has taken back an earlier end, the coach does not insist.
pub fn ends_block(before: &Advice, after: &Advice, standing: Standing) -> bool {
    let leaves = |advice: &Advice| matches!(advice.reason, Reason::Leave(_));
    !matches!(standing, Standing::Practising { .. }) || (leaves(after) && !leaves(before))
}

//! Simulated players, the ways they may practise by, and what came of it.
//!
//! The players share nothing with the coach but the words for what is played and what became of it
//! ([`Step`](tailfirst::method::Step), [`Snippet`](tailfirst::method::Snippet),
//! [`Verdict`](tailfirst::method::Verdict)): they know no evidence, no rule and no prior.
//!
//! From the ground up: [`dice`] is chance; [`excerpt`] invents what is practised; [`player`] is someone
//! who learns it, of a [`family`]; [`policy`] says what to play next, the coach among others;
//! [`practice`] lets one play by the other, day after day; [`tally`] sums many such stories up.

// The tests and the bench each use their own part of these.
#![allow(dead_code)]

pub mod dice;
pub mod excerpt;
pub mod family;
pub mod player;
pub mod policy;
pub mod practice;
pub mod tally;

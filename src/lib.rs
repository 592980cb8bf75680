//! Tailfirst: prepare the hard few seconds of a piece backward from a goal, in the pulse.
//!
//! The map of the house, ground floor first; a module uses only those above it in this list:
//!
//! - `sort` one sort for all
//! - `carry` values as bytes
//! - [`clock`] wall time as a value
//! - [`music`] what is played
//! - [`calendar`] when: how long it holds, what is due, the plan of a day
//! - [`method`] how it is practised
//! - [`pulse`] beats and count-ins as a pure timeline
//! - [`touches`] what one touch may do
//! - [`notation`] the music as drawing primitives
//! - [`journal`] what happened, kept and merged
//! - [`workshop`] what is done beside the page
//! - [`agenda`] what comes next today, when a block is over, what can be taken back
//! - [`words`] what is said of it to the player
//! - `app` the page, for wasm32 only
#![forbid(unsafe_code)]
#![cfg_attr(not(test), warn(clippy::disallowed_methods))]

pub mod agenda;
#[cfg(target_arch = "wasm32")]
pub mod app;
pub mod calendar;
mod carry;
pub mod clock;
pub mod journal;
pub mod method;
pub mod music;
pub mod notation;
pub mod pulse;
mod sort;
pub mod touches;
pub mod words;
pub mod workshop;

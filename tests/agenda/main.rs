//! What is on the agenda, asked of journals as a player would write them.

mod player;
mod undo;

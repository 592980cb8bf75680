//! What is on the agenda, asked of journals as a player would write them.

mod coaches;
mod kept;
mod outlook;
mod plan;
mod player;
mod practice;
mod rests;
mod today;
mod undo;

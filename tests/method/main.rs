//! The method as a player meets it: a whole story, its promises, its rests and its speed.

mod branches;
mod days;
mod happenings;
mod joining;
mod moods;
mod overruling;
mod promises;
mod rests;
mod story;
mod sureness;

//! The method as a player meets it: a whole story, its promises, its rests and its speed.

mod branches;
mod breaks;
mod causes;
mod days;
mod happenings;
mod joining;
mod moods;
mod overruling;
mod promises;
mod reasons;
mod rests;
#[path = "../support/yardsticks/sequential.rs"]
mod sequential;
mod stories;
mod story;
mod sureness;
mod terms;
mod truth;

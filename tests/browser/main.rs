//! The packed page in a real browser, as a player and their network would treat it.

mod choosing;
#[allow(dead_code, reason = "the players use the rest of it")]
#[path = "../support/players/dice.rs"]
mod dice;
mod durability;
mod exchange;
#[allow(dead_code, reason = "the journal's tests use the rest of it")]
#[path = "../support/exported.rs"]
mod exported;
mod faults;
#[allow(dead_code, unused_imports, reason = "the benches use the rest of it")]
#[path = "../support/harness/mod.rs"]
mod harness;
#[path = "../support/invented.rs"]
mod invented;
mod journey;
mod keyboard;
mod look;
mod moods;
mod offline;
mod opening;
mod privacy;
mod reading;
mod rests;
mod staff;
mod stand;
mod tomorrow;
mod touches;
mod ways_in;
#[path = "../support/years.rs"]
mod years;

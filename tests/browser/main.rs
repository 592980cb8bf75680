//! The packed page in a real browser, as a player and their network would treat it.

mod choosing;
mod durability;
mod exchange;
#[allow(dead_code, unused_imports, reason = "the benches use the rest of it")]
#[path = "../support/harness/mod.rs"]
mod harness;
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

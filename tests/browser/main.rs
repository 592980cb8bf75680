//! The packed page in a real browser, as a player and their network would treat it.

#[allow(dead_code, unused_imports, reason = "the benches use the rest of it")]
#[path = "../harness/mod.rs"]
mod harness;
mod offline;
mod opening;
mod privacy;

//! The journal, proved: what its entries add up to, that its lines and files are read for ever,
//! and that devices which exchange files come to the same.
#![cfg(not(target_arch = "wasm32"))]

mod damage;
#[path = "../support/devices.rs"]
mod devices;
#[path = "../support/players/dice.rs"]
mod dice;
mod exchange;
#[path = "../support/exported.rs"]
mod exported;
mod files;
mod fold;
#[path = "../support/invented.rs"]
mod invented;
mod keeping;
mod lines;
mod packing;
mod samples;
mod schema;
mod shelf;
#[path = "../support/years.rs"]
mod years;

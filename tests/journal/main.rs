//! The journal, proved: what its entries add up to, that its lines and files are read for ever,
//! and that devices which exchange files come to the same.
#![cfg(not(target_arch = "wasm32"))]

mod exchange;
mod files;
mod fold;
mod lines;
mod samples;
mod schema;
mod shelf;

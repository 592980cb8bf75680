//! Written music as it is drawn: legal, legible, all of it on the sheet.

mod engraving;
mod gallery;
#[path = "../invented/mod.rs"]
mod invented;
mod passages;
mod sheet;
mod written;

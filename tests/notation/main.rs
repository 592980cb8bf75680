//! Written music as it is drawn: legal, legible, all of it on the sheet.

mod anything;
mod cases;
mod engraving;
mod forms;
mod gallery;
#[path = "../support/invented.rs"]
mod invented;
mod measured;
mod numbers;
mod parts;
mod passages;
mod pinned;
mod places;
mod practice;
mod read_cases;
mod scroll;
mod sheet;
mod written;

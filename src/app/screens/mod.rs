//! One module a screen.

pub mod count;
pub mod data;
pub mod help;
pub mod piece;
pub mod pieces;
pub mod practise;
pub mod progress;
pub mod score;
pub mod settings;
pub mod snippet;
pub mod tap;
pub mod today;

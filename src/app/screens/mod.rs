//! One module a screen.

pub mod count;
pub mod data;
pub mod help;
pub mod piece;
pub mod pieces;
pub mod practise;
pub mod preferences;
pub mod progress;
pub mod score;
pub mod snippet;
pub mod stopped;
pub mod tap;
pub mod today;

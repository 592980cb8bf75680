//! The only door to the browser.
//!
//! - [`offline`] the page without a network, and its newer versions

pub mod offline;

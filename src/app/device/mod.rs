//! The only door to the browser.

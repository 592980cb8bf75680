//! Waiting for a time of the device.

use gloo::timers::callback::{Interval, Timeout};

/// A call in the future; dropping this cancels it.
pub struct Once {
    _timeout: Timeout,
}

/// A repeated call; dropping this ends it.
pub struct Again {
    _interval: Interval,
}

/// Calls `done` after so many milliseconds.
pub fn after(ms: u32, done: impl FnOnce() + 'static) -> Once {
    Once { _timeout: Timeout::new(ms, done) }
}

/// Calls `done` every so many milliseconds.
pub fn every(ms: u32, done: impl FnMut() + 'static) -> Again {
    Again { _interval: Interval::new(ms, done) }
}

/// Calls `done` as soon as what is being done now is drawn.
pub fn soon(done: impl FnOnce() + 'static) {
    Timeout::new(0, done).forget();
}

//! The device's clock and its chance.

use crate::{app::device::window, clock::Moment, journal::DeviceId};

/// Now, with the offset of the player's wall from UTC.
pub fn now() -> Moment {
    let date = js_sys::Date::new_0();
    Moment::new(date.get_time() as i64, -date.get_timezone_offset() as i16)
}

/// Seconds on a clock that never jumps, from an arbitrary start.
pub fn steady_seconds() -> f64 {
    window().performance().map_or_else(js_sys::Date::now, |performance| performance.now()) / 1000.0
}

/// Does some work and leaves how long it took among the browser's own measures, where a bench or the
/// browser's tools find it under `name`.
pub fn timed<T>(name: &str, work: impl FnOnce() -> T) -> T {
    let performance = window().performance();
    let _a_measure_less = performance.as_ref().map(|performance| performance.mark(name));
    let done = work();
    let _a_measure_less = performance.as_ref().map(|performance| performance.measure_with_start_mark(name, name));
    done
}

/// A new identity for this device, drawn from the browser's cryptographic source.
pub fn new_device() -> DeviceId {
    let mut bytes = [0; 8];
    let drawn = window().crypto().and_then(|crypto| crypto.get_random_values_with_u8_array(&mut bytes));
    match drawn {
        Ok(_) => DeviceId(u64::from_le_bytes(bytes)),
        Err(_) => DeviceId((js_sys::Math::random() * u64::MAX as f64) as u64),
    }
}

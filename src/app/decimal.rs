//! Numbers in the form that the browser reads. The standard library prints them exactly, which takes far more code.

/// `value` rounded to so many decimals, of which there is at least one.
pub fn decimal(value: f64, decimals: usize) -> String {
    let unit = 10_u64.pow(decimals as u32);
    let parts = (value.abs() * unit as f64).round() as u64;
    let sign = if value < 0.0 { "-" } else { "" };
    format!("{sign}{}.{:0decimals$}", parts / unit, parts % unit)
}

/// A length or a place, to a tenth of a px.
pub fn px(value: impl Into<f64>) -> String {
    decimal(value.into(), 1)
}

/// A point, to a tenth of a px.
pub fn pair((x, y): (impl Into<f64>, impl Into<f64>)) -> String {
    format!("{},{}", px(x), px(y))
}

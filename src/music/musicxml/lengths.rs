//! The file's numbers as exact musical time.

use crate::music::Quarters;
use num_rational::Ratio;

/// Positions that cannot be represented exactly are rounded to this grid, in parts of a quarter: it contains every
/// plain value down to the 128th and their triplets, quintuplets and septuplets.
const GRID: i64 = 10_080;

/// A decimal number of the file, to a thousandth; `None` where it is not a number or beyond ±10⁶.
pub(super) fn decimal(text: &str) -> Option<Ratio<i64>> {
    let text = text.trim();
    if let Ok(whole) = text.parse::<i32>() {
        return (-1_000_000..=1_000_000).contains(&whole).then(|| Ratio::from_integer(whole.into()));
    }
    let (sign, figures) = text.strip_prefix('-').map_or((1, text.strip_prefix('+').unwrap_or(text)), |rest| (-1, rest));
    let (whole, decimals) = figures.split_once('.').unwrap_or((figures, ""));
    let plain = [whole, decimals].iter().all(|part| part.bytes().all(|byte| byte.is_ascii_digit()));
    if !plain || whole.len() + decimals.len() == 0 {
        return None;
    }
    let ten_thousandths: i64 = format!("{whole}{decimals:0<4.4}").parse().ok()?;
    let thousandths = (ten_thousandths + 5) / 10;
    (thousandths <= 1_000_000_000).then(|| Ratio::new(sign * thousandths, 1000))
}

/// `ratio` as quarters, rounded to the grid where it is finer than [`Quarters`] can represent.
pub(super) fn quarters(ratio: Ratio<i64>) -> Option<Quarters> {
    let (numerator, denominator) = (*ratio.numer(), *ratio.denom());
    Quarters::new(numerator, denominator).or_else(|| on_grid(numerator as f64 / denominator as f64))
}

/// `a + b`, rounded to the grid where it cannot be represented exactly; `a` where it is beyond all bounds.
pub(super) fn plus(a: Quarters, b: Quarters) -> Quarters {
    a.checked_add(b).or_else(|| on_grid(a.as_f64() + b.as_f64())).unwrap_or(a)
}

/// `a - b`, under the same rule.
pub(super) fn minus(a: Quarters, b: Quarters) -> Quarters {
    plus(a, b * -1)
}

fn on_grid(quarters: f64) -> Option<Quarters> {
    Quarters::new((quarters * GRID as f64).round() as i64, GRID)
}

/// The length of a note shape by the name the file gives it (MusicXML `note-type-value`).
pub(super) fn shape(name: &str) -> Option<Ratio<i64>> {
    let shapes = [
        ("maxima", 32, 1),
        ("long", 16, 1),
        ("breve", 8, 1),
        ("whole", 4, 1),
        ("half", 2, 1),
        ("quarter", 1, 1),
        ("eighth", 1, 2),
        ("16th", 1, 4),
        ("32nd", 1, 8),
        ("64th", 1, 16),
        ("128th", 1, 32),
        ("256th", 1, 64),
        ("512th", 1, 128),
        ("1024th", 1, 256),
    ];
    let found = shapes.iter().find(|(shape, ..)| *shape == name)?;
    Some(Ratio::new(found.1, found.2))
}

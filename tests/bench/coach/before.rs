//! What came of practising by the coach that said "secure" of every step: what later ones are measured against.

use crate::players::family::Family;

/// The last commit with that coach.
pub const COMMIT: &str = "39672a0";

/// Means per player of 2,000, by the usual setting.
pub struct Before {
    pub minutes: f64,
    pub missed: f64,
    /// Nights before the cold clean whole.
    pub nights: f64,
    /// The share of "the whole is secure" that was true.
    pub right: f64,
}

/// What came of it for the players of `family`, measured by this bench.
pub fn usual(family: Family) -> Before {
    let (minutes, missed, nights, right) = match family {
        Family::Exponential => (12.11, 21.86, 1.86, 0.763),
        Family::PowerLaw => (9.22, 13.77, 1.53, 0.830),
        Family::ErrorsToo => (27.41, 57.48, 3.31, 0.687),
        Family::TiresAndSleeps => (13.15, 25.16, 1.65, 0.787),
        Family::HardLeap => (19.30, 39.53, 2.81, 0.745),
        Family::AllOrNone => (12.31, 21.76, 2.02, 0.683),
        Family::Uneven => (10.08, 16.08, 1.71, 0.769),
        Family::SlowStart => (10.78, 18.81, 1.54, 0.879),
        Family::WrongEar => (13.70, 21.40, 1.92, 0.804),
        Family::Habits => (15.80, 30.60, 2.28, 0.725),
        Family::TwoSpeeds => (10.80, 17.00, 2.63, 0.864),
    };
    Before { minutes, missed, nights, right }
}

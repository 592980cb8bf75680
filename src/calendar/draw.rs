//! Chance that is the same on every device: numbers drawn by what they are for.

/// Draws of one forecast. A draw depends on the seed and on what it is for, not on what was drawn before, so that two
/// forecasts that differ in one thing meet the same luck in all others.
#[derive(Clone, Copy, Debug)]
pub(super) struct Draws {
    seed: u64,
}

impl Draws {
    pub fn of(seed: u64) -> Self {
        Draws { seed: mixed(seed) }
    }

    /// A number in 0..1 for this purpose.
    pub fn at(self, purpose: [usize; 3]) -> f64 {
        let all = purpose.iter().fold(self.seed, |all, part| mixed(all ^ (*part as u64)));
        (all >> 11) as f64 / (1u64 << 53) as f64
    }
}

/// Numbers that differ in a bit become unlike each other: a step and the finaliser of SplitMix64 (Steele, Lea & Flood
/// 2014, "Fast splittable pseudorandom number generators"; its constants from memory).
fn mixed(number: u64) -> u64 {
    let mut mixed = number.wrapping_add(0x9e37_79b9_7f4a_7c15);
    mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    mixed ^ (mixed >> 31)
}

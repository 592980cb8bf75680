//! Chance that is the same on every machine.

/// A generator of equal chances (Steele, Lea & Flood 2014, "SplitMix"; its constants from memory).
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// Dice for one purpose of one player; neighbouring numbers throw unlike each other.
    pub fn of(player: u64, purpose: u64) -> Self {
        Dice(player.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ purpose.wrapping_mul(0xd1b5_4a32_d192_ed03))
    }

    /// A number in 0..1.
    pub fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    /// A number in `low..high`, each as likely.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.roll()
    }

    /// A number in `low..=high`, each as likely.
    pub fn whole(&mut self, low: usize, high: usize) -> usize {
        (low + (self.roll() * (high - low + 1) as f64) as usize).min(high)
    }

    /// Whether something of this chance happens.
    pub fn happens(&mut self, chance: f64) -> bool {
        self.roll() < chance
    }

    /// A positive number around `median` whose logarithm is normal with this standard deviation (the
    /// method of Box and Muller 1958).
    pub fn around(&mut self, median: f64, spread: f64) -> f64 {
        let (radius, turn) = (1.0 - self.roll(), self.roll());
        let normal = (-2.0 * radius.ln()).sqrt() * (std::f64::consts::TAU * turn).cos();
        median * (spread * normal).exp()
    }
}

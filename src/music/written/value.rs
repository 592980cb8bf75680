//! The printed note values.

use crate::music::Quarters;

/// The printed note values.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[expect(missing_docs, reason = "the names tell")]
pub enum Value {
    N128th,
    N64th,
    N32nd,
    N16th,
    Eighth,
    Quarter,
    Half,
    Whole,
    Breve,
}

impl Value {
    /// From the shortest.
    pub const ALL: [Value; 9] = [
        Value::N128th,
        Value::N64th,
        Value::N32nd,
        Value::N16th,
        Value::Eighth,
        Value::Quarter,
        Value::Half,
        Value::Whole,
        Value::Breve,
    ];

    /// Without dots.
    pub fn quarters(self) -> Quarters {
        let of_128 = 1_i64 << (self as u32);
        Quarters::ONE * of_128 / 32
    }

    /// Flags or beams: 1 for an eighth.
    pub fn flags(self) -> usize {
        (Value::Quarter as usize).saturating_sub(self as usize)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_value_is_half_the_next() {
        assert_eq!(Value::Quarter.quarters(), Quarters::ONE);
        assert!(Value::ALL.windows(2).all(|pair| pair[0].quarters() * 2 == pair[1].quarters()));
        assert_eq!([Value::Half, Value::Quarter, Value::Eighth, Value::N64th].map(Value::flags), [0, 0, 1, 4]);
    }
}

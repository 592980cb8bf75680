//! A column of numbers as bytes: small numbers take one byte (LEB128), so that what hardly changes from
//! row to row deflates to nearly nothing.

/// A column being written.
#[derive(Default)]
pub struct Column(Vec<u8>);

impl Column {
    pub fn byte(&mut self, byte: u8) {
        self.0.push(byte);
    }

    pub fn number(&mut self, mut number: u64) {
        while number >= 0x80 {
            self.0.push(number as u8 | 0x80);
            number >>= 7;
        }
        self.0.push(number as u8);
    }

    /// A number of either sign; those near zero are short.
    pub fn signed(&mut self, number: i64) {
        self.number(zigzag(number));
    }

    /// Bytes behind their number.
    pub fn part(&mut self, bytes: &[u8]) {
        self.number(bytes.len() as u64);
        self.0.extend_from_slice(bytes);
    }

    pub fn bytes(&self) -> &[u8] {
        &self.0
    }

    pub fn into_bytes(self) -> Vec<u8> {
        self.0
    }
}

/// The numbers 0, -1, 1, -2, 2, … as 0, 1, 2, 3, 4, ….
pub fn zigzag(number: i64) -> u64 {
    (number << 1 ^ number >> 63) as u64
}

pub fn unzigzag(number: u64) -> i64 {
    (number >> 1) as i64 ^ -((number & 1) as i64)
}

/// A column being read. Every reading is `None` where it has ended.
#[derive(Clone, Copy, Default)]
pub struct Reading<'a>(&'a [u8]);

impl<'a> Reading<'a> {
    pub fn new(bytes: &'a [u8]) -> Self {
        Reading(bytes)
    }

    pub fn byte(&mut self) -> Option<u8> {
        let (first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(*first)
    }

    /// Most numbers take one byte, and millions of them are read when a page opens.
    #[inline]
    pub fn number(&mut self) -> Option<u64> {
        match self.0 {
            [byte @ ..0x80, rest @ ..] => {
                self.0 = rest;
                Some(u64::from(*byte))
            }
            _ => self.long_number(),
        }
    }

    fn long_number(&mut self) -> Option<u64> {
        let (mut number, mut shift) = (0, 0);
        loop {
            let byte = self.byte()?;
            number |= u64::from(byte & 0x7f).checked_shl(shift)?;
            if byte < 0x80 {
                return Some(number);
            }
            shift += 7;
        }
    }

    pub fn signed(&mut self) -> Option<i64> {
        self.number().map(unzigzag)
    }

    /// Bytes behind their number.
    pub fn part(&mut self) -> Option<&'a [u8]> {
        let length = usize::try_from(self.number()?).ok()?;
        let (part, rest) = self.0.split_at_checked(length)?;
        self.0 = rest;
        Some(part)
    }

    pub fn has_ended(self) -> bool {
        self.0.is_empty()
    }
}

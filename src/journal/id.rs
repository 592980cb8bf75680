//! Who wrote an entry and which one it is; a piece and a snippet are named by the entry that made
//! them.

use std::{
    fmt::{self, Write},
    str::FromStr,
};

/// A device that writes entries, by a number drawn at random when it first opened the program.
/// Written in base 36: `3w5e11264sgsf`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct DeviceId(pub u64);

/// An entry: its number on its device, and the device. Written as `17-3w5e11264sgsf`.
///
/// A device numbers its entries one higher than the highest number it has seen anywhere, so the
/// order of identities puts every entry after all that its writer knew of (Lamport 1978, "Time,
/// clocks, and the ordering of events in a distributed system"; from memory). Wall clocks may
/// drift and jump; this order does not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId {
    /// Counts up from 1, above every number that its device had seen.
    pub number: u64,
    /// The device that wrote the entry.
    pub device: DeviceId,
}

/// A piece, named by the entry that added it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PieceId(pub EntryId);

/// A snippet, named by the entry that added it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SnippetId(pub EntryId);

/// A text that names no device or entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NotAnId(String);

impl fmt::Display for NotAnId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "“{}” does not name an entry; it should look like 17-3w5e11264sgsf", self.0)
    }
}

impl std::error::Error for NotAnId {}

const DIGITS: &[u8; 36] = b"0123456789abcdefghijklmnopqrstuvwxyz";

impl fmt::Display for DeviceId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        let (mut rest, mut digits, mut first) = (self.0, [0; 13], 13);
        while rest > 0 || first == 13 {
            first -= 1;
            digits[first] = DIGITS[(rest % 36) as usize];
            rest /= 36;
        }
        digits[first..].iter().try_for_each(|digit| f.write_char(char::from(*digit)))
    }
}

impl FromStr for DeviceId {
    type Err = NotAnId;
    fn from_str(text: &str) -> Result<Self, NotAnId> {
        plain_number(text, 36).map(DeviceId).ok_or_else(|| NotAnId(text.into()))
    }
}

impl fmt::Display for EntryId {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        write!(f, "{}-{}", self.number, self.device)
    }
}

impl FromStr for EntryId {
    type Err = NotAnId;
    fn from_str(text: &str) -> Result<Self, NotAnId> {
        text.split_once('-')
            .and_then(|(number, device)| {
                Some(EntryId { number: plain_number(number, 10)?, device: DeviceId(plain_number(device, 36)?) })
            })
            .filter(|id| (1..=LAST_NUMBER).contains(&id.number))
            .ok_or_else(|| NotAnId(text.into()))
    }
}

/// Highest entry number that is accepted: every JSON reader can hold it exactly (RFC 8259, 6).
const LAST_NUMBER: u64 = (1 << 53) - 1;

/// The number that `text` is the only way to write: no sign, no leading zeros, no capitals.
fn plain_number(text: &str, radix: u32) -> Option<u64> {
    let plain = text.bytes().all(|digit| digit.is_ascii_digit() || digit.is_ascii_lowercase());
    let padded = text.len() > 1 && text.starts_with('0');
    (plain && !padded).then(|| u64::from_str_radix(text, radix).ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_identity_is_read_back_as_written_and_only_so() {
        let id = EntryId { number: 17, device: DeviceId(u64::MAX) };
        assert_eq!(id.to_string(), "17-3w5e11264sgsf");
        assert_eq!(id.to_string().parse(), Ok(id));
        for wrong in ["17", "017-a", "17-A", "0-a", "17-3w5e11264sgsg", "17-", "+17-a"] {
            assert!(wrong.parse::<EntryId>().is_err(), "{wrong}");
        }
    }
}
